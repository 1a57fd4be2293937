package allot

import (
	"fmt"
	"math"
	"strings"
)

// TonWorth is what one more ton of a quality would be worth to the farm by the plan's shadow prices, and
// the group it would feed: the most that a ton of need costs among the groups that it suits, its fibre
// counted where blends are held to a ceiling. 0 where nobody needs it; it may sell for more. Whole plans
// have no such price.
func (p *Plan) TonWorth(rfq, ndf float64) (worth float64, group string) {
	if p.Needs == nil {
		return 0, ""
	}
	l := Lot{Name: "one more", Tons: 1, RFQ: rfq, NDF: ndf}
	for j, g := range p.Ask.Groups {
		if g.Tons == 0 || !p.Ask.suits(l, g) {
			continue
		}
		w := p.Needs[j]
		if p.Ask.Rule == ByBlend && known(g.Ceiling) {
			w -= (ndf - g.Ceiling) * p.Points[j] / g.Tons
		}
		if w > worth {
			worth, group = w, g.Name
		}
	}
	return worth, group
}

// Money writes a sum for a sentence: whole dollars, or tons where no prices were given.
func (p *Plan) Money(v float64) string {
	if p.Ask.Tons {
		return fmt.Sprintf("%.1f tons of bought forage", v)
	}
	if math.Abs(v) < 9.995 {
		return fmt.Sprintf("$%.2f", v)
	}
	return fmt.Sprintf("$%.0f", v)
}

// Words say the shadow prices and the gaps in sentences.
func (p *Plan) Words() (said []string) {
	const nothing = 0.005
	switch q := p.Gaps; {
	case q.Quantity > trace && q.Quality > trace:
		said = append(said, fmt.Sprintf("%.0f tons are short, and %.0f tons more are of a quality that nobody here can be fed: a gap in tons and a gap in quality", q.Quantity, q.Quality))
	case q.Quantity > trace:
		said = append(said, fmt.Sprintf("%.0f tons are short; the quality there is suits", q.Quantity))
	case q.Quality > trace:
		said = append(said, fmt.Sprintf("there are tons enough, but %.0f tons of the need find no feed that suits: a gap in quality, not in tons", q.Quality))
	}
	if p.Ask.Whole {
		if saved := p.Cost - p.Split; saved > nothing {
			said = append(said, fmt.Sprintf("parting lots would save %s", p.Money(saved)))
		}
		return said
	}
	var idle []string
	for i, l := range p.Ask.Lots {
		switch v := p.Saves[i]; {
		case v > nothing:
			said = append(said, fmt.Sprintf("one more ton of %s saves %s", l.Name, p.Money(v)))
		case l.Tons > 0:
			idle = append(idle, l.Name)
		}
	}
	if len(idle) > 0 {
		said = append(said, fmt.Sprintf("one more ton of %s saves nothing", strings.Join(idle, ", or of ")))
	}
	for j, g := range p.Ask.Groups {
		switch v := p.Needs[j]; {
		case v > nothing:
			said = append(said, fmt.Sprintf("one more ton for %s costs %s", g.Name, p.Money(v)))
		case v < -nothing:
			said = append(said, fmt.Sprintf("one more ton for %s brings %s", g.Name, p.Money(-v)))
		}
		if v := p.Points[j]; v > nothing {
			said = append(said, fmt.Sprintf("one point more of NDF allowed to %s saves %s", g.Name, p.Money(v)))
		}
	}
	return said
}
