package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"haywarden/agronomy/unit"
	"haywarden/husbandry"
	"haywarden/office"
)

type priceRow struct{ Title, Line, Value, Unit, From, Old string }

type priceGroup struct {
	Name string
	Rows []priceRow
}

type pricesView struct {
	Lede   string
	Done   doneView
	Choose formView
	Groups []priceGroup
	Entry  formView
	Lines  partView
	Ask    formView // the forage priced by several lines
}

func (s *Server) prices(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	return s.pricesAgain(ctx, r, p, nil)
}

func (s *Server) pricesAgain(ctx context.Context, r *http.Request, p frame, t *typed) (templ.Component, error) {
	q := &sent{r.URL.Query(), map[string]string{}}
	of := husbandry.Reference()
	for name, to := range map[string]*float64{"rfv": &of.RFV, "cp": &of.CP, "nel": &of.NEL, "ndf": &of.NDF} {
		if q.text(name) != "" {
			*to = q.number(name)
		}
	}
	q.accept(of.Check(), map[string]string{"rfv": "RFV", "cp": "protein", "nel": "energy", "ndf": "NDF"})
	asked := of
	if len(q.wrong) > 0 {
		of = husbandry.Reference()
	}
	farm := q.text("farm")
	if t != nil {
		farm = t.value.Get("farm")
	}
	b, err := s.office.Prices(ctx, s.actor, farm, of, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = "Prices", b.Region
	v := pricesView{Done: p.done(r), Lines: partOf(b.Lines)}
	v.Lede = "Prices of the book. A farm's own go before them."
	if b.Farm != "" {
		v.Lede = "Prices as they hold for " + b.Farm + ": its own first, then the book's."
	}
	farms := append([][2]string{{"", "the whole book"}}, b.Farms...)
	v.Choose = formView{ID: "whose", Action: "/prices", Button: "Show", Get: true, Fields: []fieldView{{Name: "farm", Label: "Whose prices", Kind: "select", Value: b.FarmID, Choices: farms}}}
	v.Choose.Hidden = p.dateHidden()
	var lines [][2]string
	old := 0
	for _, row := range b.Rows {
		lines = append(lines, [2]string{row.Line, fmt.Sprintf("%s: %s, %s", row.Group, row.Title, row.Unit)})
		if row.Value == nil {
			continue
		}
		value, per := priced(*row.Value, row.Unit)
		pr := priceRow{Title: row.Title, Line: row.Line, Value: value, Unit: per, From: row.Deck + ", " + row.Day + ", by " + row.Author}
		if row.Own {
			pr.From = "its own: " + pr.From
		}
		if row.Old {
			old++
			pr.Old = fmt.Sprintf("old: %d days; such a price is taken for %d (choice)", row.Age, row.Fresh)
		}
		name := strings.ToUpper(row.Group[:1]) + row.Group[1:]
		if n := len(v.Groups); n == 0 || v.Groups[n-1].Name != name {
			v.Groups = append(v.Groups, priceGroup{Name: name})
		}
		g := &v.Groups[len(v.Groups)-1]
		g.Rows = append(g.Rows, pr)
	}
	switch {
	case len(v.Groups) == 0:
		v.Lede += " None is entered yet, so worth is said in tons and points."
	case old == 1:
		v.Lede += " One is old."
	case old > 1:
		v.Lede += fmt.Sprintf(" %d are old.", old)
	}
	v.Entry = t.fill(formView{
		ID: "price", Action: string(p.link("/prices")), Button: "Save the price",
		Fields: []fieldView{
			{Name: "farm", Label: "For", Kind: "select", Value: b.FarmID, Choices: farms},
			{Name: "line", Label: "Line", Kind: "select", Choices: lines, Wide: true},
			{Name: "value", Label: "Price", Hint: "in the unit named with the line"},
			{Name: "day", Label: "Price of", Kind: "date", Value: p.ask.Date.String()},
			{Name: "deck", Label: "Deck", Kind: "text", Hint: "where it is from; the same name and day is one deck"},
		},
	})
	v.Ask = formView{
		ID: "forage", Action: "/prices#lines", Button: "Price it", Get: true, Hidden: append(p.dateHidden(), [2]string{"farm", b.FarmID}),
		Fields: []fieldView{
			{Name: "rfv", Label: "RFV", Value: plainNumber(asked.RFV), Unit: "points", Error: q.wrong["rfv"]}, {Name: "cp", Label: "Protein", Value: plainNumber(asked.CP), Unit: "% of DM", Error: q.wrong["cp"]},
			{Name: "nel", Label: "Energy", Value: plainNumber(asked.NEL), Unit: "Mcal/lb", Error: q.wrong["nel"]}, {Name: "ndf", Label: "NDF", Value: plainNumber(asked.NDF), Unit: "% of DM", Error: q.wrong["ndf"]},
		},
	}
	for i, f := range v.Ask.Fields {
		if f.Error != "" {
			v.Ask.Fields[i].Value = q.text(f.Name)
			v.Ask.Wrong = "The usual alfalfa is priced instead."
		}
	}
	return pricesPage(p, v), nil
}

func plainNumber(v float64) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// dateHidden keeps the date that was asked for through a form that asks.
func (p frame) dateHidden() [][2]string {
	if !p.asked {
		return nil
	}
	return [][2]string{{"date", p.Date}}
}

func (s *Server) enterPrice(ctx context.Context, _ *http.Request, p frame, f *sent) (office.Saved, string, error) {
	e := office.PriceEntry{Farm: f.text("farm"), Line: f.text("line"), Deck: f.text("deck"), Value: f.number("value")}
	if f.text("value") == "" {
		f.wrong["value"] = "is empty; a number wanted"
	}
	if raw := strings.TrimSpace(f.text("day")); raw != "" {
		d, err := unit.ParseDay(raw)
		if err != nil {
			f.wrong["day"] = err.Error()
		}
		e.Day = d
	}
	if len(f.wrong) > 0 {
		return office.Saved{}, "", nil
	}
	saved, err := s.office.SetPrice(ctx, s.actor, p.ask, e)
	back := "/prices"
	if e.Farm != "" {
		back += "?" + url.Values{"farm": {e.Farm}}.Encode()
	}
	return saved, back, err
}

// priced writes a price as it is read: $188/ton, $5.40/lb, 150 RFV.
func priced(v float64, unit string) (value, rest string) {
	number := strconv.FormatFloat(v, 'f', -1, 64)
	per, dollars := strings.CutPrefix(unit, "$")
	if !dollars {
		return number, " " + unit
	}
	if _, cents, broken := strings.Cut(number, "."); broken && len(cents) < 2 {
		number += "0"
	}
	return "$" + number, per
}
