package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"haywarden/book/store/sqlcdb"
)

// patience bounds a call whose caller set no deadline: nothing here takes longer unless it hangs.
const patience = 30 * time.Second

// DB is an open book. It is safe for use by several goroutines.
type DB struct {
	info    Info
	notices []string
	// On SQLite, write is a single connection, so that changes of one process queue up in Go, where a
	// deadline can stop them, and read cannot write at all. On PostgreSQL they are one pool.
	read, write *sql.DB
	reads       *sqlcdb.Queries
	writes      *sqlcdb.Queries
}

// Open opens a book: the path of an SQLite file, or the address of a PostgreSQL database
// (postgres://user@host/name). A book of an older layout is upgraded, on SQLite after a copy was made
// beside it; [DB.Notices] tells. What cannot be opened is left as it was.
func Open(ctx context.Context, location string, opts Options) (*DB, error) {
	opts = opts.withDefaults()
	if opts.Create {
		return open(ctx, location, opts, makeMissing)
	}
	return open(ctx, location, opts, onlyThere)
}

// Create makes a new book and opens it. Where there is something already it returns an [ErrExists].
func Create(ctx context.Context, location string, opts Options) (*DB, error) {
	return open(ctx, location, opts.withDefaults(), onlyNew)
}

// making says whether a book may, or must, be made.
type making uint8

const (
	onlyThere   making = iota // open what is there
	makeMissing               // open what is there, make what is not
	onlyNew                   // make, and leave alone what is there
)

func open(ctx context.Context, location string, opts Options, how making) (*DB, error) {
	switch scheme, _, ok := strings.Cut(location, "://"); {
	case location == "":
		return nil, errors.New("open book: no location; give the path of its file or a postgres:// address")
	case !ok:
		return openFile(ctx, location, opts, how)
	case scheme == "postgres", scheme == "postgresql":
		return openPostgreSQL(ctx, location, opts, how)
	default:
		return nil, fmt.Errorf("open book: its address begins with %s://; accepted are the path of a file and postgres://", scheme)
	}
}

// prepare gets the queries ready on both pools and reads what the book says of itself.
func (db *DB) prepare(ctx context.Context) (err error) {
	if db.writes, err = sqlcdb.Prepare(ctx, db.write); err != nil {
		return err
	}
	if db.reads, err = sqlcdb.Prepare(ctx, db.read); err != nil {
		return err
	}
	row, err := db.reads.Book(ctx)
	if err != nil {
		return err
	}
	if db.info.Created, err = time.Parse(instantLayout, row.Created); err != nil {
		return fmt.Errorf("day the book was made: %w: %w", ErrDamaged, err)
	}
	db.info.Program = row.Program
	db.info.Schema = schemaVersion
	return nil
}

// Info describes the book.
func (db *DB) Info() Info { return db.info }

// Notices says what opening did beside opening, in sentences for people: made the book, upgraded it.
func (db *DB) Notices() []string { return db.notices }

// Close lets the book go.
func (db *DB) Close() error {
	if db.read == db.write {
		return db.write.Close()
	}
	// The writer goes last: the last connection folds the write-ahead log into the file, and a reader
	// may not.
	return errors.Join(db.read.Close(), db.write.Close())
}

// Revision implements [Store].
func (db *DB) Revision(ctx context.Context) (int64, error) {
	ctx, done := bounded(ctx)
	defer done()
	row, err := db.reads.Book(ctx)
	if err != nil {
		return 0, db.fail(ctx, "read the book's revision", err)
	}
	return row.Revision, nil
}

// WeatherRevision implements [Store].
func (db *DB) WeatherRevision(ctx context.Context) (int64, error) {
	ctx, done := bounded(ctx)
	defer done()
	revision, err := db.reads.WeatherRevision(ctx)
	if err != nil {
		return 0, db.fail(ctx, "read the weather's revision", err)
	}
	return revision, nil
}

// change runs a change in one transaction and returns the revision of the book afterwards. do is given
// the revision that the change will have, and reports whether it stored anything: if not, all stays as
// it was, the revision too.
func (db *DB) change(ctx context.Context, doing string, do func(ctx context.Context, q *sqlcdb.Queries, revision int64) (bool, error)) (int64, error) {
	ctx, done := bounded(ctx)
	defer done()
	tx, err := db.write.BeginTx(ctx, nil)
	if err != nil {
		return 0, db.fail(ctx, doing, err)
	}
	defer tx.Rollback() // after a commit this does nothing
	q := db.writes.WithTx(tx)
	revision, err := q.NextRevision(ctx)
	if err != nil {
		return 0, db.fail(ctx, doing, err)
	}
	changed, err := do(ctx, q, revision)
	switch {
	case err != nil:
		return 0, db.fail(ctx, doing, err)
	case !changed:
		return revision - 1, nil
	}
	if err := tx.Commit(); err != nil {
		return 0, db.fail(ctx, doing, err)
	}
	return revision, nil
}

func (db *DB) fail(ctx context.Context, doing string, err error) error {
	return fail(ctx, "book "+db.info.Location+": "+doing, err)
}

func bounded(ctx context.Context) (context.Context, context.CancelFunc) {
	if _, ok := ctx.Deadline(); ok {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, patience)
}
