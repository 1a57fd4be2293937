package web_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"haywarden/agronomy/unit"
	"haywarden/office"
	"haywarden/web"
)

// browser starts Debian's Chromium; the test is skipped where there is none, unless it is demanded.
func browser(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("HAYWARDEN_DEMAND") == "1" {
			t.Fatal("chromium is not installed, and HAYWARDEN_DEMAND asks for it")
		}
		t.Skip("chromium is not installed: the pages cannot be looked at")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox)
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 6*time.Minute)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// stumbles is what a person would stumble over at this width: sideways scrolling, text that leaves
// its box or its drawing, letters too small to read, targets too small for a gloved finger, headings
// out of order.
const stumbles = `(async () => {
	await document.fonts.ready;
	const out = [];
	const shown = e => e.checkVisibility() && e.getClientRects().length > 0;
	const name = e => e.tagName + "." + (e.getAttribute("class") || "") + " " + (e.textContent || e.id).trim().slice(0, 40);
	for (const f of document.fonts) if (f.status !== "loaded") out.push("typeface not loaded: " + f.family + " " + f.weight);
	const wide = document.documentElement.scrollWidth, room = document.documentElement.clientWidth;
	if (wide > room) out.push("the page is " + wide + " wide in " + room);
	for (const e of document.querySelectorAll("h1, h2, h3, p, dt, dd, td, th, li, span, a, b, summary, time")) {
		if (!shown(e) || e.closest(".unseen, .skip")) continue;
		const box = e.getBoundingClientRect();
		if (box.right > room + 1 && !e.closest(".table-scroll")) out.push("leaves the page: " + name(e));
		if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline") out.push("leaves its box: " + name(e));
	}
	for (const e of document.querySelectorAll(".button, button, input, summary, .masthead-nav a, .masthead-name, .day a, .links a, .strip a")) {
		const h = e.getBoundingClientRect().height;
		if (shown(e) && h < 44) out.push("only " + h + " px high: " + name(e));
	}
	for (const svg of document.querySelectorAll("svg.drawing")) {
		if (!shown(svg)) continue;
		const v = svg.viewBox.baseVal;
		const scale = svg.getBoundingClientRect().width / v.width;
		for (const t of svg.querySelectorAll("text")) {
			const b = t.getBBox();
			if (b.x < -0.6 || b.x + b.width > v.width + 0.6) out.push("leaves its drawing: " + t.textContent);
			const size = parseFloat(t.getAttribute("font-size")) * scale;
			if (size < (innerWidth < 390 ? 9 : 11)) out.push("letters of " + size.toFixed(1) + " px: " + t.textContent);
		}
	}
	let last = 1;
	for (const e of document.querySelectorAll("h1, h2, h3, h4")) {
		const level = +e.tagName[1];
		if (level > last + 1) out.push("heading skips a level: " + name(e));
		last = level;
	}
	return out;
})()`

// openAll opens every fold of a page, so that what lies in it is looked at too.
const openAll = `(() => { for (const d of document.querySelectorAll("details")) d.open = true; return document.querySelectorAll("details").length; })()`

// findings asks axe-core for what shuts people out.
const findings = `(async () => {
	const r = await axe.run(document, {resultTypes: ["violations"]});
	if (r.passes.length < 15) return ["axe held only " + r.passes.length + " rules: it did not look"];
	return r.violations.filter(v => v.impact === "serious" || v.impact === "critical")
		.map(v => v.id + " (" + v.impact + "): " + v.nodes.slice(0, 3).map(n => n.target.join(" ")).join("; "));
})()`

// ears hear what the console says.
type ears struct {
	mu   sync.Mutex
	said []string
}

func listen(ctx context.Context, t *testing.T) *ears {
	t.Helper()
	e := &ears{}
	hear := func(s string) {
		e.mu.Lock()
		defer e.mu.Unlock()
		e.said = append(e.said, s)
	}
	if err := chromedp.Listen(ctx, func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			hear(ev.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			if l := string(ev.Entry.Level); l == "error" || l == "warning" {
				hear(ev.Entry.Text)
			}
		}
	}); err != nil {
		t.Fatal(err)
	}
	return e
}

// heard gives what was said since it was asked last.
func (e *ears) heard() []string {
	e.mu.Lock()
	defer e.mu.Unlock()
	said := e.said
	e.said = nil
	return said
}

// prefer sets the colours the reader's system asks for.
func prefer(mode string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: mode}},
		})
		return err
	})
}

func look(ctx context.Context, t *testing.T, script string) []string {
	t.Helper()
	found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](script, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestPagesInTheBrowser(t *testing.T) {
	srv, o := district(t)
	hard, hardStands := hardBook(t)
	ctx := browser(t)
	axe, err := os.ReadFile("testdata/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	console := listen(ctx, t)
	all := map[string]string{
		"hard round": hard.URL + "/round", "hard stand": hard.URL + "/stands/" + hardStands[0], "markup stand": hard.URL + "/stands/" + hardStands[1],
		"hard farms": hard.URL + "/farms", "hard stations": hard.URL + "/weather", "short record": hard.URL + "/weather/ZZT00000001",
	}
	for name, path := range pages(t, o) {
		all[name] = srv.URL + path
	}
	for name, path := range moneyPages(t, o) {
		if !strings.Contains(name, "Candlewick") && !strings.HasPrefix(name, "prices for") {
			all[name] = srv.URL + path
		}
	}
	all["bring"] = srv.URL + "/bring"
	all["samples"] = srv.URL + strings.Split(pages(t, o)["pure stand"], "?")[0] + "/samples"
	all["weigh"] = srv.URL + strings.Split(pages(t, o)["pure stand"], "?")[0] + "/weigh"
	for name, address := range all {
		for _, width := range []int64{320, 390, 834, 1280} {
			mode := "light"
			if width == 1280 {
				mode = "dark"
			}
			where := fmt.Sprintf("%s at %d px, %s", name, width, mode)
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), prefer(mode), chromedp.Navigate(address)); err != nil {
				t.Fatalf("%s: %v", where, err)
			}
			for _, f := range look(ctx, t, stumbles) {
				t.Errorf("%s: %s", where, f)
			}
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[int](openAll)); err != nil {
				t.Fatal(err)
			}
			for _, f := range look(ctx, t, stumbles) {
				t.Errorf("%s, opened: %s", where, f)
			}
			for _, c := range console.heard() {
				if name == "no such page" && strings.HasSuffix(c, "status of 400 (Bad Request)") {
					continue // the browser says of itself that the date was refused
				}
				t.Errorf("%s, console: %s", where, c)
			}
			if width != 390 && width != 1280 {
				continue
			}
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[string](string(axe)+"; 'ready'")); err != nil {
				t.Fatal(err)
			}
			for _, f := range look(ctx, t, findings) {
				t.Errorf("%s, axe: %s", where, f)
			}
		}
	}
}

// pages are the pages looked at: the round on days of all seasons, stands of every kind, farms.
func pages(t *testing.T, o *office.Office) map[string]string {
	t.Helper()
	out := map[string]string{
		"round in April": "/round?date=2026-04-15", "round in May": "/round", "round after frost": "/round?date=2026-05-15",
		"round in July": "/round?date=2026-07-20", "round in September": "/round?date=2026-09-08", "round in December": "/round?date=2026-12-10",
		"farms": "/farms", "stations": "/weather", "trials": "/trials?example", "how well it held": "/weather/held", "what did that": "/diagnose?crop=alfalfa&season=midsummer&part=leaf&color=yellow", "safety": "/safety", "route": "/route?date=2026-05-12", "after the winter": "/winter?date=2026-04-06", "station": "/weather/ZZLM0000017", "station in November": "/weather/ZZLM0000042?date=2026-11-10",
		"station in January": "/weather/ZZLM0000025?date=2026-01-03", "no such page": "/round?date=soon",
	}
	for _, s := range []struct{ name, stand, date string }{
		{"pure stand", "Ottermoss · Long Meadow", "2026-05-19"}, {"pure stand in August", "Ottermoss · Long Meadow", "2026-08-20"},
		{"mixture", "Lanternfield · Mill Lot", "2026-05-11"}, {"mixture in July", "Lanternfield · Mill Lot", "2026-07-20"},
		{"clover", "Tansy Hollow · Orchard Piece", "2026-06-04"}, {"frosted stand", "Tansy Hollow · Long Bottom", "2026-05-19"},
		{"seeding year", "Candlewick · New Ground", "2026-06-20"}, {"to turn under", "Thrushgate · Kiln Forty", "2026-04-20"},
	} {
		d, err := unit.ParseDay(s.date)
		if err != nil {
			t.Fatal(err)
		}
		a, err := o.Stand(t.Context(), reader, s.stand, office.Ask{Date: d, Known: web.Morning(d)})
		if err != nil {
			t.Fatal(err)
		}
		out[s.name] = "/stands/" + a.Stand.ID + "?date=" + s.date
		if s.name == "pure stand" || s.name == "frosted stand" {
			out["farm of the "+s.name] = "/farms/" + a.Stand.Farm.ID + "?date=" + s.date
		}
	}
	return out
}

func TestAPersonFindsTheWayFromRoundToReport(t *testing.T) {
	srv, _ := district(t)
	ctx := browser(t)
	for _, scripts := range []bool{true, false} {
		off := chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !scripts})
			return err
		})
		if err := chromedp.Do(ctx, off, chromedp.EmulateViewport(390, 844), chromedp.Navigate(srv.URL+"/")); err != nil {
			t.Fatal(err)
		}
		for _, step := range []struct{ click, want string }{
			{".round-who a", "What to do"}, {".crumb a:last-child", "Report as PDF"},
		} {
			if err := chromedp.Do(ctx, chromedp.Click(step.click)); err != nil {
				t.Fatalf("scripts %v, click on %s: %v", scripts, step.click, err)
			}
			var text string
			for range 50 {
				var err error
				if text, err = chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.innerText`)); err == nil && strings.Contains(text, step.want) {
					break
				}
				time.Sleep(100 * time.Millisecond)
			}
			if !strings.Contains(text, step.want) {
				t.Fatalf("scripts %v, after %s: the page does not say %q but %.200q", scripts, step.click, step.want, text)
			}
		}
		if err := chromedp.Do(ctx, chromedp.Click("details.grounds summary")); err != nil {
			t.Fatal(err)
		}
		open, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.querySelector("details.grounds").open`))
		if err != nil || !open {
			t.Errorf("scripts %v: grounds open at a tap: %v, error %v", scripts, open, err)
		}
		report, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.querySelector(".page-head .button").href`))
		if err != nil {
			t.Fatal(err)
		}
		r, pdf := fetch(t, report)
		if r.status != 200 || r.header.Get("Content-Type") != "application/pdf" || !strings.HasPrefix(pdf, "%PDF-") {
			t.Errorf("the report at %s: status %d, %s", report, r.status, r.header.Get("Content-Type"))
		}
	}
}
