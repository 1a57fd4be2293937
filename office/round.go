package office

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"haywarden/advice"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/husbandry"
	"haywarden/outlook"
	"haywarden/reckon"
	"haywarden/tabular"
)

// Round makes the round of a date.
func (o *Office) Round(ctx context.Context, actor Actor, ask Ask) (*advice.Round, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, fmt.Errorf("make the round: %w", err)
	}
	return advice.Make(out), nil
}

// StandAdvice is one stand with all advice for it.
type StandAdvice struct {
	Stand   *outlook.Stand
	Outlook *outlook.Outlook
	Pieces  []*advice.Piece
}

// Stand looks up one stand by its id, its field's name, or farm and field ("Ottermoss Long Meadow").
func (o *Office) Stand(ctx context.Context, actor Actor, name string, ask Ask) (*StandAdvice, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, fmt.Errorf("look up a stand: %w", err)
	}
	s, err := findStand(out.Stands, name)
	if err != nil {
		gone, stored := findStand(out.Stored, name)
		if stored != nil {
			return nil, err
		}
		s = gone
	}
	return &StandAdvice{Stand: s, Outlook: out, Pieces: advice.For(s, out)}, nil
}

// ErrNotFound says that nothing by that name is in the book.
var ErrNotFound = errors.New("not found")

func findStand(stands []*outlook.Stand, name string) (*outlook.Stand, error) {
	want := plain(name)
	var hits []*outlook.Stand
	for _, s := range stands {
		if s.ID == name || plain(s.Farm.Name+s.InField.Name) == want {
			return s, nil
		}
		if plain(s.InField.Name) == want {
			hits = append(hits, s)
		}
	}
	switch len(hits) {
	case 1:
		return hits[0], nil
	case 0:
		return nil, fmt.Errorf("no growing stand is called %q%s: %w", name, nearestName(stands, want), ErrNotFound)
	}
	names := make([]string, len(hits))
	for i, s := range hits {
		names[i] = s.Named()
	}
	return nil, fmt.Errorf("%d stands are called %q: %s; give farm and field: %w", len(hits), name, strings.Join(names, ", "), ErrNotFound)
}

// plain is a name as names are compared: letters and digits, in lower case.
func plain(s string) string { return tabular.Plain(s) }

// nearestName suggests the stands that may have been meant: those whose name holds what was typed, else
// the one that a slip of the fingers would turn into it.
func nearestName(stands []*outlook.Stand, want string) string {
	if want == "" {
		return ""
	}
	var near, known []string
	named := map[string]string{}
	for _, s := range stands {
		farm, field := plain(s.Farm.Name), plain(s.InField.Name)
		if strings.Contains(farm+field, want) || field != "" && strings.HasPrefix(want, field) {
			near = append(near, s.Named())
		}
		known = append(known, farm+field, field)
		named[farm+field], named[field] = s.Named(), s.Named()
	}
	if len(near) == 0 {
		if k := reckon.Nearest(want, known); k != "" {
			near = []string{named[k]}
		}
	}
	switch n := len(near); {
	case n == 0:
		return ""
	case n > mostSuggested:
		near = append(near[:mostSuggested], fmt.Sprintf("one of %d others", n-mostSuggested))
	}
	return "; did you mean " + strings.Join(near, ", or ") + "?"
}

// mostSuggested is how many names a refusal suggests.
const mostSuggested = 4

// outlook builds, or takes from memory, the outlook of a date. What is kept is kept under the book's
// revision, so that an answer made while somebody records is never given for the book after.
func (o *Office) outlook(ctx context.Context, ask Ask) (*outlook.Outlook, error) {
	rev, err := o.store.Revision(ctx)
	if err != nil {
		return nil, err
	}
	key := madeKey{ask, rev}
	o.mu.Lock()
	kept := o.made[key]
	o.mu.Unlock()
	if kept != nil {
		return kept, nil
	}
	facts, err := o.store.Facts(ctx, store.Filter{Known: ask.Known, Through: ask.Date})
	if err != nil {
		return nil, err
	}
	view, err := book.Project(facts, ask.Date, ask.Known)
	if err != nil {
		return nil, err
	}
	skies, err := o.skiesOf(ctx, view, ask)
	if err != nil {
		return nil, err
	}
	out, err := outlook.Build(view, skies)
	if err != nil {
		return nil, err
	}
	if out.Farms, err = husbandry.Feed(ctx, out); err != nil {
		return nil, err
	}
	// Only what was read whole under one revision is kept.
	after, err := o.store.Revision(ctx)
	if err != nil || after != rev {
		return out, err
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	if len(o.made) >= mostKept {
		clear(o.made)
	}
	o.made[key] = out
	return out, nil
}

// mostKept is how many dates are kept in memory at a time.
const mostKept = 8

// View is the book as it stood on a date.
func (o *Office) View(ctx context.Context, actor Actor, ask Ask) (*book.View, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, err
	}
	return out.View, nil
}

// FarmAdvice is one farm with all advice for its stands.
type FarmAdvice struct {
	Farm    *book.FarmView
	Outlook *outlook.Outlook
	Stands  []advice.StandAdvice
	Feed    *outlook.Farm // in store, whatever the farm told of it
}

// Farm looks up one farm by its id or name.
func (o *Office) Farm(ctx context.Context, actor Actor, name string, ask Ask) (*FarmAdvice, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, fmt.Errorf("look up a farm: %w", err)
	}
	i := slices.IndexFunc(out.View.Farms, func(f *book.FarmView) bool { return f.ID == name || plain(f.Name) == plain(name) })
	if i < 0 {
		return nil, fmt.Errorf("no farm is called %q: %w", name, ErrNotFound)
	}
	f := &FarmAdvice{Farm: out.View.Farms[i], Outlook: out}
	for _, s := range slices.Concat(out.Stands, out.Stored) {
		if s.Farm.ID == f.Farm.ID {
			f.Stands = append(f.Stands, advice.StandAdvice{Stand: s, Pieces: advice.For(s, out)})
		}
	}
	f.Feed, err = husbandry.FeedOf(ctx, out, f.Farm)
	return f, err
}
