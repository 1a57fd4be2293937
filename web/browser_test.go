package web_test

import (
	"context"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

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
	ctx, cancel = context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

// stumbles is what a person would stumble over at this width: sideways scrolling, text that leaves
// its box, targets too small for a gloved finger.
const stumbles = `(async () => {
	await document.fonts.ready;
	const out = [];
	const shown = e => e.getClientRects().length > 0;
	const wide = document.documentElement.scrollWidth, room = document.documentElement.clientWidth;
	if (wide > room) out.push("the page is " + wide + " wide in " + room);
	for (const e of document.querySelectorAll("h1, h2, h3, p, dd, td, th")) {
		if (shown(e) && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline") out.push("leaves its box: " + e.textContent.trim().slice(0, 40));
	}
	for (const e of document.querySelectorAll(".button, button, input, summary, .masthead-nav a, .links a, .strip a")) {
		const h = e.getBoundingClientRect().height;
		if (shown(e) && h < 44) out.push("only " + h + " px high: " + e.tagName + " " + (e.textContent || e.id).trim().slice(0, 30));
	}
	let last = 1;
	for (const e of document.querySelectorAll("h1, h2, h3, h4")) {
		const level = +e.tagName[1];
		if (level > last + 1) out.push("heading skips a level: " + e.textContent.trim().slice(0, 40));
		last = level;
	}
	return out;
})()`

// findings asks axe-core for what shuts people out.
const findings = `(async () => {
	const r = await axe.run(document, {resultTypes: ["violations"]});
	if (r.passes.length < 15) return ["axe held only " + r.passes.length + " rules: it did not look"];
	return r.violations.filter(v => v.impact === "serious" || v.impact === "critical")
		.map(v => v.id + " (" + v.impact + "): " + v.nodes.slice(0, 3).map(n => n.target.join(" ")).join("; "));
})()`

func TestPagesInTheBrowser(t *testing.T) {
	srv, o := district(t)
	ctx := browser(t)
	axe, err := os.ReadFile("testdata/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	var mu sync.Mutex
	var complaints []string
	complain := func(s string) {
		mu.Lock()
		complaints = append(complaints, s)
		mu.Unlock()
	}
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Listen(ctx, func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			complain(ev.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			if l := string(ev.Entry.Level); l == "error" || l == "warning" {
				complain(ev.Entry.Text)
			}
		}
	}); err != nil {
		t.Fatal(err)
	}
	for name, path := range pages(t, o) {
		for _, width := range []int64{390, 834, 1280} {
			mu.Lock()
			complaints = nil
			mu.Unlock()
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(srv.URL+path)); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](stumbles, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, f := range found {
				t.Errorf("%s at %d px: %s", name, width, f)
			}
			mu.Lock()
			for _, c := range complaints {
				t.Errorf("%s at %d px, console: %s", name, width, c)
			}
			mu.Unlock()
			if width == 834 {
				continue
			}
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[string](string(axe)+"; 'ready'")); err != nil {
				t.Fatal(err)
			}
			found, err = chromedp.Run(ctx, chromedp.Evaluate[[]string](findings, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, f := range found {
				t.Errorf("%s at %d px, axe: %s", name, width, f)
			}
		}
	}
}

// pages are the pages looked at: the round on days of all seasons, stands of every kind, farms.
func pages(t *testing.T, o *office.Office) map[string]string {
	t.Helper()
	out := map[string]string{
		"round in March": "/round?date=2026-03-05", "round in April": "/round?date=2026-04-15", "round in May": "/round",
		"round after frost": "/round?date=2026-05-15", "round in September": "/round?date=2026-09-08",
		"farms": "/farms",
	}
	for name, want := range map[string]string{
		"pure stand": "Ottermoss · Long Meadow", "mixture": "Lanternfield · Mill Lot", "clover": "Tansy Hollow · Orchard Piece", "frosted stand": "Tansy Hollow · Long Bottom",
	} {
		d := unit.DateOf(2026, time.May, 19)
		s, err := o.Stand(t.Context(), reader, want, office.Ask{Date: d, Known: web.Morning(d)})
		if err != nil {
			t.Fatal(err)
		}
		out[name] = "/stands/" + s.Stand.ID
		if name == "pure stand" {
			out["farm"] = "/farms/" + s.Stand.Farm.ID
			out["pure stand in August"] = "/stands/" + s.Stand.ID + "?date=2026-08-20"
		}
	}
	return out
}

func TestAPersonFindsTheWayFromRoundToReport(t *testing.T) {
	srv, _ := district(t)
	ctx := browser(t)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate(srv.URL+"/")); err != nil {
		t.Fatal(err)
	}
	for _, step := range []struct{ click, want string }{
		{".round-who a", "What to do"}, {".crumb a:last-child", "Report as PDF"},
	} {
		href, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.querySelector(`+"`"+step.click+"`"+`).href`))
		if err != nil {
			t.Fatal(err)
		}
		if err := chromedp.Do(ctx, chromedp.Navigate(href)); err != nil {
			t.Fatal(err)
		}
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.innerText`))
		if err != nil || !strings.Contains(text, step.want) {
			t.Fatalf("after %s: error %v, the page does not say %q", step.click, err, step.want)
		}
	}
	open, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`(() => { const d = document.querySelector("details.grounds"); d.querySelector("summary").click(); return d.open; })()`))
	if err != nil || !open {
		t.Errorf("grounds open at a tap: %v, error %v", open, err)
	}
}
