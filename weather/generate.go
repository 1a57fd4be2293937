package weather

import (
	"math"
	"math/rand/v2"
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// Generator makes days of weather where a record is too short for an ensemble: rain as a two-state
// chain by month with gamma amounts, temperatures as residuals around the smoothed normals. It makes
// too few long dry spells and years too alike: for under 15 years of record only. [source.Generator]
type Generator struct {
	normals *Normals
	wetDry  [13]float64 // chance of rain after a dry day, by month
	wetWet  [13]float64 // after a wet day
	amount  [13]climate.Gamma
	carry   climate.Residuals
}

// ShortRecord is the number of years under which the generator takes the place of past years.
const ShortRecord = 15

// wetCooler is how much lower the highest temperature of a wet day is, in its own spread (choice).
const wetCooler = 0.35

// NewGenerator fits a generator to a record.
func NewGenerator(s *Series) *Generator {
	g := &Generator{normals: NewNormals(s, 0, 0), carry: climate.PublishedResiduals()}
	var dd, dw, wd, ww [13]float64
	amounts := make([][]float64, 13)
	for i := 1; i < s.Len(); i++ {
		was, now := s.RainMM[i-1], s.RainMM[i]
		if math.IsNaN(was) || math.IsNaN(now) {
			continue
		}
		m := (s.First + unit.Day(i)).Month()
		wet := now >= DryBelowMM
		if wet {
			amounts[m] = append(amounts[m], now)
		}
		switch {
		case was >= DryBelowMM && wet:
			ww[m]++
		case was >= DryBelowMM:
			wd[m]++
		case wet:
			dw[m]++
		default:
			dd[m]++
		}
	}
	for m := range g.wetDry {
		// One count is added to each kind, so that a month never seen is possible both ways.
		g.wetDry[m] = (dw[m] + 1) / (dw[m] + dd[m] + 2)
		g.wetWet[m] = (ww[m] + 1) / (ww[m] + wd[m] + 2)
		g.amount[m] = climate.FitGamma(amounts[m])
		if math.IsNaN(g.amount[m].Alpha) {
			g.amount[m] = climate.Gamma{Alpha: 0.8, Beta: 8}
		}
	}
	return g
}

// Members makes n ways for the rest of the year to go. The same seed gives the same members.
func (g *Generator) Members(date unit.Day, n int, seed uint64) []Member {
	days := int(unit.DateOf(date.Year(), time.December, 31)-date) + 1
	out := make([]Member, n)
	for j := range out {
		r := rand.New(rand.NewPCG(seed, uint64(j)))
		m := Member{Year: j + 1, Weight: 1 / float64(n), TMaxC: make([]float64, days), TMinC: make([]float64, days), RainMM: make([]float64, days)}
		var chi [3]float64
		for k := range chi {
			chi[k] = r.NormFloat64()
		}
		wet := r.Float64() < g.normals.Wet.At(float64(CalendarSlot(date)))
		for i := range days {
			d := date + unit.Day(i)
			month, at := d.Month(), float64(CalendarSlot(d))
			chance := g.wetDry[month]
			if wet {
				chance = g.wetWet[month]
			}
			if wet = r.Float64() < chance; wet {
				m.RainMM[i] = max(DryBelowMM, gammaDraw(r, g.amount[month].Alpha)*g.amount[month].Beta)
			}
			chi = g.carry.Step(chi, [3]float64{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()})
			shift := 0.0
			if wet {
				shift = wetCooler
			}
			m.TMaxC[i] = g.normals.High.At(at) + g.normals.HighSD.At(at)*(chi[0]-shift)
			m.TMinC[i] = g.normals.Low.At(at) + g.normals.LowSD.At(at)*chi[1]
		}
		keepOrder(&m)
		out[j] = m
	}
	return out
}

// gammaDraw draws from a gamma distribution of scale 1 (Marsaglia and Tsang).
func gammaDraw(r *rand.Rand, alpha float64) float64 {
	if alpha < 1 {
		return gammaDraw(r, alpha+1) * math.Pow(r.Float64(), 1/alpha)
	}
	d := alpha - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v = v * v * v
		if u := r.Float64(); math.Log(u) < 0.5*x*x+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}
