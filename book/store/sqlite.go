package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/pressly/goose/v3"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// applicationID marks an SQLite file as a book: "Hayw", in the place that the file format keeps for it
// (https://www.sqlite.org/fileformat2.html#application_id).
const applicationID = 0x48617977

const readers = 4

// dsn is how a file is opened. The path is escaped, since it may hold the characters of an address.
func dsn(path string, params ...string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a Windows drive
	}
	// No guessing: a misspelt column is an error, not a text, and an error's text is its own.
	return (&url.URL{Scheme: "file", Path: path}).String() + "?" + strings.Join(append(params, "_dqs=0", "_error_rc=1"), "&")
}

// writing are the settings of a connection that changes the book. FULL, since an acknowledged change
// must outlive a power failure.
func writing(wait time.Duration, more ...string) []string {
	return append([]string{
		"mode=rw", busyTimeout(wait), "_txlock=immediate", "_foreign_keys=1",
		"_journal_mode=WAL", "_synchronous=FULL",
	}, more...)
}

func busyTimeout(wait time.Duration) string {
	return "_busy_timeout=" + strconv.FormatInt(wait.Milliseconds(), 10)
}

func openPool(connections int, path string, params ...string) (*sql.DB, error) {
	db, err := sql.Open("sqlite", dsn(path, params...))
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(connections)
	db.SetMaxIdleConns(connections)
	return db, nil
}

// openFile opens the book in an SQLite file. Nothing is written before the file is known to be ours and
// of a layout that we read.
func openFile(ctx context.Context, location string, opts Options, how making) (*DB, error) {
	path, err := filepath.Abs(location)
	if err != nil {
		return nil, fmt.Errorf("open book %s: %w", location, err)
	}
	db := &DB{info: Info{Location: path, Engine: SQLite}}
	refuse := func(err error) (*DB, error) {
		return nil, fail(ctx, "open book "+path, explainFolder(path, err))
	}
	st, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if how == onlyThere {
			return refuse(fmt.Errorf("%w; make one first, or check the path", ErrMissing))
		}
		if err := createFile(ctx, path, opts); err != nil {
			return refuse(err)
		}
		db.notices = append(db.notices, "Made a new book, "+path+".")
	case err != nil:
		return refuse(err)
	case how == onlyNew:
		return refuse(ErrExists)
	case st.IsDir():
		return refuse(fmt.Errorf("%w: it is a folder", ErrForeign))
	case st.Size() == 0:
		return refuse(fmt.Errorf("%w: it is an empty file", ErrForeign))
	default:
		notice, err := admitFile(ctx, path, opts)
		if err != nil {
			return refuse(err)
		}
		if notice != "" {
			db.notices = append(db.notices, notice)
		}
	}
	if err := db.openPools(ctx, path, opts); err != nil {
		return refuse(errors.Join(err, db.closePools()))
	}
	return db, nil
}

// admitFile looks at a file without changing it, refuses what is not a book that we read, and upgrades a
// book of an older layout; then it returns a notice.
func admitFile(ctx context.Context, path string, opts Options) (notice string, err error) {
	if err := ours(ctx, path, opts.Wait); err != nil {
		return "", err
	}
	s, err := stateOfFile(ctx, path, opts.Wait)
	switch {
	case err != nil:
		return "", err
	case s.schema > schemaVersion:
		return "", s.newer(opts.Program)
	case s.schema < schemaVersion:
		return upgradeFile(ctx, path, opts)
	}
	return "", nil
}

// look reads from a file and leaves no trace. An immutable connection takes no lock and makes no file
// beside, so that another program's database stays untouched to the byte; and unlike reading the file
// ourselves, it does not drop the locks that SQLite holds for this process. But it does not see the log
// either: after a crash, or while another process writes, the file alone may not make sense. Then, or
// where the log matters, the file is read in the regular way.
func look(path string, wait time.Duration, logMatters bool, read func(*sql.DB) error) error {
	try := func(params ...string) error {
		db, err := openPool(1, path, append(params, "mode=ro", busyTimeout(wait))...)
		if err != nil {
			return err
		}
		defer db.Close()
		return read(db)
	}
	log, err := os.Stat(path + "-wal")
	if !logMatters || errors.Is(err, fs.ErrNotExist) || err == nil && log.Size() == 0 {
		if try("immutable=1") == nil {
			return nil
		}
	}
	return try()
}

// ours reads the mark in the file's header, where every book has it from before it got its name.
func ours(ctx context.Context, path string, wait time.Duration) error {
	var id int64
	err := look(path, wait, false, func(db *sql.DB) error {
		return db.QueryRowContext(ctx, "pragma application_id").Scan(&id)
	})
	var lite *sqlite.Error
	switch {
	case errors.As(err, &lite) && lite.Code()&0xff == sqlite3.SQLITE_NOTADB:
		return fmt.Errorf("%w: it is not an SQLite file, or its beginning is damaged", ErrForeign)
	case err != nil:
		return err
	case id != applicationID:
		return fmt.Errorf("%w: it is an SQLite file of another program%s", ErrForeign, programOf(id))
	}
	return nil
}

// programOf writes another program's mark, empty where it has none.
func programOf(id int64) string {
	if id == 0 {
		return ""
	}
	mark := []byte{byte(id >> 24), byte(id >> 16), byte(id >> 8), byte(id)}
	for _, c := range mark {
		if c < ' ' || c > '~' {
			return fmt.Sprintf(" (application id %#x)", uint32(id))
		}
	}
	return fmt.Sprintf(" (application id %q)", mark)
}

// stateOfFile reads what the book says of itself.
func stateOfFile(ctx context.Context, path string, wait time.Duration) (s state, err error) {
	err = look(path, wait, true, func(db *sql.DB) error {
		s, err = readState(ctx, db)
		return err
	})
	if err != nil && kindOf(err) == nil && ctx.Err() == nil {
		err = fmt.Errorf("%w: it carries the mark of a book but not its tables: %w", ErrDamaged, err)
	}
	return s, err
}

// createFile makes a book under another name and then gives it its own: whoever looks sees no book or a
// whole one.
func createFile(ctx context.Context, path string, opts Options) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".new-*")
	if err != nil {
		return err
	}
	temp := f.Name()
	defer func() {
		for _, suffix := range []string{"", "-wal", "-shm"} {
			if gone := os.Remove(temp + suffix); gone != nil && !errors.Is(gone, fs.ErrNotExist) {
				err = errors.Join(err, gone)
			}
		}
	}()
	if err := f.Close(); err != nil {
		return err
	}
	if err := layOut(ctx, temp, schemaVersion, opts); err != nil {
		return err
	}
	if err := begin(ctx, temp, opts); err != nil {
		return err
	}
	return giveName(temp, path)
}

// begin writes the first facts of a new file.
func begin(ctx context.Context, path string, opts Options) error {
	if len(opts.First) == 0 {
		return nil
	}
	db := &DB{info: Info{Location: path, Engine: SQLite}}
	err := db.openPools(ctx, path, opts)
	if err == nil {
		_, err = db.Append(ctx, opts.First)
	}
	return errors.Join(err, db.closePools())
}

// layOut makes the tables of a layout in an empty file.
func layOut(ctx context.Context, path string, version int64, opts Options) (err error) {
	db, err := openPool(1, path, writing(opts.Wait)...)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	if _, err := db.ExecContext(ctx, "pragma application_id = "+strconv.Itoa(applicationID)); err != nil {
		return err
	}
	if err := migrate(ctx, goose.DialectSQLite3, db, version); err != nil {
		return err
	}
	return stamp(ctx, db, opts)
}

// upgradeFile brings a book to the present layout after a copy was made. It holds the file alone while
// it does so: another process that has the book open would go on with tables that are no longer there.
func upgradeFile(ctx context.Context, path string, opts Options) (notice string, err error) {
	db, err := openPool(1, path, append([]string{"_pragma=locking_mode(EXCLUSIVE)"}, writing(opts.Wait)...)...)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	// The first write takes the lock, and what was read before may be out of date by then.
	if err := stamp(ctx, db, opts); err != nil {
		return "", err
	}
	was, err := readState(ctx, db)
	if err != nil || was.schema >= schemaVersion {
		return "", err // another process was quicker
	}
	if err := dropPieces(path); err != nil {
		return "", err
	}
	saved, err := saveCopy(ctx, db, copyName(path, opts.Now()))
	if err != nil {
		return "", fmt.Errorf("copy the book before upgrading it: %w", err)
	}
	if err := migrate(ctx, goose.DialectSQLite3, db, schemaVersion); err != nil {
		return "", fmt.Errorf("upgrade from layout %d to %d, which left the book %s; there is a copy in %s: %w", was.schema, schemaVersion, leftAt(ctx, db, was), saved, err)
	}
	return fmt.Sprintf("Upgraded the book from layout %d to %d; a copy from before is kept in %s.", was.schema, schemaVersion, saved), nil
}

// leftAt says where an upgrade stopped: each step is kept whole, or not at all.
func leftAt(ctx context.Context, db querier, was state) string {
	now, err := readState(ctx, db)
	switch {
	case err != nil:
		return "between layouts (" + err.Error() + ")"
	case now.schema == was.schema:
		return "as it was"
	default:
		return fmt.Sprintf("whole and at layout %d", now.schema)
	}
}

func (db *DB) openPools(ctx context.Context, path string, opts Options) (err error) {
	if db.write, err = openPool(1, path, writing(opts.Wait)...); err != nil {
		return err
	}
	if err := writable(ctx, db.write, opts.Wait); err != nil {
		return err
	}
	if db.read, err = openPool(readers, path, "mode=ro", "_query_only=1", busyTimeout(opts.Wait)); err != nil {
		return err
	}
	return db.prepare(ctx)
}

func (db *DB) closePools() error {
	var errs []error
	for _, pool := range []*sql.DB{db.read, db.write} {
		if pool != nil {
			errs = append(errs, pool.Close())
		}
	}
	return errors.Join(errs...)
}

// writable finds out now rather than at the first change whether the file may be written: SQLite opens
// one that may not be without a word, and even begins to change it. That another process is writing at
// the moment is no obstacle.
func writable(ctx context.Context, db *sql.DB, wait time.Duration) error {
	if _, err := db.ExecContext(ctx, "pragma busy_timeout = 0"); err != nil {
		return err
	}
	if err := tryChange(ctx, db); err != nil && !errors.Is(kindOf(err), ErrBusy) {
		return err
	}
	_, err := db.ExecContext(ctx, "pragma busy_timeout = "+strconv.FormatInt(wait.Milliseconds(), 10))
	return err
}

// tryChange makes a change that changes nothing and takes it back.
func tryChange(ctx context.Context, db *sql.DB) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, "update book set revision = revision where one = 1")
	return errors.Join(err, tx.Rollback())
}

// explainFolder adds to an error that the folder cannot be written to, if that is so: SQLite needs files
// beside the book, and says only that it cannot open it.
func explainFolder(path string, err error) error {
	if k := kindOf(err); !errors.Is(k, ErrReadOnly) && !errors.Is(err, fs.ErrPermission) && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	dir := filepath.Dir(path)
	if _, stat := os.Stat(dir); errors.Is(stat, fs.ErrNotExist) {
		return fmt.Errorf("%w: there is no folder %s: %w", ErrReadOnly, dir, err)
	}
	f, tried := os.CreateTemp(dir, ".haywarden-*")
	if tried != nil {
		return fmt.Errorf("%w: the folder %s cannot be written to: %w", ErrReadOnly, dir, err)
	}
	return errors.Join(fmt.Errorf("%w: %w", ErrReadOnly, err), f.Close(), os.Remove(f.Name()))
}
