package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// bookless runs commands that touch no book.
type bookless struct{ t *testing.T }

func (b bookless) must(args ...string) string {
	b.t.Helper()
	out, complaint, code := say(b.t, args...)
	if code != exitOK {
		b.t.Fatalf("%v: exit %d: %s", args, code, complaint)
	}
	return out
}

func (b bookless) fails(word string, args ...string) {
	b.t.Helper()
	out, complaint, code := say(b.t, args...)
	if code != exitFailure || out != "" || !strings.Contains(complaint, word) {
		b.t.Errorf("%v: exit %d, %q; want %q", args, code, complaint, word)
	}
}

func (b bookless) file(name, text string) string {
	b.t.Helper()
	path := filepath.Join(b.t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		b.t.Fatal(err)
	}
	return path
}

const twoSites = "Cultivar,Site,Harvest year,yield,rfq,winter\n" +
	"Aster,North,2024,5.1,150,3\nBriar,North,2024,5.9,149,2\nClary,North,2024,4.8,158,4\n" +
	"Aster,South,2024,4.1,151,3\nBriar,South,2024,5.0,146,2\nClary,South,2024,4.2,157,4\n" +
	"Aster,North,2025,6.2,153,3\nBriar,North,2025,6.8,150,2\nClary,North,2025,5.7,160,4\n" +
	"Aster,South,2025,5.5,148,3\nBriar,South,2025,6.3,147,2\n"

func TestATrialIsJudgedAndChosenFromOnTheCommandLine(t *testing.T) {
	d := bookless{t}
	file := d.file("t.csv", twoSites)
	out := d.must("trial", "analyse", file, "--trait", "yield", "--check", "Aster")
	for _, want := range []string{"3 entries in 4 environments, 11 values", "Briar has the highest shrunken mean", "LSD", "Best of all", "with 4 environments nothing is known", "1 of 12 cells"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	var sheet struct {
		Tables []struct {
			Key  string           `json:"key"`
			Rows []map[string]any `json:"rows"`
		} `json:"tables"`
	}
	if err := json.Unmarshal([]byte(d.must("trial", "analyse", file, "--json")), &sheet); err != nil || sheet.Tables[0].Rows[0]["entry"] != "Briar" || sheet.Tables[0].Rows[0]["best"].(float64) <= 0.5 {
		t.Errorf("%+v, %v", sheet, err)
	}
	out = d.must("trial", "shortlist", file, "--weight", "yield=1", "--weight", "winter=0.2:lower", "--limit", "winter<=3", "--check", "Aster", "--hay", "110")
	if !strings.Contains(out, "2 of 3 entries pass the limits. Briar stands first") || !strings.Contains(out, "winter 4 is over 3") {
		t.Errorf("a shortlist: %s", out)
	}
	pdf := d.file("s.pdf", "")
	d.must("trial", "shortlist", file, "--weight", "yield=1", "--out", pdf)
	if data, err := os.ReadFile(pdf); err != nil || !strings.HasPrefix(string(data), "%PDF") {
		t.Errorf("the shortlist's paper: %v", err)
	}
	d.fails(`no column "height" of numbers; those are yield, rfq, winter`, "trial", "analyse", file, "--trait", "height")
	d.fails("no trait is weighted", "trial", "shortlist", file)
	d.fails("no column Sort", "trial", "analyse", file, "--entry", "Sort")
}

func TestThePlanOfATrialIsTheSameForASeed(t *testing.T) {
	d := bookless{t}
	ask := []string{"trial", "design", "--entries", "Aster,Briar,Clary,Dill", "--cv", "8", "--difference", "15", "--seed", "7"}
	first := d.must(ask...)
	if first != d.must(ask...) || !strings.Contains(first, "4 entries in 6 blocks, 24 plots, drawn from seed 7") {
		t.Errorf("a plan: %s", first)
	}
	plan := d.file("plan.csv", "")
	d.must(append(ask, "--out", plan)...)
	data, err := os.ReadFile(plan)
	if err != nil || strings.Count(string(data), "\n") != 25 || !strings.HasPrefix(string(data), "plot,block,entry\n101,1,") {
		t.Errorf("the plan's file: %s, %v", data, err)
	}
	d.fails("blocks 1: give 2 at least", append(ask, "--blocks", "1")...)
	d.fails("1 entries: give 2 at least", "trial", "design", "--entries", "Aster")
}
