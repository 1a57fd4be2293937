package chart

import (
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// Inks are the colours of the roles in print, red, green, blue: chosen to stay apart in grey.
var inks = map[Role][3]int{
	Grown: {44, 90, 49}, Growing: {196, 219, 190}, InWindow: {221, 210, 238}, Best: {75, 45, 132},
	Rest: {150, 118, 50}, Seen: {0, 0, 0}, Cut: {0, 0, 0}, Frost: {27, 88, 120}, Dry: {243, 232, 202},
	Rain: {27, 88, 120}, Target: {0, 0, 0}, Today: {0, 0, 0}, Axis: {90, 90, 84}, Grid: {212, 208, 198},
	Label: {0, 0, 0}, Muted: {70, 76, 71}, Fan80: {221, 210, 238}, Fan50: {185, 165, 220},
	Past80: {230, 226, 216}, Ground: {246, 243, 234}, Paper: {255, 255, 255},
}

// PDF draws d on the current page of doc with its upper left corner at x, y and the given width, in
// the units of doc, and returns the height it took. The typeface is a family already added to doc
// with a regular and a "B" style (semi-bold), Source Sans 3 for widths to be right.
//
// Every mark sets all the state it needs; dashes, line ends, text mode and colours are put back to
// the document's beginning state (black, solid) when the drawing is done.
func PDF(doc *fpdf.Fpdf, d Drawing, family string, x, y, width float64) (height float64) {
	f := d.frame()
	p := &pdf{doc: doc, family: family, x: x, y: y, k: width / f.Width}
	d.Draw(p)
	doc.SetDashPattern([]float64{}, 0)
	doc.SetLineCapStyle("butt")
	doc.SetLineJoinStyle("miter")
	doc.SetTextRenderingMode(0)
	doc.SetDrawColor(0, 0, 0)
	doc.SetFillColor(0, 0, 0)
	doc.SetTextColor(0, 0, 0)
	return f.Height * p.k
}

type pdf struct {
	doc     *fpdf.Fpdf
	family  string
	x, y, k float64
}

func (p *pdf) at(q Point) (float64, float64) { return p.x + q.X*p.k, p.y + q.Y*p.k }

func (p *pdf) stroke(r Role, width float64, dotted bool) {
	c := inks[r]
	p.doc.SetDrawColor(c[0], c[1], c[2])
	p.doc.SetLineWidth(width * p.k)
	p.doc.SetLineJoinStyle("round")
	p.doc.SetLineCapStyle("butt")
	dash := []float64{}
	if dotted {
		dash = []float64{2 * p.k, 3 * p.k}
	}
	p.doc.SetDashPattern(dash, 0)
}

func (p *pdf) fill(r Role) {
	c := inks[r]
	p.doc.SetFillColor(c[0], c[1], c[2])
}

// Line implements [Surface].
func (p *pdf) Line(r Role, st Stroke, pts ...Point) {
	pts = whole(pts)
	if len(pts) < 2 {
		return
	}
	p.stroke(r, st.Width, st.Dotted)
	for i, q := range pts {
		x, y := p.at(q)
		if i == 0 {
			p.doc.MoveTo(x, y)
		} else {
			p.doc.LineTo(x, y)
		}
	}
	p.doc.DrawPath("D")
}

// Area implements [Surface].
func (p *pdf) Area(r Role, pts ...Point) {
	pts = whole(pts)
	if len(pts) < 3 {
		return
	}
	p.fill(r)
	out := make([]fpdf.PointType, len(pts))
	for i, q := range pts {
		out[i].X, out[i].Y = p.at(q)
	}
	p.doc.Polygon(out, "F")
}

// Rect implements [Surface].
func (p *pdf) Rect(r Role, x, y, width, height float64) {
	if !finite(x, y, width, height) || width <= 0 || height <= 0 {
		return
	}
	p.fill(r)
	px, py := p.at(Point{x, y})
	p.doc.Rect(px, py, width*p.k, height*p.k, "F")
}

// Circle implements [Surface].
func (p *pdf) Circle(r Role, at Point, radius, hollow float64) {
	if !finite(at.X, at.Y, radius) {
		return
	}
	x, y := p.at(at)
	if hollow > 0 {
		p.fill(Paper)
		p.stroke(r, hollow, false)
		p.doc.Circle(x, y, radius*p.k, "FD")
		return
	}
	p.fill(r)
	p.doc.Circle(x, y, radius*p.k, "F")
}

// Text implements [Surface].
func (p *pdf) Text(r Role, t Text) {
	if t.Words == "" || !finite(t.At.X, t.At.Y) {
		return
	}
	t.Words = printable(t.Words)
	style := ""
	if t.Bold {
		style = "B"
	}
	p.doc.SetFont(p.family, style, 12)
	p.doc.SetFontUnitSize(t.Size * p.k)
	x, y := p.at(t.At)
	switch t.Anchor {
	case Middle:
		x -= p.doc.GetStringWidth(t.Words) / 2
	case End:
		x -= p.doc.GetStringWidth(t.Words)
	default: // it starts there
	}
	if t.Halo {
		p.stroke(Paper, 3, false)
		p.doc.SetTextRenderingMode(1)
		p.doc.Text(x, y, t.Words)
	}
	p.doc.SetTextRenderingMode(0)
	c := inks[r]
	p.doc.SetTextColor(c[0], c[1], c[2])
	p.doc.Text(x, y, t.Words)
}

// printable puts "?" for what the embedded typeface cannot write: a PDF would show an empty box there
// and no reader of its text would notice.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' {
			return ' '
		}
		if !Covered(r) {
			return '?'
		}
		return r
	}, s)
}
