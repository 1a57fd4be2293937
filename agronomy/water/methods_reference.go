package water

import (
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func ofPenman(p *Penman) []coefficient {
	return append(ofOrbit(&p.Orbit), []coefficient{
		{"vapour0", "kPa", &p.Vapour0},
		{"vapour_a", "", &p.VapourA},
		{"vapour_b", "C", &p.VapourB},
		{"slope", "C", &p.Slope},
		{"pressure0", "kPa", &p.Pressure0},
		{"kelvin0", "K", &p.Kelvin0},
		{"lapse", "K/m", &p.Lapse},
		{"power", "", &p.Power},
		{"psychro", "1/C", &p.Psychro},
		{"overcast", "", &p.Overcast},
		{"sunshine", "", &p.Sunshine},
		{"clear", "", &p.Clear},
		{"clear_by_m", "1/m", &p.ClearByM},
		{"range_k", "1/C^0.5", &p.RangeK},
		{"albedo", "", &p.Albedo},
		{"boltzmann", "MJ/K4/m2/d", &p.Boltzmann},
		{"kelvin", "K", &p.Kelvin},
		{"emit_a", "", &p.EmitA},
		{"emit_b", "1/kPa^0.5", &p.EmitB},
		{"cloud_a", "", &p.CloudA},
		{"cloud_b", "", &p.CloudB},
		{"evaporates", "mm/(MJ/m2)", &p.Evaporates},
		{"aero", "K mm s3/t/d", &p.Aero},
		{"aero_kelvin", "K", &p.AeroKelvin},
		{"resistance", "s/m", &p.Resistance},
		{"wind", "m/s", &p.Wind},
	}...)
}

func referenceET() *method.Method {
	p := FAO56()
	optional := func(key, about, symbol string, low, high float64) method.Input {
		return method.Input{Key: key, About: about, Unit: unit.Must(symbol), Accepted: method.Range{Low: low, High: high}, Optional: true}
	}
	inputs := []method.Input{
		latInput(),
		{Key: "elevation", About: "height above the sea", Unit: unit.Must("m"), Accepted: method.Range{Low: -430, High: 9000}},
		dayInput(),
	}
	inputs = append(inputs, extremeInputs()...)
	inputs = append(inputs,
		optional("rhmax", "highest relative humidity of the day", "%", 0, 100),
		optional("rhmin", "lowest relative humidity of the day; only together with rhmax", "%", 0, 100),
		optional("tdew", "mean dew point of the day; used before humidity", "C", -90, 60),
		optional("wind", "mean wind at 2 m; of wind at 10 m give 0.748 times", "m/s", 0, 60),
		optional("sunshine", "hours of bright sunshine", "h", 0, 24),
		optional("solar", "solar radiation of the day; used before sunshine", "MJ/m2/d", 0, 60),
		method.Input{Key: "clip", About: "low limit of Rs/Rso in the heat lost to the sky; 0 for none", Default: "0.3", Accepted: method.Range{Low: 0, High: 0.9}},
	)
	return &method.Method{
		Name: "reference-et", Title: "Reference evapotranspiration",
		About: "What a well-watered short grass uses in a day, by the Penman-Monteith equation of FAO Paper 56. " +
			"Times a crop's Kc it is what that crop uses. What is not given is told from temperature as the paper says; every stand-in is named in the answer.",
		Inputs: inputs,
		Outputs: []method.Output{
			{Key: "rs", About: "solar radiation", Unit: energyDay, Decimals: 2},
			{Key: "rn", About: "net radiation", Unit: energyDay, Decimals: 2},
			{Key: "eto", About: "reference evapotranspiration", Unit: depthDay, Decimals: 2},
		},
		Constants: declare(source.ReferenceET, ofPenman(&p)),
		Sources:   []source.ID{source.ReferenceET, source.ClipLow},
		Example:   "lat=43.07 elevation=262 day=172 tmax=27 tmin=15 rhmax=88 rhmin=52 wind=2.4 sunshine=11",
		Run:       runReferenceET,
	}
}

func runReferenceET(c *method.Call) error {
	day, err := whole(c, "day")
	if err != nil {
		return err
	}
	var p Penman
	take(c, ofPenman(&p))
	given := func(key string) float64 {
		if c.Given(key) {
			return c.Num(key)
		}
		return math.NaN()
	}
	w := Weather{
		Lat: unit.Degree(c.Num("lat")), Elevation: unit.Metre(c.Num("elevation")), YearDay: day,
		Tmax: unit.Celsius(c.Num("tmax")), Tmin: unit.Celsius(c.Num("tmin")),
		RHMax: unit.Percent(given("rhmax")), RHMin: unit.Percent(given("rhmin")), Tdew: unit.Celsius(given("tdew")),
		Wind: unit.MetreSec(given("wind")), Sunshine: unit.Hour(given("sunshine")), Solar: unit.MJm2Day(given("solar")),
	}
	clip := UsualClip()
	clip.Low = c.Num("clip")
	e, err := p.Estimate(w, clip)
	if err != nil {
		return err
	}
	c.Answer("rs", float64(e.Rs))
	c.Answer("rn", float64(e.Rn))
	c.Answer("eto", float64(e.ETo))
	noteStandIns(c, w, e)
	return noteConventions(c, p, w, e, clip)
}

// noteStandIns says what was told from something else, and what was given and not used.
func noteStandIns(c *method.Call, w Weather, e Estimate) {
	switch {
	case e.Vapour == FromLowestTemp:
		c.Note("no humidity is given: the dew point was taken to be tmin, good in a humid climate; in dry spells it lies 2 to 3 C lower (from memory) and eto is higher")
	case e.Vapour == FromHighestRH:
		c.Note("vapour pressure was told from rhmax alone")
	case e.Vapour == FromDewPoint && (known(float64(w.RHMax)) || known(float64(w.RHMin))):
		c.Note("vapour pressure was told from tdew: the humidities were not used")
	}
	switch {
	case e.Solar == FromTempRange:
		c.Note("radiation was told from the range of temperature with %g, for places inland; by a coast or a great lake %g holds", InlandRangeK, CoastRangeK)
	case e.Solar == FromMeasured && known(float64(w.Sunshine)):
		c.Note("solar was used as given: sunshine was not used")
	}
	if e.Rs > e.Rso && e.Rso > 0 {
		c.Note("solar radiation is above that of a clear sky, %.1f MJ/m2/d", e.Rso)
	}
	if e.WindFrom == FromUsual {
		c.Note("no wind is given: %g m/s at 2 m was taken", e.Wind)
	}
}

// noteConventions says what a disputed convention does to this answer.
func noteConventions(c *method.Call, p Penman, w Weather, e Estimate, clip Clip) error {
	if e.Clipped {
		without, err := p.Estimate(w, Clip{High: clip.High})
		if err != nil {
			return err
		}
		c.Note("disputed: Rs/Rso of %.2f was held at %g, the low limit; FAO Paper 56 prints none, the ASCE form 0.3. Without it eto is %.2f mm/d",
			float64(e.Rs)/max(float64(e.Rso), math.SmallestNonzeroFloat64), clip.Low, without.ETo)
	}
	if e.ETo < 0 {
		c.Note("below 0: dew falls, and the crop uses nothing")
	}
	return nil
}
