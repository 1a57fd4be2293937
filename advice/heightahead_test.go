package advice_test

import (
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// theStand is a stand of the invented district on a day.
func theStand(t *testing.T, name string, on unit.Day) *outlook.Stand {
	t.Helper()
	for _, s := range districtRound(t, on).Outlook.Stands {
		if s.Named() == name {
			return s
		}
	}
	t.Fatalf("no stand is called %s", name)
	return nil
}

func TestHeightAheadGrowsAndMeetsItsCutWithinTheWindow(t *testing.T) {
	s := theStand(t, "Lanternfield · Mill Lot", unit.DateOf(2026, 5, 5))
	bands, cutAt, ok := advice.HeightAhead(s, 21)
	if !ok || len(bands) != 21 {
		t.Fatalf("%d days, ok %v", len(bands), ok)
	}
	for i, b := range bands {
		for k := 1; k < 5; k++ {
			if b[k] < b[k-1] {
				t.Errorf("day %d: shares out of order: %v", i, b)
			}
		}
		if i > 0 && b[2] < bands[i-1][2] {
			t.Errorf("day %d: the middle shrinks from %.1f to %.1f in", i, bands[i-1][2], b[2])
		}
	}
	w := advice.MixtureCut(s, nil).Window
	for _, day := range []struct {
		on    unit.Day
		share int // of the bands: the chance of having reached the height grows with time
	}{{w.Early, 4}, {w.Middle, 2}, {w.Late, 0}} {
		i := int(day.on - s.Date)
		if i < 1 || i >= len(bands)-1 {
			t.Fatalf("the window %v leaves the days looked at", *w)
		}
		// The height that this share of chances reaches passes the trigger about that day.
		if bands[i-1][day.share] > cutAt+1 || bands[i+1][day.share] < cutAt-1 {
			t.Errorf("%s: heights %.1f and %.1f in around it do not straddle %.0f in", day.on, bands[i-1][day.share], bands[i+1][day.share], cutAt)
		}
	}
}

func TestHeightAheadIsSaidOfFirstGrowthOfMixturesOnly(t *testing.T) {
	for name, on := range map[string]unit.Day{
		"Ottermoss · Long Meadow":      unit.DateOf(2026, 5, 5),
		"Tansy Hollow · Orchard Piece": unit.DateOf(2026, 5, 5),
		"Lanternfield · Mill Lot":      unit.DateOf(2026, 7, 5),
	} {
		if _, _, ok := advice.HeightAhead(theStand(t, name, on), 14); ok {
			t.Errorf("%s on %s is judged by height", name, on)
		}
	}
}
