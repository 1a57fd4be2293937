package main

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestMoneyAndNeedOnTheCommandLine(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,ZZT00000001\n"))
	if out := d.must("prices"); !strings.Contains(out, "No price is entered") || strings.Contains(out, "$/ton DM") {
		t.Errorf("without a price: %q", out)
	}
	if out := d.must("prices", "--lines"); !strings.Contains(out, "hay-base               not entered; 20 to 800 $/ton") {
		t.Errorf("the lines: %q", out)
	}
	d.must("import", "prices", d.file("p.csv", "deck,farm,date,line,unit,value\nMay,,2026-01-02,corn,$/bu,4.5\nMay,,2026-01-02,meal,$/ton,380\nOwn,Alder Run,2026-01-02,milk,$/cwt,20\n"))
	if out := d.must("prices", "--farm", "alder run", "--nel", "0.6"); !strings.Contains(out, "OLD:") || !strings.Contains(out, "own Own, 2026-01-02") || !strings.Contains(out, "$192/ton DM") {
		t.Errorf("with prices: %q", out)
	}
	d.fails(exitUsage, []string{"protein 55: accepted 4 to 35"}, "prices", "--cp", "55")
	if out := d.must("herd", "Alder Run"); !strings.Contains(out, "No herd was told") || !strings.Contains(out, "Missing: the farm's machines") {
		t.Errorf("no herd: %q", out)
	}
	d.must("import", "herd", d.file("h.csv", "farm,group,kind,head,weight,milk,fat,days_in_milk,forage_share,legume_share\nAlder Run,high,cows,80,1500,90,3.8,120,50%,45%\n"))
	d.must("import", "machines", d.file("m.csv", "farm,machine,kind,width,crew_hours\nAlder Run,mower,disc mower,12,\nAlder Run,chopper,pull-chopper,10,\nAlder Run,crew,crew,,9\n"))
	if out := d.must("herd", "Alder Run"); !strings.Contains(out, "by edition 2021") || !strings.Contains(out, "set by chopping") || !strings.Contains(out, "legume") {
		t.Errorf("a herd: %q", out)
	}
	var need struct {
		Need struct {
			Head   int     `json:"head"`
			Forage float64 `json:"forage_tons"`
		} `json:"need"`
	}
	if err := json.Unmarshal([]byte(d.must("herd", "Alder Run", "--json")), &need); err != nil || need.Need.Head != 80 || need.Need.Forage < 300 {
		t.Errorf("%+v, %v", need, err)
	}
	if out := d.must("budget", "Alder Run"); !strings.Contains(out, "Missing: rent of land (line land-rent in $/ac)") {
		t.Errorf("a budget without prices: %q", out)
	}
	if out := d.must("fertilizer", "Alder Run"); !strings.Contains(out, "no price of a product that carries it is entered") || strings.Contains(out, "$ ") {
		t.Errorf("fertilizer without prices: %q", out)
	}
	d.must("import", "prices", d.file("f.csv", "deck,farm,date,line,unit,value\nMay,,2026-01-03,potash,$/ton,480\nMay,,2026-01-03,map,$/ton,760\n"))
	if out := d.must("fertilizer", "Alder Run", "--nitrogen", "25"); !strings.Contains(out, "the least costly of the products that have a price") || !strings.Contains(out, "price: potash 480 $/ton") {
		t.Errorf("fertilizer: %q", out)
	}
	d.fails(exitFailure, []string{"nitrogen 300 lb/ac: accepted 0 to 100"}, "fertilizer", "Alder Run", "--nitrogen", "300")
	d.fails(exitFailure, []string{`no farm is called "Elder Run"; did you mean Alder Run?`}, "budget", "Elder Run")
	d.fails(exitFailure, []string{"cuts 20: accepted 1 to 9"}, "budget", "Alder Run", "--cuts", "20")
	d.fails(exitFailure, []string{"chance of rain 1 is 3: accepted 0 to 1"}, "weigh", "Home Forty", "--rain", "3")
	d.fails(exitFailure, []string{"accepted by the average, a little careful"}, "weigh", "Home Forty", "--careful", "bold")
	if out := d.must("weigh", "Home Forty"); !strings.Contains(out, "nobody has said how careful") || !strings.Contains(out, "Missing: a price of hay") {
		t.Errorf("weighing: %q", out)
	}
}
