package gridded

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

var today = unit.DateOf(2026, 11, 1)

const above = "Latitude: 43.10  Longitude: -89.40\nX & Y on Lambert Conformal Conic: 868000 174000\nTile: 11565\nElevation: 262 meters\nYears: 2023-2024\nHow to cite: see the data set's page\n" +
	"year,yday,dayl (s),prcp (mm/day),srad (W/m^2),swe (kg/m^2),tmax (deg c),tmin (deg c),vp (Pa)\n"

func read(t *testing.T, text string, o declared.Options) weather.Reading {
	t.Helper()
	r, err := Read(strings.NewReader(text), "pixel.csv", today, o)
	if err != nil {
		t.Fatal(err)
	}
	return r[0]
}

func on(r weather.Reading, y, m, d int) *weather.Obs {
	for _, b := range r.Blocks {
		if b.Year == y {
			return &b.Days[dayOf(y, m, d)]
		}
	}
	return nil
}

func dayOf(y, m, d int) unit.Day {
	at, err := unit.ParseDay(fmt.Sprintf("%04d-%02d-%02d", y, m, d))
	if err != nil {
		panic(err)
	}
	return at - unit.DateOf(y, 1, 1)
}

// In a leap year day 60 is 29 February and day 365 is 30 December; in others 1 March and 31 December.
func TestYearsOf365DaysKeepTheLeapDayAndLeaveOutTheLast(t *testing.T) {
	var b strings.Builder
	b.WriteString(above)
	for _, y := range []int{2023, 2024} {
		for d := 1; d <= 365; d++ {
			fmt.Fprintf(&b, "%d,%d,32400.00,%.2f,150.20,4.00,%.2f,%.2f,380.00\n", y, d, 2+float64((d*d+y)%7), 10+float64(d)/10+float64(2024-y), 1+float64(d)/10+float64(2024-y))
		}
	}
	r := read(t, b.String(), declared.Options{})
	for _, c := range []struct {
		y, m, d int
		tmax    int16
	}{{2024, 2, 29, 160}, {2024, 12, 30, 465}, {2023, 3, 1, 170}, {2023, 12, 31, 475}} {
		if got := on(r, c.y, c.m, c.d).Value[weather.TMax]; got != c.tmax {
			t.Errorf("%d-%d-%d: %d, want %d", c.y, c.m, c.d, got, c.tmax)
		}
	}
	if on(r, 2024, 12, 31).Has(weather.TMax) {
		t.Error("31 December of a leap year has a value")
	}
	if st := r.Station; st.ID != "GRID43.100N89.400W" || st.Latitude != 43.1 || st.Longitude != -89.4 || st.Elevation != 262 || st.WholeF {
		t.Errorf("%+v", st)
	}
	if len(r.Report.Skipped) != 4 {
		t.Errorf("passed over: %+v", r.Report.Skipped)
	}
}

func TestATableWithDatesAndDeclaredUnits(t *testing.T) {
	o := declared.Options{Station: weather.Station{ID: "PIXEL"}}
	r := read(t, "date,tmmx (K),tmmn (K),pr (mm),srad,rmax,rmin,vs\n2024-02-29,293.15,280.15,3.6,268.9,90,40,3\n", o)
	if got := on(r, 2024, 2, 29).Value; got[weather.TMax] != 200 || got[weather.TMin] != 70 || got[weather.Rain] != 36 {
		t.Error(got)
	}
}

func TestWhatCannotBeReadIsRefused(t *testing.T) {
	crossed := "date,tmmx (K),tmmn (K)\n"
	for d := range 20 {
		crossed += fmt.Sprintf("2024-06-%02d,283.15,290.15\n", d+1)
	}
	for name, c := range map[string]struct{ text, want string }{
		"no unit":              {"date,tmmx,tmmn\n2024-02-29,293.15,280.15\n", "column tmmx has no unit declared"},
		"unpacked crosswise":   {crossed, "unpacked with the other's offset"},
		"day 366 of no leap":   {above + "2023,366,1,1,1,1,1,1,1\n", "there is no such day"},
		"half written":         {above + "2023,1,1,1,1\n", "5 fields, 9 wanted"},
		"no place and no name": {"year,yday,tmax (deg c)\n2023,1,1\n", "does not say its station"},
	} {
		st := weather.Station{ID: "PIXEL"}
		if name == "no place and no name" {
			st = weather.Station{}
		}
		_, err := Read(strings.NewReader(c.text), "pixel.csv", today, declared.Options{Station: st})
		var refused *weather.Refusal
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(above + "2023,1,32400.00,3.60,150.20,4.00,1.50,-6.20,380.00\n"))
	f.Add([]byte("date,tmmx (K),tmmn (K),pr (mm)\n2024-02-29,293.15,280.15,3.6\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read(bytes.NewReader(data), "fuzzed", today, declared.Options{})
		var refused *weather.Refusal
		if err != nil && (!errors.As(err, &refused) || r != nil) {
			t.Fatalf("%d readings with %v", len(r), err)
		}
	})
}
