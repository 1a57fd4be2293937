package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store/sqlcdb"
)

// Append implements [Store]. A fact that could not be read back is not taken in, nor one that corrects
// what is not in the book: one bad fact would spoil every view.
func (db *DB) Append(ctx context.Context, facts []book.Fact) (Added, error) {
	return db.appendAt(ctx, facts, anyRevision)
}

// AppendAt implements [Store].
func (db *DB) AppendAt(ctx context.Context, facts []book.Fact, revision int64) (Added, error) {
	return db.appendAt(ctx, facts, revision)
}

// anyRevision stands for the book as it is, whatever its revision.
const anyRevision = -1

func (db *DB) appendAt(ctx context.Context, facts []book.Fact, at int64) (Added, error) {
	var added Added
	revision, err := db.change(ctx, fmt.Sprintf("save facts (%d)", len(facts)), func(ctx context.Context, q *sqlcdb.Queries, next int64) (bool, error) {
		if at != anyRevision && next != at+1 {
			return false, ErrChanged
		}
		batch := make(map[string]book.Fact, len(facts))
		for _, f := range facts {
			batch[f.ID] = f
		}
		for i, f := range facts {
			isNew, err := appendOne(ctx, q, batch, f)
			if err != nil {
				return false, fmt.Errorf("fact %d of %d (%s %s): %w", i+1, len(facts), f.Kind, f.ID, err)
			}
			if isNew {
				added.New = append(added.New, f.ID)
			} else {
				added.Already = append(added.Already, f.ID)
			}
		}
		return len(added.New) > 0, nil
	})
	if err != nil {
		return Added{}, err
	}
	added.Revision = revision
	return added, nil
}

func appendOne(ctx context.Context, q *sqlcdb.Queries, batch map[string]book.Fact, f book.Fact) (isNew bool, err error) {
	received, err := instant(f.Received)
	if err != nil {
		return false, err
	}
	// The adviser's day may be ahead of UTC's, never by more than one.
	if err := f.Valid(unit.DayOf(f.Received.UTC()) + 1); err != nil {
		return false, fmt.Errorf("%w: %w", ErrRefused, err)
	}
	if err := plainText(f.Farm, f.Subject, f.Author, string(f.Body)); err != nil {
		return false, err
	}
	home := f.Home()
	if f.Supersedes != "" {
		if home, err = homeOfCorrection(ctx, q, batch, f); err != nil {
			return false, err
		}
	}
	n, err := q.InsertFact(ctx, sqlcdb.InsertFactParams{
		ID: f.ID, Home: home, Farm: f.Farm, Subject: f.Subject, Kind: string(f.Kind), Day: f.Day.String(),
		Received: received, Author: f.Author, Supersedes: sql.NullString{String: f.Supersedes, Valid: f.Supersedes != ""}, Body: string(f.Body),
	})
	if err != nil || n == 1 {
		return n == 1, err
	}
	row, err := q.Fact(ctx, f.ID)
	if err != nil {
		return false, err
	}
	old, err := factOf(row)
	if err != nil {
		return false, err
	}
	if what := difference(old, f); what != "" {
		return false, fmt.Errorf("%w: its %s differs", ErrConflict, what)
	}
	return false, nil
}

// homeOfCorrection checks a correction against what it corrects, in the batch or in the book, and
// returns the farm it is part of.
func homeOfCorrection(ctx context.Context, q *sqlcdb.Queries, batch map[string]book.Fact, f book.Fact) (string, error) {
	old, ok := batch[f.Supersedes]
	if !ok {
		row, err := q.Fact(ctx, f.Supersedes)
		if errors.Is(err, sql.ErrNoRows) {
			return "", fmt.Errorf("%w: it corrects fact %s, which is not in the book; record that one first", ErrRefused, f.Supersedes)
		}
		if err != nil {
			return "", err
		}
		if old, err = factOf(row); err != nil {
			return "", err
		}
	}
	if err := f.Corrects(old); err != nil {
		return "", fmt.Errorf("%w: %w", ErrRefused, err)
	}
	return old.Home(), nil
}

// plainText refuses what one of the engines would: both keep UTF-8 without the zero character.
func plainText(texts ...string) error {
	for _, s := range texts {
		if !utf8.ValidString(s) || strings.ContainsRune(s, 0) {
			return fmt.Errorf("%w: text %.40q is not UTF-8, or holds a zero character", ErrRefused, s)
		}
	}
	return nil
}

// difference names the first thing in which two facts with one id differ, empty where they are the same
// fact. The time of receipt is the book's, not the fact's, and spaces in the body say nothing.
func difference(a, b book.Fact) string {
	switch {
	case a.Kind != b.Kind:
		return "kind"
	case a.Farm != b.Farm:
		return "farm"
	case a.Subject != b.Subject:
		return "subject"
	case a.Day != b.Day:
		return "day"
	case a.Author != b.Author:
		return "author"
	case a.Supersedes != b.Supersedes:
		return "supersedes"
	case !bytes.Equal(a.Body, b.Body) && !bytes.Equal(canonical(a.Body), canonical(b.Body)):
		return "body"
	}
	return ""
}

// canonical writes JSON without spaces and with sorted keys; numbers stay as they were written.
func canonical(body json.RawMessage) []byte {
	d := json.NewDecoder(bytes.NewReader(body))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return body
	}
	out, err := json.Marshal(v)
	if err != nil {
		return body
	}
	return out
}

// Facts implements [Store].
func (db *DB) Facts(ctx context.Context, filter Filter) ([]book.Fact, error) {
	ctx, done := bounded(ctx)
	defer done()
	rows, err := db.factRows(ctx, filter)
	if err != nil {
		return nil, db.fail(ctx, "read facts", err)
	}
	facts := make([]book.Fact, len(rows))
	for i, row := range rows {
		if facts[i], err = factOf(row); err != nil {
			return nil, db.fail(ctx, "read facts", err)
		}
	}
	return facts, nil
}

func (db *DB) factRows(ctx context.Context, filter Filter) ([]sqlcdb.Fact, error) {
	known, day := knownBy(filter.Known), through(filter.Through)
	if filter.Farm == "" {
		return db.reads.Facts(ctx, sqlcdb.FactsParams{Known: known, Through: day})
	}
	also := filter.Farm
	if filter.Shared {
		also = "" // the home of what belongs to the whole book
	}
	return db.reads.FactsOfHome(ctx, sqlcdb.FactsOfHomeParams{Home: filter.Farm, Also: also, Known: known, Through: day})
}

func factOf(row sqlcdb.Fact) (book.Fact, error) {
	day, err := unit.ParseDay(row.Day)
	if err != nil {
		return book.Fact{}, fmt.Errorf("fact %s: %w: %w", row.ID, ErrDamaged, err)
	}
	received, err := parseInstant(row.Received)
	if err != nil {
		return book.Fact{}, fmt.Errorf("fact %s: %w", row.ID, err)
	}
	return book.Fact{
		ID: row.ID, Farm: row.Farm, Subject: row.Subject, Kind: book.Kind(row.Kind), Day: day, Received: received,
		Author: row.Author, Supersedes: row.Supersedes.String, Body: json.RawMessage(row.Body),
	}, nil
}
