package season

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/regrowth"
)

// steady is a member of days that are all alike: 15 C, so that each brings 10 C-days, sun, and more rain
// than the soil takes.
func steady(m *regrowth.Model, n int) Member {
	place := m.NewPlace(43, false)
	w := Member{Weight: 1}
	for range n {
		w.Days = append(w.Days, place.Sunny(172, 20, 10, 100, 20))
		w.Fates = append(w.Fates, Plain(m))
		w.Told = append(w.Told, Good)
	}
	return w
}

func ordinary(m *regrowth.Model) Field {
	return Field{
		Model: m, Soil: m.SoilOf(m.UsualTAWMM), Sort: regrowth.Alfalfa, Yield: 1,
		Prices: Prices{Base: 176, BaseRFV: 137.5, PerPoint: 1.3, Floor: 90, MostRFV: 185, PerCut: 45, PerTon: 10},
		Rules:  Rules{LeastDays: 25, LeastTons: 0.3, RestFrom: 244, RestTo: 366},
		Life:   Life{ProductionYear: 1, Years: 3, FullTons: 5, NetTon: 130},
	}
}

// listed cuts on the evenings listed.
type listed map[int]bool

func (l listed) Cuts(day, _ int, _ *regrowth.Crop, _ Sky) bool { return l[day] }

// Every possible set of cuts of a short season tried one after the other: the plan finds the best, and
// knows what it is worth.
func TestASmallSeasonIsPlannedAsWellAsTryingEverything(t *testing.T) {
	m := regrowth.Published()
	m.DrawDown, m.Refill = 0, 0 // the reserve stays full, in its class
	const days = 64
	member := steady(&m, days)
	for name, change := range map[string]func(*Field){
		"usual":                 func(*Field) {},
		"quality pays more":     func(f *Field) { f.Prices.PerPoint, f.Prices.MostRFV = 4, 0 },
		"only tons pay":         func(f *Field) { f.Prices.PerPoint = 0 },
		"harvest costs much":    func(f *Field) { f.Prices.PerCut = 160 },
		"harvest costs nothing": func(f *Field) { f.Prices.PerCut = 0 },
		"rest at the end":       func(f *Field) { f.Rules.RestFrom = 50 },
	} {
		raw := ordinary(&m)
		raw.Rules = Rules{LeastDays: 14, RestFrom: 366, RestTo: 366}
		change(&raw)
		f, err := NewField(raw, member.Days)
		if err != nil {
			t.Fatal(err)
		}
		from := Start{Crop: m.Start(regrowth.Second, 1, 0), Growing: true, LastCut: -1}
		plan, err := Make(f, []Member{member}, Options{StepC: 10, Heats: days + 2})
		if err != nil {
			t.Fatal(err)
		}
		best, tried := math.Inf(-1), 0
		var try func(next int, cuts listed)
		try = func(next int, cuts listed) {
			tried++
			best = max(best, f.Simulate(from, &member, cuts).Worth)
			for d := next; d < days; d++ {
				cuts[d] = true
				try(d+f.Rules.LeastDays, cuts)
				delete(cuts, d)
			}
		}
		try(0, listed{})
		got := f.Simulate(from, &member, plan)
		last := len(plan.reserves) - 1
		value := plan.values[0][plan.node(regrowth.Second, 1, last, 0)].worth[Good]
		if math.Abs(got.Worth-best) > 1e-9 || math.Abs(value-best) > 1e-9 {
			t.Errorf("%s: the best of %d ways is %.6f $/ac, the plan's %.6f, and it says %.6f", name, tried, best, got.Worth, value)
		}
	}
}

// A crop stands ready on three evenings and does not change. On six mornings in ten good weather is told,
// and told rightly: a cut is worth G then and B else. By hand, with one cut to make:
//
//	third evening   G or B
//	second          told good G; told poor, wait for 0.6 G + 0.4 B
//	first           told good G; told poor, wait for 0.6 G + 0.4 (0.6 G + 0.4 B) = 0.84 G + 0.16 B
//	before          0.6 G + 0.4 (0.84 G + 0.16 B) = 0.936 G + 0.064 B
//
// Whoever plans by mean weather has no reason to wait and gets 0.6 G + 0.4 B: 0.336 (G - B) less.
func TestWaitingForTheForecastIsWorthWhatItIsByHand(t *testing.T) {
	m := regrowth.Published()
	m.DrawDown, m.Refill = 0, 0
	const grown, evenings = 39, 3
	clean, rained := Fate{Kept: 0.85, NDF: 3, ADF: 2, Clean: true}, Fate{Kept: 0.55, NDF: 10, ADF: 8}
	cold := m.NewPlace(43, false).Sunny(172, 2, 0, 100, 0)
	var members []Member
	const kinds, good = 5, 3
	for n := range kinds * kinds * kinds {
		w := steady(&m, grown)
		w.Weight = 1.0 / (kinds * kinds * kinds)
		for _, digit := range [evenings]int{n % kinds, n / kinds % kinds, n / kinds / kinds} {
			w.Days = append(w.Days, cold)
			if digit < good {
				w.Fates, w.Told = append(w.Fates, clean), append(w.Told, Good)
			} else {
				w.Fates, w.Told = append(w.Fates, rained), append(w.Told, Poor)
			}
		}
		// before the crop is ready the same is told as often, so that it foretells nothing
		for d := range grown {
			w.Told[d], w.Fates[d] = w.Told[grown+d%evenings], w.Fates[grown+d%evenings]
		}
		members = append(members, w)
	}
	raw := ordinary(&m)
	raw.Rules = Rules{FirstFrom: grown + 1, LeastDays: 100, RestFrom: 366, RestTo: 366}
	f, err := NewField(raw, members[0].Days)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := Make(f, members, Options{From: grown - 1, StepC: 10, Heats: grown + 4})
	if err != nil {
		t.Fatal(err)
	}
	from := Start{Crop: m.Start(regrowth.First, 1, 0), Growing: true, LastCut: -1}
	crop := from.Crop
	for d := range grown {
		m.Grow(&crop, &f.Soil, &members[0].Days[d])
	}
	g, b := f.Reckon(&crop, grown, clean).Worth, f.Reckon(&crop, grown, rained).Worth
	if !(g > b+50) {
		t.Fatalf("clean %.2f, rained %.2f $/ac: no case", g, b)
	}
	told := plan.told[grown][Poor]
	if math.Abs(told[Good]-0.6) > 1e-9 {
		t.Fatalf("after a poor word a good one has the chance %.4f, want 0.6", told[Good])
	}
	m.Grow(&crop, &f.Soil, &cold)
	w := plan.Weigh(grown, &crop, Poor)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %.6f $/ac, want %.6f", what, got, want)
		}
	}
	near("cutting under a poor word", w.Cut, b)
	near("waiting under it", w.Wait, 0.84*g+0.16*b)
	rows := Compare(f, from, members, []Way{{"plan", Same(plan)}, {"at once", Same(Calendar{First: grown + 1, Every: 100})}})
	near("the plan over all ways the weather goes", rows[0].Worth, 0.936*g+0.064*b)
	near("planned by mean weather", rows[1].Worth, 0.6*g+0.4*b)
	near("what waiting gains", rows[0].Worth-rows[1].Worth, 0.336*(g-b))
}

// climates are members of a made-up climate, each with a wave of its own.
func climates(m *regrowth.Model, n int) []Member {
	place := m.NewPlace(43.1, false)
	var out []Member
	for i := range n {
		w := Member{Weight: 1 / float64(n)}
		for j := 1; j <= 365; j++ {
			wave := 4 * math.Sin(float64(j)/(3+float64(i%4))+float64(i))
			mean := 8.5 + 14.3*math.Sin(2*math.Pi*float64(j-107)/365) + wave
			rain, wet := 0.0, math.Sin(float64(j*(i+3))/2.7) > 0.5
			if wet {
				rain = 9
			}
			w.Days = append(w.Days, place.Day(j, mean+5.5, mean-5.5, rain))
			fate := Fate{Kept: 0.78, NDF: 4, ADF: 3, Clean: true}
			if wet {
				fate = Fate{Kept: 0.6, NDF: 11, ADF: 9}
			}
			w.Fates, w.Told = append(w.Fates, fate), append(w.Told, Poor)
			if !wet {
				w.Told[j-1] = Good
			}
		}
		out = append(out, w)
	}
	return out
}

// Two years alike until a day and unlike after: until then the plan does the same in both, since it
// cannot know which of them it is in.
func TestWhatIsDoneTodayHangsOnNoFutureOfItsOwn(t *testing.T) {
	m := regrowth.Published()
	members := climates(&m, 8)
	for _, part := range []int{140, 155, 170, 200, 230} {
		a, b := members[2], members[2]
		b.Days = append(append([]regrowth.Day{}, a.Days[:part+1]...), members[5].Days[part+1:]...)
		b.Fates = append(append([]Fate{}, a.Fates[:part+1]...), members[5].Fates[part+1:]...)
		b.Told = append(append([]Sky{}, a.Told[:part+1]...), members[5].Told[part+1:]...)
		f, err := NewField(ordinary(&m), Mean(members))
		if err != nil {
			t.Fatal(err)
		}
		plan, err := Make(f, members, Options{})
		if err != nil {
			t.Fatal(err)
		}
		until := func(s Season) (days []int) {
			for _, c := range s.Cuts {
				if c.Day <= part {
					days = append(days, c.Day)
				}
			}
			return days
		}
		x, y := until(f.Simulate(NewYear(&m, 1), &a, plan)), until(f.Simulate(NewYear(&m, 1), &b, plan))
		if len(x) != len(y) {
			t.Fatalf("parting on day %d: %v and %v", part, x, y)
		}
		for i := range x {
			if x[i] != y[i] {
				t.Errorf("parting on day %d: %v and %v", part, x, y)
			}
		}
	}
}

func TestNoRuleIsEverBrokenAndTheReserveStaysBetweenEmptyAndFull(t *testing.T) {
	m := regrowth.Published()
	members := climates(&m, 3)
	rapid.Check(t, func(t *rapid.T) {
		raw := ordinary(&m)
		raw.Rules.LeastDays = rapid.IntRange(15, 50).Draw(t, "least days")
		raw.Rules.FirstFrom = rapid.IntRange(1, 190).Draw(t, "first from")
		raw.Rules.RestFrom = rapid.IntRange(200, 290).Draw(t, "rest from")
		raw.Rules.RestTo = rapid.IntRange(raw.Rules.RestFrom, 366).Draw(t, "rest to")
		raw.Prices.PerPoint = rapid.Float64Range(-1, 5).Draw(t, "point")
		raw.Prices.PerCut = rapid.Float64Range(0, 120).Draw(t, "per cut")
		raw.Yield = rapid.Float64Range(0.2, 1.2).Draw(t, "yield")
		f, err := NewField(raw, Mean(members))
		if err != nil {
			t.Fatal(err)
		}
		plan, err := Make(f, members, Options{From: 90, Caution: rapid.Float64Range(0, 1).Draw(t, "caution"), StepC: 150, Heats: 9})
		if err != nil {
			t.Fatal(err)
		}
		from := NewYear(&m, rapid.Float64Range(0, 1).Draw(t, "reserve"))
		for i := range members {
			s := f.Simulate(from, &members[i], plan)
			last := -1
			for _, c := range s.Cuts {
				day := c.Day + 1
				if last >= 0 && c.Day-last < raw.Rules.LeastDays || day < raw.Rules.FirstFrom || day >= raw.Rules.RestFrom && day <= raw.Rules.RestTo {
					t.Fatalf("cut on day %d after %d under %+v", day, last+1, raw.Rules)
				}
				if !(c.Reserve >= 0 && c.Reserve <= 1 && c.Standing > 0 && c.Fed <= c.Standing) {
					t.Fatalf("%+v", c)
				}
				last = c.Day
			}
			if !(s.Winter >= 0 && s.Winter <= 1 && s.Wear <= 0) {
				t.Fatalf("winter %g, wear %g", s.Winter, s.Wear)
			}
		}
	})
}

// Short intervals must not look good by leaving out what they cost the stand: a root that goes into
// winter emptier never wears it less, and five cuts wear more than three.
func TestAnEmptierRootNeverWearsAStandLess(t *testing.T) {
	m := regrowth.Published()
	f, err := NewField(ordinary(&m), Mean(climates(&m, 5)))
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 1).Draw(t, "a")
		b := rapid.Float64Range(a, 1).Draw(t, "b")
		if f.winter(a) > f.winter(b)+1e-9 || f.winter(b) > 0 {
			t.Fatalf("reserve %g: %g $/ac; %g: %g", a, f.winter(a), b, f.winter(b))
		}
	})
	for reserve, want := range map[float64]float64{1: 1, 0.85: 1, 0.725: 1.3, 0.475: 1.8, 0.1: 1.8} {
		if got := f.Life.Rate(reserve); math.Abs(got-want) > 1e-9 {
			t.Errorf("reserve %g: ages by %g years a year, want %g", reserve, got, want)
		}
	}
	// 0.8 of a year more down the ladder from the second to the fifth production year, 1.02 less 0.52, of
	// 5 tons at 130 $: by hand 0.8 x 0.5 x 5 x 130 = 260
	if got := f.Life.Wear(0.475); math.Abs(got-260) > 1e-9 {
		t.Errorf("wear %.3f $/ac, want 260", got)
	}
}

func TestAPriceOrAReadingCanChangeThePlan(t *testing.T) {
	m := regrowth.Published()
	members := climates(&m, 6)
	planned := func(change func(*Field)) (*Field, *Plan) {
		raw := ordinary(&m)
		change(&raw)
		f, err := NewField(raw, Mean(members))
		if err != nil {
			t.Fatal(err)
		}
		p, err := Make(f, members, Options{From: 80})
		if err != nil {
			t.Fatal(err)
		}
		return f, p
	}
	flat, byTons := planned(func(f *Field) { f.Prices.PerPoint = 0 })
	fine, byQuality := planned(func(f *Field) { f.Prices.PerPoint, f.Prices.MostRFV = 3, 0 })
	tons := Compare(flat, NewYear(&m, 1), members, []Way{{"tons", Same(byTons)}})[0]
	quality := Compare(fine, NewYear(&m, 1), members, []Way{{"quality", Same(byQuality)}})[0]
	if !(quality.RFV > tons.RFV+10 && tons.Tons > quality.Tons) {
		t.Errorf("paid for tons: %.1f RFV, %.2f t; for quality: %.1f, %.2f", tons.RFV, tons.Tons, quality.RFV, quality.Tons)
	}
	crop := m.Start(regrowth.First, 1, 0)
	day := m.Spring(members[0].Days)
	for ; m.StageOf(&crop) < 2.6; day++ {
		m.Grow(&crop, &fine.Soil, &members[0].Days[day])
	}
	short, tall := crop, crop
	tall.Height += 25
	a, b := byQuality.Weigh(day-1, &short, Good), byQuality.Weigh(day-1, &tall, Good)
	if a == b || !(a.Cut > b.Cut) {
		t.Errorf("25 cm taller changes nothing: %+v and %+v", a, b)
	}
}

func BenchmarkPlan(b *testing.B) {
	m := regrowth.Published()
	members := climates(&m, 30)
	f, err := NewField(ordinary(&m), Mean(members))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Make(f, members, Options{From: 90}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWeigh(b *testing.B) {
	m := regrowth.Published()
	members := climates(&m, 30)
	f, err := NewField(ordinary(&m), Mean(members))
	if err != nil {
		b.Fatal(err)
	}
	p, err := Make(f, members, Options{From: 90})
	if err != nil {
		b.Fatal(err)
	}
	crop := m.Start(regrowth.Second, 0.8, 60)
	for d := 150; d < 175; d++ {
		m.Grow(&crop, &f.Soil, &members[0].Days[d])
	}
	b.ReportAllocs()
	for b.Loop() {
		p.Weigh(174, &crop, Good)
	}
}
