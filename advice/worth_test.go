package advice_test

import (
	"math"
	"strings"
	"testing"

	"haywarden/book"
)

func readToday(deck *book.Prices) *stand {
	s := alfalfa("Alder")
	s.deck = deck
	s.visits["05-26"] = stick(28, book.Bud)
	return s
}

func TestDollarsNameTheirDeckAndAreOrdered(t *testing.T) {
	p := find(round(t, day("05-27"), plain(), readToday(hayPrices(0))), "Alder", "first-cut")
	if p == nil || p.Worth.Dollars == nil {
		t.Fatalf("no dollars: %+v", p)
	}
	d := p.Worth.Dollars
	if !(0 < d.Low && d.Low <= d.Middle && d.Middle <= d.High) || d.NoDifference {
		t.Errorf("worth %+v", d)
	}
	if !strings.Contains(d.Line, "Test deck (2026-03-01)") || !strings.Contains(d.Line, "$1.30 a point") {
		t.Errorf("line %q names neither deck nor price", d.Line)
	}
	if p.LossShare <= 0 || p.LossShare > 0.05 {
		t.Errorf("a day of waiting loses %.4f of the year", p.LossShare)
	}
}

// The dollars of a week's wait by hand: points lost, $1.30 a point, tons of hay from the standing crop
// of which a tenth is lost and the rest sold at 12 % moisture.
func TestDollarsAreThePointsTimesThePrice(t *testing.T) {
	p := find(round(t, day("05-27"), plain(), readToday(hayPrices(0))), "Alder", "first-cut")
	if p == nil || p.Worth.Dollars == nil {
		t.Fatal("no dollars")
	}
	from := int(p.Window.Best - p.Stand.Date)
	_, points, _, _ := p.Stand.Ahead().Loss(from, from+7)
	want := points * 1.3 * p.Stand.Yield.FirstCut * 0.9 / 0.88
	if got := p.Worth.Dollars.Middle; math.Abs(got-want) > 1e-9 {
		t.Errorf("%.4f $/ac, by hand %.4f", got, want)
	}
}

func TestARangeThatSpansNothingIsCalledNoDifference(t *testing.T) {
	p := find(round(t, day("05-27"), plain(), readToday(hayPrices(900))), "Alder", "first-cut")
	if p == nil || p.Worth.Dollars == nil {
		t.Fatal("no dollars")
	}
	if d := p.Worth.Dollars; !d.NoDifference || d.High != 0 || !strings.Contains(d.Line, "floor of $900") {
		t.Errorf("hay at its floor whatever its feed value: %+v", d)
	}
}

func TestWithoutPricesThereAreTonsAndPointsAndNoDollar(t *testing.T) {
	noHay := &book.Prices{Name: "Cutting only", Lines: []book.PriceLine{{Name: "harvest-cost", Unit: "$/ac", Value: 64}}}
	for name, deck := range map[string]*book.Prices{"no deck": nil, "a deck without hay": noHay} {
		p := find(round(t, day("05-27"), plain(), readToday(deck)), "Alder", "first-cut")
		says(t, p, "points", "tons an acre")
		without(t, p, "$", "dollar")
		if p != nil && (p.Worth.Dollars != nil || p.LossShare <= 0) {
			t.Errorf("%s: %+v, %.4f of the year a day", name, p.Worth, p.LossShare)
		}
	}
}
