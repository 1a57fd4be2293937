package office_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
)

func must(t *testing.T, s office.Saved, err error) string {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return s.Fact
}

// priceNow is a line as it holds today; NaN-free: -1 where none does.
func priceNow(t *testing.T, o *office.Office, farm bool, line string) float64 {
	t.Helper()
	v := view(t, o, 0)
	var f *book.FarmView
	if farm {
		f = v.Farms[0]
	}
	p, ok := v.Price(f, line)
	if !ok {
		return -1
	}
	return p.Value
}

func TestAPriceIsEnteredCorrectedAndTakenBack(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	farm, _ := oneStand(t, o)
	set := func(farm string, value float64) string {
		s, err := o.SetPrice(t.Context(), ida, office.Ask{}, office.PriceEntry{Farm: farm, Line: book.HayBase, Value: value})
		return must(t, s, err)
	}
	undo := func(fact string) {
		t.Helper()
		s, err := o.Undo(t.Context(), ida, office.Ask{}, fact)
		must(t, s, err)
	}
	expect := func(when string, ofBook, ofFarm float64) {
		t.Helper()
		if got := [2]float64{priceNow(t, o, false, book.HayBase), priceNow(t, o, true, book.HayBase)}; got != [2]float64{ofBook, ofFarm} {
			t.Errorf("%s: %v, want %g and %g", when, got, ofBook, ofFarm)
		}
	}
	expect("at first", -1, -1)
	first := set("", 180)
	expect("entered", 180, 180)
	second := set("", 190)
	expect("corrected", 190, 190)
	if again := set("", 190); again != "" {
		t.Errorf("the same again was recorded as %s", again)
	}
	own := set(farm, 230)
	expect("the farm's own", 190, 230)
	undo(own)
	expect("the farm's taken back", 190, 190)
	if _, err := o.Undo(t.Context(), ida, office.Ask{}, first); err == nil || !strings.Contains(err.Error(), "changed again on 2026-05-19 by ida") {
		t.Errorf("taking back what was corrected since: %v", err)
	}
	undo(second)
	expect("the correction taken back", 180, 180)
	if n := len(view(t, o, 0).Prices); n != 1 {
		t.Errorf("%d decks, want the one", n)
	}
}

func TestAPriceOfAnotherLineLeavesTheDeckItsLines(t *testing.T) {
	o, c := newOffice(t, "2026-05-19 08:00")
	oneStand(t, o)
	for _, p := range []office.PriceEntry{{Line: book.Corn, Value: 4.5}, {Line: book.Milk, Value: 19}} {
		s, err := o.SetPrice(t.Context(), ida, office.Ask{}, p)
		must(t, s, err)
	}
	if v := view(t, o, 0); len(v.Prices) != 1 || len(v.Prices[0].Body.Lines) != 2 {
		t.Fatalf("decks %+v, want one of two lines", v.Prices)
	}
	c.set("2026-06-19 08:00")
	s, err := o.SetPrice(t.Context(), ida, office.Ask{}, office.PriceEntry{Line: book.Corn, Value: 4.1})
	must(t, s, err)
	if corn, milk := priceNow(t, o, false, book.Corn), priceNow(t, o, false, book.Milk); corn != 4.1 || milk != 19 {
		t.Errorf("corn %g and milk %g, want the new one and the old", corn, milk)
	}
}

func TestAPriceThatCannotBeIsRefusedByFieldAndRange(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	oneStand(t, o)
	for name, c := range map[string]struct {
		entry office.PriceEntry
		field string
		want  string
	}{
		"negative":       {office.PriceEntry{Line: book.Corn, Value: -4}, "value", "-4: accepted 0.5 to 30 $/bu"},
		"a slip":         {office.PriceEntry{Line: "hay-bse", Value: 180}, "line", "did you mean hay-base?"},
		"a day to come":  {office.PriceEntry{Line: book.Corn, Value: 4, Day: unit.DateOf(2026, time.June, 1)}, "day", "2026-06-01 is after today, 2026-05-19"},
		"a farm unknown": {office.PriceEntry{Line: book.Corn, Value: 4, Farm: "nobody"}, "farm", `no farm is called "nobody"`},
	} {
		_, err := o.SetPrice(t.Context(), ida, office.Ask{}, c.entry)
		var bad *office.BadEntry
		if !errors.As(err, &bad) || bad.Field != c.field || !strings.Contains(bad.Text, c.want) {
			t.Errorf("%s: error %v, want field %s and %q", name, err, c.field, c.want)
		}
	}
	if n := len(view(t, o, 0).Prices); n != 0 {
		t.Errorf("%d decks were kept", n)
	}
}

func TestHerdAndMachinesAreChangedOneByOne(t *testing.T) {
	o, c := newOffice(t, "2026-05-19 08:00")
	farm, _ := oneStand(t, o)
	cows := book.Group{Name: "high", Kind: book.Lactating, Head: 80, WeightLb: 1500, MilkLb: 90, Fat: 3.8, DaysInMilk: 120, ForageShare: 0.5, LegumeShare: 0.5}
	young := book.Group{Name: "young", Kind: book.Heifer, Head: 40, WeightLb: 800, ForageShare: 0.85, LegumeShare: 0.6}
	ctx, ask := t.Context(), office.Ask{}
	for _, g := range []book.Group{cows, young} {
		s, err := o.SetGroup(ctx, ida, ask, farm, "", g)
		must(t, s, err)
	}
	c.set("2026-06-19 08:00")
	more := cows
	more.Head = 95
	s, err := o.SetGroup(ctx, ida, ask, farm, "high", more)
	grown := must(t, s, err)
	s, err = o.DropGroup(ctx, ida, ask, farm, "young")
	dropped := must(t, s, err)
	heads := func(a office.Ask) (all []int) {
		v, err := o.View(ctx, ida, a)
		if err != nil {
			t.Fatal(err)
		}
		h, _ := v.Farms[0].Herd()
		for _, g := range h.Body.Groups {
			all = append(all, g.Head)
		}
		return all
	}
	if diff := cmp.Diff([]int{95}, heads(ask)); diff != "" {
		t.Errorf("today (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]int{80, 40}, heads(office.Ask{Date: unit.DateOf(2026, time.May, 20)})); diff != "" {
		t.Errorf("a month before (-want +got):\n%s", diff)
	}
	s, err = o.Undo(ctx, ida, ask, dropped)
	must(t, s, err)
	if diff := cmp.Diff([]int{95, 40}, heads(ask)); diff != "" {
		t.Errorf("with the drop taken back (-want +got):\n%s", diff)
	}
	if _, err := o.Undo(ctx, ida, ask, grown); err == nil {
		t.Error("a change that was replaced since was taken back")
	}
	for name, err := range map[string]error{
		"a group that is none":    second(o.SetGroup(ctx, ida, ask, farm, "low", cows)),
		"a drop of none":          second(o.DropGroup(ctx, ida, ask, farm, "low")),
		"a farm that is none":     second(o.SetGroup(ctx, ida, ask, "nobody", "", cows)),
		"a machine that is none":  second(o.SetMachine(ctx, ida, ask, farm, "x", book.Machine{})),
		"undoing what is no fact": second(o.Undo(ctx, ida, ask, "x")),
	} {
		if !errors.Is(err, office.ErrNotFound) {
			t.Errorf("%s: error %v, want it not found", name, err)
		}
	}
	s, err = o.SetMachine(ctx, ida, ask, farm, "", book.Machine{Name: "mower", Kind: "rake", WidthFt: 20})
	must(t, s, err)
	s, err = o.SetCrew(ctx, ida, ask, farm, 9, &book.Busy{What: "corn", From: 1, To: 2})
	must(t, s, err)
	s, err = o.SetForageCrop(ctx, ida, ask, farm, "2001", book.ForageCrop{Forage: "legume", Yield: 4.5})
	must(t, s, err)
	s, err = o.SetCaution(ctx, ida, ask, "", "careful")
	must(t, s, err)
	s, err = o.SetQuality(ctx, ida, ask, book.Quality{Base: "minnesota"})
	must(t, s, err)
	v := view(t, o, 0)
	f := v.Farms[0]
	kit, _ := f.Kit()
	herd, _ := f.Herd()
	how, own := v.HowCareful(f)
	if len(kit.Body.Machines) != 1 || kit.Body.CrewHours != 9 || len(kit.Body.Busy) != 1 || herd.Body.Edition != "2001" || len(herd.Body.Crops) != 1 || how != "careful" || own || v.Quality[0].Body.Base != "minnesota" {
		t.Errorf("kit %+v, herd %+v, %q, %+v", kit, herd, how, v.Quality)
	}
	if _, err := o.SetGroup(ctx, ida, ask, farm, "high", book.Group{Name: "high", Kind: book.Lactating, Head: -1}); err == nil || !strings.Contains(err.Error(), "head -1: accepted 0 to 100000") {
		t.Errorf("a negative head: %v", err)
	}
}

func second(_ office.Saved, err error) error { return err }

func TestHerdAndMachineTablesTwiceChangeNothing(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	oneStand(t, o)
	herd := "farm,group,kind,head,weight,milk,fat,days_in_milk,forage_share,legume_share\nAlder Run,high,cows,80,1500,90,3.8,120,50%,45%\nalder run,legume,forage,,,,,,,\n"
	machines := "farm,date,machine,kind,width\nAlder Run,2026-05-01,mower,disc mower,12\n"
	for i, want := range [][2]int{{1, 1}, {0, 0}} {
		h, err := o.ImportHerds(t.Context(), ida, strings.NewReader(herd), "h.csv", false)
		if err != nil {
			t.Fatal(err)
		}
		m, err := o.ImportMachines(t.Context(), ida, strings.NewReader(machines), "m.csv", false)
		if err != nil {
			t.Fatal(err)
		}
		if got := [2]int{h.Added, m.Added}; got != want {
			t.Errorf("time %d: %v added, want %v", i+1, got, want)
		}
	}
	h, err := o.ImportHerds(t.Context(), ida, strings.NewReader(strings.Replace(herd, ",80,", ",90,", 1)), "h.csv", false)
	if err != nil || h.Changed != 1 {
		t.Errorf("a changed herd of the same day: %+v, %v", h, err)
	}
	if n := len(view(t, o, 0).Farms[0].Herds); n != 1 {
		t.Errorf("%d herds of the day, want 1", n)
	}
	if _, err := o.ImportHerds(t.Context(), ida, strings.NewReader(strings.Replace(herd, "Alder Run", "Elder Run", 1)), "h.csv", false); err == nil || !strings.Contains(err.Error(), `row 2, farm: no farm is called "Elder Run"; did you mean Alder Run?`) {
		t.Errorf("a farm unknown: %v", err)
	}
}

func TestWhatIsEnteredInABookPlayedAsOfAMorningIsThereThatMorning(t *testing.T) {
	o, _ := newOffice(t, "2026-12-19 08:00")
	farm, _ := oneStandAt(t, o, unit.DateOf(2022, time.April, 20).Time())
	day := unit.DateOf(2026, time.May, 19)
	ask := office.Ask{Date: day, Known: day.Time().Add(7 * time.Hour)}
	s, err := o.SetPrice(t.Context(), ida, ask, office.PriceEntry{Farm: farm, Line: book.Corn, Value: 4})
	must(t, s, err)
	v, err := o.View(t.Context(), ida, ask)
	if err != nil {
		t.Fatal(err)
	}
	if p, ok := v.Price(v.Farms[0], book.Corn); !ok || p.Value != 4 || p.Day != day {
		t.Errorf("%+v, %t", p, ok)
	}
}

// oneStandAt is oneStand with all of it received at a time.
func oneStandAt(t *testing.T, o *office.Office, at time.Time) (farm, stand string) {
	t.Helper()
	day := unit.DayOf(at)
	farm = record(t, o, office.Entry{Day: day, Received: at, Body: book.Farm{Name: "Alder Run"}})
	field := record(t, o, office.Entry{Farm: farm, Day: day, Received: at, Body: book.Field{Name: "Home Forty", Acres: 40}})
	return farm, record(t, o, office.Entry{Farm: farm, Day: day, Received: at, Body: book.Stand{Field: field, Crop: book.Alfalfa, Seeded: day}})
}
