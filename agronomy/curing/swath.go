package curing

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Hour is the weather over a swath in one hour. A run takes one for each hour from midnight by the sun
// on the day of mowing.
type Hour struct {
	SolarW     float64 // W/m2; 0 is night
	TempC      float64
	DeficitKPa float64 // vapour pressure deficit
	RH         float64 // relative humidity, 0 to 1
	RainMM     float64
	SoilPct    float64 // soil moisture, % of dry soil
}

// Damp says what the air gives back to a swath.
type Damp string

// What the air gives back.
const (
	DampAir  Damp = "air"     // hay dries no further than the air lets it, and takes up from the air at night
	DampFall Damp = "dewfall" // the same, and dew settles on it as [Dewfall] says
	DampDew  Damp = "dew"     // takes up towards what a swath holds with its dew: the upper bound
	NoDamp   Damp = "none"    // nothing, and drying has no floor, as the equation was fitted
)

// damps are all of them, the one in use first.
var damps = []string{string(DampFall), string(DampAir), string(DampDew), string(NoDamp)}

// Turning is a pass over the swath: from an hour on it lies at another density, and for some hours it
// dries faster.
type Turning struct {
	Hour      int // from midnight of the day of mowing
	SwathGM2  float64
	Faster    float64 // 1: no faster
	UntilHour int     // of Faster
}

// Tedding spreads the crop over the whole ground and has it dry 1.3 times faster until midnight. It
// lies spread until it is raked. Source: [source.SwathTurned].
func Tedding(hour int, groundGM2 float64) Turning {
	return Turning{Hour: hour, SwathGM2: groundGM2, Faster: 1.3, UntilHour: (hour/24 + 1) * 24}
}

// Raking gathers the crop into a windrow, which dries 1.15 times faster than its density says for
// three hours. Source: [source.SwathTurned]; three hours is a choice.
func Raking(hour int, windrowGM2 float64) Turning {
	const first = 3
	return Turning{Hour: hour, SwathGM2: windrowGM2, Faster: 1.15, UntilHour: hour + first}
}

// Swath is what was mown, how it lies, and what is done to it.
type Swath struct {
	GM2      float64 // as mown: see [SwathDensity]
	Form     Form
	Scaled   bool    // by [PittDensity]
	Chemical float64 // g of solution a g of dry matter
	Factor   float64 // 1 where it was conditioned, else [Plain.Factor]
	FromDB   float64 // moisture of the standing crop, water over dry matter
	MowHour  int     // from midnight of the day of mowing
	Damp     Damp
	WindMS   float64 // at night, for [DampFall] and [DampDew]
	Turnings []Turning
}

// UsualSwath is 4 t/ha of alfalfa, conditioned, mown at 10:00 by the sun at 80 % moisture into a swath
// over 70 % of the ground. Source: [source.CuringCrop].
func UsualSwath() Swath {
	return Swath{GM2: 571, Form: ByTemperature, Scaled: true, Factor: 1, FromDB: 4, MowHour: 10, Damp: DampFall}
}

func (s *Swath) check() error {
	switch {
	case s.Form != ByTemperature && s.Form != ByVapour:
		return fmt.Errorf("form %q: accepted %s or %s", s.Form, ByTemperature, ByVapour)
	case !slices.Contains(damps, string(s.Damp)):
		return fmt.Errorf("damp %q: accepted %s", s.Damp, strings.Join(damps, ", "))
	case !(s.GM2 > 0 && s.GM2 <= mostGM2):
		return fmt.Errorf("swath %g g/m2: accepted over 0 to %d", s.GM2, mostGM2)
	case !(s.Chemical >= 0 && s.Chemical <= 1):
		return fmt.Errorf("chemical %g g/g: accepted 0 to 1", s.Chemical)
	case !(s.Factor > 0 && s.Factor <= 3):
		return fmt.Errorf("factor %g of the drying rate: accepted over 0 to 3", s.Factor)
	case !(s.FromDB > 0 && s.FromDB <= 20):
		return fmt.Errorf("moisture at mowing %g kg/kg: accepted over 0 to 20", s.FromDB)
	case s.MowHour < 0 || s.MowHour > 23:
		return fmt.Errorf("mown at hour %d: accepted 0 to 23", s.MowHour)
	case !(s.WindMS >= 0):
		return fmt.Errorf("wind %g m/s: accepted 0 or more", s.WindMS)
	}
	at := s.MowHour
	for i, t := range s.Turnings {
		switch {
		case t.Hour < at:
			return fmt.Errorf("turning %d at hour %d: accepted from hour %d, in the order in which they are done", i+1, t.Hour, at)
		case !(t.SwathGM2 > 0 && t.SwathGM2 <= mostGM2):
			return fmt.Errorf("turning %d to %g g/m2: accepted over 0 to %d", i+1, t.SwathGM2, mostGM2)
		case !(t.Faster > 0 && t.Faster <= 3):
			return fmt.Errorf("turning %d dries %g times faster: accepted over 0 to 3", i+1, t.Faster)
		}
		at = t.Hour
	}
	return nil
}

// lie is one way in which the swath lies, with all of the rate that does not change by the hour.
type lie struct {
	hour, until int
	gm2         float64
	factor      float64 // of density, conditioner and nothing else
	faster      float64
	held        [2]float64 // by first day or not
}

// Curing is a swath made ready to be run over any weather.
type Curing struct {
	mowHour  int
	fromDB   float64
	vapour   bool
	damp     Damp
	windMS   float64
	eq       Equation
	sun      float64
	lies     []lie
	wetting  Wetting
	night    Night
	dew      Dew
	dewfall  Dewfall
	regained float64 // share of what it lacks that a night hour brings
}

// NewCuring prepares a swath.
func NewCuring(s Swath) (*Curing, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	c := &Curing{
		mowHour: s.MowHour, fromDB: s.FromDB, vapour: s.Form == ByVapour, damp: s.Damp, windMS: s.WindMS,
		eq: EquationOf(s.Form), wetting: UsualWetting(), night: UsualNight(), dew: PublishedDew(), dewfall: UsualDewfall(),
	}
	c.sun, c.regained = c.eq.sun(s.Chemical), 1-math.Exp(-c.night.PerHour)
	add := func(t Turning) {
		l := lie{hour: t.Hour, until: t.UntilHour, gm2: t.SwathGM2, factor: s.Factor, faster: t.Faster}
		at := t.SwathGM2
		if d := PittDensity(); s.Scaled {
			l.factor *= d.Factor(at)
			at = d.AtGM2
		}
		for day := range l.held {
			l.held[day] = c.eq.held(at, float64(day), s.Chemical)
		}
		c.lies = append(c.lies, l)
	}
	add(Turning{Hour: s.MowHour, SwathGM2: s.GM2, Faster: 1})
	for _, t := range s.Turnings {
		add(t)
	}
	return c, nil
}

// rate is the drying rate in an hour of a swath that lies so.
func (c *Curing) rate(l *lie, h *Hour, hour int) float64 {
	air, day := h.TempC, 0
	if c.vapour {
		air = h.DeficitKPa
	}
	if hour < 24 {
		day = 1
	}
	if !(air > 0) {
		air = 0 * air // NaN stays
	}
	factor := l.factor
	if hour < l.until {
		factor *= l.faster
	}
	return factor * (h.SolarW*c.sun + c.eq.Air*air) / (c.eq.Soil*h.SoilPct + l.held[day])
}
