package haywarden_test

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// dependency is a line of .ci/dependencies.txt: a module we chose, its licence and what it is for.
type dependency struct{ module, licence, why string }

const chosenList = ".ci/dependencies.txt"

func readChosen(text string) (chosen []dependency, err error) {
	n := 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		part := strings.Fields(line)
		if len(part) < 3 {
			return nil, fmt.Errorf("%s: line %d: %q: want module, licence and what it is for", chosenList, n, line)
		}
		chosen = append(chosen, dependency{part[0], part[1], strings.Join(part[2:], " ")})
	}
	return chosen, nil
}

// required lists the modules of a go.mod file, and which of them it calls direct.
func required(gomod string) map[string]bool {
	direct, inside := map[string]bool{}, false
	for line := range strings.Lines(gomod) {
		part := strings.Fields(line)
		switch {
		case len(part) > 1 && part[0] == "require" && part[1] == "(":
			inside = true
			continue
		case len(part) > 0 && part[0] == ")":
			inside = false
		case len(part) > 2 && part[0] == "require":
			part = part[1:]
		case !inside:
			continue
		}
		if len(part) > 1 {
			direct[part[0]] = !strings.HasSuffix(strings.TrimSpace(line), "// indirect")
		}
	}
	return direct
}

// unchosen compares the list with what go.mod requires and what the code imports.
func unchosen(chosen []dependency, needs map[string]bool, h *house) (faults []fault) {
	var list []string
	for _, d := range chosen {
		list = append(list, d.module)
		if !allowed(d.licence) {
			faults = append(faults, fault{d.module, "licence " + d.licence + " is not one we link with"})
		}
		if _, ok := needs[d.module]; !ok {
			faults = append(faults, fault{d.module, "is in " + chosenList + " and no longer required: take the line out"})
		}
	}
	for m, direct := range needs {
		if direct && !slices.Contains(list, m) {
			faults = append(faults, fault{m, "is required directly and not in " + chosenList + ": say there what it is for, or do without it"})
		}
	}
	for _, f := range h.files {
		if f.tree == nil || strings.HasPrefix(f.path, "tools/") {
			continue
		}
		for _, s := range f.tree.Imports {
			p, err := strconv.Unquote(s.Path.Value)
			if err == nil && !standard(p) && !strings.HasPrefix(p, module+"/") && !fromModule(list, p) {
				faults = append(faults, fault{h.at(s.Pos()), p + " belongs to no module in " + chosenList})
			}
		}
	}
	return faults
}

func allowed(licence string) bool {
	return slices.Contains([]string{"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT", "MPL-2.0"}, licence)
}

func TestEveryDependencyWasChosen(t *testing.T) {
	planted, err := readHouse(plant("a/a.go", "package a\n\nimport (\n\t\"math\"\n\t\"haywarden/b\"\n\t\"example.org/kept/sub\"\n\t\"example.org/other\"\n)\n"))
	if err != nil {
		t.Fatal(err)
	}
	needs := required("module m\n\nrequire example.org/new v1.0.0\n\nrequire (\n\texample.org/kept v1.0.0\n\texample.org/far v1.0.0 // indirect\n)\n")
	list, err := readChosen("# module licence why\nexample.org/kept MIT for a reason\nexample.org/gone GPL-3.0 for another\n")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range unchosen(list, needs, planted) {
		got = append(got, f.where)
	}
	slices.Sort(got)
	if want := []string{"a/a.go:7", "example.org/gone", "example.org/gone", "example.org/new"}; !slices.Equal(got, want) {
		t.Fatalf("with planted faults: found %q, want %q", got, want)
	}
	if _, err := readChosen("example.org/kept MIT\n"); err == nil {
		t.Fatal("a line without a reason was accepted")
	}

	text, err := os.ReadFile(chosenList)
	if err != nil {
		t.Fatal(err)
	}
	if list, err = readChosen(string(text)); err != nil {
		t.Fatal(err)
	}
	gomod, err := os.ReadFile("go.mod")
	if err != nil {
		t.Fatal(err)
	}
	h, err := whole()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range unchosen(list, required(string(gomod)), h) {
		t.Error(f)
	}
}
