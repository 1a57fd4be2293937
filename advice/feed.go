package advice

import (
	"cmp"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// feedDecision is one of the questions asked of every farm's feed.
type feedDecision func(*outlook.Farm) *Piece

// feedDecisions lists them all. A new one is a new file and a line here.
func feedDecisions() []feedDecision {
	return []feedDecision{SiloGas, RunOut, BuyEarly, WrongLot, SlowFace, TestLot}
}

// OfFeed is all advice for a farm's feed, most pressing first. Such a piece has no stand: its farm stands
// in Feed.
func OfFeed(f *outlook.Farm) []*Piece {
	if f == nil {
		return nil
	}
	var out []*Piece
	for _, d := range feedDecisions() {
		if p := d(f); p != nil {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, rankFeed)
	return out
}

// rankFeed orders advice on feed as a round is ordered, farms by name.
func rankFeed(a, b *Piece) int {
	return cmp.Or(cmp.Compare(a.Urgency, b.Urgency), cmp.Compare(errand(a), errand(b)), cmp.Compare(a.Closing(), b.Closing()), cmp.Compare(a.Feed.Name, b.Feed.Name), cmp.Compare(a.Decision, b.Decision))
}

// feedOf gathers the advice on the feed of all farms.
func feedOf(o *outlook.Outlook) (out []*Piece) {
	for _, f := range o.Farms {
		out = append(out, OfFeed(f)...)
	}
	slices.SortStableFunc(out, rankFeed)
	return out
}

// shortTons writes tons as they are known.
func shortTons(v float64) string {
	if v < 9.95 {
		return fmt.Sprintf("%.1f tons", v)
	}
	return fmt.Sprintf("%.0f tons", v)
}

// soonDays is how near a day is that is acted on this week (choice).
const soonDays = 42

// nearing is the urgency of something that comes on a day.
func nearing(date, day unit.Day) Urgency {
	if day-date <= soonDays {
		return Week
	}
	return Watch
}
