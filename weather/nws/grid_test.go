package nws

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // zones are the same on every machine that tests

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

func zone(tb testing.TB, name string) *time.Location {
	tb.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		tb.Fatal(err)
	}
	return z
}

func day(tb testing.TB, s string) unit.Day {
	tb.Helper()
	d, err := unit.ParseDay(s)
	if err != nil {
		tb.Fatal(err)
	}
	return d
}

// gridOf makes a grid of layers written as "validTime=value", issued at 2026-06-10T05:00Z, which is
// midnight in Wisconsin.
func gridOf(layers map[string][]string) []byte {
	unitOf := map[string]string{
		"temperature": "degC", "maxTemperature": "degC", "minTemperature": "degC",
		"probabilityOfPrecipitation": "percent", "quantitativePrecipitation": "mm",
	}
	var b strings.Builder
	b.WriteString(`{"properties":{"updateTime":"2026-06-10T05:00:00+00:00"`)
	for name, values := range layers {
		for i, v := range values {
			validTime, value, _ := strings.Cut(v, "=")
			values[i] = fmt.Sprintf(`{"validTime":%q,"value":%s}`, validTime, value)
		}
		fmt.Fprintf(&b, `,%q:{"uom":"wmoUnit:%s","values":[%s]}`, name, unitOf[name], strings.Join(values, ","))
	}
	b.WriteString("}}")
	return []byte(b.String())
}

func mustParse(tb testing.TB, body []byte) *Grid {
	tb.Helper()
	g, err := ParseGrid(body)
	if err != nil {
		tb.Fatal(err)
	}
	return g
}

var nearly = cmpopts.EquateApprox(0, 1e-9)

// The layers' units, intervals and traps are those of the service's own gridpoint FAQ; the shares of
// 3.81 mm are 5/6 and 1/6 by hand.
func TestADocumentedGridBecomesDays(t *testing.T) {
	body, err := os.ReadFile("testdata/grid.json")
	if err != nil {
		t.Fatal(err)
	}
	g := mustParse(t, body)
	if want := time.Date(2026, 6, 10, 9, 12, 0, 0, time.UTC); !g.Updated.Equal(want) {
		t.Errorf("issued %s, want %s", g.Updated, want)
	}
	want := []weather.ForecastDay{
		// The morning was over at the issue, and hourly temperatures of the rest of a day have no say on it.
		{Day: day(t, "2026-06-10"), TMaxC: new(22.78), PoP: new(0.19), RainMM: new(0.0)},
		{Day: day(t, "2026-06-11"), TMaxC: new(26.67), TMinC: new(13.33), PoP: new(0.52), RainMM: new(3.175)},
		// The highest is null: 19 all day. Half of the chances are null: not known.
		{Day: day(t, "2026-06-12"), TMaxC: new(19.0), TMinC: new(17.22), RainMM: new(0.635)},
		// Rain and its chance end before the day does.
		{Day: day(t, "2026-06-13"), TMaxC: new(23.9), TMinC: new(16.0)},
	}
	if diff := cmp.Diff(want, g.Days(zone(t, "America/Chicago")), nearly); diff != "" {
		t.Errorf("days (-want +got):\n%s", diff)
	}
}

func TestIntervals(t *testing.T) {
	for s, hours := range map[string]int{
		"2019-07-04T18:00:00+00:00/PT3H": 3, "2026-06-12T00:00:00Z/P1D": 24, "2026-06-12T00:00:00+00:00/P1DT6H": 30,
		"2026-06-11T19:00:00-05:00/PT12H": 12, "2026-06-12T00:00:00+00:00/P7DT22H": 190, "2026-06-12T00:00:00+00:00/PT744H": 744,
	} {
		start, end, err := parseInterval(s)
		if err != nil || end.Sub(start) != time.Duration(hours)*time.Hour {
			t.Errorf("%s: %s to %s, %v; want %d hours", s, start, end, err, hours)
		}
	}
	if start, _, _ := parseInterval("2026-06-11T19:00:00-05:00/PT12H"); !start.Equal(time.Date(2026, 6, 12, 0, 0, 0, 0, time.UTC)) {
		t.Errorf("an offset is not heeded: %s", start)
	}
	for _, s := range []string{
		"", "/", "2026-06-12T00:00:00+00:00", "2026-06-12T00:00:00+00:00/", "2026-06-12T00:00:00+00:00/P", "2026-06-12T00:00:00+00:00/PT",
		"2026-06-12T00:00:00+00:00/P1DT", "2026-06-12T00:00:00+00:00/PT0H", "2026-06-12T00:00:00+00:00/PT30M", "2026-06-12T00:00:00+00:00/PT-1H",
		"2026-06-12T00:00:00+00:00/P1M", "2026-06-12T00:00:00+00:00/NOW", "2026-06-12T00:00:00+00:00/PT745H", "2026-06-12T00:00:00+00:00/P32D",
		"2026-06-12T00:00:00+00:00/PT99999H", "2026-06-12/PT1H", "2026-02-30T00:00:00+00:00/PT1H", "2026-06-12T00:00:00/PT1H", "2026-06-12T00:00:00+00:00/PT1Hx",
	} {
		if _, _, err := parseInterval(s); err == nil || !strings.Contains(err.Error(), "validTime") {
			t.Errorf("%q: error %v, want one that names validTime", s, err)
		}
	}
}

func TestOnlyWhatFollowsTheColonIsTheUnit(t *testing.T) {
	body := string(gridOf(map[string][]string{"maxTemperature": {"2026-06-10T12:00:00+00:00/PT13H=22"}}))
	for _, prefix := range []string{"unit:", "wmoUnit:", "nwsUnit:", ""} {
		g := mustParse(t, []byte(strings.Replace(body, "wmoUnit:", prefix, 1)))
		if got := g.Days(time.UTC); len(got) != 1 || *got[0].TMaxC != 22 {
			t.Errorf("%q: %v", prefix, got)
		}
	}
}

func TestExtremesBelongToTheDayTheyAreLivedIn(t *testing.T) {
	for name, c := range map[string]struct {
		layer, interval string
		want            string
	}{
		"an afternoon": {"maxTemperature", "2026-06-11T12:00:00+00:00/PT13H", "2026-06-11"},
		"an afternoon that ends in UTC's next day": {"maxTemperature", "2026-06-11T14:00:00+00:00/PT20H", "2026-06-11"},
		"a night": {"minTemperature", "2026-06-11T00:00:00+00:00/PT14H", "2026-06-11"},
		"a night whose middle is before midnight": {"minTemperature", "2026-06-10T23:00:00+00:00/PT11H", "2026-06-11"},
		"a whole day": {"minTemperature", "2026-06-11T05:00:00+00:00/P1D", "2026-06-11"},
	} {
		g := mustParse(t, gridOf(map[string][]string{c.layer: {c.interval + "=12"}}))
		days := g.Days(zone(t, "America/Chicago"))
		if len(days) != 1 || days[0].Day.String() != c.want {
			t.Errorf("%s: %v, want %s", name, days, c.want)
		}
	}
}

func TestEqualExtremesOfNeighbouringDaysComeAsOnePiece(t *testing.T) {
	g := mustParse(t, gridOf(map[string][]string{"maxTemperature": {"2026-06-10T12:00:00+00:00/P2DT12H=25"}, "minTemperature": {"2026-06-10T05:00:00+00:00/P2D=9"}}))
	want := []weather.ForecastDay{
		{Day: day(t, "2026-06-10"), TMaxC: new(25.0), TMinC: new(9.0)},
		{Day: day(t, "2026-06-11"), TMaxC: new(25.0), TMinC: new(9.0)},
		{Day: day(t, "2026-06-12"), TMaxC: new(25.0)},
	}
	if diff := cmp.Diff(want, g.Days(zone(t, "America/Chicago"))); diff != "" {
		t.Errorf("days (-want +got):\n%s", diff)
	}
}

func TestHourlyTemperaturesStandInOnlyForAWholeDay(t *testing.T) {
	// From midnight to midnight in Wisconsin, an hour short, and with a hole.
	for name, c := range map[string]struct {
		values []string
		known  bool
	}{
		"whole":             {[]string{"2026-06-10T05:00:00+00:00/PT9H=8", "2026-06-10T14:00:00+00:00/PT15H=24"}, true},
		"in no order":       {[]string{"2026-06-10T14:00:00+00:00/PT15H=24", "2026-06-10T05:00:00+00:00/PT9H=8"}, true},
		"overlapping":       {[]string{"2026-06-10T05:00:00+00:00/PT20H=8", "2026-06-10T14:00:00+00:00/PT15H=24"}, true},
		"an hour short":     {[]string{"2026-06-10T05:00:00+00:00/PT9H=8", "2026-06-10T14:00:00+00:00/PT14H=24"}, false},
		"begun an hour on":  {[]string{"2026-06-10T06:00:00+00:00/PT8H=8", "2026-06-10T14:00:00+00:00/PT15H=24"}, false},
		"with a hole":       {[]string{"2026-06-10T05:00:00+00:00/PT8H=8", "2026-06-10T14:00:00+00:00/PT15H=24"}, false},
		"with a null in it": {[]string{"2026-06-10T05:00:00+00:00/PT8H=8", "2026-06-10T13:00:00+00:00/PT1H=null", "2026-06-10T14:00:00+00:00/PT15H=24"}, false},
	} {
		days := mustParse(t, gridOf(map[string][]string{"temperature": c.values})).Days(zone(t, "America/Chicago"))
		switch {
		case !c.known && len(days) > 0:
			t.Errorf("%s: %v, want nothing known", name, days)
		case c.known && (len(days) != 1 || *days[0].TMinC != 8 || *days[0].TMaxC != 24):
			t.Errorf("%s: %v, want 8 to 24", name, days)
		}
	}
}

func TestNoRainForecastIsNotADryDay(t *testing.T) {
	temperature := []string{"2026-06-10T05:00:00+00:00/P1D=20"}
	for name, c := range map[string]struct {
		rain []string
		want *float64
	}{
		"the layer was not sent":  {nil, nil},
		"a null":                  {[]string{"2026-06-10T05:00:00+00:00/P1D=null"}, nil},
		"half of the day":         {[]string{"2026-06-10T05:00:00+00:00/PT12H=0"}, nil},
		"a null of the afternoon": {[]string{"2026-06-10T05:00:00+00:00/PT12H=3", "2026-06-10T17:00:00+00:00/PT12H=null"}, nil},
		"nothing is to fall":      {[]string{"2026-06-10T05:00:00+00:00/P1D=0"}, new(0.0)},
		"a shower":                {[]string{"2026-06-10T05:00:00+00:00/PT12H=0", "2026-06-10T17:00:00+00:00/PT12H=2.54"}, new(2.54)},
	} {
		layers := map[string][]string{"temperature": append([]string{}, temperature...)}
		if c.rain != nil {
			layers["quantitativePrecipitation"] = c.rain
		}
		days := mustParse(t, gridOf(layers)).Days(zone(t, "America/Chicago"))
		if len(days) != 1 {
			t.Fatalf("%s: %v", name, days)
		}
		if diff := cmp.Diff(c.want, days[0].RainMM, nearly); diff != "" {
			t.Errorf("%s: rain (-want +got):\n%s", name, diff)
		}
	}
}

func TestRainIsSharedByHours(t *testing.T) {
	// 3.81 mm from 00 to 06 UTC, at UTC-5: five hours of 11 June and one of the 12th.
	g := mustParse(t, gridOf(map[string][]string{"quantitativePrecipitation": {"2026-06-12T00:00:00+00:00/PT6H=3.81"}}))
	z := time.FixedZone("", -5*3600)
	for d, want := range map[string]float64{"2026-06-10": 0, "2026-06-11": 3.175, "2026-06-12": 0.635, "2026-06-13": 0} {
		from := startOf(day(t, d), z)
		if got := amount(g.rain, from, from.Add(24*time.Hour)); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: %g mm, want %g", d, got, want)
		}
	}
}

func TestChanceOfRainHasTwoBounds(t *testing.T) {
	for name, c := range map[string]struct {
		values    []string
		low, high float64
		known     bool
	}{
		"two halves":              {[]string{"2026-06-10T05:00:00+00:00/PT12H=20", "2026-06-10T17:00:00+00:00/PT12H=40"}, 0.4, 0.52, true},
		"equal halves as one":     {[]string{"2026-06-10T05:00:00+00:00/P1D=40"}, 0.4, 0.64, true},
		"cut up by the hour":      {[]string{"2026-06-10T05:00:00+00:00/PT3H=10", "2026-06-10T08:00:00+00:00/PT1H=20", "2026-06-10T09:00:00+00:00/PT8H=5", "2026-06-10T17:00:00+00:00/PT2H=40", "2026-06-10T19:00:00+00:00/PT10H=0"}, 0.4, 0.52, true},
		"across midnight":         {[]string{"2026-06-10T00:00:00+00:00/PT12H=30", "2026-06-10T12:00:00+00:00/PT12H=10", "2026-06-11T00:00:00+00:00/PT12H=50"}, 0.5, 0.65, true},
		"certain":                 {[]string{"2026-06-10T05:00:00+00:00/PT12H=100", "2026-06-10T17:00:00+00:00/PT12H=30"}, 1, 1, true},
		"never":                   {[]string{"2026-06-10T05:00:00+00:00/P1D=0"}, 0, 0, true},
		"an hour not said":        {[]string{"2026-06-10T05:00:00+00:00/PT12H=20", "2026-06-10T18:00:00+00:00/PT11H=40"}, 0, 0, false},
		"half not said":           {[]string{"2026-06-10T05:00:00+00:00/PT12H=20", "2026-06-10T17:00:00+00:00/PT12H=null"}, 0, 0, false},
		"nothing said of the day": {[]string{"2026-06-11T05:00:00+00:00/P1D=20"}, 0, 0, false},
	} {
		g := mustParse(t, gridOf(map[string][]string{"probabilityOfPrecipitation": c.values}))
		low, high, known := g.RainChance(day(t, "2026-06-10"), zone(t, "America/Chicago"))
		if known != c.known || math.Abs(low-c.low) > 1e-12 || math.Abs(high-c.high) > 1e-12 {
			t.Errorf("%s: %g to %g, %t; want %g to %g, %t", name, low, high, known, c.low, c.high, c.known)
		}
		for _, d := range g.Days(zone(t, "America/Chicago")) {
			if d.Day == day(t, "2026-06-10") && (d.PoP == nil || *d.PoP != high) {
				t.Errorf("%s: the day has %v, want the upper bound", name, d.PoP)
			}
		}
	}
}

func TestOfTheDayOfIssueOnlyWhatIsLeftCounts(t *testing.T) {
	body := string(gridOf(map[string][]string{
		"probabilityOfPrecipitation": {"2026-06-10T05:00:00+00:00/PT12H=90", "2026-06-10T17:00:00+00:00/PT12H=20"},
		"quantitativePrecipitation":  {"2026-06-10T05:00:00+00:00/PT12H=8", "2026-06-10T17:00:00+00:00/PT12H=1"},
	}))
	z := zone(t, "America/Chicago")
	d := day(t, "2026-06-10")
	for issued, want := range map[string]weather.ForecastDay{
		"2026-06-10T05:00:00+00:00": {Day: d, PoP: new(0.92), RainMM: new(9.0)},
		"2026-06-10T16:59:00+00:00": {Day: d, PoP: new(0.92), RainMM: new(9.0)},
		"2026-06-10T17:00:00+00:00": {Day: d, PoP: new(0.2), RainMM: new(1.0)},
		"2026-06-11T04:00:00+00:00": {Day: d, PoP: new(0.2), RainMM: new(1.0)},
	} {
		got := mustParse(t, []byte(strings.Replace(body, "2026-06-10T05:00:00+00:00", issued, 1))).Days(z)
		if diff := cmp.Diff([]weather.ForecastDay{want}, got, nearly); diff != "" {
			t.Errorf("issued %s (-want +got):\n%s", issued, diff)
		}
	}
	if got := mustParse(t, []byte(strings.Replace(body, "2026-06-10T05:00:00+00:00", "2026-06-11T05:00:00+00:00", 1))).Days(z); len(got) != 0 {
		t.Errorf("issued when all was over: %v", got)
	}
}

func TestDaysOfTheClockChangeAreWhole(t *testing.T) {
	z := zone(t, "America/Chicago")
	for d, hours := range map[string]int{"2026-03-08": 23, "2026-11-01": 25, "2026-06-10": 24} {
		from := startOf(day(t, d), z)
		for _, short := range []int{0, 1} {
			body := fmt.Sprintf(`{"properties":{"updateTime":%q,"quantitativePrecipitation":{"uom":"wmoUnit:mm","values":[{"validTime":"%s/PT%dH","value":5}]}}}`,
				from.UTC().Format(time.RFC3339), from.Format(time.RFC3339), hours-short)
			days := mustParse(t, []byte(body)).Days(z)
			if known := len(days) == 1 && days[0].Day.String() == d && *days[0].RainMM == 5; known != (short == 0) {
				t.Errorf("%s, %d h short: %v", d, short, days)
			}
		}
	}
}

func TestAGridThatCannotBeIsRefusedWhole(t *testing.T) {
	good := string(gridOf(map[string][]string{"quantitativePrecipitation": {"2026-06-10T06:00:00+00:00/PT6H=1", "2026-06-10T12:00:00+00:00/PT6H=2"}}))
	edit := func(old, with string) string {
		t.Helper()
		if !strings.Contains(good, old) {
			t.Fatalf("%s is not in %s", old, good)
		}
		return strings.Replace(good, old, with, 1)
	}
	mustParse(t, []byte(good))
	for name, c := range map[string]struct{ body, want string }{
		"nothing":               {"", "grid: "},
		"no JSON":               {"<html>", "grid: "},
		"cut off":               {good[:len(good)-4], "grid: "},
		"a list":                {"[]", "grid: "},
		"no properties":         {`{"type":"Feature"}`, "no properties"},
		"no time of issue":      {edit(`"updateTime":"2026-06-10T05:00:00+00:00"`, `"x":1`), "updateTime"},
		"a time that is none":   {edit("2026-06-10T05:00:00+00:00", "2026-06-31T05:00:00+00:00"), "updateTime"},
		"of another century":    {edit("2026-06-10T05:00:00+00:00", "1026-06-10T05:00:00+00:00"), "2000 to 2200"},
		"inches":                {edit("wmoUnit:mm", "wmoUnit:in"), `quantitativePrecipitation: its unit is "wmoUnit:in"; accepted is mm`},
		"no unit":               {edit(`"uom":"wmoUnit:mm",`, ""), "its unit is"},
		"negative rain":         {edit(`"value":2`, `"value":-2`), "quantitativePrecipitation value 2: -2 mm; accepted are 0 to 2000"},
		"a number too long":     {edit(`"value":2`, `"value":1e999`), "grid: "},
		"a word for a number":   {edit(`"value":2`, `"value":"2"`), "grid: "},
		"a duration of minutes": {edit("PT6H", "PT360M"), "quantitativePrecipitation value 1: validTime"},
		"rain counted twice":    {edit("2026-06-10T12:00:00+00:00", "2026-06-10T11:00:00+00:00"), "overlap"},
		"far ahead":             {edit("2026-06-10T12:00:00+00:00", "2027-06-10T12:00:00+00:00"), "more than 31 days from the issue"},
		"a chance of 110":       {string(gridOf(map[string][]string{"probabilityOfPrecipitation": {"2026-06-10T06:00:00+00:00/PT6H=110"}})), "probabilityOfPrecipitation value 1: 110 percent; accepted are 0 to 100"},
		"kelvins by mistake":    {string(gridOf(map[string][]string{"temperature": {"2026-06-10T06:00:00+00:00/PT6H=290"}})), "temperature value 1: 290 degC; accepted are -90 to 60"},
	} {
		if _, err := ParseGrid([]byte(c.body)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one that says %q", name, err, c.want)
		}
	}
}
