package storage

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/unit"
)

func holds(t *rapid.T, what string, r losses.Range) {
	if !(r.Low >= 0 && r.Low <= r.Mid && r.Mid <= r.High && r.High < 1) {
		t.Errorf("%s: range %+v does not hold its middle within 0 to 1", what, r)
	}
}

func anyKeeping(t *rapid.T, as losses.Product) Keeping {
	k := Keeping{
		Wrap: Wrap(rapid.SampledFrom(Wraps()).Draw(t, "wrap")), Density: rapid.SampledFrom([]float64{0, 8, 14, 25}).Draw(t, "density"),
		FaceInches: rapid.SampledFrom([]float64{0, 2, 6, 18}).Draw(t, "face"), WarmSeason: rapid.Bool().Draw(t, "warm"), Feeder: Feeder(rapid.SampledFrom(Feeders()).Draw(t, "feeder")),
	}
	stores := map[losses.Product][]string{losses.Hay: Places(), losses.Baleage: {string(WrappedBale)}, losses.Haylage: Structures()[:5]}[as]
	k.Store = rapid.SampledFrom(stores).Draw(t, "store")
	return k
}

// TestStorageNeverGainsDryMatter proves that from field to bunk each step only takes, that what was
// lost and what is eaten add to what stood, component by component, and that ranges hold their middle.
func TestStorageNeverGainsDryMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		as := losses.Product(rapid.SampledFrom(losses.Products()).Draw(t, "as"))
		lowest, highest := 8.0, 40.0
		if as != losses.Hay {
			lowest, highest = 26, 78
		}
		moisture := rapid.Float64Range(lowest, highest).Draw(t, "moisture")
		ndf := rapid.Float64Range(30, 60).Draw(t, "ndf")
		standing := losses.Feed{DM: 4, Composition: losses.Composition{NDF: ndf, ADF: 0.75 * ndf, CP: rapid.Float64Range(8, 28).Draw(t, "cp")}}
		field, err := losses.Published().Bring(standing, losses.Harvest{As: as, Moisture: moisture, YieldTHa: 4, Crop: losses.Alfalfa, By: losses.Round, RainMM: rapid.Float64Range(0, 60).Draw(t, "rain")})
		if err != nil {
			t.Fatal(err)
		}
		c, err := Published().ToBunk(field, as, moisture, anyKeeping(t, as))
		if err != nil {
			t.Fatal(err)
		}
		dm, fibre, protein := c.Left().DM, c.Left().DM*c.Left().NDF, c.Left().DM*c.Left().CP
		for _, s := range c.Steps {
			if s.After.DM > s.Before.DM*(1+1e-12) {
				t.Errorf("%s gained dry matter", s.Name)
			}
			holds(t, s.Name, s.Share)
			dm, fibre, protein = dm+s.Lost.DM, fibre+s.Lost.DM*s.Lost.NDF, protein+s.Lost.DM*s.Lost.CP
		}
		for _, b := range [][2]float64{{dm, 4}, {fibre, 4 * standing.NDF}, {protein, 4 * standing.CP}} {
			if math.Abs(b[0]-b[1]) > 1e-9*b[1] {
				t.Errorf("%g found again of %g", b[0], b[1])
			}
		}
	})
}

func TestWetterHayNeverKeepsBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place, wrap := Place(rapid.SampledFrom(Places()).Draw(t, "place")), Wrap(rapid.SampledFrom(Wraps()).Draw(t, "wrap"))
		dry := rapid.Float64Range(5, 40).Draw(t, "dry")
		wet := rapid.Float64Range(dry, 40).Draw(t, "wet")
		a, err := PublishedHayStore().Loss(dry, place, wrap)
		b, err2 := PublishedHayStore().Loss(wet, place, wrap)
		in, err3 := PublishedHayStore().Loss(dry, Inside, wrap)
		if err != nil || err2 != nil || err3 != nil {
			t.Fatal(err, err2, err3)
		}
		if b.Share.Mid < a.Share.Mid || a.Share.Mid < in.Share.Mid {
			t.Errorf("%s at %g %%: %g, at %g %%: %g, inside %g", place, dry, a.Share.Mid, wet, b.Share.Mid, in.Share.Mid)
		}
		holds(t, string(place), a.Share)
	})
}

func TestTighterSilageAndAFasterFaceNeverLoseMore(t *testing.T) {
	k, f := PublishedSilageStore(), PublishedFeedOut()
	rapid.Check(t, func(t *rapid.T) {
		loose := rapid.Float64Range(2, 40).Draw(t, "loose")
		tight := rapid.Float64Range(loose, 40).Draw(t, "tight")
		if k.ByDensity(tight) > k.ByDensity(loose) {
			t.Errorf("%g lb: %g, %g lb: %g", loose, k.ByDensity(loose), tight, k.ByDensity(tight))
		}
		slow := rapid.Float64Range(0.1, 60).Draw(t, "slow")
		a, _ := f.Loss(slow, false)
		b, _ := f.Loss(rapid.Float64Range(slow, 60).Draw(t, "fast"), false)
		warm, _ := f.Loss(slow, true)
		if b.Share.Mid > a.Share.Mid || warm.Share.Mid < a.Share.Mid {
			t.Errorf("slow %g, fast %g, warm %g", a.Share.Mid, b.Share.Mid, warm.Share.Mid)
		}
	})
}

// TestFeedValueFallsAsPrintedFromFieldToStore holds the balance, which knows nothing of it, against
// the falls that Iowa, Wisconsin and North Dakota print: 15 to 30 points to hay, 10 to 20 to haylage,
// for a crop standing at RFV 165 to 175. Feeding, which takes the feed as it is, is left in.
func TestFeedValueFallsAsPrintedFromFieldToStore(t *testing.T) {
	standing := losses.Feed{DM: 4, Composition: losses.Composition{NDF: 36.7, ADF: 27.8, CP: 21}}
	for _, tc := range []struct {
		as        losses.Product
		moisture  float64
		store     string
		low, high float64
	}{
		{losses.Hay, 16, string(Inside), 15, 30},
		{losses.Haylage, 52, string(SealedTower), 10, 20},
	} {
		field, err := losses.Published().Bring(standing, losses.Harvest{As: tc.as, Moisture: tc.moisture, YieldTHa: 4, Crop: losses.Alfalfa, By: losses.SmallSquare})
		if err != nil {
			t.Fatal(err)
		}
		c, err := Published().ToBunk(field, tc.as, tc.moisture, Keeping{Store: tc.store, Wrap: Twine, Feeder: FeedBunk})
		if err != nil {
			t.Fatal(err)
		}
		if fall := standing.RFV() - c.RFV().Mid; fall < tc.low || fall > tc.high {
			t.Errorf("%s: RFV falls by %.1f from %.0f, printed %g to %g", tc.as, fall, standing.RFV(), tc.low, tc.high)
		}
	}
}

func TestAStoreThatDoesNotFitTheProductIsRefused(t *testing.T) {
	field, err := losses.Published().Bring(losses.Feed{DM: 4, Composition: losses.Composition{NDF: 40, ADF: 30, CP: 20}}, losses.Harvest{As: losses.Haylage, Moisture: 62, YieldTHa: 4, Crop: losses.Alfalfa})
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		as losses.Product
		k  Keeping
	}{
		{losses.Haylage, Keeping{Store: "inside", Feeder: FeedBunk}},
		{losses.Haylage, Keeping{Store: "wrapped-bale", Feeder: FeedBunk}},
		{losses.Baleage, Keeping{Store: "bunker", Feeder: FeedBunk}},
		{losses.Haylage, Keeping{Store: "bag", Feeder: "trough"}},
		{losses.Haylage, Keeping{Store: "bag", Density: -1, Feeder: FeedBunk}},
		{losses.Haylage, Keeping{Store: "bag", FaceInches: 300, Feeder: FeedBunk}},
	} {
		if _, err := Published().ToBunk(field, tc.as, 62, tc.k); err == nil {
			t.Errorf("%s kept as %+v was taken", tc.as, tc.k)
		}
	}
}

// TestHotterHayNeverGetsACalmerAction proves that levels rise with temperature, and that from 140 F on
// the fire service is told of before anything is moved.
func TestHotterHayNeverGetsACalmerAction(t *testing.T) {
	order := []string{"normal", "warm", "heating", "take-apart", "danger", "flare-up", "hot-spots", "flames", "fire"}
	before := 0
	for f := unit.Fahrenheit(-60); f <= 260; f += 0.25 {
		h, err := Hay(f)
		if err != nil {
			t.Fatal(err)
		}
		at := slices.Index(order, h.Level)
		if at < before {
			t.Fatalf("%g F is %s after %s", float64(f), h.Level, order[before])
		}
		before = at
		action, cautions := h.Told.Say()
		if !slices.Contains(cautions, NeverAlone) || !slices.Contains(cautions, SmellIsFire) {
			t.Fatalf("%g F: cautions are missing: %q", float64(f), cautions)
		}
		if f >= 140 && (!strings.Contains(action, "fire service") || !slices.Contains(cautions, CallFirst)) {
			t.Fatalf("%g F: %q with %q does not call first", float64(f), action, cautions)
		}
	}
	if order[before] != "fire" {
		t.Errorf("the hottest is %s", order[before])
	}
	for _, bad := range []unit.Fahrenheit{unit.Fahrenheit(math.NaN()), 3000, -100} {
		if _, err := Hay(bad); err == nil {
			t.Errorf("%g F was taken", float64(bad))
		}
	}
}

// TestNothingDangerousIsToldWithoutCautions goes through all that is told.
func TestNothingDangerousIsToldWithoutCautions(t *testing.T) {
	var told []Told
	for _, h := range heatings() {
		told = append(told, h.Told)
	}
	for _, p := range Packages() {
		for m := 5.0; m <= 80; m += 0.5 {
			v, d, err := PublishedBaling().Judge(Package(p), m)
			if err != nil {
				t.Fatal(err)
			}
			_, cautions := d.Say()
			if v == Treat && !slices.Contains(cautions, LabelRules) {
				t.Errorf("%s at %g %%: treat without the label", p, m)
			}
			if m > 25 && !slices.Contains(cautions, NotInside) {
				t.Errorf("%s at %g %%: may go inside", p, m)
			}
			told = append(told, d)
		}
	}
	for d := range unit.Day(60) {
		s, err := PublishedGas().Filled(0, d)
		if err != nil {
			t.Fatal(err)
		}
		told = append(told, s.Told)
	}
	p, err := ProtocolFor(SilageStock)
	if err != nil {
		t.Fatal(err)
	}
	told = append(told, p.Told)
	for _, d := range told {
		action, cautions := d.Say()
		if action == "" || len(cautions) == 0 || len(d.Lines()) != 1+len(cautions) {
			t.Errorf("%q is told with %d cautions", action, len(cautions))
		}
		for _, r := range []string{"% of bale weight", "lb a ton", "pounds per ton"} {
			if strings.Contains(action, r) {
				t.Errorf("%q gives a rate of preservative", action)
			}
		}
	}
	// Striking out what was handed over strikes nothing out of the instruction.
	h, _ := Hay(180)
	_, c := h.Told.Say()
	clear(c)
	if _, again := h.Told.Say(); again[0] == "" {
		t.Error("a caution was dropped from outside")
	}
}

// TestLimitsAreTheLowestOfTheTables: where tables differ the lower upper end is the most, and advice
// never lies above it.
func TestLimitsAreTheLowestOfTheTables(t *testing.T) {
	k := PublishedBaling()
	for _, p := range Packages() {
		l, err := k.Of(Package(p))
		if err != nil {
			t.Fatal(err)
		}
		lowest := math.Inf(1)
		for _, tab := range l.Tables {
			lowest = min(lowest, tab.High)
		}
		if l.Max != lowest || l.Target > l.Max || l.Treated < l.Target || len(l.Tables) < 2 {
			t.Errorf("%s: most %g and target %g, lowest table %g", p, l.Max, l.Target, lowest)
		}
	}
}

func TestASiloIsNeverSafeAndNeverAskedAboutBeforeItIsFilled(t *testing.T) {
	if _, err := PublishedGas().Filled(10, 9); err == nil {
		t.Error("a day before filling was taken")
	}
	s, err := PublishedGas().Filled(0, 4000)
	if err != nil {
		t.Fatal(err)
	}
	if _, cautions := s.Told.Say(); s.Stage != "guarded" || !slices.Contains(cautions, GasMeterFirst) {
		t.Errorf("years later: %s, %q", s.Stage, cautions)
	}
}
