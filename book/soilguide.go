package book

import (
	"errors"
	"fmt"
	"slices"
)

// SoilGuides says whose published tables a farm, or the whole book, goes by. An empty one is not chosen. The
// names are the tables' own.
type SoilGuides struct {
	Lime      string `json:"lime,omitempty"`      // lime requirement
	Fertility string `json:"fertility,omitempty"` // phosphorus and potassium
	Removal   string `json:"removal,omitempty"`   // what a ton of forage takes away
	Supply    string `json:"supply,omitempty"`    // phosphorus supply of the subsoil, for one guide: low, medium, high
}

// Kind says what the body is.
func (SoilGuides) Kind() Kind { return KindSoilGuides }

// Check implements [Body].
func (b SoilGuides) Check() error {
	if b == (SoilGuides{}) {
		return errors.New("no guide is chosen: lime, fertility, removal or supply wanted")
	}
	if b.Supply != "" {
		return oneOf("supply", b.Supply, []string{"low", "medium", "high"})
	}
	return nil
}

// Over returns the guides with what these leave open taken from others.
func (b SoilGuides) Over(o SoilGuides) SoilGuides {
	for _, v := range []struct{ own, other *string }{{&b.Lime, &o.Lime}, {&b.Fertility, &o.Fertility}, {&b.Removal, &o.Removal}, {&b.Supply, &o.Supply}} {
		if *v.own == "" {
			*v.own = *v.other
		}
	}
	return b
}

// GuideTable is a table of a printed guide that the program does not hold, typed in by a user from the
// print. Given anew for a guide and use it takes the place of what was typed before. Just one of Lines,
// Chart and Classes is filled.
type GuideTable struct {
	Guide   string      `json:"guide"`              // wisconsin, illinois ...
	Edition string      `json:"edition"`            // which print it was typed from
	Basis   string      `json:"basis,omitempty"`    // of what material lime is told
	DepthIn float64     `json:"depth_in,omitempty"` // that lime is told for
	Lines   []LimeLine  `json:"lines,omitempty"`    // lime by buffer and water pH
	Chart   *LimeChart  `json:"chart,omitempty"`    // lime by class of soil and water pH
	Classes []TestClass `json:"classes,omitempty"`  // of a soil test
}

// LimeLine is tons an acre of lime to reach a target pH: A - B x buffer pH - C x water pH.
type LimeLine struct {
	Target float64 `json:"target"`
	A      float64 `json:"a"`
	B      float64 `json:"b"`
	C      float64 `json:"c"`
}

// LimeChart is tons an acre by class of soil and water pH.
type LimeChart struct {
	Classes []string    `json:"classes"`
	PH      []float64   `json:"ph"`   // rising
	Tons    [][]float64 `json:"tons"` // by class, then by pH
}

// TestClass is what a guide calls a test between two values.
type TestClass struct {
	Crop     Crop       `json:"crop"`
	Soil     string     `json:"soil,omitempty"` // loamy, sandy ...; empty for all
	Nutrient string     `json:"nutrient"`       // p, k
	By       Extractant `json:"by"`
	Class    string     `json:"class"` // low, optimum, high ...
	From     float64    `json:"from"`  // ppm
	To       float64    `json:"to"`    // ppm
}

// The uses of a guide's table.
const (
	LimeLines   = "lime-lines"
	LimeCharted = "lime-chart"
	TestClasses = "test-classes"
)

// Use says what the table is for.
func (b GuideTable) Use() string {
	switch {
	case len(b.Lines) > 0:
		return LimeLines
	case b.Chart != nil:
		return LimeCharted
	default:
		return TestClasses
	}
}

// Kind says what the body is.
func (GuideTable) Kind() Kind { return KindGuideTable }

// Check implements [Body].
func (b GuideTable) Check() error {
	errs := []error{named("guide", b.Guide), named("edition of the printed guide", b.Edition)}
	filled := 0
	for _, has := range []bool{len(b.Lines) > 0, b.Chart != nil, len(b.Classes) > 0} {
		if has {
			filled++
		}
	}
	if filled != 1 {
		errs = append(errs, errors.New("a guide's table holds lime lines, a lime chart or classes of a test, and just one of them"))
	}
	if b.DepthIn != 0 {
		errs = append(errs, within("depth", b.DepthIn, 1, 12, "inches"))
	}
	for i, l := range b.Lines {
		errs = append(errs, within("target", l.Target, 5, 7.5, "pH"), within("a", l.A, -500, 500, ""), within("b", l.B, -100, 100, ""), within("c", l.C, -100, 100, ""))
		if slices.ContainsFunc(b.Lines[:i], func(o LimeLine) bool { return o.Target == l.Target }) {
			errs = append(errs, fmt.Errorf("target %g is given twice", l.Target))
		}
	}
	if b.Chart != nil {
		errs = append(errs, b.Chart.check())
	}
	for _, c := range b.Classes {
		errs = append(errs, c.check())
	}
	return errors.Join(errs...)
}

func (c LimeChart) check() error {
	if len(c.Classes) == 0 || len(c.PH) < 2 || len(c.Tons) != len(c.Classes) {
		return errors.New("a lime chart wants classes of soil, at least two values of pH, and tons for each")
	}
	var errs []error
	for i, ph := range c.PH {
		errs = append(errs, within("ph", ph, 3, 9, ""))
		if i > 0 && ph <= c.PH[i-1] {
			errs = append(errs, fmt.Errorf("ph %g after %g: wanted rising", ph, c.PH[i-1]))
		}
	}
	for i, row := range c.Tons {
		if len(row) != len(c.PH) {
			errs = append(errs, fmt.Errorf("class %s has tons for %d values of pH, and the chart has %d", c.Classes[i], len(row), len(c.PH)))
			continue
		}
		for j, t := range row {
			errs = append(errs, within("tons", t, 0, 20, "tons an acre"))
			if j > 0 && t > row[j-1] {
				errs = append(errs, fmt.Errorf("class %s takes %g tons at pH %g and more, %g, at pH %g: check the chart", c.Classes[i], row[j-1], c.PH[j-1], t, c.PH[j]))
			}
		}
	}
	return errors.Join(errs...)
}

func (c TestClass) check() error {
	by := PExtractants()
	if c.Nutrient == "k" {
		by = KExtractants()
	}
	errs := []error{
		oneOf("crop", c.Crop, Crops()), oneOf("nutrient", c.Nutrient, []string{"p", "k"}), oneOf("extractant", c.By, by), named("class", c.Class),
		within("from", c.From, 0, 3000, ppmSoil), within("to", c.To, 0, 3000, ppmSoil),
	}
	if c.To < c.From {
		errs = append(errs, fmt.Errorf("class %s runs from %g down to %g ppm", c.Class, c.From, c.To))
	}
	return errors.Join(errs...)
}

// Put adds a cell to a chart that is told class by class at rising pH, all classes at the values of the
// first; false where it does not follow so.
func (c *LimeChart) Put(class string, ph, tons float64) bool {
	last := len(c.Classes) - 1
	row := &c.Tons[last]
	if class != c.Classes[last] {
		if slices.Contains(c.Classes, class) || len(*row) != len(c.PH) || ph != c.PH[0] {
			return false
		}
		c.Classes, c.Tons = append(c.Classes, class), append(c.Tons, []float64{tons})
		return true
	}
	switch at := len(*row); {
	case last == 0:
		c.PH = append(c.PH, ph)
	case at >= len(c.PH) || c.PH[at] != ph:
		return false
	}
	*row = append(*row, tons)
	return true
}
