package weather

import (
	"math"
	"slices"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// Place is where a field lies and how its weather differs from what stations say.
type Place struct {
	Latitude, Longitude float64
	ElevationM          float64 // NaN where not known: then heights are not allowed for
	// MaxF and MinF are added to each day's highest and lowest temperature, F: what readings in the field
	// have shown it to differ by.
	MaxF, MinF float64
}

// CoolingWithHeight is how much cooler it is higher up, C a metre: the standard atmosphere.
// [source.StandardLapse]
const CoolingWithHeight = 0.0065

// nearestMiles is the least distance by which stations are weighed: within it a station speaks for the
// field alone (choice).
const nearestMiles = 1

// Miles is the great-circle distance between two places, on a sphere of the earth's mean radius: off
// by 0.6 % at most since the earth is no ball. Source: [source.GreatCircle].
func Miles(lat1, lon1, lat2, lon2 float64) float64 {
	const earthMiles = 6371.0088 / 1.609344
	const rad = math.Pi / 180
	a, b := math.Sin((lat2-lat1)*rad/2), math.Sin((lon2-lon1)*rad/2)
	h := a*a + math.Cos(lat1*rad)*math.Cos(lat2*rad)*b*b
	return 2 * earthMiles * math.Asin(min(1, math.Sqrt(h)))
}

// NeighboursOf measures how far other stations lie from a station. One whose place is not known, or the
// station's own, is nobody's neighbour.
func NeighboursOf(s Station, others []*Series) []Neighbour {
	var near []Neighbour
	if !s.placed() {
		return nil
	}
	for _, o := range others {
		if o.Station.ID != s.ID && o.Station.placed() {
			near = append(near, Neighbour{Series: o, Miles: Miles(s.Latitude, s.Longitude, o.Station.Latitude, o.Station.Longitude)})
		}
	}
	return near
}

// Near reports whether two stations lie near enough for one to speak for the other.
func Near(a, b Station) bool {
	return a.placed() && b.placed() && Miles(a.Latitude, a.Longitude, b.Latitude, b.Longitude) <= neighbourMost
}

func (s Station) placed() bool { return s.Latitude != 0 || s.Longitude != 0 }

// Here makes the weather of a field from one station or several. Temperatures are the stations' means
// weighed by 1/distance², each moved to the field's height: first of what is usual on the date, then of
// how far the day departs from it, so that a station's missing day leaves no step. Rain is that of the
// nearest station that reported, since a mean of rains is wet too often. What readings in the field
// showed is added last. From one station, heights aside, the field takes just what it reported.
// [source.PlaceBlend]
func Here(station Station, p Place, from []*Series) *Series {
	from = slices.DeleteFunc(slices.Clone(from), func(s *Series) bool { return s.Len() == 0 })
	if len(from) == 0 {
		return &Series{Station: station}
	}
	b := newBlender(p, from)
	first, last := from[0].First, from[0].Last()
	for _, s := range from {
		first, last = min(first, s.First), max(last, s.Last())
	}
	station.WholeF = len(from) == 1 && from[0].Station.WholeF && b.lift[0] == 0
	out := &Series{Station: station, First: first}
	n := int(last-first) + 1
	for _, v := range []*[]float64{&out.TMaxC, &out.TMinC, &out.TMaxF, &out.TMinF, &out.RainMM, &out.DepthMM} {
		*v = slices.Repeat([]float64{math.NaN()}, n)
	}
	out.Marks = make([][elements]Mark, n)
	for i := range n {
		d := first + unit.Day(i)
		out.Marks[i] = NoObs().Mark
		b.nearest(out, i, d)
		if station.WholeF {
			b.offset(out, i)
			continue
		}
		out.TMaxC[i] = b.temperature(d, TMax)
		out.TMinC[i] = b.temperature(d, TMin)
		out.TMaxF[i], out.TMinF[i] = out.TMaxC[i]*1.8+32, out.TMinC[i]*1.8+32
		b.offset(out, i)
	}
	return out
}

// blender holds the stations of a field, nearest first, with their weights.
type blender struct {
	place  Place
	from   []*Series
	weight []float64
	lift   []float64 // C that a station's temperature is moved by to the field's height
	usual  []*Usual
}

func newBlender(p Place, from []*Series) *blender {
	miles := func(s *Series) float64 {
		if !s.Station.placed() {
			return neighbourMost
		}
		return max(nearestMiles, Miles(p.Latitude, p.Longitude, s.Station.Latitude, s.Station.Longitude))
	}
	slices.SortStableFunc(from, func(a, b *Series) int {
		switch {
		case miles(a) < miles(b):
			return -1
		case miles(a) > miles(b):
			return 1
		}
		return 0
	})
	b := &blender{place: p, from: from}
	for _, s := range from {
		lift := 0.
		if !math.IsNaN(p.ElevationM) && s.Station.Elevation != 0 {
			lift = (s.Station.Elevation - p.ElevationM) * CoolingWithHeight
		}
		b.weight = append(b.weight, miles(s))
		b.lift = append(b.lift, lift)
		b.usual = append(b.usual, usualOf(s))
	}
	return b
}

// temperature is a day's temperature at the field, C, before what its own readings add.
func (b *blender) temperature(d unit.Day, e Element) float64 {
	usual, apart := make([]float64, len(b.from)), make([]float64, len(b.from))
	for k, s := range b.from {
		high, low := b.usual[k].On(d)
		v, of := s.TMaxC, high
		if e == TMin {
			v, of = s.TMinC, low
		}
		usual[k], apart[k] = of+b.lift[k], math.NaN()
		if i, ok := s.Index(d); ok {
			apart[k] = v[i] - of
		}
	}
	return climate.InverseDistance(b.weight, usual) + climate.InverseDistance(b.weight, apart)
}

// nearest takes rain, snow and the marks of a day from the nearest station that reported each, and the
// temperatures too, for a field that one station speaks for.
func (b *blender) nearest(out *Series, i int, d unit.Day) {
	for _, s := range slices.Backward(b.from) {
		j, ok := s.Index(d)
		if !ok {
			continue
		}
		take := func(to, of []float64, e ...Element) {
			if math.IsNaN(of[j]) {
				return
			}
			to[i] = of[j]
			for _, e := range e {
				out.Marks[i][e] = s.Marks[j][e]
			}
		}
		take(out.TMaxC, s.TMaxC, TMax)
		take(out.TMinC, s.TMinC, TMin)
		take(out.TMaxF, s.TMaxF)
		take(out.TMinF, s.TMinF)
		take(out.RainMM, s.RainMM, Rain)
		take(out.DepthMM, s.DepthMM, Depth)
	}
}

func (b *blender) offset(out *Series, i int) {
	out.TMaxF[i] += b.place.MaxF
	out.TMinF[i] += b.place.MinF
	out.TMaxC[i] += b.place.MaxF / 1.8
	out.TMinC[i] += b.place.MinF / 1.8
	if out.TMaxC[i] < out.TMinC[i] {
		// The differences are means: on a day of little range they may cross.
		mid := (out.TMaxC[i] + out.TMinC[i]) / 2
		out.TMaxC[i], out.TMinC[i] = mid, mid
		out.TMaxF[i], out.TMinF[i] = mid*1.8+32, mid*1.8+32
	}
}

// LocalReading is one day's highest and lowest temperature read in a field, F; NaN where not read.
type LocalReading struct {
	Day        unit.Day
	MaxF, MinF float64
}

// LocalOffset is how far a field's own readings lie from what its stations say.
type LocalOffset struct {
	MaxF, MinF       float64 // mean difference, field less station, F
	MaxSE, MinSE     float64 // its standard error
	MaxDays, MinDays int
}

// LeastLocalDays is how many days of readings a local offset wants (choice: two weeks see several kinds
// of weather).
const LeastLocalDays = 14

// Differ compares readings in a field with a record made for it without offset. A mean over fewer than
// [LeastLocalDays] days is not believed, and is 0 with the days counted.
func Differ(s *Series, readings []LocalReading) LocalOffset {
	var high, low []float64
	for _, r := range readings {
		if i, ok := s.Index(r.Day); ok {
			high = append(high, r.MaxF-s.TMaxF[i])
			low = append(low, r.MinF-s.TMinF[i])
		}
	}
	var o LocalOffset
	o.MaxF, o.MaxSE, o.MaxDays = meanDifference(high)
	o.MinF, o.MinSE, o.MinDays = meanDifference(low)
	return o
}

func meanDifference(x []float64) (mean, se float64, days int) {
	x = slices.DeleteFunc(x, math.IsNaN)
	n := float64(len(x))
	if len(x) < LeastLocalDays {
		return 0, 0, len(x)
	}
	for _, v := range x {
		mean += v / n
	}
	var sq float64
	for _, v := range x {
		sq += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(sq / (n - 1) / n), len(x)
}
