package outlook

import (
	"math"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/unit"
	"haywarden/agronomy/water"
	"haywarden/book"
	"haywarden/weather"
)

// mown is a stand ready for its first cut, under a sky whose rain is laid by hand.
func mown(rain func(unit.Day) float64) *Stand {
	series := record(12, 0)
	series.Station.Latitude, series.Station.Longitude = 43, -89
	for i := range series.RainMM {
		series.RainMM[i] = rain(series.First + unit.Day(i))
	}
	s := &Stand{
		StandView: &book.StandView{}, Date: unit.DateOf(2026, 5, 24), Yield: Yield{FirstCut: 1.8}, Target: Target{Product: book.Haylage},
		Standing: &Standing{NDF: 38, ADF: 29, SDNDF: 2, SDADF: 1.6, RFV: forage.PublishedFeedValue().Of(29, 38), SD: 10, Season: forage.Spring},
	}
	s.Sky = NewSky(series, s.Date, SkyOptions{})
	return s
}

func never(unit.Day) float64 { return 0 }

// TestADryYearMakesAllThreeAndAWetOneNone proves that the chance follows the rain laid on it, and that
// rain takes feed value and dry matter.
func TestADryYearMakesAllThreeAndAWetOneNone(t *testing.T) {
	dry, wet := mown(never), mown(func(unit.Day) float64 { return 12 })
	for i, b := range dry.BroughtOn(dry.Date + 2) {
		w := wet.BroughtOn(wet.Date + 2)[i]
		if b.Rained != 0 || w.Rained != 1 {
			t.Errorf("%s: rained on %g dry and %g wet", b.Product, b.Rained, w.Rained)
		}
		if b.Clean < 0.99 || w.Clean != 0 {
			t.Errorf("%s: clean chance %g dry and %g wet", b.Product, b.Clean, w.Clean)
		}
		if !(w.RFV.Middle < b.RFV.Middle && w.Kept.Middle < b.Kept.Middle) {
			t.Errorf("%s: rain left RFV %g and %g of the crop, no rain %g and %g", b.Product, w.RFV.Middle, w.Kept.Middle, b.RFV.Middle, b.Kept.Middle)
		}
		if !(b.RFV.Low <= b.RFV.Middle && b.RFV.Middle <= b.RFV.High && b.RFV.High < dry.Ahead().paths[0][2]+40) {
			t.Errorf("%s: RFV %+v", b.Product, b.RFV)
		}
	}
	if len(dry.BroughtOn(dry.Date+2)) != 3 {
		t.Error("not all products are brought")
	}
	if all := dry.BroughtOn(dry.Date); all[0].Product != book.Hay || all[0].Hours <= all[1].Hours {
		t.Errorf("hay is made in %g hours, haylage in %g", all[0].Hours, all[1].Hours)
	}
}

// TestFibreAheadIsThatOfTheWindow proves that a crop is brought in with the feed value at which the cut
// window has it stand.
func TestFibreAheadIsThatOfTheWindow(t *testing.T) {
	s := mown(never)
	a := s.Ahead()
	k := forage.PublishedFeedValue()
	for _, i := range []int{0, 4, 9} {
		n := 0
		s.eachFibre(i, func(path, _ int, c losses.Composition, weight float64) {
			n++
			if got, want := k.Of(c.ADF, c.NDF), a.paths[path][i]; math.Abs(got-want) > 1e-9 || math.Abs(weight-a.weight(path)) > 1e-12 {
				t.Errorf("day %d, path %d: RFV %g, want %g", i, path, got, want)
			}
		})
		if n != len(a.paths) {
			t.Errorf("%d paths of %d", n, len(a.paths))
		}
	}
}

// TestCarryingIsBringing proves that the quick way over a chain ends where the whole one does, with rain
// and without.
func TestCarryingIsBringing(t *testing.T) {
	for _, p := range book.Products() {
		for _, rain := range []float64{0, 3, 25} {
			feed := losses.Feed{DM: 1, Composition: losses.Composition{NDF: 36, ADF: 28, CP: 21}}
			other := losses.Feed{DM: 2, Composition: losses.Composition{NDF: 44, ADF: 33, CP: 18}}
			dry, err := chainOf(p, other, 4, 0)
			if err != nil {
				t.Fatal(err)
			}
			wet, err := losses.Published().Bring(feed, losses.Harvest{As: losses.Product(p), Moisture: float64(CuredAs(p).Moisture()), RainMM: rain, RainedAt: 66, Breathed: 0.041, YieldTHa: 4, Crop: losses.Alfalfa, By: losses.Round})
			if err != nil {
				t.Fatal(err)
			}
			stored := len(wet.Steps)
			if rain > 0 {
				stored--
			}
			var after []losses.Loss
			for _, step := range dry.Steps[stored:] {
				after = append(after, step.Loss)
			}
			whole, err := wet.Then(after...)
			if err != nil {
				t.Fatal(err)
			}
			l, err := losses.Published().Rain.Loss(rain, 66, losses.Alfalfa)
			if err != nil {
				t.Fatal(err)
			}
			got, err := dry.Carry(feed, losses.Lying{Breathed: 0.041, Rain: l})
			if err != nil {
				t.Fatal(err)
			}
			want := whole.Left()
			if math.Abs(got.DM-want.DM)+math.Abs(got.NDF-want.NDF)+math.Abs(got.ADF-want.ADF)+math.Abs(got.CP-want.CP) > 1e-9 {
				t.Errorf("%s with %g mm: %+v, want %+v", p, rain, got, want)
			}
		}
	}
}

// TestAStraightLineIsTheChain proves that following the masses in straight lines is running the chain for
// each crop, far from the one it was taken at.
func TestAStraightLineIsTheChain(t *testing.T) {
	s := mown(never)
	rain, err := losses.Published().Rain.Loss(15, 60, losses.Alfalfa)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range s.Ways() {
		b, ok := w.On(2)
		if !ok {
			t.Fatalf("%s is not brought", w.Product)
		}
		for _, l := range []losses.Lying{{Breathed: 0.03}, {Breathed: 0.07, Rain: rain}} {
			c, err := b.carrying(s.Standing, l)
			if err != nil {
				t.Fatal(err)
			}
			for _, crop := range []losses.Composition{{NDF: 33, ADF: 25, CP: StandingCP}, {NDF: 48, ADF: 37, CP: StandingCP}} {
				want, err := b.Dry.Carry(losses.Feed{DM: 1, Composition: crop}, l)
				if err != nil {
					t.Fatal(err)
				}
				if got := c.of(crop); math.Abs(got.DM-want.DM)+math.Abs(got.NDF-want.NDF)+math.Abs(got.ADF-want.ADF)+math.Abs(got.CP-want.CP) > 1e-9 {
					t.Errorf("%s from %+v: %+v, want %+v", w.Product, crop, got, want)
				}
			}
		}
	}
}

// TestACropBreathesAsItDries proves that the hours of curing are counted to when a product is made, against
// our own arithmetic with the drying equation unscaled, no damp, 15 C nights, 27 C days and 23.2 MJ of sun
// from 9:00: 2.60 % to hay of 18 % in a swath of 571 g/m2 and 3.44 % in one of 1333. [losses.Respiration]
func TestACropBreathesAsItDries(t *testing.T) {
	made, err := water.HoursOf(water.DenverShape(), water.Extremes{PrevMaxC: 27, MinC: 15, MaxC: 27, NextMinC: 15}, 23.233, 1.705, 15.187)
	if err != nil {
		t.Fatal(err)
	}
	hours := make([]curing.Hour, 24*cureDays)
	for i := range hours {
		hours[i] = curing.Hour{SolarW: made.SolarW[i%24], TempC: made.TempC[i%24], DeficitKPa: made.DeficitKP[i%24], SoilPct: 15}
	}
	for gm2, want := range map[float64]float64{571.43: 2.60, 1333.33: 3.44} {
		swath := curing.UsualSwath()
		swath.GM2, swath.Scaled, swath.Damp, swath.MowHour = gm2, false, curing.NoDamp, 9
		c, err := curing.NewCuring(swath)
		if err != nil {
			t.Fatal(err)
		}
		moisture, left, got := make([]float64, len(hours)), make([]float64, len(hours)+1), make([]curing.Harvest, 2)
		c.Run(hours, []curing.Target{{DB: 18. / 82, To: 24}, {DB: 1, To: 24}}, moisture, got)
		breathe(left, hours, moisture, 9)
		hay, wet := 100*breathedBy(left, got[0].Made), 100*breathedBy(left, got[1].Made)
		if math.Abs(hay-want) > 0.0051 {
			t.Errorf("swath of %g g/m2 breathes %.3f %% away, want %g", gm2, hay, want)
		}
		if !(wet > 0 && wet < hay) {
			t.Errorf("to baleage %.3f %%, to hay %.3f %%", wet, hay)
		}
	}
	if never, end := breathedBy([]float64{1, 0.9, 0.8}, math.NaN()), breathedBy([]float64{1, 0.9, 0.8}, 0.5); math.Abs(never-0.2)+math.Abs(end-0.05) > 1e-12 {
		t.Errorf("never made %g, half an hour %g", never, end)
	}
}

// TestSwathsAreTheSameWhoeverAsksFirst proves that what is reckoned when asked for hangs on no order.
func TestSwathsAreTheSameWhoeverAsksFirst(t *testing.T) {
	shower := func(d unit.Day) float64 { return float64(d%7) * float64(d%3) / 2 }
	one, many := mown(shower), mown(shower)
	var want []Brought
	for i := range MowAhead {
		want = append(want, one.BroughtOn(one.Date+unit.Day(i))...)
	}
	got := make([][]Brought, MowAhead)
	var all sync.WaitGroup
	for i := range MowAhead {
		all.Go(func() { got[MowAhead-1-i] = many.BroughtOn(many.Date + unit.Day(MowAhead-1-i)) })
	}
	all.Wait()
	var flat []Brought
	for _, g := range got {
		flat = append(flat, g...)
	}
	if diff := cmp.Diff(want, flat, cmp.AllowUnexported(Brought{}, fed{}, losses.Chain{}), cmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })); diff != "" {
		t.Errorf("(-one by one +together):\n%s", diff)
	}
}

// TestASwathThatLiesIsFollowedThroughWhatWasSeen proves that a lying swath is as dry as its days were,
// and that it is fit no earlier than this morning.
func TestASwathThatLiesIsFollowedThroughWhatWasSeen(t *testing.T) {
	dry := mown(never)
	wet := mown(func(d unit.Day) float64 {
		if d == unit.DateOf(2026, 5, 22) {
			return 20
		}
		return 0
	})
	target := curing.RoundBale.Target()
	a, ok1 := dry.Sky.Lies(dry.Date-3, target)
	b, ok2 := wet.Sky.Lies(wet.Date-3, target)
	if !ok1 || !ok2 {
		t.Fatal("a swath of three days is not followed")
	}
	if a.Now >= b.Now || a.RainMM != 0 || math.Abs(b.RainMM-20) > 1e-9 {
		t.Errorf("dry %g %% after %g mm, wet %g %% after %g mm", a.Now, a.RainMM, b.Now, b.RainMM)
	}
	for _, c := range a.Members {
		if c.Known && !(c.Made >= 0) && !math.IsNaN(c.Made) {
			t.Errorf("fit at hour %g of today", c.Made)
		}
	}
	if a.By(24*6) < b.By(24*6) {
		t.Errorf("by the sixth day %g dry, %g wet", a.By(24*6), b.By(24*6))
	}
	if _, ok := dry.Sky.Lies(dry.Date, target); ok {
		t.Error("a swath mown today is said to lie since before")
	}
	gap := mown(func(d unit.Day) float64 {
		if d == unit.DateOf(2026, 5, 22) {
			return math.NaN()
		}
		return 0
	})
	if _, ok := gap.Sky.Lies(gap.Date-3, target); ok {
		t.Error("a swath is followed through a day that nobody measured")
	}
}

func TestNothingIsCuredWhereTheSunIsNotKnown(t *testing.T) {
	s := mown(never)
	series := record(12, 0)
	series.Station = weather.Station{ID: "X"}
	s.Sky = NewSky(series, s.Date, SkyOptions{})
	if got := s.BroughtOn(s.Date); got != nil {
		t.Errorf("%d products brought", len(got))
	}
}

func BenchmarkBroughtOnADay(b *testing.B) {
	s := mown(func(d unit.Day) float64 { return float64(d%7) * float64(d%3) / 2 })
	s.BroughtOn(s.Date)
	b.ReportAllocs()
	for b.Loop() {
		s.BroughtOn(s.Date)
	}
}

func BenchmarkSwathsOfASky(b *testing.B) {
	s := mown(never)
	for b.Loop() {
		s.Sky.swaths = &swaths{ensemble: s.Sky.swaths.ensemble}
		for l := range lays {
			s.Sky.Cures(3, book.Hay, l)
		}
	}
}
