package main

import (
	"strings"
	"testing"
)

func TestReportPrintsAsGoTestDoesAndFailsOnFailuresSkipsAndNothing(t *testing.T) {
	const (
		passed  = `{"Action":"run","Package":"p","Test":"TestA"}` + "\n" + `{"Action":"output","Package":"p","Test":"TestA","Output":"=== RUN   TestA\n"}` + "\n" + `{"Action":"output","Package":"p","Test":"TestA","Output":"--- PASS: TestA (0.00s)\n"}` + "\n" + `{"Action":"pass","Package":"p","Test":"TestA"}` + "\n"
		skipped = `{"Action":"output","Package":"p","Test":"TestB","Output":"=== RUN   TestB\n"}` + "\n" + `{"Action":"output","Package":"p","Test":"TestB","Output":"    b_test.go:3: no browser\n"}` + "\n" + `{"Action":"output","Package":"p","Test":"TestB","Output":"--- SKIP: TestB (0.00s)\n"}` + "\n" + `{"Action":"skip","Package":"p","Test":"TestB"}` + "\n"
		broke   = `{"Action":"output","Package":"p","Test":"TestC","Output":"    c_test.go:3: got 1, want 2\n"}` + "\n" + `{"Action":"fail","Package":"p","Test":"TestC"}` + "\n"
		crashed = `{"Action":"output","Package":"p","Test":"TestD","Output":"panic: out of hay\n"}` + "\n"
		ok      = `{"Action":"output","Package":"p","Output":"PASS\n"}` + "\n" + `{"Action":"output","Package":"p","Output":"ok  \tp\t0.01s\n"}` + "\n" + `{"Action":"pass","Package":"p"}` + "\n"
		notOK   = `{"Action":"output","Package":"p","Output":"FAIL\tp\t0.01s\n"}` + "\n" + `{"Action":"fail","Package":"p"}` + "\n"
		empty   = `{"Action":"output","Package":"q","Output":"?   \tq\t[no test files]\n"}` + "\n" + `{"Action":"skip","Package":"q"}` + "\n"
		unbuilt = `{"ImportPath":"r","Action":"build-output","Output":"r/r.go:1: syntax error\n"}` + "\n" + `{"ImportPath":"r","Action":"build-fail"}` + "\n" + `{"Action":"output","Package":"r","Output":"FAIL\tr [build failed]\n"}` + "\n" + `{"Action":"fail","Package":"r","FailedBuild":"r"}` + "\n"
	)
	for _, c := range []struct{ name, events, prints, fails string }{
		{"passed", passed + ok + empty, "ok  \tp\t0.01s\n?   \tq\t[no test files]\n", ""},
		{"failed", passed + broke + notOK, "    c_test.go:3: got 1, want 2\nFAIL\tp\t0.01s\n", "tests: failed"},
		{"skipped", passed + skipped + ok, "ok  \tp\t0.01s\n", "tests: 1 skipped, where nothing may be missing:\n\tp b_test.go:3: no browser --- SKIP: TestB (0.00s)"},
		{"crashed", passed + crashed + notOK, "panic: out of hay\nFAIL\tp\t0.01s\n", "tests: failed"},
		{"did not build", unbuilt, "r/r.go:1: syntax error\nFAIL\tr [build failed]\n", "tests: failed"},
		{"no test", empty, "?   \tq\t[no test files]\n", "tests: no test ran"},
		{"nothing", "", "", "tests: no test ran"},
		{"a word in between", "go: downloading m v1\n" + passed + ok, "go: downloading m v1\nok  \tp\t0.01s\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			err := report(strings.NewReader(c.events), &out)
			if out.String() != c.prints {
				t.Errorf("prints %q, want %q", out.String(), c.prints)
			}
			if got := text(err); got != c.fails {
				t.Errorf("fails with %q, want %q", got, c.fails)
			}
		})
	}
}

func text(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
