package soil

import (
	"errors"
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Removed are pounds of each nutrient that leave with forage: an acre, or a ton.
type Removed struct{ P2O5, K2O, S, Mg, Ca, B float64 }

func (r Removed) times(v float64) Removed {
	return Removed{r.P2O5 * v, r.K2O * v, r.S * v, r.Mg * v, r.Ca * v, r.B * v}
}

// Plus adds two of them up.
func (r Removed) Plus(o Removed) Removed {
	return Removed{r.P2O5 + o.P2O5, r.K2O + o.K2O, r.S + o.S, r.Mg + o.Mg, r.Ca + o.Ca, r.B + o.B}
}

// Book is a printed table of what a ton takes away.
type Book struct {
	Name   string
	Crop   Crop
	PerTon Removed // lb; 0 where the table has none
	AsHay  bool    // a ton of hay at 12 % moisture; else of dry matter
	Source source.ID
}

// hayDM is the dry matter in a ton of hay, at the moisture at which hay is told of.
const hayDM = 0.88

// PublishedBooks returns the tables. They differ by half in potash and are asked by name.
func PublishedBooks() []Book {
	return []Book{
		{"tri-state-2020", Alfalfa, Removed{P2O5: 12, K2O: 49}, false, source.RemovalTriState},
		{"tri-state-1995", Alfalfa, Removed{P2O5: 13, K2O: 50}, false, source.RemovalTriState95},
		{"wisconsin", Alfalfa, Removed{P2O5: 13, K2O: 60}, false, source.RemovalWisconsin},
		{"illinois", Alfalfa, Removed{P2O5: 12, K2O: 50}, true, source.RemovalRecalled},
		{"iowa", Alfalfa, Removed{P2O5: 12.5, K2O: 40}, false, source.RemovalRecalled},
		{"ipni", Alfalfa, Removed{P2O5: 12, K2O: 49, S: 5.4, Mg: 5.4}, false, source.RemovalRecalled},
		{"ppi", Alfalfa, Removed{P2O5: 15, K2O: 60, S: 5, Mg: 5}, true, source.RemovalPPI},
		{"kentucky", Alfalfa, Removed{P2O5: 14, K2O: 55}, true, source.RemovalKentucky},
		{"ipni", RedClover, Removed{P2O5: 12, K2O: 42, S: 3}, false, source.RemovalRecalled},
	}
}

// minor are what no table of phosphate and potash has, lb a ton of dry matter; red clover's are recalled.
// Source: [source.RemovalMinor].
func minor(c Crop) Removed {
	if c == RedClover {
		return Removed{S: 4, Mg: 6, Ca: 27, B: 0.06}
	}
	return Removed{S: 5.4, Mg: 6, Ca: 30, B: 0.08}
}

// BookNames lists the books of a crop.
func BookNames(c Crop) (names []string) {
	for _, b := range PublishedBooks() {
		if b.Crop == c {
			names = append(names, b.Name)
		}
	}
	return names
}

// ByBook is what so many tons of dry matter an acre take away by a printed table.
func ByBook(name string, c Crop, yield unit.TonAcre) (Removed, Book, error) {
	for _, b := range PublishedBooks() {
		if b.Name != name || b.Crop != c {
			continue
		}
		per := b.PerTon
		if b.AsHay {
			per = per.times(1 / hayDM)
		}
		small := minor(c)
		for _, v := range []struct{ has, usual *float64 }{{&per.S, &small.S}, {&per.Mg, &small.Mg}, {&per.Ca, &small.Ca}, {&per.B, &small.B}} {
			if *v.has == 0 {
				*v.has = *v.usual
			}
		}
		return per.times(float64(yield)), b, nil
	}
	return Removed{}, Book{}, fmt.Errorf("no removal table for %s is called %q; accepted %v", c, name, BookNames(c))
}

// Analysis is a forage test: % of dry matter, boron in ppm; 0 where not tested.
type Analysis struct{ P, K, S, Mg, Ca, B float64 }

// Check says what is outside what forage holds.
func (a Analysis) Check() error {
	var errs []error
	for _, v := range []struct {
		name         string
		v, low, high float64
		unit         string
	}{{"P", a.P, 0.05, 0.8, "%"}, {"K", a.K, 0.3, 6, "%"}, {"S", a.S, 0.05, 0.8, "%"}, {"Mg", a.Mg, 0.05, 1, "%"}, {"Ca", a.Ca, 0.1, 3.5, "%"}, {"B", a.B, 2, 200, "ppm"}} {
		if v.v != 0 && !(v.v >= v.low && v.v <= v.high) {
			errs = append(errs, fmt.Errorf("%s %g: accepted %g to %g %s of dry matter", v.name, v.v, v.low, v.high, v.unit))
		}
	}
	return errors.Join(errs...)
}

// PerTon is what a ton of dry matter of that forage takes away, lb: 20 for each percent, in the oxides of
// the trade. Source: [source.RemovalAnalysis].
func (a Analysis) PerTon() Removed {
	return Removed{P2O5: 20 * P2O5PerP * a.P, K2O: 20 * K2OPerK * a.K, S: 20 * a.S, Mg: 20 * a.Mg, Ca: 20 * a.Ca, B: 0.002 * a.B}
}

// ByAnalysis is what a yield takes away by the farm's own test, and by a table for what was not tested.
func ByAnalysis(a Analysis, name string, c Crop, yield unit.TonAcre) (Removed, error) {
	if err := a.Check(); err != nil {
		return Removed{}, err
	}
	r, _, err := ByBook(name, c, yield)
	if err != nil {
		return Removed{}, err
	}
	own := a.PerTon().times(float64(yield))
	for _, v := range []struct{ to, own *float64 }{{&r.P2O5, &own.P2O5}, {&r.K2O, &own.K2O}, {&r.S, &own.S}, {&r.Mg, &own.Mg}, {&r.Ca, &own.Ca}, {&r.B, &own.B}} {
		if *v.own != 0 {
			*v.to = *v.own
		}
	}
	return r, nil
}

// Manure is a kind of manure by a printed book: pounds in a ton of solid or in 1,000 gal of liquid.
type Manure struct {
	Kind      string
	Liquid    bool
	P2O5, K2O float64
	Credit    bool // what is printed is already the first year's credit
	Source    source.ID
}

// PublishedManures returns the books.
func PublishedManures() []Manure {
	return []Manure{
		{"dairy-liquid", true, 15, 19, false, source.ManureMidwest},
		{"dairy-solid", false, 3, 6, false, source.ManureMidwest},
		{"dairy-liquid-pennsylvania", true, 13, 25, false, source.ManurePennsylv},
		{"dairy-solid-pennsylvania", false, 4, 8.3, false, source.ManurePennsylv},
		{"dairy-liquid-wisconsin", true, 8, 21, true, source.ManureWisconsin},
		{"dairy-solid-wisconsin", false, 3, 7, true, source.ManureWisconsin},
	}
}

// ManureKind finds a book value.
func ManureKind(kind string) (Manure, error) {
	var known []string
	for _, m := range PublishedManures() {
		if m.Kind == kind {
			return m, nil
		}
		known = append(known, m.Kind)
	}
	return Manure{}, fmt.Errorf("no manure is called %q; accepted %v", kind, known)
}

// Most manure that is spread on a growing stand at once, 1,000 gal or tons an acre. Source:
// [source.ManureTopdress].
const (
	MostLiquid = 4 // guides say 3 and 4
	MostSolid  = 10
)

// Credited is what a rate of manure brings an acre in the first year: tons an acre, or 1,000 gal. p2o5
// and k2o over 0 are a laboratory's, in pounds a unit, and go before the book's.
func (m Manure) Credited(rate, availability, p2o5, k2o float64) (p, k unit.PoundAcre, err error) {
	if !(rate >= 0 && rate <= 60) {
		return 0, 0, fmt.Errorf("%g units an acre: accepted 0 to 60 tons or 1,000 gal", rate)
	}
	if !(availability > 0 && availability <= 1) {
		return 0, 0, fmt.Errorf("availability %g: accepted over 0 to 1", availability)
	}
	printed := availability
	if m.Credit {
		printed = 1 // a credit is what is to be had already
	}
	lb := func(own, book float64) unit.PoundAcre {
		if own > 0 {
			return unit.PoundAcre(rate * own * availability)
		}
		return unit.PoundAcre(rate * book * printed)
	}
	return lb(p2o5, m.P2O5), lb(k2o, m.K2O), nil
}
