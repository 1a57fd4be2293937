package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/season"
)

func TestBacktestSetsPublishedYieldsBesideTheModels(t *testing.T) {
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the record of USW00014839 is not committed; set it to the folder that holds USW00014839.dly")
	}
	file := filepath.Join(dir, "USW00014839.dly")
	out, errs, code := say(t, "backtest", file, "--lat", "42.955", "--agreement")
	if code != 0 || !strings.Contains(out, "four cuts a year, t/ac") || !strings.Contains(out, "4.61") || !strings.Contains(out, "missed") {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	for name, args := range map[string][]string{
		"no place":       {"backtest", file, "--agreement"},
		"years reversed": {"backtest", file, "--lat", "42.955", "--agreement", "--from", "1990", "--to", "1980"},
		"no product":     {"backtest", file, "--lat", "42.955", "--product", "silk"},
		"a price below":  {"backtest", file, "--lat", "42.955", "--hay", "-3"},
	} {
		if out, errs, code := say(t, args...); code != 2 || out != "" || errs == "" {
			t.Errorf("%s: exit %d, %q, %q", name, code, out, errs)
		}
	}
	if _, errs, code := say(t, "backtest", file, "--lat", "42.955", "--agreement", "--from", "2015"); code != 1 || !strings.Contains(errs, "10 at least") {
		t.Errorf("six years: exit %d, %q", code, errs)
	}
}

// Over years that each were planned for from the others, whoever had known the year does better: the plan
// knows nothing that it cannot. And it is worth more than cutting at one-tenth bloom.
func TestBacktestPlansEachYearFromTheOthers(t *testing.T) {
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the record of USW00014839 is not committed; set it to the folder that holds USW00014839.dly")
	}
	args := []string{"backtest", filepath.Join(dir, "USW00014839.dly"), "--lat", "42.955", "--from", "2001", "--to", "2012", "--hay", "176", "--point", "1.3", "--per-cut", "45", "--json"}
	out, errs, code := say(t, args...)
	if code != 0 {
		t.Fatalf("exit %d: %s", code, errs)
	}
	var trial season.Trial
	if err := json.Unmarshal([]byte(out), &trial); err != nil {
		t.Fatal(err)
	}
	plan, known := trial.Ways[0], trial.Ways[len(trial.Ways)-1]
	if len(trial.Years) != 12 || !(known.Against > 0) || !(known.Worth > plan.Worth) {
		t.Errorf("%d years, plan %.0f, foresight %.0f $/ac", len(trial.Years), plan.Worth, known.Worth)
	}
	for _, w := range trial.Ways {
		if w.Name == "one-tenth bloom, each growth" && !(w.Worth < plan.Worth) {
			t.Errorf("%s: %.0f $/ac, the plan %.0f", w.Name, w.Worth, plan.Worth)
		}
	}
	if again, _, _ := say(t, args...); again != out {
		t.Error("the same trial came out differently")
	}
}
