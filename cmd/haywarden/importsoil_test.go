package main

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const soilProposal = `soil.csv, a table of a laboratory not known yet, would be read so:

  COLUMN           IS            IN   MEANING
  Client           farm               farm
  Field ID         field              field
  Date sampled     sampled            day the sample was taken
  Water pH         ph                 pH in water
  BpH              buffer             buffer pH, by the buffer said elsewhere
  Bray P1 ppm      p-bray        ppm  phosphorus by bray-p1
  K (Mehlich-3)    k-mehlich3    ppm  potassium by mehlich-3

Not used: Remarks.
`

// TestASoilLaboratorysTableIsShownConfirmedAndRemembered replays a laboratory's first tables of soil, and
// what was spread after them.
func TestASoilLaboratorysTableIsShownConfirmedAndRemembered(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", "farm,field,acres,crop,seeded\nAlder Run,Home Forty,40,alfalfa,2022-04-20\n"))
	file := d.file("soil.csv", "Client;Field ID;Date sampled;Water pH;BpH;Bray P1 ppm;K (Mehlich-3);Remarks\nAlder Run;Home Forty;2026-04-02;6,1;6,6;18;105;ok\n")
	code, out, _ := d.run("import", "soil", file)
	if code != exitFailure || !strings.Contains(out, "Look at: K (Mehlich-3) is left out: it says no unit; name it, one of ppm, lb/ac.") {
		t.Errorf("exit %d, %s", code, out)
	}
	mapped := []string{"import", "soil", file, "--map", "K (Mehlich-3)=k-mehlich3:ppm"}
	_, out, _ = d.run(mapped...)
	cells := strings.Fields(soilProposal)
	if diff := cmp.Diff(cells, strings.Fields(out)[:len(cells)]); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if strings.Contains(out, "Shares are of") {
		t.Errorf("a soil test is asked for its basis:\n%s", out)
	}
	_, out, complaint := d.run(append(mapped, "--lab", "Valley", "--confirm")...)
	if want := `row 2, BpH: "6,6": a buffer pH without its buffer`; !strings.Contains(complaint, want) {
		t.Errorf("%s%s\nwant %s", out, complaint, want)
	}
	out = d.must(append(mapped, "--lab", "Valley", "--confirm", "--say", "buffer-by=sikora")...)
	want := "1 row read: 2 added (1 table form, 1 soil test), 0 changed, 0 in the book already.\nColumns not used: Remarks.\nThe form of Valley is confirmed.\n" +
		"Alder Run · Home Forty, 2026-04-02: pH 6.1, buffer 6.6 (sikora), P 18 ppm by bray-p1, K 105 ppm by mehlich-3.\n"
	if diff := cmp.Diff(want, out); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	out = d.must("import", "applications", d.file("a.csv", "farm,field,date,material,rate\nAlder Run,Home Forty,2026-04-10,0-0-60,200 lb/ac\n"))
	if want := "1 row read: 1 added (1 application), 0 changed, 0 in the book already.\n"; out != want {
		t.Errorf("%q, want %q", out, want)
	}
}
