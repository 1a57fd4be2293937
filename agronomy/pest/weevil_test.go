package pest

import "testing"

// The starts of the state guides, F-days above 48 F since 1 January. [source.WeevilScouting]
func TestEachGuideStartsAtItsOwnHeat(t *testing.T) {
	for state, want := range map[string]float64{
		"Wisconsin": 300, "North Dakota": 300, "Manitoba": 300, "South Dakota": 300, "Pennsylvania": 300,
		"New York": 280, "Illinois": 250, "Indiana": 250, "Ohio": 250, "Iowa": 250, "Kentucky": 190,
	} {
		if got, ok := ScoutFrom(state); !ok || got != want {
			t.Errorf("%s: %g, %v, want %g", state, got, ok, want)
		}
	}
	for _, state := range []string{"", "wisconsin", "Oklahoma", "Atlantis"} { // Oklahoma counts from another base
		if got, ok := ScoutFrom(state); ok {
			t.Errorf("%q: %g, want none", state, got)
		}
	}
}

func TestStartsComeBeforeTheHeaviestFeeding(t *testing.T) {
	last := ""
	for _, s := range WeevilStarts() {
		if s.DD48 < 150 || s.DD48 >= PeakFrom {
			t.Errorf("%s starts at %g F-days, and the heaviest feeding is from %g", s.State, s.DD48, PeakFrom)
		}
		if s.State <= last {
			t.Errorf("%s stands after %s", s.State, last)
		}
		last = s.State
	}
}

// The classifier's edges as printed. [source.WeevilEvents]
func TestEventsByHeat(t *testing.T) {
	for _, c := range []struct {
		dd48      float64
		now, next string
	}{
		{0, "little activity", "adults active"}, {199.9, "little activity", "adults active"}, {200, "adults active", "instar 1"},
		{437.9, "instar 2", "instar 3"}, {439, "instar 3", "instar 4"}, {600, "cocoon", "new adults"}, {815, "new adults", ""}, {3000, "new adults", ""},
	} {
		if now, next := At(WeevilEvents(), c.dd48); now != c.now || next != c.next {
			t.Errorf("%g F-days: %q, then %q, want %q, then %q", c.dd48, now, next, c.now, c.next)
		}
	}
}
