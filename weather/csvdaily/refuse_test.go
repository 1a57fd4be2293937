package csvdaily

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"haywarden/weather"
)

func TestWhatCannotBeReadIsRefused(t *testing.T) {
	head := "STATION,DATE,TMAX,PRCP,PRCP_ATTRIBUTES,LATITUDE\n"
	for _, c := range []struct{ name, file, want string }{
		{"nothing", "", "the file is empty"},
		{"the look-alike", string(testdata(t, "summary_of_the_day.csv")), "Global Summary of the Day"},
		{"no station", "DATE,TMAX\n2023-06-01,78\n", "no column STATION"},
		{"no date", "STATION,TMAX\nUSC00999999,78\n", "no column DATE"},
		{"no element that is kept", "STATION,DATE,TOBS\nUSC00999999,2023-06-01,78\n", "none of the columns TMAX"},
		{"a column twice", "STATION,DATE,TMAX,TMAX\nUSC00999999,2023-06-01,78,79\n", "TMAX stands twice"},
		{"no values", head, "the file holds no value"},
		{"an American date", head + "USC00999999,6/7/2023,78,0,,43\n", "line 2: DATE \"6/7/2023\": a date written YYYY-MM-DD wanted, since day and month"},
		{"31 June", head + "USC00999999,2023-06-31,78,0,,43\n", "there is no such day"},
		{"a date after today", head + "USC00999999,2026-11-02,78,0,,43\n", "line 2: DATE 2026-11-02 is after today, 2026-11-01"},
		{"a date before all records", head + "USC00999999,1066-10-14,78,0,,43\n", "accepted from 1763"},
		{"a word for a number", head + "USC00999999,2023-06-01,warm,0,,43\n", `line 2: TMAX: "warm" is not a number`},
		{"a trace of heat", head + "USC00999999,2023-06-01,T,0,,43\n", `TMAX: "T" is not a number`},
		{"a number with an exponent", head + "USC00999999,2023-06-01,7e1,0,,43\n", "is not a number"},
		{"a number beyond measure", head + "USC00999999,2023-06-01,78,99999999,,43\n", "PRCP: \"99999999\" is too large"},
		{"a decimal comma among commas", head + "USC00999999,2023-06-01,\"78,5\",0,,43\n", "decimal comma"},
		{"attributes of another kind", head + "USC00999999,2023-06-01,78,0,24 hours,43\n", "PRCP: attributes"},
		{"a latitude off the earth", head + "USC00999999,2023-06-01,78,0,,143\n", `LATITUDE "143", accepted -90 to 90`},
		{"no station ID", head + ",2023-06-01,78,0,,43\n", `STATION ""`},
		{"a field too few", head + "USC00999999,2023-06-01,78\n", "line 2: 3 fields, 6 wanted"},
		{"a quote left open", head + "USC00999999,2023-06-01,\"78,0,,43\n", "check the quotes"},
		{"control characters", head + "USC00999999,2023-06-01,78\x00,0,,43\n", "this is not a CSV text file"},
		{"neither UTF-8 nor Windows-1252", head + "USC00999999,2023-06-01,78\x81,0,,43\n", "neither UTF-8 nor Windows-1252"},
		{"half a letter of UTF-16", "\xff\xfeS\x00T", "UTF-16"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if said := refused(t, c.file, Standard); !strings.Contains(said, c.want) {
				t.Errorf("%q is not in %q", c.want, said)
			}
		})
	}
}

func TestTenthsMustBeWhole(t *testing.T) {
	if said := refused(t, "STATION,DATE,TMAX\nUSC00999999,2023-06-01,25.6\n", Tenths); !strings.Contains(said, "line 2: TMAX 25.6: tenths are whole numbers") {
		t.Error(said)
	}
}

func TestFaultyLinesAreListedBeforeUnits(t *testing.T) {
	said := refused(t, "STATION,DATE,TMAX\nUSC00999999,2023-01-01,cold\nUSC00999999,2023-01-02,30\nUSC00999999,x,30\n", Unstated)
	if !strings.Contains(said, "2 lines are wrong") || !strings.Contains(said, "\n  line 4: DATE") || strings.Contains(said, "units") {
		t.Error(said)
	}
}

func TestUnitsAreReadByTheirNames(t *testing.T) {
	for _, u := range []Units{Unstated, Metric, Standard, Tenths} {
		if got, err := ParseUnits(string(u)); err != nil || got != u {
			t.Errorf("%q: %q, %v", u, got, err)
		}
	}
	if _, err := ParseUnits("imperial"); err == nil || !strings.Contains(err.Error(), "metric (C, mm), standard (F, inches)") {
		t.Error(err)
	}
}

// The reader holds to its word on any bytes: it ends, and either refuses the file or gives readings
// whose counts add up.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"semicolons_bom.csv", "utf16_tabs.csv", "windows1252.csv", "winter.csv", "summary_of_the_day.csv"} {
		f.Add(testdata(f, name), "")
	}
	f.Add(testdata(f, "attributes.csv")[:3000], "tenths")
	f.Add([]byte("STATION|DATE|TMAX|PRCP\nX|20230601|78|T\n"), "standard")
	f.Fuzz(func(t *testing.T, data []byte, said string) {
		units, err := ParseUnits(said)
		if err != nil {
			return
		}
		readings, err := Read(bytes.NewReader(data), "fuzzed", today, units)
		if err != nil {
			var refusal *weather.Refusal
			if !errors.As(err, &refusal) || len(refusal.Issues) == 0 || readings != nil {
				t.Fatalf("%d readings with %v", len(readings), err)
			}
			return
		}
		for _, r := range readings {
			if err := r.Report.WriteText(io.Discard); err != nil {
				t.Fatal(err)
			}
			for _, tally := range r.Report.Elements {
				sum := tally.Usable() + tally.Absent
				for _, l := range [][]weather.RuleTally{tally.Flagged, tally.Failed} {
					for _, rule := range l {
						sum += rule.Count
					}
				}
				if r.Report.Span != nil && sum != r.Report.Span.Days {
					t.Fatalf("counts add up to %d, want %d days: %+v", sum, r.Report.Span.Days, tally)
				}
			}
		}
	})
}
