package web_test

import (
	"bytes"
	"context"
	"html"
	"mime/multipart"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/office"
	"haywarden/web"
)

// sendTable sends a table as a browser does, with the page's other fields.
func sendTable(tb testing.TB, server, file, content string, fields map[string]string) (answer, string) {
	tb.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for name, value := range fields {
		if err := m.WriteField(name, value); err != nil {
			tb.Fatal(err)
		}
	}
	if file != "" {
		part, err := m.CreateFormFile("file", file)
		if err != nil {
			tb.Fatal(err)
		}
		if _, err := part.Write([]byte(content)); err != nil {
			tb.Fatal(err)
		}
	}
	if err := m.Close(); err != nil {
		tb.Fatal(err)
	}
	req, err := http.NewRequestWithContext(context.Background(), http.MethodPost, server+"/bring", &b)
	if err != nil {
		tb.Fatal(err)
	}
	req.Header.Set("Content-Type", m.FormDataContentType())
	return send(tb, req)
}

var hiddenField = regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)"`)
var chosen = regexp.MustCompile(`(?s)<select id="[^"]*" name="([^"]*)"[^>]*>(.*?)</select>`)
var option = regexp.MustCompile(`<option value="([^"]*)"( selected)?`)

// fieldsOf reads what a page's forms would send as they stand.
func fieldsOf(page string) map[string]string {
	out := map[string]string{}
	for _, m := range hiddenField.FindAllStringSubmatch(page, -1) {
		out[html.UnescapeString(m[1])] = html.UnescapeString(m[2])
	}
	for _, m := range chosen.FindAllStringSubmatch(page, -1) {
		for i, o := range option.FindAllStringSubmatch(m[2], -1) {
			if o[2] != "" || i == 0 {
				out[m[1]] = html.UnescapeString(o[1])
			}
		}
	}
	return out
}

const strangers = "Lab No;Client;Description;Date sampled;Feed type;NDF %DM;ADF %DM;NEL;Remarks\n" +
	"11;Alder Run;Home Forty;2026-05-12;Legume hay;40;30;0,65;ok\n"

// A table whose headings say their own basis, dry matter here and as fed there, is taken as proposed; where
// a basis for all is chosen against them, the page says so and keeps the columns as they were chosen.
func TestATableThatMixesBasesByColumnIsTakenAsItsHeadingsSay(t *testing.T) {
	at, o := alder(t)
	const mixed = "Lab No,Client,Field ID,Date Sampled,Material,Dry Matter %,NDF (% as fed),ADF (% as fed),CP %DM,Mystery\n101,Alder Run,Home Forty,2026-05-16,hay,85,34,25.5,19,7\n"
	_, page := sendTable(t, at, "lab.csv", mixed, map[string]string{"kind": "labs"})
	f := fieldsOf(page)
	f["confirm"], f["lab"], f["code-8"] = "yes", "Valley", ""
	f["basis"] = "dm"
	r, again := sendTable(t, at, "", "", f)
	if r.status != http.StatusUnprocessableEntity || !strings.Contains(again, "and basis dm is asked for") || fieldsOf(again)["code-8"] != "" || fieldsOf(again)["code-6"] != "ndf" {
		t.Errorf("a basis against the headings: status %d, column CP read as %q", r.status, fieldsOf(again)["code-8"])
	}
	f = fieldsOf(page)
	f["confirm"], f["lab"] = "yes", "Valley"
	if r, body := sendTable(t, at, "", "", f); r.status != http.StatusOK || !strings.Contains(body, "1 row as fed turned into dry matter") {
		t.Fatalf("as proposed: status %d", r.status)
	}
	s, err := o.Samples(t.Context(), reader, "Home Forty", office.Ask{})
	if err != nil || len(s.Results) != 1 || s.Results[0].Body.NDF != 40 || s.Results[0].Body.CP != 19 {
		t.Errorf("%+v, %v", s.Results, err)
	}
}

// What is brought into the demo is received on its day, so that its pages show it.
func TestTheDemoShowsWhatIsBroughtIntoIt(t *testing.T) {
	o := newBook(t, unit.DateOf(2027, time.January, 9).Time())
	may := o.At(web.Morning(unit.DateOf(2026, time.May, 18)))
	if _, err := may.ImportStands(t.Context(), reader, strings.NewReader("farm,field,acres,crop,seeded\nAlder Run,Home Forty,40,alfalfa,2022-04-20\n"), "s.csv", false); err != nil {
		t.Fatal(err)
	}
	at := serve(t, o, web.Options{Demo: true, Start: unit.DateOf(2026, time.May, 19)}).URL
	if r, body := sendTable(t, at, "k.csv", "farm,field,date,package,moisture,core_f\nAlder Run,Home Forty,2026-05-12,round,19,151\n", map[string]string{"kind": "stacks"}); r.status != http.StatusOK {
		t.Fatalf("status %d: %s", r.status, body)
	}
	if _, round := fetch(t, at+"/round"); !strings.Contains(round, "Hot hay: 151") {
		t.Error("the round knows nothing of the stack")
	}
	if r, _ := sendTable(t, at, "k.csv", "farm,field,date,package,moisture,core_f\nAlder Run,Home Forty,2026-05-25,round,19,151\n", map[string]string{"kind": "stacks"}); r.status != http.StatusUnprocessableEntity {
		t.Errorf("a stack of next week: status %d", r.status)
	}
}

// Hot hay of a stand that was turned under is warned of on every page and paper that tells of its farm.
func TestHotHayOfAStandThatIsGoneIsOnEveryPage(t *testing.T) {
	o := newBook(t, unit.DateOf(2026, time.August, 19).Time())
	if _, err := o.ImportStands(t.Context(), reader, strings.NewReader("farm,field,acres,crop,seeded,turned_under\nAlder Run,Home Forty,40,alfalfa,2022-04-20,2026-08-01\n"), "s.csv", false); err != nil {
		t.Fatal(err)
	}
	at := serve(t, o, web.Options{}).URL
	if r, body := sendTable(t, at, "k.csv", "farm,field,date,package,moisture,core_f\nAlder Run,Home Forty,2026-07-20,round,19,162\n", map[string]string{"kind": "stacks"}); r.status != http.StatusOK {
		t.Fatalf("status %d: %s", r.status, body)
	}
	s, err := o.Stand(t.Context(), reader, "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	stand, farm := "/stands/"+s.Stand.ID, "/farms/"+s.Stand.Farm.ID
	for _, path := range []string{"/round", stand, stand + "/samples", farm} { // a hot stack is a call to make, no errand of the route
		r, body := fetch(t, at+path)
		sound(t, path, r, body)
		lacks, n := unguarded(html.UnescapeString(tags.ReplaceAllString(body, " ")), s.Pieces)
		if n == 0 || len(lacks) > 0 {
			t.Errorf("%s speaks of %d dangers and lacks %q", path, n, lacks)
		}
	}
	if r, _ := fetch(t, at+farm+"/report.pdf"); r.status != http.StatusOK {
		t.Errorf("the farm report: status %d", r.status)
	}
}

// alder is a book of one farm.
func alder(t *testing.T) (server string, o *office.Office) {
	t.Helper()
	o = newBook(t, unit.DateOf(2026, time.May, 19).Time())
	if _, err := o.ImportStands(t.Context(), reader, strings.NewReader("farm,field,acres,crop,seeded\nAlder Run,Home Forty,40,alfalfa,2022-04-20\n"), "s.csv", false); err != nil {
		t.Fatal(err)
	}
	return serve(t, o, web.Options{}).URL, o
}

func labsIn(t *testing.T, o *office.Office) int {
	t.Helper()
	s, err := o.Samples(t.Context(), reader, "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	return len(s.Results)
}

// A laboratory's own table is shown column by column, put right, confirmed once and remembered; wrong rows
// are said by row and column and left out only if the reader says so; what was brought is taken back.
func TestALaboratorysTableIsLookedAtConfirmedAndTakenBackOnThePage(t *testing.T) {
	at, o := alder(t)
	r, page := sendTable(t, at, "valley.csv", strangers, map[string]string{"kind": "labs"})
	sound(t, "proposal", answer{http.StatusOK, r.header}, page)
	if r.status != http.StatusUnprocessableEntity || !strings.Contains(page, "How valley.csv is to be read") || !strings.Contains(page, "NEL is left out: it says no unit") {
		t.Fatalf("status %d: the columns are not shown", r.status)
	}
	f := fieldsOf(page)
	if f["code-5"] != "ndf" || f["code-8"] != "" || labsIn(t, o) != 0 {
		t.Errorf("read as %v, %d results already taken", f, labsIn(t, o))
	}
	// A second column that says the same is refused with what was chosen kept.
	twice := fieldsOf(page)
	twice["code-8"], twice["confirm"], twice["lab"] = "ndf", "yes", "Valley"
	if r, body := sendTable(t, at, "", "", twice); r.status != http.StatusUnprocessableEntity || !strings.Contains(body, "are both said to be ndf") {
		t.Errorf("two columns of NDF: status %d", r.status)
	}
	f["confirm"] = "yes"
	if r, body := sendTable(t, at, "", "", f); r.status != http.StatusUnprocessableEntity || !strings.Contains(body, "Whose table it is was not said") && !strings.Contains(body, "whose table it is was not said") {
		t.Errorf("nobody's table: status %d", r.status)
	}
	f["lab"] = "Valley"
	r, page = sendTable(t, at, "", "", f)
	if r.status != http.StatusOK || !strings.Contains(page, "The form of Valley is confirmed") || labsIn(t, o) != 1 {
		t.Fatalf("status %d, %d results", r.status, labsIn(t, o))
	}
	undo := fieldsOf(page)["fact"]
	if r, body := post(t, at+"/undo", url.Values{"fact": {undo}, "back": {"/bring"}}); r.status != http.StatusOK || !strings.Contains(body, "Taken back") || labsIn(t, o) != 0 {
		t.Errorf("taken back: status %d, %d results", r.status, labsIn(t, o))
	}
	// The form stays remembered, so a bad row is now found by row and column.
	bad := strangers + "12;Alder Run;Home Forty;2026-05-13;Legume hay;30;40;0,6;\n"
	r, page = sendTable(t, at, "valley2.csv", bad, map[string]string{"kind": "labs"})
	if r.status != http.StatusUnprocessableEntity || !strings.Contains(html.UnescapeString(page), "ADF 40 is not under NDF 30") || labsIn(t, o) != 0 {
		t.Fatalf("status %d: the bad row is not said", r.status)
	}
	sound(t, "refusal", answer{http.StatusOK, r.header}, page)
	r, page = sendTable(t, at, "", "", fieldsOf(page))
	if r.status != http.StatusOK || !strings.Contains(html.UnescapeString(page), "Left out: row 3") || labsIn(t, o) != 1 {
		t.Errorf("the rest: status %d, %d results", r.status, labsIn(t, o))
	}
}

func TestTablesThatCannotBeTakenAreSaidAndNothingIsTaken(t *testing.T) {
	at, o := alder(t)
	for name, c := range map[string]struct {
		file, content string
		fields        map[string]string
		status        int
		want          string
	}{
		"no file":          {"", "", map[string]string{"kind": "visits"}, http.StatusUnprocessableEntity, "Choose the file"},
		"of nothing known": {"a.csv", "a,b\n1,2\n", map[string]string{"kind": "hats"}, http.StatusUnprocessableEntity, "Say what the table holds"},
		"an unknown farm":  {"v.csv", "farm,field,date,observer,height,stage\nNowhere,Home Forty,2026-05-12,Ida,30,bud\n", map[string]string{"kind": "visits"}, http.StatusUnprocessableEntity, "no farm is called"},
		"a missing column": {"v.csv", "farm,field\nAlder Run,Home Forty\n", map[string]string{"kind": "stacks"}, http.StatusUnprocessableEntity, "date"},
		"a broken page":    {"", "", map[string]string{"kind": "labs", "kept": "%%%"}, http.StatusUnprocessableEntity, "choose the file again"},
		"too large":        {"v.csv", strings.Repeat("x", 4<<20), map[string]string{"kind": "visits"}, http.StatusUnprocessableEntity, "is larger than 3 MB"},
	} {
		r, page := sendTable(t, at, c.file, c.content, c.fields)
		if r.status != c.status || !strings.Contains(html.UnescapeString(page), c.want) {
			t.Errorf("%s: status %d, want %d and %q", name, r.status, c.status, c.want)
		}
		sound(t, name, answer{http.StatusOK, r.header}, page)
	}
	v, err := o.View(t.Context(), reader, office.Ask{})
	if err != nil || len(v.Farms) != 1 {
		t.Errorf("%d farms, %v", len(v.Farms), err)
	}
	r, page := sendTable(t, at, "k.csv", "farm,field,date,package\nAlder Run,Home Forty,2026-05-12,round\n", map[string]string{"kind": "stacks"})
	if r.status != http.StatusOK || !strings.Contains(page, "1 new stack") {
		t.Errorf("a good table: status %d", r.status)
	}
}

// Hay put up and a core read on the page stand in the round at once, with their cautions; what is wrong
// stays typed beside what is accepted.
func TestAStackIsPutUpReadAndTakenBackOnThePage(t *testing.T) {
	at, o := alder(t)
	s, err := o.Samples(t.Context(), reader, "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	page := at + "/stands/" + s.Stand.ID + "/samples"
	for _, c := range []struct {
		form   url.Values
		status int
		want   string
	}{
		{url.Values{"form": {"stack"}, "day": {"2026-05-12"}, "package": {"round"}, "moisture": {"55"}}, http.StatusUnprocessableEntity, "accepted 5 to 40"},
		{url.Values{"form": {"stack"}, "day": {"2026-06-12"}, "package": {"round"}}, http.StatusUnprocessableEntity, "is still to come"},
		{url.Values{"form": {"stack"}, "day": {"2021-06-12"}, "package": {"round"}}, http.StatusUnprocessableEntity, "before the stand was seeded"},
		{url.Values{"form": {"core"}, "day": {"2026-05-14"}, "baled": {"2026-05-12"}, "core": {"151"}}, http.StatusUnprocessableEntity, "no stack was baled on that day"},
		{url.Values{"form": {"stack"}, "day": {"2026-05-12"}, "package": {"round"}, "moisture": {"22"}, "place": {"inside"}}, http.StatusOK, "Saved."},
		{url.Values{"form": {"core"}, "day": {"2026-05-11"}, "baled": {"2026-05-12"}, "core": {"151"}}, http.StatusUnprocessableEntity, "before it was baled"},
		{url.Values{"form": {"core"}, "day": {"2026-05-14"}, "baled": {"2026-05-12"}, "core": {""}}, http.StatusUnprocessableEntity, "is empty; a number wanted"},
		{url.Values{"form": {"core"}, "day": {"2026-05-14"}, "baled": {"2026-05-12"}, "core": {"151"}}, http.StatusOK, "Hot hay: 151"},
		{url.Values{"form": {"result"}, "day": {"2026-05-14"}, "sample": {"hay"}, "ndf": {"30"}, "adf": {"40"}}, http.StatusUnprocessableEntity, "ADF 40 is not under NDF 30"},
		{url.Values{"form": {"result"}, "day": {"2026-05-14"}, "sample": {"hay"}, "ndf": {"40"}, "adf": {"30"}, "cp": {"20"}}, http.StatusOK, "truly reaches RFV 150"},
	} {
		r, body := post(t, page, c.form)
		if r.status != c.status || !strings.Contains(html.UnescapeString(body), c.want) {
			t.Errorf("%v: status %d, want %d and %q", c.form, r.status, c.status, c.want)
		}
		sound(t, c.form.Encode(), answer{http.StatusOK, r.header}, body)
		warned := s.Storing
		if strings.Contains(body, `id="read-core"`) {
			warned = slices.Concat(warned, s.Reading)
		}
		if len(s.Storing) < 4 || len(s.Reading) < 4 {
			t.Errorf("%d and %d cautions", len(s.Storing), len(s.Reading))
		}
		for _, w := range warned {
			if !strings.Contains(strings.ReplaceAll(html.UnescapeString(body), "\u00a0", " "), w) {
				t.Errorf("%v: a form stands without: %s", c.form, w)
			}
		}
		if c.status != http.StatusOK && c.form.Get("core") != "" && !strings.Contains(body, `value="`+c.form.Get("core")+`"`) && strings.Contains(body, `id="core"`) {
			t.Errorf("%v: what was typed is lost", c.form)
		}
	}
	if _, round := fetch(t, at+"/round"); !strings.Contains(round, "Hot hay: 151") || !strings.Contains(round, "Call the fire service") {
		t.Error("the round does not know of the hot stack")
	}
	_, body := post(t, page, url.Values{"form": {"core"}, "day": {"2026-05-15"}, "baled": {"2026-05-12"}, "core": {"90"}})
	fact := fieldsOf(body)["fact"]
	if _, body = post(t, at+"/undo", url.Values{"fact": {fact}, "back": {"/stands/" + s.Stand.ID + "/samples"}}); !strings.Contains(body, "Hot hay: 151") {
		t.Error("the cool reading was not taken back")
	}
}
