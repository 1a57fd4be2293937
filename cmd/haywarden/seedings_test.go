package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestAPlannedSeedingComesFromATableToItsPaper(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,red clover,2022-04-20,ZZT00000001\n"))
	plans := d.file("p.csv", "farm,field,date,season,year,crop,species,variety,pure_lb,purity,germination,price,bag\n"+
		"Alder Run,Home Forty,2026-02-01,late summer,2026,alfalfa,alfalfa,Aster,14,66%,90%,4.9,50\nAlder Run,Home Forty,2026-02-01,late summer,2026,alfalfa,alfalfa,Briar,14,99%,90%,5.2,50\n")
	if out := d.must("import", "seedings", plans); !strings.Contains(out, "1 added (1 planned seeding)") {
		t.Error(out)
	}
	if out := d.must("round", "--date", "2026-06-20"); !strings.Contains(out, "Order seed by 20 June") || !strings.Contains(out, "13 bags (629 lb) of alfalfa Briar") {
		t.Error(out)
	}
	pdf := filepath.Join(t.TempDir(), "o.pdf")
	d.must("paper", "seed-order", "Alder Run", "--date", "2026-06-20", "--out", pdf)
	if data, err := os.ReadFile(pdf); err != nil || !strings.HasPrefix(string(data), "%PDF") {
		t.Errorf("the list of seed: %v", err)
	}
	d.fails(exitFailure, []string{"accepted spring, late-summer"}, "import", "seedings", d.file("w.csv", "farm,field,season,year,crop,species,pure_lb\nAlder Run,Home Forty,winter,2027,alfalfa,alfalfa,14\n"))
}
