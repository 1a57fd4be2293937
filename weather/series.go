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
	f := float64(tenthsC)*0.18 + 32
	if s.Station.WholeF {
		return math.Round(f)
	}
	return f
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
func (s *Series) Until(d unit.Day) *Series {
	n := max(0, min(s.Len(), int(d-s.First)+1))
	c := *s
	c.TMaxC, c.TMinC, c.TMaxF, c.TMinF = s.TMaxC[:n], s.TMinC[:n], s.TMaxF[:n], s.TMinF[:n]
	c.RainMM, c.DepthMM, c.Marks = s.RainMM[:n], s.DepthMM[:n], s.Marks[:n]
	return &c
}

// Years returns the first and last year of the series, 0, 0 where it is empty.
func (s *Series) Years() (first, last int) {
	if s.Len() == 0 {
		return 0, 0
	}
	return s.First.Year(), s.Last().Year()
}
