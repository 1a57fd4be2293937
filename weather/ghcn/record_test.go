package ghcn

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// today is late enough for every record here.
var today = unit.DateOf(2026, 11, 1)

// dataFile reads a record that may be used but not committed. Without it the test is skipped.
func dataFile(tb testing.TB, name string) []byte {
	tb.Helper()
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		tb.Skip("HAYWARDEN_DATA is not set: the Milwaukee record (GHCN-Daily USW00014839) is not committed; set it to the folder that holds " + name)
	}
	b, err := os.ReadFile(filepath.Join(dir, name))
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// one reads a file that holds a single station.
func one(tb testing.TB, read reader, name string, b []byte) weather.Reading {
	tb.Helper()
	r, err := read(bytes.NewReader(b), name, today)
	if err != nil {
		tb.Fatal(err)
	}
	if len(r) != 1 {
		tb.Fatalf("%s: %d stations, want 1", name, len(r))
	}
	return r[0]
}
