package outlook

import (
	"slices"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/stand"
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

// regionTable has every crop.
const regionTable = "ipni"

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

// SoilCrop is the crop that is planned as tables of nutrients have it.
func (p *Planned) SoilCrop() soil.Crop {
	if p.Plan.Body.Crop == book.RedClover {
		return soil.RedClover
	}
	return soil.Alfalfa
}

// TakenBetween is what the cuts from one day to another, so far as they are in the book, took from an acre,
// by a table of removal; where it has none of the crop, by the North-Central region's. Not ok where the
// stand was not cut in that time, or a seeding year's cut was not weighed: its yield nobody can say.
func (s *Stand) TakenBetween(from, to unit.Day, table string) (Taken, bool) {
	var t Taken
	shares := s.cutShares()
	for _, c := range s.Cuts {
		year := c.Day.Year()
		if c.Day < from || c.Day > min(to, s.Date) {
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
		t.Tons += unit.TonAcre(s.yieldIn(year) * shares[min(max(1, c.Body.Number), len(shares))-1])
	}
	if t.Weighed+t.Guessed == 0 {
		return Taken{}, false
	}
	return s.take(t, table)
}

// yieldIn is the yield of a production year, tons of dry matter an acre: this year's, brought to the
// stand's age then.
func (s *Stand) yieldIn(year int) float64 {
	if s.Judged() == Clover {
		return s.Yield.Year
	}
	then, now := max(1, year-s.Seeded.Year()), max(1, s.Year)
	return s.Yield.Year * stand.YieldByAge(then) / stand.YieldByAge(now)
}

// YearTakes is what a year's yield takes from an acre.
func (s *Stand) YearTakes(table string) (Taken, bool) {
	return s.take(Taken{Tons: unit.TonAcre(s.Yield.Year)}, table)
}

// take fills in what tons hold, by the stand's own forage tests where it has them, else by the table.
func (s *Stand) take(t Taken, table string) (Taken, bool) {
	crop := s.SoilCrop()
	if !slices.Contains(soil.BookNames(crop), table) {
		table = regionTable
	}
	var err error
	if t.Removed, t.Book, err = soil.ByBook(table, crop, t.Tons); err != nil {
		return Taken{}, false
	}
	own, n := s.forageTests()
	if n == 0 {
		return t, true
	}
	t.Own = n
	t.Removed, err = soil.ByAnalysis(own, table, crop, t.Tons)
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

// UsualCuts is how many cuts a year a stand usually gives: four of alfalfa, three of red clover.
func (s *Stand) UsualCuts() int { return len(s.cutShares()) }

// LastCut is the newest cut of this year; not ok where it has not been cut.
func (s *Stand) LastCut() (book.Dated[book.Cut], bool) {
	for _, c := range slices.Backward(s.Cuts) {
		if c.Day <= s.Date && c.Day.Year() == s.Date.Year() {
			return c, true
		}
	}
	return book.Dated[book.Cut]{}, false
}
