package demo

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"

	"haywarden/agronomy/unit"
)

// air is the true weather over one station, a value a day from firstDay on.
type air struct {
	place
	maxF, minF []float64
	rainIn     []float64
	wetness    []float64 // the normal whose low values are wet days
	wetChance  []float64 // the chance under which they are
}

// sky is the weather over the district. One shock a day is shared by all stations, and each adds a
// little of its own. The anomaly of the day's mean is the sum of a fast first-order autoregression (a
// passing front), a slow one (a warm or a cold season) and the year's own level; rain falls by a
// first-order Markov chain whose chances change with the season, in amounts of a gamma distribution;
// wet days have a smaller range of temperature, as in the generator of Richardson 1981 (Water Resour.
// Res. 17:182), whose form, not whose numbers, this follows.
type sky []air

func makeSky(seed uint64) sky {
	n := int(lastDay-firstDay) + 1
	all := normals()
	shared := newFront(stream(seed, "sky"))
	out := make(sky, 0, 3)
	own := make([]*front, 0, 3)
	for _, p := range places() {
		out = append(out, air{p, make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)})
		own = append(own, newFront(stream(seed, "sky "+p.ID)))
	}
	for i := range n {
		d := firstDay + unit.Day(i)
		nm := all[leapDay(d)]
		common := shared.next(d)
		for s := range out {
			out[s].fill(i, nm, common, own[s].next(d))
		}
	}
	return out
}

// fill sets one day of one station from the district's draw and the station's own.
func (a *air) fill(i int, n normal, common, own draw) {
	blend := func(c, o, share float64) float64 { return math.Sqrt(1-share)*c + math.Sqrt(share)*o }
	chance := n.afterDry
	if i > 0 && a.rainIn[i-1] > 0 {
		chance = n.afterWet
	}
	wet := 0.0
	a.wetness[i], a.wetChance[i] = blend(common.rain, own.rain, 2*apart), chance
	if distuv.UnitNormal.CDF(a.wetness[i]) < chance {
		wet = 1
		amount := n.inches * a.place.rain * common.amount * math.Exp(scatter*own.amountLog-scatter*scatter/2)
		a.rainIn[i] = math.Max(0.01, math.Round(amount*100)/100)
	}
	mean := n.spread*(math.Sqrt(1-slowShare)*blend(common.fast, own.fast, apart)+math.Sqrt(slowShare)*common.slow) + common.year
	half := n.spanSD * blend(common.span, own.span, 2*apart) / 2
	a.maxF[i] = n.high + a.high + mean + half + n.wetHigh*(wet-n.wetShare)
	a.minF[i] = n.low + a.low + mean - half + n.wetLow*(wet-n.wetShare) - a.pool*(1-wet)
	if a.maxF[i] < a.minF[i]+3 {
		a.maxF[i] = a.minF[i] + 3
	}
}

// draw is the chance of one day.
type draw struct {
	fast, slow, span  float64 // anomalies, in standard deviations
	year              float64 // F
	rain              float64 // normal; low is wet
	amount, amountLog float64 // a gamma amount of mean 1; a normal
}

// front carries what lasts from one day to the next.
type front struct {
	r                *rand.Rand
	gamma            distuv.Gamma
	fast, slow, span float64
	year             float64
	last             int
}

func newFront(r *rand.Rand) *front {
	return &front{r: r, gamma: distuv.Gamma{Alpha: gammaShape, Beta: gammaShape, Src: r}, fast: r.NormFloat64(), slow: r.NormFloat64(), span: r.NormFloat64()}
}

func (f *front) next(d unit.Day) draw {
	carry := func(v *float64, memory float64) {
		*v = memory**v + math.Sqrt(1-memory*memory)*f.r.NormFloat64()
	}
	if y := d.Year(); y != f.last {
		f.last, f.year = y, yearSpread*f.r.NormFloat64()
	}
	carry(&f.fast, fastMemory)
	carry(&f.slow, slowMemory)
	carry(&f.span, 0.3) // the range remembers little (choice)
	return draw{
		fast: f.fast, slow: f.slow, span: f.span, year: f.year,
		rain: f.r.NormFloat64(), amount: f.gamma.Rand(), amountLog: f.r.NormFloat64(),
	}
}

// at returns the place of a day.
func at(d unit.Day) int { return int(d - firstDay) }

// meanC is a day's mean temperature.
func (a *air) meanC(d unit.Day) float64 { return ((a.maxF[at(d)]+a.minF[at(d)])/2 - 32) / 1.8 }

// over finds the weather of a station.
func (s sky) over(station string) *air {
	for i := range s {
		if s[i].ID == station {
			return &s[i]
		}
	}
	panic("demo: no station " + station)
}
