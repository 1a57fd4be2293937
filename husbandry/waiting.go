package husbandry

import (
	"fmt"
	"strings"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/source"
	"haywarden/book"
	"haywarden/outlook"
)

// waits are the days of waiting that are laid side by side; of the longest the milk was seen.
var waits = []int{1, 3, 6}

// milkLateKg is the milk a cow a day that a first crop cut so many days late has cost. [source.MilkLate]
const milkLateKg, milkLateDays = 0.45, 6

// Waiting lays what it costs to leave a crop standing side by side, an acre against cutting today, rain left
// out: by the hay market, which pays for the tons that it adds; by milk not made from poorer feed; and by
// the growth that later cuts lose. None is the answer alone: the market hardly sees the first days.
func Waiting(v *book.View, s *outlook.Stand) Part {
	p := Part{Key: "waiting", Title: "What waiting costs, line by line", Sources: []source.ID{source.DelayValue, source.MilkLate, source.PlanLosses}}
	u := purse{v, s.Farm}
	a := s.Ahead()
	if a == nil {
		p.lack("a feed value of the standing crop, which only pure alfalfa with weather has")
		return p
	}
	tons, err := cutTons(s)
	if err != nil {
		p.note("%v", err)
		return p
	}
	hay, okHay := u.hay(&p)
	milk, okMilk := u.take(&p, book.Milk)
	cowDays, okCows := u.cowDays(&p, tons)
	ofFirst := ""
	if s.Growth.Number > 1 {
		ofFirst = "; seen on a first crop, and later ones fall more slowly"
	}
	now, ok := a.Band(0)
	if !ok {
		return p
	}
	market := func(tons, rfv float64) float64 {
		return tons * (1 - harvestLoss) / forage.PublishedHayDM * hay.At(rfv-s.Target.Loss)
	}
	for _, days := range waits {
		then, ok := a.Band(days)
		if !ok {
			break
		}
		grown, after := float64(days)*s.Yield.DailyGrowth, fmt.Sprintf("after %d days, ", days)
		if days == 1 {
			after = "after 1 day, "
		}
		var said []string
		line := func(what string, value float64, from string) {
			p.row(after+what, value, "$/ac", from)
			said = append(said, fmt.Sprintf("%s %s an acre", what, Figure(value, "$")))
		}
		if okHay {
			line("hay market", market(tons+grown, then[2])-market(tons, now[2]), fmt.Sprintf("RFV %.0f to %.0f, %.1f tons grown to %.1f", now[2], then[2], tons, tons+grown))
		}
		if okMilk && okCows {
			kg := milkLateKg * float64(days) / milkLateDays
			_, lost := budget.MilkLate(kg, milk/(100*kgPound), 1, cowDays)
			line("milk not made", -lost, fmt.Sprintf("%.2f lb a cow a day over %.0f cow days that an acre feeds, nothing fed in its place%s", kg/kgPound, cowDays, ofFirst))
		}
		if okHay {
			line("later cuts", -market(grown, s.Target.FeedRFV+s.Target.Loss), fmt.Sprintf("%.2f tons not grown at the season's end, at the feed value wanted", grown))
		}
		if days == waits[len(waits)-1] && len(said) > 1 {
			p.Says = fmt.Sprintf("Waiting %d days, against cutting today: %s.", days, strings.Join(said, ", "))
		}
	}
	if len(p.Rows) > 0 {
		p.note("Market and milk price the same poorer feed: who sells hay reads the one, who feeds it the other. Later cuts come on top of either. Rain is weighed apart, above.")
	}
	return p
}

// cowDays is for how many days a cut of so many tons an acre feeds a milking cow of the farm all her forage.
func (u purse) cowDays(p *Part, tons float64) (float64, bool) {
	n, err := NeedOf(u.view, u.farm, Growing{})
	var head, eaten float64
	for _, g := range n.Groups {
		if g.Kind == string(book.Lactating) {
			head += float64(g.Head)
			eaten += float64(g.Head) * g.Forage
		}
	}
	if err != nil || eaten <= 0 {
		p.lack("the farm's milking cows and their forage, for milk not made")
		return 0, false
	}
	return tons * (1 - planField) * (1 - planStore) * poundsATon / (eaten / head), true
}
