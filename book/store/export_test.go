package store

import (
	"context"
	"database/sql"
	"time"

	"github.com/pressly/goose/v3"
)

// SchemaVersion is the layout this program writes.
const SchemaVersion = schemaVersion

// Writer is the pool that changes go through.
func (db *DB) Writer() *sql.DB { return db.write }

// Reader is the pool that reads go through.
func (db *DB) Reader() *sql.DB { return db.read }

// LayOutFile makes a book of an older layout in a file.
func LayOutFile(ctx context.Context, path string, version int64, opts Options) error {
	return layOut(ctx, path, version, opts.withDefaults())
}

// LayOutDatabase makes a book of an older layout in a database.
func LayOutDatabase(ctx context.Context, db *sql.DB, version int64, opts Options) error {
	if err := migrate(ctx, goose.DialectPostgres, db, version); err != nil {
		return err
	}
	return stamp(ctx, db, opts.withDefaults())
}

// SchemaOfFile reads the layout of a file without changing it.
func SchemaOfFile(ctx context.Context, path string) (int, error) {
	s, err := stateOfFile(ctx, path, time.Second)
	return s.schema, err
}

// SoundFile checks a file that nobody writes.
func SoundFile(ctx context.Context, path string) error { return soundFile(ctx, path) }

// Fail is how every error leaves the package.
var Fail = fail
