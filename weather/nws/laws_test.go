package nws

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// layerWithoutGaps draws intervals that follow each other from hours before the issue on, with a value each.
func layerWithoutGaps(t *rapid.T, most float64) (values []string, total float64, from, to time.Time) {
	at := time.Date(2026, 6, 10, 5, 0, 0, 0, time.UTC).Add(-time.Duration(rapid.IntRange(0, 5).Draw(t, "before")) * time.Hour)
	from = at
	for range rapid.IntRange(1, 30).Draw(t, "pieces") {
		hours := rapid.IntRange(6, 24).Draw(t, "hours")
		v := math.Round(rapid.Float64Range(0, most).Draw(t, "value")*100) / 100
		length := fmt.Sprintf("PT%dH", hours)
		if hours == 24 {
			length = "P1D"
		}
		values = append(values, fmt.Sprintf("%s/%s=%g", at.Format(time.RFC3339), length, v))
		at = at.Add(time.Duration(hours) * time.Hour)
		total += v
	}
	return values, total, from, at
}

func someZone(t *rapid.T) *time.Location {
	return rapid.SampledFrom([]*time.Location{
		time.UTC, time.FixedZone("", -5*3600), time.FixedZone("", -10*3600), time.FixedZone("", 10*3600), time.FixedZone("", -(3*3600 + 1800)),
	}).Draw(t, "zone")
}

func TestRainIsNeitherLostNorMade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values, total, from, to := layerWithoutGaps(t, 40)
		g, err := ParseGrid(gridOf(map[string][]string{"quantitativePrecipitation": values}))
		if err != nil {
			t.Fatal(err)
		}
		z := someZone(t)
		var sum, known float64
		for d := unit.DayOf(from.In(z)); d <= unit.DayOf(to.In(z)); d++ {
			sum += amount(g.rain, startOf(d, z), startOf(d+1, z))
		}
		if math.Abs(sum-total) > 1e-9 {
			t.Fatalf("the days have %g mm, the intervals %g", sum, total)
		}
		for _, d := range g.Days(z) {
			if d.RainMM != nil {
				known += *d.RainMM
			}
		}
		if known > total+1e-9 {
			t.Fatalf("the days said have %g mm, the intervals %g", known, total)
		}
		// The last day is said where the layer reaches its end, and only there.
		last := unit.DayOf(to.In(z)) - 1
		days := g.Days(z)
		if i := slices.IndexFunc(days, func(d weather.ForecastDay) bool { return d.Day > last && d.RainMM != nil }); i >= 0 {
			t.Fatalf("%s is said, and the layer ends %s", days[i].Day, to.In(z))
		}
	})
}

func TestTheBoundsOfTheChanceOfRainAreInOrderAndGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values, _, _, to := layerWithoutGaps(t, 100)
		z := someZone(t)
		last := unit.DayOf(to.In(z)) - 1
		parse := func(values []string) *Grid {
			g, err := ParseGrid(gridOf(map[string][]string{"probabilityOfPrecipitation": slices.Clone(values)}))
			if err != nil {
				t.Fatal(err)
			}
			return g
		}
		g := parse(values)
		i := rapid.IntRange(0, len(values)-1).Draw(t, "wetter")
		at, _, _ := strings.Cut(values[i], "=")
		values[i] = at + "=100"
		wetter := parse(values)
		for d := unit.DayOf(g.Updated.In(z)); d <= last; d++ {
			low, high, known := g.RainChance(d, z)
			low2, high2, _ := wetter.RainChance(d, z)
			if !known || low < 0 || low > high || high > 1 || high > 2*low {
				t.Fatalf("%s: %g to %g, %t", d, low, high, known)
			}
			if low2 < low || high2 < high-1e-12 {
				t.Fatalf("%s: %g to %g, with a wetter piece %g to %g", d, low, high, low2, high2)
			}
		}
	})
}

func TestTheOrderInWhichIntervalsComeSaysNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values, _, _, _ := layerWithoutGaps(t, 40)
		z := someZone(t)
		days := func(values []string) []weather.ForecastDay {
			g, err := ParseGrid(gridOf(map[string][]string{"quantitativePrecipitation": slices.Clone(values), "temperature": slices.Clone(values)}))
			if err != nil {
				t.Fatal(err)
			}
			return g.Days(z)
		}
		if diff := cmp.Diff(days(values), days(rapid.Permutation(values).Draw(t, "order"))); diff != "" {
			t.Fatal(diff)
		}
	})
}

// Whatever is read, the days it makes can be kept: in order, each once, with numbers in range, and not
// without end.
func FuzzParseGrid(f *testing.F) {
	body, err := os.ReadFile("testdata/grid.json")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(body)
	for layer, values := range map[string][]string{
		"temperature":                {"2026-06-10T05:00:00+00:00/P31D=20"},
		"maxTemperature":             {"2026-05-10T05:00:01-12:00/P31D=20", "2026-06-10T05:00:00+00:00/PT744H=-90"},
		"minTemperature":             {"2026-06-10T05:00:00+00:00/P0DT1H=60"},
		"probabilityOfPrecipitation": {"2026-06-10T05:00:00+00:00/PT12H=100", "2026-06-10T17:00:00+00:00/PT12H=null"},
		"quantitativePrecipitation":  {"2026-06-10T05:00:00+00:00/P1D=1e-320"},
	} {
		f.Add(gridOf(map[string][]string{layer: values}))
	}
	f.Add([]byte(`{"properties":{"updateTime":"2200-12-31T23:59:59.999999999+23:59"}}`))
	zones := []*time.Location{time.UTC, zone(f, "America/Chicago"), zone(f, "Pacific/Guam"), zone(f, "Pacific/Pago_Pago")}
	f.Fuzz(func(t *testing.T, body []byte) {
		g, err := ParseGrid(body)
		if err != nil {
			if g != nil || !strings.HasPrefix(err.Error(), "grid: ") {
				t.Fatalf("grid %v, error %v", g, err)
			}
			return
		}
		for _, z := range zones {
			days := g.Days(z)
			if len(days) > 33 {
				t.Fatalf("%d days", len(days))
			}
			for i, d := range days {
				if i > 0 && d.Day <= days[i-1].Day || d.Day < unit.DayOf(g.Updated.In(z)) {
					t.Fatalf("day %s of an issue of %s, after %v", d.Day, g.Updated, days[:i])
				}
				for _, v := range []struct {
					value     *float64
					low, high float64
				}{{d.TMaxC, -90, 60}, {d.TMinC, -90, 60}, {d.PoP, 0, 1}, {d.RainMM, 0, 24 * 2001}} {
					if v.value != nil && !(*v.value >= v.low && *v.value <= v.high) {
						t.Fatalf("day %s has %g", d.Day, *v.value)
					}
				}
			}
			if _, err := json.Marshal(days); err != nil {
				t.Fatal(err)
			}
		}
	})
}
