package main

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestTheWinterOnTheCommandLine(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,ZZT00000001\nAlder Run,Rill,10,red clover,2024-04-20,ZZT00000001\n"))
	d.must("import", "visits", d.file("v.csv", "farm,field,date,crown_ratings,hardiness,drainage\nAlder Run,Home Forty,2025-10-14,6/5/4/3/1/1,moderate,poor\n"))
	out := d.must("winter", "--date", "2026-04-10")
	for _, want := range []string{"Visit first", "Alder Run · Home Forty: 2 to 75 % of the year's yield", "a station that reported", "Not judged: 1 of red clover", "No station reported enough of the winter", "count the stems the mower would take"} {
		if !strings.Contains(out, want) {
			t.Errorf("without weather: %q does not say %q", out, want)
		}
	}
	if out := d.must("winter", "--date", "2026-04-10", "--message"); strings.Contains(out, "Home Forty") {
		t.Errorf("words for many name one: %q", out)
	}
	var file struct {
		Stands []struct {
			Field  string  `json:"field"`
			High   float64 `json:"loss_high"`
			Change string  `json:"would_change"`
		} `json:"stands"`
	}
	if err := json.Unmarshal([]byte(d.must("winter", "--date", "2026-04-10", "--json")), &file); err != nil || len(file.Stands) != 1 || file.Stands[0].High != 0.75 {
		t.Errorf("%+v, %v", file, err)
	}
}
