package weather

import (
	"math"
	"time"

	"haywarden/agronomy/frost"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
)

// YearEvent is the day of one year on which something first or last happened.
type YearEvent struct {
	Year  int
	DOY   int  // day number of its own year, 1 to 366; 0 where it was not found
	Found bool // a year without the event is a year without a freeze, if Valid
	Valid bool // the record leaves no doubt; only such years count towards chances
}

// FirstFall finds the first day of each fall, 1 August to 31 December, whose lowest temperature is at
// or below a threshold in F. Whole degrees F are compared where the station's observers read whole
// degrees. Without years it takes all of the series. A fall that the series does not hold to its end
// is not Valid even where the day was found, since years of late freezes are still to come to their
// own: counting it would make freezes look early. [source.FreezeGap]
func (s *Series) FirstFall(thresholdF float64, years ...int) []YearEvent {
	return s.freezes(years, time.August, 1, time.December, 31, func(tmin []float64) (int, bool, bool) {
		return frost.FirstAtOrBelow(tmin, thresholdF)
	})
}

// LastSpring finds the last day of each spring, 1 January to 31 July, as [Series.FirstFall] does the
// first of fall.
func (s *Series) LastSpring(thresholdF float64, years ...int) []YearEvent {
	return s.freezes(years, time.January, 1, time.July, 31, func(tmin []float64) (int, bool, bool) {
		return frost.LastAtOrBelow(tmin, thresholdF)
	})
}

func (s *Series) freezes(years []int, m1 time.Month, d1 int, m2 time.Month, d2 int, find func([]float64) (int, bool, bool)) []YearEvent {
	if len(years) == 0 {
		first, last := s.Years()
		for y := first; y <= last && s.Len() > 0; y++ {
			years = append(years, y)
		}
	}
	var tmin []float64
	out := make([]YearEvent, 0, len(years))
	for _, y := range years {
		from, to := unit.DateOf(y, m1, d1), unit.DateOf(y, m2, d2)
		tmin = tmin[:0]
		for d := from; d <= to; d++ {
			v := math.NaN()
			if i, ok := s.Index(d); ok {
				v = s.TMinF[i]
			}
			tmin = append(tmin, v)
		}
		e := YearEvent{Year: y}
		var i int
		if i, e.Found, e.Valid = find(tmin); e.Found {
			e.DOY = (from + unit.Day(i)).YearDay()
		}
		out = append(out, e)
	}
	return out
}

// HeatF is the running total of heat from a day to the end of the series, in F-days, from whole
// degrees F where observers read those. The first number is the total at the end of that day. From
// the first day without both temperatures on there is no total, and NaN stands for it: fill the
// series first.
func (s *Series) HeatF(spec heat.Spec, from unit.Day) []float64 {
	return s.running(spec, s.TMinF, s.TMaxF, from)
}

// HeatC is [Series.HeatF] in C-days, from degrees C as archived.
func (s *Series) HeatC(spec heat.Spec, from unit.Day) []float64 {
	return s.running(spec, s.TMinC, s.TMaxC, from)
}

func (s *Series) running(spec heat.Spec, tmin, tmax []float64, from unit.Day) []float64 {
	if s.Len() == 0 || from > s.Last() {
		return nil
	}
	out := make([]float64, 0, int(s.Last()-from)+1)
	total := 0.
	if from < s.First {
		total = math.NaN()
	}
	for d := from; d <= s.Last(); d++ {
		if i, ok := s.Index(d); ok {
			// The last day's own lowest stands in for tomorrow's where tomorrow is not known, as
			// [heat.Spec.Days] has it; only the double methods look at it.
			next := tmin[i]
			if i+1 < len(tmin) {
				next = tmin[i+1]
			}
			if spec.Method.Double() {
				total += spec.DoubleDay(tmin[i], tmax[i], next)
			} else {
				total += spec.Day(tmin[i], tmax[i])
			}
		}
		out = append(out, total)
	}
	return out
}

// DryBelowMM is the rain that a dry day stays under. [source.DryDay]
const DryBelowMM = 0.25

// Dry reports whether a day was dry, and whether its rain is known.
func (s *Series) Dry(d unit.Day) (dry, known bool) {
	i, ok := s.Index(d)
	if !ok || math.IsNaN(s.RainMM[i]) {
		return false, false
	}
	return s.RainMM[i] < DryBelowMM, true
}

// Between returns the part of the series from one day to another, both included, as far as it is
// held. It shares memory.
func (s *Series) Between(from, to unit.Day) *Series {
	i := max(0, min(s.Len(), int(from-s.First)))
	j := max(i, min(s.Len(), int(to-s.First)+1))
	c := *s
	c.First += unit.Day(i)
	c.TMaxC, c.TMinC, c.TMaxF, c.TMinF = s.TMaxC[i:j], s.TMinC[i:j], s.TMaxF[i:j], s.TMinF[i:j]
	c.RainMM, c.DepthMM, c.Marks = s.RainMM[i:j], s.DepthMM[i:j], s.Marks[i:j]
	return &c
}

// Season returns the part of the series from one day of the year to another, of which month and day
// count, beginning in the given year. Where the end is earlier in the calendar than the beginning,
// the season runs into the next year.
func (s *Series) Season(year int, from, to unit.Day) *Series {
	return s.Between(window(year, from, to))
}

// YearsWith lists the years whose season, as [Series.Season] cuts it, has both temperatures on every
// day.
func (s *Series) YearsWith(from, to unit.Day) []int {
	var out []int
	first, last := s.Years()
	for y := first; y <= last && s.Len() > 0; y++ {
		if begin, end := window(y, from, to); s.whole(begin, end) {
			out = append(out, y)
		}
	}
	return out
}

func window(year int, from, to unit.Day) (begin, end unit.Day) {
	begin, end = from.InYear(year), to.InYear(year)
	if end < begin {
		end = to.InYear(year + 1)
	}
	return begin, end
}

// whole reports whether both temperatures are known on every day.
func (s *Series) whole(from, to unit.Day) bool {
	for d := from; d <= to; d++ {
		if !s.HasTemperature(d) {
			return false
		}
	}
	return true
}
