package web_test

import (
	"html"
	"strings"
	"testing"

	"haywarden/office"
)

// The pages that stand by themselves: what was seen leads to causes, a wrong word is answered, and
// safety says every caution that the program knows.
func TestTheKeyAnswersAndSafetySaysAll(t *testing.T) {
	srv, _ := district(t)
	for path, wants := range map[string][]string{
		"/diagnose": {"What grows there?", "not looked at", "Fall seedings"},
		"/diagnose?crop=alfalfa&season=midsummer&part=leaf&color=yellow": {"Potato leafhopper", "fits 3 of 3", "Sweep it", "(published)"},
		"/diagnose?color=blue": {`color "blue": accepted yellow`},
		"/diagnose?crop=red+clover&part=crown&color=holes&pattern=edges": {"Nothing in the key fits"},
	} {
		got, body := fetch(t, srv.URL+path)
		text := strings.ReplaceAll(html.UnescapeString(tags.ReplaceAllString(body, " ")), "\u00a0", " ")
		for _, w := range wants {
			if got.status != 200 || !strings.Contains(text, w) {
				t.Errorf("%s: status %d, does not say %q", path, got.status, w)
			}
		}
	}
	_, body := fetch(t, srv.URL+"/safety")
	text := strings.ReplaceAll(html.UnescapeString(tags.ReplaceAllString(body, " ")), "\u00a0", " ")
	for _, s := range office.Safety() {
		for _, l := range s.Lines {
			if !strings.Contains(text, l) {
				t.Errorf("%s: %q is not on the page", s.Title, l)
			}
		}
	}
}
