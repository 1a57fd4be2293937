// Ranall reads the events of `go test -json` from its standard input, prints what `go test` would
// have printed, and fails when a test failed, when none ran, or when one was skipped: where everything
// that tests may want is installed, a skipped test is one that nobody knows the answer of.
package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// event is one line of `go test -json`; see `go doc test2json`.
type event struct {
	Action  string
	Package string
	Test    string
	Output  string
}

// run is what is known of one test, or of a package where Test is empty, until it ends.
type run struct{ pkg, test string }

func main() {
	if err := report(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// report prints the outcome of the tests in events and returns what was wrong with it.
func report(events io.Reader, to io.Writer) error {
	out := bufio.NewWriter(to)
	said := map[run][]string{}
	var skipped []string
	ran, failed := false, false
	lines := bufio.NewReader(events)
	for {
		line, err := lines.ReadString('\n')
		if errors.Is(err, io.EOF) && line == "" {
			break
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return fmt.Errorf("read test events: %w", err)
		}
		var e event
		if json.Unmarshal([]byte(line), &e) != nil {
			fmt.Fprint(out, line) // not an event: what a tool said in between
			continue
		}
		r := run{e.Package, e.Test}
		switch e.Action {
		case "build-output":
			fmt.Fprint(out, e.Output)
		case "output":
			said[r] = append(said[r], e.Output)
		case "pass", "fail", "skip":
			switch {
			case e.Test == "":
				endPackage(out, said, e)
			case e.Action == "pass":
				ran = true
			case e.Action == "skip":
				skipped = append(skipped, e.Package+" "+reason(said[r]))
			default:
				fmt.Fprint(out, strings.Join(said[r], ""))
			}
			failed = failed || e.Action == "fail"
			delete(said, r)
		}
		if err := out.Flush(); err != nil {
			return fmt.Errorf("print test results: %w", err)
		}
	}
	var wrong []string
	if failed {
		wrong = append(wrong, "failed")
	}
	if len(skipped) > 0 {
		wrong = append(wrong, fmt.Sprintf("%d skipped, where nothing may be missing:\n\t%s", len(skipped), strings.Join(skipped, "\n\t")))
	}
	if !ran && !failed {
		wrong = append(wrong, "no test ran")
	}
	if wrong != nil {
		return errors.New("tests: " + strings.Join(wrong, "; "))
	}
	return nil
}

// endPackage prints the closing lines of a package. Where it failed it also prints what tests had said
// that never came to an end, which is where a crash shows.
func endPackage(out io.Writer, said map[run][]string, e event) {
	own := said[run{e.Package, ""}]
	if e.Action == "fail" {
		var unfinished []run
		for r := range said {
			if r.pkg == e.Package && r.test != "" {
				unfinished = append(unfinished, r)
			}
		}
		slices.SortFunc(unfinished, func(a, b run) int { return strings.Compare(a.test, b.test) })
		for _, r := range unfinished {
			fmt.Fprint(out, strings.Join(said[r], ""))
			delete(said, r)
		}
	}
	for _, line := range own {
		if line != "PASS\n" {
			fmt.Fprint(out, line)
		}
	}
}

// reason finds in the output of a skipped test what it gave as its reason.
func reason(said []string) string {
	var kept []string
	for _, line := range said {
		if s := strings.TrimSpace(line); s != "" && !strings.HasPrefix(s, "=== ") {
			kept = append(kept, s)
		}
	}
	return strings.Join(kept, " ")
}
