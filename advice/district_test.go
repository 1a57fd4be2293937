package advice_test

import (
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

// district is the invented district with its weather as it was first received.
var district = sync.OnceValues(func() (demo.District, error) { return demo.Make(demo.Seed) })

// morning is what the book knows of the district on a day: its view, and each station's record.
func morning(tb testing.TB, date unit.Day) (*book.View, map[string]*weather.Series) {
	tb.Helper()
	d, err := district()
	if err != nil {
		tb.Fatal(err)
	}
	v, err := book.Project(d.Facts, date, date.Time().Add(6*time.Hour))
	if err != nil {
		tb.Fatal(err)
	}
	blocks := map[string][]*weather.Block{}
	for _, w := range d.WeatherKnown(date) {
		blocks[w.Block.Station] = append(blocks[w.Block.Station], w.Block)
	}
	records := map[string]*weather.Series{}
	for _, st := range d.Stations {
		records[st.ID] = weather.NewSeries(st, blocks[st.ID], date)
	}
	return v, records
}

func skiesOf(records map[string]*weather.Series, date unit.Day) map[string]*outlook.Sky {
	skies := map[string]*outlook.Sky{}
	for id, r := range records {
		skies[id] = outlook.NewSky(r, date, outlook.SkyOptions{})
	}
	return skies
}

func districtRound(tb testing.TB, date unit.Day) *advice.Round {
	tb.Helper()
	v, records := morning(tb, date)
	o, err := outlook.Build(v, skiesOf(records, date))
	if err != nil {
		tb.Fatal(err)
	}
	return advice.Make(o)
}

func TestTheDistrictsRoundKeepsTheLawsAllYear(t *testing.T) {
	for d := day("01-01"); d <= day("12-31"); d += 13 {
		r := districtRound(t, d)
		spoken := map[*outlook.Stand]bool{}
		for i, p := range r.Pieces {
			spoken[p.Stand] = true
			if why := faulty(p); why != "" {
				t.Errorf("%s, %s of %s: %q %s", d, p.Decision, p.Stand.Named(), p.Title, why)
			}
			if i > 0 && r.Pieces[i-1].Urgency > p.Urgency {
				t.Errorf("%s: %q stands before %q", d, r.Pieces[i-1].Title, p.Title)
			}
		}
		for _, s := range r.Outlook.Stands {
			if !spoken[s] {
				t.Errorf("%s: nothing is said of %s", d, s.Named())
			}
		}
	}
}

// BenchmarkDistrictRound times what a round costs once facts and records are read: three stations'
// skies, the outlook of forty-six stands and all advice. It should stay far under 0.3 s.
func BenchmarkDistrictRound(b *testing.B) {
	for _, date := range []string{"05-19", "06-20", "09-08"} {
		v, records := morning(b, day(date))
		b.Run(date, func(b *testing.B) {
			for b.Loop() {
				o, err := outlook.Build(v, skiesOf(records, day(date)))
				if err != nil {
					b.Fatal(err)
				}
				advice.Make(o)
			}
		})
	}
}

// BenchmarkOneStand times all advice for one stand of a district whose outlook stands, as its page
// asks for it. It should stay far under 50 ms.
func BenchmarkOneStand(b *testing.B) {
	for _, date := range []string{"05-19", "09-08"} {
		r := districtRound(b, day(date))
		b.Run(date, func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				advice.For(r.Outlook.Stands[i%len(r.Outlook.Stands)], r.Outlook)
			}
		})
	}
}
