package curing

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Isotherm is the moisture that hay comes to in air of a relative humidity:
//
//	Me = (-ln(1 - RH)/Factor)^(1/Power)   water over dry matter
//
// It is good to 2 points of moisture: fast cured and over-ripe hay holds less, and hay that comes from
// the wet side more. Source: [source.HayIsotherm].
type Isotherm struct {
	Factor float64
	Power  float64
	Most   float64 // relative humidity above which it is not used
}

// NashIsotherm goes through 13 % at 60 % and 22 % at 80 % relative humidity.
func NashIsotherm() Isotherm { return Isotherm{Factor: 4.9438, Power: 0.88669, Most: 0.98} }

// DB is the moisture at a relative humidity, water over dry matter.
func (i Isotherm) DB(rh float64) float64 {
	return math.Pow(-math.Log(1-min(i.Most, max(0, rh)))/i.Factor, 1/i.Power)
}

// Equilibrium is the moisture that hay comes to in air of a relative humidity. Source:
// [source.HayIsotherm].
func Equilibrium(rh unit.Share) (unit.WaterDM, error) {
	if !(rh >= 0 && rh <= 1) {
		return 0, fmt.Errorf("relative humidity %g: accepted 0 to 1", rh)
	}
	return unit.WaterDM(NashIsotherm().DB(float64(rh))), nil
}

// tableSteps keeps the table of the isotherm within 2e-5 of it, a hundredth of its own error.
const tableSteps = 2048

// isothermTable is [NashIsotherm] by relative humidity, since a run asks it every hour.
var isothermTable = tabled(NashIsotherm())

type table struct {
	perRH float64
	most  float64
	db    [tableSteps + 2]float64 // one step beyond the last, for the highest humidity itself
}

func tabled(i Isotherm) *table {
	t := &table{perRH: tableSteps / i.Most, most: i.Most}
	for k := range t.db {
		t.db[k] = i.DB(float64(k) / t.perRH)
	}
	return t
}

// at is the table read between its steps; NaN is read as dry air, so callers keep it out.
func (t *table) at(rh float64) float64 {
	if rh > t.most {
		rh = t.most
	}
	if !(rh > 0) {
		return 0
	}
	x := rh * t.perRH
	k := int(x)
	return t.db[k] + (x-float64(k))*(t.db[k+1]-t.db[k])
}

// Night is how a swath takes up moisture between sunset and sunrise.
type Night struct {
	PerHour float64 // share of what it lacks, as the rate of an exponential
	MostRH  float64 // relative humidity counted at most
}

// UsualNight approaches at 0.1 an hour. Source: [source.NightRegain].
func UsualNight() Night { return Night{PerHour: 0.1, MostRH: 0.95} }

// Dew is what a swath can hold at night with the dew on it:
//
//	M = Base + Span exp(-Wind u) exp(-Air (1 - RH))   water over dry matter
//
// 4.0 in calm saturated air: far above what hay takes up from air alone, and an upper bound of a
// night's regain rather than a forecast of it. Source: [source.DewLimit].
type Dew struct{ Base, Span, Wind, Air float64 }

// PublishedDew returns the coefficients.
func PublishedDew() Dew { return Dew{Base: 0.4, Span: 3.6, Wind: 0.2, Air: 2.5} }

// DB is the limit at a relative humidity and wind in m/s.
func (d Dew) DB(rh, windMS float64) float64 {
	return d.Base + d.Span*math.Exp(-d.Wind*windMS)*math.Exp(-d.Air*(1-rh))
}

// Dewfall is the dew that settles on a swath in the hours of a night:
//
//	PerHourMM (RH - From)/(1 - From)   mm
//
// It is free water, 1000 g/m2 a mm, on whatever dry matter lies there, and the sun must take it off again
// before the hay itself dries. Long nights of fall bring more of it than short ones of June. Source:
// [source.Dewfall].
type Dewfall struct {
	From      float64 // relative humidity over which it begins
	PerHourMM float64 // in saturated air
}

// UsualDewfall returns the coefficients in use.
func UsualDewfall() Dewfall { return Dewfall{From: 0.8, PerHourMM: 0.05} }

// MM is what settles in an hour at a relative humidity.
func (d Dewfall) MM(rh float64) float64 { return d.PerHourMM * max(0, rh-d.From) / (1 - d.From) }

// Wetting is what rain does to a swath:
//
//	M' = Full - (Full - M) exp(-Catch R/SD)
//
// M water over dry matter, R rain in mm, SD swath density in g/m2. What the rain brought dries Faster
// than the rest until half of it is gone. Source: [source.RainRewetting], [source.RainDrying].
type Wetting struct {
	Full   float64 // moisture that rain brings a swath to, water over dry matter
	Catch  float64 // g/m2 a mm
	Faster float64
}

// UsualWetting returns the coefficients in use. They are choices, to be moved where a farm's own swaths
// say so.
func UsualWetting() Wetting { return Wetting{Full: 4, Catch: 80, Faster: 1.3} }

// DB is the moisture after rain. A swath wetter than Full stays as it is.
func (w Wetting) DB(db, rainMM, swathGM2 float64) float64 {
	if db >= w.Full {
		return db
	}
	return w.Full - (w.Full-db)*math.Exp(-w.Catch*rainMM/swathGM2)
}
