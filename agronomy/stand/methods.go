package stand

import (
	_ "embed"

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
	return []*method.Method{stemCount(), plantCount(), crownRating(), winterInjury(), winterPoints(), nitrogenCredit(), emergencyForage(), cloverYear(), crownTemperature()}
}

func stemConstants() []method.Constant {
	k := PublishedStems()
	const whole = "a whole number of frames and a choice: 1 % does not move it"
	return []method.Constant{
		{Key: "full", Value: k.Full, Unit: "stems/ft2", Source: source.StemClasses},
		{Key: "replace", Value: k.Replace, Unit: "stems/ft2", Source: source.StemClasses},
		{Key: "slope", Value: k.Slope, Unit: "tons/ac a stem/ft2", Source: source.StemYield},
		{Key: "intercept", Value: k.Intercept, Unit: "tons/ac", Source: source.StemYield},
		{Key: "half_width", Value: k.HalfWidth, Source: source.StemFrames},
		{Key: "acres_a_frame", Value: k.Acres, Unit: "ac", Source: source.StemFrames},
		{Key: "least_frames", Value: float64(k.Least), Source: source.StemFrames, Exempt: whole},
		{Key: "most_frames", Value: float64(k.Most), Source: source.StemFrames, Exempt: whole},
	}
}

func stemScaleOf(c *method.Call) StemScale {
	return StemScale{
		Full: c.K("full"), Replace: c.K("replace"), Slope: c.K("slope"), Intercept: c.K("intercept"),
		HalfWidth: c.K("half_width"), Acres: c.K("acres_a_frame"), Least: int(c.K("least_frames")), Most: int(c.K("most_frames")),
	}
}

func stemCount() *method.Method {
	const whenSpread = "with two frames or more"
	perFt2 := unit.Must("/ft2")
	return &method.Method{
		Name:  "stem-count",
		Title: "Stem count of a stand",
		About: "From stems counted in frames at 4-6 in of growth, those the mower would take: the density with its 95 % interval, what it can yield, and how many frames are still wanted. " +
			"For established alfalfa; stands under a year old are judged by plants, and red clover by this only as a hint.",
		Inputs: []method.Input{
			{Key: "counts", About: "stems counted in each frame", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 2000}},
			{Key: "frame", About: "size of the frame; a 17 in square or a 19 in ring is 2 ft2", Unit: unit.Must("ft2"), Accepted: method.Range{Low: 0.25, High: 20}, Tested: method.Range{Low: 1, High: 4}, Default: "2"},
			{Key: "acres", About: "size of the field", Unit: unit.Must("ac"), Accepted: method.Range{Low: 0.1, High: 2000}},
		},
		Outputs: []method.Output{
			{Key: "mean", About: "stems a square foot", Unit: perFt2, Decimals: 1},
			{Key: "lo95", About: "low end of the 95 % interval", Unit: perFt2, Decimals: 1, When: whenSpread},
			{Key: "hi95", About: "high end", Unit: perFt2, Decimals: 1, When: whenSpread},
			{Key: "cv", About: "spread between frames as a share of the mean", Decimals: 2, When: whenSpread + " and a stem in one"},
			{Key: "chance_below_40", About: "chance that the field is under 40, time to replace", Decimals: 2, When: whenSpread},
			{Key: "chance_below_55", About: "chance that the field is under 55, full yield", Decimals: 2, When: whenSpread},
			{Key: "class", About: "what the density means"},
			{Key: "yield_potential", About: "dry matter a year that the stems can carry, age apart", Unit: unit.Must("tons/ac"), Decimals: 2},
			{Key: "more_frames", About: "frames still to throw for an interval of 15 % either way, 20 at most in all"},
		},
		Constants: stemConstants(),
		Sources:   []source.ID{source.StemClasses, source.StemYield, source.StemProtocol, source.StemFrames, source.StudentT, source.SampleSize},
		Example:   "counts=96,72,110,82,60,88,104,76 acres=30",
		Run:       runStemCount,
	}
}

func runStemCount(c *method.Call) error {
	counts := c.List("counts")
	perFt2 := make([]float64, len(counts))
	for i, n := range counts {
		perFt2[i] = n / c.Num("frame")
	}
	s, err := stemScaleOf(c).Assess(perFt2, c.Num("acres"))
	if err != nil {
		return err
	}
	c.Answer("mean", s.Mean)
	if s.Known() {
		c.Answer("lo95", s.Low)
		c.Answer("hi95", s.High)
		c.Answer("chance_below_40", s.ChanceBelow40)
		c.Answer("chance_below_55", s.ChanceBelow55)
		if s.Mean > 0 {
			c.Answer("cv", s.CV)
		}
	}
	c.Answer("class", string(s.Class))
	c.Answer("yield_potential", s.YieldPotential)
	c.Answer("more_frames", s.MoreFrames)
	switch {
	case !s.Known():
		c.Note("one frame gives a mean without an interval: throw %d more", s.MoreFrames)
	case s.Low < 0:
		c.Note("the interval reaches below 0: the frames differ too much for so few")
	}
	if s.Known() && s.N < s.FieldFrames {
		c.Note("a field of %g acres wants %d frames at least, and %d were thrown", c.Num("acres"), s.FieldFrames, s.N)
	}
	return nil
}
