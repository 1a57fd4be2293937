package soil

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/unit"
)

// FertilityGuide is whose table says how much phosphate and potash a crop is given.
type FertilityGuide string

// The guides.
const (
	Illinois     FertilityGuide = "illinois"
	TriState2020 FertilityGuide = "tri-state-2020"
	TriState1995 FertilityGuide = "tri-state-1995"
	Minnesota    FertilityGuide = "minnesota"
	Wisconsin    FertilityGuide = "wisconsin"
)

// FertilityGuides lists them.
func FertilityGuides() []FertilityGuide {
	return []FertilityGuide{Illinois, TriState2020, TriState1995, Minnesota, Wisconsin}
}

// Crop is what a guide's table is for.
type Crop string

// The crops.
const (
	Alfalfa   Crop = "alfalfa"
	RedClover Crop = "red-clover"
)

// Region is how much phosphorus Illinois' subsoils give.
type Region string

// The regions.
const (
	HighSupply   Region = "high"
	MediumSupply Region = "medium"
	LowSupply    Region = "low"
)

// Fertility is what a guide asks of a field's test.
type Fertility struct {
	Crop   Crop
	P      Phosphorus
	K      Potassium
	CEC    unit.MeqSoil // 0 where not measured
	Yield  unit.TonAcre // goal, dry matter
	Region Region       // Illinois only
}

// Advice is what a guide gives in a year.
type Advice struct {
	P2O5, K2O       unit.PoundAcre // to spread in a year
	BuildP, BuildK  unit.PoundAcre // the part of it that raises the test
	RawK2O          unit.PoundAcre // before the yearly cap
	CriticalP       float64        // in the guide's unit
	CriticalK       float64
	Parts           []string // how the potash is put on
	TurnedP, Turned bool     // a test was turned into the guide's extractant
	Notes           []string
}

// FertilityTables are the guides' numbers. Sources: [source.SoilIllinois], [source.SoilTriState2020],
// [source.SoilTriStateRest], [source.SoilTriState1995], [source.SoilTriStateOld], [source.SoilMinnesota],
// [source.SoilMinnesotaRest].
type FertilityTables struct {
	Illinois struct {
		TargetP                       map[Region]float64 // lb/ac
		TargetKLow, TargetKHigh, CEC  float64            // lb/ac, under and from an exchange capacity
		PerP, PerK                    float64            // lb of oxide for a lb/ac of test
		Years, RemovalP, RemovalK     float64
		MaintainedOverP, MaintainedOK float64 // lb/ac over the target up to which removal is given back
	}
	New struct {
		P, KeepP                       float64 // ppm Mehlich 3
		CEC, KLow, KHigh, Low, High    float64
		PerP, PerK, RemovalP, RemovalK float64
		Plus, Most                     float64
	}
	Old struct {
		P, KBase, KSlope   float64 // ppm Bray and acetate
		PlateauP, DrawP    float64
		PlateauK, DrawK    float64
		PerP, PerK         float64
		RemovalP, RemovalK float64
		Plus               float64
	}
	Minnesota map[Crop]struct{ PerTonBray, Bray, PerTonOlsen, Olsen, PerTonK, K float64 }
	Split     float64 // lb of K2O a year from which it is split, [source.PotashSplit]
}

// PublishedFertilityTables returns them.
func PublishedFertilityTables() FertilityTables {
	var t FertilityTables
	t.Illinois.TargetP = map[Region]float64{HighSupply: 40, MediumSupply: 45, LowSupply: 50}
	t.Illinois.TargetKLow, t.Illinois.TargetKHigh, t.Illinois.CEC = 260, 300, 12
	t.Illinois.PerP, t.Illinois.PerK, t.Illinois.Years = 9, 4, 4
	t.Illinois.RemovalP, t.Illinois.RemovalK = 12, 50
	t.Illinois.MaintainedOverP, t.Illinois.MaintainedOK = 20, 100
	t.New.P, t.New.KeepP = 30, 50
	t.New.CEC, t.New.KLow, t.New.KHigh, t.New.Low, t.New.High = 5, 100, 120, 130, 170
	t.New.PerP, t.New.PerK, t.New.RemovalP, t.New.RemovalK, t.New.Plus, t.New.Most = 5, 0.05, 12, 49, 20, 300
	t.Old.P, t.Old.KBase, t.Old.KSlope = 25, 75, 2.5
	t.Old.PlateauP, t.Old.DrawP, t.Old.PlateauK, t.Old.DrawK = 15, 10, 30, 20
	t.Old.PerP, t.Old.PerK, t.Old.RemovalP, t.Old.RemovalK, t.Old.Plus = 5, 0.05, 13, 50, 20
	t.Minnesota = map[Crop]struct{ PerTonBray, Bray, PerTonOlsen, Olsen, PerTonK, K float64 }{
		RedClover: {20, 1.0, 20, 1.4, 53, 0.33},
		Alfalfa:   {18.57, 0.93, 0, 0, 55.71, 0.38},
	}
	t.Split = 200
	return t
}

// Give is what a guide gives a crop in a year. Errors say what is missing, outside what is accepted, or
// not in the guide.
func (t FertilityTables) Give(guide FertilityGuide, f Fertility, x Extraction) (Advice, error) {
	if err := f.check(); err != nil {
		return Advice{}, err
	}
	if f.Crop != Alfalfa && guide != Minnesota {
		return Advice{}, fmt.Errorf("the %s guide's numbers are for alfalfa: for %s ask minnesota, or go by removal", guide, f.Crop)
	}
	var a Advice
	var err error
	switch guide {
	case Illinois:
		a, err = t.illinois(f, x)
	case TriState2020:
		a, err = t.triState2020(f, x)
	case TriState1995:
		a, err = t.triState1995(f, x)
	case Minnesota:
		a, err = t.minnesota(f, x)
	case Wisconsin:
		err = fmt.Errorf("the wisconsin guide for phosphorus and potassium: %w", ErrNotLoaded)
	default:
		err = fmt.Errorf("no guide is called %q; accepted %v", guide, FertilityGuides())
	}
	if err != nil {
		return Advice{}, err
	}
	a.P2O5, a.K2O = max(0, a.P2O5), max(0, a.K2O)
	a.RawK2O = a.K2O
	if most := unit.PoundAcre(t.New.Most); a.K2O > most {
		a.K2O = most
		a.Notes = append(a.Notes, fmt.Sprintf("potash held to %g lb an acre a year: more is taken up as luxury and not paid for; the test rises more slowly", most))
	}
	a.Parts = t.parts(a.K2O)
	if a.TurnedP {
		a.Notes = append(a.Notes, "the phosphorus test was turned into the guide's extractant by 1.35; a commercial laboratory uses 0.70 the other way")
	}
	if a.Turned {
		a.Notes = append(a.Notes, "the potassium test was turned into the guide's extractant by 1.14; a commercial laboratory uses 0.84 the other way")
	}
	return a, nil
}

func (f Fertility) check() error {
	var errs []error
	in := func(name string, v, low, high float64) {
		if !(v >= low && v <= high) {
			errs = append(errs, fmt.Errorf("%s %g: accepted %g to %g", name, v, low, high))
		}
	}
	switch {
	case f.P.Bray != nil:
		in("phosphorus, ppm Bray P1", float64(*f.P.Bray), 0, 300)
	case f.P.Mehlich3 != nil:
		in("phosphorus, ppm Mehlich 3", float64(*f.P.Mehlich3), 0, 400)
	case f.P.Olsen != nil:
		in("phosphorus, ppm Olsen", float64(*f.P.Olsen), 0, 200)
	default:
		errs = append(errs, errors.New("no phosphorus test"))
	}
	switch {
	case f.K.Acetate != nil:
		in("potassium, ppm acetate", float64(*f.K.Acetate), 0, 1000)
	case f.K.Mehlich3 != nil:
		in("potassium, ppm Mehlich 3", float64(*f.K.Mehlich3), 0, 1200)
	default:
		errs = append(errs, errors.New("no potassium test"))
	}
	in("yield", float64(f.Yield), 0.1, 15)
	if f.CEC != 0 {
		in("exchange capacity", float64(f.CEC), 1, 60)
	}
	if f.Crop != Alfalfa && f.Crop != RedClover {
		errs = append(errs, fmt.Errorf("crop %q: accepted alfalfa or red-clover", f.Crop))
	}
	return errors.Join(errs...)
}

func (f Fertility) needsCEC(guide FertilityGuide) error {
	if f.CEC == 0 {
		return fmt.Errorf("the %s guide goes by the exchange capacity, meq/100 g, which was not given: the test says it, or `cec` estimates it", guide)
	}
	return nil
}

func (t FertilityTables) illinois(f Fertility, x Extraction) (a Advice, err error) {
	if err := f.needsCEC(Illinois); err != nil {
		return a, err
	}
	k := t.Illinois
	target, ok := k.TargetP[f.Region]
	if !ok {
		return a, errors.New("the illinois guide goes by the region's phosphorus supply: high, medium or low")
	}
	// The guide takes Bray P1 or Mehlich 3 by colour, acetate or Mehlich 3 potassium, all in lb an acre.
	bray, turned, err := f.P.AsBray(x)
	if err != nil {
		return a, err
	}
	acetate, turnedK := f.K.AsAcetate(x)
	stp, stk := PerPPM*float64(bray), PerPPM*float64(acetate)
	wantK := k.TargetKHigh
	if float64(f.CEC) < k.CEC {
		wantK = k.TargetKLow
	}
	y := float64(f.Yield)
	buildP, buildK := max(0, target-stp)*k.PerP/k.Years, max(0, wantK-stk)*k.PerK/k.Years
	a.BuildP, a.BuildK, a.CriticalP, a.CriticalK, a.TurnedP, a.Turned = unit.PoundAcre(buildP), unit.PoundAcre(buildK), target, wantK, turned, turnedK
	if stp <= target+k.MaintainedOverP {
		a.P2O5 = unit.PoundAcre(buildP + k.RemovalP*y)
	}
	if stk <= wantK+k.MaintainedOK {
		a.K2O = unit.PoundAcre(buildK + k.RemovalK*y)
	}
	return a, nil
}

func (t FertilityTables) triState2020(f Fertility, x Extraction) (a Advice, err error) {
	if err := f.needsCEC(TriState2020); err != nil {
		return a, err
	}
	k := t.New
	p, turned, err := f.P.AsMehlich3(x)
	if err != nil {
		return a, err
	}
	pot, turnedK := f.K.AsMehlich3(x)
	stp, stk, y, cec := float64(p), float64(pot), float64(f.Yield), float64(f.CEC)
	critK, keepK := k.KHigh, k.High
	if cec <= k.CEC {
		critK, keepK = k.KLow, k.Low
	}
	a.CriticalP, a.CriticalK, a.TurnedP, a.Turned = k.P, critK, turned, turnedK
	if stp < k.P {
		a.BuildP = unit.PoundAcre((k.P - stp) * k.PerP)
	}
	if stp <= k.KeepP {
		a.P2O5 = a.BuildP + unit.PoundAcre(k.RemovalP*y)
	}
	if stk < critK {
		a.BuildK = unit.PoundAcre((critK - stk) * (1 + k.PerK*cec))
	}
	if stk <= keepK {
		a.K2O = a.BuildK + unit.PoundAcre(k.RemovalK*y+k.Plus)
	}
	return a, nil
}

func (t FertilityTables) triState1995(f Fertility, x Extraction) (a Advice, err error) {
	if err := f.needsCEC(TriState1995); err != nil {
		return a, err
	}
	k := t.Old
	p, turned, err := f.P.AsBray(x)
	if err != nil {
		return a, err
	}
	pot, turnedK := f.K.AsAcetate(x)
	stp, stk, y, cec := float64(p), float64(pot), float64(f.Yield), float64(f.CEC)
	critK := k.KBase + k.KSlope*cec
	a.CriticalP, a.CriticalK, a.TurnedP, a.Turned = k.P, critK, turned, turnedK
	a.BuildP = unit.PoundAcre(max(0, k.P-stp) * k.PerP)
	a.BuildK = unit.PoundAcre(max(0, critK-stk) * (1 + k.PerK*cec))
	// Over the plateau the rate falls in a line to none.
	drawn := func(test, critical, plateau, over float64) float64 {
		return math.Min(1, math.Max(0, (critical+plateau+over-test)/over))
	}
	a.P2O5 = a.BuildP + unit.PoundAcre(k.RemovalP*y*drawn(stp, k.P, k.PlateauP, k.DrawP))
	a.K2O = a.BuildK + unit.PoundAcre((k.RemovalK*y+k.Plus)*drawn(stk, critK, k.PlateauK, k.DrawK))
	return a, nil
}

// least is the phosphate under which Minnesota's table prints none.
const least = 6

func (t FertilityTables) minnesota(f Fertility, x Extraction) (a Advice, err error) {
	k := t.Minnesota[f.Crop]
	y := float64(f.Yield)
	var lb float64
	if f.P.Olsen != nil {
		if k.PerTonOlsen == 0 {
			return a, fmt.Errorf("minnesota's equation by Olsen for %s is not in the program: give the Bray test", f.Crop)
		}
		lb = (k.PerTonOlsen - k.Olsen*float64(*f.P.Olsen)) * y
	} else {
		bray, turned, err := f.P.AsBray(x)
		if err != nil {
			return a, err
		}
		a.TurnedP = turned
		lb = (k.PerTonBray - k.Bray*float64(bray)) * y
	}
	if lb < least {
		lb = 0
	}
	acetate, turnedK := f.K.AsAcetate(x)
	a.Turned = turnedK
	a.P2O5 = unit.PoundAcre(lb)
	a.K2O = unit.PoundAcre(max(0, k.PerTonK-k.K*float64(acetate)) * y)
	return a, nil
}

// parts says how a year's potash is put on. Sources: [source.PotashSplit], [source.PotashTiming].
func (t FertilityTables) parts(k2o unit.PoundAcre) []string {
	switch {
	case k2o == 0:
		return []string{}
	case float64(k2o) > t.Split:
		half := k2o / 2
		return []string{fmt.Sprintf("%.0f lb after the first cut", half), fmt.Sprintf("%.0f lb after the last", k2o-half)}
	}
	return []string{fmt.Sprintf("%.0f lb after a cut, the first or the last", k2o)}
}

// Titled is a guide's name as it is spoken of: Tri-State 2020, Penn State.
func Titled(guide string) string {
	guide = strings.Replace(guide, "tri-state", "Tri-State", 1)
	words := strings.Split(strings.Replace(guide, "State-", "State ", 1), " ")
	if len(words) == 1 {
		words = strings.Split(guide, "-")
	}
	for i, w := range words {
		if w != "" {
			words[i] = strings.ToUpper(w[:1]) + w[1:]
		}
	}
	return strings.Join(words, " ")
}
