package weather

import (
	"math"
	"slices"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// Neighbour is another station's record and how far it lies.
type Neighbour struct {
	Series *Series
	Miles  float64
}

// FillMethod says how a missing value was estimated.
type FillMethod string

// The methods, in the order in which they are tried. [source.GapFilling]
const (
	FillRegression FillMethod = "from one neighbour, by regression"
	FillDistance   FillMethod = "from several neighbours, by distance"
	FillBetween    FillMethod = "between the days before and after"
	FillUsual      FillMethod = "usual value of the date"
	FillRatio      FillMethod = "from neighbours' rain, by the ratio of normals"
)

// FillNote counts what one method filled of one element.
type FillNote struct {
	Element Element
	Method  FillMethod
	Days    int
}

const (
	leastPairs    = 20  // paired days for a regression
	leastR        = 0.9 // correlation for a regression of temperature
	pairDays      = 30  // days of the year on either side from which pairs are taken
	mostBetween   = 3   // days that temperature is carried over between
	neighbourMost = 60  // miles beyond which a neighbour says nothing (choice)
)

// Fill returns a copy of a record in which missing temperatures and rain are estimated where that can
// be done honestly, each marked [Filled], with a count by method. Rain is never made from other days:
// without a neighbour it stays missing. Nothing is filled after the last day with any report, of the
// station or of a neighbour.
func Fill(s *Series, neighbours []Neighbour) (*Series, []FillNote) {
	return fill(s, neighbours, true)
}

// FillMeasured is [Fill] with what was measured alone: from neighbours, and between the days beside a
// short gap. Where those say nothing the day stays missing, for the reader to take at its usual value.
func FillMeasured(s *Series, neighbours []Neighbour) (*Series, []FillNote) {
	return fill(s, neighbours, false)
}

func fill(s *Series, neighbours []Neighbour, byUsual bool) (*Series, []FillNote) {
	out := s.clone()
	f := filler{s: s, out: out, usual: usualOf(s), byUsual: byUsual, notes: map[FillNote]int{}, lines: map[lineKey]*[367]climate.Pairs{}}
	for _, n := range neighbours {
		if n.Miles <= neighbourMost {
			f.near = append(f.near, n)
		}
	}
	slices.SortStableFunc(f.near, func(a, b Neighbour) int {
		if a.Miles < b.Miles {
			return -1
		}
		return 1
	})
	for _, n := range f.near {
		f.theirs = append(f.theirs, usualOf(n.Series))
	}
	last, reported := s.LastObserved(s.Last())
	for _, n := range f.near {
		if d, ok := n.Series.LastObserved(min(s.Last(), n.Series.Last())); ok && (d > last || !reported) {
			last, reported = d, true
		}
	}
	if !reported {
		return out, nil
	}
	for i := 0; i <= int(last-s.First); i++ {
		d := s.First + unit.Day(i)
		if math.IsNaN(s.TMaxC[i]) {
			f.temperature(TMax, i, d)
		}
		if math.IsNaN(s.TMinC[i]) {
			f.temperature(TMin, i, d)
		}
		f.putRight(i)
		if math.IsNaN(s.RainMM[i]) {
			f.rain(i, d)
		}
	}
	return out, f.list()
}

func (s *Series) clone() *Series {
	c := *s
	c.TMaxC, c.TMinC, c.TMaxF, c.TMinF = slices.Clone(s.TMaxC), slices.Clone(s.TMinC), slices.Clone(s.TMaxF), slices.Clone(s.TMinF)
	c.RainMM, c.DepthMM, c.Marks = slices.Clone(s.RainMM), slices.Clone(s.DepthMM), slices.Clone(s.Marks)
	return &c
}

type filler struct {
	s, out *Series
	near   []Neighbour
	theirs []*Usual // of the neighbours, in the same order
	usual  *Usual
	// byUsual lets the usual value of the date stand in where nothing near was measured.
	byUsual bool
	notes   map[FillNote]int
	ratio   *float64
	lines   map[lineKey]*[367]climate.Pairs
}

// lineKey names the pairs of a neighbour and an element, added up by calendar day.
type lineKey struct {
	other   *Series
	element Element
}

func (f *filler) column(s *Series, e Element) []float64 {
	if e == TMax {
		return s.TMaxC
	}
	return s.TMinC
}

func (f *filler) temperature(e Element, i int, d unit.Day) {
	v, how := f.fromNeighbours(e, d)
	if math.IsNaN(v) {
		v, how = f.between(e, i)
	}
	if math.IsNaN(v) && f.byUsual {
		high, low := f.usual.On(d)
		v, how = high, FillUsual
		if e == TMin {
			v = low
		}
	}
	if math.IsNaN(v) {
		return
	}
	v = math.Round(v*10) / 10
	fahrenheit := math.Round(v*1.8 + 32)
	if !f.s.Station.WholeF {
		fahrenheit = v*1.8 + 32
	}
	if e == TMax {
		f.out.TMaxC[i], f.out.TMaxF[i] = v, fahrenheit
	} else {
		f.out.TMinC[i], f.out.TMinF[i] = v, fahrenheit
	}
	f.out.Marks[i][e] = Filled
	f.notes[FillNote{Element: e, Method: how}]++
}

// fromNeighbours tries the nearest neighbour whose regression holds, then the distance mean of the
// anomalies of all.
func (f *filler) fromNeighbours(e Element, d unit.Day) (float64, FillMethod) {
	for _, n := range f.near {
		j, ok := n.Series.Index(d)
		if !ok || math.IsNaN(f.column(n.Series, e)[j]) {
			continue
		}
		l := f.line(e, n.Series, d)
		if l.N >= leastPairs && math.Abs(l.R) >= leastR {
			return l.At(f.column(n.Series, e)[j]), FillRegression
		}
	}
	var miles, anomalies []float64
	for k, n := range f.near {
		j, ok := n.Series.Index(d)
		if !ok {
			continue
		}
		high, low := f.theirs[k].On(d)
		usual := high
		if e == TMin {
			usual = low
		}
		miles = append(miles, max(1, n.Miles))
		anomalies = append(anomalies, f.column(n.Series, e)[j]-usual)
	}
	high, low := f.usual.On(d)
	if e == TMin {
		high = low
	}
	return high + climate.InverseDistance(miles, anomalies), FillDistance
}

// line pairs the two stations over the days of the year around d, in all years.
func (f *filler) line(e Element, other *Series, d unit.Day) climate.Line {
	key := lineKey{other, e}
	days := f.lines[key]
	if days == nil {
		days = f.pair(e, other)
		f.lines[key] = days
	}
	var around climate.Pairs
	const slots = 366
	for k := -pairDays; k <= pairDays; k++ {
		around.Join(days[(CalendarSlot(d)-1+k+slots)%slots+1])
	}
	return around.Line()
}

// pair adds up the pairs of every calendar day.
func (f *filler) pair(e Element, other *Series) *[367]climate.Pairs {
	days := &[367]climate.Pairs{}
	mine, theirs := f.column(f.s, e), f.column(other, e)
	for i, y := range mine {
		d := f.s.First + unit.Day(i)
		if j, ok := other.Index(d); ok {
			days[CalendarSlot(d)].Add(theirs[j], y)
		}
	}
	return days
}

// between carries a straight line over a gap of a few days.
func (f *filler) between(e Element, i int) (float64, FillMethod) {
	v := f.column(f.s, e)
	a, b := i-1, i+1
	for a >= 0 && math.IsNaN(v[a]) {
		a--
	}
	for b < len(v) && math.IsNaN(v[b]) {
		b++
	}
	if a < 0 || b >= len(v) || b-a-1 > mostBetween {
		return math.NaN(), FillBetween
	}
	return v[a] + (v[b]-v[a])*float64(i-a)/float64(b-a), FillBetween
}

// putRight swaps a filled day's temperatures where they crossed by a degree or less, and takes the
// fill back where they crossed by more.
func (f *filler) putRight(i int) {
	hi, lo := f.out.TMaxC[i], f.out.TMinC[i]
	filled := f.out.Marks[i][TMax] == Filled || f.out.Marks[i][TMin] == Filled
	if !filled || math.IsNaN(hi) || math.IsNaN(lo) || hi >= lo {
		return
	}
	if lo-hi <= 1 {
		f.out.TMaxC[i], f.out.TMinC[i] = lo, hi
		f.out.TMaxF[i], f.out.TMinF[i] = f.out.TMinF[i], f.out.TMaxF[i]
		return
	}
	for e, was := range map[Element]float64{TMax: f.s.TMaxC[i], TMin: f.s.TMinC[i]} {
		if !math.IsNaN(was) || f.out.Marks[i][e] != Filled {
			continue
		}
		if e == TMax {
			f.out.TMaxC[i], f.out.TMaxF[i] = math.NaN(), math.NaN()
		} else {
			f.out.TMinC[i], f.out.TMinF[i] = math.NaN(), math.NaN()
		}
		f.out.Marks[i][e] = Inconsistent
	}
}

func (f *filler) rain(i int, d unit.Day) {
	var normals, amounts []float64
	for _, n := range f.near {
		if j, ok := n.Series.Index(d); ok && !math.IsNaN(n.Series.RainMM[j]) {
			normals = append(normals, yearlyRain(n.Series))
			amounts = append(amounts, n.Series.RainMM[j])
		}
	}
	if f.ratio == nil {
		own := yearlyRain(f.s)
		f.ratio = &own
	}
	v := climate.NormalRatio(*f.ratio, normals, amounts)
	if math.IsNaN(v) {
		return
	}
	f.out.RainMM[i] = math.Round(v*10) / 10
	f.out.Marks[i][Rain] = Filled
	f.notes[FillNote{Element: Rain, Method: FillRatio}]++
}

// yearlyRain is a record's mean yearly rain, mm.
func yearlyRain(s *Series) float64 {
	var sum, n float64
	for _, r := range s.RainMM {
		if !math.IsNaN(r) {
			sum += r
			n++
		}
	}
	return sum / n * 365.25
}

func (f *filler) list() []FillNote {
	var out []FillNote
	for k, n := range f.notes {
		k.Days = n
		out = append(out, k)
	}
	slices.SortFunc(out, func(a, b FillNote) int {
		if a.Element != b.Element {
			return int(a.Element) - int(b.Element)
		}
		if a.Method < b.Method {
			return -1
		}
		return 1
	})
	return out
}
