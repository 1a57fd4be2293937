package haywarden_test

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the path of this module, the first part of the import path of each of its packages.
const module = "haywarden"

// room is a folder with everything below it that is not a room of its own, and what it may import
// beside the standard library and its own packages. A name ending in /... stands for all rooms there.
type room struct {
	path    string
	uses    []string // rooms
	modules []string // third-party modules
	tests   []string // rooms and modules that only its tests may import
}

// vocabulary is what every room may speak: quantities with units, and the list of sources.
var vocabulary = []string{"agronomy/unit", "agronomy/source"}

// disciplines are ordered from the ground up: each may import those before it.
var disciplines = []string{
	"count", "risk", "climate", "heat", "frost", "water", "forage", "stick", "regrowth", "curing", "losses", "storage",
	"hazard", "stand", "seeding", "soil", "blend", "allot", "pest", "diagnosis", "herd", "budget", "trial",
}

const (
	gonum    = "gonum.org/v1/gonum"
	fpdf     = "codeberg.org/go-pdf/fpdf"
	templ    = "github.com/a-h/templ"
	sqlite   = "modernc.org/sqlite"
	pgx      = "github.com/jackc/pgx/v5"
	goose    = "github.com/pressly/goose/v3"
	cobra    = "github.com/spf13/cobra"
	pflag    = "github.com/spf13/pflag"
	progress = "github.com/schollz/progressbar/v3"
	toml     = "github.com/BurntSushi/toml"
	xterm    = "golang.org/x/term"
	xtext    = "golang.org/x/text"
	excelize = "github.com/xuri/excelize/v2"
	xsync    = "golang.org/x/sync"
	gocmp    = "github.com/google/go-cmp"
	rapid    = "pgregory.net/rapid"
	chromedp = "github.com/chromedp/chromedp"
	cdproto  = "github.com/chromedp/cdproto"
)

// testModules may be imported by the tests of every room.
var testModules = []string{gocmp, rapid}

// rooms is the plan of the house, from the ground up.
func rooms() []room {
	plan := []room{
		{path: "."},
		{path: "tools"},
		{path: "agronomy/unit"},
		{path: "agronomy/source"},
		{path: "agronomy/method", uses: vocabulary},
		{path: "agronomy/caution"},
		{path: "solve"},
	}
	for i, d := range disciplines {
		r := room{path: "agronomy/" + d, uses: []string{"agronomy/unit", "agronomy/source", "agronomy/method", "agronomy/caution"}, modules: []string{gonum}}
		for _, lower := range disciplines[:i] {
			r.uses = append(r.uses, "agronomy/"+lower)
		}
		if d == "blend" || d == "allot" { // least cost is a linear programme
			r.uses = append(r.uses, "solve")
		}
		plan = append(plan, r)
	}
	plan = append(plan, []room{
		{path: "chart", modules: []string{fpdf}},
		{path: "tabular", modules: []string{xtext, excelize}},
		{path: "weather", uses: []string{"agronomy/..."}, modules: []string{gonum}},
		{path: "weather/ghcn", uses: []string{"weather", "agronomy/unit"}, tests: []string{"agronomy/heat"}},
		{path: "weather/declared", uses: []string{"weather", "tabular", "agronomy/unit"}},
		{path: "weather/plain", uses: []string{"weather", "weather/declared", "agronomy/unit"}},
		{path: "weather/gridded", uses: []string{"weather", "weather/declared", "weather/plain", "agronomy/unit"}},
		{path: "weather/hourly", uses: []string{"weather", "weather/declared", "agronomy/unit"}},
		{path: "weather/csvdaily", uses: []string{"weather", "tabular", "agronomy/unit"}},
		{path: "weather/places", uses: []string{"weather"}},
		{path: "weather/nws", uses: []string{"weather", "agronomy/unit"}},
		{path: "weather/intake", uses: []string{"weather", "weather/ghcn", "weather/csvdaily", "weather/declared", "weather/plain", "weather/gridded", "weather/hourly", "agronomy/unit"}},
		{path: "internal/tools", tests: []string{"agronomy/unit", "weather", "weather/ghcn"}},
		{path: "book", uses: vocabulary},
		{path: "book/store", uses: []string{"book", "weather", "agronomy/unit"}, modules: []string{sqlite, pgx, goose}, tests: []string{"book/store/storetest"}},
		{path: "book/store/storetest", uses: []string{"book", "book/store", "weather", "agronomy/unit"}, modules: []string{gocmp, rapid}},
		{path: "season", uses: []string{"agronomy/...", "weather", "solve"}, modules: []string{gonum}},
		{path: "outlook", uses: []string{"agronomy/...", "book", "weather", "season"}, modules: []string{gonum}},
		{path: "husbandry", uses: []string{"agronomy/...", "book", "outlook"}, tests: []string{"demo", "weather"}},
		{path: "advice", uses: []string{"agronomy/...", "outlook"}, tests: []string{"book", "weather", "demo"}},
		{path: "reckon", uses: []string{"agronomy/..."}},
		{path: "paper", uses: []string{"agronomy/unit", "agronomy/source", "agronomy/caution", "agronomy/storage", "book", "advice", "outlook", "chart"}, modules: []string{fpdf}, tests: []string{"demo", "weather", "agronomy/allot", "agronomy/losses"}},
		{path: "exchange", uses: []string{"agronomy/unit", "agronomy/forage", "book", "advice", "reckon", "tabular"}},
		{path: "work", uses: []string{"book/store"}, modules: []string{xsync}},
		{path: "demo", uses: []string{"agronomy/...", "book", "weather", "season"}, modules: []string{gonum}},
	}...)
	plan = append(plan, room{path: "office", uses: below(plan), modules: []string{xsync}})
	plan = append(plan, []room{
		{
			path: "web", uses: []string{"agronomy/unit", "agronomy/source", "agronomy/method", "office", "advice", "outlook", "husbandry", "reckon", "chart", "paper", "exchange", "book"},
			modules: []string{templ}, tests: []string{"demo", "book/store", "weather", "weather/intake", chromedp, cdproto},
		},
		{
			path: "phone", uses: []string{"agronomy/...", "weather", "book", "season", "outlook", "advice", "reckon", "chart"},
			modules: []string{templ}, tests: []string{"demo", chromedp, cdproto},
		},
	}...)
	plan = append(plan, room{path: "bench/peers", uses: []string{"agronomy/...", "weather", "weather/ghcn"}})
	return append(plan, room{
		path: "cmd/haywarden", uses: below(plan),
		modules: []string{cobra, pflag, progress, toml, xterm, xsync}, tests: []string{"book/store/storetest", chromedp, cdproto},
	})
}

// workshops hold what builds and tests the house: no room of the program leans on them.
var workshops = []string{".", "tools", "internal/tools", "bench/peers", "book/store/storetest"}

// below returns the rooms of the plan so far, for one that may lean on all of them.
func below(plan []room) (paths []string) {
	for _, r := range plan {
		if !slices.Contains(workshops, r.path) {
			paths = append(paths, r.path)
		}
	}
	return paths
}

// roomOf returns the room that the folder belongs to: the longest path that holds it. The root holds
// only its own files.
func roomOf(plan []room, dir string) (room, bool) {
	for p := dir; p != "."; p = path.Dir(p) {
		if i := slices.IndexFunc(plan, func(r room) bool { return r.path == p }); i >= 0 {
			return plan[i], true
		}
	}
	return plan[0], dir == "."
}

// allows reports whether the list names the room.
func allows(list []string, p string) bool {
	return slices.ContainsFunc(list, func(l string) bool {
		tree, all := strings.CutSuffix(l, "/...")
		return l == p || all && strings.HasPrefix(p, tree+"/")
	})
}

// fromModule reports whether the list names the module that the import path lies in.
func fromModule(list []string, imported string) bool {
	return slices.ContainsFunc(list, func(m string) bool { return imported == m || strings.HasPrefix(imported, m+"/") })
}

// standard reports whether the import path lies in the standard library: its first part has no dot.
func standard(imported string) bool {
	first, _, _ := strings.Cut(imported, "/")
	return first != module && !strings.Contains(first, ".")
}

func arrows(h *house) (faults []fault) {
	plan := rooms()
	for dir, files := range h.packages() {
		from, ok := roomOf(plan, dir)
		if !ok {
			faults = append(faults, fault{dir, "no room of the plan holds this folder: move it, or add the room to layers_test.go and docs/architecture.md"})
			continue
		}
		for _, f := range files {
			for _, s := range f.tree.Imports {
				imported, err := strconv.Unquote(s.Path.Value)
				if err != nil || standard(imported) {
					continue
				}
				if why := arrow(plan, from, imported, f.test); why != "" {
					faults = append(faults, fault{h.at(s.Pos()), why})
				}
			}
		}
	}
	return faults
}

// arrow says what is wrong with an import; the empty string is nothing.
func arrow(plan []room, from room, imported string, test bool) string {
	own, ok := strings.CutPrefix(imported, module+"/")
	if !ok {
		if fromModule(from.modules, imported) || test && (fromModule(testModules, imported) || fromModule(from.tests, imported)) {
			return ""
		}
		return fmt.Sprintf("%s may not import the module of %s: its list in layers_test.go is %q", from.path, imported, from.modules)
	}
	to, ok := roomOf(plan, own)
	switch {
	case !ok:
		return imported + " lies in no room of the plan"
	case to.path == from.path, allows(from.uses, to.path), test && allows(from.tests, to.path):
		return ""
	}
	return fmt.Sprintf("%s may not import %s: layers import downwards only, and its list in layers_test.go is %q", from.path, to.path, from.uses)
}

func TestLayersImportDownwardsOnly(t *testing.T) {
	imports := func(name string, paths ...string) string {
		return "package " + name + "\n\nimport (\n\t\"" + strings.Join(paths, "\"\n\t\"") + "\"\n)\n"
	}
	rule{
		name:  "each arrow is in the plan",
		check: arrows,
		broken: plant(
			"agronomy/heat/heat.go", imports("heat", "math", "haywarden/agronomy/unit", "haywarden/agronomy/frost", "gonum.org/v1/gonum/stat"),
			"advice/cut.go", imports("advice", "haywarden/outlook", "haywarden/web"),
			"web/pages/page.go", imports("pages", "haywarden/office", "haywarden/book/store", "github.com/a-h/templ"),
			"web/pages/page_test.go", imports("pages_test", "haywarden/book/store", "github.com/google/go-cmp/cmp"),
			"chart/svg.go", imports("chart", "github.com/google/go-cmp/cmp"),
			"book/fact.go", imports("book", "haywarden/book/store/sqlc"),
			"office/office.go", imports("office", "haywarden/book/store", "haywarden/book/store/storetest", "haywarden/cellar"),
			"cellar/cellar.go", imports("cellar", "math"),
		),
		want: []string{
			"advice/cut.go:5", "agronomy/heat/heat.go:6", "book/fact.go:4", "cellar", "chart/svg.go:4",
			"office/office.go:5", "office/office.go:6", "web/pages/page.go:5",
		},
	}.holds(t)
}

func TestThePlanOfTheHouseHasNoCircle(t *testing.T) {
	plan := rooms()
	place := map[string]int{}
	for i, r := range plan {
		if _, twice := place[r.path]; twice {
			t.Errorf("room %s stands in the plan twice", r.path)
		}
		place[r.path] = i
	}
	for i, r := range plan {
		for _, u := range r.uses {
			tree, all := strings.CutSuffix(u, "/...")
			if j, ok := place[u]; !all && (!ok || j >= i) {
				t.Errorf("room %s may import %s, which is not below it", r.path, u)
			}
			if all && tree != "agronomy" {
				t.Errorf("room %s may import %s: only agronomy is opened as a whole", r.path, u)
			}
		}
	}
}
