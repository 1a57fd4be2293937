package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Backup makes a copy of the book in a new file while the book stays in use, and checks the copy. A
// PostgreSQL book is backed up with that database's own pg_dump.
func (db *DB) Backup(ctx context.Context, to string) (saved string, err error) {
	if db.info.Engine != SQLite {
		return "", db.fail(ctx, "back up", errors.New("the book is kept in PostgreSQL: use pg_dump"))
	}
	path, err := filepath.Abs(to)
	if err != nil {
		return "", db.fail(ctx, "back up", err)
	}
	// A connection of its own, that may read the book and write the copy.
	pool, err := openPool(1, db.info.Location, "mode=ro")
	if err != nil {
		return "", db.fail(ctx, "back up", err)
	}
	defer pool.Close()
	saved, err = saveCopy(ctx, pool, path)
	if err != nil {
		return "", db.fail(ctx, "back up to "+path, explainFolder(path, err))
	}
	return saved, nil
}

// pieceMark ends the name of a copy that is being made.
const pieceMark = ".part"

// saveCopy copies the file that db has open. The copy is checked and on the disk before it gets its
// name; a name that is taken is left alone and counted up.
func saveCopy(ctx context.Context, db *sql.DB, name string) (saved string, err error) {
	part := name + pieceMark
	if err := os.Remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", err // a piece of a copy that was cut short
	}
	defer func() {
		if gone := os.Remove(part); gone != nil && !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	if _, err := db.ExecContext(ctx, "vacuum into $1", part); err != nil {
		return "", err
	}
	if err := soundFile(ctx, part); err != nil {
		return "", err
	}
	if err := syncPath(part); err != nil {
		return "", err
	}
	saved = name
	for n := 2; ; n++ {
		if err := giveName(part, saved); !errors.Is(err, ErrExists) {
			return saved, err
		}
		saved = fmt.Sprintf("%s-%d", name, n)
	}
}

// giveName gives a finished file its name, unless that is taken. Where the file system cannot give a
// file two names, it is renamed.
func giveName(from, to string) error {
	err := os.Link(from, to)
	switch {
	case errors.Is(err, fs.ErrExist):
		return ErrExists
	case err != nil:
		if _, taken := os.Lstat(to); !errors.Is(taken, fs.ErrNotExist) {
			return ErrExists
		}
		if err := os.Rename(from, to); err != nil {
			return err
		}
	}
	return syncPath(filepath.Dir(to))
}

// syncPath puts a file, or the names in a folder, on the disk.
func syncPath(path string) error {
	if st, err := os.Stat(path); err != nil || st.IsDir() && runtime.GOOS == "windows" {
		return err // Windows has no such call for folders
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// soundFile checks an SQLite file that nobody writes.
func soundFile(ctx context.Context, path string) error {
	db, err := openPool(1, path, "mode=ro", "immutable=1")
	if err != nil {
		return err
	}
	defer db.Close()
	return sound(ctx, db)
}

// sound runs SQLite's own checks: of the file's structure, and of references between rows.
func sound(ctx context.Context, db *sql.DB) error {
	findings, err := texts(ctx, db, "pragma integrity_check(20)")
	if err != nil {
		return err
	}
	if len(findings) != 1 || findings[0] != "ok" {
		return fmt.Errorf("%w: %s", ErrDamaged, strings.Join(findings, "; "))
	}
	findings, err = texts(ctx, db, `select "table" || ' row ' || rowid from pragma_foreign_key_check`)
	if err != nil {
		return err
	}
	if len(findings) > 0 {
		return fmt.Errorf("%w: references to nothing: %s", ErrDamaged, strings.Join(findings, "; "))
	}
	return nil
}

// texts reads a column of text.
func texts(ctx context.Context, db *sql.DB, query string) (list []string, err error) {
	rows, err := db.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			return nil, err
		}
		list = append(list, s)
	}
	return list, rows.Err()
}
