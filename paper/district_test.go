package paper_test

import (
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/demo"
	"haywarden/outlook"
	"haywarden/weather"
)

var update = flag.Bool("update", false, "write the golden files from what is made")

var district = sync.OnceValues(func() (demo.District, error) { return demo.Make(demo.Seed) })

// mornings keeps the outlooks made, by day: they are never changed.
var mornings sync.Map

// morning is the outlook of the invented district on a day.
func morning(date unit.Day) (*outlook.Outlook, error) {
	if o, ok := mornings.Load(date); ok {
		return o.(*outlook.Outlook), nil
	}
	d, err := district()
	if err != nil {
		return nil, err
	}
	v, err := book.Project(d.Facts, date, date.Time().Add(6*time.Hour))
	if err != nil {
		return nil, err
	}
	blocks := map[string][]*weather.Block{}
	for _, w := range d.WeatherKnown(date) {
		blocks[w.Block.Station] = append(blocks[w.Block.Station], w.Block)
	}
	skies := map[string]*outlook.Sky{}
	for _, st := range d.Stations {
		skies[st.ID] = outlook.NewSky(weather.NewSeries(st, blocks[st.ID], date), date, outlook.SkyOptions{})
	}
	o, err := outlook.Build(v, skies)
	if err == nil {
		mornings.Store(date, o)
	}
	return o, err
}

// standsOf are a farm's stands with their advice.
func standsOf(o *outlook.Outlook, f *book.FarmView) []advice.StandAdvice {
	var out []advice.StandAdvice
	for _, s := range o.Stands {
		if s.Farm.ID == f.ID {
			out = append(out, advice.StandAdvice{Stand: s, Pieces: advice.For(s, o)})
		}
	}
	return out
}

// days of all seasons: counting, frost, first cut, later cuts, rest, snow.
var days = []unit.Day{
	unit.DateOf(2025, time.June, 10), unit.DateOf(2026, time.January, 14), unit.DateOf(2026, time.March, 5), unit.DateOf(2026, time.April, 15),
	unit.DateOf(2026, time.May, 4), unit.DateOf(2026, time.May, 14), unit.DateOf(2026, time.May, 19), unit.DateOf(2026, time.June, 20),
	unit.DateOf(2026, time.July, 20), unit.DateOf(2026, time.September, 8), unit.DateOf(2026, time.October, 10), unit.DateOf(2026, time.December, 10),
	unit.DateOf(2027, time.May, 19),
}

// textOf reads a document as a person's program would; the test is skipped where there is none, unless
// it is demanded.
func textOf(t *testing.T, pdf []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("HAYWARDEN_DEMAND") == "1" {
			t.Fatal("pdftotext is not installed, and HAYWARDEN_DEMAND asks for it")
		}
		t.Skip("pdftotext is not installed: the words of documents cannot be read back")
	}
	file := filepath.Join(t.TempDir(), "report.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), "pdftotext", "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func pages(pdf []byte) int { return strings.Count(string(pdf), "/Type /Page\n") }
