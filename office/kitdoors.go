package office

import (
	"context"
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
)

// Saved is what a door that changes one thing has done.
type Saved struct {
	Fact string // the fact that says it, for [Office.Undo]; empty where the book said just that
}

// viewOf is the book as it stands for an ask, without its outlook.
func (o *Office) viewOf(ctx context.Context, ask Ask) (*book.View, error) {
	facts, err := o.store.Facts(ctx, store.Filter{Known: ask.Known, Through: ask.Date})
	if err != nil {
		return nil, err
	}
	return book.Project(facts, ask.Date, ask.Known)
}

// change is the way to a change of what a farm has: the book as it stands on the day, and the farm.
func (o *Office) change(ctx context.Context, actor Actor, ask *Ask, farm string) (*book.View, *book.FarmView, error) {
	if err := may(actor, actRecord); err != nil {
		return nil, nil, err
	}
	*ask = o.settle(*ask)
	ask.Date = min(ask.Date, o.Today())
	v, err := o.viewOf(ctx, *ask)
	if err != nil {
		return nil, nil, err
	}
	i := slices.IndexFunc(v.Farms, func(f *book.FarmView) bool { return f.ID == farm || plain(f.Name) == plain(farm) })
	if i < 0 {
		return nil, nil, fmt.Errorf("no farm is called %q: %w", farm, ErrNotFound)
	}
	return v, v.Farms[i], nil
}

// tell records what a farm, or without one the book, has as a whole on a day: in the place of what was
// told of that day, else beside what was told of others.
func tell[T book.Body](ctx context.Context, o *Office, actor Actor, ask Ask, farm, subject string, body T, told []book.Dated[T]) (Saved, error) {
	e := Entry{Farm: farm, Subject: subject, Day: ask.Date, Body: body, Received: ask.Known}
	if n := len(told); n > 0 {
		last := told[n-1]
		if equalJSON(last.Body, body) {
			return Saved{}, nil
		}
		if last.Day == ask.Date {
			e.Supersedes = last.ID
		}
	}
	return o.saved(ctx, actor, e)
}

func (o *Office) saved(ctx context.Context, actor Actor, e Entry) (Saved, error) {
	id, err := o.newID()
	if err != nil {
		return Saved{}, err
	}
	e.ID = id
	if _, err := o.Record(ctx, actor, e); err != nil {
		return Saved{}, err
	}
	return Saved{Fact: id}, nil
}

// SetGroup puts a group into a farm's herd, in the place of the one called was; an empty was adds one.
func (o *Office) SetGroup(ctx context.Context, actor Actor, ask Ask, farm, was string, g book.Group) (Saved, error) {
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	h, _ := f.Herd()
	body := h.Body
	body.Groups = slices.Clone(body.Groups)
	i := slices.IndexFunc(body.Groups, func(x book.Group) bool { return x.Name == was })
	switch {
	case was == "":
		body.Groups = append(body.Groups, g)
	case i < 0:
		return Saved{}, fmt.Errorf("the herd has no group called %q: %w", was, ErrNotFound)
	default:
		body.Groups[i] = g
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, body, f.Herds)
}

// DropGroup takes a group out of a farm's herd.
func (o *Office) DropGroup(ctx context.Context, actor Actor, ask Ask, farm, name string) (Saved, error) {
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	h, _ := f.Herd()
	body := h.Body
	body.Groups = slices.DeleteFunc(slices.Clone(body.Groups), func(x book.Group) bool { return x.Name == name })
	if len(body.Groups) == len(h.Body.Groups) {
		return Saved{}, fmt.Errorf("the herd has no group called %q: %w", name, ErrNotFound)
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, body, f.Herds)
}

// SetForageCrop says what of a forage a farm grows and loses, and which edition of the feeding standard
// its answers go by; an empty edition leaves that as it is.
func (o *Office) SetForageCrop(ctx context.Context, actor Actor, ask Ask, farm, edition string, c book.ForageCrop) (Saved, error) {
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	h, _ := f.Herd()
	body := h.Body
	if edition != "" {
		body.Edition = edition
	}
	body.Crops = slices.Clone(body.Crops)
	if i := slices.IndexFunc(body.Crops, func(x book.ForageCrop) bool { return x.Forage == c.Forage }); i >= 0 {
		body.Crops[i] = c
	} else {
		body.Crops = append(body.Crops, c)
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, body, f.Herds)
}

// SetMachine puts a machine on a farm, in the place of the one called was; an empty was adds one.
func (o *Office) SetMachine(ctx context.Context, actor Actor, ask Ask, farm, was string, m book.Machine) (Saved, error) {
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	k, _ := f.Kit()
	body := k.Body
	body.Machines = slices.Clone(body.Machines)
	i := slices.IndexFunc(body.Machines, func(x book.Machine) bool { return x.Name == was })
	switch {
	case was == "":
		body.Machines = append(body.Machines, m)
	case i < 0:
		return Saved{}, fmt.Errorf("the farm has no machine called %q: %w", was, ErrNotFound)
	default:
		body.Machines[i] = m
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, body, f.Machines)
}

// DropMachine takes a machine off a farm.
func (o *Office) DropMachine(ctx context.Context, actor Actor, ask Ask, farm, name string) (Saved, error) {
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	k, _ := f.Kit()
	body := k.Body
	body.Machines = slices.DeleteFunc(slices.Clone(body.Machines), func(x book.Machine) bool { return x.Name == name })
	if len(body.Machines) == len(k.Body.Machines) {
		return Saved{}, fmt.Errorf("the farm has no machine called %q: %w", name, ErrNotFound)
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, body, f.Machines)
}

// SetCrew says how many hours a day a farm's crew works, and adds a time in which it is elsewhere unless
// that is nil.
func (o *Office) SetCrew(ctx context.Context, actor Actor, ask Ask, farm string, hours float64, busy *book.Busy) (Saved, error) {
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	k, _ := f.Kit()
	body := k.Body
	body.CrewHours = hours
	if busy != nil {
		body.Busy = append(slices.Clone(body.Busy), *busy)
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, body, f.Machines)
}

// SetCaution says how careful a farm is; an empty farm is the whole book.
func (o *Office) SetCaution(ctx context.Context, actor Actor, ask Ask, farm, how string) (Saved, error) {
	if farm == "" {
		if err := may(actor, actRecord); err != nil {
			return Saved{}, err
		}
		ask = o.settle(ask)
		ask.Date = min(ask.Date, o.Today())
		v, err := o.viewOf(ctx, ask)
		if err != nil {
			return Saved{}, err
		}
		return tell(ctx, o, actor, ask, "", "caution", book.Caution{How: how}, v.Caution)
	}
	_, f, err := o.change(ctx, actor, &ask, farm)
	if err != nil {
		return Saved{}, err
	}
	return tell(ctx, o, actor, ask, f.ID, f.ID, book.Caution{How: how}, f.Caution)
}

// SetQuality says which table of quality targets the book goes by, and its own rows over it.
func (o *Office) SetQuality(ctx context.Context, actor Actor, ask Ask, q book.Quality) (Saved, error) {
	if err := may(actor, actRecord); err != nil {
		return Saved{}, err
	}
	ask = o.settle(ask)
	ask.Date = min(ask.Date, o.Today())
	v, err := o.viewOf(ctx, ask)
	if err != nil {
		return Saved{}, err
	}
	return tell(ctx, o, actor, ask, "", "quality-targets", q, v.Quality)
}

// undoable are the kinds of fact that a person brings or changes on a page and may take back there.
var undoable = []book.Kind{
	book.KindPrices, book.KindHerd, book.KindMachines, book.KindCaution, book.KindQuality, book.KindStack, book.KindStackReading, book.KindFeedLot, book.KindLotLeft, book.KindLotFed, book.KindLab, book.KindVisit, book.KindSeedingPlan, book.KindProduct, book.KindSprayed,
	book.KindSoilTest, book.KindTissue, book.KindApplication, book.KindSeeding, book.KindSoilGuides,
}

// Undo takes facts back by newer ones, all or none: what each replaced holds again, or nothing where it
// replaced nothing. A fact that was itself replaced since stays, and all the others with it.
func (o *Office) Undo(ctx context.Context, actor Actor, ask Ask, taken ...string) (Saved, error) {
	if err := may(actor, actRecord); err != nil {
		return Saved{}, err
	}
	facts, err := o.store.Facts(ctx, store.Filter{})
	if err != nil {
		return Saved{}, err
	}
	known := map[string]book.Fact{}
	for _, f := range facts {
		known[f.ID] = f
	}
	for _, f := range facts {
		if slices.Contains(taken, f.Supersedes) {
			return Saved{}, &BadEntry{"fact", fmt.Sprintf("it was changed again on %s by %s, so it stands; change it as it should be", unit.DayOf(f.Received), f.Author)}
		}
	}
	entries := make([]Entry, 0, len(taken))
	for _, id := range taken {
		it, ok := known[id]
		if !ok || !slices.Contains(undoable, it.Kind) {
			return Saved{}, fmt.Errorf("nothing that can be taken back is called %q: %w", id, ErrNotFound)
		}
		e := Entry{Farm: it.Farm, Subject: it.Subject, Day: it.Day, Supersedes: it.ID, Body: book.Withdrawn{Why: "taken back by " + actor.Name}, Received: ask.Known}
		if old, ok := known[it.Supersedes]; ok {
			if e.Body, err = old.Read(); err != nil {
				return Saved{}, err
			}
			e.Day, e.Author = old.Day, old.Author
		}
		entries = append(entries, e)
	}
	if len(entries) == 0 {
		return Saved{}, fmt.Errorf("nothing to take back: %w", ErrNotFound)
	}
	_, err = o.Record(ctx, actor, entries...)
	return Saved{}, err
}
