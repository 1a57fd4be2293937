package store

import (
	"database/sql"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
)

// connect makes the pool of a PostgreSQL book.
func connect(cfg *pgx.ConnConfig) (*sql.DB, error) { return stdlib.OpenDB(*cfg), nil }
