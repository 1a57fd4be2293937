package exchange

import (
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Sprays is a table of spray products as their labels were read, and of fields that were sprayed.
type Sprays struct {
	File
	Sprays []SprayRow
}

// SprayRow is a product or a spraying.
type SprayRow struct {
	Row         int
	Farm, Field string // a product of no farm is the book's
	Day         unit.Day
	Product     *book.SprayProduct
	Sprayed     *book.Sprayed
}

var sprayColumns = []Column{
	{Name: "product", Also: []string{"name", "product name"}, Needed: true},
	{Name: "date", Also: []string{"day", "sprayed on", "as of"}, Needed: true},
	{Name: "phi_days", Also: []string{"phi", "days to harvest"}, Needed: true, check: "days to harvest"},
	{Name: "rei_hours", Also: []string{"rei", "re-entry hours"}, Needed: true, check: "re-entry"},
	{Name: "farm", Also: []string{"farm name", "operation"}},
	{Name: "field", Also: []string{"field name"}},
	{Name: "against", Also: []string{"pests", "pest"}},
	{Name: "cost_ac", Also: []string{"cost", "cost an acre"}, check: "cost"},
	{Name: "crops", Also: []string{"labelled for", "crop"}},
	{Name: "label_read", Also: []string{"label read on", "confirmed"}},
	{Name: "by", Also: []string{"applicator", "sprayed by"}},
}

// SprayColumns lists the columns of a table of sprays.
func SprayColumns() []Column { return slices.Clone(sprayColumns) }

// ReadSprays reads spray products and sprayings, a row each: product, date, phi_days and rei_hours are
// needed, all as the product's own label says. A row with a field says that it was sprayed that day; one
// without is a product that may be, of a farm or, without one, of the whole book: against which pests
// (apart by ;), at what cost, for which crops the label was read, and when.
func ReadSprays(r io.Reader, name string) (Sprays, error) {
	s, err := open(r, name, sprayColumns)
	if err != nil {
		return Sprays{}, err
	}
	out := Sprays{}
	for {
		more, err := s.next()
		if err != nil {
			return Sprays{}, err
		}
		if !more {
			break
		}
		row := SprayRow{Row: s.row.Place, Farm: s.text("farm"), Field: s.text("field")}
		row.Day, _ = s.date("date", true)
		phi, rei := s.fromLabel("phi_days", "days"), s.fromLabel("rei_hours", "h")
		if row.Field != "" {
			if row.Farm == "" {
				s.fault("farm", "is empty beside a field; whose field was sprayed?")
			}
			row.Sprayed = &book.Sprayed{Product: s.name("product"), PHIDays: phi, REIHours: rei, By: s.text("by")}
			s.accept(row.Sprayed.Check())
		} else {
			row.Product = s.product(row.Day, phi, rei)
		}
		out.Sprays = append(out.Sprays, row)
	}
	out.File = s.file
	return out, nil
}

// fromLabel is a figure of the label, which is never guessed.
func (s *sheet) fromLabel(col, in string) float64 {
	v := s.quantity(col, in)
	if v == nil && s.raw(col) == "" {
		s.fault(col, "is empty; it stands on the product's label")
	}
	return or(v, 0)
}

func (s *sheet) product(day unit.Day, phi, rei float64) *book.SprayProduct {
	p := &book.SprayProduct{Name: s.name("product"), PHIDays: phi, REIHours: rei, Cost: or(s.quantity("cost_ac", "$/ac"), 0)}
	p.Against = several(s, "against", pestNames())
	p.Crops = several(s, "crops", crops)
	if read, ok := s.date("label_read", false); ok {
		p.LabelRead = &read
		if day != 0 && read > day {
			s.fault("label_read", "%s: after the row's date, %s", read, day)
		}
	}
	if (len(p.Crops) > 0) != (p.LabelRead != nil) && s.raw("label_read")+s.raw("crops") != "" {
		s.fault("label_read", "crops and label_read go together: for which crops was the label read, and when?")
	}
	s.accept(p.Check())
	return p
}

// several is a cell of words apart by semicolons.
func several[T ~string](s *sheet, col string, calls []call[T]) []T {
	raw := s.raw(col)
	if raw == "" {
		return nil
	}
	var out []T
	for part := range strings.SplitSeq(raw, ";") {
		one, ok := wordOf(part, calls)
		if !ok {
			s.fault(col, "%q is not known; accepted, apart by semicolons, %s", strings.TrimSpace(part), wordsOf(calls))
			return nil
		}
		out = append(out, one)
	}
	return out
}

func wordOf[T ~string](text string, calls []call[T]) (T, bool) {
	plain := tabular.Plain(text)
	for _, c := range calls {
		for _, w := range append([]string{string(c.word)}, c.also...) {
			if plain != "" && plain == tabular.Plain(w) {
				return c.word, true
			}
		}
	}
	return "", false
}

func wordsOf[T ~string](calls []call[T]) string {
	var words []string
	for _, c := range calls {
		words = append(words, string(c.word))
	}
	return strings.Join(words, ", ")
}
