package office_test

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
	"haywarden/weather"
	"haywarden/weather/csvdaily"
	"haywarden/weather/intake"
)

// Every kind of fact goes in through the office and comes out in the view of the book.
func TestEveryKindOfFactIsKept(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	farm, stand := oneStand(t, o)
	day := unit.DateOf(2026, 5, 11)
	until, stems, tons := day+300, 61, 1.4
	visit := book.Visit{
		Spots: []book.Spot{{HeightIn: 27, Stage: book.Bud}, {HeightIn: 24.5, Stage: book.Vegetative}}, Frames: []book.Frame{{Stems: &stems, Ft2: 2}},
		Roots: &book.Roots{Dug: 20, Bad: 4}, Tips: book.TipsSound, Note: "two wet spots",
	}
	bodies := map[string]book.Body{
		"contact": book.Contact{Name: "Ida Quell", Phone: "555 0100"}, "consent": book.Consent{Use: "bulletin", Given: true, Until: &until},
		"visit": visit, "cut": book.Cut{Number: 1, Product: book.Haylage, TonsDM: &tons}, "lab": book.Lab{Sample: "haylage", NDF: 41, ADF: 31},
		"call": book.Call{Said: "cut by Friday"}, "advice": book.Advice{Decision: "first-cut", Sentence: "Cut.", MadeFrom: "abc"},
		"own deck": book.Prices{Name: "own", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 200}}},
		"deck":     book.Prices{Name: "May", Lines: []book.PriceLine{{Name: book.HayBase, Unit: "$/ton", Value: 180}}},
		"station":  book.Station{ID: "ZZT00000001", Name: "Test Ridge", Latitude: 44, Longitude: -90, Elevation: 300, WholeF: true},
		"event":    book.Event{Title: "Field day", People: 40}, "place": book.Place{Region: "Test counties", Guide: "Kentucky"},
	}
	ids := map[string]string{}
	for name, b := range bodies {
		e := office.Entry{Farm: farm, Day: day, Body: b}
		switch name {
		case "visit", "cut", "lab":
			e.Subject = stand
		case "deck", "station", "event", "place":
			e.Farm = ""
		}
		id, err := book.NewID(o.Now(), rand.NewChaCha8([32]byte([]byte(name+strings.Repeat(".", 32-len(name))))))
		if err != nil {
			t.Fatal(err)
		}
		e.ID, ids[name] = id, id
		record(t, o, e)
	}
	outcome := book.Outcome{Advice: ids["advice"], Taken: "partly", Came: "half was cut before rain"}
	record(t, o, office.Entry{Farm: farm, Day: day, Body: outcome})
	record(t, o, office.Entry{Farm: farm, Subject: stand, Day: day, Body: book.Visit{Note: "wrong field"}, ID: "01900000-0000-7000-8000-000000000001"})
	record(t, o, office.Entry{Farm: farm, Subject: stand, Day: day, Body: book.Withdrawn{Why: "wrong field"}, Supersedes: "01900000-0000-7000-8000-000000000001"})

	v, err := o.View(t.Context(), ida, office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	f := v.Farms[0]
	s := f.Fields[0].Stands[0]
	got := map[string]book.Body{}
	one := func(name string, n int, body func() book.Body) {
		if n != 1 {
			t.Errorf("%s: %d in the view, want 1", name, n)
			return
		}
		got[name] = body()
	}
	one("contact", len(f.Contacts), func() book.Body { return f.Contacts[0].Body })
	one("consent", len(f.Consents), func() book.Body { return f.Consents[0].Body })
	one("visit", len(s.Visits), func() book.Body { return s.Visits[0].Body })
	one("cut", len(s.Cuts), func() book.Body { return s.Cuts[0].Body })
	one("lab", len(s.Labs), func() book.Body { return s.Labs[0].Body })
	one("call", len(f.Calls), func() book.Body { return f.Calls[0].Body })
	one("advice", len(f.Advice), func() book.Body { return f.Advice[0].Body })
	one("outcome", len(f.Outcomes), func() book.Body { return f.Outcomes[0].Body })
	one("own deck", len(f.Prices), func() book.Body { return f.Prices[0].Body })
	one("deck", len(v.Prices), func() book.Body { return v.Prices[0].Body })
	one("station", len(v.Stations), func() book.Body { return v.Stations[0] })
	one("event", len(v.Events), func() book.Body { return v.Events[0].Body })
	one("place", 1, func() book.Body { return v.Place })
	bodies["outcome"] = outcome
	if diff := cmp.Diff(bodies, got); diff != "" {
		t.Errorf("view (-recorded +shown):\n%s", diff)
	}
	if s.Visits[0].Author != "ida" || s.Visits[0].Day != day {
		t.Errorf("the visit is of %s by %s, want %s by ida", s.Visits[0].Day, s.Visits[0].Author, day)
	}
}

// A field whose station came with its weather alone is judged like any other, and on whole degrees F
// where its observers read those.
func TestAStationThatOnlyItsWeatherDescribesWillDo(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	const id = "USC00999999"
	day := unit.DateOf(2022, 4, 20)
	farm := record(t, o, office.Entry{Day: day, Body: book.Farm{Name: "Alder Run"}})
	field := record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Field{Name: "Home Forty", Acres: 40, Station: id}})
	record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Stand{Field: field, Crop: book.Alfalfa, Seeded: day}})
	look := func() weather.Station {
		t.Helper()
		s, err := o.Stand(t.Context(), ida, "Home Forty", office.Ask{})
		if err != nil {
			t.Fatal(err)
		}
		if sky := s.Outlook.Skies[id]; sky != nil {
			return sky.Station
		}
		return weather.Station{}
	}
	if st := look(); st.ID != "" {
		t.Fatalf("there is weather before any was brought: %+v", st)
	}
	text := "STATION,NAME,LATITUDE,LONGITUDE,ELEVATION,DATE,PRCP,TMAX,TMIN\n"
	for i := range 45 {
		text += id + ",ALDER 1 N,43.07,-89.4,262.1," + (unit.DateOf(2026, 4, 4) + unit.Day(i)).String() + ",0.0,20.0,6.1\n"
	}
	if _, err := o.ImportWeather(t.Context(), ida, strings.NewReader(text), "a.csv", intake.Options{Units: csvdaily.Metric}); err != nil {
		t.Fatal(err)
	}
	want := weather.Station{ID: id, Name: "ALDER 1 N", Latitude: 43.07, Longitude: -89.4, Elevation: 262.1, WholeF: true}
	if diff := cmp.Diff(want, look()); diff != "" {
		t.Errorf("station (-want +got):\n%s", diff)
	}
	// A form without a place for the name takes nothing away, and a fact of the book's own goes before.
	if _, err := o.ImportWeather(t.Context(), ida, strings.NewReader(id+",20260519,TMAX,200,,,0,\n"), "b.csv", intake.Options{Units: csvdaily.Unstated}); err != nil {
		t.Fatal(err)
	}
	if st := look(); st != want {
		t.Errorf("after a file without names the station is %+v", st)
	}
	record(t, o, office.Entry{Subject: id, Day: day, Body: book.Station{ID: id, Name: "Our own", WholeF: false}})
	if st := look(); st != (weather.Station{ID: id, Name: "Our own"}) {
		t.Errorf("with a fact of our own: %+v", st)
	}
}

func TestAStationIsDescribedAsItWasKnown(t *testing.T) {
	o, c := newOffice(t, "2026-05-10 08:00")
	bring := func(name string) {
		t.Helper()
		text := "STATION,NAME,DATE,PRCP,TMAX,TMIN\nZZT00000001," + name + ",2026-05-01,0.0,20.0,10.0\n"
		if _, err := o.ImportWeather(t.Context(), ida, strings.NewReader(text), name+".csv", intake.Options{Units: csvdaily.Metric}); err != nil {
			t.Fatal(err)
		}
	}
	bring("Old name")
	then := o.Now()
	c.set("2026-05-19 08:00")
	bring("New name")
	for name, k := range map[string]struct {
		known   time.Time
		imports int
	}{"Old name": {then, 1}, "New name": {time.Time{}, 2}} {
		s, err := o.Station(t.Context(), ida, "ZZT00000001", office.Ask{Known: k.known})
		if err != nil {
			t.Fatal(err)
		}
		if s.Series.Station.Name != name || len(s.Imports) != k.imports {
			t.Errorf("known %v: %q with %d imports, want %q with %d", k.known, s.Series.Station.Name, len(s.Imports), name, k.imports)
		}
	}
	if _, err := o.Station(t.Context(), ida, "ZZT00000001", office.Ask{Known: then.Add(-time.Hour)}); err == nil {
		t.Error("the station was known before it came")
	}
}

func TestAWeatherReportIsStoredWithItsImport(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	text := "STATION,NAME,DATE,PRCP,TMAX,TMIN\nZZT00000001,T,2026-05-01,0.0,10.0,20.0\nZZT00000001,T,2026-05-02,0.0,20.0,10.0\n"
	if _, err := o.ImportWeather(t.Context(), ida, strings.NewReader(text), "x.csv", intake.Options{Units: csvdaily.Metric}); err != nil {
		t.Fatal(err)
	}
	s, err := o.Station(t.Context(), ida, "ZZT00000001", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Imports) != 1 || !strings.Contains(string(s.Imports[0].Report), "inconsistent") {
		t.Errorf("imports %+v: the report with the day that failed is not there", s.Imports)
	}
	if i, ok := s.Series.Index(unit.DateOf(2026, 5, 1)); !ok || s.Series.HasTemperature(unit.DateOf(2026, 5, 1)) || !s.Series.HasTemperature(unit.DateOf(2026, 5, 2)) {
		t.Errorf("day %d of the series: a highest temperature below the lowest was used", i)
	}
}

func TestNewWeatherChangesTheNextAnswer(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	oneStand(t, o)
	before := roundJSON(t, o, office.Ask{})
	if _, err := o.ImportWeather(t.Context(), ida, days([]string{"ZZT00000001"}, unit.DateOf(2026, 4, 1), 45, "20"), "w.csv", intake.Options{Units: csvdaily.Metric}); err != nil {
		t.Fatal(err)
	}
	if after := roundJSON(t, o, office.Ask{}); string(after) == string(before) || !strings.Contains(string(before), "No weather of station ZZT00000001") {
		t.Errorf("the round did not change with its weather: %s", after)
	}
}

func TestAMisspeltStandIsSuggested(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	oneStand(t, o)
	for name, suggests := range map[string]bool{"Home Forti": true, "alderrun": true, "home": true, "Alder Run Hoem Forty": true, "Zebra": false, "": false} {
		_, err := o.Stand(t.Context(), ida, name, office.Ask{})
		if err == nil || strings.Contains(err.Error(), "did you mean Alder Run · Home Forty?") != suggests {
			t.Errorf("%q: error %v, want a suggestion: %t", name, err, suggests)
		}
	}
}
