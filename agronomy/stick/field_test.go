package stick_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"haywarden/agronomy/stick"
	"haywarden/agronomy/unit"
)

// fiveSpots is a worked example: the printed table gives 168, 185, 156, 171 and 172.
var fiveSpots = []stick.Reading{{27, stick.Bud}, {25, stick.Vegetative}, {30, stick.Bud}, {28, stick.Vegetative}, {26, stick.Bud}}

func near(abs float64) cmp.Option { return cmpopts.EquateApprox(0, abs) }

func TestFiveSpotsAreAveragedByTheirResults(t *testing.T) {
	f, err := published.Field(fiveSpots, 1)
	if err != nil {
		t.Fatal(err)
	}
	want := stick.Field{
		RFV: 170.27, NDF: 36.97, ADF: 27.45, SpotSE: 4.602, SpotSENDF: 0.75,
		MethodSD: 13.454, SD: 14.220, SDNDF: math.Hypot(0.75, 2.2), N: 5,
	}
	if diff := cmp.Diff(want, f, near(0.006)); diff != "" {
		t.Errorf("five spots (-want +got):\n%s", diff)
	}
	ofMeans := published.RFV(stick.Composition{NDF: f.NDF, ADF: f.ADF})
	if math.Abs(ofMeans-169.90) > 0.006 {
		t.Errorf("RFV of the mean composition %.3f, want 169.90", ofMeans)
	}
}

func TestOneSpotTakesTheUsualSpread(t *testing.T) {
	f, err := published.Field(fiveSpots[:1], 1)
	if err != nil {
		t.Fatal(err)
	}
	if f.SpotSE != 8 {
		t.Errorf("spot error %g RFV, want 8", f.SpotSE)
	}
	// The same spread in NDF: a field whose stems differ in height by that much differs by 8 RFV.
	up, down := published.At(27*2.54+f.SpotSENDF/0.27, 3.5), published.At(27*2.54-f.SpotSENDF/0.27, 3.5)
	if d := (published.RFV(down) - published.RFV(up)) / 2; math.Abs(d-8) > 0.1 {
		t.Errorf("spot error %.2f NDF is %.2f RFV, want 8", f.SpotSENDF, d)
	}
}

func TestHeightsOutsideTheTableAreCounted(t *testing.T) {
	f, err := published.Field([]stick.Reading{{15.9, stick.Bud}, {16, stick.Bud}, {40, stick.Flower}, {40.1, stick.Flower}}, 2)
	if err != nil {
		t.Fatal(err)
	}
	if f.OutOfTested != 2 {
		t.Errorf("%d readings outside the table, want 2", f.OutOfTested)
	}
}

func TestBadReadingsAreRefused(t *testing.T) {
	tests := []struct {
		name     string
		readings []stick.Reading
		cut      int
		says     []string
	}{
		{"none", nil, 1, []string{"no readings"}},
		{"cut 0", fiveSpots, 0, []string{"cut 0", "from 1"}},
		{"too short", []stick.Reading{{27, stick.Bud}, {3.9, stick.Bud}}, 1, []string{"reading 2", "height 3.9 in", "4 to 60 in"}},
		{"too tall", []stick.Reading{{60.5, stick.Bud}}, 1, []string{"reading 1", "4 to 60 in"}},
		{"no number", []stick.Reading{{unit.Inch(math.NaN()), stick.Bud}}, 1, []string{"reading 1", "4 to 60 in"}},
		{"unknown stage", []stick.Reading{{27, "bloom"}}, 1, []string{"reading 1", `"bloom"`, "vegetative, bud or flower"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f, err := published.Field(tt.readings, tt.cut)
			if err == nil {
				t.Fatalf("accepted: %+v", f)
			}
			for _, s := range tt.says {
				if !strings.Contains(err.Error(), s) {
					t.Errorf("%q does not say %q", err, s)
				}
			}
		})
	}
}

func drawReading(sameStage bool) *rapid.Generator[[]stick.Reading] {
	return rapid.Custom(func(t *rapid.T) []stick.Reading {
		stage := rapid.SampledFrom(classes)
		first := stage.Draw(t, "stage")
		var readings []stick.Reading
		for _, h := range rapid.SliceOfN(rapid.Float64Range(4, 60), 2, 12).Draw(t, "heights") {
			s := first
			if !sameStage {
				s = stage.Draw(t, "stage")
			}
			readings = append(readings, stick.Reading{Height: unit.Inch(h), Stage: s})
		}
		return readings
	})
}

// TestUnevenFieldsFeedBetterThanTheirMean proves why RFV is averaged and not computed from the mean
// composition. With stages mixed, two spots of almost equal fibre can lean the other way by less than
// a hundredth of a point.
func TestUnevenFieldsFeedBetterThanTheirMean(t *testing.T) {
	for name, tt := range map[string]struct {
		same  bool
		slack float64
	}{"one stage": {true, 1e-9}, "stages mixed": {false, 0.01}} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				f, err := published.Field(drawReading(tt.same).Draw(t, "readings"), 1)
				if err != nil {
					t.Fatal(err)
				}
				if ofMeans := published.RFV(stick.Composition{NDF: f.NDF, ADF: f.ADF}); f.RFV < ofMeans-tt.slack {
					t.Fatalf("mean RFV %g is under that of the means, %g", f.RFV, ofMeans)
				}
			})
		})
	}
}

func TestFieldLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		readings := drawReading(false).Draw(t, "readings")
		f, err := published.Field(readings, 1)
		if err != nil {
			t.Fatal(err)
		}
		if f.SD < f.SpotSE || f.SD < f.MethodSD {
			t.Fatalf("both errors together, %g, are less than one of %g and %g", f.SD, f.SpotSE, f.MethodSD)
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, r := range readings {
			c, err := published.Spot(r.Height, r.Stage)
			if err != nil {
				t.Fatal(err)
			}
			low, high = min(low, published.RFV(c)), max(high, published.RFV(c))
		}
		if f.RFV < low-1e-9 || f.RFV > high+1e-9 {
			t.Fatalf("mean %g lies outside its spots, %g to %g", f.RFV, low, high)
		}
		again, err := published.Field(append(readings, readings...), 1)
		if err != nil {
			t.Fatal(err)
		}
		if again.SpotSE > f.SpotSE+1e-9 {
			t.Fatalf("reading every spot twice widens the spot error from %g to %g", f.SpotSE, again.SpotSE)
		}
		if math.Abs(again.MethodSD-f.MethodSD) > 1e-9 {
			t.Fatalf("more spots move the error of the method from %g to %g", f.MethodSD, again.MethodSD)
		}
	})
}

func FuzzParseStage(f *testing.F) {
	for _, s := range []string{"bud", " Flower ", "VEGETATIVE", "bloom", "", "bud\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		st, err := stick.ParseStage(s)
		if err != nil {
			if !strings.Contains(err.Error(), "vegetative, bud or flower") {
				t.Errorf("%q: %v does not name the accepted words", s, err)
			}
			return
		}
		if again, err := stick.ParseStage(string(st)); err != nil || again != st {
			t.Errorf("%q is read as %q, which is read as %q, %v", s, st, again, err)
		}
	})
}

func BenchmarkField(b *testing.B) {
	for b.Loop() {
		if _, err := published.Field(fiveSpots, 1); err != nil {
			b.Fatal(err)
		}
	}
}
