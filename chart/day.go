package chart

import (
	"fmt"
	"time"
)

// Day is a calendar day, counted from 1 January 1970. In a drawing's data the zero Day means "none".
type Day int

// Date returns the day with the given civil date.
func Date(year int, month time.Month, day int) Day {
	t := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	return Day(t.Unix() / 86400)
}

func (d Day) time() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// String writes d as "21 May".
func (d Day) String() string { return d.time().Format("2 Jan") }

func (d Day) weekday() string { return d.time().Format("Mon 2") }

// iso writes d for tables, with its year.
func (d Day) iso() string { return d.time().Format(time.DateOnly) }

// A Span is a run of days, both ends included.
type Span struct{ From, To Day }

func (s Span) none() bool { return s.From == 0 && s.To == 0 || s.To < s.From }

// words writes a span as "19 May – 24 May".
func (s Span) words() string { return fmt.Sprintf("%v – %v", s.From, s.To) }

// A CutWindow is when to act: the days before which 1, 5 and 9 chances in 10 lie.
type CutWindow struct {
	Early, Best, Late Day
	Label             string // such as "first cut"
}

// days places days on a drawing from x0 to x1; a day's mark stands at its noon.
type days struct {
	first, last Day
	x0, x1      float64
}

func (s days) width() float64 { return (s.x1 - s.x0) / float64(s.last-s.first+1) }

// at gives the x of the noon of a day, which may be outside.
func (s days) at(d Day) float64 { return s.x0 + (float64(d-s.first)+0.5)*s.width() }

// dawn gives the x at which a day starts.
func (s days) dawn(d Day) float64 { return s.x0 + float64(d-s.first)*s.width() }

func (s days) holds(d Day) bool { return d >= s.first && d <= s.last }

// clip cuts a span to the drawing and reports whether anything is left.
func (s days) clip(sp Span) (Span, bool) {
	out := Span{max(sp.From, s.first), min(sp.To, s.last)}
	return out, !sp.none() && out.From <= out.To
}

// A tick is a labelled place on an axis.
type tick struct {
	at    float64
	words string
}

// months gives each month in the drawing, with the x of its middle and of its start.
func (s days) months() (middle []tick, starts []float64) {
	t := s.first.time()
	for m := time.Date(t.Year(), t.Month(), 1, 0, 0, 0, 0, time.UTC); ; m = m.AddDate(0, 1, 0) {
		from := Day(m.Unix() / 86400)
		to := Day(m.AddDate(0, 1, 0).Unix()/86400) - 1
		if from > s.last {
			return middle, starts
		}
		if from >= s.first {
			starts = append(starts, s.dawn(from))
		}
		part, ok := s.clip(Span{from, to})
		if !ok {
			continue
		}
		x := (s.dawn(part.From) + s.dawn(part.To+1)) / 2
		if w := Width(m.Format("Jan"), smallSize, false); w+4 <= s.dawn(part.To+1)-s.dawn(part.From) {
			middle = append(middle, tick{x, m.Format("Jan")})
		}
	}
}

// dates gives labelled days at an even step, one of 1, 2, 7, 14 or 28 days or a month, as close as
// their labels allow; months are named where they start.
func (s days) dates(size float64) []tick {
	room := s.x1 - s.x0
	need := Width("28 May", size, false) + 14
	for _, step := range []Day{1, 2, 7, 14, 28} {
		n := float64(s.last-s.first)/float64(step) + 1
		if n*need > room && step != 28 {
			continue
		}
		if n*need > room {
			break
		}
		var out []tick
		for d := s.first; d <= s.last; d += step {
			out = append(out, tick{s.at(d), d.String()})
		}
		return out
	}
	_, starts := s.months()
	var out []tick
	for _, x := range starts {
		d := s.first + Day((x-s.x0)/s.width()+0.5)
		out = append(out, tick{x, d.time().Format("Jan")})
	}
	return thin(out, size, s.x0-size, s.x1+size)
}
