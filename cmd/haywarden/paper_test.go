package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestDocumentsOfAFarmAreWritten(t *testing.T) {
	d := newDesk(t)
	table := filepath.Join(t.TempDir(), "stands.csv")
	if err := os.WriteFile(table, []byte("farm,field,acres,crop,seeded\nAlder Run,Home Forty,40,alfalfa,2024-04-20\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	d.must("import", "stands", table)
	for _, what := range []string{"report", "labels"} {
		name := filepath.Join(t.TempDir(), what+".pdf")
		if out := d.must("paper", what, "Alder Run", "--out", name); !strings.Contains(out, name) {
			t.Errorf("%s: %q", what, out)
		}
		data, err := os.ReadFile(name)
		if err != nil || !bytes.HasPrefix(data, []byte("%PDF")) {
			t.Errorf("%s: %v, begins %.8q", what, err, data)
		}
	}
}
