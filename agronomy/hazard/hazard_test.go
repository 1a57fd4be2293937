package hazard

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/caution"
)

// TestMoreNitrateNeverAllowsMore, and pregnant animals are never allowed more than others.
func TestMoreNitrateNeverAllowsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ppm := rapid.Float64Range(0, 6000).Draw(t, "ppm")
		more := ppm + rapid.Float64Range(0, 2000).Draw(t, "more")
		share := func(ppm float64, a Animal) float64 {
			n, err := PublishedLimits().Judge(ppm, a)
			if err != nil {
				t.Fatal(err)
			}
			return n.Share
		}
		for _, a := range []Animal{Pregnant, Open} {
			if share(more, a) > share(ppm, a) {
				t.Fatalf("%s: %g ppm allows less than %g", a, ppm, more)
			}
		}
		if share(ppm, Pregnant) > share(ppm, Open) {
			t.Fatalf("%g ppm allows pregnant animals more", ppm)
		}
	})
}

func TestABlendStaysAtItsLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, limit := rapid.Float64Range(0, 9000).Draw(t, "a"), rapid.Float64Range(0, 3000).Draw(t, "b"), rapid.Float64Range(100, 4000).Draw(t, "limit")
		share, ok := Blend(a, b, limit)
		if ok != (b <= limit) {
			t.Fatalf("b %g, limit %g: ok %t", b, limit, ok)
		}
		if ok && (share < 0 || share > 1 || share*a+(1-share)*b > limit*(1+1e-9)) {
			t.Fatalf("share %g of %g with %g is over %g", share, a, b, limit)
		}
	})
}

// Nothing that speaks of grazing comes without bloat, frost and the veterinarian.
func TestGrazingIsToldWithItsCautions(t *testing.T) {
	_, c := TellGraze("Graze.").Say()
	for _, want := range []caution.Caution{NeverHungry, BloatCall, FrostWait, SprayedNoFeed} {
		if !slices.Contains(c, want) {
			t.Errorf("%v is missing", want)
		}
	}
}
