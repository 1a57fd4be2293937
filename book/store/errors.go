package store

import (
	"context"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"

	"github.com/jackc/pgx/v5/pgconn"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// What can be wrong with a book, whatever the engine. Test with [errors.Is]; the text is meant for
// people.
var (
	ErrMissing     = errors.New("there is no book here")
	ErrExists      = errors.New("there is something here already, and it was left alone")
	ErrForeign     = errors.New("this is not a Haywarden book, and it was left alone")
	ErrNewer       = errors.New("this book was written by a newer Haywarden, and nothing in it was changed")
	ErrDamaged     = errors.New("this book is damaged; put it aside and go on with the newest sound copy")
	ErrBusy        = errors.New("another Haywarden has this book open and did not let go in time; close it, or try again")
	ErrReadOnly    = errors.New("this book cannot be written; see that its file and its folder may be written to")
	ErrFull        = errors.New("there is no room left on the disk; make room and try again")
	ErrUnreachable = errors.New("the database does not answer; see that its server runs and that the address is right")
	ErrConflict    = errors.New("the book holds a fact with this id and other content")
	ErrRefused     = errors.New("the book does not take this")
	ErrChanged     = errors.New("the book was changed by another in the meantime; try again")
)

// kinds are the errors above that a driver's error may mean, or that are ours from the start.
var kinds = []error{
	ErrMissing, ErrExists, ErrForeign, ErrNewer, ErrDamaged, ErrBusy, ErrReadOnly, ErrFull, ErrUnreachable,
	ErrConflict, ErrRefused, ErrChanged,
}

// fail says what was being done when err came up, and what kind of error it is. ctx is the one the work
// ran under: a driver that was interrupted does not always say by whom.
func fail(ctx context.Context, doing string, err error) error {
	for _, k := range kinds {
		if errors.Is(err, k) {
			return fmt.Errorf("%s: %w", doing, err)
		}
	}
	cause, k := ctx.Err(), kindOf(err)
	if k != nil && (cause == nil || !errors.Is(k, ErrUnreachable)) { // a connection that we cut is no fault of the server
		err = fmt.Errorf("%w (%w)", k, err)
	}
	if cause != nil && !errors.Is(err, cause) {
		err = fmt.Errorf("%w: %w", cause, err)
	}
	return fmt.Errorf("%s: %w", doing, err)
}

// kindOf is our error for a driver's, nil where we have none.
func kindOf(err error) error {
	if lite, ok := errors.AsType[*sqlite.Error](err); ok {
		return kindOfSQLite(lite.Code())
	}
	if pg, ok := errors.AsType[*pgconn.PgError](err); ok {
		return kindOfPostgreSQL(pg.Code)
	}
	var connect *pgconn.ConnectError
	var cut *net.OpError
	if errors.As(err, &connect) || errors.As(err, &cut) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, driver.ErrBadConn) {
		return ErrUnreachable
	}
	return nil
}

// kindOfSQLite reads a result code, https://www.sqlite.org/rescode.html; its low byte is the primary one.
func kindOfSQLite(code int) error {
	switch code & 0xff {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return ErrBusy
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM:
		return ErrReadOnly
	case sqlite3.SQLITE_FULL:
		return ErrFull
	case sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB:
		return ErrDamaged
	case sqlite3.SQLITE_CONSTRAINT:
		return ErrRefused
	default:
		return nil
	}
}

// kindOfPostgreSQL reads an SQLSTATE, https://www.postgresql.org/docs/15/errcodes-appendix.html.
func kindOfPostgreSQL(state string) error {
	switch state {
	case "55P03", "40P01", "40001": // lock not available, deadlock, serialization failure
		return ErrBusy
	case "25006", "42501": // read-only transaction, insufficient privilege
		return ErrReadOnly
	case "53100": // disk full
		return ErrFull
	case "XX001", "XX002": // data corrupted, index corrupted
		return ErrDamaged
	case "57P01", "57P02", "57P03", "3D000", "28000", "28P01", "53300": // shut down, no such database, not let in, too many
		return ErrUnreachable
	}
	switch state[:2] {
	case "23", "22": // constraint, data
		return ErrRefused
	case "08": // connection
		return ErrUnreachable
	default:
		return nil
	}
}
