package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/office"
)

// TestImportTells replays what a season's tables make the program say, word for word, on one book.
func TestImportTells(t *testing.T) {
	d := newDesk(t)
	const stands = "Farm,Field,Acres,Crop,Seeded,Soil\nAlder Run,Home Forty,40,alfalfa,2022-04-20,loam\nAlder Run,Back Lot,9,red clover,2023-04-20,sand\n"
	for _, c := range []struct {
		name, what, file, text string
		flags                  []string
		code                   int
		want                   string
	}{
		{"a dry run", "stands", "stands.csv", stands, []string{"--dry-run"}, exitOK,
			"2 rows read, nothing wrong: 5 would be new (1 farm, 2 fields, 2 stands), 0 would change, 0 are in the book already. Nothing was stored.\nColumns not used: Soil.\n"},
		{"stands", "stands", "stands.csv", stands, nil, exitOK, "2 rows read: 5 added (1 farm, 2 fields, 2 stands), 0 changed, 0 in the book already.\nColumns not used: Soil.\n"},
		{"stands again", "stands", "stands.csv", stands, nil, exitOK, "2 rows read. Nothing changed: all of it was in the book already.\nColumns not used: Soil.\n"},
		{"other acres", "stands", "stands.csv", strings.ReplaceAll(stands, ",40,", ",41,"), nil, exitOK, "2 rows read: 0 added, 1 changed (1 field), 4 in the book already.\nColumns not used: Soil.\n"},
		{"visits", "visits", "visits.csv", "farm;field;date;height;stage\nalder run;home forty;2026-05-18;68,5 cm;bud\nalder run;home forty;2026-05-18;27;bud\n", nil, exitOK,
			"2 rows read: 1 added (1 visit), 0 changed, 0 in the book already.\n"},
		{"prices", "prices", "prices.csv", "deck,date,line,unit,value\nMay,2026-05-01,hay-base,$/ton,200\n", nil, exitOK, "1 row read: 1 added (1 price deck), 0 changed, 0 in the book already.\n"},
		{"labs", "labs", "labs.csv", "farm,field,sampled,sample,adf,ndf\nAlder Run,Home Forty,2026-05-12,standing,27,36\n", nil, exitOK, "1 row read: 1 added (1 lab result), 0 changed, 0 in the book already.\nAlder Run · Home Forty, standing of 2026-05-12: RFV 175, from 157 to 194 with the error of 20 cores or handfuls and one laboratory.\n"},
		{"bad visits", "visits", "bad.csv", "farm,field,date,height,stage\nAlder Run,Home Forty,2026-05-18,300,bud\nAlder Run,Home Forty,4/5/2026,27,boot\n", nil, exitFailure,
			"haywarden: read bad.csv: 3 things are wrong, nothing was taken in\n" +
				"  row 2, height: \"300\": accepted 4 to 60 inches\n" +
				"  row 3, date: \"4/5/2026\": 2026-04-05 or 2026-05-04? write the date so\n" +
				"  row 3, stage: \"boot\": accepted vegetative, bud, flower\n"},
		{"visits to nowhere", "visits", "lost.csv", "farm,field,date,note\nAlder Run,Home Frty,2026-05-18,x\n", nil, exitFailure,
			"haywarden: read lost.csv: row 2, field: Alder Run has no field called \"Home Frty\"; did you mean Home Forty?; nothing was taken in\n"},
	} {
		before := d.revision()
		code, out, complaint := d.run(append([]string{"import", c.what, d.file(c.file, c.text)}, c.flags...)...)
		if diff := cmp.Diff(c.want, out+complaint); diff != "" || code != c.code {
			t.Errorf("%s: exit %d, want %d (-want +got):\n%s", c.name, code, c.code, diff)
		}
		changed := d.revision() != before
		if want := strings.Contains(c.want, " added"); changed != want {
			t.Errorf("%s: the book has changed: %t, want %t", c.name, changed, want)
		}
	}
}

func TestImportAsJSONCountsByKind(t *testing.T) {
	d := newDesk(t)
	file := d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,\n")
	var got office.ImportedRecords
	if err := json.Unmarshal([]byte(d.must("import", "stands", file, "--json")), &got); err != nil {
		t.Fatal(err)
	}
	want := office.ImportedRecords{File: "s.csv", Rows: 1, Added: 3, Kinds: []office.ImportedKind{{Kind: "farm", Added: 1}, {Kind: "field", Added: 1}, {Kind: "stand", Added: 1}}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestImportAsksForOneFileThatIsThere(t *testing.T) {
	d := newDesk(t)
	d.fails(exitFailure, []string{"none.csv", "no such file"}, "import", "stands", filepath.Join(t.TempDir(), "none.csv"))
	d.fails(exitFailure, []string{"directory"}, "import", "stands", t.TempDir())
	d.fails(exitUsage, []string{"haywarden import visits FILE"}, "import", "visits")
	if _, complaint, code := say(t, "import", "sheep", "s.csv"); code != exitUsage || !strings.Contains(complaint, "sheep") {
		t.Errorf("a table of sheep: exit %d, %q", code, complaint)
	}
	d.book = filepath.Join(t.TempDir(), "none.book")
	code, _, complaint := d.run("import", "stands", d.file("s.csv", standsHead+"A,B,9,alfalfa,2022-04-20,\n"))
	if code != exitFailure || !strings.Contains(complaint, "haywarden book new") {
		t.Errorf("a missing book: exit %d, %q", code, complaint)
	}
	if _, err := os.Stat(d.book); err == nil {
		t.Error("the missing book was made")
	}
}

func TestHelpNamesTheColumnsOfATable(t *testing.T) {
	stdout, _, code := say(t, "import", "labs", "--help")
	for _, w := range []string{"Needed columns: farm, field, sampled, sample, adf, ndf\n", "Other columns:  lab, number, lot, cutting, method, basis, cp, dm, moisture, acp, "} {
		if code != exitOK || !strings.Contains(stdout, w) {
			t.Errorf("exit %d, help without %q:\n%s", code, w, stdout)
		}
	}
}
