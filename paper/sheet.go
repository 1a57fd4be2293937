package paper

import (
	"bytes"
	"embed"
	"fmt"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"haywarden/agronomy/unit"
	"haywarden/chart"
)

//go:embed fonts/*.ttf
var fonts embed.FS

// sheet is a US Letter document in points, with the house's type: a serif for names and headings, one
// text face for the rest. Every helper sets the state it needs, since the library's is global.
type sheet struct {
	doc      *fpdf.Fpdf
	pictured bool // the way from field to bunk stands on it
	// warned are the cautions that stand on it already, where each is printed once only; else nil.
	warned map[string]bool
}

const (
	margin   = 50.0
	wide     = 612 - 2*margin
	bodySize = 11.0
	lead     = 14.5
	family   = "text"
	serif    = "name"
)

// newSheet starts a document whose bytes depend on nothing but its content.
func newSheet(title string, made unit.Day, foot string) (*sheet, error) {
	d := fpdf.New("P", "pt", "Letter", "")
	stamp := made.Time().Add(7 * time.Hour)
	d.SetCreationDate(stamp)
	d.SetModificationDate(stamp)
	d.SetCatalogSort(true)
	d.SetTitle(title, true)
	d.SetCreator("Haywarden", true)
	d.SetLang("en-US")
	for _, f := range []struct{ family, style, file string }{
		{family, "", "source-sans-3-400.ttf"}, {family, "B", "source-sans-3-600.ttf"}, {serif, "", "source-serif-4-600.ttf"},
	} {
		data, err := fonts.ReadFile("fonts/" + f.file)
		if err != nil {
			return nil, fmt.Errorf("read typeface: %w", err)
		}
		d.AddUTF8FontFromBytes(f.family, f.style, data)
	}
	d.SetMargins(margin, 46, margin)
	d.SetAutoPageBreak(true, 54)
	d.SetCellMargin(0)
	d.AliasNbPages("{pages}")
	s := &sheet{doc: d}
	d.SetFooterFunc(func() {
		d.SetY(-42)
		s.ink(quiet)
		d.SetFont(family, "", 8)
		d.CellFormat(wide-60, 11, clean(foot), "", 0, "L", false, 0, "")
		// The library measures the alias, not the number that takes its place.
		over := d.GetStringWidth("{pages}") - d.GetStringWidth("2")
		d.CellFormat(60+over, 11, fmt.Sprintf("Page %d of {pages}", d.PageNo()), "", 0, "R", false, 0, "")
	})
	d.AddPage()
	return s, nil
}

type tone [3]int

var (
	ink    = tone{28, 38, 32}
	quiet  = tone{88, 96, 90}
	accent = tone{75, 45, 132}
	hair   = tone{205, 200, 186}
)

func (s *sheet) ink(t tone) { s.doc.SetTextColor(t[0], t[1], t[2]) }

// say writes a paragraph.
func (s *sheet) say(text string, size float64, style string, t tone) {
	s.ink(t)
	s.doc.SetFont(family, style, size)
	s.doc.MultiCell(wide, size*lead/bodySize, clean(text), "", "L", false)
}

// head writes a heading in the serif.
func (s *sheet) head(text string, size float64) {
	s.ink(ink)
	s.doc.SetFont(serif, "", size)
	s.doc.MultiCell(wide, size*1.25, clean(text), "", "L", false)
}

func (s *sheet) gap(h float64) { s.doc.Ln(h) }

// rule draws a hair line across.
func (s *sheet) rule() {
	s.doc.SetDrawColor(hair[0], hair[1], hair[2])
	s.doc.SetLineWidth(0.6)
	s.doc.SetDashPattern([]float64{}, 0)
	y := s.doc.GetY()
	s.doc.Line(margin, y, margin+wide, y)
}

// room starts a new page unless h points are left on this one.
func (s *sheet) room(h float64) {
	_, high := s.doc.GetPageSize()
	if s.doc.GetY()+h > high-54 {
		s.doc.AddPage()
	}
}

// draw puts a drawing across the given width.
func (s *sheet) draw(d chart.Drawing, x, width float64) {
	y := s.doc.GetY()
	h := chart.PDF(s.doc, d, family, x, y, width)
	s.doc.SetY(y + h)
}

// key explains the marks of a drawing in one line, more where it is full.
func (s *sheet) key(keys []chart.Key) {
	const size, high, mark, between = 8.5, 13.0, 11.0, 11.0
	x, y := margin, s.doc.GetY()
	for _, k := range keys {
		s.ink(quiet)
		s.doc.SetFont(family, "", size)
		words := s.doc.GetStringWidth(k.Words)
		if x+mark+4+words > margin+wide {
			x, y = margin, y+high
		}
		h := chart.PDF(s.doc, k, family, x, y+1.5, mark)
		s.ink(quiet)
		s.doc.SetFont(family, "", size)
		s.doc.Text(x+mark+4, y+1.5+h*0.85, k.Words)
		x += mark + 4 + words + between
	}
	s.doc.SetXY(margin, y+high)
	s.gap(6)
}

func (s *sheet) bytes() ([]byte, error) {
	var b bytes.Buffer
	if err := s.doc.Output(&b); err != nil {
		return nil, fmt.Errorf("write document: %w", err)
	}
	return b.Bytes(), nil
}

// clean replaces what the typefaces cannot print.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if chart.Covered(r) || r == '\n' {
			return r
		}
		return '?'
	}, text)
}

// FileName is a document's name for saving: letters, digits and dashes.
func FileName(name string, d unit.Day) string {
	plain := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r == ' ', r == '-', r == '_':
			return '-'
		}
		return -1
	}, strings.ToLower(name))
	if strings.Trim(plain, "-") == "" {
		plain = "farm"
	}
	return plain + "-" + d.String() + ".pdf"
}
