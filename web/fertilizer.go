package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"

	"github.com/a-h/templ"

	"haywarden/husbandry"
	"haywarden/office"
)

type fertilizerView struct {
	Farm, Home, Lede string
	For              formView
	Buy              partView
	Cautions         []string
	Fields           []fieldNeedView
}

// fieldNeedView is one field's need and what is spread for it.
type fieldNeedView struct {
	ID, Name, What string
	Needs          [][2]string // nutrient, lb/ac
	Spread         [][3]string // product, lb/ac, lb
	When           []string
	Lacks          []string
	Cautions       []string
}

func (s *Server) fertilizer(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	q := &sent{r.URL.Query(), map[string]string{}}
	nitrogen := float64(husbandry.UsualNitrogen)
	if q.text("nitrogen") != "" {
		nitrogen = q.number("nitrogen")
	}
	o, err := s.office.Fertilizer(ctx, s.actor, r.PathValue("id"), nitrogen, p.ask)
	if bad, ok := errors.AsType[*office.BadEntry](err); ok {
		q.wrong["nitrogen"] = bad.Text
		o, err = s.office.Fertilizer(ctx, s.actor, r.PathValue("id"), husbandry.UsualNitrogen, p.ask)
	}
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = o.FarmView.Name+", fertilizer", o.Region
	v := fertilizerView{Farm: o.FarmView.Name, Home: string(p.link("/farms/" + o.FarmView.ID)), Buy: partOf(o.Buy), Cautions: o.Cautions}
	v.Lede = "What its fields need in a year, and the least costly products for it. What was spread since last year's last cut comes off it, manure too."
	v.For = formView{ID: "for", Action: r.URL.Path, Button: "Reckon", Get: true, Hidden: p.dateHidden(), Fields: []fieldView{
		{Name: "nitrogen", Label: "Nitrogen that may come along", Value: plainNumber(o.Nitrogen), Unit: "lb/ac", Hint: "a stand that nodulates gains nothing from it", Error: q.wrong["nitrogen"]},
	}}
	if len(q.wrong) > 0 {
		v.For.Fields[0].Value = q.value.Get("nitrogen")
		v.For.Wrong = fmt.Sprintf("The order below lets %d lb come along.", husbandry.UsualNitrogen)
	}
	for i, f := range o.Fields {
		n := fieldNeedView{ID: fmt.Sprintf("field-%d", i), Name: f.Field, What: fmt.Sprintf("%s acres", plainNumber(f.Acres)), When: f.Parts, Lacks: f.Lacks, Cautions: f.Cautions}
		for _, from := range f.From {
			n.What += "; " + from
		}
		for _, a := range f.Amounts() {
			n.Needs = append(n.Needs, [2]string{a.Word, a.Pounds})
		}
		for _, x := range f.Spread {
			n.Spread = append(n.Spread, [3]string{x.Name, fmt.Sprintf("%.0f", x.PerAcre), fmt.Sprintf("%.0f", x.Pounds)})
		}
		v.Fields = append(v.Fields, n)
	}
	return fertilizerPage(p, v), nil
}

// fertilizerOf says on a farm's page what its fields need, where they need any.
func (p frame) fertilizerOf(v *farmView, f *office.FarmAdvice) {
	var needs []husbandry.FieldNeed
	for _, sa := range f.Stands {
		if !sa.Stand.Growing(sa.Stand.Date) {
			continue
		}
		needs = append(needs, husbandry.NeedOfField(f.Outlook, sa.Stand))
	}
	if total := husbandry.Totals(needs); total != "" {
		v.Needs, v.Fertilizer = "All its fields together need "+total+".", string(p.link("/farms/"+f.Farm.ID+"/fertilizer"))
	}
}
