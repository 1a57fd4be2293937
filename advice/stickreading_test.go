package advice_test

import (
	"testing"

	"haywarden/book"
)

func TestAReadingThatLooksWrongIsSetAsideAndAskedAgain(t *testing.T) {
	s := alfalfa("Alder")
	s.Sentinel = true
	s.visits["05-18"] = stick(20, book.Vegetative)
	s.visits["05-21"] = stick(58, book.Bud)
	r := round(t, day("05-22"), plain(), s)
	says(t, find(r, "Alder", "stick-reading"), "looks wrong", "read it again")
	if last, _ := find(r, "Alder", "stick-reading").Stand.LastReading(); last.Day != day("05-18") {
		t.Errorf("the reading used is of %s", last.Day)
	}
}

func TestAnyStandsDoubtfulReadingIsAskedAgain(t *testing.T) {
	s := alfalfa("Alder") // no sentinel, its cut far off
	s.visits["05-04"], s.visits["05-06"] = stick(10, book.Vegetative), stick(30, book.Vegetative)
	says(t, find(round(t, day("05-07"), plain(), s), "Alder", "stick-reading"), "reading of 6 May looks wrong", "read it again")
	lower := alfalfa("Lower")
	lower.visits["05-16"], lower.visits["05-19"] = stick(24, book.Vegetative), stick(17, book.Vegetative)
	says(t, find(round(t, day("05-20"), plain(), lower), "Lower", "stick-reading"), "7 in lower than on 16 May")
}

func TestTwoReadingsThatAgreeOutweighAnOlderOne(t *testing.T) {
	s := alfalfa("Alder")
	s.Sentinel = true
	s.visits["05-12"], s.visits["05-15"], s.visits["05-18"] = stick(40, book.Bud), stick(18, book.Vegetative), stick(21, book.Vegetative)
	st := round(t, day("05-16"), plain(), s).Outlook.Stands[0]
	if r, _ := st.LastReading(); r.Day != day("05-12") {
		t.Errorf("one reading against one: that of %s is used", r.Day)
	}
	st = round(t, day("05-19"), plain(), s).Outlook.Stands[0]
	if r, _ := st.LastReading(); r.Day != day("05-18") {
		t.Errorf("two readings against one: that of %s is used", r.Day)
	}
}

func TestAFirstReadingFarFromTheHeatIsReadAgain(t *testing.T) {
	s := alfalfa("Alder")
	s.visits["05-31"] = stick(58, book.Flower)
	says(t, find(round(t, day("06-01"), plain(), s), "Alder", "stick-reading"), "the heat differ by more than their errors", "read it again")
}

func TestSentinelsAreReadEveryThreeDays(t *testing.T) {
	s := alfalfa("Alder")
	s.Sentinel = true
	read := day("05-14")
	s.visits["05-14"] = stick(19, book.Vegetative)
	for d := read + 1; d <= read+3; d++ {
		p := find(round(t, d, plain(), s), "Alder", "stick-reading")
		if due := d >= read+2; (p != nil) != due {
			t.Errorf("%s, read on %s: %+v", d, read, p)
		}
		if p != nil && p.Window.Best != read+3 {
			t.Errorf("%s: due on %s, read on %s", d, p.Window.Best, read)
		}
	}
}

func TestOtherStandsAreReadWhereThatNarrowsTheWindowByThreeDays(t *testing.T) {
	asked := map[int]bool{}
	for d := day("05-20"); d < day("06-10"); d++ {
		for _, h := range []float64{0, 16, 18, 20, 22, 24, 26} {
			s := alfalfa("Alder")
			if h > 0 {
				s.visits["05-17"] = stick(h, book.Bud)
			}
			r := round(t, d, plain(), s)
			p := find(r, "Alder", "stick-reading")
			now, then, ok := r.Outlook.Stands[0].Narrowed()
			if p == nil {
				continue
			}
			if !ok || now-then < 3 {
				t.Errorf("%s, %.0f in: asked for a reading that narrows the window from %d to %d days", d, h, now, then)
			}
			asked[now-then] = true
			says(t, p, "It narrows the cut window from")
		}
	}
	if !asked[3] {
		t.Errorf("asked for where that narrows by %v days, never by 3: the limit is not seen", asked)
	}
}
