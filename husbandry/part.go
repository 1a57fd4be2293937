// Package husbandry puts what a farm has (its herd, machines, land and prices) to the reckonings: what
// the herd eats in a year and the acres that grow it, how fast a crew takes a cutting, what a ton costs
// and is worth, and which choice suits how careful the farm is. Every sum in dollars names the price
// lines it took with their decks; where one is missing it says which, and no other price stands in.
package husbandry

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/source"
	"haywarden/book"
)

// Row is one figure of a part, or where there is none what is said in its place.
type Row struct {
	What  string  `json:"what"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit,omitempty"`
	Text  string  `json:"text,omitempty"` // said in the place of a figure
	From  string  `json:"from,omitempty"` // what it was made from
}

// Said is the figure in words.
func (r Row) Said() string {
	if r.Text != "" {
		return r.Text
	}
	return Figure(r.Value, r.Unit)
}

// Figure writes a number with the digits its unit is known to.
func Figure(v float64, unitName string) string {
	sign := ""
	if v < 0 {
		sign, v = "−", -v
	}
	switch unitName {
	case "":
		return sign + strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
	case "$", "$/ac", "$/ton", "$/ton DM":
		if v < 9.995 {
			return fmt.Sprintf("%s$%.2f%s", sign, v, strings.TrimPrefix(unitName, "$"))
		}
		return fmt.Sprintf("%s$%.0f%s", sign, v, strings.TrimPrefix(unitName, "$"))
	case "%", "RFV", "days", "tons", "head", "lb":
		return fmt.Sprintf("%s%.0f %s", sign, v, unitName)
	}
	if money, ok := strings.CutPrefix(unitName, "$"); ok {
		return fmt.Sprintf("%s$%.3f%s", sign, v, money)
	}
	return fmt.Sprintf("%s%.1f %s", sign, v, unitName)
}

// Part is one answer of a sheet.
type Part struct {
	Key     string      `json:"key"`
	Title   string      `json:"title"`
	Says    string      `json:"says,omitempty"` // the answer in a sentence; empty where it cannot be given
	Rows    []Row       `json:"rows,omitempty"`
	Lacks   []string    `json:"lacks,omitempty"` // what has to be entered for it, in words
	Notes   []string    `json:"notes,omitempty"`
	Prices  []string    `json:"prices,omitempty"` // the lines it took, with their decks
	Reckon  string      `json:"reckon,omitempty"` // the same by `haywarden reckon`
	Sources []source.ID `json:"sources,omitempty"`
}

func (p *Part) row(what string, v float64, unitName, from string) {
	p.Rows = append(p.Rows, Row{What: what, Value: round(v), Unit: unitName, From: from})
}

// round keeps six digits after the point: nothing here is known finer, and answers stay equal across
// processors.
func round(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func (p *Part) note(format string, args ...any) {
	p.Notes = append(p.Notes, fmt.Sprintf(format, args...))
}

func (p *Part) lack(format string, args ...any) {
	if said := fmt.Sprintf(format, args...); !slices.Contains(p.Lacks, said) {
		p.Lacks = append(p.Lacks, said)
	}
}

// purse looks prices up for a farm.
type purse struct {
	view *book.View
	farm *book.FarmView
}

// take is a price for a part, which names it; not ok where no deck has it, which the part says.
func (u purse) take(p *Part, line string) (float64, bool) {
	v, ok := u.look(p, line)
	if !ok {
		k, _ := book.PriceKindOf(line)
		p.lack("a price of %s (line %s, %s)", k.Title, line, k.Unit)
	}
	return v, ok
}

// look is take for a price that a part can do without.
func (u purse) look(p *Part, line string) (float64, bool) {
	got, ok := u.view.Price(u.farm, line)
	if !ok {
		return 0, false
	}
	said := fmt.Sprintf("%s %g %s, %s", line, got.Value, got.Unit, got.From())
	if !slices.Contains(p.Prices, said) {
		p.Prices = append(p.Prices, said)
	}
	return got.Value, true
}
