package paper_test

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/outlook"
	"haywarden/paper"
)

// everyStand asks about each stand of the district on days of all seasons.
func everyStand(t *testing.T, ask func(t *testing.T, where string, s *outlook.Stand, pieces []*advice.Piece)) {
	t.Helper()
	for _, d := range days {
		o, err := morning(d)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range o.Stands {
			ask(t, s.Named()+" on "+d.String(), s, advice.For(s, o))
		}
	}
}

func TestWhatIsComingLiesAheadInOrder(t *testing.T) {
	cuts := 0
	everyStand(t, func(t *testing.T, where string, s *outlook.Stand, pieces []*advice.Piece) {
		coming := paper.Coming(s, pieces)
		if !slices.IsSortedFunc(coming, func(a, b paper.Due) int { return cmp.Compare(a.Day, b.Day) }) {
			t.Errorf("%s: %v is out of order", where, coming)
		}
		takeBy, _, rests := advice.RestPeriod(s)
		for _, d := range coming {
			if d.Day <= s.Date || d.Day.Year() != s.Date.Year() {
				t.Errorf("%s: %q on %s is not ahead in the year", where, d.Say, d.Day)
			}
			if !strings.HasSuffix(d.Say, "cut, roughly") {
				continue
			}
			cuts++
			if rests && d.Day > takeBy {
				t.Errorf("%s: %q on %s falls into the rest before frost, from %s", where, d.Say, d.Day, takeBy+1)
			}
			if !s.Frosted.Lifted() {
				t.Errorf("%s: %q is said of a stand whose tops froze", where, d.Say)
			}
		}
	})
	if cuts == 0 {
		t.Error("no cut is ever coming")
	}
}

func TestAStripShowsTheStandsOwnYear(t *testing.T) {
	everyStand(t, func(t *testing.T, where string, s *outlook.Stand, pieces []*advice.Piece) {
		strip := paper.Strip(s, pieces)
		windows := 0
		for _, p := range pieces {
			if p.Window != nil && advice.Cuts(p.Decision) {
				windows++
			}
		}
		if len(strip.Windows) != windows || len(strip.Cycles) == 0 || strip.Today != chart.Day(s.Date) {
			t.Errorf("%s: %d windows of %d, %d growths, today %s", where, len(strip.Windows), windows, len(strip.Cycles), strip.Today)
		}
		for _, marks := range [][]chart.Day{strip.Cuts, strip.Visits} {
			for _, d := range marks {
				if d > strip.Today || d < chart.Day(unit.DateOf(s.Date.Year(), 1, 1)) {
					t.Errorf("%s: a mark on %s", where, d)
				}
			}
		}
	})
}

func TestHeightIsDrawnWhereHeightJudges(t *testing.T) {
	drawn := 0
	everyStand(t, func(t *testing.T, where string, s *outlook.Stand, _ []*advice.Piece) {
		f, ok := paper.HeightFan(s)
		if _, quality := paper.Fan(s); ok && quality {
			t.Errorf("%s is judged by height and by feed value", where)
		}
		if !ok {
			return
		}
		drawn++
		if s.Judged() != outlook.Mixture || s.Growth.Number != 1 || len(f.Ahead) == 0 || len(f.Levels) != 1 || f.Ahead[0].Day != f.Today {
			t.Errorf("%s: %d days ahead from %s, %d levels", where, len(f.Ahead), f.Ahead[0].Day, len(f.Levels))
		}
		for _, r := range f.Readings {
			if r.Day > f.Today || r.Day < f.First || r.Value <= 0 {
				t.Errorf("%s: %.0f in read on %s", where, r.Value, r.Day)
			}
		}
	})
	if drawn == 0 {
		t.Error("no stand is ever judged by height")
	}
}

func TestAWindowsBarHoldsTodayAndTheBestDay(t *testing.T) {
	everyStand(t, func(t *testing.T, where string, s *outlook.Stand, pieces []*advice.Piece) {
		for _, p := range pieces {
			bar, ok := paper.WindowBar(p)
			if ok != (p.Window != nil) {
				t.Errorf("%s, %s: a bar without a window, or none with one", where, p.Title)
			}
			if ok && (bar.Today < bar.First || bar.Today > bar.Last || bar.Best > bar.Last || bar.Last-bar.First > 90) {
				t.Errorf("%s, %s: today %s, best %s on an axis from %s to %s", where, p.Title, bar.Today, bar.Best, bar.First, bar.Last)
			}
		}
	})
}
