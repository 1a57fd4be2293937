//go:build !postgres

package store

import (
	"database/sql"
	"fmt"

	"github.com/jackc/pgx/v5"
)

// connect refuses: this build has no driver for PostgreSQL.
func connect(*pgx.ConnConfig) (*sql.DB, error) {
	return nil, fmt.Errorf("%w: this Haywarden was built without PostgreSQL (build it with -tags postgres)", ErrUnreachable)
}
