package main

import (
	"strings"
	"testing"
)

const stacksHead = "farm,field,date,package,moisture,core_f\n"

const standsHead = "farm,field,acres,crop,seeded,station\n"

func TestTablesComeInOnce(t *testing.T) {
	d := newDesk(t)
	for _, c := range []struct{ what, text, first string }{
		{"stands", standsHead + "Alder Run,Home Forty,40,alfalfa,2022-04-20,ZZT00000001\nAlder Run,Back Lot,9,red clover,2023-04-20,\n", "2 rows read: 5 added"},
		{"stands", "\ufefffarm;field;acres;crop;seeded\r\nCôté;Low Ground;7,5;alfalfa;2024-04-20\r\n", "1 row read: 3 added"},
		{"stands", "farm\tfield\tacres\tcrop\tseeded\nC\xf4te Hill\tTop\t11\talfalfa\t2024-04-20\n", "1 row read: 3 added"},
		{"visits", "farm,field,date,height,stage\nalder run,home forty,2026-05-18,27,bud\nalder run,home forty,2026-05-18,68.5 cm,bud\n", "2 rows read: 1 added (1 visit)"},
		{"prices", "deck,date,line,unit,value\nMay,2026-05-01,hay-base,$/ton,200\n", "1 row read: 1 added"},
		{"stacks", "farm,field,date,package,moisture,place,treated,core,stack\nAlder Run,Home Forty,2026-05-10,rounds,22%,barn,no,,\nAlder Run,Home Forty,2026-05-14,,,,,48 C,2026-05-10\n", "2 rows read: 2 added (1 stack, 1 stack reading)"},
		{"feed", "farm,lot,date,store,fields,cutting,length,diameter,density,density_by,rfq,removed,fed,group\nAlder Run,first bag,2026-06-01,bag,Home Forty,1,150,9,12.5,cores,151,,,\nAlder Run,first bag,2026-06-25,,,,,,,,,20,,\nAlder Run,first bag,2026-06-25,,,,,,,,,,1200 lb/day,\n", "3 rows read: 3 added (1 feed lot, 1 feed left, 1 feeding)"},
	} {
		file := d.file("t.csv", c.text)
		if out := d.must("import", c.what, file, "--dry-run"); !strings.Contains(out, "Nothing was stored") {
			t.Errorf("a dry run of %q says %q", c.text, out)
		}
		if out := d.must("import", c.what, file); !strings.Contains(out, c.first) {
			t.Errorf("%q: first it says %q, want %q", c.text, out, c.first)
		}
		revision := d.revision()
		if out := d.must("import", c.what, file); !strings.Contains(out, "Nothing changed") || d.revision() != revision {
			t.Errorf("%q: then it says %q", c.text, out)
		}
	}
	for _, name := range []string{"Home Forty", "Côté Low Ground", "Côte Hill Top"} {
		d.must("stand", name)
	}
}

func TestABadTableChangesNothing(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("good.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,\n"))
	good := "Alder Run,Back Lot,18,alfalfa,2022-04-20,\n"
	visits := "farm,field,date,height,stage\nAlder Run,Home Forty,2026-05-11,25,bud\n"
	for name, c := range map[string]struct {
		what, text string
		want       []string
	}{
		"empty.csv":    {"stands", "", []string{"empty"}},
		"header.csv":   {"stands", standsHead, []string{"no rows"}},
		"column.csv":   {"stands", "farm,field,acres,crop\nA,B,1,alfalfa\n", []string{"seeded"}},
		"short.csv":    {"stands", standsHead + good + "Alder Run,Low\n", []string{"row 3"}},
		"acres.csv":    {"stands", standsHead + good + "Alder Run,Low,0,alfalfa,2022-04-20,\n", []string{"row 3", "acres", "accepted 0.1 to 2000"}},
		"crop.csv":     {"stands", standsHead + good + "Alder Run,Low,4,oats,2022-04-20,\n", []string{"row 3", "crop", "oats", "red clover"}},
		"seeded.csv":   {"stands", standsHead + good + "Alder Run,Low,4,alfalfa,20 April,\n", []string{"row 3", "seeded"}},
		"future.csv":   {"stands", standsHead + good + "Alder Run,Low,4,alfalfa,2099-04-20,\n", []string{"row 3", "seeded", "2099-04-20", "after today"}},
		"height.csv":   {"visits", visits + "Alder Run,Home Forty,2026-05-18,300,bud\n", []string{"row 3", "height", "accepted 4 to 60"}},
		"stage.csv":    {"visits", visits + "Alder Run,Home Forty,2026-05-18,27,budding\n", []string{"row 3", "stage", "budding", "vegetative, bud, flower"}},
		"tomorrow.csv": {"visits", visits + "Alder Run,Home Forty,2099-05-18,27,bud\n", []string{"row 3", "date", "after today"}},
		"nofield.csv":  {"visits", visits + "Alder Run,Nowhere,2026-05-18,27,bud\n", []string{"row 3", "Nowhere"}},
		"core.csv":     {"stacks", stacksHead + "Alder Run,Home Forty,2026-05-10,round,19,\nAlder Run,Home Forty,2026-05-14,,,9000\n", []string{"row 3", "core", "9000", "accepted"}},
		"package.csv":  {"stacks", stacksHead + "Alder Run,Home Forty,2026-05-10,loaf,19,\n", []string{"row 2", "package", "loaf", "small-square"}},
		"sodden.csv":   {"stacks", stacksHead + "Alder Run,Home Forty,2026-05-10,round,190,\n", []string{"row 2", "moisture", "accepted"}},
		"nothing.csv":  {"stacks", stacksHead + "Alder Run,Home Forty,2026-05-10,,19,\n", []string{"row 2", "package"}},
		"nostack.csv":  {"stacks", stacksHead + "Alder Run,Home Forty,2026-05-14,,,120\n", []string{"row 2", "no stack of Home Forty", "put it up first"}},
		"price.csv":    {"prices", "deck,date,line,unit,value\nMay,2026-05-01,hay-base,$/ton,dear\n", []string{"row 2", "value", "dear"}},
	} {
		d.fails(exitFailure, append(c.want, name, "nothing was taken in"), "import", c.what, d.file(name, c.text))
	}
	if out := d.must("book", "show"); !strings.Contains(out, "1 farm, 1 stand growing") {
		t.Errorf("the book holds %q", out)
	}
}
