package chart

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// samplePage puts the sample drawings on one letter page with fixed dates, so that its bytes are fixed.
func samplePage(t *testing.T) []byte {
	t.Helper()
	doc := fpdf.New("P", "pt", "Letter", "")
	doc.SetCatalogSort(true)
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	for i, style := range []string{"", "B"} {
		font, err := os.ReadFile(faces[i].file)
		if err != nil {
			t.Fatal(err)
		}
		doc.AddUTF8FontFromBytes("Sans", style, font)
	}
	doc.AddPage()
	all := samples()
	y := 36.0
	for _, row := range [][]string{{"strip-large"}, {"strip-late"}, {"fan", "clock"}, {"map", "staircase"}, {"interval", "week"}, {"strip-1", "strip-3"}, {"window-1", "window-3"}} {
		width := 540 / float64(len(row))
		tall := 0.0
		for i, name := range row {
			w := width - 12*float64(len(row)-1)
			if len(name) > 6 && name[:6] == "window" {
				w = 120
			}
			tall = max(tall, PDF(doc, all[name], "Sans", 36+(width+6)*float64(i), y, w))
		}
		y += tall + 14
	}
	// A mark of the document's own, after the drawings: it must be black and solid.
	doc.SetLineWidth(1)
	doc.Line(36, y, 576, y)
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestPageOfDrawingsIsTheSameBytesAsTheGoldenFile(t *testing.T) {
	got := samplePage(t)
	if !bytes.Equal(got, samplePage(t)) {
		t.Error("drawn twice, the page differs")
	}
	file := filepath.Join("testdata", "page.pdf")
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("testdata/page.pdf is out of date: run with -update and look at the page")
	}
}

func TestPageShowsEveryInkThatTheDrawingsUse(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm (poppler-utils) is not installed: the page cannot be looked at")
	}
	dir := t.TempDir()
	in := filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(in, samplePage(t), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(tool, "-png", "-r", "150", "-singlefile", in, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	f, err := os.Open(filepath.Join(dir, "page.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	pic, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	seen := counts(pic)
	// Muted is only writing, whose thin strokes are all edge; the rest stands as whole pixels.
	for _, r := range []Role{Grown, Growing, InWindow, Best, Rest, Frost, Dry, Target, Fan80, Fan50, Past80, Ground, Paper} {
		if seen[inks[r]] < 20 {
			t.Errorf("the ink of %q covers %d pixels", r, seen[inks[r]])
		}
	}
}

func counts(pic image.Image) map[[3]int]int {
	out := map[[3]int]int{}
	b := pic.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, bl, _ := pic.At(x, y).RGBA()
			out[[3]int{int(r >> 8), int(g >> 8), int(bl >> 8)}]++
		}
	}
	return out
}

func TestEveryRoleHasAnInk(t *testing.T) {
	for _, r := range Roles {
		if _, ok := inks[r]; !ok {
			t.Errorf("role %q has no ink for paper", r)
		}
	}
	if len(inks) != len(Roles) {
		t.Errorf("%d inks for %d roles", len(inks), len(Roles))
	}
}

func TestUnprintableSignsAreReplacedOnPaper(t *testing.T) {
	if got, want := printable("≥ 5 °F 牧\x01"), "≥ 5 °F ? "; got != want {
		t.Errorf("printable gives %q, want %q", got, want)
	}
}
