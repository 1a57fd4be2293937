package stand

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func TestClassEdges(t *testing.T) {
	for stems, want := range map[float64]Class{
		0: Replace, 39: Replace, 39.94: Replace,
		39.96: SomeLoss, // shown as 40.0, and judged as shown
		40:    SomeLoss, 54.9: SomeLoss,
		54.96: Full, 55: Full, 90: Full,
	} {
		if got := PublishedStems().Class(stems); got != want {
			t.Errorf("%g stems: %s, want %s", stems, got, want)
		}
	}
}

// A published loss that the line must give: 1.5 tons/ac at 40 stems. [source.StemLoss]
func TestLossAtFortyStemsIsWhatNebraskaPrints(t *testing.T) {
	if loss := YieldPotential(55) - YieldPotential(40); !near(loss, 1.5, 1e-12) {
		t.Errorf("%g tons/ac, printed 1.5", loss)
	}
}

func TestFramesByAcres(t *testing.T) {
	for acres, want := range map[float64]int{0.5: 5, 8: 5, 25: 5, 26: 6, 40: 8, 100: 20} {
		if got := PublishedStems().Frames(acres); got != want {
			t.Errorf("%g acres: %d frames, want %d", acres, got, want)
		}
	}
}

func TestOneFrameIsSaidToBeOne(t *testing.T) {
	s, err := AssessStems([]float64{47}, 12)
	if err != nil {
		t.Fatal(err)
	}
	if s.Known() || !math.IsNaN(s.ChanceBelow40) || !math.IsNaN(s.ChanceBelow55) || s.Mean != 47 || s.Class != SomeLoss || s.MoreFrames != 4 {
		t.Errorf("%+v", s)
	}
}

func TestABareFieldNeedsNoMoreFrames(t *testing.T) {
	s, err := AssessStems([]float64{0, 0, 0}, 12)
	if err != nil {
		t.Fatal(err)
	}
	if s.Class != Replace || s.MoreFrames != 0 || s.ChanceBelow40 != 1 || !near(s.YieldPotential, 0.38, 1e-12) {
		t.Errorf("%+v", s)
	}
}

func TestCountsThatCannotBeAreRefused(t *testing.T) {
	for name, c := range map[string]struct {
		perFt2 []float64
		acres  float64
		want   string
	}{
		"nothing":           {nil, 10, "no count is given: at least one spot is wanted, two for an interval"},
		"a frame missing":   {[]float64{40, math.NaN()}, 10, "frame 2: NaN stems a square foot; accepted 0 to 200"},
		"less than nothing": {[]float64{-1}, 10, "frame 1: -1 stems a square foot; accepted 0 to 200"},
		"not divided":       {[]float64{40, 250}, 10, "frame 2: 250 stems a square foot; accepted 0 to 200"},
		"no field":          {[]float64{40}, 0, "acres 0: want the size of the field, more than 0"},
		"field not known":   {[]float64{40}, math.NaN(), "acres NaN: want the size of the field, more than 0"},
	} {
		if _, err := AssessStems(c.perFt2, c.acres); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}

func TestMoreStemsAreNeverWorse(t *testing.T) {
	order := []Class{Replace, SomeLoss, Full}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 20).Draw(t, "stems")
		more := rapid.Float64Range(0, 50).Draw(t, "more")
		a, err := AssessStems(x, 20)
		if err != nil {
			t.Fatal(err)
		}
		thicker := slices.Clone(x)
		for i := range thicker {
			thicker[i] += more
		}
		b, err := AssessStems(thicker, 20)
		if err != nil {
			t.Fatal(err)
		}
		if slices.Index(order, b.Class) < slices.Index(order, a.Class) || b.YieldPotential < a.YieldPotential-1e-9 {
			t.Fatalf("%+v, with %g more %+v", a, more, b)
		}
		if a.Known() && (b.ChanceBelow40 > a.ChanceBelow40+1e-9 || a.ChanceBelow40 > a.ChanceBelow55+1e-12) {
			t.Fatalf("chances: %+v, with more %+v", a, b)
		}
		if most := PublishedStems().Most; a.MoreFrames < 0 || a.MoreFrames > 0 && a.N+a.MoreFrames > most {
			t.Fatalf("%d frames and %d more", a.N, a.MoreFrames)
		}
	})
}

// The frames asked for are enough where the spread stays as it was.
func TestFramesAskedForBringTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(30, 70), 3, 10).Draw(t, "stems")
		s, err := AssessStems(x, 20)
		if err != nil {
			t.Fatal(err)
		}
		k := PublishedStems()
		switch {
		case s.MoreFrames == 0 && s.N < k.Most && s.HalfWidth() > k.HalfWidth+1e-9:
			t.Fatalf("half-width %g and no more frames asked for", s.HalfWidth())
		case s.MoreFrames > 0 && s.HalfWidth() <= k.HalfWidth:
			t.Fatalf("half-width %g and %d more frames asked for", s.HalfWidth(), s.MoreFrames)
		}
	})
}

// Midwest trials: -17 % in the third and -34 % in the fourth production year. [source.YieldByAge]
func TestYieldByAge(t *testing.T) {
	got := make([]float64, 6)
	for i := range got {
		got[i] = YieldByAge(i + 1)
	}
	if diff := cmp.Diff([]float64{1.00, 1.02, 0.83, 0.66, 0.52, 0.41}, got); diff != "" {
		t.Errorf("shares of the first year (-want +got):\n%s", diff)
	}
	if y := YieldByAge(8); !near(y, 0.41*0.79*0.79, 1e-12) {
		t.Errorf("year 8: %g", y)
	}
	for _, year := range []int{0, -1} {
		if y := YieldByAge(year); !math.IsNaN(y) {
			t.Errorf("year %d: %g, want NaN", year, y)
		}
	}
	for year := 3; year < 20; year++ {
		if !(YieldByAge(year) < YieldByAge(year-1)) {
			t.Errorf("year %d does not yield less than the year before", year)
		}
	}
	for year, want := range map[int]source.ID{1: source.YieldByAge, 4: source.YieldByAge, 5: source.YieldOldAge, 9: source.YieldOldAge} {
		if id := YieldByAgeSource(year); id != want {
			t.Errorf("year %d leans on %s, want %s", year, id, want)
		}
	}
}

func TestFirstCutShareLiesInThePrintedRange(t *testing.T) {
	if s := FirstCutShare(); s < 0.35 || s > 0.40 {
		t.Errorf("%g, printed 0.35 to 0.40", s)
	}
}

func TestMatrix(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		class             Class
		roots, grass, age float64
		want              Action
	}{
		"full, sound":               {Full, 0.10, 0, 3, Keep},
		"full, 30 % bad":            {Full, 0.30, 0, 3, Keep},
		"full, 31 % bad":            {Full, 0.31, 0, 3, KeepThenTurn},
		"full, half bad":            {Full, 0.50, 0, 3, KeepThenTurn},
		"full, more than half":      {Full, 0.51, 0, 3, FirstCutThenTurn},
		"some loss, sound":          {SomeLoss, 0.2, 0, 3, KeepIfNeeded},
		"some loss, 40 % bad":       {SomeLoss, 0.4, 0, 3, FirstCutThenTurnOrThicken},
		"some loss, 60 % bad":       {SomeLoss, 0.6, 0, 3, TurnUnder},
		"thin, sound, old":          {Replace, 0.2, 0.1, 4, TurnUnder},
		"thin, sound, young":        {Replace, 0.2, 0.1, 1, KeepIfNeeded},
		"thin, sound, grass":        {Replace, 0.2, 0.4, 4, KeepIfNeeded},
		"thin, bad roots, grass":    {Replace, 0.4, 0.6, 1, TurnUnder},
		"thin, nothing else known":  {Replace, nan, nan, nan, TurnUnder},
		"full, roots not looked at": {Full, nan, nan, nan, Keep},
		"no class":                  {"", 0.1, 0, 3, ""},
	} {
		v := Matrix(c.class, c.roots, c.grass, c.age)
		if v.Action != c.want {
			t.Errorf("%s: %s, want %s", name, v.Action, c.want)
		}
		if missing := math.IsNaN(c.roots) || c.class == ""; missing != (v.Ask != "") {
			t.Errorf("%s: asks %q", name, v.Ask)
		}
		if c.class != "" && !strings.Contains(v.Because, string(c.class)) {
			t.Errorf("%s: because %q does not name the class", name, v.Because)
		}
	}
}

// Worse roots never speak for keeping a stand longer.
func TestWorseRootsNeverKeepAStand(t *testing.T) {
	order := []Action{Keep, KeepThenTurn, KeepIfNeeded, FirstCutThenTurnOrThicken, FirstCutThenTurn, TurnUnder}
	rapid.Check(t, func(t *rapid.T) {
		class := rapid.SampledFrom([]Class{Full, SomeLoss, Replace}).Draw(t, "class")
		roots := rapid.Float64Range(0, 1).Draw(t, "bad roots")
		worse := rapid.Float64Range(roots, 1).Draw(t, "worse")
		grass, age := rapid.Float64Range(0, 1).Draw(t, "grass"), rapid.Float64Range(0, 8).Draw(t, "age")
		a, b := Matrix(class, roots, grass, age).Action, Matrix(class, worse, grass, age).Action
		if slices.Index(order, b) < slices.Index(order, a) {
			t.Fatalf("%s at %g, %s at %g", a, roots, b, worse)
		}
	})
}

func run(t *testing.T, counts []float64, acres float64) *method.Call {
	t.Helper()
	m := Methods()[0]
	c := method.NewCall(m, nil)
	c.SetList("counts", counts)
	c.SetNum("frame", 2)
	c.SetNum("acres", acres)
	if err := m.Run(c); err != nil {
		t.Fatal(err)
	}
	return c
}

func TestStemCountSaysWhatIsThin(t *testing.T) {
	for name, c := range map[string]struct {
		counts []float64
		acres  float64
		note   string // the one note, empty for none
		spread bool
	}{
		"one frame":        {[]float64{94}, 30, "one frame gives a mean without an interval: throw 5 more", false},
		"too few frames":   {[]float64{94, 100, 90}, 60, "a field of 60 acres wants 12 frames at least, and 3 were thrown", true},
		"enough":           {[]float64{94, 100, 90, 96, 92}, 20, "", true},
		"frames apart":     {[]float64{0, 120, 2, 4, 0}, 20, "the interval reaches below 0: the frames differ too much for so few", true},
		"nothing anywhere": {[]float64{0, 0, 0, 0, 0}, 20, "", true},
	} {
		got := run(t, c.counts, c.acres)
		var want []string
		if c.note != "" {
			want = []string{c.note}
		}
		if diff := cmp.Diff(want, got.Notes()); diff != "" {
			t.Errorf("%s, notes (-want +got):\n%s", name, diff)
		}
		if _, answered := got.Outputs()["lo95"]; answered != c.spread {
			t.Errorf("%s: interval answered %v", name, answered)
		}
		if cv, answered := got.Outputs()["cv"]; answered && math.IsNaN(cv.(float64)) {
			t.Errorf("%s: a CV that is no number was answered", name)
		}
	}
}

// A stand is even up to a spread of 0.25 of the mean between frames, patchy up to 0.40 (a choice).
func TestEvennessIsOfTheSpreadBetweenFrames(t *testing.T) {
	for want, frames := range map[Evenness][]float64{Even: {50, 52, 48, 51, 49}, Patchy: {70, 30, 50, 40, 60}, VeryPatchy: {90, 10, 50, 20, 80}} {
		c, err := AssessStems(frames, 20)
		if got, ok := c.Evenness(); err != nil || !ok || got != want {
			t.Errorf("%v: %s, %t, %v; want %s", frames, got, ok, err, want)
		}
	}
	c, err := AssessStems([]float64{50}, 20)
	if _, ok := c.Evenness(); err != nil || ok {
		t.Errorf("one frame tells of evenness: %v", err)
	}
}
