package haywarden_test

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// twoCommands are all that a newcomer needs: the main job on invented farms, and every test.
var twoCommands = []string{"go run ./cmd/haywarden demo", "go test ./..."}

// linesOf returns the lines of a text without indentation, prompt or trailing comment.
func linesOf(text string) (lines []string) {
	for line := range strings.Lines(text) {
		line, _, _ = strings.Cut(line, " #")
		lines = append(lines, strings.TrimPrefix(strings.TrimSpace(line), "$ "))
	}
	return lines
}

// missing returns the commands that no line of the text is; where whole is false, a line may have
// something before the command, as a step of a script has its name.
func missing(text string, whole bool) (absent []string) {
	for _, c := range twoCommands {
		if !slices.ContainsFunc(linesOf(text), func(l string) bool { return l == c || !whole && strings.HasSuffix(l, " "+c) && l[0] != '#' }) {
			absent = append(absent, c)
		}
	}
	return absent
}

func TestTheTwoCommandsAreTheOnesThatAreTried(t *testing.T) {
	if got := missing("    $ go run ./cmd/haywarden demo   # farms\n# step x go test ./...\ngo test ./... -short\n", true); !slices.Equal(got, twoCommands[1:]) {
		t.Fatalf("in a planted text: missing %q", got)
	}
	if got := missing("step 'demo' go run ./cmd/haywarden demo\n# step 'test' go test ./...\n", false); !slices.Equal(got, twoCommands[1:]) {
		t.Fatalf("in a planted script: missing %q", got)
	}
	for _, doc := range []struct {
		path  string
		whole bool
	}{{"README.md", true}, {"CONTRIBUTING.md", true}, {".ci/run", false}} {
		text, err := os.ReadFile(doc.path)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, c := range missing(string(text), doc.whole) {
			t.Errorf("%s has no line `%s`: the two commands of README.md, CONTRIBUTING.md and .ci/run are the same", doc.path, c)
		}
	}
}
