package paper

import (
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Table is a table to print, with its columns of numbers to the right.
type Table struct {
	Title string
	Head  []string
	Rows  [][]string
	Right []bool
}

// Tabled is a paper of tables: what was asked, the answer in a line, the tables, what to mind and what it
// rests on.
type Tabled struct {
	Title, Says string
	Tables      []Table
	Notes       []string
	Sources     []source.ID
}

// Tables sets a paper of tables.
func Tables(p Tabled, date unit.Day, invented bool) ([]byte, error) {
	foot := "Educational estimates, not a guarantee."
	if invented {
		foot += " Invented data."
	}
	s, err := newSheet(p.Title, date, foot)
	if err != nil {
		return nil, err
	}
	s.head(p.Title, 20)
	s.gap(4)
	s.say(p.Says, bodySize, "", ink)
	for _, t := range p.Tables {
		s.gap(10)
		s.table(t)
	}
	if len(p.Notes) > 0 {
		s.gap(10)
		s.say("To mind", bodySize, "B", ink)
		for _, n := range p.Notes {
			s.say("· "+n, 9.5, "", ink)
		}
	}
	if len(p.Sources) > 0 {
		s.gap(8)
		s.say("From", 9, "B", quiet)
		for _, id := range p.Sources {
			if from, ok := source.Find(id); ok {
				s.say(from.Cite+" ["+string(from.Grade)+"]", 8, "", quiet)
			}
		}
	}
	return s.bytes()
}

// Rows of a printed table.
const (
	rowHigh  = 13.0
	rowSize  = 9.0
	cellGap  = 8.0
	mostCell = wide / 2
)

// table prints a table with columns as wide as what is in them; where the page is too narrow the widest give
// way, and their cells go over several lines.
func (s *sheet) table(t Table) {
	s.room(4 * rowHigh)
	if t.Title != "" {
		s.say(t.Title, bodySize, "B", ink)
		s.gap(2)
	}
	width := s.widths(t)
	line := func(cells []string, style string, tn tone) {
		high := rowHigh
		s.doc.SetFont(family, style, rowSize)
		lines := make([][]string, len(cells))
		for j, c := range cells {
			lines[j] = s.doc.SplitText(clean(c), width[j]-cellGap+0.01)
			high = max(high, float64(len(lines[j]))*(rowSize+2)+2)
		}
		s.room(high)
		x, y := margin, s.doc.GetY()
		for j := range cells {
			s.ink(tn)
			s.doc.SetFont(family, style, rowSize)
			for n, text := range lines[j] {
				at := x
				if t.Right[j] {
					at = x + width[j] - cellGap - s.doc.GetStringWidth(text)
				}
				s.doc.Text(at, y+rowSize+float64(n)*(rowSize+2), text)
			}
			x += width[j]
		}
		s.doc.SetXY(margin, y+high)
	}
	line(t.Head, "B", quiet)
	s.rule()
	for _, r := range t.Rows {
		line(r, "", ink)
	}
}

func (s *sheet) widths(t Table) []float64 {
	width := make([]float64, len(t.Head))
	total := 0.0
	for j, h := range t.Head {
		s.doc.SetFont(family, "B", rowSize)
		width[j] = s.doc.GetStringWidth(clean(h))
		s.doc.SetFont(family, "", rowSize)
		for _, r := range t.Rows {
			width[j] = max(width[j], s.doc.GetStringWidth(clean(r[j])))
		}
		width[j] = min(width[j], mostCell) + cellGap
		total += width[j]
	}
	for over := total - wide; over > 0.5; over = total - wide {
		widest := 0
		for j := range width {
			if width[j] > width[widest] {
				widest = j
			}
		}
		take := min(over, width[widest]/8)
		width[widest] -= take
		total -= take
	}
	return width
}
