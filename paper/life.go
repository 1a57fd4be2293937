package paper

import (
	"fmt"
	"math"
	"strings"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/outlook"
)

// stemsWanted is the count under which a stand is looked at for replacing, as [Stems] draws it.
const stemsWanted = 40

// Life draws a stand from seeding to turn-under: what it gave by years, its stems, and the soil under it.
// Not ok where nothing of it was followed yet.
func Life(s *outlook.Stand) (chart.LifeLine, bool) {
	c := chart.LifeLine{Today: day(s.Date), Marks: []chart.LifeMark{{Day: day(s.Seeded), Words: "seeded"}}}
	if s.TurnedUnder != nil {
		c.Marks = append(c.Marks, chart.LifeMark{Day: day(*s.TurnedUnder), Words: "turned under"})
	}
	var yields, stems chart.LifeTrack
	yields = chart.LifeTrack{Name: "Yield", Unit: "tons of dry matter an acre", Bars: true}
	for _, y := range s.YearYields() {
		yields.Points = append(yields.Points, chart.LifePoint{Day: day(unit.DateOf(y.Year, time.July, 1)), Value: roundTo(y.Tons, 10), Guessed: y.Guessed > 0})
	}
	stems = chart.LifeTrack{Name: "Stems", Unit: "a square foot", Target: stemsWanted}
	for _, p := range s.StemCounts() {
		stems.Points = append(stems.Points, chart.LifePoint{Day: day(p.Day), Value: roundTo(p.Value, 1)})
	}
	first := s.Seeded
	for _, t := range []chart.LifeTrack{yields, stems} {
		if len(t.Points) > 0 {
			c.Tracks = append(c.Tracks, t)
		}
	}
	soils, from := soilTracks(outlook.SoilSeriesOf(s.InField, s.Date))
	if len(soils) > 0 && from < first {
		first = max(from, first-soilBefore)
	}
	c.Tracks = append(c.Tracks, soils...)
	c.First, c.Last = day(unit.DateOf(first.Year(), time.January, 1)), day(unit.DateOf(s.Date.Year(), time.December, 31))
	c.Title = "The life of " + s.Named()
	c.Desc = fmt.Sprintf("Seeded %s; %d years with cuts, %d stem counts", s.Seeded, len(yields.Points), len(stems.Points))
	return c, len(c.Tracks) > 0
}

// soilBefore is for how many days before the seeding soil tests are drawn (choice).
const soilBefore = 730

// soilTracks are pH, phosphorus and potassium through the tests, with the first day of them.
func soilTracks(series []outlook.SoilSeries) (tracks []chart.LifeTrack, from unit.Day) {
	for _, x := range series {
		if x.Code != "ph" && x.Code != "p" && x.Code != "k" {
			continue
		}
		t := chart.LifeTrack{Name: x.Name, Unit: x.Unit}
		steps := 1.
		if x.By != "" {
			t.Unit += " by " + string(x.By)
		} else {
			steps = 10
		}
		for _, p := range x.Points {
			t.Points = append(t.Points, chart.LifePoint{Day: day(p.Day), Value: roundTo(p.Value, steps)})
			if from == 0 || p.Day < from {
				from = p.Day
			}
		}
		tracks = append(tracks, t)
	}
	return tracks, from
}

// roundTo rounds to so many parts of one.
func roundTo(v, parts float64) float64 { return math.Round(v*parts) / parts }

// SoilLine says the newest test of a stand's field in one line; not ok where there is none.
func SoilLine(s *outlook.Stand) (string, bool) {
	var said, moved []string
	var newest outlook.SoilPoint
	for _, x := range outlook.SoilSeriesOf(s.InField, s.Date) {
		short, known := map[string]string{"ph": "pH", "p": "P", "k": "K"}[x.Code]
		p := x.Last()
		if !known || p.Day < newest.Day {
			continue
		}
		newest = p
		if x.By == "" {
			said = append(said, fmt.Sprintf("%s %.1f", short, p.Value))
		} else {
			said = append(said, fmt.Sprintf("%s %.0f ppm by %s", short, p.Value, x.By))
		}
		if way := x.Moved(); strings.HasPrefix(way, "down") {
			moved = append(moved, short+" "+way)
		}
	}
	if len(said) == 0 {
		return "", false
	}
	line := fmt.Sprintf("Soil of %d: %s", newest.Day.Year(), strings.Join(said, ", "))
	if len(moved) > 0 {
		line += "; " + strings.Join(moved, ", ")
	}
	return line + ".", true
}
