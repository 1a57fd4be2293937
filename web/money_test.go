package web_test

import (
	"context"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/office"
	"haywarden/web"
)

// post sends a form as a browser does, and follows where it is led.
func post(tb testing.TB, address string, form url.Values, heads ...string) (answer, string) {
	tb.Helper()
	req, err := http.NewRequestWithContext(context.Background(), http.MethodPost, address, strings.NewReader(form.Encode()))
	if err != nil {
		tb.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	for i := 0; i < len(heads); i += 2 {
		req.Header.Set(heads[i], heads[i+1])
	}
	return send(tb, req)
}

func farmOf(t *testing.T, o *office.Office, name string) string {
	t.Helper()
	d := unit.DateOf(2026, time.May, 19)
	f, err := o.Farm(t.Context(), reader, name, office.Ask{Date: d, Known: web.Morning(d)})
	if err != nil {
		t.Fatal(err)
	}
	return f.Farm.ID
}

// moneyPages are the pages of prices, need and budgets.
func moneyPages(t *testing.T, o *office.Office) map[string]string {
	t.Helper()
	out := map[string]string{"prices": "/prices", "old prices": "/prices?date=2026-12-01", "no prices": "/prices?date=2026-01-10"}
	for _, name := range []string{"Ottermoss", "Candlewick", "Moonpenny", "Wimberry"} {
		id := farmOf(t, o, name)
		out["prices for "+name] = "/prices?farm=" + id
		out["herd of "+name] = "/farms/" + id + "/herd"
		out["feed of "+name] = "/farms/" + id + "/feed"
		out["feed of "+name+" in June"] = "/farms/" + id + "/feed?date=2026-06-20"
		out["budget of "+name] = "/farms/" + id + "/budget"
		out["fertilizer of "+name] = "/farms/" + id + "/fertilizer"
		out["fertilizer of "+name+" with too much nitrogen"] = "/farms/" + id + "/fertilizer?nitrogen=300"
	}
	return out
}

func TestPagesOfMoneyAreSound(t *testing.T) {
	srv, o := district(t)
	for name, path := range moneyPages(t, o) {
		r, body := fetch(t, srv.URL+path)
		sound(t, name, r, body)
		if name == "no prices" && (!strings.Contains(body, "worth is said in tons and points") || strings.Contains(body, "$/ton DM")) {
			t.Errorf("%s: without a price the page says otherwise", name)
		}
		if name == "old prices" && !strings.Contains(body, "such a price is taken for") {
			t.Errorf("%s: nothing is said to be old", name)
		}
	}
	d := unit.DateOf(2026, time.May, 19)
	s, err := o.Stand(t.Context(), reader, "Ottermoss · Long Meadow", office.Ask{Date: d, Known: web.Morning(d)})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []string{"", "?rain=60,50,10", "?rain=60&how=safest+only", "?rain=soon", "?rain=300", "?how=bold"} {
		r, body := fetch(t, srv.URL+"/stands/"+s.Stand.ID+"/weigh"+q)
		sound(t, "weigh "+q, r, body)
		if !strings.Contains(body, "the best day to cut is") && !strings.Contains(body, "no difference between cutting today") {
			t.Errorf("weigh %s gives no answer", q)
		}
	}
}

func TestAPriceTypedWrongStaysWithItsRangeAndARightOneIsSavedAndTakenBack(t *testing.T) {
	srv, o := district(t)
	form := url.Values{"form": {"price"}, "farm": {""}, "line": {"corn"}, "value": {"-4"}, "day": {"2026-05-19"}, "deck": {"Elevator & sons"}}
	r, body := post(t, srv.URL+"/prices", form)
	if r.status != http.StatusUnprocessableEntity || !strings.Contains(body, "-4: accepted 0.5 to 30 $/bu") || !strings.Contains(body, `value="-4"`) || !strings.Contains(body, "Elevator &amp; sons") || !strings.Contains(body, `aria-invalid="true"`) {
		t.Errorf("a negative price: status %d; the page keeps what was typed and says the range: %t", r.status, strings.Contains(body, "accepted 0.5"))
	}
	if why := illFormed(body); why != "" {
		t.Error(why)
	}
	form.Set("value", "4.85")
	r, body = post(t, srv.URL+"/prices", form)
	if r.status != http.StatusOK || !strings.Contains(body, "Saved.") || !strings.Contains(body, "Elevator &amp; sons") {
		t.Fatalf("a price: status %d", r.status)
	}
	fact := regexp.MustCompile(`name="fact" value="([0-9a-f-]{36})"`).FindStringSubmatch(body)
	if fact == nil {
		t.Fatal("the page offers no way to take it back")
	}
	r, body = post(t, srv.URL+"/undo", url.Values{"fact": {fact[1]}, "back": {"/prices"}})
	if r.status != http.StatusOK || !strings.Contains(body, "Taken back") || strings.Contains(body, "Elevator") {
		t.Errorf("taken back: status %d", r.status)
	}
	r, body = post(t, srv.URL+"/undo", url.Values{"fact": {fact[1]}, "back": {"//elsewhere.example"}})
	if r.status != http.StatusUnprocessableEntity || !strings.Contains(body, "changed again") {
		t.Errorf("taken back twice: status %d", r.status)
	}
	d := unit.DateOf(2026, time.May, 19)
	v, err := o.View(t.Context(), reader, office.Ask{Date: d, Known: web.Morning(d)})
	if err != nil {
		t.Fatal(err)
	}
	if p, ok := v.Price(nil, "corn"); !ok || p.Value != 4.35 {
		t.Errorf("corn is %+v", p)
	}
}

func TestAFormFromElsewhereIsRefused(t *testing.T) {
	srv, _ := district(t)
	form := url.Values{"form": {"price"}, "line": {"corn"}, "value": {"5"}}
	for _, heads := range [][]string{{"Sec-Fetch-Site", "cross-site"}, {"Origin", "http://elsewhere.example"}} {
		if r, _ := post(t, srv.URL+"/prices", form, heads...); r.status != http.StatusForbidden {
			t.Errorf("%q: status %d, want it forbidden", heads, r.status)
		}
	}
}

func TestAGroupIsAddedChangedAndRefusedFieldByField(t *testing.T) {
	srv, o := district(t)
	page := srv.URL + "/farms/" + farmOf(t, o, "Wimberry") + "/herd"
	form := url.Values{"form": {"group"}, "was": {""}, "name": {"sheep & goats"}, "kind": {"lactating"}, "head": {"10.5"}, "weight": {"15"}, "forage": {"80"}, "milk": {"lots"}}
	r, body := post(t, page, form)
	text := html.UnescapeString(body)
	for _, want := range []string{"a whole number wanted", "weight 15: accepted 80 to 2600 lb", `"lots" is not a number`, "fat is missing: a lactating group wants it", `value="lots"`} {
		if r.status != http.StatusUnprocessableEntity || !strings.Contains(text, want) {
			t.Errorf("status %d, want %q said", r.status, want)
		}
	}
	for name, v := range map[string]string{"kind": "heifer", "head": "10", "weight": "900", "milk": "", "legume": "50"} {
		form.Set(name, v)
	}
	r, body = post(t, page, form)
	sound(t, "herd", r, body)
	if !strings.Contains(body, "Saved.") || !strings.Contains(body, "10 animals eat") {
		t.Errorf("a group was not added")
	}
	if r, body = post(t, page, form); r.status != http.StatusUnprocessableEntity || !strings.Contains(body, "the herd has one of that name") {
		t.Errorf("the same name again: status %d", r.status)
	}
	for name, f := range map[string]url.Values{
		"forage":   {"form": {"crop"}, "what": {"legume"}, "yield": {"4.5"}, "field": {"12"}, "storage": {"10"}, "feeding": {"5"}, "reserve": {"10"}, "edition": {"2001"}},
		"machine":  {"form": {"machine"}, "machine": {"mower"}, "kind": {"rake"}, "width": {"20"}},
		"crew":     {"form": {"crew"}, "crew": {"9"}, "what": {"corn"}, "from": {"2026-05-20"}, "to": {"2026-05-25"}},
		"quality":  {"form": {"quality"}, "base": {"minnesota"}, "target": {"heifers"}, "low": {"120"}, "high": {"140"}},
		"drop":     {"form": {"drop"}, "was": {"sheep & goats"}},
		"no width": {"form": {"machine"}, "machine": {"baler"}, "kind": {"round-baler"}},
		"no form":  {"form": {"x"}},
	} {
		want := map[string]int{"no width": http.StatusUnprocessableEntity, "no form": http.StatusNotFound}[name]
		if want == 0 {
			want = http.StatusOK
		}
		if r, body := post(t, page, f); r.status != want || want == http.StatusOK && !strings.Contains(body, "Saved.") {
			t.Errorf("%s: status %d, want %d", name, r.status, want)
		}
	}
}

func TestEachGroupOfPricesIsNamedOnce(t *testing.T) {
	srv, _ := district(t)
	_, body := fetch(t, srv.URL+"/prices")
	if n := strings.Count(body, ">Hay by RFV</h2>"); n != 1 {
		t.Errorf("the hay line has %d headings", n)
	}
}
