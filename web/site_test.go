package web_test

import (
	"context"
	"html"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
	"haywarden/web"
)

// answer is what came back besides the body.
type answer struct {
	status int
	header http.Header
}

func fetch(tb testing.TB, address string) (answer, string) {
	tb.Helper()
	req, err := http.NewRequestWithContext(context.Background(), http.MethodGet, address, nil)
	if err != nil {
		tb.Fatal(err)
	}
	return send(tb, req)
}

// send sends a request and reads the answer whole.
func send(tb testing.TB, req *http.Request) (answer, string) {
	tb.Helper()
	r, err := http.DefaultClient.Do(req)
	if err != nil {
		tb.Fatal(err)
	}
	body, err := io.ReadAll(r.Body)
	if shut := r.Body.Close(); err != nil || shut != nil {
		tb.Fatal(err, shut)
	}
	return answer{r.StatusCode, r.Header}, string(body)
}

var standLink = regexp.MustCompile(`/stands/[0-9a-f-]{36}`)

// junk is what no page may hold: numbers and days that were not to be had, values printed raw.
var junk = []string{"%!", "NaN", "+Inf", "-Inf", "&lt;nil", "{{", "0001-01-01", "1970-01-01"}

// sound reports what is wrong with a page whatever it shows.
func sound(t *testing.T, where string, r answer, body string) {
	t.Helper()
	if r.status != http.StatusOK {
		t.Errorf("%s: status %d", where, r.status)
	}
	for _, j := range junk {
		if i := strings.Index(body, j); i >= 0 {
			t.Errorf("%s holds %q: ...%s...", where, j, body[max(0, i-60):min(len(body), i+60)])
		}
	}
	if policy := r.header.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") {
		t.Errorf("%s: content policy %q", where, policy)
	}
	if strings.Contains(body, " style=") || strings.Contains(body, "<script") {
		t.Errorf("%s: a style or script is written into the page", where)
	}
	if why := illFormed(body); why != "" {
		t.Errorf("%s: %s", where, why)
	}
}

// lines is the part of the round that holds its lines.
func lines(t *testing.T, page string) string {
	t.Helper()
	from, to := strings.Index(page, `id="lines"`), strings.Index(page, `id="season"`)
	if from < 0 || to < from {
		t.Fatal("the round has no lines")
	}
	return page[from:to]
}

func TestEveryPageOfTheYearIsSound(t *testing.T) {
	srv, o := district(t)
	for d := unit.DateOf(2026, time.January, 6); d.Year() == 2026; d += 7 {
		r, body := fetch(t, srv.URL+"/round?date="+d.String())
		sound(t, "round of "+d.String(), r, body)
		view, err := o.View(t.Context(), reader, office.Ask{Date: d, Known: web.Morning(d)})
		if err != nil {
			t.Fatal(err)
		}
		said := map[string]int{}
		for _, l := range standLink.FindAllString(lines(t, body), -1) {
			said[l]++
		}
		for _, s := range view.Stands() {
			if said["/stands/"+s.ID] == 0 {
				t.Errorf("round of %s: %s has no line", d, s.Named())
			}
			r, body := fetch(t, srv.URL+"/stands/"+s.ID+"?date="+d.String())
			sound(t, s.Named()+" on "+d.String(), r, body)
		}
		for _, f := range view.Farms {
			r, body := fetch(t, srv.URL+"/farms/"+f.ID+"?date="+d.String())
			sound(t, f.Name+" on "+d.String(), r, body)
			if other := othersNamed(view, f, html.UnescapeString(body)); other != "" {
				t.Errorf("the page of %s on %s names %s", f.Name, d, other)
			}
		}
		for _, path := range []string{"/weather", "/weather/ZZLM0000017", "/weather/ZZLM0000042"} {
			r, body = fetch(t, srv.URL+path+"?date="+d.String())
			sound(t, path+" on "+d.String(), r, body)
		}
		r, body = fetch(t, srv.URL+"/farms?date="+d.String())
		sound(t, "farms on "+d.String(), r, body)
	}
}

// othersNamed looks in a farm's page or paper for names of other farms and of their fields.
func othersNamed(v *book.View, f *book.FarmView, text string) string {
	own := map[string]bool{f.Name: true}
	for _, fd := range f.Fields {
		own[fd.Name] = true
	}
	// Stations are named for places, some of which farms are named for too.
	for _, st := range v.Stations {
		text = strings.ReplaceAll(text, st.Name, "")
	}
	for _, other := range v.Farms {
		names := []string{other.Name}
		for _, fd := range other.Fields {
			names = append(names, fd.Name)
		}
		for _, name := range names {
			if !own[name] && strings.Contains(text, name) {
				return name
			}
		}
	}
	return ""
}

func TestHardNamesAndMissingWeatherAreShown(t *testing.T) {
	srv, stands := hardBook(t)
	r, body := fetch(t, srv.URL+"/round")
	sound(t, "round", r, body)
	for _, want := range []string{"Cannot be judged", longField, "A &amp; B &lt;b&gt;Brothers&lt;/b&gt;", "station"} {
		if !strings.Contains(body, want) {
			t.Errorf("the round does not say %q", want)
		}
	}
	for _, s := range stands {
		r, body := fetch(t, srv.URL+"/stands/"+s)
		sound(t, s, r, body)
		if !strings.Contains(body, "call the shop") || strings.Contains(body, "tel:") {
			t.Error("a number that cannot be dialled is not shown as it is")
		}
	}
}

func TestAnEmptyBookSaysWhatToDo(t *testing.T) {
	srv := serve(t, newBook(t, unit.DateOf(2026, time.May, 19).Time()), web.Options{})
	for path, want := range map[string]string{"/round": "haywarden import stands", "/farms": "No farm is in this book yet", "/weather": "haywarden weather import FILE"} {
		r, body := fetch(t, srv.URL+path)
		sound(t, path, r, body)
		if !strings.Contains(body, want) {
			t.Errorf("%s does not say %q", path, want)
		}
	}
}

func TestDaysAreStepped(t *testing.T) {
	srv := serve(t, newBook(t, unit.DateOf(2026, time.May, 19).Time()), web.Options{})
	for path, want := range map[string]struct{ has, lacks []string }{
		"/round": {
			[]string{`/round?date=2026-05-12"`, `/round?date=2026-05-18"`, `/round?date=2026-05-20"`, `/round?date=2026-05-26"`, `value="2026-05-19"`},
			[]string{">Today<"},
		},
		"/farms?date=2026-05-18": {[]string{`/farms?date=2026-05-19"`, ">Today<", `href="/round?date=2026-05-18"`}, nil},
		"/round?date=1950-01-01": {[]string{`?date=1950-01-02"`}, []string{"1949-"}},
		"/round?date=2027-06-23": {[]string{`?date=2027-06-22"`}, []string{"2027-06-24", "2027-06-30"}},
	} {
		r, body := fetch(t, srv.URL+path)
		sound(t, path, r, body)
		for _, s := range want.has {
			if !strings.Contains(body, s) {
				t.Errorf("%s lacks %s", path, s)
			}
		}
		for _, s := range want.lacks {
			if strings.Contains(body, s) {
				t.Errorf("%s has %s", path, s)
			}
		}
	}
}

func TestWrongAddressesAreSaidPlainly(t *testing.T) {
	srv, _ := district(t)
	for path, want := range map[string]struct {
		status int
		say    string
	}{
		"/round?date=yesterday":            {http.StatusBadRequest, "YYYY-MM-DD"},
		"/round?date=1492-10-12":           {http.StatusBadRequest, "accepted"},
		"/round?date=2026-02-30":           {http.StatusBadRequest, "Date not understood"},
		"/stands/nowhere":                  {http.StatusNotFound, "Nothing is kept"},
		"/farms/nowhere":                   {http.StatusNotFound, "Nothing is kept"},
		"/farms/nowhere/report.pdf":        {http.StatusNotFound, "Nothing is kept"},
		"/farms/nowhere/report.pdf?date=x": {http.StatusBadRequest, "YYYY-MM-DD"},
		"/weather/nowhere":                 {http.StatusNotFound, "Nothing is kept"},
		"/nothing":                         {http.StatusNotFound, "Nothing is kept"},
	} {
		r, body := fetch(t, srv.URL+path)
		if r.status != want.status || !strings.Contains(body, want.say) || !strings.Contains(body, "Back to the round") {
			t.Errorf("%s: status %d, want %d and a page that says %q", path, r.status, want.status, want.say)
		}
		if why := illFormed(body); why != "" {
			t.Errorf("%s: %s", path, why)
		}
	}
}

func TestFilesAreKeptForGoodAndPagesArePacked(t *testing.T) {
	srv, _ := district(t)
	_, body := fetch(t, srv.URL+"/round")
	sheet := regexp.MustCompile(`/static/[a-z0-9.-]+\.css`).FindString(body)
	r, css := fetch(t, srv.URL+sheet)
	if r.status != http.StatusOK || !strings.Contains(r.header.Get("Cache-Control"), "immutable") || !strings.Contains(css, "@layer") {
		t.Errorf("%s: status %d, %q", sheet, r.status, r.header.Get("Cache-Control"))
	}
	for _, font := range regexp.MustCompile(`[a-z0-9.-]+\.woff2`).FindAllString(css, -1) {
		if r, _ := fetch(t, srv.URL+"/static/"+font); r.status != http.StatusOK || r.header.Get("Content-Type") != "font/woff2" {
			t.Errorf("%s: status %d, %s", font, r.status, r.header.Get("Content-Type"))
		}
	}
	if r, _ := fetch(t, srv.URL+"/static/haywarden.css"); r.status != http.StatusNotFound {
		t.Errorf("an address without its content's mark is served: status %d", r.status)
	}
	for _, date := range []string{"2026-04-15", "2026-05-19", "2026-07-20"} {
		req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, srv.URL+"/round?date="+date, nil)
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Accept-Encoding", "gzip")
		res, err := http.DefaultTransport.RoundTrip(req)
		if err != nil {
			t.Fatal(err)
		}
		small, err := io.ReadAll(res.Body)
		if shut := res.Body.Close(); err != nil || shut != nil {
			t.Fatal(err, shut)
		}
		if res.Header.Get("Content-Encoding") != "gzip" || len(small) > 40<<10 {
			t.Errorf("the round of %s is sent as %q in %d bytes; want gzip under 40 KB", date, res.Header.Get("Content-Encoding"), len(small))
		}
	}
}

func BenchmarkRound(b *testing.B) { benchmarkPage(b, "/round", 300*time.Millisecond) }

func BenchmarkStand(b *testing.B) { benchmarkPage(b, "", 50*time.Millisecond) }

// benchmarkPage asks for a page on a new day each time, so that nothing is kept from before.
func benchmarkPage(b *testing.B, path string, most time.Duration) {
	srv, _ := district(b)
	paths := []string{path}
	if path == "" {
		_, body := fetch(b, srv.URL+"/round")
		paths = standLink.FindAllString(body, -1)
	}
	first := unit.DateOf(2026, time.April, 1)
	n := 0
	for b.Loop() {
		n++
		fetch(b, srv.URL+paths[n%len(paths)]+"?date="+(first+unit.Day(n%200)).String())
	}
	if each := b.Elapsed() / time.Duration(n); each > most {
		b.Errorf("a page takes %v, more than %v", each, most)
	}
}
