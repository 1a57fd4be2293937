package heat

import (
	_ "embed"
	"fmt"

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
	return []*method.Method{degreeDays()}
}

func degreeDays() *method.Method {
	// Wider than any temperature measured in North America, so that a slip of units is caught.
	measured := method.Range{Low: -90, High: 140}
	fahrenheit := unit.Must("F")
	temperature := func(key, about string, kind method.Kind) method.Input {
		return method.Input{Key: key, About: about, Kind: kind, Unit: fahrenheit, UnitFrom: "unit", Accepted: measured}
	}
	upper := temperature("upper", "upper threshold, where development stops gaining; none unless given", method.Number)
	upper.Optional = true
	return &method.Method{
		Name:  "degree-days",
		Title: "Degree-days",
		About: "Heat above a base temperature, day by day and summed. In a cool spring the methods differ by half: " +
			"look an event up with the method, base and start date it was published with. " +
			"No daily method equals hourly readings, and 32 is never subtracted from a sum.",
		Inputs: []method.Input{
			{Key: "method", About: "how a day's heat is told from its lowest and highest temperature", Kind: method.Word, Choices: MethodNames()},
			{Key: "unit", About: "unit of every temperature here", Kind: method.Word, Choices: []string{"F", "C"}},
			temperature("tmin", "lowest temperature of each day; the double methods take one value more, the morning after", method.Numbers),
			temperature("tmax", "highest temperature of each day", method.Numbers),
			temperature("base", "lower threshold; 41 F for first growth, 48 F for alfalfa weevil", method.Number),
			upper,
			{Key: "cutoff", About: "what happens above upper", Kind: method.Word, Choices: CutoffNames(), Default: Horizontal.String()},
		},
		Outputs: []method.Output{
			{Key: "daily", About: "heat of each day", Unit: unit.Must("F-days"), Decimals: 1},
			{Key: "total", About: "their sum", Unit: unit.Must("F-days"), Decimals: 1},
		},
		Sources: []source.ID{source.HeatMethods, source.HeatCutoffs, source.SineHeat},
		Example: "method=sine unit=F tmin=40,38,45 tmax=60,61,72 base=48",
		Run:     runDegreeDays,
	}
}

func runDegreeDays(c *method.Call) error {
	s := Spec{Base: c.Num("base"), Upper: NoUpper()}
	var err error
	if s.Method, err = ParseMethod(c.Word("method")); err != nil {
		return err
	}
	if s.Cutoff, err = ParseCutoff(c.Word("cutoff")); err != nil {
		return err
	}
	if c.Given("upper") {
		s.Upper = c.Num("upper")
		if s.Method == Average {
			c.Note("the simple average has no upper threshold: upper was not used")
		}
	}
	tmin, tmax := c.List("tmin"), c.List("tmax")
	daily, err := s.Days(tmin, tmax)
	if err != nil {
		return err
	}
	if s.Method.Double() && len(tmin) == len(tmax) {
		c.Note("the last day's own lowest temperature stands in for the next morning's; give one more tmin to use that")
	}
	var total float64
	for _, dd := range daily {
		total += dd
	}
	inUnit, ok := unit.Lookup(c.Word("unit") + "-days")
	if !ok {
		return fmt.Errorf("unit %q; accepted: F, C", c.Word("unit"))
	}
	c.AnswerIn("daily", daily, inUnit)
	c.AnswerIn("total", total, inUnit)
	return nil
}
