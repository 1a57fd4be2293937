// Package look holds the sample page and the rules of the style sheets.
package look

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"haywarden/chart"
)

var update = flag.Bool("update", false, "put the drawings of chart/testdata into the sample page anew")

var slot = regexp.MustCompile(`(?s)<!-- drawing ([a-z0-9-]+) -->.*?<!-- end -->`)

func TestSamplePageShowsTheDrawingsAsTheyAre(t *testing.T) {
	page, err := os.ReadFile("sample.html")
	if err != nil {
		t.Fatal(err)
	}
	want := slot.ReplaceAllStringFunc(string(page), func(s string) string {
		name := slot.FindStringSubmatch(s)[1]
		svg, err := os.ReadFile(filepath.Join("../../chart/testdata", name+".svg"))
		if err != nil {
			t.Fatal(err)
		}
		flat := strings.ReplaceAll(strings.TrimSpace(string(svg)), ">\n<", "><")
		return "<!-- drawing " + name + " -->" + flat + "<!-- end -->"
	})
	if *update {
		if err := os.WriteFile("sample.html", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if want != string(page) {
		t.Error("sample.html shows old drawings: run go test ./web/look -update")
	}
}

// sheets are the style sheets in the order in which pages load them.
var sheets = []string{"tokens", "base", "layout", "parts", "forms", "chart", "print"}

func readSheets(t *testing.T) (all string) {
	t.Helper()
	for _, s := range sheets {
		b, err := os.ReadFile("../static/css/" + s + ".css")
		if err != nil {
			t.Fatal(err)
		}
		all += string(b)
	}
	return all
}

func TestStyleSheetsStayLight(t *testing.T) {
	files, err := filepath.Glob("../static/css/*.css")
	if err != nil || len(files) != len(sheets) {
		t.Fatalf("style sheets %v (%v), want %v", files, err, sheets)
	}
	// Under 8 KB as they travel, packed; pages of weather, money and the route were added in the last two.
	if n := len(readSheets(t)); n > 24*1024 {
		t.Errorf("the style sheets weigh %d bytes, more than 24 KB", n)
	}
	fonts, err := filepath.Glob("../static/fonts/*.woff2")
	if err != nil {
		t.Fatal(err)
	}
	sum := int64(0)
	for _, f := range fonts {
		info, err := os.Stat(f)
		if err != nil {
			t.Fatal(err)
		}
		sum += info.Size()
	}
	if len(fonts) == 0 || sum > 60*1024 {
		t.Errorf("%d fonts weigh %d bytes, more than 60 KB", len(fonts), sum)
	}
}

var (
	classAttr = regexp.MustCompile(`class="([^"]*)"`)
	classRule = regexp.MustCompile(`\.([a-z][a-z0-9-]*)`)
	tokenUse  = regexp.MustCompile(`var\(--([a-z0-9-]+)`)
	tokenSet  = regexp.MustCompile(`--([a-z0-9-]+):`)
	comments  = regexp.MustCompile(`(?s)/\*.*?\*/`)
	styled    = regexp.MustCompile(`<[^>]*\sstyle\s*=`)
)

// classes lists what each pattern finds, once.
func classes(in string, pattern *regexp.Regexp) map[string]bool {
	out := map[string]bool{}
	for _, m := range pattern.FindAllStringSubmatch(in, -1) {
		for c := range strings.FieldsSeq(m[1]) {
			out[c] = true
		}
	}
	return out
}

func TestSamplePageAndStyleSheetsKnowTheSameClasses(t *testing.T) {
	page, err := os.ReadFile("sample.html")
	if err != nil {
		t.Fatal(err)
	}
	css := comments.ReplaceAllString(readSheets(t), "")
	css = regexp.MustCompile(`url\([^)]*\)`).ReplaceAllString(css, "")
	used, known := classes(string(page), classAttr), classes(css, classRule)
	for c := range used {
		// Two lists have a name and need no rule of their own: their items carry the rules.
		if !known[c] && c != "round" && c != "strips" {
			t.Errorf("the sample page uses .%s, which no style sheet knows", c)
		}
	}
	for c := range known {
		if !used[c] && !strings.HasPrefix(c, "c-") && c != "no-print" {
			t.Errorf("the style sheets know .%s, which the sample page does not show", c)
		}
	}
	if s := styled.Find(page); s != nil {
		t.Errorf("%s: inline styles are forbidden by the content policy", s)
	}
}

func TestEveryTokenInUseIsSetAndEverySetOneIsUsed(t *testing.T) {
	css := readSheets(t)
	used, set := classes(css, tokenUse), classes(css, tokenSet)
	for c := range used {
		if !set[c] {
			t.Errorf("--%s is used and never set", c)
		}
	}
	for c := range set {
		if !used[c] {
			t.Errorf("--%s is set and never used", c)
		}
	}
}

func TestEveryRoleOfTheDrawingsHasAColour(t *testing.T) {
	known := classes(readSheets(t), classRule)
	for _, r := range chart.Roles {
		if !known["c-"+string(r)] {
			t.Errorf("chart.css gives no colour to .c-%s", r)
		}
	}
}
