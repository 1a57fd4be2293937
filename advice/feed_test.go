package advice_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/allot"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

var fedOn = unit.DateOf(2026, 3, 2)

// fed is a farm with 60 tons of haylage for cows who eat a ton a day, opened anew in 112 days. change lays
// a finger on it.
func fed(change func(*outlook.Farm)) *outlook.Farm {
	l := &outlook.FeedLot{
		LotView: &book.LotView{FeedLot: book.FeedLot{Name: "north bunker", Forage: "legume", Store: "bunker"}, Filled: fedOn - 200},
		Put:     losses.Range{Low: 140, Mid: 160, High: 180}, Tons: losses.Range{Low: 45, Mid: 60, High: 75}, How: "by cores", RFQ: 150, NDF: 41, From: "laboratory",
		LbDay: 2000, Group: "cows", Weeks: 60. / 7, Opens: fedOn - 179,
	}
	f := &outlook.Farm{
		FarmView: &book.FarmView{ID: "f", Farm: book.Farm{Name: "Alder Run"}}, Date: fedOn, Lots: []*outlook.FeedLot{l}, NextCrop: fedOn + 91, Opens: fedOn + 112, Why: "first cuts",
		Groups:  []outlook.Eaters{{Name: "cows", Target: "early-cows", Floor: 140, Fat: math.NaN(), LbDay: 2000}},
		Classes: []outlook.FeedClass{{Name: "RFQ 140 and over", Floor: 140, Groups: []string{"cows"}, LbDay: 2000, Supply: losses.Range{Low: 45, Mid: 60, High: 75}, RunsOut: fedOn + 60, LowOut: fedOn + 45, Gap: 52}},
		Plan: &allot.Plan{
			Ask: allot.Ask{Rule: allot.ByFloor, Lots: []allot.Lot{{Name: "north bunker", Tons: 60, RFQ: 150}}, Groups: []allot.Group{{Name: "cows", Tons: 112, Floor: 140, Buy: 200}}},
			Fed: [][]float64{{60}}, Purchase: []float64{52}, Over: []float64{0}, Saves: []float64{200}, Needs: []float64{200}, Points: []float64{0}, Gaps: allot.Gaps{Quantity: 52},
		},
	}
	if change != nil {
		change(f)
	}
	return f
}

func TestAdviceOnFeedSaysWhatToDo(t *testing.T) {
	gas, err := storage.PublishedGas().Filled(fedOn-3, fedOn)
	if err != nil {
		t.Fatal(err)
	}
	for name, tc := range map[string]struct {
		decide  func(*outlook.Farm) *advice.Piece
		change  func(*outlook.Farm)
		urgency advice.Urgency
		title   string
		says    []string
		never   []string
	}{
		"tons run out": {advice.RunOut, nil, advice.Watch, "Runs out 1 May", []string{"in the low case until 16 April", "52 tons short for cows", "it is tons that lack"}, []string{"quality that lacks"}},
		"soon":         {advice.RunOut, func(f *outlook.Farm) { f.Classes[0].LowOut, f.Classes[0].RunsOut = fedOn+10, fedOn+20 }, advice.Week, "Runs out 22 March", []string{"until 12 March"}, nil},
		"only in the low case": {advice.RunOut, func(f *outlook.Farm) {
			c := &f.Classes[0]
			c.RunsOut, c.LowOut, c.Gap = fedOn+130, fedOn+100, 0
			f.Plan.Gaps = allot.Gaps{}
		}, advice.Watch, "May run out 10 June", []string{"as little as the measure leaves open"}, []string{"short"}},
		"quality lacks": {advice.RunOut, func(f *outlook.Farm) { f.Plan.Gaps = allot.Gaps{Quality: 40} }, advice.Watch, "Runs out", []string{"it is the quality that lacks"}, []string{"it is tons"}},
		"buy":           {advice.BuyEarly, nil, advice.Watch, "Look round for 52 tons of hay", []string{"52 tons of RFQ 140 or better for cows"}, nil},
		"wrong lot": {advice.WrongLot, func(f *outlook.Farm) {
			f.Lots[0].Unmatched, f.Lots[0].Group = "RFQ 150 is more than dry can use", "dry"
		}, advice.Week, "North bunker should not go to dry", []string{"is more than dry can use", "worth most to the group cows"}, nil},
		"slow face": {advice.SlowFace, func(f *outlook.Farm) { f.Lots[0].Inches, f.Lots[0].FaceSays = 2, storage.FaceFloored }, advice.Week, "moves 2.0 in a day", []string{"far too slow"}, nil},
		"gas":       {advice.SiloGas, func(f *outlook.Farm) { f.Lots[0].Filled, f.Lots[0].Gas = fedOn-3, &gas }, advice.Safety, "Silo gas: keep out of north bunker", []string{"Nobody goes in"}, nil},
		"no test":   {advice.TestLot, func(f *outlook.Farm) { f.Lots[0].RFQ = math.NaN() }, advice.Week, "Test north bunker", []string{"without a test", "never from the face"}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			p := tc.decide(fed(tc.change))
			if p == nil {
				t.Fatal("nothing is said")
			}
			if p.Urgency != tc.urgency || !strings.Contains(p.Title, tc.title) || len(p.Grounds) == 0 {
				t.Errorf("%s %q with %d grounds, want %s %q", p.Urgency.Key(), p.Title, len(p.Grounds), tc.urgency.Key(), tc.title)
			}
			for _, w := range tc.says {
				if !strings.Contains(p.Sentence, w) {
					t.Errorf("%q does not say %q", p.Sentence, w)
				}
			}
			for _, w := range tc.never {
				if strings.Contains(p.Sentence, w) {
					t.Errorf("%q says %q", p.Sentence, w)
				}
			}
		})
	}
}

func TestAFarmWithFeedEnoughIsLeftInPeace(t *testing.T) {
	f := fed(func(f *outlook.Farm) {
		c := &f.Classes[0]
		c.RunsOut, c.LowOut, c.Gap = fedOn+200, fedOn+150, 0
		f.Plan.Purchase, f.Plan.Gaps = []float64{0}, allot.Gaps{}
	})
	if got := advice.OfFeed(f); len(got) != 0 {
		t.Errorf("%d pieces, the first %q", len(got), got[0].Title)
	}
	if advice.OfFeed(nil) != nil {
		t.Error("no feed has advice")
	}
}

// TestWhatCanKillStandsFirstAndNeverWithoutItsCautions proves that gas goes before money, in the farm's
// list and in the round.
func TestWhatCanKillStandsFirstAndNeverWithoutItsCautions(t *testing.T) {
	gas, err := storage.PublishedGas().Filled(fedOn-3, fedOn)
	if err != nil {
		t.Fatal(err)
	}
	f := fed(func(f *outlook.Farm) { f.Lots[0].Gas = &gas })
	r := advice.Make(&outlook.Outlook{Date: fedOn, View: &book.View{Date: fedOn}, Farms: []*outlook.Farm{f}})
	if len(r.Feed) < 2 || r.Feed[0].Decision != "silo-gas" || len(r.FeedBy(advice.Safety)) != 1 {
		t.Fatalf("round %+v", r.Feed)
	}
	_, cautions := gas.Told.Say()
	for _, c := range cautions {
		if !slices.Contains(r.Feed[0].Cautions, string(c)) {
			t.Errorf("without %q", c)
		}
	}
	file := r.File()
	if len(file.Feed) != len(r.Feed) || file.Feed[0].Farm != "Alder Run" || file.Feed[0].Stand != "" || len(file.Feed[0].Cautions) == 0 {
		t.Errorf("in the file %+v", file.Feed)
	}
}
