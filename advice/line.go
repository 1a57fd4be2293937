package advice

import "haywarden/outlook"

// Line is one stand's place in the round: its most pressing piece, and what else is to be done there.
// A stand has one line, so that one drive does all of it.
type Line struct {
	*Piece
	Also []*Piece
}

// Lines groups the round by stand, most pressing first.
func (r *Round) Lines() []Line {
	var lines []Line
	at := map[*outlook.Stand]int{}
	for _, p := range r.Pieces {
		if i, ok := at[p.Stand]; ok {
			lines[i].Also = append(lines[i].Also, p)
			continue
		}
		at[p.Stand] = len(lines)
		lines = append(lines, Line{Piece: p})
	}
	return lines
}

// LinesOf returns the lines of one urgency, in order.
func (r *Round) LinesOf(u Urgency) []Line {
	var out []Line
	for _, l := range r.Lines() {
		if l.Urgency == u {
			out = append(out, l)
		}
	}
	return out
}
