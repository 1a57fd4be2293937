package soil

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
)

// LimeGuide is whose table says how much lime a soil takes.
type LimeGuide string

// The guides.
const (
	LimeOhio      LimeGuide = "ohio"
	LimeIowa      LimeGuide = "iowa"
	LimePennState LimeGuide = "penn-state"
	LimeCarolina  LimeGuide = "north-carolina"
	LimeKansas    LimeGuide = "kansas"
	LimeWisconsin LimeGuide = "wisconsin"
	LimeIllinois  LimeGuide = "illinois"
	LimeMinnesota LimeGuide = "minnesota"
	LimeCEC       LimeGuide = "capacity" // no state's: from exchange capacity, an estimate
)

// LimeGuides lists them.
func LimeGuides() []LimeGuide {
	return []LimeGuide{LimeOhio, LimeIowa, LimePennState, LimeCarolina, LimeKansas, LimeWisconsin, LimeIllinois, LimeMinnesota, LimeCEC}
}

// ErrNotLoaded says that a guide's table has to be loaded first: it could not be read anywhere, and a
// recalled one is not put in its place.
var ErrNotLoaded = errors.New("its table is not in the program: load it from the printed guide, or ask another guide")

// AcidSoil is what a test says of a soil's acidity.
type AcidSoil struct {
	PH       float64
	Buffer   float64      // buffer pH; 0 where not measured
	Acidity  unit.MeqSoil // exchangeable; for Penn State; under 0 where not measured
	CEC      unit.MeqSoil // for the estimate from it; 0 where not measured
	Target   float64      // pH wanted; 0 for the guide's own for alfalfa
	Depth    unit.Inch    // that lime is mixed into; 0 for the guide's own
	Organic  bool         // muck or peat
	Recent   float64      // tons an acre of lime that still act, for North Carolina
	Untilled bool         // no-till or sod
}

// Liming is how much lime a soil takes.
type Liming struct {
	Guide  LimeGuide
	Target float64
	Depth  unit.Inch      // that it is for
	Tons   unit.TonAcre   // of the basis, an acre
	Pounds unit.PoundAcre // the same
	Basis  string         // of what material
	Notes  []string
}

// Lines is a lime table as lines of rate = A - B x reading, by target pH.
type Lines map[float64][2]float64

// Liming tables. Sources: [source.LimeOhio], [source.LimeOhioLines], [source.LimeIowa],
// [source.LimePennState], [source.LimeCarolina], [source.LimeKansas], [source.LimeFromCEC].
type LimeTables struct {
	OhioLines   Lines      // tons an acre by lime test index, 10 x buffer pH
	OhioOrganic [2]float64 // by water pH
	OhioGap     float64    // lime from that far under the target
	Iowa        map[float64][]float64
	IowaBuffers []float64
	PennPerMeq  map[float64]float64 // lb an acre for a meq
	PennSmall   float64             // lb at 6.5 where acidity is small
	PennLeast   float64             // lb at least at 6.0
	Carolina    float64             // meq for a unit of buffer pH under 6.6
	Kansas      map[float64][3]float64
	PerMeq      float64      // lb of calcium carbonate for a meq in a slice of 6 2/3 in
	Saturation  [][2]float64 // pH and base saturation
}

// PublishedLimeTables returns them.
func PublishedLimeTables() LimeTables {
	return LimeTables{
		OhioLines:   Lines{6.8: {71.4, 1.03}, 6.5: {60.4, 0.87}, 6.0: {49.3, 0.71}},
		OhioOrganic: [2]float64{32.9, 6.31}, OhioGap: 0.2,
		IowaBuffers: []float64{7.0, 6.8, 6.6, 6.4, 6.2, 6.0, 5.8},
		Iowa:        map[float64][]float64{6.5: {0, 600, 2100, 3500, 5000, 6400, 7900}, 6.9: {1100, 2700, 4400, 6000, 7700, 9300, 10600}},
		PennPerMeq:  map[float64]float64{7.0: 1000, 6.5: 840, 6.0: 667}, PennSmall: 2000, PennLeast: 2180,
		Carolina: 4,
		Kansas:   map[float64][3]float64{6.8: {25620, 6360, 391}, 6.6: {22610, 5610, 346}, 6.0: {12810, 3180, 196}},
		PerMeq:   1000, Saturation: [][2]float64{{5.0, 0.5}, {5.5, 0.7}, {6.0, 0.8}, {6.5, 0.9}, {7.0, 1.0}},
	}
}

// Need is how much lime a soil takes by a guide, 0 where its pH does. Errors say what is missing or
// outside the guide's table.
func (k LimeTables) Need(guide LimeGuide, s AcidSoil) (Liming, error) {
	if err := s.check(); err != nil {
		return Liming{}, err
	}
	switch guide {
	case LimeOhio:
		return k.ohio(s)
	case LimeIowa:
		return k.iowa(s)
	case LimePennState:
		return k.pennState(s)
	case LimeCarolina:
		return k.carolina(s)
	case LimeKansas:
		return k.kansas(s)
	case LimeCEC:
		return k.fromCapacity(s)
	case LimeWisconsin, LimeIllinois, LimeMinnesota:
		return Liming{}, fmt.Errorf("the %s lime guide: %w", guide, ErrNotLoaded)
	}
	return Liming{}, fmt.Errorf("no lime guide is called %q; accepted %v", guide, LimeGuides())
}

func (s AcidSoil) check() error {
	var errs []error
	for _, v := range []struct {
		name      string
		v         float64
		low, high float64
		may       bool // not measured is 0
	}{
		{"pH", s.PH, 3, 9, false}, {"buffer pH", s.Buffer, 4.5, 8, true}, {"target pH", s.Target, 5, 7.5, true}, {"depth", float64(s.Depth), 1, 12, true}, {"exchange capacity", float64(s.CEC), 1, 60, true},
	} {
		if (v.v < v.low || v.v > v.high) && (!v.may || v.v != 0) {
			errs = append(errs, fmt.Errorf("%s %g: accepted %g to %g", v.name, v.v, v.low, v.high))
		}
	}
	return errors.Join(errs...)
}

// among is the target wanted, or the guide's own, if the guide has a table for it.
func among(guide LimeGuide, wanted, own float64, has ...float64) (float64, error) {
	if wanted == 0 {
		return own, nil
	}
	if !slices.Contains(has, wanted) {
		return 0, fmt.Errorf("target pH %g: the %s guide has tables for %v", wanted, guide, has)
	}
	return wanted, nil
}

func (s AcidSoil) needsBuffer(guide LimeGuide, which string) error {
	if s.Buffer == 0 {
		return fmt.Errorf("the %s guide goes by the buffer pH (%s), which was not given: ask the laboratory for it", guide, which)
	}
	return nil
}

// done fills in tons and pounds from one of them for the depth, none of it under 0.
func (l Liming) done(tons float64, own unit.Inch, s AcidSoil) Liming {
	l.Depth = own
	if s.Depth != 0 {
		tons *= float64(s.Depth / own)
		l.Depth = s.Depth
	}
	tons = max(0, tons)
	l.Tons, l.Pounds = unit.TonAcre(tons), unit.PoundAcre(2000*tons)
	if s.Untilled && tons > 0 {
		l.Notes = append(l.Notes, "untilled: sampled 0 to 4 in it takes half the rate of 8 in, at most 4 tons an acre at once, and a new test after 2 years")
	}
	return l
}

func (k LimeTables) ohio(s AcidSoil) (Liming, error) {
	l := Liming{Guide: LimeOhio, Basis: "ground limestone of neutralizing value 90 %"}
	const own = unit.Inch(8)
	if s.Organic {
		l.Target = 5.3
		return l.done(k.OhioOrganic[0]-k.OhioOrganic[1]*s.PH, own, s), nil
	}
	target, err := among(LimeOhio, s.Target, 6.8, 6.0, 6.5, 6.8)
	if err != nil {
		return Liming{}, err
	}
	l.Target = target
	if s.PH >= target-k.OhioGap-1e-9 {
		return l.done(0, own, s), nil
	}
	if err := s.needsBuffer(LimeOhio, "SMP or Sikora"); err != nil {
		return Liming{}, err
	}
	line := k.OhioLines[target]
	return l.done(line[0]-line[1]*10*s.Buffer, own, s), nil
}

func (k LimeTables) iowa(s AcidSoil) (Liming, error) {
	target, err := among(LimeIowa, s.Target, 6.9, 6.5, 6.9)
	if err != nil {
		return Liming{}, err
	}
	l := Liming{Guide: LimeIowa, Target: target, Basis: "pure fine calcium carbonate"}
	const own = unit.Inch(6)
	if s.PH >= target {
		return l.done(0, own, s), nil
	}
	if err := s.needsBuffer(LimeIowa, "SMP or Sikora"); err != nil {
		return Liming{}, err
	}
	at, rate := k.IowaBuffers, k.Iowa[target]
	if s.Buffer < at[len(at)-1] {
		return Liming{}, fmt.Errorf("buffer pH %g: Iowa's table goes down to %g", s.Buffer, at[len(at)-1])
	}
	if s.Buffer >= at[0] {
		return l.done(rate[0]/2000, own, s), nil
	}
	i := 1
	for s.Buffer < at[i] {
		i++
	}
	share := (at[i-1] - s.Buffer) / (at[i-1] - at[i])
	if target == 6.9 && s.Buffer < 6.0 {
		l.Notes = append(l.Notes, "the printed 10,600 lb at buffer 5.8 breaks the table's pattern (10,960) and may be a misprint")
	}
	return l.done((rate[i-1]+share*(rate[i]-rate[i-1]))/2000, own, s), nil
}

func (k LimeTables) pennState(s AcidSoil) (Liming, error) {
	target, err := among(LimePennState, s.Target, 7.0, 6.0, 6.5, 7.0)
	if err != nil {
		return Liming{}, err
	}
	l := Liming{Guide: LimePennState, Target: target, Basis: "calcium carbonate equivalent"}
	const own = unit.Inch(7)
	if s.PH >= target {
		return l.done(0, own, s), nil
	}
	if s.Acidity < 0 {
		return Liming{}, errors.New("the penn-state guide goes by exchangeable acidity, meq/100 g, which was not given: ask the laboratory for it")
	}
	lb := k.PennPerMeq[target] * float64(s.Acidity)
	switch {
	case target == 6.5 && s.Acidity <= 4:
		lb = k.PennSmall
	case target == 6.0:
		lb = max(lb, k.PennLeast)
		l.Notes = append(l.Notes, "the rate for 6.0 is derived from the laboratory's table for turf")
	}
	return l.done(lb/2000, own, s), nil
}

func (k LimeTables) carolina(s AcidSoil) (Liming, error) {
	l := Liming{Guide: LimeCarolina, Target: s.Target, Basis: "agricultural lime as the state's laboratory takes it"}
	if l.Target == 0 {
		l.Target = 6.5
	}
	if s.PH >= l.Target {
		return l.done(0, 7, AcidSoil{}), nil
	}
	if err := s.needsBuffer(LimeCarolina, "Mehlich, which starts at 6.6"); err != nil {
		return Liming{}, err
	}
	const start = 6.6
	if s.PH >= start || s.Buffer > start {
		return Liming{}, fmt.Errorf("pH %g and buffer pH %g: the north-carolina guide works under %g for both", s.PH, s.Buffer, start)
	}
	acid := k.Carolina * (start - s.Buffer)
	if s.Depth != 0 {
		l.Notes = append(l.Notes, "the guide names no depth: the rate is not scaled by yours")
	}
	return l.done(acid*(l.Target-s.PH)/(start-s.PH)-s.Recent, 7, AcidSoil{Untilled: s.Untilled}), nil
}

// Credit is what of a recent liming still acts: 8 % of it is gone in a month on mineral soil, 16 % on
// organic. Source: [source.LimeCarolina], whose wording is terse: read so here.
func Credit(tons, months float64, organic bool) float64 {
	gone := 0.08
	if organic {
		gone = 0.16
	}
	return tons * max(0, 1-gone*months)
}

func (k LimeTables) kansas(s AcidSoil) (Liming, error) {
	target, err := among(LimeKansas, s.Target, 6.8, 6.0, 6.6, 6.8)
	if err != nil {
		return Liming{}, err
	}
	l := Liming{Guide: LimeKansas, Target: target, Basis: "effective calcium carbonate"}
	const own = unit.Inch(6)
	if s.PH >= target {
		return l.done(0, own, s), nil
	}
	if err := s.needsBuffer(LimeKansas, "SMP or Sikora"); err != nil {
		return Liming{}, err
	}
	curve := func(target float64) float64 {
		c := k.Kansas[target]
		return (c[0] - c[1]*s.Buffer + c[2]*s.Buffer*s.Buffer) * float64(own)
	}
	lb := curve(target)
	if target == 6.8 {
		lb = max(lb, curve(6.6)) // recalled curves that cross above buffer 6.735
	}
	return l.done(lb/2000, own, s), nil
}

func (k LimeTables) fromCapacity(s AcidSoil) (Liming, error) {
	if s.CEC == 0 {
		return Liming{}, errors.New("the estimate goes by the exchange capacity, meq/100 g, which was not given")
	}
	l := Liming{Guide: LimeCEC, Target: s.Target, Basis: "calcium carbonate equivalent"}
	if l.Target == 0 {
		l.Target = 6.8
	}
	l.Notes = append(l.Notes, "an estimate from exchange capacity, no state's recommendation")
	at := func(ph float64) float64 {
		t := k.Saturation
		ph = min(max(ph, t[0][0]), t[len(t)-1][0])
		for i := 1; ; i++ {
			if ph <= t[i][0] {
				return t[i-1][1] + (t[i][1]-t[i-1][1])*(ph-t[i-1][0])/(t[i][0]-t[i-1][0])
			}
		}
	}
	lb := k.PerMeq * float64(s.CEC) * max(0, at(l.Target)-at(s.PH))
	own := unit.Inch(20.0 / 3)
	if s.Depth == 0 {
		return l.done(lb/2000, own, s), nil
	}
	// The published rule scales by 6.67 in.
	return l.done(lb/2000*float64(own)/6.67, own, s), nil
}

// Of is the tons an acre of a material, given the pounds of the basis that a ton of it does: its
// effective neutralizing power, lb/ton.
func (l Liming) Of(effective float64) (unit.TonAcre, error) {
	if !(effective >= 200 && effective <= 3600) {
		return 0, fmt.Errorf("a ton of lime that does %g lb: accepted 200 to 3600 lb/ton", effective)
	}
	return l.Tons * unit.TonAcre(2000/effective), nil
}

// OfValue is the tons an acre of ground limestone of another neutralizing value, %, for Ohio, whose basis
// is 90. Source: [source.LimeOhio].
func (l Liming) OfValue(percent float64) (unit.TonAcre, error) {
	if l.Guide != LimeOhio {
		return 0, fmt.Errorf("a neutralizing value is for the ohio guide; give the effective lb/ton for %s", l.Guide)
	}
	if !(percent >= 20 && percent <= 180) {
		return 0, fmt.Errorf("neutralizing value %g %%: accepted 20 to 180", percent)
	}
	return l.Tons * unit.TonAcre(90/percent), nil
}

// Split says how so many tons an acre are put on. Sources: [source.LimeSplit], [source.LimeMichigan],
// [source.LimeNoTill].
func (l Liming) Split(untilled bool) string {
	tons := float64(l.Tons)
	switch {
	case tons == 0:
		return "none"
	case untilled && tons > 4:
		return "4 tons now, then a new test after 2 years"
	case tons > 8:
		return "half before ploughing and half disked in after, over two seasons: 6 to 8 tons are the most in one (guides differ)"
	case tons > 4:
		return "half before ploughing, half disked in after"
	}
	return "all at once"
}

// Lead is how long before a legume is sown lime goes on. Source: [source.LimeLead].
const Lead = "at least 6 months before seeding, better a year"

// Chart is a lime chart that a user loads: tons an acre by soil class and water pH.
type Chart struct {
	Classes []string
	PH      []float64   // rising
	Tons    [][]float64 // by class, then by pH
}

// Check says what is wrong with a chart.
func (c Chart) Check() error {
	if len(c.Classes) == 0 || len(c.PH) < 2 || len(c.Tons) != len(c.Classes) {
		return errors.New("a lime chart wants classes, at least two values of pH, and a row of tons for each class")
	}
	if !slices.IsSorted(c.PH) || c.PH[0] < 3 || c.PH[len(c.PH)-1] > 9 {
		return fmt.Errorf("pH %v: wanted rising, from 3 to 9", c.PH)
	}
	for i, row := range c.Tons {
		if len(row) != len(c.PH) {
			return fmt.Errorf("class %s has %d values of tons for %d of pH", c.Classes[i], len(row), len(c.PH))
		}
		for j, t := range row {
			if !(t >= 0 && t <= 20) || j > 0 && t > row[j-1] {
				return fmt.Errorf("class %s at pH %g: %g tons an acre; accepted 0 to 20, and never more at a higher pH", c.Classes[i], c.PH[j], t)
			}
		}
	}
	return nil
}

// ClassOf is the class of a mineral soil on Illinois' chart by its exchange capacity: A over 24, B from 15, C
// from 8, D under it. Source: [source.SoilClasses].
func ClassOf(cec unit.MeqSoil) string {
	switch {
	case cec > 24:
		return "A"
	case cec >= 15:
		return "B"
	case cec >= 8:
		return "C"
	}
	return "D"
}

// At reads the chart between its values of pH.
func (c Chart) At(class string, ph float64) (unit.TonAcre, error) {
	i := slices.IndexFunc(c.Classes, func(n string) bool { return strings.EqualFold(n, class) })
	if i < 0 {
		return 0, fmt.Errorf("the chart has no soil class %q; it has %v", class, c.Classes)
	}
	if ph < c.PH[0] {
		return 0, fmt.Errorf("pH %g: the chart goes down to %g", ph, c.PH[0])
	}
	row := c.Tons[i]
	for j := 1; j < len(c.PH); j++ {
		if ph <= c.PH[j] {
			return unit.TonAcre(row[j-1] + (row[j]-row[j-1])*(ph-c.PH[j-1])/(c.PH[j]-c.PH[j-1])), nil
		}
	}
	return 0, nil
}
