package outlook

import (
	"math"
	"slices"

	"haywarden/agronomy/allot"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Farm is what is known of a farm's feed on a date: what is in store, what eats it until the next crop is
// opened, and what one more ton is worth. It is made once and not changed afterwards.
type Farm struct {
	*book.FarmView
	Date unit.Day
	Lots []*FeedLot // with feed in them, by name; those fed up are left out
	// NextCrop is the day on which the next crop is expected in store, and Opens that on which it is fed
	// from. Why says what they rest on.
	NextCrop, Opens unit.Day
	Why             string
	Groups          []Eaters    // of hay crop, from the most demanding on
	Classes         []FeedClass // of hay crop, from the most demanding on
	Corn            *FeedClass  // corn silage; nil where none is fed
	Plan            *allot.Plan // of hay crop until the next is opened; nil where NoPlan says why
	NoPlan          string
	Prices          []string // the lines the plan took, with their decks
	Lacks           []string // what has to be entered or measured, in words
	None            string   // why nothing can be said of the farm's feed
	Sources         []source.ID
}

// FeedLot is feed in store, worked out.
type FeedLot struct {
	*book.LotView
	Put       losses.Range // tons of dry matter that were put in
	Tons      losses.Range // that are in store today
	How       string       // how they are known
	Loss      float64      // share of them still to be lost
	RFQ, NDF  float64      // NaN: not known
	From      string       // what the quality rests on
	LbDay     float64      // dry matter fed a day now
	Group     string       // that eats it
	Weeks     float64      // it lasts as it is fed now; NaN: it is closed
	RunsOut   unit.Day     // 0: it is closed
	Opens     unit.Day     // silage: first day on which it is fed from
	Inches    float64      // a day off the face; 0: not known
	FaceSays  string
	Gas       *storage.Silo // silage within the weeks in which nobody goes in, nil after
	Unmatched string        // what about the group that eats it, empty where nothing
}

// Feed is the tons that will be eaten of a lot: what is in store less what it still loses.
func (l *FeedLot) Feed() float64 { return l.Tons.Mid * (1 - l.Loss) }

// DryHay reports whether the lot is dry hay, which can be sold and is sampled by cores.
func (l *FeedLot) DryHay() bool {
	return book.Baled(l.Store) && l.Store != string(storage.WrappedBale)
}

// Full is the share of what was put in that is there.
func (l *FeedLot) Full() float64 {
	if !(l.Put.Mid > 0) {
		return 0
	}
	return min(1, l.Tons.Mid/l.Put.Mid)
}

// Eaters is a group of animals and the hay crop it eats.
type Eaters struct {
	Name    string
	Target  string
	Floor   float64 // RFQ wanted; NaN: any
	Fat     float64 // RFQ from which it gets fat; NaN: none named
	Ceiling float64 // NDF of the blend, %; NaN: none named
	LbDay   float64 // dry matter fed out for it a day, what it wastes in it
}

// FeedClass is need against supply of one quality: all that reaches it against all that asks for it or
// for more.
type FeedClass struct {
	Name    string
	Floor   float64 // RFQ; NaN: any
	Groups  []string
	LbDay   float64      // need
	Supply  losses.Range // tons to be eaten
	Days    losses.Range // that it lasts
	RunsOut unit.Day     // in the middle case
	LowOut  unit.Day     // in the low case
	Gap     float64      // tons short until the next crop is opened, in the middle case
}

// Short reports whether the class runs out before the next crop is opened, in the low case.
func (c FeedClass) Short(opens unit.Day) bool { return c.LbDay > 0 && c.LowOut < opens }

// FeedOf finds a farm's feed, nil where nothing is known of it.
func (o *Outlook) FeedOf(farm string) *Farm {
	for _, f := range o.Farms {
		if f.ID == farm {
			return f
		}
	}
	return nil
}

// TonWorth is what one more ton of hay crop of an RFQ is worth to the farm until the next crop is opened,
// by the prices of its plan, dollars, or tons of purchase spared where no price was entered. Not ok where
// there is no plan.
func (f *Farm) TonWorth(rfq float64) (worth float64, ok bool) {
	if f == nil || f.Plan == nil || f.Plan.Needs == nil {
		return 0, false
	}
	worth, _ = f.Plan.TonWorth(rfq, math.NaN())
	return worth, true
}

// Cautions are those that go with the farm's stores, each once: gas over fresh silage, faces that come
// down, shafts and augers, climbing to measure.
func (f *Farm) Cautions() (said []string) {
	add := func(list ...storage.Caution) {
		for _, c := range list {
			if !slices.Contains(said, string(c)) {
				said = append(said, string(c))
			}
		}
	}
	for _, l := range f.Lots {
		if l.Gas != nil {
			action, with := l.Gas.Told.Say()
			said = append(said, l.Name+": "+action)
			add(with...)
		}
	}
	for _, l := range f.Lots {
		switch {
		case l.Store == string(storage.SealedTower), l.Store == string(storage.StaveTower):
			add(storage.MeasureOutside, storage.GasKills, storage.NoRescue, storage.GasMeterFirst, storage.ShaftsTake)
		case l.Store == string(storage.Bag):
			add(storage.FaceCanCollapse, storage.ShaftsTake)
		case !book.Baled(l.Store):
			add(storage.FaceCanCollapse)
		}
	}
	return said
}

// LotFor names the lot of which the plan gives a group most; empty where there is none.
func (f *Farm) LotFor(group string) (lot string) {
	if f.Plan == nil {
		return ""
	}
	most := 0.0
	for j, g := range f.Plan.Ask.Groups {
		for i, l := range f.Plan.Ask.Lots {
			if g.Name == group && f.Plan.Fed[i][j] > most {
				most, lot = f.Plan.Fed[i][j], l.Name
			}
		}
	}
	return lot
}

// EaterOf names the group that the plan gives most of a lot; empty where there is none.
func (f *Farm) EaterOf(lot string) (group string) {
	if f.Plan == nil {
		return ""
	}
	most := 0.0
	for i, l := range f.Plan.Ask.Lots {
		for j, g := range f.Plan.Ask.Groups {
			if l.Name == lot && f.Plan.Fed[i][j] > most {
				most, group = f.Plan.Fed[i][j], g.Name
			}
		}
	}
	return group
}
