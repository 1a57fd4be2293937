package paper_test

import (
	"bytes"
	"strings"
	"testing"

	"haywarden/agronomy/allot"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/paper"
)

// larder is a farm's feed: a bunker just filled, and hay that is fed.
func larder(t *testing.T) *outlook.Farm {
	t.Helper()
	date := unit.DateOf(2026, 6, 12)
	gas, err := storage.PublishedGas().Filled(date-4, date)
	if err != nil {
		t.Fatal(err)
	}
	f := &outlook.Farm{FarmView: &book.FarmView{ID: "f", Farm: book.Farm{Name: "Alder Run"}}, Date: date, NextCrop: date + 30, Opens: date + 51, Why: "its first cuts"}
	f.Lots = []*outlook.FeedLot{
		{LotView: &book.LotView{FeedLot: book.FeedLot{Name: "bunker", Store: "bunker", Forage: "legume"}, Filled: date - 4}, Put: losses.Range{Low: 90, Mid: 100, High: 110}, Tons: losses.Range{Low: 90, Mid: 100, High: 110}, How: "by cores", RFQ: 150, NDF: 41, Gas: &gas},
		{LotView: &book.LotView{FeedLot: book.FeedLot{Name: "hay", Store: "inside", Forage: "legume"}, Filled: date - 300}, Put: losses.Range{Low: 38, Mid: 40, High: 42}, Tons: losses.Range{Low: 8, Mid: 10, High: 12}, How: "weighed", RFQ: 110, NDF: 48, LbDay: 700, Group: "dry", Weeks: 4, RunsOut: date + 28},
	}
	f.Classes = []outlook.FeedClass{{Name: "RFQ 140 and over", Floor: 140, Groups: []string{"cows"}, LbDay: 2000, Supply: losses.Range{Low: 90, Mid: 100, High: 110}, Days: losses.Range{Low: 90, Mid: 100, High: 110}, RunsOut: date + 100, LowOut: date + 90}}
	f.Plan = &allot.Plan{
		Ask: allot.Ask{Lots: []allot.Lot{{Name: "bunker", Tons: 100, RFQ: 150}, {Name: "hay", Tons: 10, RFQ: 110}}, Groups: []allot.Group{{Name: "cows", Tons: 51}, {Name: "dry", Tons: 18}}},
		Fed: [][]float64{{51, 0}, {0, 10}}, Purchase: []float64{0, 8}, Over: []float64{49, 0}, Saves: []float64{0, 55}, Needs: []float64{0, 160}, Points: []float64{0, 0}, Gaps: allot.Gaps{Quality: 8},
	}
	return f
}

func TestTheFeedReportTellsStockPlanAndDanger(t *testing.T) {
	f := larder(t)
	pdf, err := paper.FeedReport(f, true)
	if err != nil {
		t.Fatal(err)
	}
	again, err := paper.FeedReport(f, true)
	if err != nil || !bytes.Equal(pdf, again) {
		t.Errorf("the same report differs (%v)", err)
	}
	says := strings.Join(strings.Fields(textOf(t, pdf)), " ")
	for _, want := range []string{
		"Alder Run: feed in store", "110 tons of dry matter in store (98 to 122 as measured)", "tons enough until then, but 8 tons", "gas: keep out", "4 weeks",
		"to buy", "One more ton of hay saves $55", "Silo gas: keep out of bunker", "Invented farm",
	} {
		if !strings.Contains(says, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	for _, c := range f.Cautions() {
		if !strings.Contains(says, strings.Join(strings.Fields(c), " ")) {
			t.Errorf("the report lacks the caution %q", c)
		}
	}
}

func TestAFarmWithNothingInStoreGetsAReportThatSaysSo(t *testing.T) {
	f := &outlook.Farm{FarmView: &book.FarmView{Farm: book.Farm{Name: "Nobody"}}, Date: unit.DateOf(2026, 6, 12), None: "Nothing in store was told."}
	pdf, err := paper.FeedReport(f, false)
	if err != nil || pages(pdf) != 1 {
		t.Fatalf("%d pages: %v", pages(pdf), err)
	}
	if says := textOf(t, pdf); !strings.Contains(says, "Nothing in store was told.") {
		t.Errorf("it says %q", says)
	}
	if _, ok := paper.Lasting(f); ok || paper.SharedRows(f) != nil {
		t.Error("something is drawn of nothing")
	}
}
