package outlook

import (
	"errors"
	"fmt"
	"slices"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Guides are whose soil tables a stand is judged by.
type Guides struct {
	State     string // as the book's place names it
	Lime      soil.LimeGuide
	Fertility soil.FertilityGuide // empty where the state has none in the program and nobody chose one
	Removal   string
	Supply    soil.Region // of phosphorus by the subsoil; empty where nobody said
}

// GuidesOf is whose soil tables a stand is judged by: as its farm chose, else as the book did, else its
// state's.
func (o *Outlook) GuidesOf(s *Stand) Guides {
	said := o.View.SoilGuidesOf(s.Farm)
	g := Guides{
		State: o.Guide,
		Lime: map[string]soil.LimeGuide{
			"Ohio": soil.LimeOhio, "Iowa": soil.LimeIowa, "Pennsylvania": soil.LimePennState, "North Carolina": soil.LimeCarolina,
			"Kansas": soil.LimeKansas, "Wisconsin": soil.LimeWisconsin, "Illinois": soil.LimeIllinois, "Minnesota": soil.LimeMinnesota,
		}[o.Guide],
		Fertility: map[string]soil.FertilityGuide{
			"Illinois": soil.Illinois, "Ohio": soil.TriState2020, "Indiana": soil.TriState2020, "Michigan": soil.TriState2020,
			"Minnesota": soil.Minnesota, "Wisconsin": soil.Wisconsin,
		}[o.Guide],
		Removal: map[string]string{
			"Wisconsin": "wisconsin", "Illinois": "illinois", "Iowa": "iowa", "Kentucky": "kentucky",
			"Ohio": "tri-state-2020", "Indiana": "tri-state-2020", "Michigan": "tri-state-2020",
		}[o.Guide],
		Supply: soil.Region(said.Supply),
	}
	if said.Lime != "" {
		g.Lime = soil.LimeGuide(said.Lime)
	}
	if said.Fertility != "" {
		g.Fertility = soil.FertilityGuide(said.Fertility)
	}
	if said.Removal != "" {
		g.Removal = said.Removal
	}
	if g.Removal == "" {
		g.Removal = regionTable
	}
	return g
}

// SoilHolds is for how many years a soil test says how a field stands. Source: [source.SoilEvery].
const SoilHolds = 4

// SoilTested is what a field's soil was found to be, the mean of its parts where it was sampled by parts.
type SoilTested struct {
	Day      unit.Day
	Parts    int
	Lab      string
	DepthIn  float64 // sampled to; 0 where nobody said
	PH       float64 // 0 where not measured
	Buffer   float64 // 0 where not measured
	BufferBy book.Buffer
	Acidity  float64      // meq/100 g; under 0 where not measured
	CEC      unit.MeqSoil // 0 where not measured
	Subsoil  float64      // pH; 0 where not measured
	Mg       float64      // ppm; 0 where not measured
	P, K     *book.Extracted
}

// Old reports whether the test says nothing of today any more.
func (t *SoilTested) Old(today unit.Day) bool { return today > t.Until() }

// Until is the last day on which the test says how the field stands.
func (t *SoilTested) Until() unit.Day {
	d := t.Day.Time()
	return unit.DayOf(d.AddDate(SoilHolds, 0, 0))
}

// SoilFound is the newest soil test of the stand's field; nil where there is none.
func (s *Stand) SoilFound() *SoilTested { return s.soilWith(func(book.SoilTest) bool { return true }) }

// soilWith is the newest test of the field that has what is wanted.
func (s *Stand) soilWith(has func(book.SoilTest) bool) *SoilTested {
	var all []book.Dated[book.SoilTest]
	for _, t := range s.InField.SoilTests {
		if t.Day > s.Date || !has(t.Body) || len(all) > 0 && t.Day < all[0].Day {
			continue
		}
		if len(all) > 0 && t.Day > all[0].Day {
			all = all[:0]
		}
		all = append(all, t)
	}
	if len(all) == 0 {
		return nil
	}
	out := &SoilTested{Day: all[0].Day, Parts: len(all), Lab: all[0].Body.Lab, DepthIn: all[0].Body.DepthIn, BufferBy: all[0].Body.BufferBy, Acidity: -1}
	mean := func(of func(book.SoilTest) (float64, bool)) (float64, bool) {
		sum, n := 0., 0.
		for _, t := range all {
			if v, ok := of(t.Body); ok {
				sum, n = sum+v, n+1
			}
		}
		return sum / max(1, n), n > 0
	}
	code := func(name string) func(book.SoilTest) (float64, bool) {
		return func(t book.SoilTest) (float64, bool) { v, ok := t.More[name]; return v, ok }
	}
	out.PH, _ = mean(func(t book.SoilTest) (float64, bool) { return t.PH, t.PH != 0 })
	out.Buffer, _ = mean(func(t book.SoilTest) (float64, bool) { return t.Buffer, t.Buffer != 0 && t.BufferBy == out.BufferBy })
	if v, ok := mean(code("acidity")); ok {
		out.Acidity = v
	}
	cec, _ := mean(code("cec"))
	out.CEC = unit.MeqSoil(cec)
	out.Subsoil, _ = mean(code("subsoil-ph"))
	out.Mg, _ = mean(code("mg"))
	for _, x := range []struct {
		to **book.Extracted
		of func(book.SoilTest) *book.Extracted
	}{{&out.P, func(t book.SoilTest) *book.Extracted { return t.P }}, {&out.K, func(t book.SoilTest) *book.Extracted { return t.K }}} {
		// Parts by another extractant than the first are left out of its mean.
		var by book.Extractant
		v, ok := mean(func(t book.SoilTest) (float64, bool) {
			e := x.of(t)
			if e == nil || by != "" && e.By != by {
				return 0, false
			}
			by = e.By
			return e.PPM(), true
		})
		if ok {
			*x.to = &book.Extracted{Value: v, Unit: book.PPM, By: by}
		}
	}
	return out
}

// phosphorusOf is a test as tables of one extractant take it.
func phosphorusOf(e *book.Extracted) (soil.Phosphorus, error) {
	switch {
	case e == nil:
		return soil.Phosphorus{}, errors.New("the test has no phosphorus")
	case e.By == book.BrayP1, e.By == book.Mehlich3Color:
		v := unit.PPMBray(e.PPM())
		return soil.Phosphorus{Bray: &v}, nil
	case e.By == book.Mehlich3:
		v := unit.PPMM3P(e.PPM())
		return soil.Phosphorus{Mehlich3: &v}, nil
	case e.By == book.Olsen:
		v := unit.PPMOlsen(e.PPM())
		return soil.Phosphorus{Olsen: &v}, nil
	}
	return soil.Phosphorus{}, fmt.Errorf("phosphorus by %s goes with no table here", e.By)
}

func potassiumOf(e *book.Extracted) (soil.Potassium, error) {
	switch {
	case e == nil:
		return soil.Potassium{}, errors.New("the test has no potassium")
	case e.By == book.AmmoniumAcetate:
		v := unit.PPMAcetate(e.PPM())
		return soil.Potassium{Acetate: &v}, nil
	case e.By == book.Mehlich3:
		v := unit.PPMM3K(e.PPM())
		return soil.Potassium{Mehlich3: &v}, nil
	}
	return soil.Potassium{}, fmt.Errorf("potassium by %s goes with no table here, and nobody prints how it is turned into one", e.By)
}

// Feeding is what a guide gives a stand in a year, and the test it goes by.
type Feeding struct {
	soil.Advice
	Guide soil.FertilityGuide
	Test  *SoilTested
}

// Fertility asks the stand's guide what it gives in a year. The error says in plain words why it cannot be
// asked.
func (o *Outlook) Fertility(s *Stand) (Feeding, error) {
	g := o.GuidesOf(s)
	if g.Fertility == "" {
		return Feeding{}, fmt.Errorf("no table of phosphorus and potassium of %s is in the program", g.State)
	}
	t := s.soilWith(func(t book.SoilTest) bool { return t.P != nil && t.K != nil })
	switch {
	case t == nil:
		return Feeding{}, errors.New("no soil test of phosphorus and potassium is in the book")
	case t.Old(s.Date):
		return Feeding{}, fmt.Errorf("the soil test of %s is over %d years old", t.Day, SoilHolds)
	}
	p, err1 := phosphorusOf(t.P)
	k, err2 := potassiumOf(t.K)
	if err := errors.Join(err1, err2); err != nil {
		return Feeding{}, err
	}
	a, err := soil.PublishedFertilityTables().Give(g.Fertility, soil.Fertility{
		Crop: s.SoilCrop(), P: p, K: k, CEC: t.CEC, Yield: unit.TonAcre(s.Yield.Year), Region: g.Supply,
	}, soil.PublishedExtraction())
	return Feeding{Advice: a, Guide: g.Fertility, Test: t}, err
}

// Limed is what lime a stand's field wants, and the test it goes by.
type Limed struct {
	soil.Liming
	Test   *SoilTested
	Target soil.Target
}

// buffersOf are the buffers that a guide's table goes with.
func buffersOf(g soil.LimeGuide) []book.Buffer {
	if g == soil.LimeCarolina {
		return []book.Buffer{book.Mehlich}
	}
	return []book.Buffer{book.SMP, book.Sikora}
}

// Lime asks the stand's guide what lime its field wants for a crop. untilled is lime on a standing crop. Where the error is not nil the test and the target stand all the same, if there is a test.
func (o *Outlook) Lime(s *Stand, crop soil.Crop, untilled bool) (Limed, error) {
	t := s.soilWith(func(t book.SoilTest) bool { return t.PH != 0 })
	if t == nil {
		return Limed{}, errors.New("no soil pH is in the book")
	}
	g := o.GuidesOf(s)
	l := Limed{Test: t, Target: soil.TargetOf(g.State, crop, t.Subsoil)}
	if t.Old(s.Date) {
		return l, fmt.Errorf("the soil test of %s is over %d years old", t.Day, SoilHolds)
	}
	acid := soil.AcidSoil{PH: t.PH, Buffer: t.Buffer, Acidity: unit.MeqSoil(t.Acidity), CEC: t.CEC, Untilled: untilled}
	if t.Buffer != 0 && g.Lime != soil.LimePennState && g.Lime != soil.LimeCEC && !slices.Contains(buffersOf(g.Lime), t.BufferBy) {
		return l, fmt.Errorf("the %s lime guide does not go with the %s buffer", g.Lime, t.BufferBy)
	}
	var err error
	if typed, ok := o.View.GuideTable(string(g.Lime), book.LimeLines); ok {
		lines := soil.BufferLines{Guide: g.Lime, Basis: typed.Body.Basis, Depth: unit.Inch(typed.Body.DepthIn)}
		for _, x := range typed.Body.Lines {
			lines.Lines = append(lines.Lines, soil.BufferLine(x))
		}
		acid.Target = l.Target.PH
		l.Liming, err = lines.Need(acid)
		return l, err
	}
	if typed, ok := o.View.GuideTable(string(g.Lime), book.LimeCharted); ok {
		l.Liming, err = charted(g.Lime, typed.Body, t, l.Target)
		return l, err
	}
	if g.Lime == "" {
		return l, fmt.Errorf("no lime table of %s is in the program", g.State)
	}
	if g.Lime != soil.LimeMinnesota { // whose tables know their own targets
		acid.Target = l.tableTarget(g.Lime)
	}
	l.Liming, err = soil.PublishedLimeTables().Need(g.Lime, acid)
	return l, err
}

// charted reads a lime chart that a user typed in: by the class of the soil, which its exchange capacity
// tells, and its water pH.
func charted(g soil.LimeGuide, b book.GuideTable, t *SoilTested, want soil.Target) (soil.Liming, error) {
	chart := soil.Chart(*b.Chart)
	if err := chart.Check(); err != nil {
		return soil.Liming{}, err
	}
	if t.CEC == 0 {
		return soil.Liming{}, errors.New("the chart goes by the class of the soil, which its exchange capacity tells: the test has none")
	}
	tons, err := chart.At(soil.ClassOf(t.CEC), t.PH)
	return soil.Liming{
		Guide: g, Target: want.PH, Depth: unit.Inch(b.DepthIn), Tons: tons, Pounds: unit.PoundAcre(2000 * tons), Basis: b.Basis,
		Notes: []string{"by the chart that was typed in from the printed guide"},
	}, err
}

// tableTarget is the target of a guide's own tables that is nearest from above to what is wanted; the
// guide's own for alfalfa where none is.
func (l Limed) tableTarget(g soil.LimeGuide) float64 {
	for _, has := range map[soil.LimeGuide][]float64{
		soil.LimeOhio: {6.0, 6.5, 6.8}, soil.LimeIowa: {6.5, 6.9}, soil.LimePennState: {6.0, 6.5, 7.0}, soil.LimeKansas: {6.0, 6.6, 6.8},
	}[g] {
		if has >= l.Target.PH-1e-9 {
			return has
		}
	}
	if g == soil.LimeCEC || g == soil.LimeCarolina {
		return l.Target.PH
	}
	return 0
}

// LimedSince is the newest lime spread on the field since a day; not ok where none was.
func (s *Stand) LimedSince(d unit.Day) (book.Dated[book.Application], bool) {
	for _, a := range slices.Backward(s.InField.Applications) {
		if a.Body.Class == book.LimeSpread && a.Day >= d && a.Day <= s.Date {
			return a, true
		}
	}
	return book.Dated[book.Application]{}, false
}

// Ample says of which of phosphate and potash a field that no guide can be asked of holds so much that
// nobody saw a return to more. Potassium by Bray is read as by acetate; phosphorus by Olsen is not judged.
func (t *SoilTested) Ample() (phosphate, potash bool) {
	if t == nil {
		return false, false
	}
	x, enough := soil.PublishedExtraction(), soil.PublishedEnough()
	if p, err := phosphorusOf(t.P); err == nil {
		if v, _, err := p.AsMehlich3(x); err == nil {
			phosphate = v > enough.P
		}
	}
	if t.K != nil {
		v := unit.PPMAcetate(t.K.PPM())
		if t.K.By == book.Mehlich3 {
			v = x.Acetate(unit.PPMM3K(t.K.PPM()))
		}
		potash = v > enough.K
	}
	return phosphate, potash
}
