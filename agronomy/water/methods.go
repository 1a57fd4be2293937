package water

import (
	_ "embed"
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{sun(), referenceET(), referenceETTemp(), soilWater(), drySpell()}
}

// coefficient is a published number of an equation and where the equation keeps it.
type coefficient struct {
	key, unit string
	at        *float64
}

func declare(id source.ID, list []coefficient) []method.Constant {
	constants := make([]method.Constant, len(list))
	for i, k := range list {
		constants[i] = method.Constant{Key: k.key, Value: *k.at, Unit: k.unit, Source: id}
	}
	return constants
}

func take(c *method.Call, list []coefficient) {
	for _, k := range list {
		*k.at = c.K(k.key)
	}
}

func ofOrbit(o *Orbit) []coefficient {
	return []coefficient{
		{"solar_constant", "MJ/m2/min", &o.SolarConstant},
		{"eccentricity", "", &o.Eccentricity},
		{"tilt", "rad", &o.Tilt},
		{"phase", "rad", &o.Phase},
	}
}

var (
	degrees   = unit.Must("deg")
	celsius   = unit.Must("C")
	energyDay = unit.Must("MJ/m2/d")
	depthDay  = unit.Must("mm/d")
	depth     = unit.Must("mm")
)

func latInput() method.Input {
	return method.Input{Key: "lat", About: "latitude, south negative", Unit: degrees, Accepted: method.Range{Low: -90, High: 90}}
}

func dayInput() method.Input {
	return method.Input{Key: "day", About: "day of the year, 1 January being 1", Accepted: method.Range{Low: 1, High: 366}}
}

func extremeInputs() []method.Input {
	measured := method.Range{Low: -90, High: 60}
	return []method.Input{
		{Key: "tmax", About: "highest temperature of the day", Unit: celsius, Accepted: measured},
		{Key: "tmin", About: "lowest temperature of the day", Unit: celsius, Accepted: measured},
	}
}

// whole reads an input that is counted.
func whole(c *method.Call, key string) (int, error) {
	v := c.Num(key)
	if v != math.Trunc(v) {
		return 0, fmt.Errorf("%s %g: accepted whole numbers", key, v)
	}
	return int(v), nil
}

func sun() *method.Method {
	o := FAOOrbit()
	return &method.Method{
		Name: "sun", Title: "The sun's day",
		About: "What the sun brings to the top of the atmosphere in a day, and the length of the day, by latitude and season. " +
			"The day is that of the sun's centre without refraction: at 43 N it is 11 to 17 minutes shorter than from sunrise to sunset by the clock.",
		Inputs: []method.Input{latInput(), dayInput()},
		Outputs: []method.Output{
			{Key: "ra", About: "radiation above the atmosphere", Unit: energyDay, Decimals: 2},
			{Key: "daylength", About: "from sunrise to sunset", Unit: unit.Must("h"), Decimals: 2},
		},
		Constants: declare(source.ReferenceET, ofOrbit(&o)),
		Sources:   []source.ID{source.ReferenceET},
		Example:   "lat=43.07 day=172",
		Run: func(c *method.Call) error {
			day, err := whole(c, "day")
			if err != nil {
				return err
			}
			var o Orbit
			take(c, ofOrbit(&o))
			ra, n := o.Sky(c.Num("lat"), float64(day))
			switch n {
			case 0:
				c.Note("the sun does not rise on this day")
			case hoursOfDay:
				c.Note("the sun does not set on this day")
			}
			c.Answer("ra", ra)
			c.Answer("daylength", n)
			return nil
		},
	}
}

func ofHargreaves(h *Hargreaves) []coefficient {
	return []coefficient{
		{"factor", "", &h.Factor},
		{"offset", "C", &h.Offset},
		{"evaporates", "mm/(MJ/m2)", &h.Evaporates},
	}
}

func referenceETTemp() *method.Method {
	o, h := FAOOrbit(), HargreavesSamani()
	return &method.Method{
		Name: "reference-et-temp", Title: "Reference evapotranspiration from temperature alone",
		About: "What a well-watered short grass uses in a day, told from its two temperatures and the season. " +
			"It knows neither wind, humidity nor cloud: fair over weeks, poor on single days. Where more is known, reference-et is better.",
		Inputs:    append([]method.Input{latInput(), dayInput()}, extremeInputs()...),
		Outputs:   []method.Output{{Key: "eto", About: "reference evapotranspiration", Unit: depthDay, Decimals: 2}},
		Constants: append(declare(source.ReferenceET, ofOrbit(&o)), declare(source.HargreavesET, ofHargreaves(&h))...),
		Sources:   []source.ID{source.HargreavesET, source.ReferenceET},
		Example:   "lat=43.07 day=172 tmax=27 tmin=15",
		Run: func(c *method.Call) error {
			day, err := whole(c, "day")
			if err != nil {
				return err
			}
			if err := checkExtremes(unit.Celsius(c.Num("tmax")), unit.Celsius(c.Num("tmin"))); err != nil {
				return err
			}
			var o Orbit
			var h Hargreaves
			take(c, ofOrbit(&o))
			take(c, ofHargreaves(&h))
			ra, _ := o.Sky(c.Num("lat"), float64(day))
			c.Answer("eto", h.EToMM(c.Num("tmax"), c.Num("tmin"), ra))
			return nil
		},
	}
}
