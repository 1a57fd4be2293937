package office

import (
	"context"
	"fmt"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
	"haywarden/outlook"
)

// Samples is a stand's hay in store and what laboratories found in its forage, newest first.
type Samples struct {
	Stand   *outlook.Stand
	Region  string
	Stacks  []StackSeen
	Results []LabTold
	Reading []string // of whoever reads a core
	Storing []string // of whoever puts hay up
}

// StackSeen is a stack with the readings of its core, newest first.
type StackSeen struct {
	book.Dated[book.Stack]
	Readings []book.Dated[book.StackReading]
}

// LabTold is a result in words: its value with its error, how it stands to the one before, and what it
// says of the feed wanted.
type LabTold struct {
	book.Dated[book.Lab]
	RFV     int
	Says    []string
	Against string // empty for a standing crop, which is not fed yet
}

// Samples looks up a stand's stacks and results by its id or name.
func (o *Office) Samples(ctx context.Context, actor Actor, name string, ask Ask) (*Samples, error) {
	a, err := o.Stand(ctx, actor, name, ask)
	if err != nil {
		return nil, err
	}
	s := &Samples{
		Stand: a.Stand, Region: a.Outlook.View.Place.Region,
		Reading: cautionsOf(storage.ProbeRight, storage.SmellIsFire, storage.NeverAlone, storage.CallFirst),
		Storing: cautionsOf(storage.NotInside, storage.KeepLooking, storage.LabelRules, storage.ToxicSmoke),
	}
	for i, k := range slices.Backward(a.Stand.Stacks) {
		seen := StackSeen{Dated: k}
		for _, r := range slices.Backward(a.Stand.StackReadings) {
			if a.Stand.ReadIn(r, i) {
				seen.Readings = append(seen.Readings, r)
			}
		}
		s.Stacks = append(s.Stacks, seen)
	}
	for i, l := range slices.Backward(a.Stand.Labs) {
		s.Results = append(s.Results, labTold(a.Stand, l, a.Stand.Labs[:i]))
	}
	return s, nil
}

// labTold says a result in words. before are the stand's earlier results, oldest first.
func labTold(s *outlook.Stand, l book.Dated[book.Lab], before []book.Dated[book.Lab]) LabTold {
	k := forage.PublishedFeedValue()
	spread := forage.PublishedLabSpread().OfLot(storage.UsualCores)
	rfv, sd := k.Of(l.Body.ADF, l.Body.NDF), spread.RFV(l.Body.ADF, l.Body.NDF)
	out := LabTold{Dated: l, RFV: forage.Whole(rfv), Says: []string{forage.ToldValue(forage.RFVPoints, rfv, sd, storage.UsualCores)}}
	for _, b := range slices.Backward(before) {
		if b.Body.Sample != l.Body.Sample || l.Day-b.Day > 366 {
			continue
		}
		old := k.Of(b.Body.ADF, b.Body.NDF)
		out.Says = append(out.Says, fmt.Sprintf("That of %s had %d: %s", b.Day, forage.Whole(old), forage.ToldApart(forage.RFVPoints, rfv, old, sd, spread.RFV(b.Body.ADF, b.Body.NDF))))
		break
	}
	if l.Body.Sample != "standing" {
		out.Against = forage.ToldAgainst(forage.RFVPoints, rfv, s.Target.FeedRFV, sd)
	}
	return out
}

// onStand is the way to a change of what is known of a stand, growing or not, on a day up to today.
func (o *Office) onStand(ctx context.Context, actor Actor, ask *Ask, id string, day unit.Day) (*book.StandView, error) {
	if err := may(actor, actRecord); err != nil {
		return nil, err
	}
	*ask = o.settle(*ask)
	if day > ask.Date || day > o.Today() {
		return nil, &BadEntry{"day", fmt.Sprintf("%s is still to come: accepted up to %s", day, min(ask.Date, o.Today()))}
	}
	v, err := o.viewOf(ctx, *ask)
	if err != nil {
		return nil, err
	}
	for _, f := range v.Farms {
		for _, fd := range f.Fields {
			for _, s := range fd.Stands {
				switch {
				case s.ID != id:
				case day < s.Seeded:
					return nil, &BadEntry{"day", fmt.Sprintf("%s is before the stand was seeded, on %s", day, s.Seeded)}
				default:
					return s, nil
				}
			}
		}
	}
	return nil, fmt.Errorf("no stand is called %q: %w", id, ErrNotFound)
}

// tellOf records one thing of a stand on a day: nothing where the book holds just that.
func tellOf[T book.Body](ctx context.Context, o *Office, actor Actor, ask Ask, s *book.StandView, day unit.Day, body T, held []book.Dated[T], whole bool) (Saved, error) {
	e := Entry{Farm: s.Farm.ID, Subject: s.ID, Day: day, Body: body, Received: ask.Known}
	for _, d := range held {
		switch {
		case d.Day != day:
		case equalJSON(d.Body, body):
			return Saved{}, nil
		case whole:
			e.Supersedes = d.ID
		}
	}
	return o.saved(ctx, actor, e)
}

// PutUp records a stack of a stand's hay on the day it was baled, in the place of one of that day.
func (o *Office) PutUp(ctx context.Context, actor Actor, ask Ask, stand string, baled unit.Day, k book.Stack) (Saved, error) {
	s, err := o.onStand(ctx, actor, &ask, stand, baled)
	if err != nil {
		return Saved{}, err
	}
	return tellOf(ctx, o, actor, ask, s, baled, k, s.Stacks, true)
}

// ReadCore records the hottest core temperature found on a day in the stack that was baled on another.
func (o *Office) ReadCore(ctx context.Context, actor Actor, ask Ask, stand string, day, baled unit.Day, coreF float64) (Saved, error) {
	s, err := o.onStand(ctx, actor, &ask, stand, day)
	if err != nil {
		return Saved{}, err
	}
	switch {
	case !slices.ContainsFunc(s.Stacks, func(k book.Dated[book.Stack]) bool { return k.Day == baled }):
		return Saved{}, &BadEntry{"baled", "no stack was baled on that day; put it up first"}
	case baled > day:
		return Saved{}, &BadEntry{"day", fmt.Sprintf("%s is before it was baled, on %s", day, baled)}
	}
	return tellOf(ctx, o, actor, ask, s, day, book.StackReading{CoreF: coreF, Baled: &baled}, s.StackReadings, false)
}

// TakeResult records a laboratory's result of a stand. What the checks refuse is a [BadEntry]; what they
// only warn of is taken.
func (o *Office) TakeResult(ctx context.Context, actor Actor, ask Ask, stand string, sampled unit.Day, l book.Lab) (Saved, error) {
	s, err := o.onStand(ctx, actor, &ask, stand, sampled)
	if err != nil {
		return Saved{}, err
	}
	for _, flag := range forage.CheckReport(exchange.LabReport(l), cropKind(s.Crop)) {
		if flag.Level == forage.Wrong {
			return Saved{}, &BadEntry{flag.Field, flag.Text}
		}
	}
	return tellOf(ctx, o, actor, ask, s, sampled, l, s.Labs, false)
}

// Packages are how hay is baled, with the moisture that each may hold, % of fresh weight.
func Packages() ([][2]string, error) {
	var out [][2]string
	for _, p := range book.Packages() {
		limits, err := storage.PublishedBaling().Of(storage.Package(p))
		if err != nil {
			return nil, err
		}
		out = append(out, [2]string{p, fmt.Sprintf("%s, dry enough at %g %%", p, limits.Target)})
	}
	return out, nil
}

// cautionsOf writes cautions as faces show them.
func cautionsOf(all ...storage.Caution) []string {
	out := make([]string, len(all))
	for i, c := range all {
		out[i] = string(c)
	}
	return out
}
