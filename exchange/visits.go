package exchange

import (
	"io"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// VisitRow is one visit, gathered from the rows of its farm, field, date and observer.
type VisitRow struct {
	Row      int // the first of its rows
	Farm     string
	Field    string
	Day      unit.Day
	Observer string
	Visit    book.Visit
}

// visitColumns are the columns of a table of visits, with the other names they go by.
var visitColumns = map[string][]string{
	"farm": {"farm", "farm name"}, "field": {"field", "field name"}, "date": {"date", "day"}, "observer": {"observer", "by"},
	"height": {"height", "height_in", "height in"}, "height_cm": {"height_cm"}, "stage": {"stage"},
	"stems": {"stems"}, "plants": {"plants"}, "frame_ft2": {"frame_ft2", "frame"},
	"roots_dug": {"roots_dug"}, "roots_bad": {"roots_bad"}, "bloom_pct": {"bloom_pct", "bloom"},
	"growth_in": {"growth_in", "growth"}, "grass_share": {"grass_share", "grass"}, "tips": {"tips", "growing tips"},
	"weevil_tips_pct": {"weevil_tips_pct"}, "note": {"note", "notes"},
}

// usualFrame is the size of a frame where none is given: 17 by 17 in. [source.StemProtocol]
const usualFrame = 2

// ReadVisits reads a table of visits, a row a stick spot or a counted frame: farm, field and date are
// needed. Heights are inches unless they carry cm or stand in a column height_cm.
func ReadVisits(r io.Reader, name string) ([]VisitRow, error) {
	s, err := open(r, name, visitColumns, []string{"farm", "field", "date"})
	if err != nil {
		return nil, err
	}
	var rows []*VisitRow
	at := map[string]*VisitRow{}
	for {
		more, err := s.next()
		if err != nil {
			return nil, err
		}
		if !more {
			break
		}
		v := s.visitOf(at)
		if v == nil {
			continue
		}
		if v.Row == s.row.Place {
			rows = append(rows, v)
		}
		s.addTo(v)
	}
	out := make([]VisitRow, len(rows))
	for i, v := range rows {
		s.checked(v.Row, v.Visit.Check())
		out[i] = *v
	}
	if len(rows) == 0 && s.found == 0 {
		s.fault(0, "", "the file has a header and no rows")
	}
	if s.found > 0 {
		return nil, s.refusal()
	}
	return out, nil
}

// visitOf finds or begins the visit that the row belongs to; nil where it cannot be told.
func (s *sheet) visitOf(at map[string]*VisitRow) *VisitRow {
	c := visitColumns
	farm, field, observer := s.text(c["farm"]...), s.text(c["field"]...), s.text(c["observer"]...)
	day, ok := s.date(c["date"]...)
	if farm == "" || field == "" {
		s.fault(s.row.Place, "", "farm or field is empty: each row names both")
		return nil
	}
	if !ok {
		if s.text(c["date"]...) == "" {
			s.fault(s.row.Place, "date", "is empty: the day of the visit is wanted, YYYY-MM-DD")
		}
		return nil
	}
	key := strings.Join([]string{tabular.Plain(farm), tabular.Plain(field), day.String(), tabular.Plain(observer)}, "/")
	if at[key] == nil {
		at[key] = &VisitRow{Row: s.row.Place, Farm: farm, Field: field, Day: day, Observer: observer}
	}
	return at[key]
}

// addTo lays what the row says into its visit.
func (s *sheet) addTo(v *VisitRow) {
	c := visitColumns
	height, tall := s.number("in", c["height"]...)
	if cm, ok := s.number("cm", c["height_cm"]...); ok {
		height, tall = float64(unit.Centimetre(cm).Inches()), true
	}
	stage := book.Stage(strings.ToLower(s.text(c["stage"]...)))
	switch {
	case tall && stage != "":
		v.Visit.Spots = append(v.Visit.Spots, book.Spot{HeightIn: height, Stage: stage})
	case tall:
		s.fault(s.row.Place, "stage", "is empty beside a height: accepted vegetative, bud, flower")
	case stage != "":
		s.fault(s.row.Place, "height", "is empty beside a stage: the tallest stem is wanted, 4 to 60 in")
	}
	stems, counted := s.whole(c["stems"]...)
	plants, planted := s.whole(c["plants"]...)
	if counted || planted {
		f := book.Frame{Ft2: usualFrame}
		if size, ok := s.number("ft2", c["frame_ft2"]...); ok {
			f.Ft2 = size
		}
		if counted {
			f.Stems = &stems
		}
		if planted {
			f.Plants = &plants
		}
		v.Visit.Frames = append(v.Visit.Frames, f)
	}
	if dug, ok := s.whole(c["roots_dug"]...); ok {
		bad, _ := s.whole(c["roots_bad"]...)
		v.Visit.Roots = &book.Roots{Dug: dug, Bad: bad}
	}
	if g, ok := s.number("in", c["growth_in"]...); ok {
		v.Visit.GrowthIn = &g
	}
	if b, ok := s.number("%", c["bloom_pct"]...); ok {
		v.Visit.Bloom = &b
	}
	if g, ok := s.share(c["grass_share"]...); ok {
		v.Visit.Grass = &g
	}
	if w, ok := s.number("%", c["weevil_tips_pct"]...); ok {
		v.Visit.WeevilTips = &w
	}
	if t := s.text(c["tips"]...); t != "" {
		v.Visit.Tips = book.Tips(strings.ToLower(t))
	}
	if n := s.text(c["note"]...); n != "" && !strings.Contains(v.Visit.Note, n) {
		v.Visit.Note = strings.TrimPrefix(v.Visit.Note+"; "+n, "; ")
	}
}
