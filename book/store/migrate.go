package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/pressly/goose/v3"
)

// schemaVersion is the layout of the tables that this program reads and writes: the number of the last
// file in migrations.
const schemaVersion = 3

// versionTable is where a book says which layouts it went through.
const versionTable = "book_schema"

//go:embed migrations/*.sql
var migrations embed.FS

// migrate brings the tables to a layout. Each step is one transaction that also records the step.
func migrate(ctx context.Context, dialect goose.Dialect, db *sql.DB, version int64, more ...goose.ProviderOption) error {
	files, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(dialect, db, files, append([]goose.ProviderOption{
		goose.WithTableName(versionTable), goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()),
	}, more...)...)
	if err != nil {
		return err
	}
	_, err = p.UpTo(ctx, version)
	return err
}

// querier is what [sql.DB] and [sql.Conn] have in common.
type querier interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
	ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
}

// state is what a book of any layout says of itself: these tables and columns stay as they are.
type state struct {
	application string
	schema      int
	program     string
}

func readState(ctx context.Context, db querier) (s state, err error) {
	if err := db.QueryRowContext(ctx, "select max(version_id) from "+versionTable).Scan(&s.schema); err != nil { //nolint:gosec // a constant
		return s, err
	}
	err = db.QueryRowContext(ctx, "select application, program from book where one = 1").Scan(&s.application, &s.program)
	return s, err
}

// newer is the error for a book of a layout that this program does not know.
func (s state) newer(program string) error {
	return fmt.Errorf("%w: its layout is version %d, written by Haywarden %s; this is Haywarden %s, which reads up to version %d; open it with Haywarden %s or later",
		ErrNewer, s.schema, s.program, program, schemaVersion, s.program)
}

// stamp records which program gives the book its layout, and when the book was made if that is not known
// yet. It goes before an upgrade: if that is cut short, the name of a program that is too new does no harm.
func stamp(ctx context.Context, db querier, opts Options) error {
	if _, err := db.ExecContext(ctx, "update book set program = $1 where one = 1", opts.Program); err != nil {
		return err
	}
	made, err := instant(opts.Now())
	if err != nil {
		return fmt.Errorf("read the clock: %w", err)
	}
	_, err = db.ExecContext(ctx, "update book set created = $1 where one = 1 and created = ''", made)
	return err
}

// copyMark is what the name of a copy has after the name of the book.
const copyMark = ".before-v"

// copyName names the copy that is made of a file before it is brought to the present layout.
func copyName(path string, at time.Time) string {
	return fmt.Sprintf("%s%s%d-%s", path, copyMark, schemaVersion, at.Format("20060102-150405"))
}

// dropPieces removes what is left of copies whose making was cut short. The caller holds the book alone,
// so none is being made.
func dropPieces(path string) error {
	dir, name := filepath.Split(path)
	entries, err := os.ReadDir(filepath.Clean(dir))
	if err != nil {
		return err
	}
	for _, e := range entries {
		if rest, ok := strings.CutPrefix(e.Name(), name+copyMark); ok && strings.Contains(rest, pieceMark) {
			if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
				return err
			}
		}
	}
	return nil
}
