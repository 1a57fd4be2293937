package plain

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

var today = unit.DateOf(2026, 11, 1)

func read(tb testing.TB, text string, o declared.Options) (weather.Reading, error) {
	tb.Helper()
	r, err := Read(strings.NewReader(text), "gauge.csv", today, o)
	if err != nil {
		return weather.Reading{}, err
	}
	return r[0], nil
}

var hill = declared.Options{Station: weather.Station{ID: "HILL", Name: "Hill farm", Latitude: 43}}

func values(tb testing.TB, r weather.Reading, day string) [5]int16 {
	tb.Helper()
	d, err := unit.ParseDay(day)
	if err != nil {
		tb.Fatal(err)
	}
	for _, b := range r.Blocks {
		if o := b.On(d); o != nil {
			return o.Value
		}
	}
	tb.Fatalf("%s is in no year", day)
	return [5]int16{}
}

const none = weather.Missing

func TestColumnsNamedWithTheirUnits(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		o    declared.Options
		want [5]int16
	}{
		"F and inches":                   {"date,tmax_f,tmin_f,rain_in\n2024-02-29,78,54,1.00\n", hill, [5]int16{256, 122, 254, none, none}},
		"C, semicolons and commas":       {"Datum;Tmax (°C);Tmin (°C);Rain [mm]\n2024-02-29;25,6;12,2;25,4\n", declared.Options{Station: hill.Station, Columns: weather.Declared{Columns: map[string]string{"date": "Datum"}}}, [5]int16{256, 122, 254, none, none}},
		"kelvin":                         {"date,tmax (K),snowfall_cm,snow_depth_in\n2024-02-29,298.75,2.5,10\n", hill, [5]int16{256, none, none, 25, 254}},
		"a trace, and words for missing": {"date,tmax_f,tmin_f,rain_in\n2024-02-29,M,NA,T\n", hill, [5]int16{none, none, 0, none, none}},
		"units above the table":          {"# station: HILL\n# units: tmax=F, rain=in\nday,high,rain\n2024-02-29,78,1.00\n", declared.Options{}, [5]int16{256, none, 254, none, none}},
		"units by whoever brings it": {"date,Max Temp,tmin\n2024-02-29,78,54\n", declared.Options{Station: hill.Station, Columns: weather.Declared{
			Units: map[string]string{"tmax": "F", "tmin": "F"}, Columns: map[string]string{"tmax": "Max Temp"}}}, [5]int16{256, 122, none, none, none}},
		"year, month and day": {"year,month,day,tmin_c\n2024,2,29,12.2\n", hill, [5]int16{none, 122, none, none, none}},
		"day of the year":     {"year,doy,tmin_c\n2024,60,12.2\n", hill, [5]int16{none, 122, none, none, none}},
		"American dates":      {"date,tmin_c\n2/29/2024,12.2\n3/1/2024,10\n", hill, [5]int16{none, 122, none, none, none}},
	} {
		r, err := read(t, c.text, c.o)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := values(t, r, "2024-02-29"); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

func TestNamesKeepTheirLetters(t *testing.T) {
	r, err := read(t, "station,name,lat,lon,elevation_ft,date,tmin_f\nHILL,Côté-Hügel 農場,43.1,-89.4,860,2023-06-01,54\n", declared.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if st := r.Station; st.Name != "Côté-Hügel 農場" || st.Latitude != 43.1 || st.Longitude != -89.4 || fmt.Sprintf("%.3f", st.Elevation) != "262.128" || !st.WholeF {
		t.Errorf("%+v", st)
	}
}

func days(from unit.Day, n int, row func(i int) string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%s,%s\n", from+unit.Day(i), row(i))
	}
	return b.String()
}

func TestWhatCannotBeReadIsRefused(t *testing.T) {
	june := unit.DateOf(2023, 6, 1)
	for name, c := range map[string]struct {
		text string
		o    declared.Options
		want string
	}{
		"no unit":               {"date,tmax\n2023-06-01,78\n", hill, "column tmax has no unit declared"},
		"two units":             {"date,tmax_f\n2023-06-01,78\n", declared.Options{Station: hill.Station, Columns: weather.Declared{Units: map[string]string{"tmax": "C"}}}, "says it is in F, but C was declared"},
		"rain in degrees":       {"date,rain\n2023-06-01,1\n", declared.Options{Station: hill.Station, Columns: weather.Declared{Units: map[string]string{"rain": "F"}}}, "cannot be measured in F"},
		"a unit for no column":  {"date,tmax_f\n2023-06-01,78\n", declared.Options{Station: hill.Station, Columns: weather.Declared{Units: map[string]string{"rain": "in"}}}, "no column holds it"},
		"no station":            {"date,tmax_f\n2023-06-01,78\n2023-06-02,78\n", declared.Options{}, "does not say its station"},
		"a station of accents":  {"station,date,tmax_f\nHÜGEL,2023-06-01,78\n", declared.Options{}, "line 2: station \"HÜGEL\""},
		"two stations":          {"station,date,tmax_f\nX,2023-06-01,78\n", hill, "HILL was declared"},
		"no date":               {"tmax_f,tmin_f\n1,2\n", hill, "no column of dates"},
		"no element":            {"date,wind\n2023-06-01,2\n", hill, "none of the columns tmax"},
		"ambiguous dates":       {"date,tmax_f\n3/4/2023,78\n", hill, "declare the order of dates"},
		"no such leap day":      {"date,tmax_f\n2023-02-29,78\n", hill, "there is no such day"},
		"after today":           {"date,tmax_f\n2026-11-02,78\n", hill, "is after today"},
		"half written":          {"date,tmax_f,tmin_f\n2023-06-01,78,54\n2023-06-02,7", hill, "2 fields, 3 wanted"},
		"a word":                {"date,tmax_f\n2023-06-01,warm\n", hill, `line 2: tmax_f: "warm" is not a number`},
		"a column twice":        {"date,tmax_f,high_f\n2023-06-01,78,79\n", hill, "both hold tmax"},
		"F declared as C":       {"date,tmax_c\n" + days(june, 30, func(i int) string { return fmt.Sprint(70 + i%9) }), hill, "is the unit right?"},
		"C declared as F":       {"date,tmax_f\n" + days(june, 30, func(i int) string { return fmt.Sprint(22 + i%9) }), hill, "is the unit right?"},
		"columns crossed":       {"date,tmax_c,tmin_c\n" + days(june, 30, func(i int) string { return fmt.Sprintf("%d,%d", 10+i%5, 22+i%9) }), hill, "the columns are crossed"},
		"inches declared as mm": {"date,rain_mm\n" + days(unit.DateOf(2023, 1, 1), 365, func(int) string { return "0.09" }), hill, "the year's rain is then about 33 mm"},
	} {
		_, err := read(t, c.text, c.o)
		var refused *weather.Refusal
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want a refusal with %q", name, err, c.want)
		}
	}
}

func TestAYearFromJuneOnWithoutLowestTemperatures(t *testing.T) {
	r, err := read(t, "date,tmax_f\n"+days(unit.DateOf(2023, 6, 1), 300, func(i int) string { return fmt.Sprint(60 + i%19) }), hill)
	if err != nil {
		t.Fatal(err)
	}
	if s := r.Report.Span; s.First != unit.DateOf(2023, 6, 1) || s.Days != 300 || r.Report.Elements[weather.TMin].Absent != 300 {
		t.Errorf("%+v, %+v", s, r.Report.Elements[weather.TMin])
	}
}

// The airport's year of FiveThirtyEight's data (CC BY 4.0): 88 days with a lowest of 28 F or less, the
// least -7 F, the highest 94 F, 36.04 in of rain, counted separately in R.
func TestTheOpenYearOfChicagoMidway(t *testing.T) {
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA does not name the folder of open records that are not ours to commit")
	}
	data, err := os.ReadFile(filepath.Join(dir, "weather_KMDW_2014_15.csv"))
	if err != nil {
		t.Skipf("the record is not there: %v", err)
	}
	o := declared.Options{Station: weather.Station{ID: "KMDW"}, Columns: weather.Declared{Units: map[string]string{"tmax": "F", "tmin": "F", "rain": "in"}}}
	r, err := Read(bytes.NewReader(data), "kmdw.csv", today, o)
	if err != nil {
		t.Fatal(err)
	}
	s := weather.NewSeries(r[0].Station, r[0].Blocks, today)
	frosts, low, high, rain := 0, 99., -99., 0.
	for i := range s.Len() {
		if s.TMinF[i] <= 28 {
			frosts++
		}
		if s.HasTemperature(s.First + unit.Day(i)) {
			low, high = min(low, s.TMinF[i]), max(high, s.TMaxF[i])
			rain += s.RainMM[i] / 25.4
		}
	}
	if frosts != 88 || low != -7 || high != 94 || rain < 35.95 || rain > 36.13 { // tenths of a mm on 88 wet days
		t.Errorf("%d days to 28 F, %g to %g F, %.2f in", frosts, low, high, rain)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("# station: HILL\n# units: tmax=F, rain=in\nday,high,rain\n2024-02-29,78,1.00\n"))
	f.Add([]byte("station;date;Tmax (°C)\nX;3/25/2023;25,6\n"))
	f.Add([]byte("year,doy,tmin_c,elevation_ft\n2024,60,12.2,860\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read(bytes.NewReader(data), "fuzzed", today, hill)
		var refused *weather.Refusal
		if err != nil && (!errors.As(err, &refused) || r != nil) {
			t.Fatalf("%d readings with %v", len(r), err)
		}
	})
}
