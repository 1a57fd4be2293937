package advice_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

func TestTheLastCutIsTakenOrLeftByTheStationsYears(t *testing.T) {
	series := plain()
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28", "07-28"}
	takeBy, reopen, ok := advice.RestPeriod(round(t, day("08-12"), series, s).Outlook.Stands[0])
	if !ok || takeBy >= reopen || takeBy.Month() < time.August || reopen.Month() > time.October {
		t.Fatalf("rest from %s to %s, %v", takeBy, reopen, ok)
	}
	p := find(round(t, takeBy-5, series, s), "Alder", "last-cut")
	says(t, p, "Take the last cut by", "24 °F", "28 °F", "35 days", "1 year in 10")
	inside := find(round(t, (takeBy+reopen)/2, series, s), "Alder", "last-cut")
	says(t, inside, "Leave the last growth", "empty roots")
	if inside.Rules[0].Here == "" {
		t.Error("the rule of 35 days is not shown")
	}
	if late := find(round(t, reopen+10, series, s), "Alder", "last-cut"); late != nil && late.Urgency == advice.Today {
		t.Errorf("after the rest: %q", late.Title)
	}
	if r := round(t, takeBy+3, series, s); find(r, "Alder", "later-cut") != nil {
		t.Error("a later cut is advised inside the rest")
	}
}

// leftBetween is the share of past years in which the heat from a day on to the first 24 F, or to
// 30 November, fell between 200 and 500 C-days above 5 C: counted here day by day, with no code of ours.
func leftBetween(s *weather.Series, month time.Month, dom int) float64 {
	var between, years float64
	for y := 1996; y < 2026; y++ {
		var sum float64
		for d := unit.DateOf(y, month, dom) + 1; d <= unit.DateOf(y, time.November, 30); d++ {
			i, _ := s.Index(d)
			if s.TMinF[i] <= 24 {
				break
			}
			sum += max(0, ((s.TMaxF[i]+s.TMinF[i])/2-32)/1.8-5)
		}
		years++
		if sum > 200 && sum < 500 {
			between++
		}
	}
	return between / years
}

func TestTheRestIsWhereMoreThanThreeYearsInTenLandBetween(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28", "07-28"}
	takeBy, reopen, ok := advice.RestPeriod(round(t, day("08-12"), plain(), s).Outlook.Stands[0])
	if !ok {
		t.Fatal("no rest period")
	}
	for d := day("08-01"); d <= day("11-15"); d++ {
		risk := leftBetween(plain(), d.Month(), d.Time().Day())
		switch {
		case d <= takeBy && risk > 0.3:
			t.Errorf("%s: %.2f of years between, and it may be cut until %s", d, risk, takeBy)
		case d == takeBy+1 && risk <= 0.3, d == reopen-1 && risk <= 0.3:
			t.Errorf("%s: only %.2f of years between, and it must be left", d, risk)
		case d == reopen && risk > 0.3:
			t.Errorf("%s: %.2f of years between on the day it reopens", d, risk)
		}
	}
}

func TestTheRuleOf35DaysCountsFromTheMedianAndTheEarlyFreeze(t *testing.T) {
	var doys []float64
	for y := 1996; y < 2026; y++ {
		for d := unit.DateOf(y, time.August, 1); d <= unit.DateOf(y, time.December, 31); d++ {
			if i, _ := plain().Index(d); plain().TMinF[i] <= 24 {
				doys = append(doys, float64(d.YearDay()))
				break
			}
		}
	}
	slices.Sort(doys)
	if len(doys) != 30 {
		t.Fatalf("%d years with a freeze", len(doys))
	}
	// Weibull positions of 30 years: the median at rank 15.5, 1 in 10 at rank 3.1.
	median := math.Round((doys[14] + doys[15]) / 2)
	early := math.Round(doys[2] + 0.1*(doys[3]-doys[2]))
	on := func(doy float64) unit.Day { return unit.DateOf(2026, time.January, 1) + unit.Day(doy) - 1 }
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28", "07-28"}
	says(t, find(round(t, day("08-20"), plain(), s), "Alder", "last-cut"),
		"24 °F: median "+advice.Short(on(median))+", 1 year in 10 by "+advice.Short(on(early)),
		"by "+advice.Short(on(median-35))+", counted back from "+advice.Short(on(median))+"; by "+advice.Short(on(early-35)))
}

func TestAKillingFreezeEndsTheQuestion(t *testing.T) {
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28", "07-28"}
	r := round(t, day("11-18"), sky(func(d unit.Day, o *weather.Obs) {
		if d == day("11-01") {
			o.Value[weather.TMin] = -80
		}
	}), s)
	says(t, find(r, "Alder", "last-cut"), "Growth has stopped", "dormant cut")
}

func TestAStationWithoutFallsSaysSo(t *testing.T) {
	young := plain().Between(unit.DateOf(2022, 1, 1), unit.DateOf(2026, 12, 31))
	s := alfalfa("Alder")
	s.cuts = []string{"05-28", "06-28", "07-28"}
	says(t, find(round(t, day("08-20"), young, s), "Alder", "last-cut"), "Cannot be judged", "4 whole falls on record")
	says(t, find(round(t, day("08-20"), nil, s), "Alder", "last-cut"), "Cannot be judged", "No weather of station")
}
