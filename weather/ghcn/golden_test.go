package ghcn

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/weather"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares with a file in testdata, or writes it.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s differs (-want +got), rewrite it with -update if it should:\n%s", name, d)
	}
}

func testdata(tb testing.TB, name string) []byte {
	tb.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// The sample is an invented year and a quarter with every flag, traces, presumed zeros, gaps, elements
// that are not kept, trimmed lines, and one fault for each check that needs no ten years.
func TestReportsOfTheSample(t *testing.T) {
	for _, c := range []struct {
		file string
		read reader
	}{{"sample.dly", FixedWidth}, {"sample_by_station.csv", ByStation}} {
		t.Run(c.file, func(t *testing.T) {
			r := one(t, c.read, c.file, testdata(t, c.file))
			var text bytes.Buffer
			if err := r.Report.WriteText(&text); err != nil {
				t.Fatal(err)
			}
			golden(t, c.file+".report.txt", text.Bytes())
			js, err := json.MarshalIndent(r.Report, "", "\t")
			if err != nil {
				t.Fatal(err)
			}
			golden(t, c.file+".report.json", append(js, '\n'))
			var back weather.Report
			if err := json.Unmarshal(js, &back); err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(r.Report, back); d != "" {
				t.Errorf("the report does not come back from JSON:\n%s", d)
			}
		})
	}
}

func TestBothFormsOfTheSampleGiveTheSameDays(t *testing.T) {
	a := one(t, FixedWidth, "sample.dly", testdata(t, "sample.dly"))
	b := one(t, ByStation, "sample_by_station.csv", testdata(t, "sample_by_station.csv"))
	if len(a.Blocks) != 2 {
		t.Fatalf("%d years, want 2", len(a.Blocks))
	}
	if d := cmp.Diff(a.Blocks, b.Blocks); d != "" {
		t.Errorf("fixed width and by-station blocks differ:\n%s", d)
	}
}

// What happens to a file on its way must not change what it says.
func TestLineEndsMarksAndTrimmingChangeNothing(t *testing.T) {
	want := one(t, FixedWidth, "f", testdata(t, "sample.dly"))
	text := string(testdata(t, "sample.dly"))
	var trimmed, padded strings.Builder
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, " \n")
		trimmed.WriteString(line + "\n")
		padded.WriteString(line + strings.Repeat(" ", lineWidth-len(line)) + "\n")
	}
	for name, text := range map[string]string{
		"CR LF":               strings.ReplaceAll(text, "\n", "\r\n"),
		"byte-order mark":     "\ufeff" + text,
		"blanks trimmed":      trimmed.String(),
		"blanks put back":     padded.String(),
		"no last line end":    strings.TrimSuffix(padded.String(), "\n"),
		"empty lines between": strings.ReplaceAll(text, "\n", "\n\n"),
	} {
		got := one(t, FixedWidth, "f", []byte(text))
		if d := cmp.Diff(want.Blocks, got.Blocks); d != "" {
			t.Errorf("%s:\n%s", name, d)
		}
		if d := cmp.Diff(want.Report.Elements, got.Report.Elements); d != "" {
			t.Errorf("%s:\n%s", name, d)
		}
	}
	csv := string(testdata(t, "sample_by_station.csv"))
	want = one(t, ByStation, "f", []byte(csv))
	for name, text := range map[string]string{
		"CR LF":            strings.ReplaceAll(csv, "\n", "\r\n"),
		"a header":         "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n" + csv,
		"no last comma":    strings.ReplaceAll(csv, ",\n", "\n"),
		"no last line end": strings.TrimSuffix(csv, "\n"),
	} {
		if d := cmp.Diff(want.Blocks, one(t, ByStation, "f", []byte(text)).Blocks); d != "" {
			t.Errorf("by-station, %s:\n%s", name, d)
		}
	}
}
