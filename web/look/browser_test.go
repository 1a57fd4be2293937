package look

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// faultsOf gathers, in the page, what a person with a small screen, thick fingers or enlarged letters
// would stumble over.
const faultsOf = `(async () => {
	await document.fonts.ready;
	const out = [];
	const shown = e => e.getClientRects().length > 0;
	const name = e => e.tagName + "." + (e.getAttribute("class") || "") + " " + (e.textContent || e.id || "").trim().slice(0, 24);
	for (const f of document.fonts) if (f.status !== "loaded") out.push("typeface not loaded: " + f.family + " " + f.weight);
	const wide = document.documentElement.scrollWidth, room = document.documentElement.clientWidth;
	if (wide > room) out.push("the page is " + wide + " wide in " + room);
	for (const e of document.querySelectorAll(".button, button, select, textarea, input:not([type=radio], [type=checkbox]), .choice, .tick, summary, .masthead-nav a, .masthead-name, .subnav a, .links a, .strip a")) {
		const h = e.getBoundingClientRect().height;
		if (shown(e) && h < 44) out.push("only " + h + " px high: " + name(e));
	}
	let words = 0;
	for (const svg of document.querySelectorAll("svg.drawing")) {
		if (!shown(svg)) continue;
		const v = svg.viewBox.baseVal;
		const scale = svg.getBoundingClientRect().width / v.width;
		for (const t of svg.querySelectorAll("text")) {
			words++;
			const b = t.getBBox();
			if (b.x < -0.6 || b.x + b.width > v.width + 0.6) out.push("leaves its drawing: " + t.textContent);
			const size = parseFloat(t.getAttribute("font-size")) * scale;
			if (size < (innerWidth < 390 ? 9 : 11)) out.push("letters of " + size.toFixed(1) + " px: " + t.textContent);
		}
	}
	if (words < 80) out.push("only " + words + " words in the drawings");
	return out;
})()`

func TestSamplePageInTheBrowserAtEveryWidthAndMode(t *testing.T) {
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("chromium is not installed: the page cannot be looked at")
	}
	srv := httptest.NewServer(http.FileServer(http.Dir("..")))
	defer srv.Close()
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox)
	ctx, cancel := chromedp.NewExecAllocator(t.Context(), opts...)
	defer cancel()
	ctx, cancel = chromedp.NewContext(ctx)
	defer cancel()
	ctx, cancel = context.WithTimeout(ctx, time.Minute)
	defer cancel()
	for _, width := range []int64{320, 390, 700, 1024, 1152, 1280} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(srv.URL+"/look/sample.html")); err != nil {
			t.Fatal(err)
		}
		for _, mode := range []string{"light", "daylight"} {
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.documentElement.dataset.mode = "`+mode+`"`)); err != nil {
				t.Fatal(err)
			}
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](faultsOf, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range found {
				t.Errorf("%d px, %s: %s", width, mode, f)
			}
		}
	}
}
