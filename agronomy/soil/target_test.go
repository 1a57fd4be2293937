package soil_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
)

func TestTargetsAreThePrintedOnes(t *testing.T) {
	for _, c := range []struct {
		state   string
		crop    soil.Crop
		subsoil float64
		want    float64
	}{
		{"Ohio", soil.Alfalfa, 6.4, 6.5}, {"Ohio", soil.Alfalfa, 5.6, 6.8}, {"Ohio", soil.Alfalfa, 0, 6.8}, {"Ohio", soil.RedClover, 6.4, 6.0}, {"Ohio", soil.RedClover, 5.5, 6.8},
		{"Wisconsin", soil.Alfalfa, 0, 6.8}, {"Wisconsin", soil.RedClover, 0, 6.3}, {"Iowa", soil.Alfalfa, 0, 6.9}, {"Pennsylvania", soil.Alfalfa, 0, 7.0}, {"Pennsylvania", soil.RedClover, 0, 6.5},
		{"Minnesota", soil.RedClover, 0, 6.0}, {"Illinois", soil.Alfalfa, 0, 6.5}, {"Kansas", soil.Alfalfa, 0, 6.8}, {"Michigan", soil.Alfalfa, 0, 6.3}, {"West Virginia", soil.RedClover, 0, 5.8},
		{"Indiana", soil.Alfalfa, 0, 6.8}, {"Elsewhere", soil.Alfalfa, 0, 6.5}, {"Elsewhere", soil.RedClover, 0, 6.0},
	} {
		if got := soil.TargetOf(c.state, c.crop, c.subsoil); got.PH != c.want {
			t.Errorf("%s, %s over a subsoil of %g: %g, printed %g", c.state, c.crop, c.subsoil, got.PH, c.want)
		}
	}
	// Ohio limes alfalfa under 6.2 to 6.3 where 6.5 is wanted [Lentz & Culman].
	ohio := soil.TargetOf("Ohio", soil.Alfalfa, 6.4)
	if ohio.Short(6.4) || ohio.Short(6.3) || !ohio.Short(6.2) {
		t.Error("lime is due from more than 0.2 under the target on")
	}
}

// A made-up guide: what a user would type in.
func typed() soil.BufferLines {
	return soil.BufferLines{Guide: soil.LimeWisconsin, Basis: "60-69 lime", Depth: 7, Lines: []soil.BufferLine{{Target: 6.8, A: 64, B: 7, C: 2}, {Target: 6.5, A: 48, B: 5, C: 2}}}
}

func TestTypedLinesAreReadAndChecked(t *testing.T) {
	for name, c := range map[string]struct {
		s    soil.AcidSoil
		want float64
	}{
		"own target":                          {soil.AcidSoil{PH: 6, Buffer: 6.5, Target: 6.8}, 64 - 45.5 - 12},
		"the next target up":                  {soil.AcidSoil{PH: 6, Buffer: 6.5, Target: 6.3}, 48 - 32.5 - 12},
		"at the target none":                  {soil.AcidSoil{PH: 6.8, Buffer: 6.5, Target: 6.8}, 0},
		"twice the depth takes twice as much": {soil.AcidSoil{PH: 6, Buffer: 6.6, Target: 6.5, Depth: 10.5}, 1.5 * (48 - 33 - 12)},
	} {
		got, err := typed().Need(c.s)
		if err != nil || !near(float64(got.Tons), c.want, 1e-9) {
			t.Errorf("%s: %g tons, want %g (%v)", name, float64(got.Tons), c.want, err)
		}
	}
	for want, change := range map[string]func(*soil.BufferLines){
		"no lime line":                    func(l *soil.BufferLines) { l.Lines = nil },
		"lime would rise with the buffer": func(l *soil.BufferLines) { l.Lines[0].B = -1 },
		"check a, b and c":                func(l *soil.BufferLines) { l.Lines[0].A = 640 },
		"stands twice":                    func(l *soil.BufferLines) { l.Lines[1].Target = 6.8 },
		"accepted 5 to 7.5":               func(l *soil.BufferLines) { l.Lines[0].Target = 9 },
	} {
		l := typed()
		change(&l)
		if _, err := l.Need(soil.AcidSoil{PH: 6, Buffer: 6.5, Target: 6.5}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	if _, err := typed().Need(soil.AcidSoil{PH: 6, Buffer: 6.5, Target: 7}); err == nil || !strings.Contains(err.Error(), "end below it") {
		t.Errorf("over the last line: %v", err)
	}
	if _, err := typed().Need(soil.AcidSoil{PH: 6, Target: 6.5}); err == nil || !strings.Contains(err.Error(), "buffer pH") {
		t.Errorf("without a buffer: %v", err)
	}
}

func TestTypedLinesNeverGiveLessForAMoreAcidBuffer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := typed()
		ph := rapid.Float64Range(4.5, 7.4).Draw(t, "ph")
		a, b := rapid.Float64Range(5.5, 7.5).Draw(t, "buffer"), rapid.Float64Range(5.5, 7.5).Draw(t, "other")
		low, err1 := l.Need(soil.AcidSoil{PH: ph, Buffer: min(a, b), Target: 6.8})
		high, err2 := l.Need(soil.AcidSoil{PH: ph, Buffer: max(a, b), Target: 6.8})
		if err1 != nil || err2 != nil || low.Tons < high.Tons-1e-9 || high.Tons < 0 {
			t.Fatalf("buffer %g takes %g tons, %g takes %g (%v, %v)", min(a, b), float64(low.Tons), max(a, b), float64(high.Tons), err1, err2)
		}
	})
}

func TestSoilsFallIntoTheClassesOfTheChart(t *testing.T) {
	for cec, want := range map[float64]string{30: "A", 24: "B", 15: "B", 14.9: "C", 8: "C", 7.9: "D"} {
		if got := soil.ClassOf(unit.MeqSoil(cec)); got != want {
			t.Errorf("%g meq: %s, want %s", cec, got, want)
		}
	}
}
