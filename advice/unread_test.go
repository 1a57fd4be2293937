package advice_test

import (
	"math"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/demo"
	"haywarden/outlook"
	"haywarden/weather"
)

// districtOn is the invented district as it was known on a morning.
func districtOn(t *testing.T, d demo.District, date unit.Day) *outlook.Outlook {
	t.Helper()
	v, err := book.Project(d.Facts, date, date.Time().Add(6*time.Hour))
	if err != nil {
		t.Fatal(err)
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
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// What is said of stands that nobody read is held against the truth behind the invented records, which is
// made otherwise than by the methods that judge it, and beside it against sentinels left out. Several
// districts are drawn, as one has few sentinels.
func TestUnreadStandsAreJudgedAsWellAsIsClaimed(t *testing.T) {
	var unread, inside int
	var off, sq, claimed float64
	var all []outlook.LeftOut
	for _, seed := range []uint64{demo.Seed, 1, 7, 2026} {
		d, err := demo.Make(seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, date := range []unit.Day{unit.DateOf(2026, 5, 12), unit.DateOf(2026, 5, 19), unit.DateOf(2026, 5, 26)} {
			o := districtOn(t, d, date)
			all = append(all, o.LeaveOut()...)
			for _, s := range o.Stands {
				if s.Standing == nil || !s.Standing.Borrowed || s.Standing.From[0].Name != outlook.BasisNeighbours {
					continue
				}
				was, ok := d.Truth(s.ID, date-1)
				if !ok || was.Growth != 1 {
					continue // cut, and the book does not know it yet
				}
				e := s.Standing.NDF - was.NDF
				unread++
				off += e
				sq += e * e
				claimed += s.Standing.SDNDF * s.Standing.SDNDF
				if math.Abs(e) <= 1.2816*s.Standing.SDNDF {
					inside++
				}
			}
		}
	}
	n := float64(unread)
	rmse, said := math.Sqrt(sq/n), math.Sqrt(claimed/n)
	p := outlook.Pool(all)
	t.Logf("%d unread stands against the truth: off by %+.2f, RMSE %.2f, claimed %.2f NDF, %.0f %% within 8 chances in 10", unread, off/n, rmse, said, 100*float64(inside)/n)
	t.Logf("%d sentinels left out: off by %+.2f, RMSE %.2f, claimed %.2f NDF, %.0f %% within", p.Stands, p.Bias, p.RMSE, p.Claimed, 100*float64(p.Inside)/float64(p.Stands))
	if unread < 40 || p.Stands < 20 {
		t.Fatalf("%d unread, %d left out", unread, p.Stands)
	}
	if share := float64(inside) / n; share < 0.65 {
		t.Errorf("%.0f %% of unread stands within 8 chances in 10", 100*share)
	}
	if rmse > 1.3*said {
		t.Errorf("unread stands are off by %.2f NDF, %.2f claimed", rmse, said)
	}
	if p.RMSE > 1.3*p.Claimed || float64(p.Inside)/float64(p.Stands) < 0.65 {
		t.Errorf("left-out sentinels: %+v", p)
	}
}

func TestAStandLeftOutDoesNotKnowItsOwnReading(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	o := districtOn(t, d, unit.DateOf(2026, 5, 19))
	for _, l := range o.LeaveOut() {
		if l.Judged.From[0].Name != outlook.BasisNeighbours || !l.Judged.Borrowed {
			t.Errorf("%s is judged from %s", l.Stand.Named(), l.Judged.From[0].Name)
		}
		if l.Read.Borrowed || l.Judged.SDNDF <= l.Read.SDNDF {
			t.Errorf("%s: read %.1f ± %.1f, judged %.1f ± %.1f", l.Stand.Named(), l.Read.NDF, l.Read.SDNDF, l.Judged.NDF, l.Judged.SDNDF)
		}
	}
}
