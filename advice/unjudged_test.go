package advice_test

import (
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

// ends cuts the station's record off after a day of 2026.
func ends(last string) *weather.Series {
	return sky(func(d unit.Day, o *weather.Obs) {
		if d > day(last) {
			*o = weather.NoObs()
		}
	})
}

func TestNoStandIsLeftOutAndWhyIsSaid(t *testing.T) {
	holes := sky(func(d unit.Day, o *weather.Obs) {
		if d >= day("03-10") && d < day("04-10") {
			*o = weather.NoObs()
		}
	})
	young := plain().Between(unit.DateOf(2026, 1, 1), unit.DateOf(2026, 12, 31))
	away := alfalfa("Away")
	away.station = "ZZT00000009"
	nowhere := alfalfa("Nowhere")
	nowhere.station = ""
	mixed, clover := alfalfa("Mixed"), alfalfa("Clover")
	mixed.Crop, mixed.GrassShare, clover.Crop = book.AlfalfaGrass, 0.4, book.RedClover
	for name, c := range map[string]struct {
		series *weather.Series
		date   string
		stand  *stand
		want   string
	}{
		"no weather in the book": {nil, "05-20", alfalfa("Alder"), "No weather of station " + station},
		"another station":        {plain(), "05-20", away, "No weather of station ZZT00000009"},
		"no station":             {plain(), "05-20", nowhere, "The field has no weather station"},
		"old weather":            {ends("05-10"), "07-20", alfalfa("Alder"), "ends on 10 May, 71 days ago; import the days since"},
		"old weather, mixture":   {ends("05-02"), "06-20", mixed, "ends on 2 May"},
		"old weather, clover":    {ends("05-02"), "06-20", clover, "ends on 2 May"},
		"weather with holes":     {holes, "05-20", mixed, "reported nothing on 31 of the 80 days since 1 March"},
		"no past year":           {young, "05-20", alfalfa("Alder"), "has no past year to follow"},
		"no past year, mixture":  {young, "05-20", mixed, "has no past year to follow"},
		"no past year, clover":   {young, "05-20", clover, "has no past year to follow"},
		"nothing of this spring": {ends("01-01"), "04-20", alfalfa("Alder"), "ends on 1 January"},
	} {
		t.Run(name, func(t *testing.T) {
			for _, read := range []bool{false, true} {
				s := *c.stand
				s.visits = map[string]book.Visit{}
				if read && c.date == "05-20" && s.Crop == book.Alfalfa {
					s.visits["05-18"] = stick(24, book.Bud)
				}
				r := round(t, day(c.date), c.series, &s)
				if len(r.Pieces) == 0 {
					t.Fatal("the stand is left out")
				}
				if p := r.Pieces[0]; p.Urgency != advice.Unjudged {
					t.Errorf("read %v: judged all the same: %q", read, p.Title)
				}
				says(t, r.Pieces[0], c.want)
			}
		})
	}
}

func TestWeatherALittleOldIsUsedAndSaid(t *testing.T) {
	s := alfalfa("Alder")
	s.visits["05-22"] = stick(26, book.Bud)
	r := round(t, day("05-26"), ends("05-18"), s)
	says(t, find(r, "Alder", "first-cut"), "ends on 18 May, 8 days ago", "usual value")
	if fresh := find(round(t, day("05-26"), ends("05-24"), s), "Alder", "first-cut"); fresh == nil || len(fresh.Cautions) > 0 {
		t.Errorf("a record of the day before yesterday is called old: %+v", fresh)
	}
}

func TestNewYearsDayIsNotWithoutWeather(t *testing.T) {
	r := round(t, day("01-01"), plain(), alfalfa("Alder"))
	says(t, r.Pieces[0], "Nothing due", "Dormant")
}

func TestNoStandIsSilentOnAnyDayOfTheYear(t *testing.T) {
	kinds := []*stand{alfalfa("Pure"), alfalfa("Clover"), alfalfa("Mixed"), alfalfa("New"), alfalfa("Late")}
	kinds[1].Crop, kinds[2].Crop, kinds[2].GrassShare = book.RedClover, book.AlfalfaGrass, 0.4
	kinds[3].Seeded, kinds[4].Seeded = day("04-25"), day("08-15")
	for d := day("01-01"); d <= day("12-31"); d += 5 {
		r := round(t, d, plain(), kinds...)
		lines := map[string]bool{}
		for _, l := range r.Lines() {
			lines[l.Stand.Farm.Name] = true
		}
		if len(lines) != len(r.Outlook.Stands) {
			t.Errorf("%s: %d of %d stands are spoken of", d, len(lines), len(r.Outlook.Stands))
		}
	}
}
