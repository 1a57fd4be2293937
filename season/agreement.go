package season

import (
	"fmt"
	"math"

	"haywarden/agronomy/regrowth"
)

// Agreed is a published result beside the model's.
type Agreed struct {
	Target    string  `json:"target"`
	Published string  `json:"published"`
	Model     string  `json:"model"`
	Got       float64 `json:"got"` // what is judged, in the published unit
	Low       float64 `json:"low"` // published limits of it
	High      float64 `json:"high"`
	Fitted    bool    `json:"fitted"` // the model's constants were fitted to it: weak evidence
	Met       bool    `json:"met"`
}

const (
	acreTon = 2241.702 // kg/ha of a short ton an acre
	hundred = 100
)

// mean is a rhythm over many years.
type mean struct {
	tons    float64 // an acre and year
	cut     []float64
	deviate float64
	reserve float64 // least mean reserve at a cut
}

// over carries a stand through the years, the reserve of each fall being that of the next spring.
func over(m *regrowth.Model, years []Year, r Rhythm) mean {
	var out mean
	var sq float64
	reserve, n := 1.0, float64(len(years))
	at := make([]float64, 0, 8)
	for _, y := range years {
		var cuts []Taken
		cuts, reserve = follow(m, r, y.Days, reserve)
		var year float64
		for i, c := range cuts {
			if i == len(out.cut) {
				out.cut, at = append(out.cut, 0), append(at, 0)
			}
			out.cut[i] += c.KgHa / acreTon / n
			at[i] += c.Reserve / n
			year += c.KgHa / acreTon
		}
		out.tons += year / n
		sq += year * year / n
	}
	out.deviate = math.Sqrt(max(0, sq-out.tons*out.tons) * n / (n - 1))
	out.reserve = 1
	for _, v := range at {
		out.reserve = min(out.reserve, v)
	}
	return out
}

func (a mean) share(i int) float64 {
	if i >= len(a.cut) {
		return 0
	}
	return hundred * a.cut[i] / a.tons
}

// Agreement sets what is published of yields and intervals beside the model over the years of a
// record: Milwaukee's fifty, to whose means the constants of [source.GrowthField] were fitted. Rows that
// were fitted are weak evidence; the others are honest.
func Agreement(m *regrowth.Model, years []Year) []Agreed {
	three, four, five := over(m, years, threeCuts()), over(m, years, fourCuts()), over(m, years, fiveCuts())
	i28, i35, i42, i49 := over(m, years, every(28, 5)), over(m, years, every(35, 4)), over(m, years, every(42, 4)), over(m, years, every(49, 3))
	fall := fourCuts()
	fall.October = 285
	extra := over(m, years, fall)
	gain := func(a, b mean) float64 { return 2 * (b.tons - a.tons) * acreTon / 1000 } // Mg/ha in two years
	nz28, nz42, nz84 := canterbury(m, 28), canterbury(m, 42), canterbury(m, 84)
	debt, taken := four.cut[0]-extra.cut[0], extra.cut[len(extra.cut)-1]

	rows := []Agreed{
		{Target: "four cuts a year, t/ac", Published: "4.0-5.1", Got: four.tons, Low: 4.0, High: 5.1, Fitted: true, Model: fmt.Sprintf("%.2f, years differ by %.2f", four.tons, four.deviate)},
		percent("three cuts against four", "within 5 %", hundred*(three.tons/four.tons-1), -5, 5, true),
		percent("five cuts against four", "5-12 % lower", hundred*(five.tons/four.tons-1), -12, -5, true),
		share("first of four cuts", "30-38 %", four.share(0), 30, 38, true),
		share("second of four", "26 %", four.share(1), 24, 28, false),
		share("third of four", "22 %", four.share(2), 20, 24, false),
		share("fourth of four", "16 %", four.share(3), 14, 18, true),
		share("first of three cuts", "35-40 %", three.share(0), 35, 40, true),
		share("second of five less the third (falling)", "over 0", five.share(1)-five.share(2), 0, hundred, false),
		{Target: "seeding year, t/ac", Published: "1.5-3", Got: seedingYear(m, years), Low: 1.5, High: 3, Fitted: true, Model: fmt.Sprintf("%.2f", seedingYear(m, years))},
		order("Kansas: 28 under 49 under 42 days, 35 under 42", i28.tons < i49.tons && i49.tons < i42.tons && i35.tons < i42.tons,
			fmt.Sprintf("%.2f, %.2f, %.2f; %.2f t/ac", i28.tons, i49.tons, i42.tons, i35.tons)),
		mass("Kansas: two years of 42 days instead of 28, Mg/ha", "5.58", gain(i28, i42), 0.8*5.58, 1.2*5.58),
		mass("Kansas: two years of 49 days instead of 28, Mg/ha", "2.25", gain(i28, i49), 0.8*2.25, 1.2*2.25),
		percent("Kansas: 42 days against 35", "20 % more", hundred*(i42.tons/i35.tons-1), 15, 25, false),
		percent("New Zealand: 28 days against 42, at its own warmth", "44-49 % lower", hundred*(nz28/nz42-1), -49, -44, false),
		mass("New Zealand: 84 days, Mg/ha a year", "17.5", nz84, 0.9*17.5, 1.1*17.5),
		mass("extra cut in October, t/ac", "0.34-0.88", taken, 0.34, 0.88),
		mass("its debt next spring as a share of it", "about 1", debt/taken, 0.75, 1.25),
	}
	for i := range rows {
		r := &rows[i]
		shown := math.Round(r.Got*hundred) / hundred
		r.Met = shown >= r.Low && shown <= r.High
	}
	return rows
}

func percent(target, published string, got, low, high float64, fitted bool) Agreed {
	return Agreed{Target: target, Published: published, Got: math.Round(got*10) / 10, Low: low, High: high, Fitted: fitted, Model: fmt.Sprintf("%+.1f %%", got)}
}

func share(target, published string, got, low, high float64, fitted bool) Agreed {
	return Agreed{Target: target, Published: published, Got: math.Round(got*10) / 10, Low: low, High: high, Fitted: fitted, Model: fmt.Sprintf("%.1f %%", got)}
}

func mass(target, published string, got, low, high float64) Agreed {
	return Agreed{Target: target, Published: published, Got: got, Low: low, High: high, Model: fmt.Sprintf("%.2f", got)}
}

func order(target string, holds bool, model string) Agreed {
	r := Agreed{Target: target, Published: "the order", Low: 1, High: 1, Fitted: true, Model: model}
	if holds {
		r.Got = 1
	}
	return r
}

// seedingYear is a spring seeding that comes up on 15 May and is cut on days 200 and 233, t/ac.
func seedingYear(m *regrowth.Model, years []Year) float64 {
	const up, first, second = 135, 200, 233
	var sum float64
	soil := m.SoilOf(m.UsualTAWMM)
	for _, y := range years {
		c := m.Start(regrowth.Seedling, 1, 0)
		for i := range y.Days[:second] {
			if i+1 < up {
				m.Rest(&c, &soil, &y.Days[i])
				continue
			}
			m.Grow(&c, &soil, &y.Days[i])
			if i+1 == first || i+1 == second {
				sum += m.Cut(&c) * (1 - m.UsualLoss)
			}
		}
	}
	return sum / acreTon / float64(len(years))
}

// canterbury is irrigated alfalfa near Lincoln, New Zealand, cut all year round every so many days, Mg
// a ha in the fourth year. The climate is a sine of 11.5 C, 5.3 C either way, from memory, laid on
// northern months. An interval counts by its warmth: 28 days there are no longer than 18 in Wisconsin's
// summer, and that is why they cost so much more.
func canterbury(m *regrowth.Model, every int) float64 {
	const (
		latitude, meanC, swingC, halfRangeC = 43.6, 11.5, 5.3, 5.5
		warmest, irrigationMM, years        = 203, 100, 4
	)
	place, soil := m.NewPlace(latitude, false), m.SoilOf(m.UsualTAWMM)
	c := m.Start(regrowth.First, 1, 0)
	var year float64
	for range years {
		year, c.Growth = 0, regrowth.First
		last := 0
		for j := 1; j <= 365; j++ {
			t := meanC + swingC*math.Cos(2*math.Pi*float64(j-warmest)/365)
			d := place.Day(j, t+halfRangeC, t-halfRangeC, irrigationMM)
			m.Grow(&c, &soil, &d)
			const march = 60
			if j-last >= every && j >= march {
				year += m.Cut(&c) * (1 - m.UsualLoss)
				last = j
			}
		}
		c = m.Start(regrowth.First, c.Reserve, 0)
	}
	return year / 1000
}
