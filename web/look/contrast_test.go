package look

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// modes reads the colours of each mode from the style sheet; a mode inherits what it does not set.
func modes(t *testing.T) map[string]map[string]string {
	t.Helper()
	b, err := os.ReadFile("../static/css/tokens.css")
	if err != nil {
		t.Fatal(err)
	}
	light := block(t, string(b), `:root \{`)
	out := map[string]map[string]string{
		"light":           light,
		"dark":            block(t, string(b), `:root\[data-mode=dark\] \{`),
		"dark by system":  block(t, string(b), `:root:not\(\[data-mode=light\], \[data-mode=daylight\]\) \{`),
		"daylight choice": block(t, string(b), `:root\[data-mode=daylight\] \{`),
	}
	for name, v := range light {
		for _, m := range out {
			if _, ok := m[name]; !ok {
				m[name] = v
			}
		}
	}
	return out
}

var colour = regexp.MustCompile(`--([a-z0-9-]+): (#[0-9a-f]{6});`)

func block(t *testing.T, css, selector string) map[string]string {
	t.Helper()
	m := regexp.MustCompile(`(?s)` + selector + `(.*?)\}`).FindStringSubmatch(css)
	if m == nil {
		t.Fatalf("tokens.css has no block %s", selector)
	}
	out := map[string]string{}
	for _, c := range colour.FindAllStringSubmatch(m[1], -1) {
		out[c[1]] = c[2]
	}
	return out
}

// luminance and ratio are those of WCAG 2.2, "relative luminance" and "contrast ratio".
func luminance(hex string) float64 {
	var l float64
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		n, _ := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		l += weight * c
	}
	return l
}

func ratio(a, b string) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func TestContrastRatioOfKnownPairs(t *testing.T) {
	// Black on white is 21 by definition; #767676 is the lightest grey that reaches 4.5 on white.
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#ffffff", 21}, {"#767676", "#ffffff", 4.54}, {"#777777", "#ffffff", 4.48}} {
		if got := ratio(c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s is %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

func TestEveryPairInUseIsLegibleInEveryMode(t *testing.T) {
	// Words need 4.5 (WCAG 2.2, 1.4.3 AA), marks that carry meaning 3 (1.4.11).
	const words, marks = 4.5, 3.0
	pairs := []struct {
		front, back string
		least       float64
	}{
		{"ink", "paper", 7}, {"ink", "sheet", 7}, {"quiet", "paper", words}, {"quiet", "sheet", words},
		{"accent", "paper", words}, {"accent", "sheet", words}, {"on-accent", "accent", words},
		{"brick", "paper", words}, {"brick", "brick-pale", words}, {"ink", "brick-pale", words},
		{"ink", "hay-pale", words}, {"quiet", "hay-pale", words}, {"ink", "lilac", words},
		{"ink", "green-pale", words}, {"paper", "green", words}, {"paper", "accent", words}, {"ink", "band", words},
		{"edge", "paper", marks}, {"edge", "sheet", marks}, {"green", "paper", marks}, {"frost", "paper", marks},
		{"frost", "hay-pale", marks}, {"hay-line", "paper", marks}, {"accent", "lilac", marks},
		{"accent", "lilac-deep", marks}, {"ink", "lilac-deep", marks}, {"green", "band", marks},
		{"green", "green-pale", marks}, {"brick", "sheet", marks}, {"green", "sheet", marks},
	}
	for mode, tokens := range modes(t) {
		for _, p := range pairs {
			front, back := tokens[p.front], tokens[p.back]
			if front == "" || back == "" {
				t.Fatalf("%s: no colour for %s or %s", mode, p.front, p.back)
			}
			if got := ratio(front, back); got < p.least {
				t.Errorf("%s: %s on %s has contrast %.2f, wants %g", mode, p.front, p.back, got, p.least)
			}
		}
	}
}

func TestDarkIsTheSameBySystemAndByChoice(t *testing.T) {
	m := modes(t)
	if diff := cmp.Diff(m["dark by system"], m["dark"]); diff != "" {
		t.Error(diff)
	}
	for name, v := range m["light"] {
		if m["dark"][name] == v && name != "on-accent" {
			t.Errorf("dark leaves --%s as in light (%s)", name, fmt.Sprint(v))
		}
	}
}
