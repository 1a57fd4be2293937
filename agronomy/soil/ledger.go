package soil

import (
	"errors"
	"fmt"

	"haywarden/agronomy/unit"
)

// YearOf is what one year took from an acre and gave to it, lb.
type YearOf struct {
	Year    int
	Tons    unit.TonAcre // of dry matter taken
	Removed Removed
	Given   Removed
}

// Balance is what the year left over, lb an acre: under 0 it was drawn from the soil.
func (y YearOf) Balance() (p2o5, k2o float64) {
	return y.Given.P2O5 - y.Removed.P2O5, y.Given.K2O - y.Removed.K2O
}

// Buffering is how many pounds of oxide move a test by one ppm. Sources: [source.SoilIllinois] (9 and 4 for
// a lb an acre, which is half a ppm), [source.SoilTriStateRest] (5 a ppm and year over 4 years; potash
// by capacity).
type Buffering struct{ P2O5, K2O float64 }

// BufferingOf returns a guide's. Only Illinois and both Tri-State guides print one.
func BufferingOf(guide FertilityGuide, cec unit.MeqSoil) (Buffering, error) {
	t := PublishedFertilityTables()
	switch guide {
	case Illinois:
		return Buffering{t.Illinois.PerP * PerPPM, t.Illinois.PerK * PerPPM}, nil
	case TriState2020, TriState1995:
		if cec == 0 {
			return Buffering{}, errors.New("what moves the potassium test by a ppm goes by the exchange capacity, which was not given")
		}
		const years = 4
		return Buffering{t.New.PerP * years, years * (1 + t.New.PerK*float64(cec))}, nil
	default:
		return Buffering{}, fmt.Errorf("the %s guide prints no pounds for a ppm of test", guide)
	}
}

// Ledger sums years, and how far the tests ought to have moved since the first of them, ppm: an estimate
// that only a new test settles.
type Ledger struct {
	Years           []YearOf
	Removed, Given  Removed
	MovedP, MovedK  float64
	MovementUnknown string // why MovedP and MovedK are not said
}

// Reckon sums years. Where a guide prints no buffering the movement is unknown, and why is said.
func Reckon(years []YearOf, guide FertilityGuide, cec unit.MeqSoil) Ledger {
	l := Ledger{Years: years}
	for _, y := range years {
		l.Removed, l.Given = l.Removed.Plus(y.Removed), l.Given.Plus(y.Given)
	}
	b, err := BufferingOf(guide, cec)
	if err != nil {
		l.MovementUnknown = err.Error()
		return l
	}
	l.MovedP = (l.Given.P2O5 - l.Removed.P2O5) / b.P2O5
	l.MovedK = (l.Given.K2O - l.Removed.K2O) / b.K2O
	return l
}

// PlanYear is one year of a build-up: what is given and what the test then ought to be.
type PlanYear struct {
	Year      int // 1 is the first
	P2O5, K2O unit.PoundAcre
	P, K      float64 // test at its end, in the guide's own unit of ppm
}

// Plan is a guide followed for years: each year gives what it asks at the test as it ought to stand, removal
// taken by the same yield. It is nil with an error where the guide prints no buffering.
func (t FertilityTables) Plan(guide FertilityGuide, f Fertility, x Extraction, years int) ([]PlanYear, error) {
	if years < 1 || years > 12 {
		return nil, fmt.Errorf("%d years: accepted 1 to 12", years)
	}
	b, err := BufferingOf(guide, f.CEC)
	if err != nil {
		return nil, err
	}
	removedP, removedK := t.New.RemovalP, t.New.RemovalK
	if guide == Illinois {
		removedP, removedK = t.Illinois.RemovalP, t.Illinois.RemovalK
	} else if guide == TriState1995 {
		removedP, removedK = t.Old.RemovalP, t.Old.RemovalK
	}
	var out []PlanYear
	for year := 1; year <= years; year++ {
		a, err := t.Give(guide, f, x)
		if err != nil {
			return nil, err
		}
		dp := (float64(a.P2O5) - removedP*float64(f.Yield)) / b.P2O5
		dk := (float64(a.K2O) - removedK*float64(f.Yield)) / b.K2O
		f = f.moved(guide, x, dp, dk)
		p, k := f.tests(guide, x)
		out = append(out, PlanYear{Year: year, P2O5: a.P2O5, K2O: a.K2O, P: p, K: k})
	}
	return out, nil
}

// moved is the field with its tests moved by so many ppm in the guide's extractants.
func (f Fertility) moved(guide FertilityGuide, x Extraction, dp, dk float64) Fertility {
	p, k := f.tests(guide, x)
	p, k = max(0, p+dp), max(0, k+dk)
	if guide == TriState2020 {
		mp, mk := unit.PPMM3P(p), unit.PPMM3K(k)
		f.P, f.K = Phosphorus{Mehlich3: &mp}, Potassium{Mehlich3: &mk}
		return f
	}
	bp, ak := unit.PPMBray(p), unit.PPMAcetate(k)
	f.P, f.K = Phosphorus{Bray: &bp}, Potassium{Acetate: &ak}
	return f
}

// tests are the field's tests in the guide's extractants, ppm.
func (f Fertility) tests(guide FertilityGuide, x Extraction) (p, k float64) {
	if guide == TriState2020 {
		mp, _, _ := f.P.AsMehlich3(x)
		mk, _ := f.K.AsMehlich3(x)
		return float64(mp), float64(mk)
	}
	bp, _, _ := f.P.AsBray(x)
	ak, _ := f.K.AsAcetate(x)
	return float64(bp), float64(ak)
}
