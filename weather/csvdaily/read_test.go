package csvdaily

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// today is late enough for every record here.
var today = unit.DateOf(2026, 11, 1)

func testdata(tb testing.TB, name string) []byte {
	tb.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

// one reads a file of testdata that holds a single station.
func one(tb testing.TB, name string, units Units) weather.Reading {
	tb.Helper()
	r, err := Read(bytes.NewReader(testdata(tb, name)), name, today, units)
	if err != nil {
		tb.Fatal(err)
	}
	if len(r) != 1 {
		tb.Fatalf("%s: %d stations, want 1", name, len(r))
	}
	return r[0]
}

// refused reads text that must be refused, and returns what is said.
func refused(t *testing.T, text string, units Units) string {
	t.Helper()
	r, err := Read(strings.NewReader(text), "order.csv", today, units)
	var refusal *weather.Refusal
	if !errors.As(err, &refusal) || r != nil {
		t.Fatalf("got %d readings and %v, want a refusal", len(r), err)
	}
	if !strings.Contains(err.Error(), "order.csv") {
		t.Errorf("%q does not name the file", err)
	}
	return err.Error()
}

// An invented station with flags, traces, presumed zeros and faults, in tenths with attributes.
func TestReportOfTheSampleWithAttributes(t *testing.T) {
	r := one(t, "attributes.csv", Unstated)
	var text bytes.Buffer
	if err := r.Report.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	js, err := json.MarshalIndent(r.Report, "", "\t")
	if err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string][]byte{"attributes.csv.report.txt": text.Bytes(), "attributes.csv.report.json": append(js, '\n')} {
		if *update {
			if err := os.WriteFile(filepath.Join("testdata", name), got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if d := cmp.Diff(string(testdata(t, name)), string(got)); d != "" {
			t.Errorf("%s differs (-want +got), rewrite it with -update if it should:\n%s", name, d)
		}
	}
}

// The same days ordered in three systems of units give the same record.
func TestTheSameDaysInAllUnits(t *testing.T) {
	tenths := one(t, "tenths.csv", Unstated)
	metric := one(t, "metric.csv", Unstated)
	standard := one(t, "standard.csv", Unstated)
	for u, r := range map[Units]weather.Reading{Tenths: tenths, Metric: metric, Standard: standard} {
		f := r.Report.File
		if f.Unit != u.String() || !strings.HasPrefix(f.UnitHow, "found: the median of 184 highest temperatures of June to August is ") {
			t.Errorf("%s: unit %q, %q", u, f.Unit, f.UnitHow)
		}
		want := weather.Station{ID: "USC00999999", Name: "SYNTHETIC 1 N, WI US", Latitude: 43.07, Longitude: -89.4, Elevation: 262.1, WholeF: true}
		if d := cmp.Diff(want, r.Station); d != "" {
			t.Errorf("%s: %s", u, d)
		}
		if d := cmp.Diff([]weather.Skipped{{Element: "TOBS", Count: 457}}, r.Report.Skipped); d != "" {
			t.Errorf("%s: %s", u, d)
		}
	}
	if d := cmp.Diff(tenths.Blocks, metric.Blocks); d != "" {
		t.Errorf("tenths and metric differ:\n%s", d)
	}
	// Hundredths of an inch and tenths of a mm do not divide each other, whole degrees F do come back.
	for i, b := range tenths.Blocks {
		for k, o := range b.Days {
			s := standard.Blocks[i].Days[k]
			if o.Value[weather.TMax] != s.Value[weather.TMax] || o.Value[weather.TMin] != s.Value[weather.TMin] || o.Mark != s.Mark {
				t.Fatalf("day %d of %d: %v in tenths, %v in standard", k+1, b.Year, o, s)
			}
			for e, most := range map[weather.Element]float64{weather.Rain: 1, weather.Snow: 2, weather.Depth: 2} {
				if math.Abs(float64(o.Value[e])-float64(s.Value[e])) > most {
					t.Fatalf("day %d of %d, %v: %d in tenths, %d in standard", k+1, b.Year, e, o.Value[e], s.Value[e])
				}
			}
		}
	}
}

// Letters, separators and decimal marks do not change what a file says.
func TestTheSameDaysHoweverWritten(t *testing.T) {
	want := one(t, "metric.csv", Unstated).Blocks[0]
	for _, c := range []struct{ file, encoding, name string }{
		{"semicolons_bom.csv", "UTF-8 with a byte-order mark", "SYNTHETIC 1 N, WI US"},
		{"utf16_tabs.csv", "UTF-16", "SYNTHETIC 1 N, WI US"},
		{"windows1252.csv", "Windows-1252", "CÔTÉ FARM 1 N, WI US"},
	} {
		r := one(t, c.file, Unstated)
		if r.Report.File.Encoding != c.encoding || r.Station.Name != c.name || r.Station.Longitude != -89.4 {
			t.Errorf("%s: encoding %q, station %+v", c.file, r.Report.File.Encoding, r.Station)
		}
		for d := unit.DateOf(2022, 6, 1); d <= unit.DateOf(2022, 8, 31); d++ {
			a, b := want.On(d), r.Blocks[0].On(d)
			if a.Value[weather.TMax] != b.Value[weather.TMax] || a.Value[weather.TMin] != b.Value[weather.TMin] {
				t.Fatalf("%s, %s: %v, want %v", c.file, d, b.Value, a.Value)
			}
		}
	}
}

// summer makes a file of June days with given header and the same values every day, but for TMAX,
// which goes up and down a little.
func summer(header, format string, high float64) string {
	var b strings.Builder
	b.WriteString(header + "\n")
	for d := 1; d <= 30; d++ {
		fmt.Fprintf(&b, format+"\n", d, high+float64(d%7))
	}
	return b.String()
}

const plainHeader = "STATION,DATE,TMAX"

func TestUnitsAreFoundNeverAssumed(t *testing.T) {
	file := func(high float64) string { return summer(plainHeader, "USC00999999,2023-06-%02d,%g", high) }
	for _, c := range []struct {
		high        float64
		given, want Units
	}{
		{72, Unstated, Standard}, {60, Unstated, Standard}, {99, Unstated, Standard},
		{22, Unstated, Metric}, {15, Unstated, Metric}, {34, Unstated, Metric},
		{222, Unstated, Tenths}, {250, Unstated, Tenths},
		{72, Standard, Standard}, {22, Metric, Metric}, {222, Tenths, Tenths},
		{50, Standard, Standard}, // a cold lake shore: nothing speaks against what was said
	} {
		r, err := Read(strings.NewReader(file(c.high)), "order.csv", today, c.given)
		if err != nil {
			t.Errorf("%g given as %q: %v", c.high, c.given, err)
			continue
		}
		f := r[0].Report.File
		if f.Unit != c.want.String() {
			t.Errorf("%g given as %q: %s, want %s", c.high, c.given, f.Unit, c.want)
		}
		if said := strings.HasPrefix(f.UnitHow, "given"); said != (c.given != Unstated) {
			t.Errorf("%g given as %q: how %q", c.high, c.given, f.UnitHow)
		}
	}
	for _, c := range []struct {
		name  string
		file  string
		given Units
		want  []string
	}{
		{"between the ranges", file(48), Unstated, []string{"the units cannot be told", "say which they are: metric"}},
		{"one value of another world", file(72) + "USC00999999,2023-07-01,720\n", Unstated, []string{"cannot be told", "one is as far out as 720"}},
		{"winter only", string(testdata(t, "winter.csv")), Unstated, []string{"0 highest temperatures of June to August, 10 needed", "say which"}},
		{"given metric, found standard", file(72), Metric, []string{"given as metric", "the values are standard"}},
		{"given standard, found tenths", file(222), Standard, []string{"given as standard", "the values are tenths"}},
		{"given tenths, found metric", file(22), Tenths, []string{"given as tenths", "the values are metric"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			said := refused(t, c.file, c.given)
			for _, want := range c.want {
				if !strings.Contains(said, want) {
					t.Errorf("%q is not in %q", want, said)
				}
			}
		})
	}
	if r := one(t, "winter.csv", Standard); !strings.HasPrefix(r.Report.File.UnitHow, "given; the values cannot bear it out") {
		t.Errorf("a winter of given units: %q", r.Report.File.UnitHow)
	}
}

// year makes a file of a whole year with a high of summer and a rain of every day.
func year(high, rain float64) string {
	var b strings.Builder
	b.WriteString("STATION,DATE,TMAX,PRCP\n")
	for d := unit.DateOf(2023, 1, 1); d.Year() == 2023; d++ {
		fmt.Fprintf(&b, "USC00999999,%s,%g,%g\n", d, high+float64(d.YearDay()%5), rain)
	}
	return b.String()
}

func TestRainMustFitTheUnitsOfTheTemperatures(t *testing.T) {
	for _, c := range []struct {
		high, rain float64
		want       Units
	}{{72, 0.09, Standard}, {22, 2.2, Metric}, {222, 22, Tenths}} {
		r, err := Read(strings.NewReader(year(c.high, c.rain)), "order.csv", today, Unstated)
		if err != nil {
			t.Errorf("%g, %g: %v", c.high, c.rain, err)
		} else if f := r[0].Report.File; f.Unit != c.want.String() || !strings.Contains(f.UnitHow, "the mean year's rain of 1 years is ") {
			t.Errorf("%g, %g: %s, %s", c.high, c.rain, f.Unit, f.UnitHow)
		}
	}
	for _, c := range []struct {
		name       string
		high, rain float64
		given      Units
		want       string
	}{
		{"F and mm", 72, 2.2, Unstated, "temperatures are standard"},
		{"C and inches", 22, 0.09, Unstated, "but rain is not"},
		{"tenths of C and mm", 222, 2.2, Unstated, "but rain is not"},
		{"F and mm, given as standard", 72, 2.2, Standard, "but rain is not"},
		{"too cold to tell, rain in mm, given as standard", 50, 2.2, Standard, "the rain does not fit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if said := refused(t, year(c.high, c.rain), c.given); !strings.Contains(said, c.want) {
				t.Errorf("%q is not in %q", c.want, said)
			}
		})
	}
}

func TestConversions(t *testing.T) {
	head := "STATION,DATE,TMAX,TMIN,PRCP,SNOW,SNWD\n"
	for _, c := range []struct {
		units Units
		row   string
		want  [5]int16
	}{
		{Standard, "78,54,1.00,1.0,10.0", [5]int16{256, 122, 254, 25, 254}},
		{Standard, "32,0,0.01,0,0", [5]int16{0, -178, 3, 0, 0}},
		{Standard, "28,-6,T,T,0", [5]int16{-22, -211, 0, 0, 0}},
		{Metric, "25.6,-2.2,25.4,25,254.0", [5]int16{256, -22, 254, 25, 254}},
		{Metric, "-0.1,-17.8,0.3,0,0", [5]int16{-1, -178, 3, 0, 0}},
		{Tenths, "256,-22,254,25,254", [5]int16{256, -22, 254, 25, 254}},
		{Tenths, "256,-9999,,999.9,254.0", [5]int16{256, weather.Missing, weather.Missing, weather.Missing, 254}},
	} {
		r, err := Read(strings.NewReader(head+"USC00999999,2023-06-01,"+c.row+"\n"), "order.csv", today, c.units)
		if err != nil {
			t.Errorf("%s %s: %v", c.units, c.row, err)
			continue
		}
		if got := r[0].Blocks[0].On(unit.DateOf(2023, 6, 1)).Value; got != c.want {
			t.Errorf("%s %s: %v, want %v", c.units, c.row, got, c.want)
		}
	}
}

// Whole degrees F are recovered where they were read: at US stations, and where the file itself holds
// whole degrees F.
func TestWhoReadsWholeDegrees(t *testing.T) {
	for _, c := range []struct {
		id    string
		units Units
		tmax  string
		want  bool
	}{
		{"USC00999999", Metric, "25.6", true}, {"CA000000001", Metric, "25.6", false},
		{"USC00999999", Tenths, "256", true}, {"CA000000001", Tenths, "256", false},
		{"CA000000001", Standard, "78", true}, {"USC00999999", Standard, "78.4", false},
	} {
		r, err := Read(strings.NewReader("STATION,DATE,TMAX\n"+c.id+",2023-06-01,"+c.tmax+"\n"), "order.csv", today, c.units)
		if err != nil {
			t.Fatal(err)
		}
		if r[0].Station.WholeF != c.want {
			t.Errorf("%s in %s, %s: whole F %v, want %v", c.id, c.units, c.tmax, r[0].Station.WholeF, c.want)
		}
	}
}

func TestSeveralStationsGiveSeveralReadings(t *testing.T) {
	file := "STATION,NAME,DATE,TMAX\nUSC00999999,B,2023-06-01,78\nCA000000001,A,2023-06-01,70\nUSC00999999,B,2023-06-02,79\n"
	r, err := Read(strings.NewReader(file), "two.csv", today, Standard)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, x := range r {
		got = append(got, fmt.Sprint(x.Station.ID, x.Station.Name, x.Report.Lines, x.Report.Span.Days))
	}
	if d := cmp.Diff([]string{"CA000000001A1 1", "USC00999999B2 2"}, got); d != "" {
		t.Error(d)
	}
}

func TestAFailingDiskIsNoFaultOfTheFile(t *testing.T) {
	_, err := Read(iotest.ErrReader(errors.New("disk on fire")), "order.csv", today, Unstated)
	var refusal *weather.Refusal
	if err == nil || errors.As(err, &refusal) || !strings.Contains(err.Error(), "disk on fire") {
		t.Error(err)
	}
}
