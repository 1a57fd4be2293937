package paper

import (
	"fmt"
	"math"
	"strings"

	"haywarden/advice"
	"haywarden/chart"
	"haywarden/outlook"
)

// Stores draws what a farm has in store.
func Stores(f *outlook.Farm) chart.Stores {
	s := chart.Stores{}
	s.Title = "In store on " + dated(f.Date)
	var tons float64
	for _, l := range f.Lots {
		tons += l.Tons.Mid
		put := l.Put.Mid
		st := chart.Store{Name: l.Name, Shape: shapeOf(l.Store), Low: math.NaN(), Full: math.NaN(), High: math.NaN(), Says: "closed", Good: true}
		if put > 0 {
			st.Low, st.Full, st.High = l.Tons.Low/put, l.Tons.Mid/put, l.Tons.High/put
			st.Amount = fmt.Sprintf("%.0f of %.0f tons", l.Tons.Mid, put)
		}
		switch {
		case put == 0:
			st.Says, st.Good = "measure it", false
		case l.Gas != nil:
			st.Says, st.Good = "gas: keep out", false
		case l.LbDay > 0 && l.Unmatched != "":
			st.Says, st.Good = fmt.Sprintf("%.0f weeks; not for %s", l.Weeks, l.Group), false
		case l.LbDay > 0:
			st.Says, st.Good = fmt.Sprintf("%.0f weeks", l.Weeks), l.RunsOut >= f.Opens
		}
		s.All = append(s.All, st)
	}
	s.Desc = fmt.Sprintf("%d lots with %.0f tons of dry matter.", len(f.Lots), tons)
	return s
}

func shapeOf(store string) chart.StoreShape {
	switch store {
	case "sealed-tower", "stave-tower":
		return chart.TowerStore
	case "bunker":
		return chart.BunkerStore
	case "pile":
		return chart.PileStore
	case "bag":
		return chart.BagStore
	}
	return chart.BaleStore
}

// Lasting draws until when each quality lasts against the day on which the next crop is opened; not ok
// where nothing is known to eat it.
func Lasting(f *outlook.Farm) (chart.Lasting, bool) {
	if len(f.Classes) == 0 {
		return chart.Lasting{}, false
	}
	c := chart.Lasting{Today: day(f.Date), Until: day(f.Opens), UntilSays: "next crop opened"}
	c.Title = "How long feed lasts, by quality"
	var short []string
	for _, k := range f.Classes {
		c.All = append(c.All, lasts(f, k, k.Name))
		if k.Short(f.Opens) {
			short = append(short, k.Name)
		}
	}
	if f.Corn != nil {
		c.All = append(c.All, lasts(f, *f.Corn, f.Corn.Name))
	}
	c.Desc = fmt.Sprintf("All of it lasts until the next crop is opened about %s.", advice.Short(f.Opens))
	if len(short) > 0 {
		c.Desc = fmt.Sprintf("%s may run out before the next crop is opened about %s.", strings.Join(short, ", "), advice.Short(f.Opens))
	}
	return c, true
}

func lasts(f *outlook.Farm, k outlook.FeedClass, name string) chart.Lasts {
	const most = 3650
	at := func(days float64) chart.Day { return day(f.Date) + chart.Day(math.Floor(min(days, most))) }
	return chart.Lasts{Label: fmt.Sprintf("%s, %.0f lb a day", name, k.LbDay), Low: at(k.Days.Low), Middle: at(k.Days.Mid), High: at(k.Days.High)}
}

// FeedSummary says how a farm's feed stands, in a sentence or two.
func FeedSummary(f *outlook.Farm) string {
	switch {
	case f.None != "":
		return f.None
	case len(f.Lots) == 0:
		return f.NoPlan
	}
	var tons, low, high float64
	for _, l := range f.Lots {
		tons, low, high = tons+l.Tons.Mid, low+l.Tons.Low, high+l.Tons.High
	}
	said := fmt.Sprintf("%.0f tons of dry matter in store (%.0f to %.0f as measured). The next crop comes in about %s and is opened about %s.", tons, low, high, advice.Short(f.NextCrop), advice.Short(f.Opens))
	if f.Plan == nil {
		return said + " " + f.NoPlan
	}
	switch g := f.Plan.Gaps; {
	case g.Quantity > 0.5 && g.Quality > 0.5:
		said += fmt.Sprintf(" Until then %.0f tons are short, and %.0f tons more that are there suit nobody.", g.Quantity, g.Quality)
	case g.Quantity > 0.5:
		said += fmt.Sprintf(" Until then %.0f tons are short; quality is not.", g.Quantity)
	case g.Quality > 0.5:
		said += fmt.Sprintf(" There are tons enough until then, but %.0f tons of what is eaten want a better quality than is there.", g.Quality)
	default:
		said += " Tons and quality suffice until then."
	}
	return said
}

// SharedRows is who eats what as a table, headings first: a row a lot, a column a group, what is left and
// what one more ton saves; last what is bought. Nil where there is no plan.
func SharedRows(f *outlook.Farm) [][]string {
	p := f.Plan
	if p == nil {
		return nil
	}
	head := []string{"Lot", "RFQ"}
	for _, g := range p.Ask.Groups {
		head = append(head, g.Name)
	}
	rows := [][]string{append(head, "left", "one more ton saves")}
	ton := func(v float64) string {
		if v < 0.05 {
			return ""
		}
		return fmt.Sprintf("%.1f", v)
	}
	for i, l := range p.Ask.Lots {
		row := []string{l.Name, "no test"}
		if !math.IsNaN(l.RFQ) {
			row[1] = fmt.Sprintf("%.0f", l.RFQ)
		}
		for j := range p.Ask.Groups {
			row = append(row, ton(p.Fed[i][j]))
		}
		saves := "nothing"
		if p.Saves != nil && p.Saves[i] > 0.005 {
			saves = p.Money(p.Saves[i])
		}
		rows = append(rows, append(row, ton(p.Over[i]), saves))
	}
	bought, some := []string{"to buy", ""}, false
	for j := range p.Ask.Groups {
		bought = append(bought, ton(p.Purchase[j]))
		some = some || p.Purchase[j] > 0
	}
	if !some {
		return rows
	}
	return append(rows, append(bought, "", ""))
}

// FeedReport is a farm's inventory and allocation: what is in store and how long it lasts, who eats what,
// what to buy, and what to mind.
func FeedReport(f *outlook.Farm, invented bool) ([]byte, error) {
	foot := "Educational estimate, not a guarantee. Tons are short tons of dry matter; data through " + dated(f.Date) + "."
	if invented {
		foot += " Invented farm."
	}
	s, err := newSheet("Feed in store, "+f.Name, f.Date, foot)
	if err != nil {
		return nil, err
	}
	s.head(f.Name+": feed in store", 20)
	s.say(dated(f.Date), 9.5, "", quiet)
	s.gap(4)
	s.say(FeedSummary(f), bodySize, "", ink)
	s.gap(6)
	if len(f.Lots) > 0 {
		c := Stores(f)
		c.Width = 592
		s.room(150)
		s.draw(c, margin, wide)
		s.gap(6)
		s.lots(f)
	}
	if c, ok := Lasting(f); ok {
		s.room(float64(len(c.All))*40 + 100)
		s.head(c.Title, 14)
		s.say(c.Desc, 9.5, "", quiet)
		c.Width = 560
		s.draw(c, margin, wide)
		s.gap(6)
	}
	if rows := SharedRows(f); rows != nil {
		right := []bool{false}
		for range rows[0][1:] {
			right = append(right, true)
		}
		s.room(120)
		s.table(Table{Title: "Who eats what until then, tons", Head: rows[0], Right: right, Rows: rows[1:]})
		for _, w := range f.Plan.Words() {
			s.say("· "+advice.Capital(w)+".", 9.5, "", ink)
		}
		s.gap(4)
	}
	for _, p := range advice.OfFeed(f) {
		s.room(70)
		s.say(p.Title, bodySize, "B", ink)
		s.say(p.Sentence, bodySize, "", ink)
		s.gap(4)
	}
	for _, l := range f.Lacks {
		s.say("Missing: "+l+".", 9.5, "", quiet)
	}
	for _, l := range f.Prices {
		s.say("Price: "+l+".", 9.5, "", quiet)
	}
	if list := feedCautions(f); len(list) > 0 {
		s.room(60)
		s.gap(4)
		s.say("Before anyone works at a store", bodySize, "B", ink)
		for _, c := range list {
			s.say("· "+c, bodySize, "", ink)
		}
	}
	return s.bytes()
}

// lots sets each lot with how it is known.
func (s *sheet) lots(f *outlook.Farm) {
	t := Table{Title: "Lots", Head: []string{"Lot", "Tons", "Between", "RFQ", "Fed, lb a day", "Until", "Known by"}, Right: []bool{false, true, true, true, true, false, false}}
	for _, l := range f.Lots {
		row := []string{l.Name, fmt.Sprintf("%.0f", l.Tons.Mid), fmt.Sprintf("%.0f–%.0f", l.Tons.Low, l.Tons.High), "no test", "closed", "", l.How}
		if !math.IsNaN(l.RFQ) {
			row[3] = fmt.Sprintf("%.0f", l.RFQ)
		}
		if l.LbDay > 0 {
			row[4], row[5] = fmt.Sprintf("%.0f", l.LbDay), advice.Short(l.RunsOut)
		}
		t.Rows = append(t.Rows, row)
	}
	s.table(t)
	s.gap(6)
}

// feedCautions are those of the stores and of the advice on them, each once.
func feedCautions(f *outlook.Farm) []string {
	all := &advice.Piece{Cautions: f.Cautions()}
	return advice.CautionsOf(append([]*advice.Piece{all}, advice.OfFeed(f)...)...)
}
