package office_test

import (
	"context"
	"errors"
	"io"
	"math/rand/v2"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/husbandry"
	"haywarden/office"
	"haywarden/weather"
	"haywarden/weather/csvdaily"
	"haywarden/weather/intake"
)

var ida = office.Actor{Name: "ida", Role: office.Adviser}

// clock is a clock that a test turns.
type clock struct {
	mu  sync.Mutex
	now time.Time
}

func (c *clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *clock) set(s string) {
	t, err := time.Parse("2006-01-02 15:04", s)
	if err != nil {
		panic(err)
	}
	c.mu.Lock()
	c.now = t
	c.mu.Unlock()
}

func newOffice(t *testing.T, at string) (*office.Office, *clock) {
	t.Helper()
	c := &clock{}
	c.set(at)
	db, err := store.Create(t.Context(), filepath.Join(t.TempDir(), "test.book"), store.Options{Now: c.Now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	return office.New(db, c.Now, rand.NewChaCha8([32]byte{1})), c
}

func record(t *testing.T, o *office.Office, e office.Entry) string {
	t.Helper()
	r, err := o.Record(t.Context(), ida, e)
	if err != nil {
		t.Fatal(err)
	}
	return r.Subjects[0]
}

// oneStand records a farm with one field and one stand of alfalfa, and returns farm and stand.
func oneStand(t *testing.T, o *office.Office) (farm, stand string) {
	t.Helper()
	day := unit.DateOf(2022, 4, 20)
	farm = record(t, o, office.Entry{Day: day, Body: book.Farm{Name: "Alder Run"}})
	field := record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Field{Name: "Home Forty", Acres: 40, Station: "ZZT00000001"}})
	stand = record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Stand{Field: field, Crop: book.Alfalfa, Seeded: day, Product: book.Haylage, FeedRFV: 150}})
	return farm, stand
}

func TestNobodyElseMayDoAnything(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	ctx := t.Context()
	for _, a := range []office.Actor{{}, {Name: "eve"}, {Name: "eve", Role: "guest"}, {Role: office.Adviser}} {
		for name, do := range map[string]func() error{
			"record":   func() error { _, err := o.Record(ctx, a, office.Entry{Body: book.Farm{Name: "X"}}); return err },
			"receive":  func() error { _, err := o.Receive(ctx, a, nil); return err },
			"round":    func() error { _, err := o.Round(ctx, a, office.Ask{}); return err },
			"stand":    func() error { _, err := o.Stand(ctx, a, "x", office.Ask{}); return err },
			"farm":     func() error { _, err := o.Farm(ctx, a, "x", office.Ask{}); return err },
			"view":     func() error { _, err := o.View(ctx, a, office.Ask{}); return err },
			"station":  func() error { _, err := o.Station(ctx, a, "x", office.Ask{}); return err },
			"stations": func() error { _, err := o.Stations(ctx, a); return err },
			"page":     func() error { _, err := o.StationPage(ctx, a, "x", office.Ask{}); return err },
			"rows":     func() error { _, _, err := o.StationRows(ctx, a, office.Ask{}); return err },
			"days":     func() error { _, err := o.NextDays(ctx, a, office.Ask{}); return err },
			"ahead":    func() error { return o.ReceiveForecasts(ctx, a, nil) },
			"import weather": func() error {
				_, err := o.ImportWeather(ctx, a, strings.NewReader(""), "f", intake.Options{Units: csvdaily.Unstated})
				return err
			},
			"import stands": func() error { _, err := o.ImportStands(ctx, a, strings.NewReader(""), "f", false); return err },
			"import visits": func() error { _, err := o.ImportVisits(ctx, a, strings.NewReader(""), "f", false); return err },
			"import prices": func() error { _, err := o.ImportPrices(ctx, a, strings.NewReader(""), "f", false); return err },
			"weather":       func() error { return o.ReceiveWeather(ctx, a, nil, nil) },
			"field weather": func() error { _, err := o.FieldWeather(ctx, a, "x"); return err },
			"set field weather": func() error {
				_, err := o.SetFieldWeather(ctx, a, "x", office.LocalWeather{})
				return err
			},
			"forecast":        func() error { _, err := o.Forecast(ctx, a, "x", office.Ask{}); return err },
			"forecasts":       func() error { _, err := o.Forecasts(ctx, a, office.Ask{}); return err },
			"fetch forecasts": func() error { _, err := o.FetchForecasts(ctx, a, nil); return err },
			"import labs": func() error {
				_, err := o.BringLabs(ctx, a, strings.NewReader(""), "f", office.LabImport{})
				return err
			},
			"prices":          func() error { _, err := o.Prices(ctx, a, "", husbandry.Reference(), office.Ask{}); return err },
			"herd need":       func() error { _, err := o.HerdNeed(ctx, a, "x", office.Ask{}); return err },
			"budget":          func() error { _, err := o.Budget(ctx, a, "x", office.BudgetFor{}, office.Ask{}); return err },
			"fertilizer":      func() error { _, err := o.Fertilizer(ctx, a, "x", 25, office.Ask{}); return err },
			"weigh":           func() error { _, err := o.Weigh(ctx, a, "x", nil, "", office.Ask{}); return err },
			"import stacks":   func() error { _, err := o.ImportStacks(ctx, a, strings.NewReader(""), "f", false); return err },
			"import feed":     func() error { _, err := o.ImportFeed(ctx, a, strings.NewReader(""), "f", false); return err },
			"feed":            func() error { _, err := o.Feed(ctx, a, "x", office.Ask{}); return err },
			"allocate":        func() error { _, err := o.Allocate(ctx, a, "x", "floor", false, office.Ask{}); return err },
			"import herds":    func() error { _, err := o.ImportHerds(ctx, a, strings.NewReader(""), "f", false); return err },
			"import machines": func() error { _, err := o.ImportMachines(ctx, a, strings.NewReader(""), "f", false); return err },
			"set price": func() error {
				_, err := o.SetPrice(ctx, a, office.Ask{}, office.PriceEntry{Line: "corn", Value: 4})
				return err
			},
			"set group":          func() error { _, err := o.SetGroup(ctx, a, office.Ask{}, "x", "", book.Group{}); return err },
			"drop group":         func() error { _, err := o.DropGroup(ctx, a, office.Ask{}, "x", "y"); return err },
			"set forage crop":    func() error { _, err := o.SetForageCrop(ctx, a, office.Ask{}, "x", "", book.ForageCrop{}); return err },
			"set machine":        func() error { _, err := o.SetMachine(ctx, a, office.Ask{}, "x", "", book.Machine{}); return err },
			"drop machine":       func() error { _, err := o.DropMachine(ctx, a, office.Ask{}, "x", "y"); return err },
			"set crew":           func() error { _, err := o.SetCrew(ctx, a, office.Ask{}, "x", 8, nil); return err },
			"set caution":        func() error { _, err := o.SetCaution(ctx, a, office.Ask{}, "x", "careful"); return err },
			"set book's caution": func() error { _, err := o.SetCaution(ctx, a, office.Ask{}, "", "careful"); return err },
			"set quality": func() error {
				_, err := o.SetQuality(ctx, a, office.Ask{}, book.Quality{Base: "wisconsin"})
				return err
			},
			"undo": func() error { _, err := o.Undo(ctx, a, office.Ask{}, "x"); return err },
		} {
			if err := do(); !errors.Is(err, office.ErrForbidden) {
				t.Errorf("%s by %+v: error %v, want it forbidden", name, a, err)
			}
		}
	}
}

func TestRecordTakesAllOrNothing(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	farm, stand := oneStand(t, o)
	day := unit.DateOf(2026, 5, 18)
	for name, c := range map[string]struct {
		bad  office.Entry
		want string
	}{
		"a height of 300 in": {office.Entry{Farm: farm, Subject: stand, Day: day, Body: book.Visit{Spots: []book.Spot{{HeightIn: 300, Stage: book.Bud}}}}, "accepted 4 to 60"},
		"a day to come":      {office.Entry{Farm: farm, Subject: stand, Day: day + 2, Body: book.Visit{Note: "x"}}, "after today"},
		"an unknown stage":   {office.Entry{Farm: farm, Subject: stand, Day: day, Body: book.Visit{Spots: []book.Spot{{HeightIn: 20, Stage: "budding"}}}}, "vegetative, bud, flower"},
		"a farmless visit":   {office.Entry{Subject: stand, Day: day, Body: book.Visit{Note: "x"}}, "farm"},
		"acres of 0":         {office.Entry{Farm: farm, Day: day, Body: book.Field{Name: "F", Acres: 0}}, "accepted 0.1 to 2000"},
	} {
		good := office.Entry{Farm: farm, Subject: stand, Day: day, Body: book.Visit{Note: name}}
		if _, err := o.Record(t.Context(), ida, good, c.bad); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one that says %q", name, err, c.want)
		}
		s, err := o.Stand(t.Context(), ida, stand, office.Ask{})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(s.Stand.Visits); n != 0 {
			t.Fatalf("%s: the sound entry beside it was kept", name)
		}
	}
}

func TestALateLabResultIsKnownOnlyOnceItCame(t *testing.T) {
	o, c := newOffice(t, "2026-05-19 08:00")
	farm, stand := oneStand(t, o)
	sampled := unit.DateOf(2026, 5, 12)
	c.set("2026-05-22 16:00")
	record(t, o, office.Entry{Farm: farm, Subject: stand, Day: sampled, Body: book.Lab{Sample: "standing", NDF: 36, ADF: 27}})
	at := func(s string) time.Time {
		v, err := time.Parse("2006-01-02 15:04", s)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, k := range []struct {
		name string
		ask  office.Ask
		want int
	}{
		{"the day it was sampled, as known since", office.Ask{Date: sampled}, 1},
		{"the day before it was sampled", office.Ask{Date: sampled - 1}, 0},
		{"a week later, as known before it came", office.Ask{Date: sampled + 8, Known: at("2026-05-22 15:59")}, 0},
		{"a week later, as known when it came", office.Ask{Date: sampled + 8, Known: at("2026-05-22 16:00")}, 1},
	} {
		s, err := o.Stand(t.Context(), ida, stand, k.ask)
		if err != nil {
			t.Fatal(err)
		}
		if got := len(s.Stand.Labs); got != k.want {
			t.Errorf("%s: %d results, want %d", k.name, got, k.want)
		}
	}
}

// days is a plain daily-summaries file of several stations and days.
func days(stations []string, from unit.Day, n int, tmax string) io.Reader {
	var b strings.Builder
	b.WriteString("STATION,NAME,DATE,PRCP,TMAX,TMIN\n")
	for _, s := range stations {
		for i := range n {
			b.WriteString(s + ",Test station," + (from + unit.Day(i)).String() + ",0.0," + tmax + "." + strconv.Itoa(i%10) + "," + strconv.Itoa(5+i%4) + ".0\n")
		}
	}
	return strings.NewReader(b.String())
}

func TestTheSameWeatherTwiceChangesNothingAndPartOfAYearLosesNothing(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	ctx := t.Context()
	from := unit.DateOf(2026, 4, 1)
	take := func(r io.Reader) []office.WeatherImported {
		t.Helper()
		w, err := o.ImportWeather(ctx, ida, r, "order.csv", intake.Options{Units: csvdaily.Metric})
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	first := take(days([]string{"ZZT00000001", "ZZT00000002"}, from, 30, "20"))
	if len(first) != 2 || first[0].Nothing() {
		t.Fatalf("got %+v", first)
	}
	for _, w := range take(days([]string{"ZZT00000001", "ZZT00000002"}, from, 30, "20")) {
		if !w.Nothing() {
			t.Errorf("%s: the same file changed %+v", w.Report.Station.ID, w.Years)
		}
	}
	take(days([]string{"ZZT00000001"}, from+30, 10, "22"))
	s, err := o.Station(ctx, ida, "ZZT00000001", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	for d, want := range map[unit.Day]float64{from: 20, from + 29: 20.9, from + 30: 22, from + 39: 22.9} {
		if i, ok := s.Series.Index(d); !ok || s.Series.TMaxC[i] != want {
			t.Errorf("%s: highest %v, want %g", d, s.Series.TMaxC[i], want)
		}
	}
}

func TestAWrongLineOfOneStationKeepsBothOut(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	text, err := io.ReadAll(days([]string{"ZZT00000001", "ZZT00000002"}, unit.DateOf(2026, 4, 1), 20, "20"))
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct{ file, want string }{
		"a word for a number": {string(text) + "ZZT00000002,Test station,2026-04-25,0.0,warm,10.0\n", "line 42"},
		"a day to come":       {string(text) + "ZZT00000002,Test station,2026-06-25,0.0,20,10.0\n", "2026-06-25"},
		"empty":               {"", "empty"},
		"not a weather file":  {"a,b,c\n1,2,3\n", "not known"},
	} {
		_, err := o.ImportWeather(t.Context(), ida, strings.NewReader(c.file), "order.csv", intake.Options{Units: csvdaily.Metric})
		var refusal *weather.Refusal
		if !errors.As(err, &refusal) || !strings.Contains(err.Error(), "order.csv") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want a refusal of order.csv that says %q", name, err, c.want)
		}
		if s, err := o.Stations(t.Context(), ida); err != nil || len(s) != 0 {
			t.Errorf("%s: stations %v, error %v; want none", name, s, err)
		}
	}
}

func TestACorrectedYearIsKnownFromTheDayItCame(t *testing.T) {
	o, c := newOffice(t, "2026-05-10 08:00")
	from := unit.DateOf(2026, 4, 1)
	take := func(tmax string) {
		t.Helper()
		if _, err := o.ImportWeather(t.Context(), ida, days([]string{"ZZT00000001"}, from, 20, tmax), "o.csv", intake.Options{Units: csvdaily.Metric}); err != nil {
			t.Fatal(err)
		}
	}
	take("20")
	before := o.Now()
	c.set("2026-05-19 08:00")
	take("25")
	for _, k := range []struct {
		known time.Time
		want  float64
	}{{before, 20}, {time.Time{}, 25}} {
		s, err := o.Station(t.Context(), ida, "ZZT00000001", office.Ask{Known: k.known})
		if err != nil {
			t.Fatal(err)
		}
		if i, _ := s.Series.Index(from); s.Series.TMaxC[i] != k.want {
			t.Errorf("known %s: highest %g, want %g", k.known, s.Series.TMaxC[i], k.want)
		}
	}
}

func TestANewFactChangesTheNextAnswerAndReadersDoNotMind(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	farm, stand := oneStand(t, o)
	ctx, cancel := context.WithCancel(t.Context())
	var wg sync.WaitGroup
	for range 2 {
		wg.Go(func() {
			for ctx.Err() == nil {
				if _, err := o.Round(ctx, ida, office.Ask{}); err != nil && ctx.Err() == nil {
					t.Error(err)
					return
				}
			}
		})
	}
	for i := range 10 {
		record(t, o, office.Entry{Farm: farm, Subject: stand, Day: unit.DateOf(2026, 5, 1+i), Body: book.Visit{Note: "walked"}})
		s, err := o.Stand(t.Context(), ida, "alder run home forty", office.Ask{})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(s.Stand.Visits); n != i+1 {
			t.Fatalf("%d visits after recording %d", n, i+1)
		}
	}
	cancel()
	wg.Wait()
}

func TestTablesTwiceChangeNothing(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	stands := "farm,field,acres,crop,seeded,contact,phone\nAlder Run,Home Forty,40,alfalfa,2022-04-20,Ida Quell,555 0100\nAlder Run,Back Lot,18,mix,2023-04-20,Ida Quell,555 0100\n"
	visits := "farm,field,date,observer,height,stage\nalder run,home forty,2026-05-18,Jo,27,bud\nalder run,home forty,2026-05-18,Jo,26,bud\n"
	for i, want := range []struct{ stands, visits int }{{6, 1}, {0, 0}} {
		s, err := o.ImportStands(t.Context(), ida, strings.NewReader(stands), "s.csv", false)
		if err != nil {
			t.Fatal(err)
		}
		v, err := o.ImportVisits(t.Context(), ida, strings.NewReader(visits), "v.csv", false)
		if err != nil {
			t.Fatal(err)
		}
		if s.Added != want.stands || v.Added != want.visits {
			t.Errorf("time %d: %d and %d added, want %d and %d", i+1, s.Added, v.Added, want.stands, want.visits)
		}
	}
	got, err := o.Stand(t.Context(), ida, "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Stand.Visits) != 1 || got.Stand.Visits[0].Author != "Jo" || len(got.Stand.Readings) != 1 {
		t.Errorf("visits %+v, want one of two spots by Jo", got.Stand.Visits)
	}
	for name, c := range map[string]struct{ file, want string }{
		"an unknown field": {"farm,field,date,note\nAlder Run,Nowhere,2026-05-01,x\n", `no field called "Nowhere"`},
		"a day to come":    {"farm,field,date,note\nAlder Run,Home Forty,2026-06-01,x\n", "after today"},
		"before seeding":   {"farm,field,date,note\nAlder Run,Back Lot,2022-06-01,x\n", "no stand grew"},
	} {
		if _, err := o.ImportVisits(t.Context(), ida, strings.NewReader(c.file), "v.csv", false); err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "row 2") {
			t.Errorf("%s: error %v, want row 2 and %q", name, err, c.want)
		}
	}
}
