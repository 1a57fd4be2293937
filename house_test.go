// Package haywarden_test holds the rules of the house that no single room can hold: the layers, the
// purity of the science, names, sizes, comments, skips, dependencies and the two commands of the
// README. Each rule is a function from a tree of files to faults, so that it is first shown to find
// a planted fault and then turned on the house itself.
package haywarden_test

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
)

// file is one file of the house that somebody wrote by hand or a generator left there.
type file struct {
	path      string // slash-separated, from the root
	text      []byte
	generated bool
	test      bool
	tree      *ast.File // nil unless Go
}

// house is every file that the rules look at.
type house struct {
	fset  *token.FileSet
	files []*file
}

// fault is a broken rule: where, and what to do.
type fault struct{ where, what string }

func (f fault) String() string { return f.where + ": " + f.what }

// whole reads the house once for all rules.
var whole = sync.OnceValues(func() (*house, error) { return readHouse(os.DirFS(".")) })

// written lists the endings of the files that people write; `Makefile` and the scripts in .ci count too.
var written = []string{".go", ".templ", ".js", ".mjs", ".css", ".html", ".sql", ".sh", ".md", ".yml", ".yaml", ".toml", ".txt"}

func readHouse(fsys fs.FS) (*house, error) {
	h := &house{fset: token.NewFileSet()}
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			switch base := d.Name(); {
			case p == "." || base == ".ci":
				return nil
			case strings.HasPrefix(base, "."), slices.Contains([]string{"node_modules", "testdata", "dist", "artefacts"}, base):
				return fs.SkipDir
			}
			return nil
		}
		if !slices.Contains(written, path.Ext(p)) && p != "Makefile" && path.Dir(p) != ".ci" {
			return nil
		}
		text, err := fs.ReadFile(fsys, p)
		if err != nil {
			return err
		}
		f := &file{path: p, text: text, test: strings.HasSuffix(p, "_test.go")}
		if path.Ext(p) == ".go" {
			f.tree, err = parser.ParseFile(h.fset, p, text, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			f.generated = ast.IsGenerated(f.tree)
		} else {
			f.generated = strings.Contains(path.Base(p), ".min.") || bytes.Contains(firstLine(text), []byte("Code generated"))
		}
		h.files = append(h.files, f)
		return nil
	})
	return h, err
}

func firstLine(text []byte) []byte {
	line, _, _ := bytes.Cut(text, []byte("\n"))
	return line
}

// at names a place in the way a compiler does, so that an editor can jump to it.
func (h *house) at(p token.Pos) string {
	q := h.fset.Position(p)
	return fmt.Sprintf("%s:%d", q.Filename, q.Line)
}

// packages groups the Go files by folder.
func (h *house) packages() map[string][]*file {
	all := map[string][]*file{}
	for _, f := range h.files {
		if f.tree != nil {
			all[path.Dir(f.path)] = append(all[path.Dir(f.path)], f)
		}
	}
	return all
}

// rule is one rule with a house that breaks it and the faults it must find there.
type rule struct {
	name   string
	check  func(*house) []fault
	broken fstest.MapFS
	want   []string // where each fault is
}

// holds shows that r finds what was planted, then that the house has no such fault.
func (r rule) holds(t *testing.T) {
	t.Run(r.name, func(t *testing.T) {
		planted, err := readHouse(r.broken)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range r.check(planted) {
			got = append(got, f.where)
		}
		slices.Sort(got)
		if !slices.Equal(got, r.want) {
			t.Errorf("in the house with planted faults: found %q, want %q", got, r.want)
		}
		h, err := whole()
		if err != nil {
			t.Fatal(err)
		}
		found := r.check(h)
		slices.SortFunc(found, func(a, b fault) int { return strings.Compare(a.where, b.where) })
		for _, f := range found {
			t.Error(f)
		}
	})
}

// plant makes a house of the given files, path then text.
func plant(pathsAndTexts ...string) fstest.MapFS {
	m := fstest.MapFS{}
	for i := 0; i < len(pathsAndTexts); i += 2 {
		m[pathsAndTexts[i]] = &fstest.MapFile{Data: []byte(pathsAndTexts[i+1])}
	}
	return m
}

// lineOf names a line of a file.
func lineOf(f *file, line int) string { return fmt.Sprintf("%s:%d", f.path, line) }
