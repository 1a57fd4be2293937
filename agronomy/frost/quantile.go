package frost

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// QuantileMethod is how chances are read from the dates of past years.
type QuantileMethod string

// The methods. With p the chance and n the years, rank h of the sorted dates:
const (
	Weibull QuantileMethod = "weibull" // h = p(n + 1), sample quantile type 6
	Hazen   QuantileMethod = "hazen"   // h = pn + 0.5, type 5
	Type7   QuantileMethod = "type7"   // h = p(n - 1) + 1, what spreadsheets do
	Normal  QuantileMethod = "normal"  // mean + z s, the curve behind most printed freeze tables
)

// QuantileMethods lists the methods as users write them.
func QuantileMethods() []string {
	return []string{string(Weibull), string(Hazen), string(Type7), string(Normal)}
}

func (m QuantileMethod) known() bool {
	return m == Weibull || m == Hazen || m == Type7 || m == Normal
}

// Quantile is the day by which the event has come in share p of years. x holds a day for each year,
// +Inf for a year without the event, in any order; the year must have been certain.
//
// Weibull ranks the years without the event after all others. The other methods treat them as the
// printed freeze chances do: with q the share of years that have the event,
//
//	P(by x) = q F(x),   x_p = F^-1(p/q) for p < q
//
// with F of the years that have it. Where the event does not come in share p of years the day is +Inf
// and the answer false; where x, p or the number of years allow no answer it is NaN and false.
// Source: [source.FreezeFormula], [source.FreezeMixed].
func Quantile(x []float64, p float64, m QuantileMethod) (float64, bool) {
	y, events, ok := ordered(x)
	if !ok || !m.known() || !(p >= 0 && p <= 1) {
		return math.NaN(), false
	}
	if m == Weibull {
		return atRank(y, p*float64(len(y)+1))
	}
	q := float64(events) / float64(len(y))
	if events < len(y) {
		if p >= q {
			return math.Inf(1), false
		}
		p /= q
	}
	y = y[:events]
	switch n := float64(events); m {
	case Hazen:
		return atRank(y, p*n+0.5)
	case Type7:
		return atRank(y, p*(n-1)+1)
	default:
		mean, sd := meanSD(y)
		day := mean + distuv.UnitNormal.Quantile(p)*sd
		if math.IsNaN(day) || math.IsInf(day, 0) {
			return math.NaN(), false
		}
		return day, true
	}
}

// Chance is the chance that the event has come by a day: the greatest p whose [Quantile] is not after
// it. By rank it is 0 before the earliest date on record and, where every year has the event, 1 from
// the latest on: no year on record was later. False where there is no answer.
func Chance(x []float64, day float64, m QuantileMethod) (float64, bool) {
	y, events, ok := ordered(x)
	if !ok || !m.known() || math.IsNaN(day) {
		return math.NaN(), false
	}
	if events == 0 {
		return 0, true
	}
	n, q := float64(events), float64(events)/float64(len(y))
	if m == Normal {
		mean, sd := meanSD(y[:events])
		switch {
		case math.IsNaN(sd):
			return math.NaN(), false
		case sd == 0:
			return q * step(day >= mean), true
		}
		return q * distuv.UnitNormal.CDF((day-mean)/sd), true
	}
	rank, last := rankOf(y[:events], day)
	switch {
	case rank == 0:
		return 0, true
	case m == Weibull && last && events == len(y):
		return 1, true
	case m == Weibull:
		return rank / float64(len(y)+1), true
	case last:
		return q, true
	case m == Hazen:
		return q * (rank - 0.5) / n, true
	default:
		return q * (rank - 1) / (n - 1), true
	}
}

// QuantileLater is [Quantile] for the last freeze of spring: the day after which the event still comes
// in share p of years, so that a small p is a late day. A year without the event has none to come.
// Where it comes in fewer years than that the day is -Inf and the answer false.
func QuantileLater(x []float64, p float64, m QuantileMethod) (float64, bool) {
	day, ok := Quantile(mirrored(x), p, m)
	return -day, ok
}

// ChanceLater is the chance that the event comes on a day or later.
func ChanceLater(x []float64, day float64, m QuantileMethod) (float64, bool) {
	return Chance(mirrored(x), -day, m)
}

// mirrored turns the year round, so that the last becomes the first; a year without the event stays one.
func mirrored(x []float64) []float64 {
	y := slices.Clone(x)
	for i, v := range y {
		switch {
		case math.IsInf(v, -1):
			y[i] = math.NaN() // no date on this side either
		case !math.IsInf(v, 1):
			y[i] = -v
		}
	}
	return y
}

// ordered sorts the years' dates and counts those that have the event; not ok where there is no year
// or one that is no date.
func ordered(x []float64) (y []float64, events int, ok bool) {
	for _, v := range x {
		if math.IsNaN(v) || math.IsInf(v, -1) {
			return nil, 0, false
		}
		if !math.IsInf(v, 1) {
			events++
		}
	}
	y = x
	if !slices.IsSorted(x) {
		y = slices.Sorted(slices.Values(x))
	}
	return y, events, len(y) > 0
}

// atRank reads sorted dates at a rank that need not be whole, counted from 1 and held to 1..n.
func atRank(y []float64, h float64) (float64, bool) {
	// A rank that is whole but for rounding must not reach for the next date, which may be +Inf.
	if whole := math.Round(h); math.Abs(h-whole) < 1e-9 {
		h = whole
	}
	h = max(1, min(float64(len(y)), h))
	i := int(h) - 1
	day, part := y[i], h-math.Floor(h)
	switch {
	case part == 0:
	case math.IsInf(y[i+1], 1):
		day = math.Inf(1)
	default:
		day += part * (y[i+1] - y[i])
	}
	return day, !math.IsInf(day, 1)
}

// rankOf is the greatest rank whose date is not after day, 0 where all are; last says that none is.
func rankOf(y []float64, day float64) (rank float64, last bool) {
	k, _ := slices.BinarySearchFunc(y, day, func(v, day float64) int {
		if v <= day {
			return -1
		}
		return 1
	})
	if k == 0 || k == len(y) {
		return float64(k), k == len(y)
	}
	return float64(k) + (day-y[k-1])/(y[k]-y[k-1]), false
}

// meanSD is mean and sample standard deviation, NaN for a deviation from one value alone.
func meanSD(y []float64) (mean, sd float64) {
	for _, v := range y {
		mean += v
	}
	mean /= float64(len(y))
	for _, v := range y {
		sd += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(sd / float64(len(y)-1))
}

func step(reached bool) float64 {
	if reached {
		return 1
	}
	return 0
}
