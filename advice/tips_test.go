package advice_test

import (
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/weather"
)

func TestASpringFrostSuspendsTheWindowsUntilTheTipsAreSeen(t *testing.T) {
	series := sky(frostOn(day("05-12")))
	tall := func() *stand {
		s := alfalfa("Alder")
		s.visits["05-09"] = stick(16, book.Vegetative)
		return s
	}
	r := round(t, day("05-13"), series, tall())
	says(t, find(r, "Alder", "growing-tips"), "20 °F", "15 May")
	if find(r, "Alder", "first-cut") != nil || find(r, "Alder", "stick-reading") != nil {
		t.Error("heat or stick spoke before the tips were seen")
	}
	if p := find(round(t, day("05-15"), series, tall()), "Alder", "growing-tips"); p == nil || p.Urgency != advice.Today {
		t.Errorf("on the third day: %+v", p)
	}
	sound := tall()
	sound.visits["05-15"] = book.Visit{Tips: book.TipsSound}
	sound.visits["05-24"] = stick(25, book.Bud)
	r = round(t, day("05-25"), series, sound)
	if find(r, "Alder", "growing-tips") != nil {
		t.Error("a sound look did not lift the frost")
	}
	p := find(r, "Alder", "first-cut")
	says(t, p, "Stick reading of 24 May")
	for _, b := range p.Stand.Standing.From {
		if b.Name == outlook.BasisHeat {
			t.Error("heat was used after a killing frost")
		}
	}
	killed := tall()
	killed.visits["05-15"] = book.Visit{Tips: book.TipsKilled}
	says(t, find(round(t, day("05-17"), series, killed), "Alder", "growing-tips"), "killed", "do not call the next cut by heat")
	short := alfalfa("Short")
	five := 5.0
	short.visits["05-09"] = book.Visit{GrowthIn: &five}
	if find(round(t, day("05-13"), series, short), "Short", "growing-tips") != nil {
		t.Error("five inches of growth were taken for tall enough to lose tops")
	}
}

func TestWhichFrostsCostTops(t *testing.T) {
	six, five := 6.0, 5.0
	for name, c := range map[string]struct {
		low, high int16 // tenths C
		night     string
		read      *float64
		want      bool
	}{
		"20 F, not read, over 350 F-days":  {-65, 80, "05-18", nil, true},
		"24 F for four hours":              {-44, 60, "05-18", &six, false}, // 24 F exactly is touched, not held
		"22 F for four hours and more":     {-56, 60, "05-18", &six, true},
		"22 F under four hours, warm day":  {-56, 250, "05-18", &six, false},
		"26 F the night through":           {-33, 0, "05-18", &six, false},
		"20 F on five inches":              {-65, 80, "05-18", &five, false},
		"20 F on six inches":               {-65, 80, "05-18", &six, true},
		"20 F, not read, under 350 F-days": {-65, 80, "05-12", nil, false},
		"20 F on six inches, under 350":    {-65, 80, "05-12", &six, true},
	} {
		night := day(c.night)
		series := sky(func(d unit.Day, o *weather.Obs) {
			if d == night {
				o.Value[weather.TMin], o.Value[weather.TMax] = c.low, c.high
			}
		})
		s := alfalfa("Alder")
		if c.read != nil {
			s.visits[night.String()[5:]] = book.Visit{GrowthIn: c.read}
		}
		p := find(round(t, night+1, series, s), "Alder", "growing-tips")
		if (p != nil) != c.want {
			h := round(t, night+1, series, s).Outlook.Stands[0]
			t.Errorf("%s: asks for a look %v, want %v (%.0f F-days)", name, p != nil, c.want, h.Sky.Heat41.On(night))
		}
	}
}

func TestFrostSuspendsTheHeatOfMixturesAndRedCloverToo(t *testing.T) {
	series := sky(frostOn(day("05-18")))
	mixed, clover := alfalfa("Mixed"), alfalfa("Clover")
	mixed.Crop, mixed.GrassShare, clover.Crop = book.AlfalfaGrass, 0.4, book.RedClover
	r := round(t, day("05-20"), series, mixed, clover)
	for _, n := range []string{"Mixed", "Clover"} {
		says(t, find(r, n, "growing-tips"), "Look at the growing tips tomorrow")
	}
	if find(r, "Mixed", "first-cut") != nil || find(r, "Clover", "clover-cut") != nil {
		t.Error("heat spoke before the tips were seen")
	}
	mixed.visits["05-21"] = book.Visit{Tips: book.TipsSound}
	says(t, find(round(t, day("05-26"), series, mixed), "Mixed", "first-cut"), "Cannot be judged", "fter the frost of 18 May", "height of the tallest alfalfa")
	mixed.visits["05-25"] = stick(16, book.Vegetative)
	says(t, find(round(t, day("05-26"), series, mixed), "Mixed", "first-cut"), "tallest alfalfa", "read on 25 May")
}

func TestAfterASoundLookAnUnreadStandAsksForAReading(t *testing.T) {
	s := alfalfa("Alder")
	s.visits["05-21"] = book.Visit{Tips: book.TipsSound}
	p := find(round(t, day("05-29"), sky(frostOn(day("05-18"))), s), "Alder", "first-cut")
	says(t, p, "Cannot be judged", "No reading since the frost of 18 May", "stick reading")
}

func TestASecondFrostAsksForASecondLook(t *testing.T) {
	series := sky(func(d unit.Day, o *weather.Obs) {
		frostOn(day("05-18"))(d, o)
		frostOn(day("05-25"))(d, o)
	})
	s := alfalfa("Alder")
	s.visits["05-21"] = book.Visit{Tips: book.TipsSound}
	if find(round(t, day("05-23"), series, s), "Alder", "growing-tips") != nil {
		t.Error("the look did not lift the first frost")
	}
	says(t, find(round(t, day("05-26"), series, s), "Alder", "growing-tips"), "28 May")
	s.cuts = []string{"05-24"}
	if find(round(t, day("05-26"), series, s), "Alder", "growing-tips") != nil {
		t.Error("a stand cut the day before has no tops to lose")
	}
}
