package main

import (
	"encoding/json"
	"strings"
	"testing"

	"haywarden/office"
)

// TestTheSoilOfAFieldIsSaidAndItsGuidesChosen replays what somebody does with a first soil test.
func TestTheSoilOfAFieldIsSaidAndItsGuidesChosen(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", "farm,field,acres,crop,seeded\nAlder Run,Home Forty,40,alfalfa,2022-04-20\n"))
	out := d.must("soil", "Alder Run/Home Forty")
	if !strings.Contains(out, "No soil test is in the book. Measure next: pH with buffer, P and K") {
		t.Errorf("without a test:\n%s", out)
	}
	d.must("import", "soil", d.file("soil.csv", "farm,field,sampled,ph,buffer-sikora,p-mehlich3 ppm,k-mehlich3 ppm,cec\nAlder Run,Home Forty,2026-04-02,6.1,6.5,22,90,12\n"))
	if code, _, complaint := d.run("soil", "guides", "--lime", "ohoi"); code == 0 || !strings.Contains(complaint, "did you mean ohio?") {
		t.Errorf("exit %d: %s", code, complaint)
	}
	d.must("soil", "guides", "--lime", "ohio", "--fertility", "tri-state-2020")
	if out = d.must("soil", "guides", "--lime", "ohio", "--fertility", "tri-state-2020"); !strings.Contains(out, "Nothing changed") {
		t.Errorf("chosen twice: %s", out)
	}
	out = d.must("soil", "Home Forty")
	for _, want := range []string{
		"Water pH", "6.1", "90 ppm by mehlich-3", "under the critical level (Tri-State 2020)",
		"Lime, by the Ohio guide:", "tons an acre of ground limestone of neutralizing value 90 %, mixed into 8 in", "Phosphate and potash, by the Tri-State 2020 guide:",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	var got office.FieldSoil
	if err := json.Unmarshal([]byte(d.must("soil", "Home Forty", "--json")), &got); err != nil || got.Guides.Lime != "ohio" || len(got.Tests) != 1 {
		t.Errorf("%+v, %v", got, err)
	}
	if err := json.Unmarshal([]byte(d.must("soil", "Home Forty", "--date", "2026-04-01", "--json")), &got); err != nil || len(got.Tests) != 0 {
		t.Errorf("before the test was taken: %+v, %v", got.Tests, err)
	}
}
