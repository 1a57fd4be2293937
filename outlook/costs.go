package outlook

import (
	"math"
	"slices"

	"haywarden/agronomy/stand"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Costs are the lines of the stand's price deck that keeping it or ending it is weighed by.
type Costs struct {
	Decks         []string // each with its day
	Hay           float64  // a ton of dry matter at the stand's feed value, $
	Cutting       float64  // $/ac
	Fixed         float64  // a year, $/ac
	Establishment float64  // $/ac
	Rate          float64  // interest, a share a year
	Nitrogen      float64  // $/lb; NaN where none is entered
}

// hayDM is the dry matter of hay as it is priced.
const hayDM = 0.88

// Costs returns the stand's cost lines, and the names of those that are not entered: with any of them
// missing nothing is weighed in dollars.
func (s *Stand) Costs() (Costs, []string) {
	c := Costs{Nitrogen: math.NaN()}
	var lacks []string
	if p, ok := s.HayPrice(); ok {
		c.Hay, c.Decks = p.Ton(s.Target.FeedRFV)/hayDM, []string{deckSay(p.Deck, p.Day)}
	} else {
		lacks = append(lacks, book.HayBase)
	}
	for _, l := range []struct {
		name  string
		to    *float64
		scale float64
	}{{book.HarvestCost, &c.Cutting, 1}, {book.StandFixed, &c.Fixed, 1}, {book.Establishment, &c.Establishment, 1}, {book.Interest, &c.Rate, 0.01}, {book.Nitrogen, &c.Nitrogen, 1}} {
		v, ok := s.Lines[l.name]
		if !ok {
			if l.name != book.Nitrogen {
				lacks = append(lacks, l.name)
			}
			continue
		}
		*l.to = v.Value * l.scale
		if say := deckSay(v.Deck, v.Day); !slices.Contains(c.Decks, say) {
			c.Decks = append(c.Decks, say)
		}
	}
	return c, lacks
}

func deckSay(name string, d unit.Day) string { return name + ", of " + d.String() }

// costLines finds what keeping or ending a stand of a farm costs, each line in the deck that holds for it.
func (o *Outlook) costLines(f *book.FarmView) map[string]book.Priced {
	lines := map[string]book.Priced{}
	for _, name := range []string{book.HarvestCost, book.StandFixed, book.Establishment, book.Interest, book.Nitrogen} {
		if p, ok := o.View.Price(f, name); ok {
			lines[name] = p
		}
	}
	return lines
}

// Cuttings is how many cuts a year the stand gives: last year's as recorded, four where nobody wrote them
// down (choice).
func (s *Stand) Cuttings() int {
	n := 0
	for _, c := range s.Cuts {
		if c.Day.Year() == s.Date.Year()-1 {
			n = max(n+1, c.Body.Number)
		}
	}
	if n < 2 {
		return usualCuts
	}
	return n
}

const usualCuts = 4

// PlantsFt2 is the mean of this year's counted plants a square foot, NaN where none were counted.
func (s *Stand) PlantsFt2() float64 {
	var plants, ft2 float64
	for _, v := range s.Visits {
		if v.Day.Year() != s.Date.Year() {
			continue
		}
		for _, f := range v.Body.Frames {
			if f.Plants != nil {
				plants, ft2 = plants+float64(*f.Plants), ft2+f.Ft2
			}
		}
	}
	if ft2 == 0 {
		return math.NaN()
	}
	return plants / ft2
}

// Ended is the stand as nitrogen credits ask for it, ended now.
func (s *Stand) Ended() stand.Ended {
	return stand.Ended{Plants: s.PlantsFt2(), Share: 1 - s.Grass(), Regrown: math.NaN(), Clover: s.Judged() == Clover}
}
