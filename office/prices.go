package office

import (
	"context"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/reckon"
)

// PriceEntry is one price as a person enters it.
type PriceEntry struct {
	Farm  string // id or name; empty: the book's own
	Line  string
	Value float64 // in the unit of the line
	Deck  string  // empty: a name made of the day
	Day   unit.Day
}

// BadEntry says which field of a form is wrong and what is accepted.
type BadEntry struct{ Field, Text string }

// Error names the field.
func (e *BadEntry) Error() string { return e.Field + ": " + e.Text }

// SetPrice enters or corrects one price. The deck of that name and day is told anew with it; where there
// is none, one with this line alone is begun, and older decks go on to hold for all other lines.
func (o *Office) SetPrice(ctx context.Context, actor Actor, ask Ask, p PriceEntry) (Saved, error) {
	if err := may(actor, actRecord); err != nil {
		return Saved{}, err
	}
	line, err := priceOf(p)
	if err != nil {
		return Saved{}, err
	}
	ask = o.settle(ask)
	if p.Day == 0 {
		p.Day = min(ask.Date, o.Today())
	}
	if p.Day > o.Today() {
		return Saved{}, &BadEntry{"day", fmt.Sprintf("%s is after today, %s", p.Day, o.Today())}
	}
	v, err := o.viewOf(ctx, Ask{Date: max(p.Day, ask.Date), Known: ask.Known})
	if err != nil {
		return Saved{}, err
	}
	decks, farm := v.Prices, ""
	if p.Farm != "" {
		i := slices.IndexFunc(v.Farms, func(f *book.FarmView) bool { return f.ID == p.Farm || plain(f.Name) == plain(p.Farm) })
		if i < 0 {
			return Saved{}, &BadEntry{"farm", fmt.Sprintf("no farm is called %q", p.Farm)}
		}
		decks, farm = v.Farms[i].Prices, v.Farms[i].ID
	}
	if p.Deck == "" {
		p.Deck = "Prices of " + p.Day.String()
	}
	e := Entry{Farm: farm, Day: p.Day, Body: book.Prices{Name: p.Deck, Lines: []book.PriceLine{line}}, Received: ask.Known}
	for _, d := range slices.Backward(decks) {
		if d.Day != p.Day || plain(d.Body.Name) != plain(p.Deck) {
			continue
		}
		body := book.Prices{Name: d.Body.Name, Lines: slices.Clone(d.Body.Lines)}
		i := slices.IndexFunc(body.Lines, func(l book.PriceLine) bool { return l.Name == line.Name })
		switch {
		case i < 0:
			body.Lines = append(body.Lines, line)
		case body.Lines[i] == line:
			return Saved{}, nil
		default:
			body.Lines[i] = line
		}
		e.Body, e.Supersedes, e.Subject = body, d.ID, d.Subject
		break
	}
	return o.saved(ctx, actor, e)
}

// priceOf checks a price by what is known of its line.
func priceOf(p PriceEntry) (book.PriceLine, error) {
	k, ok := book.PriceKindOf(p.Line)
	if !ok {
		text := fmt.Sprintf("%q is none that reckonings take", p.Line)
		var names []string
		for _, k := range book.PriceKinds() {
			names = append(names, k.Name)
		}
		if near := reckon.Nearest(p.Line, names); near != "" {
			text += "; did you mean " + near + "?"
		}
		return book.PriceLine{}, &BadEntry{"line", text}
	}
	l := book.PriceLine{Name: k.Name, Unit: k.Unit, Value: p.Value}
	if err := k.Accept(l); err != nil {
		return book.PriceLine{}, &BadEntry{"value", fmt.Sprintf("%g: accepted %g to %g %s", p.Value, k.Low, k.High, k.Unit)}
	}
	return l, nil
}
