package advice_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"haywarden/book"
)

func TestKeepOrTurnCountsUntilItIsSure(t *testing.T) {
	for name, c := range map[string]struct {
		visit book.Visit
		grass float64
		want  []string
	}{
		"full":      {stems(124, 130, 118, 126, 134), 0, []string{"Keep", "55"}},
		"thin":      {stems(60, 52, 56, 58, 50, 54), 0, []string{"Turn under"}},
		"uncertain": {stems(84, 70, 96, 64, 88), 0, []string{"more frames and dig 20 roots", "under 40"}},
		"marginal": {stems(78, 70, 92, 66, 90, 84, 74, 80, 86, 72, 78, 70, 92, 66, 90, 84, 74, 80, 86, 72), 0,
			[]string{"Marginal: roots, grass and money decide", "20 frames"}},
		"thin with grass": {stems(60, 52, 56, 58, 50, 54), 0.5, []string{"Keep if the feed is needed"}},
	} {
		s := alfalfa("Alder")
		s.GrassShare = c.grass
		if c.grass > 0 {
			s.Crop = book.AlfalfaGrass
		}
		s.visits["04-20"] = c.visit
		p := find(round(t, day("04-22"), plain(), s), "Alder", "keep-or-turn")
		t.Run(name, func(t *testing.T) { says(t, p, c.want...) })
	}
	bad := alfalfa("Alder")
	v := stems(124, 130, 118, 126, 134)
	v.Roots = &book.Roots{Dug: 20, Bad: 13}
	bad.visits["04-20"] = v
	p := find(round(t, day("04-22"), plain(), bad), "Alder", "keep-or-turn")
	says(t, p, "first cut, then turn under")
	if p != nil && p.Rules[0].Differs == "" {
		t.Error("stems say keep and roots say turn: why they differ is not said")
	}
}

func TestOneFrameDecidesNothing(t *testing.T) {
	s := alfalfa("Alder")
	s.visits["04-20"] = stems(50)
	p := find(round(t, day("04-22"), plain(), s), "Alder", "keep-or-turn")
	says(t, p, "more frames and dig 20 roots", "in one frame")
	without(t, p, "NaN")
}

func TestAnUncertainCountIsGoneOnWithUpToTwentyFrames(t *testing.T) {
	s := alfalfa("Alder")
	rough := []int{84, 70, 96, 64, 88}
	frames := 0
	for i, d := range []string{"04-18", "04-22", "04-26", "04-30"} {
		s.visits[d] = stems(rough...)
		frames += len(rough)
		p := find(round(t, day(d)+1, plain(), s), "Alder", "keep-or-turn")
		if p == nil {
			t.Fatalf("%s: nothing said", d)
		}
		if p.Stand.Stems.Count.Interval.N != frames {
			t.Errorf("%s: %d frames counted, %d used", d, frames, p.Stand.Stems.Count.Interval.N)
		}
		var more int
		if n, err := fmt.Sscanf(p.Title, "Count %d more", &more); err == nil && n == 1 && frames+more > 20 {
			t.Errorf("%s: %q after %d", d, p.Title, frames)
		}
		if done := i == 3; strings.Contains(p.Title, "more") == done {
			t.Errorf("%s: %q after %d frames", d, p.Title, frames)
		}
	}
	says(t, find(round(t, day("05-01"), plain(), s), "Alder", "keep-or-turn"), "Marginal: roots, grass and money decide", "20 frames", "dig and split")
}

func TestAnOldCountIsNotMixedWithANewOne(t *testing.T) {
	s := alfalfa("Alder")
	s.visits["04-01"] = stems(60, 52, 56, 58, 50, 54)
	s.visits["05-10"] = stems(124, 130, 118, 126, 134)
	p := find(round(t, day("05-12"), plain(), s), "Alder", "keep-or-turn")
	if p == nil || p.Stand.Stems.Count.Interval.N != 5 {
		t.Errorf("%+v", p)
	}
}

func TestRootsDugAnyTimeOfTheYearCount(t *testing.T) {
	s := alfalfa("Alder")
	s.visits["04-02"] = book.Visit{Roots: &book.Roots{Dug: 20, Bad: 13}}
	s.visits["05-02"] = stems(124, 130, 118, 126, 134)
	says(t, find(round(t, day("05-04"), plain(), s), "Alder", "keep-or-turn"), "first cut, then turn under", "13 of 20")
}

func TestTheChanceIsComparedAsItIsShown(t *testing.T) {
	for high := 80; high < 120; high++ {
		s := alfalfa("Alder")
		s.visits["04-20"] = stems(70, high, 78, high-6, 82, 90)
		p := find(round(t, day("04-22"), plain(), s), "Alder", "keep-or-turn")
		if p == nil {
			t.Fatal("nothing said")
		}
		shown := math.Round(100 * p.Stand.Stems.Count.ChanceBelow40)
		if open := strings.Contains(p.Title, "more"); open != (shown >= 10 && shown <= 90) {
			t.Errorf("a chance of %g in 100: %q", shown, p.Title)
		}
	}
}
