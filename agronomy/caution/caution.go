// Package caution keeps an instruction that could hurt someone together with its warnings.
package caution

import "slices"

// Caution is a warning that belongs to an instruction.
type Caution string

// Told is an instruction together with the cautions without which it could hurt someone.
type Told struct {
	action   string
	cautions []Caution
}

// Tell joins an instruction to its cautions: one at least.
func Tell(action string, first Caution, more ...Caution) Told {
	return Told{action, append([]Caution{first}, more...)}
}

// Say gives the action and its cautions. There is no way to the one without the other.
func (t Told) Say() (action string, cautions []Caution) { return t.action, slices.Clone(t.cautions) }

// Lines gives the action and each caution as a line of its own, for pages and papers.
func (t Told) Lines() []string {
	lines := []string{t.action}
	for _, c := range t.cautions {
		lines = append(lines, string(c))
	}
	return lines
}
