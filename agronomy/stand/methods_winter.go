package stand

import (
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func crownTemperature() *method.Method {
	k := PublishedWinter()
	fahrenheit := unit.Must("F")
	const shown = "judged as shown, in whole degrees: 1 % lies within one"
	temperature := func(key, about string, optional bool) method.Input {
		return method.Input{Key: key, About: about, Unit: fahrenheit, Accepted: method.Range{Low: -80, High: 120}, Optional: optional}
	}
	return &method.Method{
		Name: "crown-temperature", Title: "How cold it was at the crown",
		About: "From the air of two days and the snow on the ground, how cold crowns an inch or two deep became in a winter's night, and what the sources say of it, who differ by 15 F. An estimate of ours between published figures: a thermometer at the crown tells more.",
		Inputs: []method.Input{
			temperature("tmax", "highest temperature of the day", false), temperature("tmin", "lowest", false),
			temperature("tmax_before", "highest of the day before", true), temperature("tmin_before", "lowest of the day before", true),
			{Key: "snow", About: "snow on the ground", Unit: unit.Must("in"), Accepted: method.Range{Low: 0, High: 200}, Tested: method.Range{Low: 0, High: 12}},
		},
		Outputs: []method.Output{
			{Key: "crown", About: "at the crown, middle estimate", Unit: fahrenheit, Decimals: 0},
			{Key: "low", About: "if the crown is as cold as the air, less the snow's shelter", Unit: fahrenheit, Decimals: 0},
			{Key: "says", About: "what the sources say of it"},
		},
		Constants: []method.Constant{
			{Key: "hurt", Value: k.Colds.Hurt, Unit: "F", Source: source.CrownCold, Exempt: shown}, {Key: "kill", Value: k.Colds.Kill, Unit: "F", Source: source.CrownCold, Exempt: shown},
			{Key: "mildest", Value: k.Colds.Mildest, Unit: "F", Source: source.CrownCold, Exempt: shown},
			{Key: "shelter", Value: k.ShelterF, Unit: "F", Source: source.SnowShelter}, {Key: "shelter_in", Value: k.ShelterIn, Unit: "in", Source: source.SnowShelter},
		},
		Sources: []source.ID{source.CrownCold, source.SnowShelter, source.CrownAir},
		Example: "tmax=12 tmin=-18 tmax_before=20 tmin_before=-6 snow=1",
		Run: func(c *method.Call) error {
			k := PublishedWinter()
			k.Colds = CrownColds{c.K("hurt"), c.K("kill"), c.K("mildest")}
			k.ShelterF, k.ShelterIn = c.K("shelter"), c.K("shelter_in")
			before := WinterDay{MaxF: math.NaN(), MinF: math.NaN()}
			if c.Given("tmax_before") && c.Given("tmin_before") {
				before = WinterDay{MaxF: c.Num("tmax_before"), MinF: c.Num("tmin_before")}
			} else {
				c.Note("the day before is not given: this day stands for both")
			}
			low, middle := k.CrownF(before, WinterDay{MaxF: c.Num("tmax"), MinF: c.Num("tmin"), SnowIn: c.Num("snow")})
			c.Answer("crown", middle)
			c.Answer("low", low)
			c.Answer("says", k.Says(middle))
			return nil
		},
	}
}
