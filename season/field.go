package season

import (
	"fmt"
	"math"

	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/stand"
)

// Prices are what a season's feed brings and costs. Dollars are those of a named deck; this room only
// reckons with them.
type Prices struct {
	Base     float64 // $/ton of hay as fed at 12 % moisture, at BaseRFV
	BaseRFV  float64
	PerPoint float64 // $/ton a point of RFV
	Floor    float64 // $/ton, 0 none
	MostRFV  float64 // quality that is still paid for, 0 without end
	PerCut   float64 // $/ac to harvest a cut
	PerTon   float64 // $/ton DM to harvest, haul and store
}

// Ton is what a ton of dry matter fed brings, $.
func (p *Prices) Ton(rfv float64) float64 {
	const hayDM = 0.88
	if p.MostRFV > 0 {
		rfv = min(rfv, p.MostRFV)
	}
	return max(p.Floor, p.Base+p.PerPoint*(rfv-p.BaseRFV)) / hayDM
}

// Rules bound every plan. Days are days of the year, 1 to 366.
type Rules struct {
	FirstFrom int     // no cut before: of a spring seeding some 60 days after it came up
	LeastDays int     // between two cuts
	RestFrom  int     // fall rest: no cut from this day
	RestTo    int     // to this one, after which a late cut is allowed again; 366 allows none
	LeastTons float64 // DM/ac above the stubble that is worth a mower's way
}

func (r *Rules) check() error {
	switch {
	case r.LeastDays < 1 || r.LeastDays > 120:
		return fmt.Errorf("least interval %d days: accepted 1 to 120", r.LeastDays)
	case r.RestFrom < 1 || r.RestTo < r.RestFrom || r.RestTo > 366:
		return fmt.Errorf("fall rest from day %d to %d: accepted days 1 to 366 in order", r.RestFrom, r.RestTo)
	}
	return nil
}

// ripe reports whether there is enough to mow.
func (f *Field) ripe(c *regrowth.Crop) bool {
	standing := f.Model.Standing(c)
	return standing > 0 && standing*f.Yield/acreTon >= f.Rules.LeastTons
}

// allow reports whether a cut may be made on a day (0 is 1 January), so many days after the one before;
// since is negative where there was none this year.
func (r *Rules) allow(day, since int) bool {
	yearDay := day + 1
	return yearDay >= r.FirstFrom && (since < 0 || since >= r.LeastDays) && (yearDay < r.RestFrom || yearDay > r.RestTo)
}

// Life is what wear costs a stand. A year from a poorly filled root ages it by more than a year, and
// it goes down the ladder of yields by age so much the sooner.
type Life struct {
	ProductionYear int     // this year's, 1 the first after seeding
	Years          int     // that the stand is meant to stay after this one
	FullTons       float64 // yield of its first production year, tons DM/ac
	NetTon         float64 // $/ton DM in the field, price less harvest
}

// Rate is how fast a stand ages, 1 being a year a year, by the reserve it goes into winter with: 1 from
// 0.85 up, 1.3 about 0.725, 1.8 from 0.475 down, on straight lines between. Source: [source.StandWear].
func (l *Life) Rate(reserve float64) float64 {
	const (
		unworn, some, worn    = 0.85, 0.725, 0.475
		slow, faster, fastest = 1.0, 1.3, 1.8
	)
	switch {
	case reserve >= unworn:
		return slow
	case reserve >= some:
		return slow + (faster-slow)*(unworn-reserve)/(unworn-some)
	}
	return min(fastest, faster+(fastest-faster)*(some-reserve)/(some-worn))
}

// Wear is what a winter's reserve costs in later years, $/ac: being so much older each year that is
// left takes the difference of the ladder between the next year and the one after the last.
func (l *Life) Wear(reserve float64) float64 {
	if l.Years < 1 || l.ProductionYear < 0 {
		return 0
	}
	next := l.ProductionYear + 1
	fall := max(0, stand.YieldByAge(next)-stand.YieldByAge(next+l.Years))
	return (l.Rate(reserve) - 1) * fall * l.FullTons * l.NetTon
}

// Field is a stand with what it stands on, what its feed is worth and what binds its cuts.
type Field struct {
	Model  *regrowth.Model
	Soil   regrowth.Soil
	Sort   regrowth.Sort
	Yield  float64 // stems, age and farm, as a share of the model's good field
	Prices Prices
	Rules  Rules
	Life   Life

	springs [springSteps + 1]float64 // tons of next year's first cut by the winter's reserve, from 0 to 1
}

const springSteps = 10

// NewField checks a field and reckons what a poor winter costs its next first cut, under the mean of
// the members' springs.
func NewField(f Field, mean []regrowth.Day) (*Field, error) {
	if err := f.Rules.check(); err != nil {
		return nil, err
	}
	if !(f.Yield > 0 && f.Yield <= 2) {
		return nil, fmt.Errorf("yield of the stand %g: accepted over 0 to 2 times the model's good field", f.Yield)
	}
	const bud = 3.5
	for i := range f.springs {
		c := f.Model.Start(regrowth.First, float64(i)/springSteps, 0)
		for d := f.Model.Spring(mean); d < len(mean) && f.Model.StageOf(&c) < bud; d++ {
			f.Model.Grow(&c, &f.Soil, &mean[d])
		}
		f.springs[i] = f.Model.Standing(&c) * f.Yield * (1 - f.Model.UsualLoss) / acreTon
	}
	return &f, nil
}

// winter is what a reserve at the end of the year is worth against a full one, $/ac: never over 0.
func (f *Field) winter(reserve float64) float64 {
	at := min(max(reserve, 0), 1) * springSteps
	i := min(int(at), springSteps-1)
	spring := f.springs[i] + (f.springs[i+1]-f.springs[i])*(at-float64(i))
	return -f.Life.Wear(reserve) - max(0, f.springs[springSteps]-spring)*f.Life.NetTon
}

// Cut is a cut with what it comes to.
type Cut struct {
	Day      int     `json:"day"`      // 0 is 1 January
	Standing float64 `json:"standing"` // tons DM/ac above the stubble
	Fed      float64 `json:"fed"`      // tons DM/ac at the bunk
	RFV      float64 `json:"rfv"`      // standing
	FedRFV   float64 `json:"fed_rfv"`  // at the bunk
	Worth    float64 `json:"worth"`    // $/ac, less the harvest and what a late cut takes from next spring
	Reserve  float64 `json:"reserve"`  // as it was cut
	Clean    bool    `json:"clean"`    // made without harmful rain
}

// lateDebt is the part of a late cut's yield that next spring's first cut falls by beyond what the
// model's reserves see: it is about as much in all as the cut gave. Source: [source.OctoberCut].
const lateDebt = 0.46

// Reckon reckons a cut of the crop on a day under a fate.
func (f *Field) Reckon(c *regrowth.Crop, day int, fate Fate) Cut {
	const low, high = 41, 102 // cm, where the stick holds
	held := *c
	held.Height = min(max(c.Height, low), high)
	q := f.Model.Quality(&held, f.Sort)
	rfv := f.Model.Stick.FeedValue
	out := Cut{Day: day, Standing: f.Model.Standing(c) * f.Yield / acreTon, RFV: rfv.Of(q.ADF, q.NDF), Reserve: c.Reserve, Clean: fate.Clean}
	out.Fed = out.Standing * fate.Kept
	out.FedRFV = rfv.Of(q.ADF+fate.ADF, q.NDF+fate.NDF)
	out.Worth = out.Fed*(f.Prices.Ton(out.FedRFV)-f.Prices.PerTon) - f.Prices.PerCut
	if day+1 > f.Rules.RestTo {
		out.Worth -= lateDebt * out.Standing * (1 - f.Model.UsualLoss) * f.Life.NetTon
	}
	return out
}

// Mean is the mean of the members' days, field by field.
func Mean(members []Member) []regrowth.Day {
	n := math.MaxInt
	for _, m := range members {
		n = min(n, len(m.Days))
	}
	out := make([]regrowth.Day, n)
	for i := range out {
		for _, m := range members {
			d, w := &m.Days[i], m.Weight
			o := &out[i]
			o.MeanC += w * d.MeanC
			o.WarmC += w * d.WarmC
			o.LightKg += w * d.LightKg
			o.Shoots += w * d.Shoots
			o.LeafC += w * d.LeafC
			o.EToMM += w * d.EToMM
			o.RainMM += w * d.RainMM
			o.MinC += w * d.MinC
		}
	}
	return out
}
