package unit

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Dimension is what a unit measures. Two units convert into each other when theirs are equal.
type Dimension string

// Unit is a unit as a user may write it. A value v in it is v*Scale+Offset in the dimension's base.
type Unit struct {
	Symbol    string
	Dimension Dimension
	Scale     float64
	Offset    float64
}

// None marks a number without a unit: a count, an index, a share.
var None = Unit{Symbol: "", Dimension: "number", Scale: 1}

const (
	pound = 0.45359237
	acre  = 4046.8564224
	ft2   = 0.09290304
	ton   = 2000 * pound

	cubicFoot = 0.3048 * 0.3048 * 0.3048
	mile      = 1609.344
)

// table is the one list of written units; its factors are exact.
var table = []Unit{
	None,
	{"mm", "length", 0.001, 0}, {"cm", "length", 0.01, 0}, {"m", "length", 1, 0},
	{"in", "length", 0.0254, 0}, {"ft", "length", 0.3048, 0}, {"mi", "length", mile, 0}, {"km", "length", 1000, 0},
	{"C", "temperature", 1, 0}, {"F", "temperature", 1 / 1.8, -32 / 1.8},
	{"C-days", "heat sum", 1, 0}, {"F-days", "heat sum", 1 / 1.8, 0},
	{"g", "mass", 0.001, 0}, {"kg", "mass", 1, 0}, {"lb", "mass", pound, 0}, {"ton", "mass", ton, 0}, {"tonne", "mass", 1000, 0},
	{"ft2", "area", ft2, 0}, {"m2", "area", 1, 0}, {"ac", "area", acre, 0}, {"ha", "area", 10000, 0},
	{"ft3", "volume", cubicFoot, 0}, {"m3", "volume", 1, 0}, {"lb/ft3", "density", pound / cubicFoot, 0}, {"kg/m3", "density", 1, 0}, {"tons/h", "mass by hours", ton, 0}, {"tonne/h", "mass by hours", 1000, 0},
	{"/ft2", "count by area", 1 / ft2, 0}, {"/m2", "count by area", 1, 0},
	{"tons/ac", "yield", ton / acre, 0}, {"t/ha", "yield", 0.1, 0}, {"kg/ha", "yield", 0.0001, 0}, {"lb/ac", "yield", pound / acre, 0}, {"g/m2", "yield", 0.001, 0},
	{"$/ton", "price by mass", 1 / ton, 0}, {"$/tonne", "price by mass", 0.001, 0}, {"$/lb", "price by mass", 1 / pound, 0},
	{"$/kg", "price by mass", 1, 0}, {"$/cwt", "price by mass", 1 / (100 * pound), 0},
	{"$/ac", "price by area", 1 / acre, 0}, {"$/ha", "price by area", 0.0001, 0},
	{"%", "percentage", 1, 0},
	{"days", "time", 1, 0}, {"weeks", "time", 7, 0}, {"h", "time", 1. / 24, 0}, {"yr", "years", 1, 0}, {"months", "years", 1. / 12, 0},
	{"deg", "angle", 1, 0},
	{"RFV", "feed value", 1, 0}, {"RFV/day", "feed value by time", 1, 0},
	{"%/day", "percentage by time", 1, 0}, {"/h", "rate", 1, 0},
	{"kg/day", "mass by time", 1, 0}, {"lb/day", "mass by time", pound, 0}, {"tons/yr", "mass by years", ton, 0},
	{"Mcal/day", "energy by time", 1, 0}, {"Mcal/kg", "energy by mass", 1, 0}, {"Mcal/lb", "energy by mass", 1 / pound, 0},
	{"$", "money", 1, 0}, {"$/h", "money by time", 1, 0}, {"$/yr", "money by years", 1, 0}, {"$/bu", "price by bushel", 1, 0},
	{"$/gal", "price by volume", 1, 0}, {"$/Mcal", "price by energy", 1, 0},
	{"mph", "speed", mile, 0}, {"km/h", "speed", 1000, 0}, {"ac/h", "area by time", acre, 0}, {"ha/h", "area by time", 10000, 0},
	{"hp", "power", 745.69987158227022, 0}, {"kW", "power", 1000, 0}, {"gal/h", "volume by time", 1, 0}, {"h/yr", "time by years", 1, 0},
	{"bu/ac", "yield in bushels", 1, 0}, {"ppm", "content", 1, 0}, {"meq/100g", "exchange capacity", 1, 0}, {"lb/unit", "content of manure", 1, 0},
	{"m/s", "speed", 3600, 0}, {"kPa", "pressure", 1, 0}, {"mm/d", "depth by time", 1, 0}, {"in/d", "depth by time", 25.4, 0},
	{"MJ/m2/d", "energy by area and time", 1, 0}, {"W/m2", "energy by area and time", 0.0864, 0},
}

// Lookup finds a unit by its written symbol.
func Lookup(symbol string) (Unit, bool) {
	i := slices.IndexFunc(table, func(u Unit) bool { return u.Symbol == symbol })
	if i < 0 {
		return Unit{}, false
	}
	return table[i], true
}

// Must finds a unit by its written symbol and panics where there is none: for declarations only.
func Must(symbol string) Unit {
	u, ok := Lookup(symbol)
	if !ok {
		panic("unit: no unit is written " + strconv.Quote(symbol))
	}
	return u
}

// Convert returns v, given in from, in to. Units of another dimension are an error.
func Convert(v float64, from, to Unit) (float64, error) {
	if from == to {
		return v, nil
	}
	if from.Dimension != to.Dimension {
		return 0, fmt.Errorf("%s measures %s, and %s is wanted", from.Symbol, from.Dimension, to.name())
	}
	return (v*from.Scale + from.Offset - to.Offset) / to.Scale, nil
}

// Parse reads a number that may carry its own unit ("71cm", "28 in", "1,400lb" is not accepted) and
// returns it in want.
func Parse(s string, want Unit) (float64, error) {
	s = strings.TrimSpace(s)
	n := len(s)
	for n > 0 {
		if v, err := strconv.ParseFloat(s[:n], 64); err == nil && plainNumber(s[:n]) {
			return inUnit(v, s, strings.TrimSpace(s[n:]), want)
		}
		n--
	}
	return 0, fmt.Errorf("%q is not a number", s)
}

func inUnit(v float64, whole, symbol string, want Unit) (float64, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a finite number", whole)
	}
	if symbol == "" {
		return v, nil
	}
	from, ok := Lookup(symbol)
	if !ok {
		return 0, fmt.Errorf("%q: no unit is written %q", whole, symbol)
	}
	return Convert(v, from, want)
}

// plainNumber keeps out the hexadecimal, underscored and worded forms that ParseFloat also reads.
func plainNumber(s string) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case c >= '0' && c <= '9', c == '.', c == '-', c == '+':
		case (c == 'e' || c == 'E') && i > 0:
		default:
			return false
		}
	}
	return true
}

func (u Unit) name() string {
	if u.Symbol == "" {
		return "a number without a unit"
	}
	return fmt.Sprintf("%s (%s)", u.Dimension, u.Symbol)
}
