//go:build !unix

package storetest

import "testing"

// Cluster is a private PostgreSQL server.
type Cluster struct{}

// StartPostgreSQL skips the test: a private server is started on Unix only.
func StartPostgreSQL(tb testing.TB) *Cluster {
	tb.Helper()
	Lacking(tb, "a private PostgreSQL server is started on Unix only")
	return nil
}

// Fresh is never reached.
func (c *Cluster) Fresh(tb testing.TB) string {
	tb.Helper()
	tb.Fatal("there is no server")
	return ""
}
