package office

import (
	"cmp"
	"context"
	"io"
	"slices"

	"haywarden/book"
	"haywarden/exchange"
)

// ImportVisits takes a table of visits into the book, all of it or nothing. A visit that the book holds
// just so, by the same observer on the same day, adds nothing; one that measures all that the
// earlier one did takes its place.
func (o *Office) ImportVisits(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadVisits(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Visits {
			b.takeVisit(actor, row)
		}
		return nil
	})
}

func (b *batch) takeVisit(actor Actor, row exchange.VisitRow) {
	if !b.past(row.Row, "date", row.Day) {
		return
	}
	s := b.standOn(row.Row, row.Farm, row.Field, row.Day, false)
	if s == nil {
		return
	}
	author := cmp.Or(row.Observer, actor.Name)
	var earlier []book.Dated[book.Visit] // on the day, by the same observer
	for _, v := range s.Visits {
		own := v.Day == row.Day && plain(v.Author) == plain(author)
		// A table that names no observer may have been brought by somebody else before.
		if v.Day == row.Day && (own || row.Observer == "") && equalJSON(v.Body, row.Visit) {
			b.same(book.KindVisit)
			return
		}
		if own {
			earlier = append(earlier, v)
		}
	}
	e := Entry{Farm: s.Farm.ID, Subject: s.ID, Day: row.Day, Author: author, Body: row.Visit}
	if len(earlier) == 1 && covers(row.Visit, earlier[0].Body) {
		e.Supersedes = earlier[0].ID
	}
	b.add(e, e.Supersedes != "")
}

// covers reports whether a visit measures all that another one does, and notes something if it did. One
// that only notes something stands for itself: a second note of a day is no correction of the first.
func covers(v, other book.Visit) bool {
	old, now := measured(other), measured(v)
	some := false
	for i := range old {
		if old[i] && !now[i] {
			return false
		}
		some = some || old[i]
	}
	return some && (v.Note != "" || other.Note == "")
}

// measured tells for each thing that a visit may measure whether it does.
func measured(v book.Visit) [13]bool {
	return [...]bool{len(v.Spots) > 0, len(v.Frames) > 0, v.Roots != nil, v.GrowthIn != nil, v.Bloom != nil, v.Grass != nil, v.Tips != "", v.WeevilTips != nil, len(v.Pests) > 0, v.WeedsBloom, v.Crowns != nil, v.Winter != nil, v.Harm != nil}
}

// ImportPrices takes price decks into the book, all or none. A deck is known by its name and date, and
// the farm whose own it is: one with other lines takes the place of the old.
func (o *Office) ImportPrices(ctx context.Context, actor Actor, r io.Reader, name string, dry bool) (ImportedRecords, error) {
	if err := may(actor, actRecord); err != nil {
		return ImportedRecords{}, err
	}
	table, err := exchange.ReadPrices(r, name)
	if err != nil {
		return ImportedRecords{}, err
	}
	return o.takeIn(ctx, actor, table.File, dry, func(b *batch) error {
		for _, row := range table.Decks {
			b.takeDeck(row)
		}
		return nil
	})
}

func (b *batch) takeDeck(row exchange.PriceRow) {
	farm, decks := "", b.view.Prices
	if row.Farm != "" {
		f := b.needFarm(row.Row, row.Farm)
		if f == nil {
			return
		}
		farm, decks = f.ID, f.Prices
	}
	if !b.past(row.Row, "date", row.Day) {
		return
	}
	e := Entry{Farm: farm, Day: row.Day, Body: row.Deck}
	for _, d := range slices.Backward(decks) {
		if d.Day != row.Day || plain(d.Body.Name) != plain(row.Deck.Name) {
			continue
		}
		if slices.Equal(sortedLines(d.Body), sortedLines(row.Deck)) {
			b.same(book.KindPrices)
			return
		}
		e.Subject, e.Supersedes = b.subject[d.ID], d.ID
		break
	}
	b.add(e, e.Supersedes != "")
}

func sortedLines(p book.Prices) []book.PriceLine {
	return slices.SortedFunc(slices.Values(p.Lines), func(a, b book.PriceLine) int { return cmp.Compare(a.Name, b.Name) })
}
