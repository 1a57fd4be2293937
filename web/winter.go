package web

import (
	"context"
	"fmt"
	"net/http"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/outlook"
)

// winterView is the triage after a winter.
type winterView struct {
	Lede     string
	Narrow   string // what would narrow the doubt, and in how many stands
	Rows     []winterRow
	Counted  []winterRow
	Stations []winterStationView
	SowBy    []dayView
	SowFrom  string // station whose freezes the last days are by
	Message  []string
}

type winterRow struct{ Rank, Name, Href, Stress, Risk, Loss, Tons string }

type winterStationView struct {
	Name, Say string
	Facts     []factView
}

func (s *Server) winter(ctx context.Context, _ *http.Request, p frame) (templ.Component, error) {
	t, err := s.office.Winter(ctx, s.actor, p.ask)
	if err != nil {
		return nil, err
	}
	p.Title = "After the winter"
	return winterPage(p, p.winterView(t)), nil
}

func (p frame) winterView(t advice.Triage) winterView {
	v := winterView{Narrow: narrows(t), Message: strings.Split(strings.TrimSpace(t.Message), "\n")}
	for i, s := range t.Stands {
		row := winterRow{
			Rank: fmt.Sprint(i + 1), Name: s.Stand.Named(), Href: p.standHref(s.Stand), Stress: "not known", Risk: string(s.Risk.LowClass),
			Loss: advice.LossSpan(s.Wintered), Tons: fmt.Sprintf("%.0f", s.Tons),
		}
		if s.Winter != nil {
			row.Stress = string(s.Winter.Stress.Class)
		}
		if s.Risk.HighClass != s.Risk.LowClass {
			row.Risk += " to " + string(s.Risk.HighClass)
		}
		if s.Counted {
			v.Counted = append(v.Counted, row)
		} else {
			v.Rows = append(v.Rows, row)
		}
	}
	for _, s := range t.Stations {
		w := winterStationView{Name: s.Name, Say: "too few days reported to judge the winter"}
		if s.Winter != nil {
			w.Say = string(s.Winter.Stress.Class) + " on crowns"
			w.Facts = groundFacts(advice.StationWinter(s.Winter))
		}
		v.Stations = append(v.Stations, w)
		if v.SowFrom == "" && len(s.Replant) > 0 {
			v.SowFrom = s.Name
			for _, d := range s.Replant {
				v.SowBy = append(v.SowBy, dayView{d.Day.String(), advice.Short(d.Day), d.Say})
			}
		}
	}
	switch n := len(v.Rows); {
	case n == 0 && len(v.Counted) == 0:
		v.Lede = "No stand stood through a winter that is judged on this day."
	case n == 0:
		v.Lede = "Every stand was counted this spring."
	default:
		v.Lede = fmt.Sprintf("%s %s not counted yet, those first that a visit would settle most: what the winter may have cost, times the doubt about it.", capitalCount(n), advice.Plural(n, "stand"))
	}
	return v
}

// narrows says what would narrow the doubt most, and in how many stands.
func narrows(t advice.Triage) string {
	count := map[string]int{}
	var order []string
	for _, s := range t.Stands {
		if s.Counted {
			continue
		}
		if count[s.Change] == 0 {
			order = append(order, s.Change)
		}
		count[s.Change]++
	}
	parts := make([]string, len(order))
	for i, c := range order {
		parts[i] = fmt.Sprintf("%s (%d %s)", c, count[c], advice.Plural(count[c], "stand"))
	}
	return strings.Join(parts, "; ")
}

// groundFacts are grounds as a list of facts.
func groundFacts(all []advice.Ground) []factView {
	var out []factView
	for _, g := range all {
		out = append(out, factView{g.What, g.Value + " (" + g.How + ")"})
	}
	return out
}

// wintered says how a stand came through the winter, until its first cut.
func wintered(s *outlook.Stand) []factView {
	if s.Wintered == nil || s.Growth.Number > 1 {
		return nil
	}
	return groundFacts(advice.WinterGrounds(s.Wintered))
}

// choices sets the ways to go on with a stand side by side.
func choices(pieces []*advice.Piece) [][]string {
	for _, p := range pieces {
		if len(p.Choices) == 0 {
			continue
		}
		rows := [][]string{{"", "Tons DM/ac", "Margin $/ac", ""}}
		for _, c := range p.Choices {
			dollars := c.Dollars
			if dollars == "" {
				dollars = "no figure"
			}
			rows = append(rows, []string{c.Name, c.Tons, dollars, c.Say})
		}
		return rows
	}
	return nil
}
