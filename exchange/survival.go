package exchange

import (
	"fmt"
	"strconv"
	"strings"

	"haywarden/book"
)

var (
	hardinesses = []call[string]{{"moderate", []string{"moderately hardy"}}, {"hardy", nil}, {"very", []string{"very hardy"}}}
	resistances = []call[string]{{"none", []string{"unknown", "little"}}, {"moderate", []string{"some"}}, {"high", []string{"most"}}}
	drainages   = []call[string]{{"poor", nil}, {"medium", []string{"moderate"}}, {"good", []string{"well drained"}}}
	moistures   = []call[string]{{"wet", nil}, {"medium", []string{"moist", "normal"}}, {"dry", nil}}
	harms       = []call[book.HarmKind]{{book.Hail, nil}, {book.Ponding, []string{"flood", "flooding", "standing water"}}, {book.Drought, []string{"dry"}}}
)

// survival reads what a row says of crowns, of the winter and of other harm. Each is said once a visit.
func (s *sheet) survival(v *visiting, row *book.Visit) {
	crowns := s.crowns()
	onceSaid(s, v, "crown_ratings", crowns, &row.Crowns, &v.Visit.Crowns)
	winter := book.WinterSeen{
		Hardiness: oneOf(s, "hardiness", hardinesses, false), Resistance: oneOf(s, "resistance", resistances, false),
		Drainage: oneOf(s, "drainage", drainages, false), Moisture: oneOf(s, "fall_moisture", moistures, false), Stubble: s.yes("stubble_6in"),
	}
	if winter != (book.WinterSeen{}) {
		onceSaid(s, v, "hardiness", &winter, &row.Winter, &v.Visit.Winter)
	}
	onceSaid(s, v, "harm", s.harm(), &row.Harm, &v.Visit.Harm)
}

// onceSaid lays a group of cells into its visit; a second row that has it too is a fault.
func onceSaid[T any](s *sheet, v *visiting, col string, given *T, row, visit **T) {
	if given == nil {
		return
	}
	*row = given
	if *visit != nil {
		s.fault(col, "row %d of the same visit has it already; give it once", v.said[col])
		return
	}
	*visit, v.said[col] = given, s.row.Place
}

// crowns reads six numbers of plants, at ratings 0 to 5.
func (s *sheet) crowns() *book.Crowns {
	raw := s.raw("crown_ratings")
	if raw == "" {
		return nil
	}
	parts := strings.FieldsFunc(raw, func(r rune) bool { return strings.ContainsRune("/;, ", r) })
	var c book.Crowns
	if len(parts) != len(c) {
		s.fault("crown_ratings", "%.40q: six numbers wanted, the plants rated 0, 1, 2, 3, 4 and 5, such as 6/5/4/3/1/1", raw)
		return nil
	}
	for i, p := range parts {
		n, err := strconv.Atoi(p)
		if err != nil || n < 0 || n > 500 {
			s.fault("crown_ratings", "%.20q plants rated %d; accepted 0 to 500", p, i)
			return nil
		}
		c[i] = n
	}
	return &c
}

func crownText(c book.Crowns) string {
	return strings.ReplaceAll(strings.Trim(fmt.Sprint([6]int(c)), "[]"), " ", "/")
}

// harm reads what a look at a harmed stand found. What is said of harm without its kind is a fault.
func (s *sheet) harm() *book.Harm {
	h := book.Harm{
		Kind: oneOf(s, "harm", harms, false), Tips: s.quantity("tips_broken_pct", "%"), Leaves: s.quantity("leaves_lost_pct", "%"),
		Lodged: or(s.yes("lodged"), false), Under: s.quantity("under_water_days", "days"), Silt: s.quantity("silt_in", "in"),
		Soft: s.yes("roots_soft"), Crowns: s.yes("crowns_see_sun"),
	}
	day, ok := s.date("harm_day", h.Kind != "")
	if ok {
		h.Day = day
	}
	if h.Kind != "" {
		return &h
	}
	if h != (book.Harm{}) && s.raw("harm") == "" {
		s.fault("harm", "is empty beside what was found; accepted hail, ponding, drought")
	}
	return nil
}
