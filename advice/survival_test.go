package advice_test

import (
	"strings"
	"testing"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

// priced adds what a stand costs to the hay prices.
func priced(hay float64) *book.Prices {
	p := hayPrices(90)
	p.Lines[0].Value = hay
	p.Lines = append(p.Lines, []book.PriceLine{
		{Name: book.HarvestCost, Unit: "$/ac", Value: 45}, {Name: book.StandFixed, Unit: "$/ac", Value: 170},
		{Name: book.Establishment, Unit: "$/ac", Value: 320}, {Name: book.Interest, Unit: "%", Value: 5}, {Name: book.Nitrogen, Unit: "$/lb", Value: 0.6},
	}...)
	return p
}

func TestKeepingAStandIsWeighedAgainstAChainOfNewOnes(t *testing.T) {
	at := func(deck *book.Prices, visit book.Visit) *advice.Piece {
		s := alfalfa("Alder")
		s.deck, s.visits["04-20"] = deck, visit
		return find(round(t, day("04-22"), plain(), s), "Alder", "keep-or-turn")
	}
	full, thin := stems(124, 130, 118, 126, 134), stems(60, 52, 56, 58, 50, 54)
	p := at(priced(176), full)
	says(t, p, "This year's margin", "A chain of new stands", "agree", "keep-or-turn stems=55.0")
	if len(p.Choices) != 4 || p.Choices[0].Dollars == "" || !strings.Contains(p.Choices[3].Dollars, "ended at age") {
		t.Errorf("%+v", p.Choices)
	}
	says(t, at(priced(176), thin), "Turn under", "agree")
	// Without prices there are tons and no dollars.
	p = at(nil, thin)
	says(t, p, "No prices")
	without(t, p, "$")
	for _, c := range p.Choices {
		if c.Dollars != "" || c.Tons == "" {
			t.Errorf("without prices: %+v", c)
		}
	}
	// Rotten roots are not in the money: the look decides.
	rotten := stems(124, 130, 118, 126, 134)
	rotten.Crowns = &book.Crowns{2, 2, 3, 4, 5, 4}
	says(t, at(priced(176), rotten), "the look decides", "13 of 20")
}

// The margin is what the reckoning says of the same numbers, worked by hand here.
func TestTheMarginIsTonsAtThePriceLessWhatAnAcreCosts(t *testing.T) {
	s := alfalfa("Alder")
	s.deck, s.visits["04-20"] = priced(176), stems(90, 90, 90)
	r := round(t, day("04-22"), plain(), s)
	m, ok := advice.KeepMoneyOf(r.Outlook.Stands[0], "Wisconsin")
	// 45 stems give 4.88 tons; hay of RFV 150 is 176 + 1.3 x 12.5 = 192.25 $/ton at 12 % moisture.
	want := 4.88*192.25/0.88 - 170 - 4*45
	if !ok || m.Next < want-0.01 || m.Next > want+0.01 {
		t.Errorf("%g, want %g", m.Next, want)
	}
	if m.BestAge < 2 || m.BestAge > 6 || len(m.EAE) != len(m.Yields) {
		t.Errorf("best age %d of %v", m.BestAge, m.EAE)
	}
	if m.CreditUnknown == "" {
		t.Error("a nitrogen credit is said and no plants were counted")
	}
}

func TestTheHarmSaysWhatToDo(t *testing.T) {
	share := func(v float64) *float64 { return &v }
	yes := true
	for name, c := range map[string]struct {
		visit book.Visit
		harm  book.Harm
		want  []string
	}{
		"half the tips near the cut":    {stick(20, book.Bud), book.Harm{Kind: book.Hail, Tips: share(60), Leaves: share(40)}, []string{"cut now", "0.7 tons"}},
		"few tips":                      {stick(20, book.Bud), book.Harm{Kind: book.Hail, Tips: share(10)}, []string{"cut at its time"}},
		"a third, where sources differ": {stick(20, book.Bud), book.Harm{Kind: book.Hail, Tips: share(35)}, []string{"sources differ"}},
		"lodged":                        {stick(20, book.Bud), book.Harm{Kind: book.Hail, Tips: share(35), Lodged: true}, []string{"cut from 18 May"}},
		"nobody looked at tips":         {stick(20, book.Bud), book.Harm{Kind: book.Hail}, []string{"look at the tips of 50 stems"}},
		"a week under water":            {stick(20, book.Bud), book.Harm{Kind: book.Ponding, Under: share(7)}, []string{"7 days under water", "about 3", "20 roots"}},
		"roots soft":                    {stick(20, book.Bud), book.Harm{Kind: book.Ponding, Soft: &yes}, []string{"sow something else"}},
		"silt":                          {stick(20, book.Bud), book.Harm{Kind: book.Ponding, Silt: share(6)}, []string{"6 in of silt"}},
		"short and dry":                 {stick(8, book.Bud), book.Harm{Kind: book.Drought}, []string{"leave it uncut"}},
		"tall and dry":                  {stick(20, book.Flower), book.Harm{Kind: book.Drought}, []string{"half to full bloom", "nitrate"}},
	} {
		s := alfalfa("Alder")
		c.harm.Day = day("05-14")
		v := c.visit
		v.Harm = &c.harm
		s.visits["05-16"] = v
		p := find(round(t, day("05-17"), plain(), s), "Alder", "other-harm")
		t.Run(name, func(t *testing.T) { says(t, p, c.want...) })
	}
	// After the cut it is over.
	s := alfalfa("Alder")
	s.visits["05-16"] = book.Visit{Harm: &book.Harm{Kind: book.Hail, Day: day("05-14"), Tips: share(60)}}
	s.cuts = []string{"05-20"}
	if find(round(t, day("05-22"), plain(), s), "Alder", "other-harm") != nil {
		t.Error("hail of the growth that was cut still speaks")
	}
}

// bitter makes January so cold, without snow, that crowns freeze.
func bitter(d unit.Day, o *weather.Obs) {
	if d >= day("01-05") && d <= day("01-15") {
		o.Value[weather.TMin], o.Value[weather.TMax] = -300, -200
	}
}

func TestAfterAHardWinterTheDoubtfulAreVisitedFirst(t *testing.T) {
	hard := sky(bitter)
	tender := func(name string) *stand {
		s := alfalfa(name)
		s.visits["01-02"] = book.Visit{Winter: &book.WinterSeen{Hardiness: "moderate", Resistance: "none", Drainage: "poor", Moisture: "wet"}}
		return s
	}
	counted := tender("Counted")
	counted.visits["04-08"] = stems(124, 130, 118, 126, 134)
	tough := alfalfa("Tough")
	no := true
	tough.visits["01-02"] = book.Visit{Winter: &book.WinterSeen{Hardiness: "very", Resistance: "high", Drainage: "good", Moisture: "dry", Stubble: &no}}
	clover := alfalfa("Clover")
	clover.Crop = book.RedClover
	r := round(t, day("04-10"), hard, tough, counted, tender("Tender"), clover)
	tri := advice.Winterkill(r.Outlook)
	var names []string
	for _, s := range tri.Stands {
		names = append(names, s.Stand.Farm.Name)
	}
	if strings.Join(names, " ") != "Tender Tough Counted" || tri.Skipped != 1 {
		t.Errorf("order %v, %d not judged", names, tri.Skipped)
	}
	if c := tri.Stations[0].Winter.Stress.Class; c != "severe" {
		t.Errorf("the winter is called %s", c)
	}
	if !strings.Contains(tri.Message, "hard on alfalfa crowns") || !strings.Contains(tri.Message, "31 May") {
		t.Errorf("message: %s", tri.Message)
	}
	for _, d := range tri.Stations[0].Replant {
		if d.Day < day("04-10") {
			t.Errorf("%s is past", d.Day)
		}
	}
	// A mild winter is not called hard, and a round in fall asks nothing.
	mild := advice.Winterkill(round(t, day("04-10"), plain(), tender("Tender")).Outlook)
	if !strings.Contains(mild.Message, "was not hard") {
		t.Errorf("message: %s", mild.Message)
	}
	if fall := advice.Winterkill(round(t, unit.DateOf(2026, time.October, 1), plain(), tender("Tender")).Outlook); len(fall.Stands) != 0 {
		t.Errorf("in October: %+v", fall.Stands)
	}
	// The piece that sends someone to dig comes at green-up and ends with a count.
	var seen bool
	for d := day("03-20"); d < day("05-10"); d++ {
		p := find(round(t, d, hard, tender("Tender")), "Tender", "winter-look")
		if p != nil {
			seen = true
			says(t, p, "severe", "from memory")
		}
	}
	if !seen {
		t.Error("nobody is sent to dig after a severe winter")
	}
}
