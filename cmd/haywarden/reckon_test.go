package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/reckon"
)

// TestReckonReadsAFileOfDailyWeather proves that a list may come from the column of a file.
func TestReckonReadsAFileOfDailyWeather(t *testing.T) {
	file := filepath.Join(t.TempDir(), "april.csv")
	if err := os.WriteFile(file, []byte("date,tmin,tmax\n2026-04-01,40,60\n2026-04-02,50,70\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	stdout, stderr, code := say(t, "reckon", "degree-days", "method=average", "unit=F", "base=41", "@"+file, "--json")
	if code != exitOK || !strings.Contains(stdout, `"outputs":{"daily":[9,19],"total":28}`) || !strings.Contains(stdout, "columns not used: date") {
		t.Errorf("exit %d, %s%s", code, stdout, stderr)
	}
}

// TestJSONIsTheSameBytesEachTime proves that answers can be compared and kept by their bytes.
func TestJSONIsTheSameBytesEachTime(t *testing.T) {
	for _, d := range reckon.Disciplines() {
		for _, m := range d.Methods {
			args := append([]string{"reckon", m.Name, "--json"}, strings.Fields(m.Example)...)
			first, _, _ := say(t, args...)
			if again, _, code := say(t, args...); first != again || code != exitOK {
				t.Errorf("%s: exit %d, two answers:\n%s%s", m.Name, code, first, again)
			}
		}
	}
}

func TestTheShellIsOfferedNamesAndThenKeys(t *testing.T) {
	stdout, _, _ := say(t, "__complete", "reckon", "")
	if !strings.Contains(stdout, "rfv\tRelative feed value\n") {
		t.Errorf("offered %q, want the names", stdout)
	}
	stdout, _, _ = say(t, "__complete", "reckon", "rfv", "adf=30", "")
	if !strings.Contains(stdout, "ndf=\t") || strings.Contains(stdout, "adf=\t") {
		t.Errorf("offered %q, want the keys not yet given", stdout)
	}
}
