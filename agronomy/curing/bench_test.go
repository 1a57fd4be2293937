package curing

import (
	"math"
	"testing"
	"time"
)

// best reports the fastest of the runs: what the work costs when nothing else is done on the machine.
func best(b *testing.B, work func()) {
	b.ReportAllocs()
	fastest := time.Duration(math.MaxInt64)
	for b.Loop() {
		start := time.Now()
		work()
		fastest = min(fastest, time.Since(start))
	}
	b.ReportMetric(float64(fastest.Nanoseconds())/1000, "best-us")
}

// BenchmarkRun carries a swath, turned twice, through ten days with rain: 240 hours and all products.
// The house wants it under 12 microseconds without allocation.
func BenchmarkRun(b *testing.B) {
	s := UsualSwath()
	s.Turnings = []Turning{Tedding(34, 400), Raking(60, 2400)}
	c := curingOf(b, s)
	days := make([]Day, 10)
	for i := range days {
		days[i] = fairDay()
		days[i].SolarMJ = 8 + float64(i%3)*6
	}
	days[4].RainMM = 12
	hours := hoursOf(b, days...)
	var targets []Target
	for _, p := range Products() {
		targets = append(targets, p.Target())
	}
	moisture, harvests := make([]float64, len(hours)), make([]Harvest, len(targets))
	best(b, func() { c.Run(hours, targets, moisture, harvests) })
	if math.IsNaN(moisture[239]) {
		b.Fatal("no moisture")
	}
}

// BenchmarkChances asks for hay within five days from 30 starts in 40 years, the hours of all years made
// from days on the way. The house wants it under 12 ms.
func BenchmarkChances(b *testing.B) {
	const years, starts, within = 40, 30, 5
	members := make([]Member, years)
	for y := range members {
		members[y] = Member{Weight: 1, Days: make([]Day, starts+within)}
		for i := range members[y].Days {
			d := &members[y].Days[i]
			*d = Day{YearDay: 152 + i, TMaxC: 22 + float64((7*i+3*y)%9), TMinC: 10 + float64((5*i+y)%6), SolarMJ: math.NaN(), VapourKPa: math.NaN(), SoilPct: 16}
			if (i*i+y)%7 == 0 {
				d.RainMM = float64((i + y) % 19)
			}
		}
	}
	from := make([]int, starts)
	for i := range from {
		from[i] = i
	}
	ask := UsualHaymaking(SmallSquare, within, Place{LatDeg: 43})
	best(b, func() {
		if _, err := ask.Chances(members, from); err != nil {
			b.Fatal(err)
		}
	})
}
