package paper_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/chart"
	"haywarden/outlook"
	"haywarden/paper"
)

// made is a farm's report of a day.
type made struct {
	o      *outlook.Outlook
	f      *book.FarmView
	stands []advice.StandAdvice
	pdf    []byte
}

func (m made) where() string { return m.f.Name + " on " + m.o.Date.String() }

// reports are those of every farm of the district on days of all seasons.
var reports = sync.OnceValues(func() ([]made, error) {
	var all []made
	for _, d := range days {
		o, err := morning(d)
		if err != nil {
			return nil, err
		}
		for _, f := range o.View.Farms {
			stands := standsOf(o, f)
			pdf, err := paper.FarmReport(f, o, stands, true)
			if err != nil {
				return nil, err
			}
			all = append(all, made{o, f, stands, pdf})
		}
	}
	return all, nil
})

func TestEveryFarmsReportIsOneOrTwoPagesTheSameEachTime(t *testing.T) {
	all, err := reports()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range all {
		if n := pages(m.pdf); n < 1 || n > 2 {
			t.Errorf("%s: %d pages", m.where(), n)
		}
		if m.o.Date != days[0] {
			continue
		}
		again, err := paper.FarmReport(m.f, m.o, m.stands, true)
		if err != nil || !bytes.Equal(m.pdf, again) {
			t.Errorf("%s: two reports of one day differ, error %v", m.where(), err)
		}
	}
}

func TestAReportTellsItsFarmAndNoOther(t *testing.T) {
	all, err := reports()
	if err != nil {
		t.Fatal(err)
	}
	ways, drawn := 0, 0 // a farm of many stands has no room for the picture
	for _, m := range all {
		flat := strings.Join(strings.Fields(textOf(t, m.pdf)), " ")
		f, stands, where := m.f, m.stands, m.where()
		wanted := []string{f.Name, "call your forage educator", "educational estimate, not a guarantee", "Invented farm", "Page 1 of"}
		if len(f.Contacts) > 0 {
			wanted = append(wanted, "For "+f.Contacts[0].Body.Name)
		}
		for _, sa := range stands {
			wanted = append(wanted, sa.Stand.InField.Name, sa.Pieces[0].Title, sa.Pieces[0].Sentence)
			wanted = append(wanted, sa.Pieces[0].Cautions...)
		}
		// The way from field to bunk of the most pressing cut is drawn.
		for _, sa := range paper.Ordered(stands) {
			if b, ok := paper.FieldToBunk(sa.Stand, sa.Pieces); ok {
				ways++
				if strings.Contains(flat, b.Stairs.Title+". "+b.Stairs.Desc) {
					drawn++
				}
				break
			}
		}
		// Whatever piece is printed, its cautions are.
		for _, sa := range stands {
			for _, p := range sa.Pieces {
				bunk := p.Decision == "harvest-way" && strings.Contains(flat, "RFV at the bunk")
				if _, ok := paper.FieldToBunk(sa.Stand, sa.Pieces); bunk && ok || strings.Contains(flat, strings.Join(strings.Fields(p.Title), " ")) {
					wanted = append(wanted, p.Cautions...)
				}
			}
		}
		for _, w := range wanted {
			if !strings.Contains(flat, strings.Join(strings.Fields(w), " ")) {
				t.Errorf("%s: the report does not say %q", where, w)
			}
		}
		// A year is drawn for each stand: its strip names the months.
		if n := strings.Count(flat, "Mar Apr May Jun"); n != len(stands) {
			t.Errorf("%s: %d years drawn for %d stands", where, n, len(stands))
		}
		if strings.ContainsAny(flat, "?\ufffd") || strings.Contains(flat, "NaN") || strings.Contains(flat, "%!") {
			t.Errorf("%s: something could not be printed", where)
		}
		if other := othersNamed(m.o.View, f, flat); other != "" {
			t.Errorf("%s: the report names %s", where, other)
		}
	}
	if ways < 10 || drawn < ways/2 {
		t.Errorf("%d of %d reports with a cut ahead draw the way from field to bunk", drawn, ways)
	}
	t.Logf("%d of %d", drawn, ways)
}

// othersNamed looks for names of other farms and of their fields.
func othersNamed(v *book.View, f *book.FarmView, text string) string {
	own := map[string]bool{f.Name: true}
	for _, fd := range f.Fields {
		own[fd.Name] = true
	}
	// Stations are named for places, some of which farms are named for too.
	for _, st := range v.Stations {
		text = strings.ReplaceAll(text, st.Name, "")
	}
	for _, other := range v.Farms {
		names := []string{other.Name}
		for _, fd := range other.Fields {
			names = append(names, fd.Name)
		}
		for _, name := range names {
			if !own[name] && strings.Contains(text, name) {
				return name
			}
		}
	}
	return ""
}

// drawnFarm is a farm with two stands put together by hand, so that its report hangs on nothing but
// the layout.
func drawnFarm() (*book.FarmView, *outlook.Outlook, []advice.StandAdvice) {
	today := unit.DateOf(2026, time.May, 19)
	f := &book.FarmView{ID: "f", Farm: book.Farm{Name: "Alder Run", County: "Wend"}, Contacts: []book.Dated[book.Contact]{{Body: book.Contact{Name: "Ada Birch"}}}}
	stand := func(name string, acres float64) *outlook.Stand {
		field := &book.FieldView{Field: book.Field{Name: name, Acres: acres}}
		v := &book.StandView{Farm: f, InField: field, Stand: book.Stand{Crop: book.Alfalfa, Seeded: unit.DateOf(2023, time.April, 20)}}
		return &outlook.Stand{StandView: v, Date: today, Year: 3, Growth: outlook.Growth{Number: 1, Since: unit.DateOf(2026, time.March, 1)}}
	}
	one, two := stand("Home Forty", 40), stand("Ærø & Søn", 12.5)
	cut := &advice.Piece{
		Decision: "first-cut", Stand: one, Urgency: advice.Today, Title: "Cut from Thursday", Sentence: "Standing RFV comes down to 170 about Friday 22 May.",
		Window:   &advice.Window{Early: today - 3, Middle: today + 3, Late: today + 9, Best: today + 2},
		Worth:    advice.Worth{Text: "A week's wait loses 21 points.", Dollars: &advice.Dollars{Low: 31, Middle: 46, High: 66, Against: "waiting until 28 May", Line: "Prices (2026-03-01), $1.25 a point of hay", Short: "Prices, $1.25 a point"}},
		Measure:  "a stick reading of five spots",
		Grounds:  []advice.Ground{{What: "Stick reading", Value: "RFV 185 ± 16", How: "five spots", Sources: []source.ID{source.StemClasses}}},
		Cautions: []string{"The label is the law."},
	}
	rest := &advice.Piece{Decision: "nothing-due", Stand: two, Urgency: advice.Rest, Title: "Nothing due", Sentence: "First growth."}
	return f, &outlook.Outlook{Date: today}, []advice.StandAdvice{{Stand: two, Pieces: []*advice.Piece{rest}}, {Stand: one, Pieces: []*advice.Piece{cut}}}
}

func TestTheSameReportHasTheSameBytes(t *testing.T) {
	const golden = "testdata/report.sha256"
	pdf, err := paper.FarmReport(drawn())
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(pdf)
	got := hex.EncodeToString(sum[:]) + "\n"
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the report's bytes have changed: look at its pages, then go test ./paper -update")
	}
}

func drawn() (*book.FarmView, *outlook.Outlook, []advice.StandAdvice, bool) {
	f, o, stands := drawnFarm()
	return f, o, stands, false
}

func TestAReportLeadsWithWhatPresses(t *testing.T) {
	pdf, err := paper.FarmReport(drawn())
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(textOf(t, pdf)), " ")
	at := -1
	for _, want := range []string{
		"Forage report · Tuesday 19 May 2026", "Alder Run", "2 stands, 52 acres, Wend.", "First", "Home Forty Cut from Thursday", "grown", "window, best day",
		"Home Forty", "40 acres · alfalfa, third year · seeded 20 April 2023", "Cut from Thursday 16–28 May, 8 chances in 10; best 21 May",
		"Standing RFV", "loses 21 points", "$46 an acre ($31 to $66) against waiting until 28 May, by Prices, $1.25 a point.",
		"Measure next: a stick reading of five spots.", "Caution: The label is the law.", "Rests on Stick reading: RFV 185 ± 16.",
		"Ærø & Søn", "12.5 acres", "Nothing due", "Sources: ", "Prices: Prices (2026-03-01), $1.25 a point of hay.", "For Ada Birch. Questions",
	} {
		i := strings.Index(text[at+1:], want)
		if i < 0 {
			t.Fatalf("%q does not come next in %q", want, text[max(0, at):])
		}
		at += i + 1
	}
	if strings.Contains(text, "Invented") {
		t.Error("a farm of the book is called invented")
	}
}

// However many stands a farm has, so that little room is left for each, all that can hurt someone is
// printed with its cautions: a stack that is hot, and another danger on the same stand.
func TestNoReportLeavesOutWhatCanHurtSomeone(t *testing.T) {
	f, o, stands := drawnFarm()
	today := stands[1]
	for i := range 24 {
		stands = append(stands, advice.StandAdvice{Stand: today.Stand, Pieces: []*advice.Piece{
			{Decision: "hot-stack", Stand: today.Stand, Urgency: advice.Safety, Title: fmt.Sprintf("Hot hay %d", i), Sentence: "Its core read 165 F.", Cautions: []string{fmt.Sprintf("Call the fire service before you open stack %d.", i)}},
			{Decision: "other-danger", Stand: today.Stand, Urgency: advice.Safety, Title: fmt.Sprintf("Gas in silo %d", i), Sentence: "Keep out.", Cautions: []string{fmt.Sprintf("Stay out of silo %d.", i)}},
		}})
	}
	pdf, err := paper.FarmReport(f, o, stands, false)
	if err != nil {
		t.Fatal(err)
	}
	flat := strings.Join(strings.Fields(textOf(t, pdf)), " ")
	for i := range 24 {
		for _, w := range []string{fmt.Sprintf("Hot hay %d ", i), fmt.Sprintf("open stack %d.", i), fmt.Sprintf("Gas in silo %d ", i), fmt.Sprintf("out of silo %d.", i)} {
			if !strings.Contains(flat, w) {
				t.Errorf("the report lacks %q", w)
			}
		}
	}
}

func TestAFarmWithoutStandsGetsAPage(t *testing.T) {
	f, o, _ := drawnFarm()
	f.Contacts = nil
	pdf, err := paper.FarmReport(f, o, nil, false)
	if err != nil || pages(pdf) != 1 {
		t.Fatalf("%d pages, error %v", pages(pdf), err)
	}
	text := textOf(t, pdf)
	if !strings.Contains(text, "No stand grows on this farm on this day.") || strings.Contains(text, "For ") {
		t.Errorf("the page says %q", text)
	}
}

// TestWhatTheTypefacesLackIsSeen: a sign that cannot be printed comes out as a question mark, never as
// an empty box.
func TestWhatTheTypefacesLackIsSeen(t *testing.T) {
	f, o, stands := drawnFarm()
	f.Name = "Alder 草 Run"
	if chart.Covered('草') {
		t.Fatal("the typeface covers the sign taken for one it lacks")
	}
	pdf, err := paper.FarmReport(f, o, stands, false)
	if err != nil {
		t.Fatal(err)
	}
	if text := textOf(t, pdf); !strings.Contains(text, "Alder ? Run") {
		t.Errorf("the page says %q", text)
	}
}

func TestEveryRuneOfTheYearCanBePrinted(t *testing.T) {
	lost := map[rune]string{}
	see := func(texts ...string) {
		for _, text := range texts {
			for _, r := range text {
				if !chart.Covered(r) && r != '\n' {
					lost[r] = text
				}
			}
		}
	}
	for _, d := range days {
		o, err := morning(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range o.Stands {
			see(s.Named(), advice.Describe(s), s.Farm.County, s.Variety)
			for _, c := range s.Farm.Contacts {
				see(c.Body.Name)
			}
			for _, p := range advice.For(s, o) {
				see(p.Title, p.Sentence, p.Worth.Text, p.Measure)
				see(p.Cautions...)
				if w := p.Worth.Dollars; w != nil {
					see(w.Line, w.Short, w.Against)
				}
				for _, g := range p.Grounds {
					see(g.What, g.Value, g.How)
					for _, id := range g.Sources {
						src, ok := source.Find(id)
						if !ok {
							t.Errorf("no source has the id %s", id)
						}
						see(src.Cite)
					}
				}
			}
		}
	}
	for r, text := range lost {
		t.Errorf("%s cannot be printed in %q", fmt.Sprintf("%U", r), text)
	}
}

func TestFileNamesAreSafe(t *testing.T) {
	d := unit.DateOf(2026, time.May, 19)
	for name, want := range map[string]string{
		"Tansy Hollow": "tansy-hollow-2026-05-19.pdf", "O'Hara & Søn/../": "ohara--sn-2026-05-19.pdf", "\"\r\nX": "x-2026-05-19.pdf", "草": "farm-2026-05-19.pdf",
	} {
		if got := paper.FileName(name, d); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}
