package advice

import "slices"

// exclusive lists pairs of which a stand gets only the first when both apply.
var exclusive = [][2]string{
	{"growing-tips", "first-cut"},
	{"growing-tips", "stick-reading"},
	{"keep-or-turn", "walk-and-count"},
	{"do-not-reseed", "lime"}, // no lime for a seeding that is not to be
	{"weevil-act", "weevil-walk"},
	{"hopper-act", "hopper-walk"},
	{"do-not-reseed", "order-seed"},
	{"do-not-reseed", "seed-by"},
}

// reconcile drops the second of each exclusive pair.
func reconcile(pieces []*Piece) []*Piece {
	has := func(key string) bool {
		return slices.ContainsFunc(pieces, func(p *Piece) bool { return p.Decision == key })
	}
	for _, pair := range exclusive {
		if has(pair[0]) && has(pair[1]) {
			pieces = slices.DeleteFunc(pieces, func(p *Piece) bool { return p.Decision == pair[1] })
		}
	}
	return pieces
}
