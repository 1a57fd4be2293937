package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A plan made on 1 June from a file that ends in May is the plan made from one that goes on: nothing after
// the date is used.
func TestThePlanOfADateUsesNothingAfterIt(t *testing.T) {
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the record of USW00014839 is not committed; set it to the folder that holds USW00014839.dly")
	}
	whole := filepath.Join(dir, "USW00014839.dly")
	text, err := os.ReadFile(whole)
	if err != nil {
		t.Fatal(err)
	}
	var until strings.Builder
	for line := range strings.Lines(string(text)) {
		if line[11:17] <= "202005" {
			until.WriteString(line)
		}
	}
	short := filepath.Join(t.TempDir(), "USW00014839.dly")
	if err := os.WriteFile(short, []byte(until.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	ask := func(file string) string {
		out, errs, code := say(t, "plan", file, "--lat", "42.955", "--date", "2020-06-01", "--hay", "176", "--point", "1.3", "--per-cut", "45")
		if code != 0 {
			t.Fatalf("exit %d: %s", code, errs)
		}
		return out
	}
	a, b := ask(whole), ask(short)
	if a != b {
		t.Errorf("from the whole file\n%s\nfrom what was known\n%s", a, b)
	}
	for _, want := range []string{"Good weather told", "The plan's next cut: 2020-06-", "2020-06-10", "calendar"} {
		if !strings.Contains(a, want) {
			t.Errorf("no %q in\n%s", want, a)
		}
	}
	for name, args := range map[string][]string{
		"no date":         {"plan", whole, "--lat", "42.955"},
		"no such caution": {"plan", whole, "--lat", "42.955", "--date", "2020-06-01", "--caution", "bold"},
		"reserve over 1":  {"plan", whole, "--lat", "42.955", "--date", "2020-06-01", "--reserve", "2"},
		"cut is no date":  {"plan", whole, "--lat", "42.955", "--date", "2020-06-01", "--cut", "May"},
	} {
		if out, errs, code := say(t, args...); code != 2 || out != "" || errs == "" {
			t.Errorf("%s: exit %d, %q, %q", name, code, out, errs)
		}
	}
	if _, errs, code := say(t, "plan", whole, "--lat", "42.955", "--date", "2020-06-01", "--cut", "2020-01-05"); code != 1 || !strings.Contains(errs, "a cut on 2020-01-05") {
		t.Errorf("a cut in January: exit %d, %q", code, errs)
	}
}
