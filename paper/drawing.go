// Package paper makes the documents a producer keeps, and the drawings that pages and documents share.
package paper

import (
	"fmt"
	"math"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/outlook"
)

// day turns a date into a drawing's.
func day(d unit.Day) chart.Day { return chart.Day(d) }

// plan is how the rest of the year is drawn for a stand: the windows of its cuts, and the growths up to
// each expected one.
type plan struct {
	windows []chart.CutWindow
	cutOn   unit.Day // expected day of the next cut, zero where no advice names one
	lastBy  unit.Day // last day on which a cut is expected
	rests   bool     // the station says when the roots rest
	growths [][]outlook.Growing
}

func planOf(s *outlook.Stand, pieces []*advice.Piece) plan {
	var p plan
	if !s.Growing(s.Date) { // only its hay, or what is to be sown there
		return p
	}
	for _, a := range pieces {
		if w := a.Window; w != nil && advice.Cuts(a.Decision) {
			p.windows = append(p.windows, chart.CutWindow{Early: day(w.Early), Best: day(w.Best), Late: day(w.Late), Label: "cut"})
			p.cutOn = w.Best
		}
	}
	p.lastBy, _, p.rests = advice.RestPeriod(s)
	if !p.rests {
		p.lastBy = unit.DateOf(s.Date.Year(), time.September, 1)
	}
	p.growths = s.Curve(p.cutOn, p.lastBy)
	return p
}

// Strip draws a stand's year with its advice.
func Strip(s *outlook.Stand, pieces []*advice.Piece) chart.Strip {
	c := chart.Strip{Today: day(s.Date), First: day(unit.DateOf(s.Date.Year(), time.March, 1)), Last: day(unit.DateOf(s.Date.Year(), time.November, 30))}
	c.Title = "The year of " + s.Named()
	plan := planOf(s, pieces)
	c.Windows = plan.windows
	if plan.rests {
		if frost, ok := s.Sky.Fall24.On(0.5, s.Date.Year()); ok {
			c.Rest = chart.Span{From: day(plan.lastBy + 1), To: day(frost)}
		}
	}
	for _, cycle := range plan.growths {
		var hump chart.Cycle
		for _, g := range cycle {
			hump = append(hump, chart.Height{Day: day(g.Day), Share: g.Share})
		}
		c.Cycles = append(c.Cycles, hump)
	}
	for _, v := range s.Visits {
		if v.Day.Year() == s.Date.Year() {
			c.Visits = append(c.Visits, day(v.Day))
		}
	}
	for _, v := range s.Cuts {
		if v.Day.Year() == s.Date.Year() {
			c.Cuts = append(c.Cuts, day(v.Day))
		}
	}
	if s.Frosted != nil {
		c.Frost = day(s.Frosted.Day)
	}
	c.Desc = fmt.Sprintf("%d cuts and %d visits so far this year", len(c.Cuts), len(c.Visits))
	if plan.cutOn != 0 {
		c.Desc += "; next cut about " + advice.Short(plan.cutOn)
	}
	return c
}

// WindowBar draws the window of a piece of advice, from a week before today.
func WindowBar(p *advice.Piece) (chart.Window, bool) {
	w := p.Window
	if w == nil {
		return chart.Window{}, false
	}
	today := p.Date()
	bar := chart.Window{Early: day(w.Early), Best: day(w.Best), Late: day(w.Late), Today: day(today)}
	bar.First, bar.Last = day(max(min(w.Early, today)-2, today-21)), day(min(max(w.Late, today+14)+2, today+60))
	bar.Title = "Window"
	bar.Desc = fmt.Sprintf("%s, best %s", advice.Span(w.Early, w.Late), advice.Short(w.Best))
	return bar, true
}

const (
	fanBack  = 28 // days of readings shown before today
	fanAhead = 18 // days shown ahead
)

// Fan draws standing feed value: readings, then the days ahead with their chances.
func Fan(s *outlook.Stand) (chart.Fan, bool) {
	a := s.Ahead()
	if a == nil {
		return chart.Fan{}, false
	}
	f := chart.Fan{Today: day(s.Date), Last: day(s.Date + fanAhead), Unit: "RFV"}
	f.Title = "Standing feed value of " + s.Named()
	first := s.Date - 5
	for _, r := range s.Readings {
		if r.Doubt != "" || s.Date-r.Day > fanBack {
			continue
		}
		first = min(first, r.Day-1)
		wide := 1.2816 * r.Field.SD
		f.Readings = append(f.Readings, chart.Reading{Day: day(r.Day), Value: r.Field.RFV, Low: r.Field.RFV - wide, High: r.Field.RFV + wide})
	}
	f.First = day(first)
	for i := 0; i <= fanAhead; i++ {
		if q, ok := a.Band(i); ok {
			f.Ahead = append(f.Ahead, chart.Chance{Day: day(s.Date + unit.Day(i)), P10: q[0], P25: q[1], P50: q[2], P75: q[3], P90: q[4]})
		}
	}
	f.Levels = []chart.Level{{Value: s.Target.CutRFV, Label: "cut at " + advice.Points(s.Target.CutRFV)}}
	if s.Target.FeedRFV >= s.Target.CutRFV-40 {
		f.Levels = append(f.Levels, chart.Level{Value: s.Target.FeedRFV, Label: advice.Points(s.Target.FeedRFV) + " fed"})
	}
	f.Desc = fmt.Sprintf("Standing feed value %s today, give or take %.0f", advice.Points(s.Standing.RFV), s.Standing.SD)
	return f, true
}

// HeightFan draws how tall a mixture stands: heights read, then the days ahead with their chances and
// the height at which it is cut.
func HeightFan(s *outlook.Stand) (chart.Fan, bool) {
	bands, cutAt, ok := advice.HeightAhead(s, fanAhead+1)
	if !ok {
		return chart.Fan{}, false
	}
	f := chart.Fan{Today: day(s.Date), Last: day(s.Date + fanAhead), Unit: "inches, tallest alfalfa"}
	f.Title = "Height of " + s.Named()
	first := s.Date - 5
	for _, v := range s.Visits {
		tall, read := outlook.Tallest(v.Body)
		if !read || s.Date-v.Day > fanBack || !s.Growth.Holds(v.Day) || s.Doubted(v.Day) {
			continue
		}
		first = min(first, v.Day-1)
		f.Readings = append(f.Readings, chart.Reading{Day: day(v.Day), Value: tall, Low: math.NaN(), High: math.NaN()})
	}
	f.First = day(first)
	for i, b := range bands {
		f.Ahead = append(f.Ahead, chart.Chance{Day: day(s.Date + unit.Day(i)), P10: b[0], P25: b[1], P50: b[2], P75: b[3], P90: b[4]})
	}
	f.Levels = []chart.Level{{Value: cutAt, Label: fmt.Sprintf("cut at %.0f in", cutAt)}}
	f.Desc = fmt.Sprintf("Tallest alfalfa %.0f in today, %.0f to %.0f; cut at %.0f", bands[0][2], bands[0][0], bands[0][4], cutAt)
	return f, true
}

// Stems draws the stem count against the classes.
func Stems(s *outlook.Stand) (chart.Interval, bool) {
	if s.Stems == nil || math.IsNaN(s.Stems.Count.Interval.Low) {
		return chart.Interval{}, false
	}
	iv := s.Stems.Count.Interval
	c := chart.Interval{Mean: math.Round(iv.Mean), Low: math.Round(max(0, iv.Low)), High: math.Round(iv.High), Unit: "stems a square foot", Thresholds: []float64{40, 55}, Zones: []string{"replace", "some loss", "full"}}
	c.Title = "Stem count of " + s.Named()
	c.Desc = fmt.Sprintf("%.0f stems a square foot, %.0f to %.0f", iv.Mean, iv.Low, iv.High)
	return c, true
}

// Clock draws first growth's heat beside the station's past years.
func Clock(s *outlook.Stand) (chart.Clock, bool) {
	if s.Sky == nil || len(s.Sky.Heat41.Sum) == 0 {
		return chart.Clock{}, false
	}
	h := s.Sky.Heat41
	c := chart.Clock{Today: day(s.Date), First: day(h.From), Unit: "F-days above 41 °F"}
	c.Title = "Heat since 1 March at " + s.Sky.Station.Name
	until := max(s.Date+14, unit.DateOf(s.Date.Year(), time.June, 20))
	c.Last = day(until)
	for d := h.From; d <= until; d += 3 {
		if d < s.Date {
			c.Season = append(c.Season, chart.Sum{Day: day(d), Value: h.On(d)})
		}
		if low, mid, high, ok := h.Usual(int(d - h.From)); ok {
			c.Past = append(c.Past, chart.Usual{Day: day(d), P10: low, P50: mid, P90: high})
		}
	}
	if s.Date > h.From {
		c.Season = append(c.Season, chart.Sum{Day: day(s.Date - 1), Value: h.Now()})
	}
	c.Desc = fmt.Sprintf("%.0f F-days by %s", h.Now(), advice.Short(s.Sky.Through))
	return c, true
}
