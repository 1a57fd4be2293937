package advice

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/seeding"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	sowSpoken = 30 // days before its window from which a seeding is spoken of (choice)
	sowLast   = 7  // days before the window closes in which it is called for today (choice)
)

// SeedBy says when a planned seeding is sown: by the station's own freezes, with the calendar's rule beside.
func SeedBy(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	for i := range s.Plans {
		p := &s.Plans[i]
		w := p.Window
		if s.Date < w.Early-sowSpoken {
			continue
		}
		plan := p.Plan.Body
		out := &Piece{Decision: "seed-by", Stand: s, Urgency: Watch, Title: fmt.Sprintf("Seed %s between %s", plan.Crop, Span(w.Early, w.Late))}
		out.Sentence = fmt.Sprintf("%s acres of %s are to be sown %s.", Acres(p.Acres), plan.Crop, sowWhy(p))
		switch {
		case s.Date > w.Late:
			out.Urgency, out.Title = Week, "Seeding window has closed"
			out.Sentence = fmt.Sprintf("The window for %s closed on %s; if it was sown, record it; if not, wait for %s.", plan.Crop, Short(w.Late), nextSeason(p))
		case s.Date > w.Late-sowLast:
			out.Urgency, out.Title = Today, fmt.Sprintf("Seed %s by %s", plan.Crop, Short(w.Late))
		case s.Date >= w.Early:
			out.Urgency, out.Title = Week, fmt.Sprintf("Seed %s by %s", plan.Crop, Short(w.Late))
		}
		out.Window = &Window{Early: w.Early, Middle: w.Best, Late: max(w.Late, s.Date), Best: max(w.Best, min(s.Date, w.Late)), Means: "seedlings are ready for frost", Firm: true}
		if s.Date > w.Late {
			out.Window.Best, out.Window.Late = s.Date, s.Date
			out.Window.Early, out.Window.Middle = w.Late, s.Date
		}
		out.Worth.Text = "Sown later, seedlings meet frost too small: they heave and thin."
		out.Measure = "soil moisture and how firm the seedbed is: a footprint sinks half an inch or less"
		out.Grounds = sowGrounds(s, p)
		out.Rules = []Rule{calendarRule(p)}
		return out
	}
	return nil
}

func sowWhy(p *outlook.Planned) string {
	switch {
	case !p.FromFreezes:
		return "by the calendar, as the station's freezes are not known"
	case p.Spring():
		return fmt.Sprintf("from %s on, so that seedlings are past emergence only when 26 °F is over in nine years of ten", Short(p.Window.Early))
	}
	return fmt.Sprintf("by %s, so that seedlings have six weeks before the killing freeze in nine years of ten", Short(p.Window.Late))
}

func nextSeason(p *outlook.Planned) string {
	if p.Spring() {
		return "late summer"
	}
	return "spring"
}

func sowGrounds(s *outlook.Stand, p *outlook.Planned) []Ground {
	var out []Ground
	season := p.Plan.Body.Season
	switch {
	case p.FromFreezes && p.Spring():
		out = append(out, Ground{What: "Last 26 °F", Value: "over by " + Short(p.Freeze) + " in 9 years of 10", How: "last spring day at 26 °F or less of the station's years, less three weeks to the second leaf and 10 days to emerge", Sources: []source.ID{source.SeedlingFrost, source.FreezeFormula}})
	case p.FromFreezes:
		out = append(out, Ground{
			What: "Killing freeze", Value: fmt.Sprintf("24 °F: median %s, 1 year in 10 by %s", Short(p.Freeze), Short(p.Tenth)),
			How: "first day at 24 °F or less from 1 August of the station's years; ten to six weeks of growth and 10 days to emerge before it", Sources: []source.ID{source.KillingFreeze, source.FreezeFormula, source.LastSeeding},
			Reckon: fmt.Sprintf("seeding-window frost=%s early_frost=%s emergence_days=10", p.Freeze, p.Tenth),
		})
	}
	soils := seeding.Soils()
	if d, err := seeding.PublishedDepths().For(soils[1], season); err == nil {
		sand, _ := seeding.PublishedDepths().For(soils[0], season)
		out = append(out, Ground{What: "Depth", Value: fmt.Sprintf("%.2g to %.2g in; in sand %.2g to %.2g in", d.Low, d.High, sand.Low, sand.High), How: "by soil and season", Reckon: "seed-depth soil=loamy season=" + season, Sources: []source.ID{source.SeedDepth, source.SeedDepthSeason}})
	}
	var strains []string
	for _, o := range p.Plan.Body.Offers {
		if g := seeding.StrainOf(o.Species); g != "" && !slices.Contains(strains, g) {
			strains = append(strains, g)
		}
	}
	if len(strains) > 0 {
		out = append(out, Ground{What: "Inoculant", Value: "of " + strings.Join(strains, " and of "), How: "fresh, on bare seed; treated seed carries its own", Sources: []source.ID{source.Inoculant}})
	}
	_, why := seeding.TakesCompanion(season, false)
	say := Capital(why)
	if with, onSlope := seeding.TakesCompanion(season, true); with {
		c := seeding.Companions()[0]
		say += fmt.Sprintf("; there %s at %.0f-%.0f lb, as %s", c.Name, c.Low, c.High, strings.TrimPrefix(onSlope, "the ground washes: "))
	}
	out = append(out, Ground{What: "Companion crop", Value: say, How: "by season", Sources: []source.ID{source.CompanionCrop}})
	if live := p.LivePlanned(); live > 0 {
		c := seeding.PublishedSurvival().From(unit.PerFt2(live))
		out = append(out, Ground{What: "What to count", Value: fmt.Sprintf("%.0f seedlings a square foot in a month, %.0f plants next spring", float64(c.Emerged), float64(c.Spring1)), How: "alfalfa: 60 % emerge, 55 % of those live to spring", Reckon: fmt.Sprintf("seedling-survival live_seeds_ft2=%.0f", live), Sources: []source.ID{source.SeedlingSurvival}})
	}
	return out
}

// calendarRule sets the trade's calendar beside the station's freezes.
func calendarRule(p *outlook.Planned) Rule {
	c, year := p.Calendar, p.Plan.Body.Year
	from, to, src := c.LateFrom.In(year), c.LateTo.In(year), source.SeedingCalendar
	if p.Spring() {
		from, to, src = c.SpringFrom.In(year), c.SpringTo.In(year), source.SpringCalendar
	}
	r := Rule{Says: fmt.Sprintf("in %s sow between %s", c.Place, Span(from, to)), Here: Span(from, to), Source: src}
	if !p.FromFreezes {
		return r
	}
	switch w := p.Window; {
	case p.Spring() && w.Early > from+3:
		r.Differs = fmt.Sprintf("the station's last 26 °F comes late: the calendar is %d days early for frost, and some risk it for the moisture", int(w.Early-from))
	case p.Spring() && w.Early < from-3:
		r.Differs = "the station's own springs are mild: the ground may be fit before the calendar says"
	case w.Late > to+3:
		r.Differs = fmt.Sprintf("the station's freezes leave %d more days in nine years of ten; the calendar keeps them for dry ground", int(w.Late-to))
	case w.Late < to-3:
		r.Differs = fmt.Sprintf("the station freezes early: the calendar's last day is %d days too late in one year of ten or more", int(to-w.Late))
	}
	return r
}
