package outlook

import (
	"fmt"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/stick"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// BasisLab is a laboratory's result of a sample of the standing crop.
const BasisLab = "laboratory"

const (
	labNDF       = 1.5        // least error of a laboratory's NDF, % of DM, [source.LabErrors]
	pairedWithin = 7          // days by which a reading may precede the sample it is paired with (choice)
	standingLot  = "standing" // the sample of a crop before it is cut
)

// tested is what laboratories found of standing crops that had been read, and what follows for readings
// to come.
type tested struct {
	pairs      []forage.Pair
	witnessed  []forage.Witnessed // first growth of this year: stick, heat and laboratory
	reconciled forage.Reconciled
	shared     forage.SharedErrors
}

// learn holds the stick against the laboratory, for every stand that has both.
func (o *Outlook) learn() (*tested, error) {
	t := &tested{}
	for _, s := range o.Stands {
		for _, l := range s.Labs {
			p, growth, ok, err := s.pair(l)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", s.Named(), err)
			}
			if !ok {
				continue
			}
			t.pairs = append(t.pairs, p)
			if s.Sky == nil || growth != 1 || l.Day.Year() != s.Date.Year() {
				continue
			}
			if heat, _, within := forage.HeatNDF(s.Sky.Heat41.On(l.Day)); within {
				t.witnessed = append(t.witnessed, forage.Witnessed{First: p.Predicted, Second: heat, Lab: p.Lab})
			}
		}
	}
	t.reconciled = forage.Reconcile(t.pairs, forage.PublishedDifferences())
	t.shared = forage.ErrorsShared(t.witnessed, labNDF, stickHeatCorr)
	o.Reconciled, o.Shared = t.reconciled, t.shared
	return t, nil
}

// pair finds the stick reading that a sample of the standing crop is held against, brought to the day of
// the sample. Not ok where there is none shortly before it in the same growth, or the stick does not hold.
func (s *Stand) pair(l book.Dated[book.Lab]) (p forage.Pair, growth int, ok bool, err error) {
	if l.Body.Sample != standingLot || s.Judged() != PureAlfalfa || l.Day >= s.Date || l.Day.Year() == s.Seeded.Year() {
		return p, 0, false, nil
	}
	for _, v := range slices.Backward(s.Visits) {
		if v.Day > l.Day || len(v.Body.Spots) == 0 {
			continue
		}
		growth = 1
		for _, c := range s.Cuts {
			if c.Day.Year() == v.Day.Year() && c.Day < v.Day {
				growth++
			}
		}
		if l.Day-v.Day > pairedWithin || s.cutBetween(v.Day, l.Day) || growth > 2 || s.Frosted != nil && v.Day.Year() == s.Date.Year() {
			return p, 0, false, nil
		}
		readings := make([]stick.Reading, len(v.Body.Spots))
		for i, sp := range v.Body.Spots {
			readings[i] = stick.Reading{Height: unit.Inch(sp.HeightIn), Stage: stick.Stage(sp.Stage)}
		}
		f, err := stick.Published().Field(readings, growth)
		if err != nil {
			return p, 0, false, fmt.Errorf("stick reading of %s: %w", v.Day, err)
		}
		q := s.carried(forage.Quality{NDF: f.NDF, ADF: f.ADF}, v.Day, l.Day, seasonOf(growth))
		p = forage.Pair{Lots: forage.Lots{Farm: s.Farm.ID, Cutting: growth, Product: standingLot}, ID: l.ID, Predicted: q.NDF, Lab: l.Body.NDF}
		return p, growth, true, nil
	}
	return p, 0, false, nil
}

// carried brings a quality from one day to another by the days' own temperatures.
func (s *Stand) carried(q forage.Quality, from, to unit.Day, season forage.Season) forage.Quality {
	for d := from; d < to; d++ {
		t, known := s.meanOn(d)
		if !known {
			q = forage.Ahead(q, 1, season, nil)
			continue
		}
		q = forage.Ahead(q, 1, season, &t)
	}
	return q
}

// ownLab is the newest result of a sample of this growth as it stands.
func (s *Stand) ownLab() (book.Dated[book.Lab], bool) {
	for _, l := range slices.Backward(s.Labs) {
		if l.Body.Sample == standingLot && s.Growth.Holds(l.Day) && l.Day < s.Date && s.Date-l.Day <= stickLasts {
			return l, true
		}
	}
	return book.Dated[book.Lab]{}, false
}

// fromLab carries a sample of the standing crop to this morning.
func (s *Stand) fromLab(season forage.Season) (Basis, float64, bool) {
	l, ok := s.ownLab()
	if !ok {
		return Basis{}, 0, false
	}
	q := s.carried(forage.Quality{NDF: l.Body.NDF, ADF: l.Body.ADF}, l.Day, s.Date, season)
	return Basis{Name: BasisLab, Day: l.Day, NDF: q.NDF, SD: aged(labNDF, s.Date-l.Day), N: 1}, q.ADF, true
}

// correction is what earlier results of this farm's cutting add to its readings. A result of the very
// growth that is judged stands beside the reading instead, and is left out here: it would count twice.
func (s *Stand) correction(t *tested) *forage.Correction {
	k := forage.PublishedDifferences()
	lots := forage.Lots{Farm: s.Farm.ID, Cutting: s.Growth.Number, Product: standingLot}
	c := t.reconciled.For(lots, k)
	if c.N == 0 {
		return nil
	}
	if own, ok := s.ownLab(); ok {
		others := slices.DeleteFunc(slices.Clone(t.pairs), func(p forage.Pair) bool { return p.ID == own.ID || p.Lots != lots })
		if c = forage.Reconcile(others, k).For(lots, k); c.N == 0 {
			return nil
		}
	}
	return &c
}
