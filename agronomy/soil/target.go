package soil

import (
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Target is the pH a legume is wanted to grow at, by a state's guide.
type Target struct {
	PH     float64
	Gap    float64 // lime from so far under it
	State  string  // whose; empty where no state's stands in the program
	Source source.ID
}

// deepAcid is the pH under which Ohio calls a subsoil acid.
const deepAcid = 6.0

// TargetOf is the pH wanted for a crop by the guide of a state, as states are written: Wisconsin. subsoil is
// the subsoil's pH, 0 where unknown: Ohio's target hangs on it, and is the higher one where nobody knows.
// Where the program holds no state's target it is the least that any guide prints.
func TargetOf(state string, c Crop, subsoil float64) Target {
	if state == "Ohio" {
		switch {
		case subsoil <= deepAcid: // or unknown
			return Target{6.8, 0.2, state, source.LimeOhio}
		case c == RedClover:
			return Target{6.0, 0.2, state, source.LimeOhio}
		}
		return Target{6.5, 0.2, state, source.LimeOhio}
	}
	for _, t := range []struct {
		state           string
		alfalfa, clover float64
		of, ofClover    source.ID
	}{
		{"Illinois", 6.5, 6.5, source.TargetIllinois, source.TargetIllinois},
		{"Indiana", 6.8, 6.0, source.TargetTriState, source.TargetTriState},
		{"Iowa", 6.9, 6.5, source.LimeIowa, source.LimeIowa},
		{"Kansas", 6.8, 6.0, source.TargetKansas, source.TargetLeast},
		{"Michigan", 6.3, 6.0, source.TargetMichigan, source.TargetTriState},
		{"Minnesota", 6.5, 6.0, source.TargetMinnesota, source.TargetMinnesota},
		{"Pennsylvania", 7.0, 6.5, source.LimePennState, source.LimePennState},
		{"West Virginia", 6.5, 5.8, source.TargetWestVirginia, source.TargetWestVirginia},
		{"Wisconsin", 6.8, 6.3, source.TargetWisconsin, source.TargetWisconsinClover},
	} {
		if t.state != state {
			continue
		}
		if c == RedClover {
			return Target{t.clover, usualGap, state, t.ofClover}
		}
		return Target{t.alfalfa, usualGap, state, t.of}
	}
	if c == RedClover {
		return Target{6.0, usualGap, "", source.TargetLeast}
	}
	return Target{6.5, usualGap, "", source.TargetLeast}
}

// usualGap is Ohio's, taken for all: a pH is not read finer ([source.LimeOhio] prints 0.2 to 0.3).
const usualGap = 0.2

// Short reports whether a pH, as it is printed to a tenth, lies so far under the target that lime is due.
func (t Target) Short(ph float64) bool { return ph < t.PH-t.Gap-1e-9 }

// Enough is a test over which nobody saw a return to a nutrient, whatever the guide.
type Enough struct {
	K unit.PPMAcetate // [source.PotashEnough]
	P unit.PPMM3P     // [source.PhosphorusEnough]
}

// PublishedEnough returns it.
func PublishedEnough() Enough { return Enough{K: 150, P: 50} }
