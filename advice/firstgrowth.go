package advice

import (
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	fieldHeightSD = 3.0 // in, between a field's height and the curve by heat (choice)
	readHeightSD  = 1.5 // in, of a height read in the field (choice)
	stickHeat     = 480 // F-days above 41 F at about 16 in (choice)
)

// standingHeight is the height of the tallest alfalfa this morning: the last one read, carried on by
// heat, else the height that heat alone gives.
func standingHeight(s *outlook.Stand) (inches, spread float64, how string) {
	byHeat := regrowth.HeightByHeat(s.Sky.Heat41.Now())
	for _, v := range slices.Backward(s.Visits) {
		if s.Frosted != nil && v.Day <= s.Frosted.Day {
			break // what stood before a killing frost says nothing of what stands now
		}
		tall, ok := outlook.Tallest(v.Body)
		if !ok || !s.Growth.Holds(v.Day) || s.Doubted(v.Day) {
			continue
		}
		grown := byHeat - regrowth.HeightByHeat(s.Sky.Heat41.On(v.Day))
		return tall + grown, readHeightSD, fmt.Sprintf("%.0f in read on %s, carried on by heat", tall, Short(v.Day))
	}
	return byHeat, fieldHeightSD, ""
}

// heightErrors are nine about equally likely errors of a height, in spreads.
var heightErrors = [...]float64{-1.6, -1, -0.6, -0.3, 0, 0.3, 0.6, 1, 1.6}

// heightReached gives the days on which the height is reached, over the past years and the error of
// today's height.
func heightReached(s *outlook.Stand, height, spread, target float64) outlook.Days {
	var out outlook.Days
	now := s.Sky.Heat41.Now()
	for _, z := range heightErrors {
		start := height + z*spread
		base := regrowth.HeightByHeat(now)
		for _, m := range s.Sky.Members {
			sum, day := now, math.Inf(1)
			if start >= target {
				day = float64(s.Date) - math.Ceil(start-target) // about an inch a day
			}
			for i := 0; i < len(m.TMinF) && math.IsInf(day, 1) && i < 90; i++ {
				if start+regrowth.HeightByHeat(sum)-base >= target {
					day = float64(s.Date) + float64(i)
				}
				sum += s.Sky.Heat41.Spec.Day(m.TMinF[i], m.TMaxF[i])
			}
			out.Add(day, m.Weight/float64(len(heightErrors)))
		}
	}
	out.Sort()
	return out
}

// cloverWindow is when red clover stands between bud and 20 % bloom: first growth by alfalfa's heat to
// bud and first flower, later growths by days.
func cloverWindow(s *outlook.Stand) (outlook.Window, string, bool) {
	const bud, flower = 700, 950 // F-days above 41 F: alfalfa's bud, and a little past its first flower (choice)
	if s.Growth.Number > 1 {
		w := outlook.Window{Early: s.Growth.Since + 30, Middle: s.Growth.Since + 35, Late: s.Growth.Since + 42}
		return w, "30 to 42 days after the last cut (choice, after two summer cuts at 20 % bloom)", w.Middle.Month() < 9
	}
	from, ok1 := windowOf(s, bud)
	to, ok2 := windowOf(s, flower)
	mid, ok3 := windowOf(s, (bud+flower)/2)
	return outlook.Window{Early: from.Early, Middle: mid.Middle, Late: to.Late}, "alfalfa's heat to bud and just past first flower, as no heat for red clover is published", ok1 && ok2 && ok3
}

// cutAhead is when the first cut of a stand is due, whatever it is judged by: 10, 50 and 90 % days.
func cutAhead(s *outlook.Stand) (early, middle, late unit.Day, ok bool) {
	if s.Growth.Number != 1 {
		return 0, 0, 0, false
	}
	var w outlook.Window
	switch s.Judged() {
	case outlook.Mixture:
		if len(s.Sky.Members) == 0 {
			return 0, 0, 0, false
		}
		trigger, _, _ := forage.MixTrigger(s.Grass())
		height, spread, _ := standingHeight(s)
		w, ok = heightReached(s, height, spread, trigger).Window()
	case outlook.PureAlfalfa:
		if a := s.Ahead(); a != nil {
			w, ok = a.Reaches(s.Target.CutRFV).Window()
		}
	case outlook.Clover:
		w, _, ok = cloverWindow(s)
	}
	return w.Early, w.Middle, w.Late, ok
}

// windowOf is when first growth's heat reaches a sum.
func windowOf(s *outlook.Stand, heat float64) (outlook.Window, bool) {
	return s.Sky.Reaches(s.Sky.Heat41, heat).Window()
}
