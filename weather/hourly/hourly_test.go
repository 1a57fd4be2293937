package hourly

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // zones are the same on every machine that tests

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

var today = unit.DateOf(2026, 11, 1)

func zone(tb testing.TB, name string) *time.Location {
	tb.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		tb.Fatal(err)
	}
	return z
}

func options(tb testing.TB) Options {
	return Options{Options: declared.Options{Station: weather.Station{ID: "HILL"}}, Day: zone(tb, "America/Chicago")}
}

// hours writes stamps of n hours from an instant on, as a clock shows them, with a temperature and rain.
func hours(from time.Time, n int, skip func(i int) bool) string {
	var b strings.Builder
	b.WriteString("date,temp_c,rain_mm\n")
	for i := range n {
		if skip == nil || !skip(i) {
			at := from.Add(time.Duration(i) * time.Hour)
			fmt.Fprintf(&b, "%s,%d,0.5\n", at.Format("2006-01-02 15:04"), at.Hour())
		}
	}
	return b.String()
}

func day(t *testing.T, text string, o Options, date string) (weather.Obs, weather.Reading) {
	t.Helper()
	r, err := Read(strings.NewReader(text), "hours.csv", today, o)
	if err != nil {
		t.Fatal(err)
	}
	d, err := unit.ParseDay(date)
	if err != nil {
		t.Fatal(err)
	}
	return *r[0].Blocks[0].On(d), r[0]
}

func TestDaysAreLocal(t *testing.T) {
	o := options(t)
	o.Stamps = time.UTC
	// 3 May in Chicago runs from 05 UTC to 05 UTC; the clock of UTC shows 0 to 23 in between.
	text := "date,temp_c\n"
	for i := range 72 {
		at := time.Date(2024, 5, 2, 5, 0, 0, 0, time.UTC).Add(time.Duration(i) * time.Hour)
		text += fmt.Sprintf("%s,%d\n", at.Format("2006-01-02T15:04:05"), i-24)
	}
	obs, _ := day(t, text, o, "2024-05-03")
	if obs.Value[weather.TMin] != 0 || obs.Value[weather.TMax] != 230 {
		t.Errorf("%v, want 0.0 to 23.0 C", obs.Value)
	}
	z := strings.ReplaceAll(strings.ReplaceAll(text, ":00,", ":00Z,"), "date", "stamp_utc")
	o.Stamps, o.Columns.Columns = nil, map[string]string{"date": "stamp_utc"}
	if with, _ := day(t, z, o, "2024-05-03"); with != obs {
		t.Errorf("stamps with their offset give %v, want %v", with, obs)
	}
}

func TestDaysOn23And25Hours(t *testing.T) {
	chicago := zone(t, "America/Chicago")
	for _, c := range []struct {
		date  string
		from  time.Time
		hours int
	}{{"2024-03-10", time.Date(2024, 3, 10, 0, 0, 0, 0, chicago), 23}, {"2024-11-03", time.Date(2024, 11, 3, 0, 0, 0, 0, chicago), 25}} {
		o := options(t)
		o.Begins = true
		obs, r := day(t, hours(c.from, c.hours, nil), o, c.date)
		if obs.Value[weather.TMax] != 230 || obs.Value[weather.TMin] != 0 || obs.Value[weather.Rain] != int16(5*c.hours) {
			t.Errorf("%s: %v", c.date, obs.Value)
		}
		if want := fmt.Sprintf("0 of %d hours had no temperature", c.hours); !strings.Contains(strings.Join(r.Report.File.Notes, "\n"), want) {
			t.Errorf("%s: notes %q, want %q", c.date, r.Report.File.Notes, want)
		}
	}
	_, err := Read(strings.NewReader("date,temp_c\n2024-03-10 02:30,1\n"), "hours.csv", today, options(t))
	if err == nil || !strings.Contains(err.Error(), "that clocks in America/Chicago leave out") {
		t.Error(err)
	}
}

func TestADayWithTooFewHoursGivesNoValue(t *testing.T) {
	from := time.Date(2024, 5, 3, 0, 0, 0, 0, zone(t, "America/Chicago"))
	for name, c := range map[string]struct {
		skip func(i int) bool
		want bool
	}{
		"all hours":        {nil, true},
		"four apart":       {func(i int) bool { return i%6 == 1 }, true},
		"five apart":       {func(i int) bool { return i%5 == 1 }, false},
		"three in a row":   {func(i int) bool { return i >= 5 && i < 8 }, true},
		"four in a row":    {func(i int) bool { return i >= 5 && i < 9 }, false},
		"the evening gone": {func(i int) bool { return i >= 20 }, false},
	} {
		o := options(t)
		o.Begins = true
		text := hours(from, 24, c.skip) + "2024-05-04 12:00,40,0\n"
		r, err := Read(strings.NewReader(text), "hours.csv", today, o)
		if !c.want {
			if err == nil || !strings.Contains(err.Error(), "holds no value") {
				t.Errorf("%s: %v, want nothing to keep", name, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		obs := r[0].Blocks[0].On(unit.DateOf(2024, 5, 3))
		if !obs.Has(weather.TMax) || obs.Has(weather.Rain) != (c.skip == nil) {
			t.Errorf("%s: %v", name, obs)
		}
	}
}

func TestAnHoursRainFallsBeforeItsStamp(t *testing.T) {
	from := time.Date(2024, 5, 3, 1, 0, 0, 0, zone(t, "America/Chicago"))
	obs, _ := day(t, hours(from, 24, nil), options(t), "2024-05-03") // stamps 01:00 to 24:00
	if obs.Value[weather.Rain] != 120 {
		t.Errorf("%v, want 12.0 mm", obs.Value)
	}
}

func TestWhatCannotBeReadIsRefused(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"no zone":       {"date,temp_c\n2024-05-03 01:00,1\n", "the zone of the place is not declared"},
		"no unit":       {"date,temp\n2024-05-03 01:00,1\n", "column temp has no unit declared"},
		"no time":       {"date,temp_c\n2024-05-03,1\n", "a time of day wanted"},
		"hour 25":       {"date,hour,temp_c\n2024-05-03,25,1\n", "there is no such time"},
		"a stamp twice": {"date,temp_c\n2024-05-03 01:00,1\n2024-05-03 01:00,2\n", "stands twice"},
		"after today":   {"date,temp_c\n2026-11-02 12:00,1\n", "is after today"},
		"half written":  {"date,temp_c\n2024-05-03 01:00,1\n2024-05-0", "1 fields, 2 wanted"},
		"days":          {"date,tmax_c\n2024-05-03,1\n", "neither a column temperature"},
	} {
		o := options(t)
		if name == "no zone" {
			o.Day = nil
		}
		_, err := Read(strings.NewReader(c.text), "hours.csv", today, o)
		var refused *weather.Refusal
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// NOAA's hourly normals of Seattle (vega-datasets 3.2.1): each day's extremes and mean must be those of
// its lines, summed here in another way.
func TestTheOpenHoursOfSeattle(t *testing.T) {
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA does not name the folder of open records")
	}
	data, err := os.ReadFile(filepath.Join(dir, "seattle_hourly_normals.csv"))
	if err != nil {
		t.Skipf("the record is not there: %v", err)
	}
	o := options(t)
	o.Day = time.FixedZone("-08:00", -8*3600)
	o.Columns.Units = map[string]string{"temperature": "C"}
	r, err := Read(bytes.NewReader(data), "seattle.csv", today, o)
	if err != nil {
		t.Fatal(err)
	}
	sum, n := map[string]float64{}, map[string]int{}
	high, low := map[string]float64{}, map[string]float64{}
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n")[1:] {
		cells := strings.Split(line, ",")
		d := cells[0][:10]
		var v float64
		if _, err := fmt.Sscan(cells[2], &v); err != nil {
			t.Fatal(err)
		}
		if n[d] == 0 {
			high[d], low[d] = v, v
		}
		sum[d], n[d], high[d], low[d] = sum[d]+v, n[d]+1, max(high[d], v), min(low[d], v)
	}
	b := r[0].Blocks[0]
	apart := 0.
	for i := range b.Days {
		d := (unit.DateOf(2010, 1, 1) + unit.Day(i)).String()
		if b.Days[i].Value[weather.TMax] != int16(math.Round(10*high[d])) || b.Days[i].Value[weather.TMin] != int16(math.Round(10*low[d])) {
			t.Fatalf("%s: %v, want %g and %g", d, b.Days[i].Value, high[d], low[d])
		}
		apart += (sum[d]/float64(n[d]) - (high[d]+low[d])/2) / 365
	}
	notes := strings.Join(r[0].Report.File.Notes, "\n")
	for _, want := range []string{"1 of 8760 hours had no temperature", fmt.Sprintf("%+.1f C from the middle", apart)} {
		if !strings.Contains(notes, want) {
			t.Errorf("%q is not in %q", want, notes)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("date,temp_c,rain_mm\n2024-11-03 01:00,1,0\n2024-11-03 01:00,2,T\n"))
	f.Add([]byte("date,time,temp_f\n5/13/2024,1:53 PM,60\n"))
	f.Add([]byte("valid,temp (°F)\n2024-05-03T01:00:00-0500,60\n"))
	chicago := options(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read(bytes.NewReader(data), "fuzzed", today, chicago)
		var refused *weather.Refusal
		if err != nil && (!errors.As(err, &refused) || r != nil) {
			t.Fatalf("%d readings with %v", len(r), err)
		}
	})
}
