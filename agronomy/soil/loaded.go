package soil

import (
	"errors"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
)

// BufferLine is a guide's line for a target pH: tons an acre are A - B x buffer pH - C x water pH.
type BufferLine struct{ Target, A, B, C float64 }

// BufferLines are the lime lines of a guide that a user typed in from the print.
type BufferLines struct {
	Guide LimeGuide
	Basis string    // of what material its tons are
	Depth unit.Inch // that it is for; 0 where the print says none
	Lines []BufferLine
}

// mostLine is more lime than any line gives, tons an acre.
const mostLine = 30

// Check says what is wrong with typed lines: over all soils a line never gives more lime at a higher buffer
// pH, and never more than anybody spreads; higher targets never take less.
func (l BufferLines) Check() error {
	if len(l.Lines) == 0 {
		return errors.New("no lime line: wanted target, a, b and c of at least one")
	}
	var errs []error
	for i, a := range l.Lines {
		if !(a.Target >= 5 && a.Target <= 7.5) {
			errs = append(errs, fmt.Errorf("target pH %g: accepted 5 to 7.5", a.Target))
		}
		if !(a.B >= 0) {
			errs = append(errs, fmt.Errorf("target pH %g: b is %g, so lime would rise with the buffer pH: accepted 0 and over", a.Target, a.B))
		}
		if most := a.at(5.5, 5); most > mostLine {
			errs = append(errs, fmt.Errorf("target pH %g: %.1f tons an acre at buffer 5.5 and pH 5: accepted up to %d; check a, b and c", a.Target, most, mostLine))
		}
		if slices.ContainsFunc(l.Lines[:i], func(o BufferLine) bool { return o.Target == a.Target }) {
			errs = append(errs, fmt.Errorf("target pH %g stands twice", a.Target))
		}
	}
	return errors.Join(errs...)
}

func (a BufferLine) at(buffer, ph float64) float64 { return a.A - a.B*buffer - a.C*ph }

// Need is the lime of a soil by the line of its target, the lowest one that is not under what is wanted.
func (l BufferLines) Need(s AcidSoil) (Liming, error) {
	if err := s.check(); err != nil {
		return Liming{}, err
	}
	if err := l.Check(); err != nil {
		return Liming{}, err
	}
	var line *BufferLine
	for i, a := range l.Lines {
		if a.Target >= s.Target-1e-9 && (line == nil || a.Target < line.Target) {
			line = &l.Lines[i]
		}
	}
	if line == nil {
		return Liming{}, fmt.Errorf("target pH %g: the lines typed in for %s end below it", s.Target, l.Guide)
	}
	out := Liming{Guide: l.Guide, Target: line.Target, Basis: l.Basis, Notes: []string{"by the lines that were typed in from the printed guide"}}
	own := l.Depth
	if own == 0 {
		own = s.Depth
	}
	if s.PH >= line.Target {
		return out.done(0, max(own, 1), s), nil
	}
	if err := s.needsBuffer(l.Guide, "the one the lines are for"); err != nil {
		return Liming{}, err
	}
	if own == 0 {
		return out.done(line.at(s.Buffer, s.PH), 1, AcidSoil{Untilled: s.Untilled}), nil
	}
	return out.done(line.at(s.Buffer, s.PH), own, s), nil
}
