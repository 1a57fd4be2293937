package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/cobra"
)

var update = flag.Bool("update", false, "write the golden files from what the program says")

// say runs one command line and returns what it wrote and its exit code.
func say(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &errs}
	code = m.Run(context.Background(), args)
	return out.String(), errs.String(), code
}

// TestConversations replays testdata/*.golden: each begins with the command line, then holds the
// exit code, what was said and what was complained about. -update writes them anew.
func TestConversations(t *testing.T) {
	files, err := filepath.Glob("testdata/*.golden")
	if err != nil || len(files) == 0 {
		t.Fatalf("no golden files: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".golden"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			line, _, _ := strings.Cut(string(text), "\n")
			args, ok := strings.CutPrefix(line, "$ haywarden")
			if !ok {
				t.Fatalf("%s begins %q, want a line `$ haywarden ...`", file, line)
			}
			stdout, stderr, code := say(t, strings.Fields(args)...)
			got := fmt.Sprintf("%s\nexit %d\n-- out\n%s-- err\n%s", line, code, stdout, stderr)
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o600); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(string(text), got); diff != "" {
				t.Errorf("(-golden +got):\n%s", diff)
			}
		})
	}
}

// TestExitCodesTellUsageFromFailure proves that a script can tell a slip of the asker (2) from
// something that could not be done (1), and that each is told in one line.
func TestExitCodesTellUsageFromFailure(t *testing.T) {
	for _, tc := range []struct {
		name string
		args string
		code int
	}{
		{"help", "", exitOK},
		{"help of a command", "reckon --help", exitOK},
		{"the version", "--version", exitOK},
		{"the list", "reckon", exitOK},
		{"a description", "reckon rfv", exitOK},
		{"an answer", "reckon rfv adf=30 ndf=40", exitOK},
		{"an answer outside the tested range", "reckon rfv adf=15 ndf=40", exitOK},
		{"all proofs", "prove", exitOK},
		{"an unknown command", "recon", exitUsage},
		{"an unknown command near none", "xyzzy", exitUsage},
		{"an unknown command of a command", "book shwo", exitUsage},
		{"an unknown flag", "reckon --fast", exitUsage},
		{"a bad flag value", "reckon --log loud", exitUsage},
		{"an unknown reckoning", "reckon rvf adf=30 ndf=40", exitUsage},
		{"an unknown key", "reckon rfv adf=30 nfd=40", exitUsage},
		{"a missing key", "reckon rfv adf=30", exitUsage},
		{"not a number", "reckon rfv adf=low ndf=40", exitUsage},
		{"outside the accepted range", "reckon rfv adf=30 ndf=90", exitUsage},
		{"a unit of another kind", "reckon stick height=71kg stage=bud", exitUsage},
		{"inputs that contradict each other", "reckon rfv adf=40 ndf=30", exitUsage},
		{"too many arguments", "prove rfv stick", exitUsage},
		{"a proof of an unknown reckoning", "prove rvf", exitUsage},
		{"a file that is not there", "reckon combine values=@none.csv sds=1,2", exitFailure},
	} {
		t.Run(tc.name, func(t *testing.T) {
			stdout, stderr, code := say(t, strings.Fields(tc.args)...)
			if code != tc.code {
				t.Errorf("exit %d, want %d; said %q", code, tc.code, stderr)
			}
			if code == exitOK {
				if stderr != "" || stdout == "" {
					t.Errorf("out %q, err %q; want an answer and no complaint", stdout, stderr)
				}
				return
			}
			if stdout != "" || strings.Count(stderr, "\n") != 1 || !strings.HasPrefix(stderr, "haywarden: ") {
				t.Errorf("out %q, err %q; want one line of complaint and no answer", stdout, stderr)
			}
		})
	}
}

func TestAFaultIsToldWithoutAStackTrace(t *testing.T) {
	var out, errs bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: panicky{}, Stderr: &errs}
	if code := m.Run(context.Background(), []string{"reckon"}); code != exitFailure {
		t.Errorf("exit %d, want %d", code, exitFailure)
	}
	if got := errs.String(); strings.Count(got, "\n") != 1 || !strings.Contains(got, "please report") {
		t.Errorf("said %q after %q, want one line", got, out.String())
	}
}

type panicky struct{}

func (panicky) Write([]byte) (int, error) { panic("paper jam") }

func TestTheLogGoesToStandardErrorAsAsked(t *testing.T) {
	if _, stderr, _ := say(t, "reckon", "rfv", "adf=30", "ndf=40", "--log", "debug"); !strings.Contains(stderr, "level=DEBUG msg=reckoned name=rfv") {
		t.Errorf("log %q, want a line of text", stderr)
	}
	if _, stderr, _ := say(t, "reckon", "rfv", "adf=30", "ndf=40", "--log", "debug", "--log-json"); !strings.Contains(stderr, `"msg":"reckoned","name":"rfv"`) {
		t.Errorf("log %q, want JSON", stderr)
	}
}

// TestEveryCommandShowsAnExample proves that help can be acted on: each command says in short what it
// does, each of the first rank at length too, with an example that begins with the command itself.
func TestEveryCommandShowsAnExample(t *testing.T) {
	var visit func(c *cobra.Command)
	visit = func(c *cobra.Command) {
		firstRank := !c.HasParent() || !c.Parent().HasParent()
		if c.Short == "" || firstRank && c.Long == "" || !strings.Contains(c.Example, c.CommandPath()) {
			t.Errorf("%s: short %q, long %q, example %q: something is missing", c.CommandPath(), c.Short, c.Long, c.Example)
		}
		for _, child := range c.Commands() {
			visit(child)
		}
	}
	root, _ := newRoot(&Main{})
	visit(root)
}

// TestExamplesOfTheHelpWork runs what the help texts offer to copy.
func TestExamplesOfTheHelpWork(t *testing.T) {
	for _, name := range []string{"reckon", "prove"} {
		c, _, err := func() (*cobra.Command, []string, error) {
			root, _ := newRoot(&Main{})
			return root.Find([]string{name})
		}()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.SplitSeq(c.Example, "\n") {
			args := strings.Fields(line)[1:]
			if _, stderr, code := say(t, args...); code != exitOK {
				t.Errorf("%s: exit %d, %s", strings.TrimSpace(line), code, stderr)
			}
		}
	}
}
