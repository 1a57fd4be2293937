package climate

import (
	_ "embed"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{fillNeighbour(), fillDistance(), fillRain(), likeness(), blend(), rainGamma(), trend(), shareInterval()}
}

func fillNeighbour() *method.Method {
	return &method.Method{
		Name: "fill-neighbour", Title: "A missing value from a neighbour",
		About:   "Fits a straight line to days on which two stations both reported, and gives the station's value from the neighbour's. Trusted from 20 paired days and a correlation of 0.9.",
		Inputs:  []method.Input{{Key: "x", About: "the neighbour's values", Kind: method.Numbers}, {Key: "y", About: "the station's values on the same days", Kind: method.Numbers}, {Key: "at", About: "the neighbour's value on the missing day"}},
		Outputs: []method.Output{{Key: "value", About: "the station's value", Decimals: 2}, {Key: "slope", About: "of the line", Decimals: 4}, {Key: "intercept", About: "of the line", Decimals: 4}, {Key: "r", About: "correlation", Decimals: 4}},
		Sources: []source.ID{source.GapFilling}, Example: "x=10.2,12.5,15.1,18 y=9.1,11.8,14,17.2 at=14",
		Run: func(c *method.Call) error {
			x, y := c.List("x"), c.List("y")
			if err := sameLength("x", "y", x, y); err != nil {
				return err
			}
			l := Regress(x, y)
			if math.IsNaN(l.R) {
				return errNoLine
			}
			c.Answer("value", l.At(c.Num("at")))
			c.Answer("slope", l.B)
			c.Answer("intercept", l.A)
			c.Answer("r", l.R)
			if l.N < 20 || math.Abs(l.R) < 0.9 {
				c.Note("%d paired days and r %.3f: fewer than 20 days or r under 0.9 is not used to fill a record", l.N, l.R)
			}
			return nil
		},
	}
}

func fillDistance() *method.Method {
	return &method.Method{
		Name: "fill-distance", Title: "A missing value from several neighbours",
		About:   "The mean of the neighbours' values, each weighed by one over its distance squared.",
		Inputs:  []method.Input{{Key: "distance", About: "of each neighbour, in any one unit", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 5000}}, {Key: "values", About: "of each neighbour", Kind: method.Numbers}},
		Outputs: []method.Output{{Key: "value", About: "the station's value", Decimals: 2}},
		Sources: []source.ID{source.GapFilling}, Example: "distance=12,25,40 values=12,8,15",
		Run: func(c *method.Call) error {
			if err := sameLength("distance", "values", c.List("distance"), c.List("values")); err != nil {
				return err
			}
			c.Answer("value", InverseDistance(c.List("distance"), c.List("values")))
			return nil
		},
	}
}

func fillRain() *method.Method {
	positive := method.Range{Low: 1, High: 20000}
	return &method.Method{
		Name: "fill-rain", Title: "A missing day's rain from neighbours",
		About:   "Each neighbour's rain scaled by the ratio of the yearly normals, and the mean of those. Rain is never filled from other days.",
		Inputs:  []method.Input{{Key: "normal", About: "the station's own yearly rain", Unit: unit.Must("mm"), Accepted: positive}, {Key: "normals", About: "the neighbours' yearly rain", Kind: method.Numbers, Unit: unit.Must("mm"), Accepted: positive}, {Key: "amounts", About: "the neighbours' rain of the day", Kind: method.Numbers, Unit: unit.Must("mm"), Accepted: method.Range{Low: 0, High: 1000}}},
		Outputs: []method.Output{{Key: "rain", About: "the station's rain of the day", Unit: unit.Must("mm"), Decimals: 1}},
		Sources: []source.ID{source.GapFilling}, Example: "normal=900 normals=850,950,1000 amounts=12,8,15",
		Run: func(c *method.Call) error {
			if err := sameLength("normals", "amounts", c.List("normals"), c.List("amounts")); err != nil {
				return err
			}
			c.Answer("rain", NormalRatio(c.Num("normal"), c.List("normals"), c.List("amounts")))
			return nil
		},
	}
}

func likeness() *method.Method {
	return &method.Method{
		Name: "likeness", Title: "How like this season past years were",
		About:   "Weighs past years by their heat and rain to date. The weights add up to 1.",
		Inputs:  []method.Input{{Key: "heat", About: "each past year's heat to date, above or below usual", Kind: method.Numbers}, {Key: "rain", About: "each past year's rain of the last 30 days, above or below usual", Kind: method.Numbers}, {Key: "heat_now", About: "this year's"}, {Key: "rain_now", About: "this year's"}, {Key: "heat_width", About: "how far heat may differ", Default: "40", Accepted: method.Range{Low: 0.1, High: 10000}}, {Key: "rain_width", About: "how far rain may differ", Default: "30", Accepted: method.Range{Low: 0.1, High: 10000}}},
		Outputs: []method.Output{{Key: "weights", About: "of each past year", Decimals: 4}, {Key: "effective", About: "years that count", Decimals: 2}},
		Sources: []source.ID{source.LikenessWeights}, Example: "heat=40,-20,10,80,0 rain=10,30,-15,60,5 heat_now=15 rain_now=0",
		Run: func(c *method.Call) error {
			h, r := c.List("heat"), c.List("rain")
			if err := sameLength("heat", "rain", h, r); err != nil {
				return err
			}
			rows := make([][]float64, len(h))
			for i := range h {
				rows[i] = []float64{h[i], r[i]}
			}
			w := Likeness(rows, []float64{c.Num("heat_now"), c.Num("rain_now")}, []float64{c.Num("heat_width"), c.Num("rain_width")})
			c.Answer("weights", w)
			c.Answer("effective", EffectiveSize(w))
			return nil
		},
	}
}

func blend() *method.Method {
	degree := unit.Must("C")
	spread := method.Range{Low: 0.01, High: 30}
	return &method.Method{
		Name: "blend-forecast", Title: "A temperature between forecast and climate",
		About:   "Weighs a forecast by its error against the climate by its spread.",
		Inputs:  []method.Input{{Key: "forecast", About: "temperature forecast", Unit: degree}, {Key: "error", About: "standard deviation of the forecast's error, C", Accepted: spread}, {Key: "mean", About: "the climate's mean of the day", Unit: degree}, {Key: "spread", About: "standard deviation of the climate, C", Accepted: spread}},
		Outputs: []method.Output{{Key: "mean", About: "blended temperature", Unit: degree, Decimals: 1}, {Key: "sd", About: "its standard deviation, C", Decimals: 2}, {Key: "weight", About: "of the forecast", Decimals: 2}},
		Sources: []source.ID{source.ForecastBlend}, Example: "forecast=28 error=2 mean=24 spread=4",
		Run: func(c *method.Call) error {
			b := Blend(c.Num("forecast"), c.Num("error"), c.Num("mean"), c.Num("spread"))
			c.Answer("mean", b.Mean)
			c.Answer("sd", b.SD)
			c.Answer("weight", b.Weight)
			return nil
		},
	}
}

func rainGamma() *method.Method {
	return &method.Method{
		Name: "rain-gamma", Title: "The distribution of a wet day's rain",
		About:   "Fits a gamma distribution to the rain of wet days by Thom's estimate.",
		Inputs:  []method.Input{{Key: "amounts", About: "rain of wet days", Kind: method.Numbers, Unit: unit.Must("mm"), Accepted: method.Range{Low: 0.01, High: 1000}}},
		Outputs: []method.Output{{Key: "alpha", About: "shape", Decimals: 4}, {Key: "beta", About: "scale", Unit: unit.Must("mm"), Decimals: 3}},
		Sources: []source.ID{source.Generator}, Example: "amounts=2,5.3,0.8,12.7,3.1,25.4",
		Run: func(c *method.Call) error {
			g := FitGamma(c.List("amounts"))
			if math.IsNaN(g.Alpha) {
				return errNoGamma
			}
			c.Answer("alpha", g.Alpha)
			c.Answer("beta", g.Beta)
			return nil
		},
	}
}

func trend() *method.Method {
	return &method.Method{
		Name: "trend", Title: "The steady change of a record",
		About:   "The middle of all slopes between two years, and the Mann-Kendall test of whether there is a change at all.",
		Inputs:  []method.Input{{Key: "years", About: "years of the values", Kind: method.Numbers}, {Key: "values", About: "a value a year", Kind: method.Numbers}},
		Outputs: []method.Output{{Key: "slope", About: "change a year", Decimals: 4}, {Key: "s", About: "rises less falls"}, {Key: "z", About: "standard score", Decimals: 3}, {Key: "p", About: "chance of such a score without a change", Decimals: 4}},
		Sources: []source.ID{source.TrendTest}, Example: "years=2001,2002,2003,2004,2005 values=3.1,3.0,3.4,3.3,3.6",
		Run: func(c *method.Call) error {
			if err := sameLength("years", "values", c.List("years"), c.List("values")); err != nil {
				return err
			}
			if err := eachYearOnce(c.List("years")); err != nil {
				return err
			}
			t := FitTrend(c.List("years"), c.List("values"))
			if math.IsNaN(t.Slope) {
				return errNoTrend
			}
			c.Answer("slope", t.Slope)
			c.Answer("s", t.S)
			c.Answer("z", t.Z)
			c.Answer("p", t.P)
			return nil
		},
	}
}

func shareInterval() *method.Method {
	count := method.Range{Low: 0, High: 1e6}
	return &method.Method{
		Name: "share-interval", Title: "How sure a share is",
		About:   "The 95 % interval of a share of k in n, such as how often a window held.",
		Inputs:  []method.Input{{Key: "k", About: "how often", Accepted: count}, {Key: "n", About: "of how many", Accepted: count}},
		Outputs: []method.Output{{Key: "share", About: "k of n", Decimals: 3}, {Key: "lo95", About: "lower end", Decimals: 3}, {Key: "hi95", About: "upper end", Decimals: 3}},
		Sources: []source.ID{source.WilsonInterval}, Example: "k=7 n=40",
		Run: func(c *method.Call) error {
			k, n := int(c.Num("k")), int(c.Num("n"))
			if n < 1 || k > n {
				return errNoShare
			}
			low, high := Wilson(k, n)
			c.Answer("share", float64(k)/float64(n))
			c.Answer("lo95", low)
			c.Answer("hi95", high)
			return nil
		},
	}
}
