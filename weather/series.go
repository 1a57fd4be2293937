package weather

import (
	"math"
	"slices"

	"haywarden/agronomy/unit"
)

// Series is the record of one station as a run of days, in plain numbers for computing. A missing
// value is NaN. Temperatures stand twice: in C as archived, and in F, whole degrees recovered where
// the station's observers read whole degrees. F is used for everything the trade counts in F.
type Series struct {
	Station Station
	First   unit.Day
	TMaxC   []float64
	TMinC   []float64
	TMaxF   []float64
	TMinF   []float64
	RainMM  []float64
	DepthMM []float64
	Marks   [][elements]Mark
}

// NewSeries joins blocks of one station, ordered by year, into a series up to and including last.
// Years without a block are missing days.
func NewSeries(st Station, blocks []*Block, last unit.Day) *Series {
	s := &Series{Station: st}
	blocks = slices.Clone(blocks)
	slices.SortFunc(blocks, func(a, b *Block) int { return a.Year - b.Year })
	if len(blocks) == 0 {
		return s
	}
	s.First = unit.DateOf(blocks[0].Year, 1, 1)
	end := min(last, unit.DateOf(blocks[len(blocks)-1].Year, 12, 31))
	n := int(end-s.First) + 1
	if n <= 0 {
		return s
	}
	for _, p := range []*[]float64{&s.TMaxC, &s.TMinC, &s.TMaxF, &s.TMinF, &s.RainMM, &s.DepthMM} {
		*p = slices.Repeat([]float64{math.NaN()}, n)
	}
	s.Marks = make([][elements]Mark, n)
	for i := range s.Marks {
		s.Marks[i] = NoObs().Mark
	}
	for _, b := range blocks {
		at := int(unit.DateOf(b.Year, 1, 1) - s.First)
		for i := 0; i < len(b.Days) && at+i < n; i++ {
			s.set(at+i, b.Days[i])
		}
	}
	return s
}

func (s *Series) set(i int, o Obs) {
	s.Marks[i] = o.Mark
	if o.Has(TMax) {
		s.TMaxC[i], s.TMaxF[i] = float64(o.Value[TMax])/10, s.fahrenheit(o.Value[TMax])
	}
	if o.Has(TMin) {
		s.TMinC[i], s.TMinF[i] = float64(o.Value[TMin])/10, s.fahrenheit(o.Value[TMin])
	}
	if o.Has(Rain) {
		s.RainMM[i] = float64(o.Value[Rain]) / 10
	}
	if o.Has(Depth) {
		s.DepthMM[i] = float64(o.Value[Depth])
	}
}

// fahrenheit recovers the whole degree that was read, where whole degrees were read.
func (s *Series) fahrenheit(tenthsC int16) float64 {
	if s.Station.WholeF {
		return float64(WholeFahrenheit(tenthsC))
	}
	return float64(tenthsC)*0.18 + 32
}

// WholeFahrenheit is the whole degree F nearest to a temperature archived in tenths of a degree C.
// Every whole degree comes back, since a tenth of a degree C is less than a fifth of a degree F. It is
// counted in whole numbers, so that no processor rounds a half otherwise than another: a half degree
// (2.5 C is 36.5 F), which no observer of whole degrees can have read, goes away from zero. (choice)
func WholeFahrenheit(tenthsC int16) int {
	hundredths := int(tenthsC)*18 + 3200
	if hundredths < 0 {
		return -((-hundredths + 50) / 100)
	}
	return (hundredths + 50) / 100
}

// wholeRemainders holds the tenths C, modulo 50 tenths (9 F), in which whole degrees F are archived.
var wholeRemainders = [50]bool{0: true, 6: true, 11: true, 17: true, 22: true, 28: true, 33: true, 39: true, 44: true}

// isWholeF reports whether a temperature in tenths C is what a whole degree F is archived as.
func isWholeF(tenthsC int16) bool {
	const up = 50 * 1000 // above zero without changing the remainder
	return wholeRemainders[uint32(int32(tenthsC)+up)%50]
}

// Len is the number of days.
func (s *Series) Len() int { return len(s.TMaxC) }

// Last is the last day of the series; it may be missing. The zero day where the series is empty.
func (s *Series) Last() unit.Day { return s.First + unit.Day(s.Len()) - 1 }

// Index returns the place of a day, and whether the series holds it.
func (s *Series) Index(d unit.Day) (int, bool) {
	i := int(d - s.First)
	return i, i >= 0 && i < s.Len()
}

// HasTemperature reports whether both temperatures of a day are known.
func (s *Series) HasTemperature(d unit.Day) bool {
	i, ok := s.Index(d)
	return ok && !math.IsNaN(s.TMaxC[i]) && !math.IsNaN(s.TMinC[i])
}

// LastObserved is the last day not after d with both temperatures, and whether there is one.
func (s *Series) LastObserved(d unit.Day) (unit.Day, bool) {
	for d = min(d, s.Last()); d >= s.First && s.Len() > 0; d-- {
		if s.HasTemperature(d) {
			return d, true
		}
	}
	return 0, false
}

// Until returns the series cut off after d: what was observed by then. It shares memory.
func (s *Series) Until(d unit.Day) *Series { return s.Between(s.First, d) }

// Years returns the first and last year of the series, 0, 0 where it is empty.
func (s *Series) Years() (first, last int) {
	if s.Len() == 0 {
		return 0, 0
	}
	return s.First.Year(), s.Last().Year()
}
