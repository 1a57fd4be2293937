package water

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

// ask runs a method with numbers, lists and words.
func ask(t *testing.T, name string, in map[string]any) (*method.Call, error) {
	t.Helper()
	all := Methods()
	i := slices.IndexFunc(all, func(m *method.Method) bool { return m.Name == name })
	if i < 0 {
		t.Fatalf("no method %s", name)
	}
	c := method.NewCall(all[i], nil)
	for key, v := range in {
		switch v := v.(type) {
		case float64:
			c.SetNum(key, v)
		case []float64:
			c.SetList(key, v)
		case string:
			c.SetWord(key, v)
		}
	}
	return c, all[i].Run(c)
}

func TestMethodsSayWhatStoodInAndWhatIsDisputed(t *testing.T) {
	day := func(more map[string]any) map[string]any {
		in := map[string]any{"lat": 43.07, "elevation": 262., "day": 172., "tmax": 27., "tmin": 15., "clip": 0.3, "wind": 2., "rhmax": 90., "rhmin": 50., "solar": 23.}
		for k, v := range more {
			if v == nil {
				delete(in, k)
				continue
			}
			in[k] = v
		}
		return in
	}
	for name, c := range map[string]struct {
		method string
		in     map[string]any
		want   []string
	}{
		"all known":        {"reference-et", day(nil), nil},
		"no humidity":      {"reference-et", day(map[string]any{"rhmax": nil, "rhmin": nil}), []string{"no humidity is given: the dew point was taken to be tmin, good in a humid climate; in dry spells it lies 2 to 3 C lower (from memory) and eto is higher"}},
		"highest only":     {"reference-et", day(map[string]any{"rhmin": nil}), []string{"vapour pressure was told from rhmax alone"}},
		"dew and humidity": {"reference-et", day(map[string]any{"tdew": 12.}), []string{"vapour pressure was told from tdew: the humidities were not used"}},
		"no sun, no wind": {"reference-et", day(map[string]any{"solar": nil, "wind": nil}), []string{
			"radiation was told from the range of temperature with 0.16, for places inland; by a coast or a great lake 0.19 holds",
			"no wind is given: 2 m/s at 2 m was taken",
		}},
		"two suns":     {"reference-et", day(map[string]any{"sunshine": 9.}), []string{"solar was used as given: sunshine was not used"}},
		"a glare":      {"reference-et", day(map[string]any{"solar": 35.}), []string{"solar radiation is above that of a clear sky, 31.7 MJ/m2/d"}},
		"a dull day":   {"reference-et", day(map[string]any{"solar": 6.}), []string{"disputed: Rs/Rso of 0.19 was held at 0.3, the low limit; FAO Paper 56 prints none, the ASCE form 0.3. Without it eto is 2.72 mm/d"}},
		"dull, clip 0": {"reference-et", day(map[string]any{"solar": 6., "clip": 0.}), nil},
		"polar night":  {"sun", map[string]any{"lat": 70., "day": 355.}, []string{"the sun does not rise on this day"}},
		"polar day":    {"sun", map[string]any{"lat": 70., "day": 172.}, []string{"the sun does not set on this day"}},
		"dew falls": {"reference-et", map[string]any{"lat": 60., "elevation": 0., "day": 355., "tmax": 1., "tmin": 0., "clip": 0.3, "wind": 0., "rhmax": 100., "rhmin": 100., "solar": 0.2}, []string{
			"disputed: Rs/Rso of 0.13 was held at 0.3, the low limit; FAO Paper 56 prints none, the ASCE form 0.3. Without it eto is 0.21 mm/d",
			"below 0: dew falls, and the crop uses nothing",
		}},
		"too short":     {"dry-spell", map[string]any{"p01": 0.26, "p11": 0.42, "n": 4., "horizon": 3., "today": "dry"}, []string{"the horizon of 3 days is too short for 4 dry ones", "not knowing today: 0.280 for n days from any day"}},
		"never any wet": {"dry-spell", map[string]any{"p01": 0., "p11": 1., "n": 4., "horizon": 7., "today": "dry"}, nil},
	} {
		got, err := ask(t, c.method, c.in)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(c.want, got.Notes()); diff != "" {
			t.Errorf("%s, notes (-want +got):\n%s", name, diff)
		}
	}
}

func TestMethodsRefuseWhatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		method string
		in     map[string]any
		want   string
	}{
		"half a day":         {"sun", map[string]any{"lat": 43., "day": 172.5}, "day 172.5: accepted whole numbers"},
		"half a day of heat": {"reference-et-temp", map[string]any{"lat": 43., "day": 1.5, "tmax": 2., "tmin": 1.}, "day 1.5: accepted whole numbers"},
		"upside down":        {"reference-et-temp", map[string]any{"lat": 43., "day": 172., "tmax": 10., "tmin": 20.}, "tmax 10 C is below tmin 20 C: check which is which"},
		"upside down, full":  {"reference-et", map[string]any{"lat": 43., "elevation": 0., "day": 172., "tmax": 10., "tmin": 20., "clip": 0.3}, "tmax 10 C is below tmin 20 C: check which is which"},
		"half a day of all":  {"reference-et", map[string]any{"lat": 43., "elevation": 0., "day": 17.2, "tmax": 30., "tmin": 20., "clip": 0.3}, "day 17.2: accepted whole numbers"},
		"lists apart":        {"soil-water", map[string]any{"taw": 100., "depletion": 0., "p": 0.5, "eto": []float64{5, 5}, "rain": []float64{0}, "kc": []float64{1, 1}}, "eto has 2 days, rain 1 and kc 2: accepted lists of one length"},
		"drier than dry":     {"soil-water", map[string]any{"taw": 100., "depletion": 120., "p": 0.5, "eto": []float64{5}, "rain": []float64{0}, "kc": []float64{1}}, "depletion 120 mm: accepted 0 to the available water, 100 mm"},
		"half a dry day":     {"dry-spell", map[string]any{"p01": 0.2, "p11": 0.4, "n": 2.5, "horizon": 7., "today": "dry"}, "n 2.5: accepted whole numbers"},
		"half a horizon":     {"dry-spell", map[string]any{"p01": 0.2, "p11": 0.4, "n": 2., "horizon": 7.5, "today": "wet"}, "horizon 7.5: accepted whole numbers"},
	} {
		if _, err := ask(t, c.method, c.in); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}

func FuzzEstimate(f *testing.F) {
	f.Add(43.07, 262., 172, 27., 15., 90., 50., 12., 2., 11., 23., 0.3)
	f.Add(-90., 0., 1, -40., -60., 0., 0., -80., 0., 0., 0., 0.)
	f.Fuzz(func(t *testing.T, lat, elevation float64, day int, tmax, tmin, rhmax, rhmin, tdew, wind, sunshine, solar, clip float64) {
		w := anyOf(lat, elevation, day, tmax, tmin, rhmax, rhmin, tdew, wind, sunshine, solar)
		e, err := FAO56().Estimate(w, Clip{clip, 1})
		if err != nil {
			return
		}
		if !(e.Rs >= 0 && e.Ea >= 0 && e.ETo > -20 && e.ETo < 100) {
			t.Errorf("%+v is answered %+v", w, e)
		}
	})
}

func anyOf(lat, elevation float64, day int, tmax, tmin, rhmax, rhmin, tdew, wind, sunshine, solar float64) Weather {
	w := NewWeather(unit.Degree(lat), unit.Metre(elevation), day, unit.Celsius(tmax), unit.Celsius(tmin))
	w.RHMax, w.RHMin, w.Tdew = unit.Percent(rhmax), unit.Percent(rhmin), unit.Celsius(tdew)
	w.Wind, w.Sunshine, w.Solar = unit.MetreSec(wind), unit.Hour(sunshine), unit.MJm2Day(solar)
	return w
}
