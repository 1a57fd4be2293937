package demo

import (
	"math"
	"time"

	"haywarden/agronomy/unit"
)

// The spring of 2026 is told, not drawn: it is warm enough to bring the first crop to bud about
// 20 May, one clear night freezes the hollow when the crop stands knee-high, and a dry spell falls
// into the first days fit for cutting. All of it is a choice.
var (
	springFrom  = unit.DateOf(2026, time.March, 1)
	springTo    = unit.DateOf(2026, time.May, 31)
	springMark  = unit.DateOf(2026, time.May, 19)
	freezeNight = unit.DateOf(2026, time.May, 12)
)

// markHeat is each station's heat from 1 March through the mark, F-days base 41 F.
var markHeat = map[string]float64{crossing: 660, ridge: 625, hollow: 640}

// tellSpring bends the drawn weather of spring 2026 to the story.
func (s sky) tellSpring() {
	for i := range s {
		a := &s[i]
		cold, warm := -20.0, 20.0
		for range 30 {
			mid := (cold + warm) / 2
			if a.bent(mid).markedHeat() < markHeat[a.ID] {
				cold = mid
			} else {
				warm = mid
			}
		}
		told := a.bent((cold + warm) / 2)
		copy(a.maxF[at(springFrom):], told.maxF)
		copy(a.minF[at(springFrom):], told.minF)
		a.tellRain()
	}
}

// bent returns the spring alone, so many degrees warmer, with the told nights in it. The warmth comes
// and goes over a fortnight.
func (a *air) bent(warmer float64) *air {
	n := int(springTo-springFrom) + 1
	b := &air{place: a.place, maxF: make([]float64, n), minF: make([]float64, n)}
	for i := range n {
		d := springFrom + unit.Day(i)
		rise := warmer * math.Min(1, math.Min(float64(i)/14, float64(n-1-i)/14))
		b.maxF[i] = a.maxF[at(d)] + rise
		b.minF[i] = a.minF[at(d)] + rise
		b.tellNight(i, d)
	}
	return b
}

// tellNight sets the one freeze, and keeps other late ones away so that the story has only one.
func (a *air) tellNight(i int, d unit.Day) {
	if d >= unit.DateOf(2026, time.April, 26) {
		a.minF[i] = math.Max(a.minF[i], 30)
		a.maxF[i] = math.Max(a.maxF[i], a.minF[i]+8)
	}
	if d < freezeNight-1 || d > freezeNight+1 {
		return
	}
	told := map[unit.Day][2]float64{freezeNight - 1: {52, 33}, freezeNight: {54, 30}, freezeNight + 1: {63, 36}}[d]
	a.maxF[i], a.minF[i] = told[0]+a.high, told[1]
	if a.ID == hollow {
		a.minF[i] = told[1] - 3
		if d == freezeNight {
			a.minF[i] = 20 // hours of it: a sine day of 54 and 20 F is under 23 F for 4.6 h
		}
	}
}

func (a *air) tellRain() {
	for d := freezeNight - 1; d <= freezeNight+1; d++ {
		a.rainIn[at(d)] = 0
	}
	for i, inches := range []float64{0, .07, .15, 0, .12, .05, .02, 0, 0, 0, .46, .21} { // 14 to 25 May
		a.rainIn[at(springMark)-5+i] = math.Round(inches*a.place.rain*100) / 100
	}
}

// markedHeat is the heat from 1 March through the mark, of a spring alone.
func (a *air) markedHeat() float64 {
	sum := 0.0
	for i := range int(springMark-springFrom) + 1 {
		sum += math.Max(0, (math.Round(a.maxF[i])+math.Round(a.minF[i]))/2-41)
	}
	return sum
}
