package outlook

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// diary makes facts of one farm with one stand; every fact is received on its own evening.
type diary struct {
	t     failer
	facts []book.Fact
}

type failer interface{ Fatal(args ...any) }

func (d *diary) add(subject string, day unit.Day, b book.Body) {
	id := fmt.Sprintf("01900000-0000-7000-8000-%012d", len(d.facts))
	farm := "farm"
	switch b.Kind() {
	case book.KindPlace, book.KindPrices, book.KindStation, book.KindFarm:
		farm = ""
	default:
	}
	f, err := book.New(id, farm, subject, day, "jo", b)
	if err != nil {
		d.t.Fatal(err)
	}
	f.Received = day.Time().Add(20 * time.Hour)
	d.facts = append(d.facts, f)
}

// begun is a farm with a stand and what was seen in it by the end of April 2026.
func begun(t failer) *diary {
	d := &diary{t: t}
	start := unit.DateOf(2024, 1, 5)
	d.add("place", start, &book.Place{Region: "Test", Guide: "Wisconsin"})
	d.add("farm", start, &book.Farm{Name: "Alder", Latitude: 43, Longitude: -89})
	d.add("field", start, &book.Field{Name: "Forty", Acres: 40, Station: "ZZT00000001"})
	d.add("stand", start, stood())
	d.add("prices", unit.DateOf(2026, 3, 1), &book.Prices{Name: "March", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 180}}})
	d.add("stand", unit.DateOf(2026, 4, 22), &book.Visit{Frames: []book.Frame{counted(90), counted(96), counted(82)}, Roots: &book.Roots{Dug: 20, Bad: 3}})
	return d
}

func stood() *book.Stand {
	return &book.Stand{Field: "field", Crop: book.Alfalfa, Seeded: unit.DateOf(2023, 4, 20), Product: book.Haylage, FeedRFV: 150}
}

func counted(stems int) book.Frame { return book.Frame{Stems: &stems, Ft2: 2} }

func spots(height float64, stage book.Stage) *book.Visit {
	v := &book.Visit{}
	for i := range 5 {
		v.Spots = append(v.Spots, book.Spot{HeightIn: height + float64(i-2)*0.5, Stage: stage})
	}
	return v
}

// later are things that a fact can say which would change an outlook if it were heard.
func later(t *rapid.T, d *diary, on unit.Day) {
	grass, ten := 0.7, 10.0
	switch rapid.IntRange(0, 8).Draw(t, "what happens") {
	case 0:
		d.add("stand", on, spots(rapid.Float64Range(8, 50).Draw(t, "height"), book.Bud))
	case 1:
		d.add("stand", on, &book.Cut{Number: 1})
	case 2:
		d.add("stand", on, &book.Visit{Grass: &grass})
	case 3:
		d.add("stand", on, &book.Visit{Tips: book.TipsKilled})
	case 4:
		d.add("stand", on, &book.Visit{Frames: []book.Frame{counted(20), counted(24)}, Roots: &book.Roots{Dug: 20, Bad: 19}})
	case 5:
		under := on
		s := stood()
		s.TurnedUnder = &under
		d.add("stand", on, s)
	case 6:
		d.add("prices", on, &book.Prices{Name: "Later", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 999}}})
	case 7:
		d.add("field", on, &book.Field{Name: "Forty", Acres: 3, Station: "ZZT00000002"})
	case 8:
		d.add("stand", on, &book.Visit{GrowthIn: &ten, Bloom: &ten})
	}
}

func seen(t failer, facts []book.Fact, date unit.Day, known time.Time, skies map[string]*Sky) *Outlook {
	v, err := book.Project(facts, date, known)
	if err != nil {
		t.Fatal(err)
	}
	v.Known = time.Time{} // that it was asked for is no part of what is known
	o, err := Build(v, skies)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// standEqual compares outlooks by what is known of their stands; skies are shared.
func standEqual(a, b *Outlook) string {
	return cmp.Diff(a, b, cmpopts.EquateNaNs(), cmp.AllowUnexported(Ahead{}), cmp.Comparer(func(x, y *Sky) bool { return x == y }))
}

func TestWhatHappensAfterTheDateChangesNothing(t *testing.T) {
	series := record(11, 0)
	rapid.Check(t, func(t *rapid.T) {
		date := unit.DateOf(2026, 4, 25) + unit.Day(rapid.IntRange(0, 60).Draw(t, "day"))
		d := begun(t)
		for range rapid.IntRange(0, 3).Draw(t, "before") {
			later(t, d, date-unit.Day(rapid.IntRange(0, 20).Draw(t, "days before")))
		}
		skies := map[string]*Sky{"ZZT00000001": NewSky(series, date, SkyOptions{})}
		before := seen(t, d.facts, date, time.Time{}, skies)
		for range rapid.IntRange(1, 4).Draw(t, "after") {
			later(t, d, date+unit.Day(rapid.IntRange(1, 30).Draw(t, "days after")))
		}
		if diff := standEqual(before, seen(t, d.facts, date, time.Time{}, skies)); diff != "" {
			t.Fatalf("%s: the future was heard (-without +with):\n%s", date, diff)
		}
		d.add("stand", date, spots(30, book.Bud))
		if standEqual(before, seen(t, d.facts, date, time.Time{}, skies)) == "" {
			t.Fatalf("%s: a reading of the day makes no difference: the comparison sees nothing", date)
		}
	})
}

func TestWhatCameInLaterIsNotKnownBefore(t *testing.T) {
	series := record(11, 0)
	date := unit.DateOf(2026, 5, 24)
	skies := map[string]*Sky{"ZZT00000001": NewSky(series, date, SkyOptions{})}
	d := begun(t)
	d.add("stand", date-1, spots(26, book.Bud))
	d.facts[len(d.facts)-1].Received = (date + 3).Time() // told three days later
	if s := seen(t, d.facts, date, date.Time().Add(8*time.Hour), skies).Stands[0]; len(s.Readings) != 0 {
		t.Error("a reading was known before it came in")
	}
	if s := seen(t, d.facts, date, time.Time{}, skies).Stands[0]; len(s.Readings) != 1 {
		t.Error("a reading that has come in since is not used where all is asked for")
	}
}

// allOf writes down all that a sky holds beside the record it was read from.
func allOf(s *Sky) string {
	out := fmt.Sprint(s.Through, s.Observed, s.Heat41, s.Heat48, s.Fall24, s.Fall28, s.Frosts, s.Winter, s.usual, s.falls)
	for _, m := range s.Members {
		out += fmt.Sprint(*m)
	}
	return out
}

func TestWeatherOnAndAfterTheDateChangesNothing(t *testing.T) {
	series := record(1, 0)
	for date := unit.DateOf(2026, 1, 1); date.Year() == 2026; date += 31 {
		a := NewSky(series, date, SkyOptions{})
		if allOf(a) != allOf(NewSky(poisoned(series, date), date, SkyOptions{})) {
			t.Errorf("%s: weather of the day itself or later was used", date)
		}
		if allOf(a) == allOf(NewSky(poisoned(series, date-1), date, SkyOptions{})) {
			t.Errorf("%s: yesterday's weather makes no difference: the comparison sees nothing", date)
		}
		for _, m := range a.Members {
			if m.Year >= date.Year() {
				t.Errorf("%s: year %d is a member of its own ensemble", date, m.Year)
			}
			if want := int(unit.DateOf(m.Year, 12, 31)-date.InYear(m.Year)) + 1; len(m.TMean) != want {
				t.Errorf("%s: member %d has %d days, want %d", date, m.Year, len(m.TMean), want)
			}
		}
	}
}
