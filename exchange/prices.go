package exchange

import (
	"io"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// PriceRow is one price deck, gathered from the rows of its name and date.
type PriceRow struct {
	Row  int
	Farm string // empty for the book's own deck
	Day  unit.Day
	Deck book.Prices
}

var priceColumns = map[string][]string{
	"deck": {"deck", "name"}, "farm": {"farm"}, "date": {"date", "day"}, "line": {"line", "price"}, "unit": {"unit"}, "value": {"value", "dollars"},
}

// ReadPrices reads price decks, a row a line: deck, date, line, unit and value are needed.
func ReadPrices(r io.Reader, name string) ([]PriceRow, error) {
	s, err := open(r, name, priceColumns, []string{"deck", "date", "line", "unit", "value"})
	if err != nil {
		return nil, err
	}
	c := priceColumns
	var order []*PriceRow
	at := map[string]*PriceRow{}
	for {
		more, err := s.next()
		if err != nil {
			return nil, err
		}
		if !more {
			break
		}
		day, ok := s.date(c["date"]...)
		value, ok2 := s.number("", c["value"]...)
		if !ok || !ok2 {
			if s.text(c["date"]...) == "" || s.text(c["value"]...) == "" {
				s.fault(s.row.Place, "", "date or value is empty")
			}
			continue
		}
		deck, farm := s.text(c["deck"]...), s.text(c["farm"]...)
		key := deck + "/" + farm + "/" + day.String()
		d := at[key]
		if d == nil {
			d = &PriceRow{Row: s.row.Place, Farm: farm, Day: day, Deck: book.Prices{Name: deck}}
			at[key] = d
			order = append(order, d)
		}
		d.Deck.Lines = append(d.Deck.Lines, book.PriceLine{Name: s.text(c["line"]...), Unit: s.text(c["unit"]...), Value: value})
	}
	out := make([]PriceRow, len(order))
	for i, d := range order {
		s.checked(d.Row, d.Deck.Check())
		out[i] = *d
	}
	if len(out) == 0 && s.found == 0 {
		s.fault(0, "", "the file has a header and no rows")
	}
	if s.found > 0 {
		return nil, s.refusal()
	}
	return out, nil
}
