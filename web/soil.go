package web

import (
	"fmt"
	"strings"

	"haywarden/office"
)

// soilView is the soil under a stand: the newest values, what guides say, what left and came.
type soilView struct {
	Values [][]string
	Lacks  string // what to measure next
	Says   []factView
	Ledger [][]string
	Told   string
	Spread [][]string
	Tissue [][]string
	Sown   []string
}

// soilOf turns what is known of a soil into words.
func soilOf(s *office.FieldSoil) soilView {
	v := soilView{Sown: s.Sown, Says: []factView{{"Lime", guideSay(s.Lime)}, {"Phosphate, potash", guideSay(s.Feed)}}}
	if len(s.Values) == 0 {
		v.Lacks = "No soil test of this field is in the book. Measure next: pH with its buffer, P and K, from 15 to 20 cores of one depth."
	}
	for _, x := range s.Values {
		in := x.Unit
		if x.By != "" {
			in += " by " + x.By
		}
		moved := x.Moved
		if x.Class != "" {
			moved = strings.Trim(x.Class+"; "+moved, "; ")
		}
		v.Values = append(v.Values, []string{x.Name, office.SoilNumber(x), in, fmt.Sprintf("%s %d", x.Day.Time().Format("Jan"), x.Day.Year()), moved})
	}
	if s.Ledger == nil {
		v.Told = "What left with the crops cannot be said: " + s.Without + "."
	} else {
		v.Told = s.Ledger.Says
		for _, y := range s.Ledger.Years {
			row := []string{fmt.Sprint(y.Year), fmt.Sprintf("%.1f", y.Tons)}
			for _, lb := range []float64{y.TakenP2O5, y.TakenK2O, y.GivenP2O5, y.GivenK2O} {
				row = append(row, fmt.Sprintf("%.0f", lb))
			}
			v.Ledger = append(v.Ledger, append(row, signed(y.BalanceP2O5, 0), signed(y.BalanceK2O, 0)))
		}
	}
	for _, a := range s.Spread {
		v.Spread = append(v.Spread, []string{a.Day.String(), withYear(a.Day), a.Says + ": " + office.SpreadBrought(a)})
	}
	for _, t := range s.Tissue {
		v.Tissue = append(v.Tissue, []string{t.Element, fmt.Sprintf("%g %s", t.Value, t.Unit), strings.Trim(t.Class+"; "+t.Remedy, "; ")})
	}
	return v
}

func guideSay(g office.GuideSays) string {
	said := g.Says
	if g.Why != "" {
		said = "cannot be said: " + g.Why
	}
	if g.Guide != "" {
		said += " (by the " + g.Named() + " guide)"
	}
	return strings.Join(append([]string{said + "."}, g.Notes...), " ")
}
