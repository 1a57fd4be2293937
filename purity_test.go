package haywarden_test

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// pureRooms hold the science and the rules: functions of what they are given. Rooms below them in
// the tree count too, but for those in doors.
var pureRooms = []string{"agronomy", "solve", "chart", "weather", "book", "season", "outlook", "advice", "reckon", "tabular", "exchange", "husbandry"}

// doors are rooms inside a pure one that may do more.
var doors = map[string][]string{
	"book/store":     nil, // the database is its trade
	"weather/nws":    {"net/http", "net/url"},
	"weather/daymet": {"net/http", "net/url"},
}

// impureImports touch the world outside the program, or draw from hidden randomness. A name stands for
// all packages below it too.
var impureImports = []string{"os", "net", "database/sql", "log", "syscall", "crypto/rand", "math/rand", "io/ioutil", "flag", "expvar", "plugin"}

// impureNames are what an otherwise harmless package offers to read the clock, to wait, to print, or
// to use a client that nobody passed in.
var impureNames = map[string][]string{
	"time":     {"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker", "Local", "LoadLocation"},
	"fmt":      {"Print", "Printf", "Println", "Scan", "Scanf", "Scanln"},
	"net/http": {"Get", "Post", "PostForm", "Head", "DefaultClient", "DefaultTransport", "ListenAndServe"},
}

// seededNames are what math/rand/v2 offers without its hidden source.
var seededNames = []string{"New", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "Source", "PCG", "ChaCha8", "Zipf"}

// pure reports whether the folder lies in a pure room, and which imports its door opens.
func pure(dir string) (yes bool, open []string) {
	for p := dir; p != "."; p = path.Dir(p) {
		if opened, ok := doors[p]; ok {
			return opened != nil, opened
		}
		if slices.Contains(pureRooms, p) {
			return true, nil
		}
	}
	return false, nil
}

func impurities(h *house) (faults []fault) {
	for dir, files := range h.packages() {
		yes, open := pure(dir)
		if !yes {
			continue
		}
		files = slices.DeleteFunc(slices.Clone(files), func(f *file) bool { return f.test })
		info := resolve(h.fset, dir, files)
		for _, f := range files {
			for _, s := range f.tree.Imports {
				imported, err := strconv.Unquote(s.Path.Value)
				if err == nil && impureImport(imported) && !slices.Contains(open, imported) {
					faults = append(faults, fault{h.at(s.Pos()), dir + " is pure and may not import " + imported + ": pass in what it would fetch"})
				}
			}
			ast.Inspect(f.tree, func(n ast.Node) bool {
				if why := impureNode(info, n); why != "" {
					faults = append(faults, fault{h.at(n.Pos()), why})
				}
				return true
			})
		}
	}
	return faults
}

func impureImport(imported string) bool {
	return imported != "math/rand/v2" && slices.ContainsFunc(impureImports, func(p string) bool {
		return imported == p || strings.HasPrefix(imported, p+"/")
	})
}

// impureNode says what a node does to the world; the empty string is nothing.
func impureNode(info *types.Info, n ast.Node) string {
	switch n := n.(type) {
	case *ast.SelectorExpr:
		from := importedBy(info, n.X)
		if slices.Contains(impureNames[from], n.Sel.Name) {
			return fmt.Sprintf("%s.%s: pure code neither reads a clock, waits, prints nor picks its own client; pass it in", from, n.Sel.Name)
		}
		if from == "math/rand/v2" && !slices.Contains(seededNames, n.Sel.Name) {
			return "rand." + n.Sel.Name + " draws from a hidden source: use a *rand.Rand that was passed in"
		}
	case *ast.AssignStmt:
		if n.Tok != token.DEFINE {
			for _, to := range n.Lhs {
				if g := global(info, to); g != "" {
					return "sets " + g + ", which outlives the call: a pure package has no global that changes"
				}
			}
		}
	case *ast.IncDecStmt:
		if g := global(info, n.X); g != "" {
			return "changes " + g + ", which outlives the call: a pure package has no global that changes"
		}
	}
	return ""
}

// importedBy returns the import path that x names, as in time.Now; shadowed names are none.
func importedBy(info *types.Info, x ast.Expr) string {
	if id, ok := x.(*ast.Ident); ok {
		if p, ok := info.Uses[id].(*types.PkgName); ok {
			return p.Imported().Path()
		}
	}
	return ""
}

// global returns the name of the package-level variable that an assignment to x changes.
func global(info *types.Info, x ast.Expr) string {
	for {
		switch y := x.(type) {
		case *ast.ParenExpr:
			x = y.X
		case *ast.IndexExpr:
			x = y.X
		case *ast.StarExpr:
			x = y.X
		case *ast.SelectorExpr:
			if from := importedBy(info, y.X); from != "" {
				return from + "." + y.Sel.Name
			}
			x = y.X
		case *ast.Ident:
			if v, ok := info.Uses[y].(*types.Var); ok && v.Pkg() != nil && v.Parent() == v.Pkg().Scope() {
				return y.Name
			}
			return ""
		default:
			return ""
		}
	}
}

// strangers stands in for every imported package by an empty one of its name: names of the package
// under look are resolved with their scopes, those of others as far as the import.
type strangers struct{}

// Import implements [types.Importer].
func (strangers) Import(p string) (*types.Package, error) {
	name := path.Base(p)
	if len(name) > 1 && name[0] == 'v' && strings.Trim(name[1:], "0123456789") == "" {
		name = path.Base(path.Dir(p))
	}
	pkg := types.NewPackage(p, name)
	pkg.MarkComplete()
	return pkg, nil
}

// resolve ties the names used in a package to what they name. What other packages declare is unknown
// here, so the errors that the checker reports are not errors of the house.
func resolve(fset *token.FileSet, dir string, files []*file) *types.Info {
	info := &types.Info{Uses: map[*ast.Ident]types.Object{}}
	var trees []*ast.File
	for _, f := range files {
		trees = append(trees, f.tree)
	}
	conf := types.Config{Importer: strangers{}, Error: func(error) {}, FakeImportC: true}
	if _, err := conf.Check(dir, fset, trees, info); err != nil {
		return info // partial: enough, see above
	}
	return info
}

func TestTheScienceIsPure(t *testing.T) {
	rule{
		name:  "no clock, no files, no network, no hidden randomness, no changing global",
		check: impurities,
		broken: plant(
			"agronomy/heat/heat.go", `package heat

import (
	"fmt"
	"math/rand/v2"
	"os"
	clock "time"
)

var seen = map[string]int{}
var last struct{ at int }

func today(time struct{ Now func() int }) clock.Time { time.Now(); return clock.Now() }

func draw(r *rand.Rand) float64 { return r.Float64() + rand.Float64() + rand.New(rand.NewPCG(1, 2)).Float64() }

func keep(s string) {
	seen[s]++
	last.at = 3
	last := last
	last.at = 4
	fmt.Println(fmt.Sprint(last, os.Args))
}
`,
			"weather/nws/fetch.go", "package nws\n\nimport (\n\t\"net/http\"\n\t\"net\"\n)\n\nfunc f(c *http.Client) { c.Get(\"\"); http.Get(\"\") }\n",
			"book/store/open.go", "package store\n\nimport \"database/sql\"\n",
			"book/book_test.go", "package book\n\nimport \"os\"\n",
			"web/page.go", "package web\n\nimport \"os\"\n",
		),
		want: []string{
			"agronomy/heat/heat.go:13", "agronomy/heat/heat.go:15", "agronomy/heat/heat.go:18", "agronomy/heat/heat.go:19",
			"agronomy/heat/heat.go:22", "agronomy/heat/heat.go:6", "weather/nws/fetch.go:5", "weather/nws/fetch.go:8",
		},
	}.holds(t)
}
