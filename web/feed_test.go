package web_test

import (
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

func TestWhatIsFedAndLeftIsEnteredOnThePage(t *testing.T) {
	srv, o := district(t)
	page := srv.URL + "/farms/" + farmOf(t, o, "Ottermoss") + "/feed"
	_, body := fetch(t, page)
	lot := optionOf(body, "second crop bunker 2025")
	if lot == "" {
		t.Fatal("the bunker is not among the lots")
	}
	r, body := post(t, page, url.Values{"form": {"left"}, "lot": {lot}, "removed": {"88"}})
	if r.status != http.StatusOK || !strings.Contains(body, "Saved.") {
		t.Fatalf("%d: what is left was not saved", r.status)
	}
	if !strings.Contains(body, "4 of 172 tons") {
		t.Error("two feet of ninety are not 4 of 172 tons")
	}
	if r, body = post(t, page, url.Values{"form": {"fed"}, "lot": {lot}, "fed": {"0"}}); r.status != http.StatusOK || !strings.Contains(body, "Saved.") {
		t.Fatalf("%d: the bunker was not closed", r.status)
	}
	for name, c := range map[string]struct {
		form url.Values
		want string
	}{
		"no number":        {url.Values{"form": {"fed"}, "lot": {lot}, "fed": {"much"}}, "is not a number"},
		"too much":         {url.Values{"form": {"fed"}, "lot": {lot}, "fed": {"900000"}}, "accepted 0 to 200000"},
		"told two ways":    {url.Values{"form": {"left"}, "lot": {lot}, "tons": {"3"}, "removed": {"4"}}, "told in one way"},
		"negative tons":    {url.Values{"form": {"left"}, "lot": {lot}, "tons": {"-3"}}, "accepted 0 to 100000"},
		"a lot unheard of": {url.Values{"form": {"left"}, "lot": {"nowhere"}, "tons": {"3"}}, "no lot called"},
	} {
		r, body := post(t, page, c.form)
		if r.status != http.StatusUnprocessableEntity || !strings.Contains(html.UnescapeString(body), c.want) {
			t.Errorf("%s: %d, want %q", name, r.status, c.want)
		}
	}
	if r, pdf := fetch(t, page+".pdf"); r.status != http.StatusOK || !strings.HasPrefix(pdf, "%PDF") {
		t.Errorf("the report: %d", r.status)
	}
}

// optionOf is the value of the option that shows a text.
func optionOf(body, shows string) string {
	before, _, ok := strings.Cut(body, ">"+shows+"</option>")
	if !ok {
		return ""
	}
	_, value, _ := strings.Cut(before[strings.LastIndex(before, "<option"):], `value="`)
	value, _, _ = strings.Cut(value, `"`)
	return value
}
