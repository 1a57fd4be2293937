package web_test

import (
	"context"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book/store"
	"haywarden/demo"
	"haywarden/office"
	"haywarden/web"
)

var reader = office.Actor{Name: "reader", Role: office.Adviser}

// district serves the invented district.
func district(tb testing.TB) (*httptest.Server, *office.Office) {
	tb.Helper()
	d, err := demo.Make(demo.Seed)
	if err != nil {
		tb.Fatal(err)
	}
	end := unit.DateOf(2027, time.December, 31).Time()
	clock := func() time.Time { return end }
	ctx := context.Background()
	db, err := store.Create(ctx, filepath.Join(tb.TempDir(), "d.book"), store.Options{Now: clock})
	if err != nil {
		tb.Fatal(err)
	}
	o := office.New(db, clock, rand.NewChaCha8([32]byte{}))
	if _, err := o.Receive(ctx, reader, d.Facts); err != nil {
		tb.Fatal(err)
	}
	seen := map[string]bool{}
	var in []office.Delivery
	for _, w := range d.Weather {
		key := w.Block.Station + w.Received.Format("2006")
		received := w.Received
		if !seen[key] {
			received = unit.DateOf(w.Block.Year, time.January, 1).Time()
		}
		seen[key] = true
		in = append(in, office.Delivery{Block: w.Block, Received: received})
	}
	if err := o.ReceiveWeather(ctx, reader, d.Stations, in); err != nil {
		tb.Fatal(err)
	}
	srv := httptest.NewServer(web.New(o, reader, web.Options{Demo: true, Start: unit.DateOf(2026, time.May, 19)}).Handler())
	tb.Cleanup(func() {
		srv.Close()
		if err := db.Close(); err != nil {
			tb.Error(err)
		}
	})
	return srv, o
}

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

var (
	standLink = regexp.MustCompile(`/stands/[0-9a-f-]{36}`)
	junk      = regexp.MustCompile(`%!|NaN|[+-]Inf|<nil>|\{\{`)
)

func sound(t *testing.T, where string, r answer, body string) {
	t.Helper()
	if r.status != http.StatusOK {
		t.Errorf("%s: status %d", where, r.status)
	}
	if found := junk.FindString(body); found != "" {
		i := strings.Index(body, found)
		t.Errorf("%s holds %q: ...%s...", where, found, body[max(0, i-60):min(len(body), i+60)])
	}
	if policy := r.header.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") {
		t.Errorf("%s: content policy %q", where, policy)
	}
	if strings.Contains(body, " style=") || strings.Contains(body, "<script") {
		t.Errorf("%s: a style or script is written into the page", where)
	}
}

func TestEveryPageOfTheYearIsSound(t *testing.T) {
	srv, o := district(t)
	for d := unit.DateOf(2026, time.January, 6); d.Year() == 2026; d += 21 {
		r, body := fetch(t, srv.URL+"/round?date="+d.String())
		sound(t, "round of "+d.String(), r, body)
		view, err := o.View(t.Context(), reader, office.Ask{Date: d, Known: web.Morning(d)})
		if err != nil {
			t.Fatal(err)
		}
		linked := map[string]bool{}
		for _, l := range standLink.FindAllString(body, -1) {
			linked[l] = true
		}
		for _, s := range view.Stands() {
			if !linked["/stands/"+s.ID] {
				t.Errorf("round of %s: %s has no line", d, s.Named())
			}
			r, body := fetch(t, srv.URL+"/stands/"+s.ID+"?date="+d.String())
			sound(t, s.Named()+" on "+d.String(), r, body)
		}
		for _, f := range view.Farms {
			r, body := fetch(t, srv.URL+"/farms/"+f.ID+"?date="+d.String())
			sound(t, f.Name+" on "+d.String(), r, body)
			for _, other := range view.Farms {
				for _, fd := range other.Fields {
					if other.ID != f.ID && strings.Contains(body, other.Name+" · "+fd.Name) {
						t.Errorf("the page of %s on %s names %s of %s", f.Name, d, fd.Name, other.Name)
					}
				}
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
		"/round?date=yesterday":  {http.StatusBadRequest, "YYYY-MM-DD"},
		"/round?date=1492-10-12": {http.StatusBadRequest, "accepted"},
		"/stands/nowhere":        {http.StatusNotFound, "Nothing is kept"},
		"/farms/nowhere":         {http.StatusNotFound, "Nothing is kept"},
		"/nothing":               {http.StatusNotFound, "Nothing is kept"},
	} {
		r, body := fetch(t, srv.URL+path)
		if r.status != want.status || !strings.Contains(body, want.say) || !strings.Contains(body, "Back to the round") {
			t.Errorf("%s: status %d, want %d and a page that says %q", path, r.status, want.status, want.say)
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
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, srv.URL+"/round", nil)
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Accept-Encoding", "gzip")
	res, err := http.DefaultTransport.RoundTrip(req)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	small, err := io.ReadAll(res.Body)
	if err != nil || res.Header.Get("Content-Encoding") != "gzip" || len(small) > 70<<10 {
		t.Errorf("the round is sent as %q in %d bytes, error %v; want gzip under 70 KB", res.Header.Get("Content-Encoding"), len(small), err)
	}
}

func TestAFarmsReportIsOneOrTwoPages(t *testing.T) {
	srv, o := district(t)
	for _, date := range []string{"2026-01-14", "2026-04-15", "2026-05-14", "2026-05-19", "2026-06-20", "2026-07-20", "2026-09-08", "2026-10-20"} {
		d, err := unit.ParseDay(date)
		if err != nil {
			t.Fatal(err)
		}
		v, err := o.View(t.Context(), reader, office.Ask{Date: d, Known: web.Morning(d)})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range v.Farms {
			address := srv.URL + "/farms/" + f.ID + "/report.pdf?date=" + date
			r, pdf := fetch(t, address)
			_, again := fetch(t, address)
			pages := strings.Count(pdf, "/Type /Page\n")
			if r.status != http.StatusOK || !strings.HasPrefix(pdf, "%PDF-") || pages < 1 || pages > 2 {
				t.Errorf("%s on %s: status %d, %d pages", f.Name, date, r.status, pages)
			}
			if pdf != again {
				t.Errorf("%s on %s: two reports of one day differ", f.Name, date)
			}
		}
	}
}

func BenchmarkRound(b *testing.B) { benchmarkPage(b, "/round") }

func BenchmarkStand(b *testing.B) { benchmarkPage(b, "") }

// benchmarkPage asks for a page on a new day each time, so that nothing is kept from before.
func benchmarkPage(b *testing.B, path string) {
	srv, _ := district(b)
	if path == "" {
		_, body := fetch(b, srv.URL+"/round")
		path = standLink.FindString(body)
	}
	d := unit.DateOf(2026, time.April, 1)
	for b.Loop() {
		d++
		if d.Year() != 2026 {
			d = unit.DateOf(2026, time.April, 1)
		}
		fetch(b, srv.URL+path+"?date="+d.String())
	}
}
