package web_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// void are the elements that have no end.
var void = []string{"meta", "link", "input", "br", "hr", "img"}

// illFormed says what is wrong with a page's markup: elements that are not closed in order, angle
// brackets that were not escaped, ids given twice, references to ids that are not there.
func illFormed(page string) string {
	page = strings.TrimPrefix(page, "<!doctype html>")
	var open, wanted []string
	ids := map[string]bool{}
	for {
		i := strings.IndexAny(page, "<>")
		if i < 0 {
			break
		}
		if page[i] == '>' || i+1 == len(page) || page[i+1] != '/' && (page[i+1] < 'a' || page[i+1] > 'z') {
			return "an angle bracket stands in the text: " + page[max(0, i-30):min(len(page), i+30)]
		}
		end := tagEnd(page[i:])
		if end < 0 {
			return "a tag has no end: " + page[i:min(len(page), i+30)]
		}
		inside := page[i+1 : i+end]
		page = page[i+end+1:]
		name, rest, _ := strings.Cut(strings.TrimSuffix(strings.TrimPrefix(inside, "/"), "/"), " ")
		switch {
		case slices.Contains(void, name) || strings.HasSuffix(inside, "/"):
		case inside[0] != '/':
			open = append(open, name)
		case len(open) == 0 || open[len(open)-1] != name:
			return fmt.Sprintf("</%s> closes %v", name, open)
		default:
			open = open[:len(open)-1]
		}
		if id := attribute(rest, "id"); id != "" {
			if ids[id] {
				return fmt.Sprintf("id %q is given twice", id)
			}
			ids[id] = true
		}
		wanted = append(wanted, attribute(rest, "aria-labelledby"), attribute(rest, "for"))
		if h := attribute(rest, "href"); strings.HasPrefix(h, "#") {
			wanted = append(wanted, h[1:])
		}
	}
	if len(open) > 0 {
		return fmt.Sprintf("%v are left open", open)
	}
	for _, id := range wanted {
		if id != "" && !ids[id] {
			return fmt.Sprintf("nothing has the id %q", id)
		}
	}
	return ""
}

// tagEnd is where a tag ends: at a bracket outside quotes.
func tagEnd(s string) int {
	quoted := false
	for i := range len(s) {
		switch {
		case s[i] == '"':
			quoted = !quoted
		case s[i] == '>' && !quoted:
			return i
		}
	}
	return -1
}

func attribute(tag, name string) string {
	_, after, ok := strings.Cut(" "+tag, " "+name+`="`)
	if !ok {
		return ""
	}
	value, _, _ := strings.Cut(after, `"`)
	return value
}

func TestIllFormedPagesAreFound(t *testing.T) {
	for page, want := range map[string]string{
		`<!doctype html><p>a<br>b</p>`:         "",
		`<a href="/b" title="a > b">three</a>`: "",
		`<p id="a"></p><a href="#a"></a>`:      "",
		`<svg><rect x="1"/></svg>`:             "",
		`<p><b>a</p></b>`:                      "closes",
		`</p>`:                                 "closes",
		`<p>a`:                                 "left open",
		`<p>3 > 2</p>`:                         "angle bracket",
		`<p>3 < 2</p>`:                         "angle bracket",
		`<p id="a`:                             "no end",
		`<p id="a"></p><p id="a"></p>`:         "twice",
		`<a href="#b"></a>`:                    "nothing has the id",
		`<p aria-labelledby="c"></p>`:          "nothing has the id",
	} {
		if got := illFormed(page); (want == "") != (got == "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", page, got, want)
		}
	}
}
