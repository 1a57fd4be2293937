package outlook

import (
	"cmp"
	"slices"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Taken is what the crop of a calendar year takes from an acre.
type Taken struct {
	Tons    unit.TonAcre // dry matter
	Weighed int          // cuts that were weighed
	Guessed int          // cuts that were not: their tons are shares of the year's yield
	Removed soil.Removed // lb an acre
	Book    soil.Book    // the printed table
	Own     int          // the stand's own forage tests that go before the table
}

// testsHold is for how many days a forage test of the stand says what its crops hold (choice).
const testsHold = 730

// SoilCrop is the stand's crop as tables of nutrients have it. Grass takes up potash as alfalfa does; a
// mixture goes by alfalfa's table (choice).
func (s *Stand) SoilCrop() soil.Crop {
	if s.Judged() == Clover {
		return soil.RedClover
	}
	return soil.Alfalfa
}

// RemovalBook names the printed table of removal that a state's advisers go by; the table of the
// North-Central region where the state has none in the program.
func RemovalBook(guide string, crop soil.Crop) string {
	name := map[string]string{
		"Wisconsin": "wisconsin", "Illinois": "illinois", "Iowa": "iowa", "Kentucky": "kentucky",
		"Ohio": "tri-state-2020", "Indiana": "tri-state-2020", "Michigan": "tri-state-2020",
	}[guide]
	if name == "" || !slices.Contains(soil.BookNames(crop), name) {
		return "ipni"
	}
	return name
}

// TakenIn is what the cuts of a calendar year, so far as they are in the book, took from an acre. Not ok
// where the stand was not cut in it, or a seeding year's cut was not weighed: its yield nobody can say.
func (s *Stand) TakenIn(year int, guide string) (Taken, bool) {
	var t Taken
	usual := len(s.cutShares())
	for _, c := range s.Cuts {
		if c.Day.Year() != year || c.Day > s.Date {
			continue
		}
		if w := c.Body.TonsDM; w != nil {
			t.Tons += unit.TonAcre(*w)
			t.Weighed++
			continue
		}
		if year <= s.Seeded.Year() {
			return Taken{}, false
		}
		t.Guessed++
		t.Tons += unit.TonAcre(s.Yield.Year * s.cutShares()[min(max(1, c.Body.Number), usual)-1])
	}
	if t.Weighed+t.Guessed == 0 {
		return Taken{}, false
	}
	return s.take(t, guide)
}

// YearTakes is what a year's yield takes from an acre.
func (s *Stand) YearTakes(guide string) (Taken, bool) {
	return s.take(Taken{Tons: unit.TonAcre(s.Yield.Year)}, guide)
}

// take fills in what tons hold, by the stand's own forage tests where it has them, else by the table.
func (s *Stand) take(t Taken, guide string) (Taken, bool) {
	crop := s.SoilCrop()
	name := RemovalBook(guide, crop)
	var err error
	if t.Removed, t.Book, err = soil.ByBook(name, crop, t.Tons); err != nil {
		return Taken{}, false
	}
	own, n := s.forageTests()
	if n == 0 {
		return t, true
	}
	t.Own = n
	t.Removed, err = soil.ByAnalysis(own, name, crop, t.Tons)
	return t, err == nil
}

// forageTests is the mean of what laboratories found in the stand's crops.
func (s *Stand) forageTests() (soil.Analysis, int) {
	var mean soil.Analysis
	n := map[string]int{}
	tests := 0
	for _, l := range s.Labs {
		if l.Day > s.Date || s.Date-l.Day > testsHold {
			continue
		}
		counted := false
		for _, v := range []struct {
			code string
			to   *float64
		}{{"p", &mean.P}, {"k", &mean.K}, {"s", &mean.S}, {"mg", &mean.Mg}, {"ca", &mean.Ca}} {
			if got, ok := l.Body.More[v.code]; ok {
				n[v.code]++
				*v.to += (got - *v.to) / float64(n[v.code])
				counted = counted || v.code == "p" || v.code == "k"
			}
		}
		if counted {
			tests++
		}
	}
	return mean, tests
}

// cutShares is how the year's yield falls on its cuts: four of alfalfa, three of red clover
// ([source.CutSharesUW]).
func (s *Stand) cutShares() []float64 {
	cuts := 4
	if s.Judged() == Clover {
		cuts = 3
	}
	for _, t := range budget.PublishedCutShares() {
		if t.By == "wisconsin" && len(t.Shares) == cuts {
			return t.Shares
		}
	}
	return []float64{1}
}

// LastCut is the newest cut of a stand; not ok where the book has none.
func (s *Stand) LastCut() (book.Dated[book.Cut], bool) {
	if len(s.Cuts) == 0 {
		return book.Dated[book.Cut]{}, false
	}
	return slices.MaxFunc(s.Cuts, func(a, b book.Dated[book.Cut]) int { return cmp.Compare(a.Day, b.Day) }), true
}
