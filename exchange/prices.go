package exchange

import (
	"errors"
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/reckon"
	"haywarden/tabular"
)

// Prices is a table of price decks.
type Prices struct {
	File
	Decks []PriceRow
}

// PriceRow is one price deck, gathered from the rows of its name, farm and date.
type PriceRow struct {
	Row  int    // the first of them
	Farm string // empty for the book's own deck
	Day  unit.Day
	Deck book.Prices
}

var priceColumns = []Column{
	{Name: "deck", Also: []string{"deck name", "price deck", "name"}, Needed: true},
	{Name: "farm", Also: []string{"farm name", "operation"}},
	{Name: "date", Also: []string{"day", "as of"}, Needed: true},
	{Name: "line", Also: []string{"price line", "item", "price"}, Needed: true},
	{Name: "unit", Also: []string{"units"}, Needed: true},
	{Name: "value", Also: []string{"amount", "dollars"}, Needed: true},
}

// PriceColumns lists the columns of a table of price decks.
func PriceColumns() []Column { return slices.Clone(priceColumns) }

// units of price as people write them.
var priceUnits = strings.NewReplacer("gallon", "gal", "bushel", "bu", "pound", "lb", "acre", "ac", "hour", "h", "hundredweight", "cwt", "rfv", "RFV", "points", "RFV", "dollars/", "$/", "percent", "%")

// ReadPrices reads price decks, a row a line: deck, date, line, unit and value are needed. Rows of one
// deck and date are one deck; where the column farm says one, the deck is that farm's own.
func ReadPrices(r io.Reader, name string) (Prices, error) {
	s, err := open(r, name, priceColumns)
	if err != nil {
		return Prices{}, err
	}
	var order []*PriceRow
	at := map[string]*PriceRow{}
	lineAt := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Prices{}, err
		}
		if !more {
			break
		}
		found := len(s.list)
		deck := &PriceRow{Row: s.row.Place, Farm: s.text("farm"), Deck: book.Prices{Name: s.name("deck")}}
		deck.Day, _ = s.date("date", true)
		line := s.priceLine()
		if len(s.list) > found {
			continue
		}
		key := strings.Join([]string{tabular.Plain(deck.Deck.Name), tabular.Plain(deck.Farm), deck.Day.String()}, " / ")
		if at[key] == nil {
			at[key] = deck
			order = append(order, deck)
		}
		if first := lineAt[key+" / "+line.Name]; first != 0 {
			s.fault("line", "the deck has it in row %d; take one out", first)
		}
		lineAt[key+" / "+line.Name] = s.row.Place
		at[key].Deck.Lines = append(at[key].Deck.Lines, line)
	}
	out := Prices{File: s.file}
	for _, d := range order {
		out.Decks = append(out.Decks, *d)
	}
	return out, nil
}

// priceLine reads a line of a deck. Its name is written as decisions look for it: small letters, words
// joined by hyphens. A line that no reckoning takes is kept as it stands, unless it is a slip of the
// fingers away from one that is taken.
func (s *sheet) priceLine() book.PriceLine {
	words := strings.FieldsFunc(strings.ToLower(s.name("line")), func(r rune) bool { return r == ' ' || r == '_' || r == '-' })
	line := book.PriceLine{Name: strings.Join(words, "-"), Unit: s.name("unit")}
	raw := s.raw("value")
	if raw == "" {
		s.fault("value", "is empty; a number wanted")
		return line
	}
	v, err := s.row.Number(strings.TrimSpace(strings.TrimPrefix(raw, "$")))
	if err != nil {
		s.fault("value", "%v", err)
		return line
	}
	line.Value = v
	k, known := book.PriceKindOf(line.Name)
	switch {
	case known:
		plain := priceUnits.Replace(strings.ToLower(strings.ReplaceAll(line.Unit, " ", "")))
		if plain == "$/mcal" {
			plain = "$/Mcal"
		}
		if line.Value, err = convertedTo(v, plain, k.Unit, finePrice); err != nil {
			s.fault("unit", "%s is given in %s", line.Name, k.Unit)
			return line
		}
		line.Unit = k.Unit
		s.accept(k.Accept(line))
	case line.Name != "":
		if near := reckon.Nearest(line.Name, priceNames()); near != "" {
			s.fault("line", "no reckoning takes it; did you mean %s?", near)
			return line
		}
		s.accept(priced(line))
	}
	return line
}

// finePrice: a price that was converted is rounded to hundredths of a cent (choice), since nutrients are
// bought in hundreds of pounds.
const finePrice = 10000

func priceNames() []string {
	var names []string
	for _, k := range book.PriceKinds() {
		names = append(names, k.Name)
	}
	return names
}

// priced checks one line as the book checks a deck.
func priced(line book.PriceLine) error {
	err := book.Prices{Name: "deck", Lines: []book.PriceLine{line}}.Check()
	if err == nil {
		return nil
	}
	return errors.New("value " + strings.TrimPrefix(err.Error(), line.Name+" "))
}
