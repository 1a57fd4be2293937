package outlook

import (
	"errors"
	"math"
	"strings"
	"testing"

	"haywarden/agronomy/blend"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

var june = unit.DateOf(2026, 6, 20)

// ofSoil is an outlook of one alfalfa stand in its third production year.
func ofSoil(guide string, change func(v *book.View, s *book.StandView)) (*Outlook, *Stand) {
	farm := &book.FarmView{ID: "farm", Farm: book.Farm{Name: "Ridge"}}
	field := &book.FieldView{ID: "field", Field: book.Field{Name: "Long Meadow", Acres: 20}, Farm: farm}
	sv := &book.StandView{ID: "stand", Stand: book.Stand{Crop: book.Alfalfa, Seeded: unit.DateOf(2023, 4, 20)}, Farm: farm, InField: field}
	field.Stands, farm.Fields = []*book.StandView{sv}, []*book.FieldView{field}
	v := &book.View{Date: june, Place: book.Place{Guide: guide}, Farms: []*book.FarmView{farm}}
	if change != nil {
		change(v, sv)
	}
	o, err := Build(v, nil)
	if err != nil {
		panic(err)
	}
	return o, o.Stands[0]
}

func soilTest(day unit.Day, part string, ph, k float64) book.Dated[book.SoilTest] {
	return book.Dated[book.SoilTest]{Day: day, Body: book.SoilTest{
		Part: part, PH: ph, Buffer: 6.4, BufferBy: book.SMP, K: &book.Extracted{Value: k, Unit: book.PPM, By: book.AmmoniumAcetate},
		P: &book.Extracted{Value: 36, Unit: book.LbAcre, By: book.BrayP1}, More: map[string]float64{"cec": 12},
	}}
}

func TestTheNewestTestSpeaksWithTheMeanOfItsParts(t *testing.T) {
	_, s := ofSoil("Wisconsin", func(_ *book.View, s *book.StandView) {
		s.InField.SoilTests = []book.Dated[book.SoilTest]{soilTest(june-900, "", 5.1, 60), soilTest(june-300, "north", 6.2, 90), soilTest(june-300, "south", 6.6, 130)}
	})
	got := s.SoilFound()
	if got.Parts != 2 || math.Abs(got.PH-6.4) > 1e-9 || got.K.PPM() != 110 || got.P.PPM() != 18 || got.CEC != 12 || got.Day != june-300 {
		t.Errorf("%+v, K %+v, P %+v", got, got.K, got.P)
	}
	if got.Old(june) || !got.Old(june-300+4*366) {
		t.Errorf("until %s", got.Until())
	}
}

func TestPartsByAnotherExtractantAreNotAveragedIn(t *testing.T) {
	_, s := ofSoil("Wisconsin", func(_ *book.View, s *book.StandView) {
		other := soilTest(june-300, "south", 6.6, 200)
		other.Body.K.By = book.Mehlich3
		s.InField.SoilTests = []book.Dated[book.SoilTest]{soilTest(june-300, "north", 6.2, 90), other}
	})
	if got := s.SoilFound(); got.K.PPM() != 90 || got.K.By != book.AmmoniumAcetate {
		t.Errorf("%+v", got.K)
	}
}

func TestAGuideIsTheFarmsChoiceThenTheBooksThenTheStates(t *testing.T) {
	o, s := ofSoil("Ohio", nil)
	if g := o.GuidesOf(s); g.Lime != soil.LimeOhio || g.Fertility != soil.TriState2020 || g.Removal != "tri-state-2020" {
		t.Errorf("the state's: %+v", g)
	}
	o, s = ofSoil("Ohio", func(v *book.View, s *book.StandView) {
		v.SoilGuides = []book.Dated[book.SoilGuides]{{Body: book.SoilGuides{Lime: "iowa", Fertility: "minnesota"}}}
		s.Farm.Soil = []book.Dated[book.SoilGuides]{{Body: book.SoilGuides{Fertility: "illinois", Supply: "low"}}}
	})
	if g := o.GuidesOf(s); g.Lime != soil.LimeIowa || g.Fertility != soil.Illinois || g.Supply != soil.LowSupply {
		t.Errorf("chosen: %+v", g)
	}
}

func TestFertilityGoesByTheGuideOrSaysWhyNot(t *testing.T) {
	tested := func(change func(*book.SoilTest)) func(*book.View, *book.StandView) {
		return func(_ *book.View, s *book.StandView) {
			test := soilTest(june-300, "", 6.9, 85/1.14)
			test.Body.P = &book.Extracted{Value: 18 / 1.35, Unit: book.PPM, By: book.BrayP1}
			change(&test.Body)
			s.InField.SoilTests = []book.Dated[book.SoilTest]{test}
		}
	}
	// Bray 13.3 and acetate 74.6 are Mehlich 18 and 85, the printed case: 60 lb of P2O5 and 56 of K2O to
	// build up at CEC 12 [Tri-State 2020].
	o, s := ofSoil("Ohio", tested(func(*book.SoilTest) {}))
	f, err := o.Fertility(s)
	if err != nil || math.Abs(float64(f.BuildP)-60) > 1e-6 || math.Abs(float64(f.BuildK)-56) > 1e-6 || f.K2O > 300 {
		t.Errorf("%+v, %v", f.Advice, err)
	}
	for want, change := range map[string]func(*book.SoilTest){
		"no soil test of phosphorus and potassium": func(b *book.SoilTest) { b.K = nil },
		"potassium by bray-p1 goes with no table":  func(b *book.SoilTest) { b.K.By = book.BrayP1 },
		"an Olsen test cannot be turned into one":  func(b *book.SoilTest) { b.P.By = book.Olsen },
		"exchange capacity":                        func(b *book.SoilTest) { b.More = nil },
	} {
		o, s := ofSoil("Ohio", tested(change))
		if _, err := o.Fertility(s); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	o, s = ofSoil("Wisconsin", tested(func(*book.SoilTest) {}))
	if _, err := o.Fertility(s); !errors.Is(err, soil.ErrNotLoaded) {
		t.Errorf("wisconsin: %v", err)
	}
}

// Typed from a print: the lines of a guide whose table is not in the program. The numbers are made up.
func TestLinesThatWereTypedInAnswerForTheirGuide(t *testing.T) {
	typed := book.GuideTable{Guide: "wisconsin", Edition: "made up", Basis: "60-69 lime", DepthIn: 7, Lines: []book.LimeLine{{Target: 6.8, A: 64, B: 7, C: 2}}}
	o, s := ofSoil("Wisconsin", func(v *book.View, s *book.StandView) {
		v.GuideTables = []book.Dated[book.GuideTable]{{Body: typed}}
		s.InField.SoilTests = []book.Dated[book.SoilTest]{soilTest(june-300, "", 6, 90)}
	})
	l, err := o.Lime(s, s.SoilCrop(), false)
	if err != nil || math.Abs(float64(l.Tons)-(64-7*6.4-12)) > 1e-9 || l.Basis != "60-69 lime" || l.Target.PH != 6.8 {
		t.Errorf("%+v, %v", l.Liming, err)
	}
}

func TestAChartThatWasTypedInIsReadByTheSoilsClass(t *testing.T) {
	typed := book.GuideTable{Guide: "illinois", Edition: "made up", Basis: "typical stone", DepthIn: 9, Chart: &book.LimeChart{Classes: []string{"B", "C"}, PH: []float64{5, 6, 6.5}, Tons: [][]float64{{9, 4, 0}, {6, 3, 0}}}}
	put := func(cec float64) func(v *book.View, s *book.StandView) {
		return func(v *book.View, s *book.StandView) {
			v.GuideTables = []book.Dated[book.GuideTable]{{Body: typed}}
			test := soilTest(june-300, "", 5.5, 90)
			test.Body.More = map[string]float64{"cec": cec}
			s.InField.SoilTests = []book.Dated[book.SoilTest]{test}
		}
	}
	o, s := ofSoil("Illinois", put(12))
	if l, err := o.Lime(s, s.SoilCrop(), false); err != nil || math.Abs(float64(l.Tons)-4.5) > 1e-9 || l.Basis != "typical stone" {
		t.Errorf("%+v, %v", l.Liming, err)
	}
	o, s = ofSoil("Illinois", put(5))
	if _, err := o.Lime(s, s.SoilCrop(), false); err == nil || !strings.Contains(err.Error(), `no soil class "D"`) {
		t.Errorf("%v", err)
	}
}

func TestWhatWasSpreadIsReckonedByItsAnalysis(t *testing.T) {
	for name, c := range map[string]struct {
		a    book.Application
		want soil.Removed
		err  string
	}{
		"muriate by its name":     {a: book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 250, Unit: book.PoundsAcre}, want: soil.Removed{K2O: 150}},
		"a blend by its analysis": {a: book.Application{Class: book.FertilizerSpread, Material: "spring blend", Rate: 0.1, Unit: book.TonsAcre, Analysis: map[string]float64{"p2o5": 10, "k2o": 40, "b": 0.5}}, want: soil.Removed{P2O5: 20, K2O: 80, B: 1}},
		// 3,000 gal of 31-15-19 at 0.8 are 36.0 and 45.6 lb [Midwest book].
		"manure by the book":     {a: book.Application{Class: book.ManureSpread, Material: "dairy-liquid", Rate: 3000, Unit: book.GallonsAcre}, want: soil.Removed{P2O5: 36, K2O: 45.6}},
		"manure by a laboratory": {a: book.Application{Class: book.ManureSpread, Material: "our pit", Rate: 3000, Unit: book.GallonsAcre, Analysis: map[string]float64{"p2o5": 10, "k2o": 20}}, want: soil.Removed{P2O5: 24, K2O: 48}},
		"lime feeds nothing":     {a: book.Application{Class: book.LimeSpread, Material: "aglime", Rate: 3, Unit: book.TonsAcre}},
		"an unknown name":        {a: book.Application{Class: book.FertilizerSpread, Material: "starter", Rate: 100, Unit: book.PoundsAcre}, err: "starter: no analysis was given"},
	} {
		got, err := Given(c.a)
		if c.err != "" {
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		for _, d := range []float64{got.P2O5 - c.want.P2O5, got.K2O - c.want.K2O, got.B - c.want.B} {
			if err != nil || math.Abs(d) > 1e-9 {
				t.Errorf("%s: %+v, want %+v (%v)", name, got, c.want, err)
			}
		}
	}
}

func TestALedgerSumsCutsAndSpreadsFromTheTestOn(t *testing.T) {
	tons := 2.0
	o, s := ofSoil("Ohio", func(_ *book.View, s *book.StandView) {
		s.Cuts = []book.Dated[book.Cut]{
			{Day: unit.DateOf(2025, 5, 28), Body: book.Cut{Number: 1, TonsDM: &tons}}, {Day: unit.DateOf(2025, 9, 2), Body: book.Cut{Number: 4, TonsDM: &tons}},
			{Day: unit.DateOf(2026, 5, 28), Body: book.Cut{Number: 1, TonsDM: &tons}},
		}
		s.InField.Applications = []book.Dated[book.Application]{{Day: unit.DateOf(2026, 6, 1), Body: book.Application{Class: book.FertilizerSpread, Material: "mop", Rate: 100, Unit: book.PoundsAcre}}}
		s.InField.SoilTests = []book.Dated[book.SoilTest]{soilTest(unit.DateOf(2025, 7, 1), "", 6.9, 110)}
	})
	l, ok := o.Ledger(s, unit.DateOf(2025, 7, 1))
	// Two cuts of 2 tons since: 4 x 49 lb of K2O and 4 x 12 of P2O5 [Tri-State 2020], 60 lb given. A ppm of K
	// at CEC 12 is 4 x 1.6 lb.
	if !ok || math.Abs(l.Removed.K2O-196) > 1e-9 || math.Abs(l.Removed.P2O5-48) > 1e-9 || math.Abs(l.Given.K2O-60) > 1e-9 || math.Abs(l.MovedK-(60-196)/6.4) > 1e-9 {
		t.Errorf("%t, %+v", ok, l)
	}
	if _, ok := o.Ledger(s, unit.DateOf(2022, 7, 1)); ok {
		t.Error("a ledger reaches back past the seeding")
	}
}

func TestAPoundIsPricedByItsOwnLineElseByTheCheapestProduct(t *testing.T) {
	priced := func(lines ...book.PriceLine) func(*book.View, *book.StandView) {
		return func(v *book.View, _ *book.StandView) {
			v.Prices = []book.Deck{{ID: "d", Day: june - 9, Body: book.Prices{Name: "June", Lines: lines}}}
		}
	}
	need := map[blend.Nutrient]float64{blend.K2O: 100, blend.P2O5: 46, blend.S: 17}
	o, s := ofSoil("Ohio", priced(book.PriceLine{Name: book.Potash, Unit: "$/ton", Value: 480}, book.PriceLine{Name: book.TripleSuper, Unit: "$/ton", Value: 690}, book.PriceLine{Name: book.MAP, Unit: "$/ton", Value: 760}))
	c := o.Cost(s, need)
	// 0.40 $/lb of K2O; MAP carries P2O5 for 0.7308, triple superphosphate for 0.75.
	if math.Abs(c.Acre-(40+46*760/2000./0.52)) > 1e-9 || len(c.Lines) != 2 || len(c.Lacks) != 1 || c.Lacks[0] != "sulfur" {
		t.Errorf("%+v", c)
	}
	o, s = ofSoil("Ohio", priced(book.PriceLine{Name: book.Potash, Unit: "$/ton", Value: 480}, book.PriceLine{Name: book.PotashK2O, Unit: "$/lb", Value: 0.5}))
	if c := o.Cost(s, map[blend.Nutrient]float64{blend.K2O: 100}); c.Acre != 50 {
		t.Errorf("%+v", c)
	}
}
