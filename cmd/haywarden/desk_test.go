package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"haywarden/office"
)

// desk runs commands on a book of its own.
type desk struct {
	t    *testing.T
	book string
}

func newDesk(t *testing.T) *desk {
	t.Helper()
	d := &desk{t: t, book: filepath.Join(t.TempDir(), "desk.book")}
	d.must("book", "new", "--region", "Test counties")
	return d
}

// run carries out a command and gives its exit code and what it said.
func (d *desk) run(args ...string) (code int, out, complaint string) {
	d.t.Helper()
	var stdout, stderr bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	code = m.Run(d.t.Context(), append(args, "--book", d.book))
	return code, stdout.String(), stderr.String()
}

func (d *desk) must(args ...string) string {
	d.t.Helper()
	code, out, complaint := d.run(args...)
	if code != exitOK {
		d.t.Fatalf("%v: exit %d: %s", args, code, complaint)
	}
	return out
}

func (d *desk) file(name, text string) string {
	d.t.Helper()
	path := filepath.Join(d.t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		d.t.Fatal(err)
	}
	return path
}

func TestWeatherComesInOnceAndBadFilesNot(t *testing.T) {
	d := newDesk(t)
	sample := filepath.Join("..", "..", "weather", "ghcn", "testdata", "sample.dly")
	if out := d.must("weather", "import", sample); !strings.Contains(out, "Stored: ") {
		t.Errorf("first import says %q", out)
	}
	if out := d.must("weather", "import", sample); !strings.Contains(out, "Nothing changed") {
		t.Errorf("second import says %q", out)
	}
	before := d.must("weather", "show")
	head := "STATION,NAME,DATE,PRCP,TMAX,TMIN\n"
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"empty.csv":     {"", []string{"empty"}},
		"cut.dly":       {"USC00999999202306TMAX  254  W  2xx  W\n", []string{"line 1"}},
		"future.csv":    {head + "ZZT00000001,T,2099-01-01,0.0,20.0,10.0\n", []string{"2099-01-01"}},
		"words.csv":     {head + "ZZT00000001,T,2020-07-01,0.0,warm,10.0\n", []string{"line 2"}},
		"undecided.csv": {head + "ZZT00000001,T,2020-01-01,0.0,2.0,1.0\n", []string{"metric", "standard"}},
	} {
		code, _, complaint := d.run("weather", "import", d.file(name, c.text))
		if code != exitFailure {
			t.Errorf("%s: exit %d", name, code)
		}
		for _, w := range append(c.want, name, "nothing was taken in") {
			if !strings.Contains(complaint, w) {
				t.Errorf("%s: %q does not say %q", name, complaint, w)
			}
		}
	}
	if after := d.must("weather", "show"); after != before {
		t.Errorf("stations before %q, after the bad files %q", before, after)
	}
	if code, _, complaint := d.run("weather", "import", sample, "--units", "furlongs"); code != exitUsage || !strings.Contains(complaint, "metric") {
		t.Errorf("unknown units: exit %d, %q", code, complaint)
	}
}

// The freeze dates and sums were computed in R 4.2.2 and Python from the same public record.
func TestTheLongRecordGivesItsPublishedSums(t *testing.T) {
	folder := os.Getenv("HAYWARDEN_DATA")
	if folder == "" {
		t.Skip("HAYWARDEN_DATA is not set: the long public record is not here")
	}
	d := newDesk(t)
	d.must("weather", "import", filepath.Join(folder, "USW00014839.dly"))
	var sum office.StationSummary
	if err := json.Unmarshal([]byte(d.must("weather", "show", "USW00014839", "--json")), &sum); err != nil {
		t.Fatal(err)
	}
	if len(sum.Heat) != 50 {
		t.Fatalf("%d years of heat, want 50", len(sum.Heat))
	}
	want := table(t, filepath.Join(folder, "check_milwaukee_dd_annual.csv"))
	for i, y := range sum.Heat {
		for col, got := range map[string]float64{"y": float64(y.Year), "dd41avg": y.Average41F, "dd48ss": y.Sine48F, "dd5css": y.Sine5C} {
			if w := want[i][col]; got-w > 1e-6 || w-got > 1e-6 {
				t.Errorf("%d %s: %.6f, want %.6f", y.Year, col, got, w)
			}
		}
	}
	if err := json.Unmarshal([]byte(d.must("weather", "show", "USW00014839", "--from", "1991", "--to", "2020", "--json")), &sum); err != nil {
		t.Fatal(err)
	}
	for i, w := range []struct{ mean, sd float64 }{{112.7333, 11.107417}, {95.7333, 10.023880}, {88.6667, 9.809683}, {295.8, 13.453368}, {311.6667, 10.761789}, {319, 10.799106}} {
		f := sum.Freezes[i]
		if f.Years != 30 || abs(f.Mean-w.mean) > 5e-5 || abs(f.SD-w.sd) > 5e-6 {
			t.Errorf("%s: %d years, mean %.4f, sd %.6f; want 30, %.4f, %.6f", f.Name, f.Years, f.Mean, f.SD, w.mean, w.sd)
		}
	}
	if p := sum.Freezes[5].P10 + " " + sum.Freezes[5].P50 + " " + sum.Freezes[5].P90; p != "306.0 316.5 337.6" {
		t.Errorf("first fall 24 F: %s, want 306.0 316.5 337.6", p)
	}
	if out := d.must("weather", "import", filepath.Join(folder, "USW00014839_2016_2020.csv")); !strings.Contains(out, "Nothing changed") {
		t.Errorf("the same years in the other form changed something: %q", out)
	}
}

func abs(v float64) float64 { return max(v, -v) }

func table(t *testing.T, path string) []map[string]float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]float64
	for _, r := range rows[1:] {
		m := map[string]float64{}
		for i, name := range rows[0] {
			if m[name], err = strconv.ParseFloat(r[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, m)
	}
	return out
}

func TestRoundAndStandOnABookOfOnesOwn(t *testing.T) {
	d := newDesk(t)
	if out := d.must("round"); !strings.Contains(out, "No stand grows in this book") {
		t.Errorf("an empty book's round says %q", out)
	}
	d.must("import", "stands", d.file("s.csv", "farm,field,acres,crop,seeded,station\nAlder Run,Home Forty,40,alfalfa,2022-04-20,ZZT00000001\nAlder Run,Back Lot,9,red clover,2023-04-20,\n"))
	out := d.must("round", "--date", "2026-05-19")
	for _, w := range []string{"2 stands", "Cannot be judged", "No weather of station ZZT00000001 is in the book", "The field has no weather station"} {
		if !strings.Contains(out, w) {
			t.Errorf("the round does not say %q:\n%s", w, out)
		}
	}
	if out := d.must("stand", "home forty", "--date", "2026-05-19"); !strings.Contains(out, "Alder Run · Home Forty") {
		t.Errorf("stand says %q", out)
	}
	code, _, complaint := d.run("stand", "Home Forti")
	if code != exitFailure || !strings.Contains(complaint, "no growing stand") {
		t.Errorf("unknown stand: exit %d, %q", code, complaint)
	}
	for _, bad := range [][]string{{"round", "--date", "19 May"}, {"round", "--known", "soon"}} {
		if code, _, complaint := d.run(bad...); code != exitUsage || !strings.Contains(complaint, "YYYY-MM-DD") {
			t.Errorf("%v: exit %d, %q", bad, code, complaint)
		}
	}
	d.book = filepath.Join(t.TempDir(), "none.book")
	if code, _, complaint := d.run("round"); code != exitFailure || !strings.Contains(complaint, "haywarden book new") {
		t.Errorf("missing book: exit %d, %q", code, complaint)
	}
}

func demoOutput(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	if code := m.Run(t.Context(), append([]string{"demo", "--once"}, args...)); code != exitOK {
		t.Fatalf("demo %v: exit %d: %s", args, code, stderr.String())
	}
	return stdout.String()
}

func TestTheSameDemoGivesTheSameBytes(t *testing.T) {
	for _, date := range []string{"2026-05-19", "2026-09-08"} {
		a, b := demoOutput(t, "--json", "--date", date), demoOutput(t, "--json", "--date", date)
		if a != b {
			t.Errorf("%s: two runs differ", date)
		}
		for _, junk := range []string{"NaN", "%!", "+Inf"} {
			if strings.Contains(a, junk) {
				t.Errorf("%s: the round holds %q", date, junk)
			}
		}
	}
}

func TestDemoServesEndsAndLeavesNothing(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	port := freePort(t)
	ctx, cancel := context.WithCancel(t.Context())
	var stdout, stderr bytes.Buffer
	m := &Main{Stdin: strings.NewReader(""), Stdout: &stdout, Stderr: &stderr}
	code := make(chan int, 1)
	began := time.Now()
	go func() { code <- m.Run(ctx, []string{"demo", "--listen", port}) }()
	page := get(t, "http://"+port+"/round")
	t.Logf("served its first page %v after the start", time.Since(began).Round(time.Millisecond))
	if !strings.Contains(page, "Larkmoor") {
		t.Errorf("the page does not show the district:\n%.300s", page)
	}
	var out, complaint bytes.Buffer
	second := &Main{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &complaint}
	if c := second.Run(t.Context(), []string{"demo", "--listen", port}); c != exitFailure || !strings.Contains(complaint.String(), "another program may hold the port") {
		t.Errorf("a taken port: exit %d, %q", c, complaint.String())
	}
	cancel()
	select {
	case c := <-code:
		if c != exitOK {
			t.Errorf("ended with exit %d: %s", c, stderr.String())
		}
	case <-time.After(10 * time.Second):
		t.Fatal("the demo did not end")
	}
	left, err := os.ReadDir(os.Getenv("TMPDIR"))
	if err != nil || len(left) != 0 {
		t.Errorf("left behind %v, error %v", left, err)
	}
}

func TestOnlyThisMachineIsServed(t *testing.T) {
	for _, listen := range []string{"0.0.0.0:8426", ":8426", "192.0.2.1:80", "nonsense"} {
		var out, complaint bytes.Buffer
		m := &Main{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &complaint}
		if c := m.Run(t.Context(), []string{"demo", "--listen", listen}); c != exitUsage {
			t.Errorf("%s: exit %d, %q", listen, c, complaint.String())
		}
	}
}

func freePort(t *testing.T) string {
	t.Helper()
	l, err := (&net.ListenConfig{}).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// get asks for a page until the server is up.
func get(t *testing.T, address string) string {
	t.Helper()
	for range 200 {
		req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := http.DefaultClient.Do(req)
		if err != nil {
			time.Sleep(25 * time.Millisecond)
			continue
		}
		body, err := io.ReadAll(r.Body)
		if shut := r.Body.Close(); err != nil || shut != nil {
			t.Fatal(err, shut)
		}
		return string(body)
	}
	t.Fatal("no page came")
	return ""
}

func BenchmarkDemoToARound(b *testing.B) {
	for b.Loop() {
		m := &Main{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard}
		if code := m.Run(b.Context(), []string{"demo", "--once"}); code != exitOK {
			b.Fatal(code)
		}
	}
}
