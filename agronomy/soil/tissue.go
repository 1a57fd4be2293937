package soil

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/source"
)

// Element is what a tissue test finds.
type Element string

// Elements lists what is interpreted, in the order it is told.
func Elements() []Element {
	return []Element{"n", "p", "k", "ca", "mg", "s", "b", "mn", "fe", "cu", "zn", "mo"}
}

// PPM reports whether the element is told in ppm; else in % of dry matter.
func (e Element) PPM() bool { return slices.Contains(Elements()[6:], e) }

// Sufficiency is a printed table: the range of each element that is enough, as low and high; a high of 0
// says none is printed.
type Sufficiency struct {
	Name   string
	When   string // what is sampled, and when
	Ranges map[Element][2]float64
	Source source.ID
}

// PublishedSufficiency returns the tables of alfalfa. Their lower edges disagree, so they are never merged:
// each is told by its name.
func PublishedSufficiency() []Sufficiency {
	return []Sufficiency{
		{"georgia", "top 4 to 6 in at first bloom", map[Element][2]float64{
			"n": {3.00, 5.00}, "p": {0.25, 0.70}, "k": {2.00, 3.50}, "ca": {0.80, 3.00}, "mg": {0.25, 1.00}, "s": {0.25, 0.50}, "b": {30, 0},
		}, source.TissueGeorgia},
		{"alberta", "top 15 cm at 5 % bloom", map[Element][2]float64{
			"n": {3.0, 5.0}, "p": {0.20, 0.70}, "k": {1.70, 3.80}, "ca": {0.25, 3.0}, "mg": {0.20, 1.0}, "s": {0.20, 0.50}, "b": {20, 80},
			"mn": {20, 200}, "fe": {20, 250}, "cu": {5, 30},
		}, source.TissueAlberta},
		{"tri-state", "before first flower", map[Element][2]float64{
			"n": {3.76, 5.50}, "p": {0.26, 0.70}, "k": {2.01, 3.50}, "ca": {1.76, 3.00}, "mg": {0.31, 1.00}, "s": {0.31, 0.50}, "b": {31, 80},
			"mn": {31, 100}, "fe": {31, 250}, "cu": {11, 30}, "zn": {21, 70}, "mo": {1, 5},
		}, source.TissueTriState},
	}
}

// Judged is what the tables say of one value.
type Judged struct {
	Element Element
	Value   float64
	Tables  []string // `georgia 0.25 to 0.70: low`
	Class   string   // low, enough, high where all agree; else `low by tri-state, else enough`
	Low     bool     // by every table that has the element
	Remedy  string
}

// Interpret tells what each value is by each table. An impossible value is an error.
func Interpret(values map[Element]float64) ([]Judged, error) {
	var out []Judged
	for e := range values {
		if !slices.Contains(Elements(), e) {
			return nil, fmt.Errorf("no element is called %q; accepted %v", e, Elements())
		}
	}
	for _, e := range Elements() {
		v, ok := values[e]
		if !ok {
			continue
		}
		most, unitName := 10.0, "%"
		if e.PPM() {
			most, unitName = 2000, "ppm"
		}
		if !(v >= 0 && v <= most) || math.IsNaN(v) {
			return nil, fmt.Errorf("%s %g: accepted 0 to %g %s", e, v, most, unitName)
		}
		out = append(out, judge(e, v))
	}
	return out, nil
}

func judge(e Element, v float64) Judged {
	j := Judged{Element: e, Value: v}
	by := map[string][]string{}
	for _, t := range PublishedSufficiency() {
		r, ok := t.Ranges[e]
		if !ok {
			continue
		}
		class, text := "enough", fmt.Sprintf("%g to %g", r[0], r[1])
		if r[1] == 0 {
			text = fmt.Sprintf("%g and more", r[0])
		}
		switch {
		case v < r[0]:
			class = "low"
		case r[1] > 0 && v > r[1]:
			class = "high"
		}
		by[class] = append(by[class], t.Name)
		j.Tables = append(j.Tables, fmt.Sprintf("%s %s: %s", t.Name, text, class))
	}
	switch {
	case len(by) == 1:
		for class := range by {
			j.Class = class
		}
	case len(by["low"]) > 0:
		j.Class = "low by " + strings.Join(by["low"], " and ") + ", else enough"
	default:
		j.Class = "high by " + strings.Join(by["high"], " and ") + ", else enough"
	}
	j.Low = len(by) == 1 && len(by["low"]) > 0
	j.Remedy = remedy(e, v, j)
	return j
}

// The sulfur under which sulfur pays, % of dry matter, and what is given then, lb/ac.
// Source: [source.TissueSulfur].
const (
	SulfurCritical = 0.25
	SulfurRate     = 25
)

// SulfurRatio is the nitrogen to sulfur over which sulfur is wanting. Source: [source.TissueSulfurRatio].
const SulfurRatio = 11

// remedy is what is done about a value, by Georgia's page for P and K, by the published rules for S and B.
func remedy(e Element, v float64, j Judged) string {
	switch {
	case e == "s" && v < SulfurCritical:
		return fmt.Sprintf("%d lb of sulfate sulfur an acre, whatever it lacks; elemental sulfur takes a year", SulfurRate)
	case e == "mo":
		return "never lime and molybdenum together; liming mostly cures a want, and too much harms cattle: ask before any is put on"
	case !j.Low:
		return "none"
	}
	switch e {
	case "p":
		return "75 to 100 lb of P2O5 an acre"
	case "k":
		return "100 to 200 lb of K2O an acre by the cuts that are left; split where more"
	case "b":
		return "2 lb of boron an acre broadcast with the topdressing, 4 at most, never beside seed"
	case "mg":
		return "dolomitic stone where lime is due, else sulfate of potash-magnesia"
	case "ca":
		return "test the soil's pH: lime brings calcium"
	case "n":
		return "look at pH and nodules: a stand that nodulates wants no nitrogen"
	}
	return "test the soil's pH and ask for a second sample: no rate is in print here"
}
