package storetest

import (
	"os"
	"testing"
)

// Lacking skips a test for want of something on this machine, and says so; where the environment says
// HAYWARDEN_DEMAND=1 the test fails instead.
func Lacking(tb testing.TB, why string) {
	tb.Helper()
	if os.Getenv("HAYWARDEN_DEMAND") == "1" {
		tb.Fatal(why)
	}
	tb.Skip(why)
}
