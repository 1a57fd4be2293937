package main

import (
	"strings"
	"testing"
)

// A farm of which nothing is told says what to bring, and no day that is not known.
func TestAFarmWithoutStoresOrHerdSaysWhatToBring(t *testing.T) {
	d := newDesk(t)
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,\n"))
	for _, command := range []string{"feed", "allocate"} {
		out := d.must(command, "Alder Run", "--date", "2026-05-19")
		if !strings.Contains(out, "haywarden import feed FILE.csv") || strings.Contains(out, "1970") {
			t.Errorf("%s says\n%s", command, out)
		}
		if out := d.must(command, "Alder Run", "--date", "2026-05-19", "--json"); !strings.Contains(out, `"none"`) || strings.Contains(out, "1970") {
			t.Errorf("%s says as JSON\n%s", command, out)
		}
	}
}
