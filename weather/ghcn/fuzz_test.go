package ghcn

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"haywarden/weather"
)

func FuzzFixedWidth(f *testing.F) {
	f.Add(testdata(f, "sample.dly"))
	f.Add([]byte(line("USC00999999202306TMIN", "  122  7")))
	f.Add([]byte("USC00999999202306TMIN  122  7\r\n"))
	f.Add([]byte(line("USC00999999202602TMIN", "-9999   ") + strings.Repeat("\n", 3)))
	fuzz(f, FixedWidth)
}

func FuzzByStation(f *testing.F) {
	f.Add(testdata(f, "sample_by_station.csv")[:4000])
	f.Add([]byte("USC00999999,20230601,TMIN,122,,,7,0700\n"))
	f.Add([]byte("ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\nUSC00999999,20230601,TMIN,-32768,,,7\n"))
	fuzz(f, ByStation)
}

// fuzz holds a reader to its word on any bytes: it ends, and either refuses the file or gives readings
// whose counts add up and whose blocks can be stored and brought back.
func fuzz(f *testing.F, read reader) {
	f.Fuzz(func(t *testing.T, data []byte) {
		readings, err := read(bytes.NewReader(data), "fuzzed", today)
		if err != nil {
			var refused *weather.Refusal
			if !errors.As(err, &refused) || len(refused.Issues) == 0 || readings != nil {
				t.Fatalf("%d readings with %v", len(readings), err)
			}
			return
		}
		for _, r := range readings {
			if err := r.Report.WriteText(io.Discard); err != nil {
				t.Fatal(err)
			}
			for e, tally := range r.Report.Elements {
				sum := tally.Usable() + tally.Absent
				for _, l := range [][]weather.RuleTally{tally.Flagged, tally.Failed} {
					for _, rule := range l {
						sum += rule.Count
					}
				}
				if r.Report.Span != nil && sum != r.Report.Span.Days || tally.Absent < 0 {
					t.Fatalf("%v: counts add up to %d, want %d days: %+v", weather.Element(e), sum, r.Report.Span.Days, tally)
				}
			}
			for _, b := range r.Blocks {
				back, err := weather.DecodeBlock(b.Station, b.Year, b.Encode())
				if err != nil || !b.Equal(back) {
					t.Fatalf("%s %d does not come back from store: %v", b.Station, b.Year, err)
				}
			}
		}
	})
}
