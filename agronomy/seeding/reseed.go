package seeding

import (
	"fmt"
	"math"
)

// Old is what is known of an alfalfa stand that is to be followed by alfalfa.
type Old struct {
	Topgrowth  string  // cut, under-1-ton or over-1-ton lay on the field
	Resistance string  // of the variety to be sown: high, moderate or low
	Rain       float64 // in, with irrigation, before reseeding
	Soil       string  // sandy, loamy or clayey
	Tillage    string  // moldboard, chisel or no-till
	Age        float64 // of the old stand, years
	Delay      float64 // from its death to the seeding, months
}

// Score holds the points of the reseeding score; lists run from least to most risk:
//
//	points = (topgrowth + resistance + rain + soil + tillage) * age * delay
//
// Sources: [source.ReseedingScore], [source.ReseedingBetween].
type Score struct {
	Topgrowth                        [3]float64
	Resistance, Rain, Soil, Tillage  [3]float64
	Young, Middle, Aged              float64 // multipliers under 1 year, from 1 to 2, over 2
	HalfYear, FewWeeks, NoDelay      float64 // multipliers at 6 months, from 2 to 4 weeks, sooner; none from 12 months on
	LittleTo, CautionTo, WarningUpTo float64 // ends of the bands
}

// PublishedScore returns the score as recalled.
func PublishedScore() Score {
	steps := [3]float64{1, 2, 3}
	return Score{
		Topgrowth: [3]float64{1, 3, 5}, Resistance: steps, Rain: steps, Soil: steps, Tillage: steps,
		Young: 0, Middle: 0.5, Aged: 1, HalfYear: 1, FewWeeks: 2, NoDelay: 3,
		LittleTo: 3, CautionTo: 8, WarningUpTo: 12,
	}
}

// Risk is a score worked out. AnotherCrop says that a grown stand is to be followed by another crop
// first, whatever the points. Source of that rule: [source.ReseedingGap].
type Risk struct {
	Points      float64
	Class       string
	AnotherCrop bool
}

// Of scores a reseeding.
func (s Score) Of(o Old) (Risk, error) {
	if !(o.Rain >= 0 && o.Age >= 0 && o.Delay >= 0) {
		return Risk{}, fmt.Errorf("rain %g, age %g, delay %g: want 0 or more", o.Rain, o.Age, o.Delay)
	}
	rain := s.Rain[1]
	switch {
	case o.Rain > 2:
		rain = s.Rain[0]
	case o.Rain < 1:
		rain = s.Rain[2]
	}
	sum := rain
	for _, q := range []struct {
		key, given string
		words      [3]string
		points     [3]float64
	}{
		{"topgrowth", o.Topgrowth, Topgrowths(), s.Topgrowth},
		{"resistance", o.Resistance, Resistances(), s.Resistance},
		{"soil", o.Soil, Soils(), s.Soil},
		{"tillage", o.Tillage, Tillages(), s.Tillage},
	} {
		at := -1
		for i, w := range q.words {
			if w == q.given {
				at = i
			}
		}
		if at < 0 {
			return Risk{}, fmt.Errorf("%s %q: accepted: %v", q.key, q.given, q.words)
		}
		sum += q.points[at]
	}
	points := sum * s.age(o.Age) * s.delay(o.Delay)
	return Risk{Points: points, Class: s.class(points), AnotherCrop: o.Age >= 1 && o.Delay < 12}, nil
}

// Topgrowths are the words for the topgrowth left, least risk first, as all words of the questions stand.
func Topgrowths() [3]string { return [3]string{"cut", "under-1-ton", "over-1-ton"} }

// Resistances are the words for the disease resistance of the variety to be sown.
func Resistances() [3]string { return [3]string{"high", "moderate", "low"} }

// Soils are the words for the soil.
func Soils() [3]string { return [3]string{"sandy", "loamy", "clayey"} }

// Tillages are the words for the tillage before reseeding.
func Tillages() [3]string { return [3]string{"moldboard", "chisel", "no-till"} }

func (s Score) age(years float64) float64 {
	switch {
	case years < 1:
		return s.Young
	case years <= 2:
		return s.Middle
	}
	return s.Aged
}

// delay falls on straight lines between the tabled delays, with weeks of 12/365.25 x 7 months.
func (s Score) delay(months float64) float64 {
	const week = 7 * 12 / 365.25
	switch {
	case months >= 12:
		return 0
	case months >= 6:
		return s.HalfYear * (12 - months) / 6
	case months > 4*week:
		return s.FewWeeks + (s.HalfYear-s.FewWeeks)*(months-4*week)/(6-4*week)
	case months >= 2*week:
		return s.FewWeeks
	}
	return s.NoDelay
}

// class puts points, as they are shown, into a band; what lies between two bands is in the upper.
func (s Score) class(points float64) string {
	switch shown := math.Round(points*10) / 10; {
	case shown <= s.LittleTo:
		return "little risk"
	case shown <= s.CautionTo:
		return "caution: yield loss possible"
	case shown <= s.WarningUpTo:
		return "warning: yield loss likely"
	}
	return "avoid"
}
