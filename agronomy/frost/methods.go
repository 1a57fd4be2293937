package frost

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"time"

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
	return []*method.Method{freezeDates(), frostHours(), fallRest()}
}

// The year of a date counts from 1 January; a fall freeze is looked for from 1 August, a spring freeze
// until 31 July, each a day later by number in a leap year.
const (
	fallStart  = 213
	springEnd  = 213
	yearsLeast = 10 // for a 10 or 90 % date, [source.FreezeYears]
	yearsGood  = 20
)

func freezeDates() *method.Method {
	return &method.Method{
		Name:  "freeze-dates",
		Title: "Freeze dates and their chances",
		About: "From the first fall or last spring freeze of past years, the day by which (fall) or after which (spring) a freeze comes with a chance. " +
			"A year without one counts as such. The threshold is whatever the dates were found with: say it beside every answer.",
		Inputs: []method.Input{
			{Key: "side", About: "first freeze of fall, or last freeze of spring", Kind: method.Word, Choices: []string{"spring", "fall"}},
			{Key: "days", About: "day of the year of each past year's freeze, none where it did not come", Kind: method.Days, Accepted: method.Range{Low: 1, High: 366}},
			{Key: "method", About: "how chances are read from the dates", Kind: method.Word, Choices: QuantileMethods(), Default: string(Weibull)},
			{Key: "chances", About: "chances asked for, as shares of years; in spring of a later freeze", Kind: method.Numbers, Accepted: method.Range{Low: 0.001, High: 0.999}, Default: "0.1,0.5,0.9"},
		},
		Outputs: []method.Output{
			{Key: "days", About: "day of the year for each chance", Decimals: 1, Never: "none"},
			{Key: "dates", About: "the same as dates of a year that is no leap year"},
			{Key: "q", About: "share of years that have the freeze", Decimals: 2},
		},
		Sources: []source.ID{source.FreezeFormula, source.FreezeMixed, source.FreezeYears},
		Example: "side=fall days=281,268,290,275,284,271,296,279,287,265 method=weibull chances=0.1,0.5,0.9",
		Run:     runFreezeDates,
	}
}

func runFreezeDates(c *method.Call) error {
	x, m, spring := c.List("days"), QuantileMethod(c.Word("method")), c.Word("side") == "spring"
	events := 0
	for _, d := range x {
		switch {
		case math.IsInf(d, 1):
			continue
		case spring && d > springEnd:
			return fmt.Errorf("days: %g is after 31 July; side=spring takes days 1 to %d", d, springEnd)
		case !spring && d < fallStart:
			return fmt.Errorf("days: %g is before 1 August; side=fall takes days %d to 366", d, fallStart)
		}
		events++
	}
	if m == Normal && events < 2 {
		return fmt.Errorf("method normal wants 2 years with a freeze at least, and %d given; use weibull", events)
	}
	ask := Quantile
	if spring {
		ask = QuantileLater
	}
	chances := c.List("chances")
	days, dates := make([]float64, len(chances)), make([]string, len(chances))
	for i, p := range chances {
		day, ok := ask(x, p, m)
		if !ok {
			day = math.Inf(1)
			c.Note("a freeze does not come in %g %% of the years given", 100*p)
		}
		days[i], dates[i] = day, dateText(day)
	}
	noteYears(c, len(x), chances)
	c.Answer("days", days)
	c.Answer("dates", dates)
	c.Answer("q", float64(events)/float64(len(x)))
	return nil
}

// noteYears says where the record is short for what was asked.
func noteYears(c *method.Call, years int, chances []float64) {
	extreme := slices.ContainsFunc(chances, func(p float64) bool { return p <= 0.1 || p >= 0.9 })
	switch {
	case years < yearsLeast && extreme:
		c.Note("%d years are too few for a 10 or 90 %% date: %d at least, 30 is the normal", years, yearsLeast)
	case years < yearsGood:
		c.Note("%d years: %d or more are better, 30 is the normal", years, yearsGood)
	}
}

// dateText names a day of a non-leap year, the half day going up; `none` where it does not come.
func dateText(day float64) string {
	if math.IsInf(day, 0) {
		return "none"
	}
	return time.Date(2023, time.January, int(math.Floor(day+0.5)), 0, 0, 0, 0, time.UTC).Format("Jan 2")
}

func frostHours() *method.Method {
	fahrenheit := unit.Must("F")
	measured := method.Range{Low: -90, High: 140}
	return &method.Method{
		Name:  "frost-hours",
		Title: "Hours of frost",
		About: "How long a day stood at or below a threshold, told from its lowest and highest temperature as a sine. " +
			"Alfalfa tops are killed from 24 F for 4 hours; which threshold holds is disputed, 28 F being the warmest in print.",
		Inputs: []method.Input{
			{Key: "tmin", About: "lowest temperature of the day", Unit: fahrenheit, Accepted: measured},
			{Key: "tmax", About: "highest temperature of the day", Unit: fahrenheit, Accepted: measured},
			{Key: "threshold", About: "temperature to count from downwards", Unit: fahrenheit, Accepted: measured},
		},
		Outputs: []method.Output{{Key: "hours", About: "hours at or below the threshold", Unit: unit.Must("h"), Decimals: 1}},
		Sources: []source.ID{source.FrostHours, source.KillingFreeze},
		Example: "tmin=21 tmax=46 threshold=24",
		Run: func(c *method.Call) error {
			tmin, tmax := c.Num("tmin"), c.Num("tmax")
			if tmax < tmin {
				return fmt.Errorf("tmax %g F is below tmin %g F: check which is which", tmax, tmin)
			}
			c.Answer("hours", HoursBelow(tmin, tmax, c.Num("threshold")))
			return nil
		},
	}
}

func fallRest() *method.Method {
	k := PublishedRest()
	return &method.Method{
		Name:  "fall-rest",
		Title: "Fall rest of alfalfa",
		About: "What past years say of cutting on a fall day: enough heat left until the killing freeze to refill the roots, too little to draw on them, or the risk between. " +
			"Heat is counted in C-days above 5 C from the day after the cut; 500 and 200 C-days are 900 and 360 F-days.",
		Inputs: []method.Input{
			{Key: "heat_after", About: "heat left after the day in each past year, base 5 C", Kind: method.Numbers, Unit: unit.Must("C-days"), Accepted: method.Range{Low: 0, High: 6000}},
		},
		Outputs: []method.Output{
			{Key: "chance_over_500", About: "share of years with enough heat left", Decimals: 2},
			{Key: "chance_under_200", About: "share of years with so little that roots are not drawn on", Decimals: 2},
			{Key: "risk", About: "share of years between the two", Decimals: 2},
		},
		Constants: []method.Constant{
			{Key: "enough", Value: k.Enough, Unit: "C-days", Source: source.FallRestHeat},
			{Key: "little", Value: k.Little, Unit: "C-days", Source: source.FallRestHeat},
		},
		Sources: []source.ID{source.FallRestHeat, source.FallRestRisk},
		Example: "heat_after=612,455,530,388,502,705,298,561,476,640,180,519",
		Run: func(c *method.Call) error {
			heatAfter := c.List("heat_after")
			r := RestRisk(heatAfter, c.K("enough"), c.K("little"))
			if len(heatAfter) < yearsLeast {
				c.Note("%d years are few: %d at least, 30 is the normal", len(heatAfter), yearsLeast)
			}
			c.Answer("chance_over_500", r.Over)
			c.Answer("chance_under_200", r.Under)
			c.Answer("risk", r.Between)
			return nil
		},
	}
}
