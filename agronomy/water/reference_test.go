package water

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// Printed steps of the paper's examples, half a unit of their last digit allowed. [source.ReferenceET],
// [source.ReferenceETPrint]
func TestStepsOfThePaperAreReproduced(t *testing.T) {
	p := FAO56()
	want(t, "example 2, pressure at 1800 m", float64(Pressure(1800)), 81.8, 0.05)
	want(t, "example 2, psychrometric constant", p.PsychroKPa(1800), 0.054, 5e-4)
	want(t, "example 3, e(24.5)", float64(Vapour(24.5)), 3.075, 5e-4)
	want(t, "example 3, e(15)", float64(Vapour(15)), 1.705, 5e-4)
	want(t, "example 3, es", p.MeanVapourKPa(24.5, 15), 2.39, 0.005)
	want(t, "example 3, the wrong way by the mean temperature", float64(Vapour(19.75)), 2.30, 0.005)
	w := NewWeather(45, 100, 180, 25, 18)
	w.RHMax, w.RHMin = 82, 54
	ea, _ := p.vapourOf(w)
	want(t, "example 5, ea", ea, 1.70, 0.005)

	ra, n := p.Sky(-22.9, 135)
	rs := p.BySunshineMJ(220./31, n, ra)
	want(t, "example 10, Rs", rs, 14.5, 0.05)
	rso := p.ClearMJ(0, ra)
	want(t, "example 11, Rso", rso, 18.8, 0.05)
	long := p.LongMJ(25.1, 19.1, 2.1, rs, rso, UsualClip())
	want(t, "example 11, Rnl", long, 3.5, 0.05)
	want(t, "example 12, Rns", p.ShortMJ(rs), 11.1, 0.05)
	want(t, "example 12, Rn", p.ShortMJ(rs)-long, 7.6, 0.05)
	want(t, "example 14, wind at 2 m", float64(WindAt2(3.2, 10)), 2.4, 0.05)
	ra, _ = p.Sky(45.72, 196)
	want(t, "example 15, Rs", float64(SolarByRange(26.6, 14.8, unit.MJm2Day(ra), false)), 22.3, 0.05)
}

// The same steps with more digits, as other implementations print them. [source.ReferenceETForm]
func TestStepsAgreeWithOtherForms(t *testing.T) {
	p := FAO56()
	want(t, "pressure at 1800 m", float64(Pressure(1800)), 81.76, 0.005)
	want(t, "slope at 19.75 C", p.SlopeKPa(19.75), 0.142793, 5e-7)
	ra, n := p.Sky(-22.9, 135)
	want(t, "Rs from 220 h in 31 days", p.BySunshineMJ(220./31, n, ra), 14.456, 5e-4)
	want(t, "Rso", p.ClearMJ(0, ra), 18.833, 5e-4)
	want(t, "wind of 10 m", float64(WindAt2(1, 10)), 0.7479510752, 5e-11)
}

// Example 17, Bangkok in April: a month, with the heat that the soil takes in. [source.ReferenceET]
func TestAMonthOfBangkok(t *testing.T) {
	p := FAO56()
	s := p.At(2)
	ra, n := p.Sky(13.73, 105)
	rs := p.BySunshineMJ(8.5, n, ra)
	rn := s.NetMJ(34.8, 25.6, 2.85, rs, ra, UsualClip())
	g := SoilHeatMJ(30.2, 29.2)
	want(t, "slope", p.SlopeKPa(30.2), 0.246, 5e-4)
	want(t, "psychrometric constant, printed from a rounded pressure", p.PsychroKPa(2), 0.0674, 1e-4)
	want(t, "es", p.MeanVapourKPa(34.8, 25.6), 4.42, 0.005)
	want(t, "Rs", rs, 22.65, 0.005)
	want(t, "Rn", rn, 14.33, 0.005)
	want(t, "G", g, 0.14, 1e-12)
	want(t, "ETo", s.EToMM(34.8, 25.6, 2.85, 2, rn, g), 5.72, 0.005)
}

// Example 18, Uccle on 6 July, all steps. [source.ReferenceET]
func TestADayOfUccle(t *testing.T) {
	w := NewWeather(50.8, 100, 187, 21.5, 12.3)
	w.RHMax, w.RHMin, w.Sunshine = 84, 63, 9.25
	w.Wind = WindAt2(10/3.6, 10)
	p := FAO56()
	e, err := p.Estimate(w, UsualClip())
	if err != nil {
		t.Fatal(err)
	}
	want(t, "u2", float64(e.Wind), 2.078, 5e-4)
	want(t, "slope", p.SlopeKPa(16.9), 0.122, 5e-4)
	want(t, "psychrometric constant", p.PsychroKPa(100), 0.0666, 5e-5)
	want(t, "es", float64(e.Es), 1.997, 5e-4)
	want(t, "ea", float64(e.Ea), 1.409, 5e-4)
	want(t, "Ra", float64(e.Ra), 41.09, 0.005)
	want(t, "N", float64(e.DayLength), 16.1, 0.05)
	want(t, "Rs", float64(e.Rs), 22.07, 0.005)
	want(t, "Rso", float64(e.Rso), 30.90, 0.005)
	want(t, "Rns", p.ShortMJ(float64(e.Rs)), 17.0, 0.05)
	want(t, "Rnl", p.ShortMJ(float64(e.Rs))-float64(e.Rn), 3.71, 0.005)
	want(t, "Rn", float64(e.Rn), 13.28, 0.005)
	want(t, "ETo", float64(e.ETo), 3.88, 0.005)
	if e.Vapour != FromHumidities || e.Solar != FromSunshine || e.WindFrom != FromMeasured || e.Clipped {
		t.Errorf("told from %s, %s, %s, clipped %t", e.Vapour, e.Solar, e.WindFrom, e.Clipped)
	}
}

// Our own arithmetic, worked in Python.
func TestVapourAndRadiationByHand(t *testing.T) {
	p := FAO56()
	for temp, v := range map[float64]float64{0: 0.6108, 10: 1.2280, 20: 2.3383, 30: 4.2431} {
		want(t, "e", float64(Vapour(unit.Celsius(temp))), v, 5.1e-5)
	}
	for temp, v := range map[float64]float64{0: 0.04445, 20: 0.14474, 30: 0.24336} {
		want(t, "slope", p.SlopeKPa(temp), v, 5.1e-6)
	}
	want(t, "pressure at 262 m", float64(Pressure(262)), 98.241, 5e-4)
	want(t, "psychrometric constant at 262 m", p.PsychroKPa(262), 0.06533, 5e-6)
	for _, c := range []struct{ temp, rh, kPa float64 }{{25, 50, 1.5839}, {30, 40, 2.5458}, {15, 95, 0.0853}} {
		want(t, "deficit", float64(Deficit(unit.Celsius(c.temp), unit.Percent(c.rh))), c.kPa, 5.1e-5)
	}
	for cover, rs := range map[unit.Percent]float64{0: 31.44, 25: 26.20, 50: 20.96, 100: 10.48} {
		want(t, "Rs under cover", float64(SolarByCover(cover, 41.918)), rs, 0.0051)
	}
	want(t, "wind of 14.832 km/h", float64(WindAt2(14.832/3.6, 10)), 3.08, 0.005)
	want(t, "es - ea of 27/15", p.MeanVapourKPa(27, 15)-p.VapourKPa(15), 0.93000, 5.1e-6)
	if !math.IsNaN(float64(WindAt2(3, 0.05))) {
		t.Error("wind on the ground has a value at 2 m")
	}
	coast, inland := SolarByRange(27, 15, 41.918, true), SolarByRange(27, 15, 41.918, false)
	want(t, "coast over inland", float64(coast/inland), 19./16, 1e-12)
}

func TestWhatIsNotKnownIsToldFromWhatIs(t *testing.T) {
	p := FAO56()
	base := func() Weather { return NewWeather(43.07, 262, 172, 27, 15) }
	for name, c := range map[string]struct {
		set           func(*Weather)
		ea            float64
		vapour, solar From
		wind          From
	}{
		"temperature only":       {func(*Weather) {}, p.VapourKPa(15), FromLowestTemp, FromTempRange, FromUsual},
		"highest humidity":       {func(w *Weather) { w.RHMax = 90 }, 0.9 * p.VapourKPa(15), FromHighestRH, FromTempRange, FromUsual},
		"both humidities":        {func(w *Weather) { w.RHMax, w.RHMin = 90, 50 }, (0.9*p.VapourKPa(15) + 0.5*p.VapourKPa(27)) / 2, FromHumidities, FromTempRange, FromUsual},
		"dew point first":        {func(w *Weather) { w.RHMax, w.RHMin, w.Tdew = 90, 50, 12 }, p.VapourKPa(12), FromDewPoint, FromTempRange, FromUsual},
		"radiation before sun":   {func(w *Weather) { w.Solar, w.Sunshine = 25, 3 }, p.VapourKPa(15), FromLowestTemp, FromMeasured, FromUsual},
		"sunshine before degree": {func(w *Weather) { w.Sunshine, w.Wind = 15.4, 1 }, p.VapourKPa(15), FromLowestTemp, FromSunshine, FromMeasured},
	} {
		w := base()
		c.set(&w)
		e, err := p.Estimate(w, UsualClip())
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want(t, name+", ea", float64(e.Ea), c.ea, 1e-12)
		if e.Vapour != c.vapour || e.Solar != c.solar || e.WindFrom != c.wind {
			t.Errorf("%s: told from %s, %s, %s", name, e.Vapour, e.Solar, e.WindFrom)
		}
	}
	w := base()
	w.Coast = true
	e, _ := p.Estimate(w, UsualClip())
	want(t, "Rs by a coast", float64(e.Rs), 0.19*math.Sqrt(12)*float64(e.Ra), 1e-9)
	w = base()
	w.Sunshine = 15.4 // a recorder's day is longer than the geometric one
	e, _ = p.Estimate(w, UsualClip())
	want(t, "Rs of a day all sun", float64(e.Rs), 0.75*float64(e.Ra), 1e-9)
}

// Without sun Rs/Rso says nothing of cloud: the low limit stands for it.
func TestThePolarNightHasReferenceET(t *testing.T) {
	w := NewWeather(80, 0, 355, -10, -20)
	w.Sunshine = 0
	p := FAO56()
	e, err := p.Estimate(w, UsualClip())
	if err != nil {
		t.Fatal(err)
	}
	if e.Ra != 0 || e.Rs != 0 || e.Rso != 0 || e.Solar != FromSunshine || e.Clipped {
		t.Errorf("%+v", e)
	}
	want(t, "Rn", float64(e.Rn), -p.LongMJ(-10, -20, float64(e.Ea), 0.3, 1, UsualClip()), 1e-12)
}

func TestDaysThatCannotBeAreRefused(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		set  func(*Weather)
		want string
	}{
		"upside down":         {func(w *Weather) { w.Tmax, w.Tmin = 10, 20 }, "tmax 10 C is below tmin 20 C: check which is which"},
		"no temperature":      {func(w *Weather) { w.Tmax = unit.Celsius(nan) }, "tmin 15 C, tmax NaN C: accepted -90 to 60 C"},
		"fahrenheit":          {func(w *Weather) { w.Tmax = 81 }, "tmin 15 C, tmax 81 C: accepted -90 to 60 C"},
		"off the globe":       {func(w *Weather) { w.Lat = 95 }, "latitude 95: accepted -90 to 90 degrees, south negative"},
		"no such day":         {func(w *Weather) { w.YearDay = 367 }, "day 367: accepted days 1 to 366 of the year"},
		"half a humidity":     {func(w *Weather) { w.RHMin = 50 }, "rhmin alone gives no vapour pressure: give rhmax too, or the dew point"},
		"humidities swapped":  {func(w *Weather) { w.RHMax, w.RHMin = 50, 90 }, "rhmin 90 % is above rhmax 50 %: check which is which"},
		"more than wet":       {func(w *Weather) { w.RHMax = 104 }, "rhmax 104 %: accepted 0 to 100"},
		"dew above the day":   {func(w *Weather) { w.Tdew = 30 }, "dew point 30 C: accepted -90 to 27"},
		"wind in km/h":        {func(w *Weather) { w.Wind = 70 }, "wind 70 m/s: accepted 0 to 60"},
		"sun at night":        {func(w *Weather) { w.Sunshine = 17 }, "sunshine 17 h: accepted at most 15.19, the length of day 172 at 43.07 degrees"},
		"more than the sun":   {func(w *Weather) { w.Solar = 45 }, "solar radiation 45 MJ/m2: accepted at most 41.92, what comes in above the atmosphere on day 172 at 43.07 degrees; check its unit"},
		"no height":           {func(w *Weather) { w.Elevation = unit.Metre(nan) }, "elevation is not given: accepted -430 to 9000 m"},
		"below the seabed":    {func(w *Weather) { w.Elevation = -500 }, "elevation -500 m: accepted -430 to 9000"},
		"infinite dew point":  {func(w *Weather) { w.Tdew = unit.Celsius(math.Inf(-1)) }, "dew point -Inf C: accepted -90 to 27"},
		"latitude that is no": {func(w *Weather) { w.Lat = unit.Degree(nan) }, "latitude NaN: accepted -90 to 90 degrees, south negative"},
	} {
		w := NewWeather(43.07, 262, 172, 27, 15)
		c.set(&w)
		if _, err := FAO56().Estimate(w, UsualClip()); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
	if _, err := FAO56().Estimate(NewWeather(43.07, 262, 172, 27, 15), Clip{0.5, 0.5}); err == nil || !strings.Contains(err.Error(), "clip 0.5 to 0.5") {
		t.Errorf("a clip without width: %v", err)
	}
	if _, err := ByTemperature(43, 0, 20, 10); err == nil {
		t.Error("a day 0 has evapotranspiration")
	}
	if _, err := ByTemperature(43, 1, 10, 20); err == nil {
		t.Error("a day upside down has evapotranspiration")
	}
}

func anyWeather(t *rapid.T) Weather {
	tmin := rapid.Float64Range(-40, 35).Draw(t, "tmin")
	w := NewWeather(
		unit.Degree(rapid.Float64Range(-90, 90).Draw(t, "lat")), unit.Metre(rapid.Float64Range(0, 3000).Draw(t, "elevation")),
		rapid.IntRange(1, 366).Draw(t, "day"), unit.Celsius(tmin+rapid.Float64Range(0, 25).Draw(t, "range")), unit.Celsius(tmin))
	w.Wind = unit.MetreSec(rapid.Float64Range(0, 12).Draw(t, "wind"))
	return w
}

func TestReferenceETIsANumberEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWeather(t)
		e, err := FAO56().Estimate(w, UsualClip())
		if err != nil {
			t.Fatal(err)
		}
		if v := float64(e.ETo); math.IsNaN(v) || v < -3 || v > 25 {
			t.Fatalf("%+v: %g mm", w, v)
		}
		if h, err := ByTemperature(w.Lat, w.YearDay, w.Tmax, w.Tmin); err != nil || !(h >= 0 && h < 25) {
			t.Fatalf("%+v: %g mm by temperature alone, %v", w, h, err)
		}
	})
}

// In the growing season: in the dark of winter a clear sky loses more heat than it brings.
func TestDrierAirAndMoreSunTakeMoreWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWeather(t)
		w.Lat = unit.Degree(rapid.Float64Range(25, 50).Draw(t, "midlatitude"))
		w.YearDay = rapid.IntRange(100, 260).Draw(t, "season")
		w.Wind = max(w.Wind, 0.5)
		w.RHMax = unit.Percent(rapid.Float64Range(60, 100).Draw(t, "rhmax"))
		w.RHMin = unit.Percent(rapid.Float64Range(20, 60).Draw(t, "rhmin"))
		w.Tmin = max(w.Tmin, 5)
		w.Tmax = max(w.Tmax, w.Tmin)
		ask := func(w Weather) unit.Millimetre {
			e, err := FAO56().Estimate(w, UsualClip())
			if err != nil {
				t.Fatal(err)
			}
			return e.ETo
		}
		sunnier := w
		_, n, _ := Above(w.Lat, w.YearDay)
		w.Sunshine, sunnier.Sunshine = n*0.4, n*0.6
		if a, b := ask(w), ask(sunnier); a >= b {
			t.Fatalf("%+v: %g mm, more sun gives %g", w, a, b)
		}
		windier := w
		windier.Wind++
		windier.RHMin, windier.RHMax = w.RHMin/4, w.RHMax/4
		if a, b := ask(w), ask(windier); a >= b {
			t.Fatalf("%+v: %g mm, dry wind gives %g", w, a, b)
		}
	})
}

func TestHotLoopsDoNotAllocate(t *testing.T) {
	p := FAO56()
	s := p.At(262)
	h, clip, sky := HargreavesSamani(), UsualClip(), p.Year(43.07)
	shape, air, x := DenverShape(), FAOAir(), Extremes{27, 15, 27, 15}
	var hours Hours
	b := Bucket{168, 0.55, FAODepletion()}
	c := NewCourse(Alfalfa().Cutting, GrowthHeat(false))
	var sum float64
	if n := testing.AllocsPerRun(100, func() {
		ra := sky.RaMJ[172]
		rs := s.ByRangeMJ(27, 15, ra)
		rn := s.NetMJ(27, 15, 1.7, rs, ra, clip)
		etc := c.At(200) * (s.EToMM(27, 15, 1.7, 2, rn, 0) + h.EToMM(27, 15, ra))
		next, ks, used, drained := b.Day(80, b.ScarceMM(etc), etc, 3)
		shape.Fill(&hours, &air, &x, rs, 1.7, sky.DayLengthH[172])
		sum += next + ks + used + drained + hours.TempC[12]
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
	if !(sum > 0) {
		t.Error("nothing was reckoned")
	}
}

func TestTheYearTableIsTheSkyOfEachDay(t *testing.T) {
	y := FAOOrbit().Year(43.07)
	for d := 1; d <= 366; d++ {
		ra, n := FAOOrbit().Sky(43.07, float64(d))
		if y.RaMJ[d] != ra || y.DayLengthH[d] != n {
			t.Fatalf("day %d: %g, %g in the table; %g, %g", d, y.RaMJ[d], y.DayLengthH[d], ra, n)
		}
	}
}

func TestThePolesHaveASkyToo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.OneOf(rapid.Float64Range(-90, 90), rapid.SampledFrom([]float64{-90, -66.56, 0, 66.56, 90})).Draw(t, "lat")
		day := rapid.IntRange(1, 366).Draw(t, "day")
		ra, n, err := Above(unit.Degree(lat), day)
		if err != nil || !(ra >= 0 && ra < 50 && n >= 0 && n <= 24) {
			t.Fatalf("%g degrees, day %d: %g MJ, %g h, %v", lat, day, ra, n, err)
		}
		_, south, _ := Above(unit.Degree(-lat), day)
		if !near(float64(n+south), 24, 1e-9) {
			t.Fatalf("%g degrees, day %d: %g h in the north and %g in the south", lat, day, n, south)
		}
	})
}
