package advice

import (
	"slices"

	"haywarden/agronomy/storage"
)

// machinery belongs to every call to go out with a machine (common practice, no source).
const machinery = "Shut the engine off and wait until everything stands still before you clear or reach into a mower, rake or baler."

// tell adds an instruction that can hurt someone, with all of its cautions. There is no other way for
// one into a piece.
func (p *Piece) tell(t storage.Told) {
	action, cautions := t.Say()
	if p.Sentence != "" {
		p.Sentence += " "
	}
	p.Sentence += action
	p.warn(cautions...)
}

// warn adds cautions that the piece does not have yet.
func (p *Piece) warn(cautions ...storage.Caution) {
	for _, c := range cautions {
		if !slices.Contains(p.Cautions, string(c)) {
			p.Cautions = append(p.Cautions, string(c))
		}
	}
}
