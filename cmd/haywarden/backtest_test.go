package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
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
		"no trial named": {"backtest", file, "--lat", "42.955"},
	} {
		if out, errs, code := say(t, args...); code != 2 || out != "" || errs == "" {
			t.Errorf("%s: exit %d, %q, %q", name, code, out, errs)
		}
	}
	if _, errs, code := say(t, "backtest", file, "--lat", "42.955", "--agreement", "--from", "2015"); code != 1 || !strings.Contains(errs, "10 at least") {
		t.Errorf("six years: exit %d, %q", code, errs)
	}
}
