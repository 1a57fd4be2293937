package exchange

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/reckon"
	"haywarden/tabular"
)

// raw is a cell as it is written, empty where the file has no such column.
func (s *sheet) raw(col string) string {
	if i, ok := s.at[col]; ok {
		return s.row.Cell(i)
	}
	return s.said[col]
}

// text is a cell of one line, with single spaces.
func (s *sheet) text(col string) string {
	raw := s.raw(col)
	if strings.Contains(raw, "\n") {
		s.fault(col, "one line wanted; check the quotes")
		return ""
	}
	return strings.Join(strings.Fields(raw), " ")
}

// name is a cell that must say what something is called.
func (s *sheet) name(col string) string {
	raw := s.text(col)
	switch {
	case s.raw(col) == "":
		s.fault(col, "is empty; each row says it")
	case raw != "" && tabular.Plain(raw) == "":
		s.fault(col, "a name with letters or digits wanted")
	default:
		return raw
	}
	return ""
}

// date is a cell as a day; false where it says none, which is a fault where one is needed.
func (s *sheet) date(col string, needed bool) (unit.Day, bool) {
	raw := s.raw(col)
	if raw == "" {
		if needed {
			s.fault(col, "is empty; a date written YYYY-MM-DD wanted")
		}
		return 0, false
	}
	t, err := tabular.Date(raw)
	if err != nil {
		s.fault(col, "%v", err)
		return 0, false
	}
	return unit.DayOf(t), true
}

// written are units as people write them, by their symbol.
var written = map[string]string{
	`"`: "in", "''": "in", "″": "in", "in.": "in", "inch": "in", "inches": "in", "feet": "ft", "'": "ft",
	"centimeters": "cm", "centimetres": "cm", //nolint:misspell // as it is spelt where inches are read
	"acre": "ac", "acres": "ac", "ac.": "ac", "hectare": "ha", "hectares": "ha",
	"sq ft": "ft2", "sqft": "ft2", "ft²": "ft2", "ft^2": "ft2", "square feet": "ft2", "m²": "m2", "m^2": "m2", "sq m": "m2",
	"percent": "%", "°": "deg", "degrees": "deg", "rfv": "RFV", "points": "RFV",
}

// quantity is a cell as a number in the unit wanted, nil where it says none. A unit written after the
// number goes before that of the heading, and that before the one wanted.
func (s *sheet) quantity(col, want string) *float64 {
	raw := s.raw(col)
	if raw == "" {
		return nil
	}
	number, symbol := tabular.CutUnit(raw)
	if number == "" {
		s.fault(col, "a number wanted")
		return nil
	}
	v, err := s.row.Number(number)
	if err == nil {
		v, err = converted(v, s.symbol(col, symbol), want)
	}
	if err != nil {
		s.fault(col, "%v", err)
		return nil
	}
	return &v
}

// symbol is the unit of a number: as written after it, else as its heading says; empty for neither.
func (s *sheet) symbol(col, after string) string {
	if after == "" {
		return s.unit[col]
	}
	small := strings.ToLower(after)
	if known, ok := written[small]; ok {
		return known
	}
	if _, ok := unit.Lookup(after); !ok {
		return small
	}
	return after
}

// converted turns a number in a unit, empty for the one wanted, into that one. What was converted is
// rounded to hundredths (choice): nothing here is measured finer.
func converted(v float64, symbol, want string) (float64, error) {
	return convertedTo(v, symbol, want, 100)
}

// convertedTo rounds what was converted to so many parts of one.
func convertedTo(v float64, symbol, want string, parts float64) (float64, error) {
	if symbol == "" || symbol == want {
		return v, nil
	}
	if symbol == stated {
		return 0, fmt.Errorf("a unit after the number wanted, such as %s", want)
	}
	from, ok := unit.Lookup(symbol)
	if !ok {
		return 0, fmt.Errorf("no unit is written %q; %s wanted", symbol, inWords(want))
	}
	v, err := unit.Convert(v, from, unit.Must(want))
	if err != nil {
		return 0, fmt.Errorf("%s wanted: %w", inWords(want), err)
	}
	return math.Round(v*parts) / parts, nil
}

func inWords(want string) string {
	if want == "" {
		return "a number without a unit"
	}
	return want
}

// count is a cell as a whole number, nil where it says none.
func (s *sheet) count(col string) *int {
	v := s.quantity(col, "")
	if v == nil {
		return nil
	}
	if *v != math.Trunc(*v) || math.Abs(*v) > 1e6 {
		s.fault(col, "a whole number wanted")
		return nil
	}
	n := int(*v)
	return &n
}

// share is a cell as a part of a whole, written 0.3 or 30 %, nil where it says none.
func (s *sheet) share(col string) *float64 {
	raw := s.raw(col)
	if raw == "" {
		return nil
	}
	number, symbol := tabular.CutUnit(raw)
	v, err := s.row.Number(number)
	percent := s.symbol(col, symbol) == "%"
	switch {
	case err != nil, symbol != "" && !percent:
		s.fault(col, "a share wanted, such as 0.3 or 30%%")
		return nil
	case percent:
		v /= 100
	}
	if v < 0 || v > 1 {
		s.fault(col, "accepted 0 to 1, or 0%% to 100%% with the sign")
		return nil
	}
	return &v
}

// yes is a cell as yes or no, nil where it says neither.
func (s *sheet) yes(col string) *bool {
	var v bool
	switch strings.ToLower(s.raw(col)) {
	case "":
		return nil
	case "yes", "y", "true", "x", "1":
		v = true
	case "no", "n", "false", "0":
	default:
		s.fault(col, "accepted yes or no")
		return nil
	}
	return &v
}

// call is one of a few words with the other ways of writing it.
type call[T ~string] struct {
	word T
	also []string
}

// oneOf is a cell as one of a few words, empty where it says none.
func oneOf[T ~string](s *sheet, col string, calls []call[T], needed bool) T {
	raw := s.raw(col)
	plain := tabular.Plain(raw)
	var words []string
	for _, c := range calls {
		words = append(words, string(c.word))
		for _, w := range append([]string{string(c.word)}, c.also...) {
			if plain != "" && plain == tabular.Plain(w) {
				return c.word
			}
		}
	}
	switch {
	case raw == "" && !needed:
		return ""
	case raw == "":
		s.fault(col, "is empty; accepted %s", strings.Join(words, ", "))
	default:
		meant := ""
		if near := reckon.Nearest(raw, words); near != "" {
			meant = "; did you mean " + near + "?"
		}
		s.fault(col, "accepted %s%s", strings.Join(words, ", "), meant)
	}
	return ""
}
