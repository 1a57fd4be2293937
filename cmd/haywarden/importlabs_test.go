package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/office"
)

const valleyTable = "Lab No;Client;Description;Date sampled;Feed type;NDF %DM;ADF %DM;CP as fed;CP % DM;NEL;Lignin % NDF;Remarks\n" +
	"11;Alder Run;Home Forty;2026-05-12;Legume hay;40;30;17,6;20;0,65;17;ok\n"

const valleyProposal = `valley.csv, a table of a laboratory not known yet, would be read so:

  COLUMN        IS       IN               MEANING
  Lab No        number                    the laboratory's number of the sample
  Client        farm                      farm
  Description   field                     field
  Date sampled  sampled                   day the sample was taken
  Feed type     sample                    standing, hay, haylage or baleage
  NDF %DM       ndf      % of dry matter  neutral detergent fibre, with amylase, ash included, % of dry matter
  ADF %DM       adf      % of dry matter  acid detergent fibre, % of dry matter
  CP % DM       cp       % of dry matter  crude protein, % of dry matter

Not used: Remarks.

Look at: CP % DM and CP as fed both say cp: CP % DM is used, CP as fed left out.
Look at: NEL is left out: it says no unit; name it, one of Mcal/kg, Mcal/lb, Mcal/cwt, MJ/kg.
Look at: Lignin % NDF is left out: it is a share of NDF, and lignin is acid detergent lignin, % of dry matter.
Shares are of: dry matter.
Where it is right, run the same again with --confirm --lab NAME; the book then remembers it for that laboratory.
`

// TestAStrangersTableIsShownConfirmedAndRemembered replays the three runs of a laboratory's first
// tables, word for word.
func TestAStrangersTableIsShownConfirmedAndRemembered(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", "farm,field,acres,crop,seeded\nAlder Run,Home Forty,40,alfalfa,2022-04-20\n"))
	first := d.revision()
	file := d.file("valley.csv", valleyTable)
	code, out, complaint := d.run("import", "labs", file)
	if diff := cmp.Diff(valleyProposal, out); diff != "" || code != exitFailure {
		t.Errorf("exit %d (-want +got):\n%s", code, diff)
	}
	if want := "haywarden: read valley.csv: nothing was taken in: what each column says has to be confirmed first\n"; complaint != want {
		t.Errorf("complaint %q, want %q", complaint, want)
	}
	var asked office.LabsBrought
	if _, out, _ = d.run("import", "labs", file, "--json"); json.Unmarshal([]byte(out), &asked) != nil || asked.Proposal == nil {
		t.Errorf("as JSON: %s", out)
	}
	if d.revision() != first {
		t.Error("the book has changed before anything was confirmed")
	}
	want := "1 row read: 2 added (1 table form, 1 lab result), 0 changed, 0 in the book already.\n" +
		"Columns not used: CP as fed, Lignin % NDF, Remarks.\nThe form of Valley is confirmed.\n" +
		"Warning: row 2, nel: nel depends on the laboratory's equation, which is not known: compare within one laboratory only.\n" +
		"Alder Run · Home Forty, hay of 2026-05-12: RFV 152, from 138 to 167 with the error of 20 cores or handfuls and one laboratory.\n"
	if diff := cmp.Diff(want, d.must("import", "labs", file, "--lab", "Valley", "--map", "NEL=nel:Mcal/lb", "--confirm")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	want = "1 row read. Nothing changed: all of it was in the book already.\nColumns not used: CP as fed, Lignin % NDF, Remarks.\n" +
		"Read by the form of Valley that the book remembers.\n" +
		"Warning: row 2, nel: nel depends on the laboratory's equation, which is not known: compare within one laboratory only.\n"
	if diff := cmp.Diff(want, d.must("import", "labs", file)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	bad := d.file("bad.csv", valleyTable+"12;Alder Run;Home Forty;2026-05-13;Legume hay;30;40;;;;;\n13;Alder Run;Home Forty;2026-05-14;Legume hay;41;31;;;;;\n")
	d.fails(exitFailure, []string{`row 3, ADF %DM: "40": ADF 40 is not under NDF 30`}, "import", "labs", bad)
	if out := d.must("import", "labs", bad, "--keep-rest"); !strings.Contains(out, "1 added (1 lab result)") || !strings.Contains(out, `Left out: row 3, ADF %DM: "40": ADF 40 is not under NDF 30: ADF is a part of NDF, check which is which.`) {
		t.Errorf("with the rest kept: %s", out)
	}
	for _, c := range []struct {
		flag, value, want string
	}{
		{"--map", "NEL", `--map "NEL": want COLUMN=code`},
		{"--map", "Nell=nel", `no column is headed "Nell"`},
		{"--say", "colour=green", `--say "colour=green": want one of farm, field`},
		{"--basis", "wet", "--basis wet: accepted dm, as-fed, row"},
	} {
		d.fails(exitFailure, []string{c.want}, "import", "labs", file, c.flag, c.value)
	}
}
