package chart

import (
	"math"
	"strconv"
	"strings"
)

// SVG draws d for a page. Colours come from the page's style sheet by the classes of the marks.
func SVG(d Drawing) string {
	f := d.frame()
	s := &svg{}
	s.put(`<svg class="drawing" role="img" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 `)
	s.num(f.Width)
	s.put(" ")
	s.num(f.Height)
	s.put(`" width="`)
	s.num(f.Width)
	s.put(`" height="`)
	s.num(f.Height)
	s.put(`"`)
	if f.Title == "" && f.Desc == "" {
		s.put(` aria-hidden="true">`)
	} else {
		s.put(` aria-label="`)
		s.esc(strings.TrimSpace(strings.TrimRight(f.Title, ".") + ". " + f.Desc))
		s.put(`"><title>`)
		s.esc(f.Title)
		s.put(`</title><desc>`)
		s.esc(f.Desc)
		s.put(`</desc>`)
	}
	d.Draw(s)
	s.put("</svg>")
	return s.b.String()
}

type svg struct{ b strings.Builder }

func (s *svg) put(t string) { s.b.WriteString(t) }

// num writes a coordinate to a tenth of a unit.
func (s *svg) num(v float64) {
	t := strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
	if t == "-0" {
		t = "0"
	}
	s.put(t)
}

func (s *svg) attr(name string, v float64) {
	s.put(" " + name + `="`)
	s.num(v)
	s.put(`"`)
}

// esc writes text for an element or a quoted attribute; signs that XML forbids are left out.
func (s *svg) esc(t string) {
	for _, r := range t {
		switch {
		case r == '&':
			s.put("&amp;")
		case r == '<':
			s.put("&lt;")
		case r == '>':
			s.put("&gt;")
		case r == '"':
			s.put("&#34;")
		case r == '\t' || r == '\n' || r == '\r':
			s.put(" ")
		case r < ' ' || r == 0xFFFE || r == 0xFFFF:
		default:
			s.b.WriteRune(r)
		}
	}
}

func (s *svg) class(r Role, more ...string) {
	s.put(` class="c-` + string(r))
	for _, m := range more {
		s.put(" " + m)
	}
	s.put(`"`)
}

func (s *svg) points(pts []Point) {
	for i, p := range pts {
		if i > 0 {
			s.put(" ")
		}
		s.num(p.X)
		s.put(",")
		s.num(p.Y)
	}
}

// whole leaves out points that are no numbers.
func whole(pts []Point) []Point {
	out := make([]Point, 0, len(pts))
	for _, p := range pts {
		if finite(p.X, p.Y) {
			out = append(out, p)
		}
	}
	return out
}

// Line implements [Surface].
func (s *svg) Line(r Role, st Stroke, pts ...Point) {
	pts = whole(pts)
	if len(pts) < 2 {
		return
	}
	s.put("<polyline")
	s.class(r)
	s.attr("stroke-width", st.Width)
	if st.Dotted {
		s.put(` stroke-dasharray="2 3"`)
	}
	s.put(` points="`)
	s.points(pts)
	s.put(`"/>`)
}

// Area implements [Surface].
func (s *svg) Area(r Role, pts ...Point) {
	pts = whole(pts)
	if len(pts) < 3 {
		return
	}
	s.put("<path")
	s.class(r)
	s.put(` d="M`)
	s.points(pts)
	s.put(`z"/>`)
}

// Rect implements [Surface].
func (s *svg) Rect(r Role, x, y, width, height float64) {
	if !finite(x, y, width, height) || width <= 0 || height <= 0 {
		return
	}
	s.put("<rect")
	s.class(r)
	s.attr("x", x)
	s.attr("y", y)
	s.attr("width", width)
	s.attr("height", height)
	s.put("/>")
}

// Circle implements [Surface].
func (s *svg) Circle(r Role, at Point, radius, hollow float64) {
	if !finite(at.X, at.Y, radius) {
		return
	}
	s.put("<circle")
	if hollow > 0 {
		s.class(r, "hollow")
		s.attr("stroke-width", hollow)
	} else {
		s.class(r)
	}
	s.attr("cx", at.X)
	s.attr("cy", at.Y)
	s.attr("r", radius)
	s.put("/>")
}

var anchors = [...]string{Middle: "middle", End: "end"}

// Text implements [Surface].
func (s *svg) Text(r Role, t Text) {
	if t.Words == "" || !finite(t.At.X, t.At.Y) {
		return
	}
	var more []string
	if t.Bold {
		more = append(more, "strong")
	}
	if t.Halo {
		more = append(more, "halo")
	}
	s.put("<text")
	s.class(r, more...)
	s.attr("x", t.At.X)
	s.attr("y", t.At.Y)
	s.attr("font-size", t.Size)
	if t.Anchor != Start {
		s.put(` text-anchor="` + anchors[t.Anchor] + `"`)
	}
	s.put(">")
	s.esc(t.Words)
	s.put("</text>")
}
