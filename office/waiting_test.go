package office_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/husbandry"
	"haywarden/office"
)

// At hay-market prices the first days of waiting cost next to nothing, while milk and later cuts do: the lines
// stand side by side, each as by hand from the deck's prices (hay 188 $ at RFV 150 and 1.25 $ a point, milk
// 19.40 $/cwt, 0.45 kg a cow a day in 6 days), or are said to be missing.
func TestWaitingIsCostedByEachLineAndNeverByOneAlone(t *testing.T) {
	o := district(t)
	ask := office.Ask{Date: unit.DateOf(2026, time.May, 14)}
	weigh := func(stand string) *office.Weighed {
		w, err := o.Weigh(t.Context(), ida, stand, nil, "", ask)
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	value := func(p husbandry.Part, what string) float64 {
		for _, r := range p.Rows {
			if r.What == what {
				return r.Value
			}
		}
		t.Fatalf("no row %q in %+v", what, p.Rows)
		return 0
	}
	w := weigh("Ottermoss Long Meadow")
	p, s := w.Waiting, w.Stand
	a, tons := s.Ahead(), s.Yield.FirstCut
	hay := func(rfv float64) float64 { return max(105, 188+1.25*(rfv-150)) * 0.90 / 0.88 }
	for days, after := range map[int]string{1: "after 1 day, ", 3: "after 3 days, ", 6: "after 6 days, "} {
		now, _ := a.Band(0)
		then, ok := a.Band(days)
		if !ok {
			t.Fatal("no feed value ahead")
		}
		grown := 0.05 * float64(days)
		market := (tons+grown)*hay(then[2]-s.Target.Loss) - tons*hay(now[2]-s.Target.Loss)
		later := -grown * hay(s.Target.FeedRFV)
		if got := value(p, after+"hay market"); math.Abs(got-market) > 1e-5 {
			t.Errorf("%shay market %g, want %g", after, got, market)
		}
		if got := value(p, after+"later cuts"); math.Abs(got-later) > 1e-5 {
			t.Errorf("%slater cuts %g, want %g", after, got, later)
		}
		milk := value(p, after+"milk not made")
		if cowDays := -milk / (0.45 * float64(days) / 6 * 19.40 / 45.359237); cowDays < tons*0.765*2000/45 || cowDays > tons*0.765*2000/15 {
			t.Errorf("%smilk %g: an acre feeds %.0f cow days, where a cow eats 15 to 45 lb", after, milk, cowDays)
		}
	}
	if !strings.Contains(p.Says, "hay market") || !strings.Contains(p.Says, "milk not made") || !strings.Contains(p.Says, "later cuts") || len(p.Prices) < 3 {
		t.Errorf("%s, by %v", p.Says, p.Prices)
	}
	if dry := weigh("Quillfeather The Hundred").Waiting; !strings.Contains(strings.Join(dry.Lacks, "; "), "milking cows") {
		t.Errorf("a farm that told of no cows lacks %v", dry.Lacks)
	}
	if mix := weigh("Moonpenny Daisy Flat").Waiting; len(mix.Rows) > 0 || len(mix.Lacks) == 0 {
		t.Errorf("a stand without a feed value: %+v", mix)
	}
}
