package soil

import (
	"fmt"
	"slices"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// TestClass is what a laboratory calls a test: its own edges decide, and go with its own extractant.
type TestClass string

// TestClasses lists them from least to most, as South Carolina's laboratory has them.
func TestClasses() []TestClass {
	return []TestClass{"low", "medium", "sufficient", "high", "excessive"}
}

// ClassTable is phosphate and potash for alfalfa in a year by the class of each test, lb an acre.
type ClassTable struct {
	P map[TestClass]float64
	K map[TestClass]float64
	// Odd is the phosphate that the print gives where phosphorus is low and potassium excessive, against the
	// pattern of its row: kept as it is printed.
	Odd float64
}

// PublishedClassTable returns South Carolina's. Source: [source.SoilClemson].
func PublishedClassTable() ClassTable {
	return ClassTable{
		P:   map[TestClass]float64{"low": 200, "medium": 100, "sufficient": 50, "high": 0, "excessive": 0},
		K:   map[TestClass]float64{"low": 300, "medium": 200, "sufficient": 100, "high": 50, "excessive": 0},
		Odd: 100,
	}
}

// Give is a year's phosphate and potash by the classes of both tests.
func (t ClassTable) Give(p, k TestClass) (p2o5, k2o unit.PoundAcre, err error) {
	for _, c := range []TestClass{p, k} {
		if !slices.Contains(TestClasses(), c) {
			return 0, 0, fmt.Errorf("no class of a soil test is called %q; accepted %v", c, TestClasses())
		}
	}
	if p == "low" && k == "excessive" {
		return unit.PoundAcre(t.Odd), unit.PoundAcre(t.K[k]), nil
	}
	return unit.PoundAcre(t.P[p]), unit.PoundAcre(t.K[k]), nil
}

// OlsenStep is phosphate for a ton of hay up to an Olsen test.
type OlsenStep struct {
	To        unit.PPMOlsen // 0: no end
	Low, High float64       // lb of P2O5 a ton of hay
}

// PublishedOlsenSteps returns Montana's, rising. The last two hold on calcareous silt loams of pH over 8.2
// only; elsewhere 18 ppm is enough. Source: [source.SoilMontana].
func PublishedOlsenSteps() []OlsenStep {
	return []OlsenStep{{8, 6, 10}, {18, 4, 8}, {24, 2, 4}, {0, 1, 2}}
}

// olsenEnough is the test over which only calcareous soils are given phosphate.
const olsenEnough = 18

// ByOlsen is the range of phosphate for a ton of hay at an Olsen test.
func ByOlsen(steps []OlsenStep, test unit.PPMOlsen, calcareous bool) (low, high float64) {
	if test > olsenEnough && !calcareous {
		return 0, 0
	}
	for _, s := range steps {
		if s.To == 0 || test <= s.To {
			return s.Low, s.High
		}
	}
	return 0, 0
}

func byClass() *method.Method {
	t, lb := PublishedClassTable(), unit.Must("lb/ac")
	constants := []method.Constant{{Key: "odd", Value: t.Odd, Unit: "lb/ac", Source: source.SoilClemson}}
	for _, c := range TestClasses() {
		why := ""
		if t.P[c] == 0 {
			why = "none, and a hundredth of none is none"
		}
		constants = append(constants, method.Constant{Key: "p_" + string(c), Value: t.P[c], Unit: "lb/ac", Source: source.SoilClemson, Exempt: why})
		if why = ""; t.K[c] == 0 {
			why = "none, and a hundredth of none is none"
		}
		constants = append(constants, method.Constant{Key: "k_" + string(c), Value: t.K[c], Unit: "lb/ac", Source: source.SoilClemson, Exempt: why})
	}
	return &method.Method{
		Name: "fertility-by-class", Title: "Phosphate and potash by class of the test",
		About: "What South Carolina's table gives alfalfa in a year by the classes its laboratory prints. Classes of another laboratory are not these: its edges and its extractant are others.",
		Inputs: []method.Input{
			{Key: "p", About: "class of phosphorus", Kind: method.Word, Choices: names(TestClasses())},
			{Key: "k", About: "class of potassium", Kind: method.Word, Choices: names(TestClasses())},
		},
		Outputs:   []method.Output{{Key: "p2o5", About: "phosphate to spread in a year", Unit: lb}, {Key: "k2o", About: "potash to spread in a year", Unit: lb}},
		Constants: constants,
		Sources:   []source.ID{source.SoilClemson, source.PotashTiming},
		Example:   "p=medium k=low",
		Run: func(c *method.Call) error {
			t := ClassTable{P: map[TestClass]float64{}, K: map[TestClass]float64{}, Odd: c.K("odd")}
			for _, class := range TestClasses() {
				t.P[class], t.K[class] = c.K("p_"+string(class)), c.K("k_"+string(class))
			}
			p, k := TestClass(c.Word("p")), TestClass(c.Word("k"))
			p2o5, k2o, err := t.Give(p, k)
			if err != nil {
				return err
			}
			if p == "low" && k == "excessive" {
				c.Note("the print gives 100 lb of phosphate here, and 200 in the rest of the row: kept as printed")
			}
			if k2o > 200 {
				c.Note("over 200 lb of potash a year split it, half after the first cut and half after the last")
			}
			c.Answer("p2o5", float64(p2o5))
			c.Answer("k2o", float64(k2o))
			return nil
		},
	}
}

func byOlsen() *method.Method {
	perTon := unit.Must("lb/ac")
	var constants []method.Constant
	for i, s := range PublishedOlsenSteps() {
		constants = append(constants,
			method.Constant{Key: fmt.Sprintf("low_%d", i), Value: s.Low, Unit: "lb/ton", Source: source.SoilMontana},
			method.Constant{Key: fmt.Sprintf("high_%d", i), Value: s.High, Unit: "lb/ton", Source: source.SoilMontana})
	}
	return &method.Method{
		Name: "phosphate-by-olsen", Title: "Phosphate by an Olsen test",
		About: "What Montana gives alfalfa for each ton of hay by the Olsen test, as a range. Over 18 ppm it gives none, but on calcareous silt loams of pH over 8.2.",
		Inputs: []method.Input{
			{Key: "p", About: "phosphorus by Olsen", Unit: unit.Must("ppm"), Accepted: method.Range{Low: 0, High: 200}, Tested: method.Range{Low: 2, High: 60}},
			{Key: "hay", About: "yield goal, hay as it is weighed", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.1, High: 17}, Tested: method.Range{Low: 1, High: 9}},
			{Key: "calcareous", About: "calcareous silt loam of pH over 8.2", Kind: method.Word, Choices: []string{"yes", "no"}, Default: "no"},
		},
		Outputs:   []method.Output{{Key: "low", About: "phosphate in a year, at least", Unit: perTon, Decimals: 0}, {Key: "high", About: "at most", Unit: perTon, Decimals: 0}},
		Constants: constants,
		Sources:   []source.ID{source.SoilMontana},
		Example:   "p=10 hay=4",
		Run: func(c *method.Call) error {
			steps := PublishedOlsenSteps()
			for i := range steps {
				steps[i].Low, steps[i].High = c.K(fmt.Sprintf("low_%d", i)), c.K(fmt.Sprintf("high_%d", i))
			}
			low, high := ByOlsen(steps, unit.PPMOlsen(c.Num("p")), c.Word("calcareous") == "yes")
			c.Answer("low", low*c.Num("hay"))
			c.Answer("high", high*c.Num("hay"))
			return nil
		},
	}
}
