//go:build !unix

package storetest

import "testing"

const unixOnly = "a private PostgreSQL server is started on Unix only"

// PostgreSQL skips the test.
func PostgreSQL(tb testing.TB) string {
	tb.Helper()
	Lacking(tb, unixOnly)
	return ""
}

// Cluster is a private PostgreSQL server.
type Cluster struct{}

// StartPostgreSQL skips the test.
func StartPostgreSQL(tb testing.TB) *Cluster {
	tb.Helper()
	Lacking(tb, unixOnly)
	return nil
}

// Stop is never reached.
func (*Cluster) Stop(tb testing.TB) {
	tb.Helper()
	tb.Fatal(unixOnly)
}

// Fresh is never reached.
func (*Cluster) Fresh(tb testing.TB) string {
	tb.Helper()
	tb.Fatal(unixOnly)
	return ""
}
