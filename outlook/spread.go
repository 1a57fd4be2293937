package outlook

import (
	"fmt"
	"slices"
	"time"

	"haywarden/agronomy/blend"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// manureToHave is how much of manure's phosphate and potash is to be had in the first year
// ([source.ManureMidwest] prints 70 to 90 %).
const manureToHave = 0.8

// Given is what an application of fertilizer or manure brought an acre: by its own analysis, else by the
// usual one of a material known by its name.
func Given(a book.Application) (soil.Removed, error) {
	switch a.Class {
	case book.ManureSpread:
		return manured(a)
	case book.FertilizerSpread:
	default:
		return soil.Removed{}, nil
	}
	lb, ok := a.Pounds()
	if !ok {
		return soil.Removed{}, fmt.Errorf("%s: %s cannot be weighed", a.Material, a.Unit)
	}
	share := func(code string) float64 { return a.Analysis[code] / 100 }
	if len(a.Analysis) == 0 {
		all := blend.PublishedMaterials()
		i := slices.IndexFunc(all, func(m blend.Material) bool { return m.ID == a.Material })
		if i < 0 {
			return soil.Removed{}, fmt.Errorf("%s: no analysis was given, and it is no material the program knows", a.Material)
		}
		share = func(code string) float64 { return all[i].Share(blend.Nutrient(code)) }
	}
	return soil.Removed{P2O5: lb * share("p2o5"), K2O: lb * share("k2o"), S: lb * share("s"), Mg: lb * share("mg"), Ca: lb * share("ca"), B: lb * share("b")}, nil
}

// manured is what manure brings in its first year.
func manured(a book.Application) (soil.Removed, error) {
	rate := a.Rate
	switch a.Unit {
	case book.GallonsAcre:
		rate /= 1000
	case book.PoundsAcre:
		rate /= 2000
	case book.TonsAcre:
	}
	m, err := soil.ManureKind(a.Material)
	if err != nil && (a.Analysis["p2o5"] == 0 || a.Analysis["k2o"] == 0) {
		return soil.Removed{}, err
	}
	p, k, err := m.Credited(rate, manureToHave, a.Analysis["p2o5"], a.Analysis["k2o"])
	return soil.Removed{P2O5: float64(p), K2O: float64(k)}, err
}

// SpreadOn is what was spread on a stand's field in a time.
type SpreadOn struct {
	Given   soil.Removed // lb an acre
	Times   int
	Unknown []string // what could not be reckoned, and why
}

// SpreadBetween is what fertilizer and manure brought the field from one day to another.
func (s *Stand) SpreadBetween(from, to unit.Day) (out SpreadOn) {
	for _, a := range s.InField.Applications {
		if a.Day < from || a.Day > to || a.Body.Class == book.LimeSpread {
			continue
		}
		g, err := Given(a.Body)
		if err != nil {
			out.Unknown = append(out.Unknown, err.Error())
			continue
		}
		out.Times++
		out.Given = out.Given.Plus(g)
	}
	return out
}

// SeasonFrom is the day from which what was spread counts for this year's crop: that of last year's last
// cut; the first of October before where it was not cut.
func (s *Stand) SeasonFrom() unit.Day {
	from := unit.DateOf(s.Date.Year()-1, time.October, 1)
	for _, c := range s.Cuts {
		if c.Day.Year() == s.Date.Year()-1 {
			from = c.Day
		}
	}
	return from
}

// Ledger sums what the years since a day of this stand's life took from the field and gave to it. Not ok
// where the day is before the stand was seeded, for nobody knows what grew there and took what, or where no
// cut since can be reckoned.
func (o *Outlook) Ledger(s *Stand, from unit.Day) (soil.Ledger, bool) {
	if from < s.Seeded {
		return soil.Ledger{}, false
	}
	g := o.GuidesOf(s)
	var years []soil.YearOf
	took := false
	for year := from.Year(); year <= s.Date.Year(); year++ {
		y := soil.YearOf{Year: year}
		first, last := max(unit.DateOf(year, time.January, 1), from), min(unit.DateOf(year, time.December, 31), s.Date)
		if t, ok := s.TakenBetween(first, last, g.Removal); ok {
			y.Tons, y.Removed, took = t.Tons, t.Removed, true
		}
		y.Given = s.SpreadBetween(first, last).Given
		years = append(years, y)
	}
	var cec unit.MeqSoil
	if t := s.SoilFound(); t != nil {
		cec = t.CEC
	}
	return soil.Reckon(years, g.Fertility, cec), took
}
