package main

import (
	"encoding/json"
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/storage"
)

func TestTheRoundOfABookOfOnesOwn(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,ZZT00000001\nAlder Run,Back Lot,9,red clover,2023-04-20,\n"))
	out := d.must("round", "--date", "2026-05-19")
	for _, w := range []string{"2 stands", "Cannot be judged", "No weather of station ZZT00000001 is in the book", "The field has no weather station"} {
		if !strings.Contains(out, w) {
			t.Errorf("the round does not say %q:\n%s", w, out)
		}
	}
	var file advice.RoundFile
	if err := json.Unmarshal([]byte(d.must("round", "--date", "2026-05-19", "--json")), &file); err != nil {
		t.Fatal(err)
	}
	if file.Date.String() != "2026-05-19" || file.Region != "Test counties" || file.Guide != "Kentucky" || file.Stands != 2 || len(file.Pieces) != 2 {
		t.Errorf("as JSON the round is %+v", file)
	}
	// Before a stand was seeded it is not there.
	if out := d.must("round", "--date", "2022-06-01"); !strings.Contains(out, "1 stand\n") {
		t.Errorf("in 2022 the round says\n%s", out)
	}
	if out := d.must("round", "--known", "2020-01-01"); !strings.Contains(out, "No stand grows") {
		t.Errorf("as known before the book was made the round says\n%s", out)
	}
}

func TestAStandIsFoundByItsNames(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,\nAlder Run,Bottom,9,alfalfa,2023-04-20,\nFox Hill,Bottom,9,alfalfa,2023-04-20,\n"))
	want := d.must("stand", "Alder Run Home Forty")
	if !strings.HasPrefix(want, "Alder Run · Home Forty\n") {
		t.Errorf("it says\n%s", want)
	}
	for _, name := range []string{"home forty", "HOME-FORTY", "Alder Run · Home Forty"} {
		if got := d.must("stand", name); got != want {
			t.Errorf("%s: %s", name, got)
		}
	}
	var file struct{ Farm, Field string }
	if err := json.Unmarshal([]byte(d.must("stand", "home forty", "--json", "--date", "2026-05-19")), &file); err != nil || file.Farm != "Alder Run" || file.Field != "Home Forty" {
		t.Errorf("as JSON it is %+v, %v", file, err)
	}
	d.fails(exitFailure, []string{`no growing stand is called "Home Forti"`, "did you mean Alder Run · Home Forty?"}, "stand", "Home Forti")
	d.fails(exitFailure, []string{"2 stands are called", "Alder Run · Bottom", "Fox Hill · Bottom", "give farm and field"}, "stand", "bottom")
	d.fails(exitFailure, []string{"no growing stand", "did you mean Alder Run · Home Forty?"}, "stand", "home", "--date", "2026-05-19")
	d.fails(exitFailure, []string{"no growing stand"}, "stand", "home forty", "--date", "2021-05-19")
	d.fails(exitUsage, []string{"haywarden stand NAME"}, "stand")
	d.fails(exitUsage, []string{"haywarden stand NAME"}, "stand", "home", "forty")
}

func TestADateThatIsNoneIsAMisuse(t *testing.T) {
	d := newDesk(t)
	for _, command := range [][]string{{"round"}, {"stand", "x"}, {"weather", "show"}} {
		for _, flag := range []string{"--date", "--known"} {
			for _, value := range []string{"19 May", "2026-02-30", "", "2026-05"} {
				if value == "" {
					continue
				}
				d.fails(exitUsage, []string{flag, "YYYY-MM-DD"}, append(command, flag, value)...)
			}
		}
	}
	d.must("round", "--known", "2026-05-19T07:00:00-05:00")
}

// TestNoTextSpeaksOfDangerousWorkWithoutItsCautions reads the round and the route as text and as JSON.
func TestNoTextSpeaksOfDangerousWorkWithoutItsCautions(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,\n"))
	d.must("import", "stacks", d.file("k.csv", "farm,field,date,package,moisture,core_f\nAlder Run,Home Forty,2026-06-01,round,23,\n"))
	for _, args := range [][]string{{"round"}, {"route"}, {"stand", "Home Forty"}, {"round", "--json"}, {"route", "--json"}, {"stand", "Home Forty", "--json"}} {
		out := strings.Join(strings.Fields(d.must(append(args, "--date", "2026-06-03")...)), " ")
		if !strings.Contains(out, "Check that stack") {
			t.Errorf("%v says nothing of the stack:\n%s", args, out)
		}
		for _, c := range []storage.Caution{storage.ProbeRight, storage.KeepLooking, storage.SmellIsFire, storage.NeverAlone, storage.CallFirst} {
			if !strings.Contains(out, string(c)) {
				t.Errorf("%v speaks of the stack without: %s", args, c)
			}
		}
	}
}
