package curing

import (
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/agronomy/water"
)

var cuts = []string{"first", "second", "later"}

func unconditionedRate() *method.Method {
	p := PublishedPlain()
	return &method.Method{
		Name: "unconditioned-rate", Title: "Drying rate without a conditioner",
		About: "What a crop mown without a conditioner keeps of the drying rate, which was fitted to conditioned crop. " +
			"The older rule, conditioning dries 15 to 25 % faster, stands beside it as the hopeful bound.",
		Inputs: []method.Input{
			{Key: "rate", About: "drying rate of the conditioned crop", Unit: perHour, Accepted: method.Range{Low: 0, High: 5}, Tested: method.Range{Low: 0, High: 0.5}},
			{Key: "cut", About: "cutting of the year", Kind: method.Word, Choices: cuts},
		},
		Outputs: []method.Output{
			{Key: "rate", About: "drying rate without a conditioner", Unit: perHour, Decimals: 5},
			{Key: "hopeful", About: "the same by the older rule", Unit: perHour, Decimals: 5},
		},
		Constants: []method.Constant{
			{Key: "first", Value: p.First, Source: source.Unconditioned},
			{Key: "second", Value: p.Second, Source: source.Unconditioned},
			{Key: "gain", Value: p.Gain, Source: source.ConditionGain},
		},
		Sources: []source.ID{source.Unconditioned, source.ConditionGain},
		Example: "rate=0.19517 cut=first",
		Run: func(c *method.Call) error {
			p := Plain{First: c.K("first"), Second: c.K("second"), Gain: c.K("gain")}
			factor, hopeful := p.Factor(map[string]int{"first": 1, "second": 2, "later": 3}[c.Word("cut")])
			c.Note("what a conditioner gains is disputed: the factors were read second-hand")
			c.Answer("rate", factor*c.Num("rate"))
			c.Answer("hopeful", hopeful*c.Num("rate"))
			return nil
		},
	}
}

func (d *Dew) coefficients() []coefficient {
	return []coefficient{{"base", "", &d.Base}, {"span", "", &d.Span}, {"wind", "s/m", &d.Wind}, {"air", "", &d.Air}}
}

func dewLimit() *method.Method {
	d := PublishedDew()
	return &method.Method{
		Name: "dew-limit", Title: "What a swath holds at night with its dew",
		About: "The most water a swath can hold between sunset and sunrise, dew on it included. An upper bound of what a night gives back, " +
			"not what hay takes up from the air: that is equilibrium-moisture.",
		Inputs: []method.Input{
			{Key: "rh", About: "relative humidity", Accepted: method.Range{Low: 0, High: 1}, Tested: method.Range{Low: 0.7, High: 1}},
			{Key: "wind", About: "wind", Unit: unit.Must("m/s"), Accepted: method.Range{Low: 0, High: 40}, Tested: method.Range{Low: 0, High: 10}},
		},
		Outputs:   []method.Output{{Key: "db", About: "water over dry matter", Decimals: 4}, {Key: "wb", About: "moisture, % of fresh weight", Unit: percent, Decimals: 1}},
		Constants: declare(source.DewLimit, d.coefficients()),
		Sources:   []source.ID{source.DewLimit},
		Example:   "rh=0.95 wind=1",
		Run: func(c *method.Call) error {
			var d Dew
			take(c, d.coefficients())
			db := d.DB(c.Num("rh"), c.Num("wind"))
			c.Note("the unit of wind was not seen in the source: m/s is assumed")
			c.Answer("db", db)
			c.Answer("wb", float64(unit.WaterDM(db).OfWet()))
			return nil
		},
	}
}

func swathRain() *method.Method {
	w := UsualWetting()
	return &method.Method{
		Name: "swath-rain", Title: "Moisture of a swath after rain",
		About: "What rain gives back to a swath. Thin swaths take up more. What rain takes away is rain-loss.",
		Inputs: []method.Input{
			{Key: "moisture", About: "moisture before, % of fresh weight", Unit: percent, Accepted: moisture, Tested: method.Range{Low: 10, High: 80}},
			{Key: "rain", About: "rain", Unit: unit.Must("mm"), Accepted: method.Range{Low: 0, High: 500}, Tested: method.Range{Low: 0, High: 50}},
			swathInput(),
		},
		Outputs: []method.Output{{Key: "db", About: "water over dry matter after it", Decimals: 3}, {Key: "wb", About: "moisture after it, % of fresh weight", Unit: percent, Decimals: 1}},
		Constants: []method.Constant{
			{Key: "full", Value: w.Full, Source: source.RainRewetting},
			{Key: "catch", Value: w.Catch, Unit: "g/m2/mm", Source: source.RainRewetting},
		},
		Sources: []source.ID{source.RainRewetting},
		Example: "moisture=50 rain=5 swath=571",
		Run: func(c *method.Call) error {
			w := Wetting{Full: c.K("full"), Catch: c.K("catch")}
			db := w.DB(float64(unit.PercentWet(c.Num("moisture")).OfDM()), c.Num("rain"), c.Num("swath"))
			c.Note("the coefficient is a choice of ours, to be moved where a farm's own swaths say so")
			c.Answer("db", db)
			c.Answer("wb", float64(unit.WaterDM(db).OfWet()))
			return nil
		},
	}
}

// runDays is how long swath-run repeats its day.
const runDays = 14

func swathRun() *method.Method {
	temperature := method.Range{Low: -40, High: 60}
	return &method.Method{
		Name: "swath-run", Title: "A swath through days alike",
		About: "How a swath dries hour by hour where one day's weather comes again and again without rain: the day of mowing by the hour, and when it comes to a moisture. " +
			"Hours are by the sun, noon being 12.",
		Inputs: []method.Input{
			{Key: "solar", About: "solar radiation of the day", Unit: unit.Must("MJ/m2/d"), Accepted: method.Range{Low: 0, High: 45}, Tested: method.Range{Low: 3, High: 32}},
			{Key: "daylength", About: "length of the day", Unit: hoursU, Accepted: method.Range{Low: 1, High: 23}, Tested: method.Range{Low: 9, High: 17}},
			{Key: "tmax", About: "highest temperature", Unit: celsius, Accepted: temperature, Tested: method.Range{Low: 10, High: 38}},
			{Key: "tmin", About: "lowest temperature", Unit: celsius, Accepted: temperature, Tested: method.Range{Low: 0, High: 25}},
			soilInput(), swathInput(),
			{Key: "mow", About: "hour of mowing by the sun, whole", Accepted: method.Range{Low: 0, High: 23}, Default: "10"},
			{Key: "from", About: "moisture at mowing, % of fresh weight", Unit: percent, Accepted: moisture, Tested: method.Range{Low: 70, High: 85}, Default: "80"},
			{Key: "to", About: "moisture wanted, % of fresh weight", Unit: percent, Accepted: moisture, Tested: method.Range{Low: 12, High: 70}},
			{Key: "scaling", About: "density: thick swaths slower than the equation alone has them", Kind: method.Word, Choices: []string{"density", "none"}, Default: "density"},
			{Key: "damp", About: "what the air gives back at night: to hay by its humidity and as dew that settles, by its humidity alone, as dew at most, or nothing", Kind: method.Word, Choices: damps, Default: string(DampFall)},
		},
		Outputs: []method.Output{
			{Key: "moisture", About: "moisture at the end of each hour of the day of mowing, % of fresh weight", Unit: percent, Decimals: 1},
			{Key: "rate", About: "drying rate in those hours", Unit: perHour, Decimals: 5},
			{Key: "hours", About: "hours from mowing until the moisture is reached", Unit: hoursU, Decimals: 1, Never: "not within 14 days"},
			{Key: "day", About: "day on which it is reached, the day of mowing being 1", Decimals: 0, Never: "none"},
			{Key: "hour", About: "hour by the sun at which it is reached", Unit: hoursU, Decimals: 1, Never: "none"},
		},
		Sources: []source.ID{source.DryingRate, source.DryingDensity, source.HayIsotherm, source.NightRegain, source.Dewfall, source.DewLimit, source.DayShape, source.CuringCrop},
		Example: "solar=23.2 daylength=15.2 tmax=27 tmin=15 soil_moisture=15 swath=571 to=18",
		Run:     runSwath,
	}
}

func runSwath(c *method.Call) error {
	x := water.Extremes{PrevMaxC: c.Num("tmax"), MinC: c.Num("tmin"), MaxC: c.Num("tmax"), NextMinC: c.Num("tmin")}
	ea := water.Vapour(unit.Celsius(x.MinC))
	made, err := water.HoursOf(water.DenverShape(), x, unit.MJm2Day(c.Num("solar")), ea, unit.Hour(c.Num("daylength")))
	if err != nil {
		return err
	}
	mow, err := whole(c, "mow")
	if err != nil {
		return err
	}
	s := UsualSwath()
	s.GM2, s.Scaled, s.Damp, s.MowHour = c.Num("swath"), c.Word("scaling") == "density", Damp(c.Word("damp")), mow
	s.FromDB = float64(unit.PercentWet(c.Num("from")).OfDM())
	run, err := NewCuring(s)
	if err != nil {
		return err
	}
	hours := make([]Hour, 24*runDays)
	for i := range hours {
		h := i % 24
		hours[i] = Hour{
			SolarW: made.SolarW[h], TempC: made.TempC[h], DeficitKPa: made.DeficitKP[h],
			RH: float64(ea) / (float64(ea) + made.DeficitKP[h]), SoilPct: c.Num("soil_moisture"),
		}
	}
	course, harvest := make([]float64, len(hours)), make([]Harvest, 1)
	target := Target{DB: float64(unit.PercentWet(c.Num("to")).OfDM()), To: 24}
	run.Run(hours, []Target{target}, course, harvest)
	var wet, rate []float64
	for i := mow; i < 24; i++ {
		wet = append(wet, float64(unit.WaterDM(course[i]).OfWet()))
		rate = append(rate, run.rate(&run.lies[0], &hours[i], i))
	}
	c.Answer("moisture", wet)
	c.Answer("rate", rate)
	ready, never := harvest[0].Ready, math.Inf(1)
	if math.IsNaN(ready) {
		c.Answer("hours", never)
		c.Answer("day", never)
		c.Answer("hour", never)
		return nil
	}
	c.Answer("hours", ready-float64(mow))
	c.Answer("day", math.Floor(ready/24)+1)
	c.Answer("hour", math.Mod(ready, 24))
	return nil
}

// whole reads an input that is counted.
func whole(c *method.Call, key string) (int, error) {
	v := c.Num(key)
	if v != math.Trunc(v) {
		return 0, fmt.Errorf("%s %g: accepted whole numbers", key, v)
	}
	return int(v), nil
}
