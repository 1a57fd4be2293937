// Package look holds the sample page and the rules of the style sheets.
package look

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
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
