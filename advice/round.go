package advice

import (
	"cmp"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"haywarden/outlook"
)

// decision is one of the questions asked of every stand.
type decision func(*outlook.Stand, *outlook.Outlook) *Piece

// decisions lists them all. A new decision is a new file and a line here.
func decisions() []decision {
	return []decision{
		GrowingTips, FirstCut, MixtureCut, CloverCut, LaterCut, LastCut, StickReading,
		Weevil, WeevilAct, Stubble, HopperWalk, HopperAct, MinorPests, KeepOut,
		WalkAndCount, WinterLook, KeepOrTurn, OtherHarm, LateSeeding, DoNotReseed, OrderSeed, SeedBy, BaleNow, HotStack,
		SoilSample, LimeNow, Topdress, SulfurBoron,
	}
}

// Round is the ranked list, for a date, of what to do for which stand and why.
type Round struct {
	Outlook *outlook.Outlook
	Pieces  []*Piece
	Feed    []*Piece // of farms' feed in store, most pressing first
}

// Make asks every decision of every stand. No stand is left out: one that cannot be judged says why,
// and one with nothing due says so.
func Make(o *outlook.Outlook) *Round {
	r := &Round{Outlook: o, Feed: feedOf(o)}
	for _, pieces := range forAll(o) {
		r.Pieces = append(r.Pieces, pieces...)
	}
	slices.SortStableFunc(r.Pieces, rank)
	return r
}

// forAll asks for all stands, on all processors: stands know nothing of each other's advice, so that the
// answers do not hang on who is asked first.
func forAll(o *outlook.Outlook) [][]*Piece {
	const atATime = 64
	stands := slices.Concat(o.Stands, o.Stored)
	out := make([][]*Piece, len(stands))
	var next atomic.Int64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for {
				to := int(next.Add(atATime))
				for i := to - atATime; i < min(to, len(out)); i++ {
					out[i] = For(stands[i], o)
				}
				if to >= len(out) {
					return
				}
			}
		})
	}
	all.Wait()
	return out
}

// For is all advice for one stand, most pressing first. One that grows no more is asked for its hay and for what
// is to be sown there.
func For(s *outlook.Stand, o *outlook.Outlook) []*Piece {
	asked := decisions()
	if !s.Growing(s.Date) {
		asked = []decision{HotStack, DoNotReseed, OrderSeed, SeedBy, LimeNow}
	}
	var out []*Piece
	for _, d := range asked {
		if p := d(s, o); p != nil {
			out = append(out, p)
		}
	}
	out = reconcile(out)
	waitForLabel(s, out)
	if !s.Growing(s.Date) {
		slices.SortStableFunc(out, rank)
		return out
	}
	// How a cut is best brought in is asked once it is known when it is mown.
	if mown, ok := MowingDay(out); ok {
		if p := HarvestWay(s, mown); p != nil {
			out = append(out, p)
		}
	}
	if len(out) == 0 {
		out = append(out, resting(s))
	}
	if gap := s.Stale(); gap > 0 {
		for _, p := range out {
			if p.Urgency != Unjudged {
				p.Cautions = append(p.Cautions, fmt.Sprintf("The weather of station %s ends on %s, %d days ago: the days since are taken at their usual values.", s.Sky.Station.Name, Short(s.Sky.Through), gap+1))
			}
		}
	}
	slices.SortStableFunc(out, rank)
	return out
}

// rank orders a round: what can hurt someone first, then by urgency, then by the share of the stand's
// yearly value that a day of waiting loses, then by the closing date.
func rank(a, b *Piece) int {
	return cmp.Or(
		cmp.Compare(a.Urgency, b.Urgency),
		cmp.Compare(errand(a), errand(b)),
		-cmp.Compare(shownLoss(a), shownLoss(b)),
		cmp.Compare(a.Closing(), b.Closing()),
		cmp.Compare(a.Stand.Farm.Name, b.Stand.Farm.Name),
		cmp.Compare(a.Stand.InField.Name, b.Stand.InField.Name),
		cmp.Compare(a.Decision, b.Decision),
	)
}

// shownLoss is the loss as files show it, so that the last digits of a float order nothing.
func shownLoss(p *Piece) float64 { return math.Round(p.LossShare*1e5) / 1e5 }

func errand(p *Piece) int {
	if p.Errand {
		return 1
	}
	return 0
}

// By returns the pieces of one urgency, in order.
func (r *Round) By(u Urgency) []*Piece {
	var out []*Piece
	for _, p := range r.Pieces {
		if p.Urgency == u {
			out = append(out, p)
		}
	}
	return out
}

// FeedBy returns the advice on feed of one urgency, in order.
func (r *Round) FeedBy(u Urgency) []*Piece {
	var out []*Piece
	for _, p := range r.Feed {
		if p.Urgency == u {
			out = append(out, p)
		}
	}
	return out
}

// Urgencies lists all urgencies, first in the round first.
func Urgencies() []Urgency { return []Urgency{Safety, Today, Week, Watch, Unjudged, Rest} }

// StandAdvice is a stand with its advice.
type StandAdvice struct {
	Stand  *outlook.Stand
	Pieces []*Piece
}
