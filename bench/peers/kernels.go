package main

import (
	"haywarden/agronomy/heat"
	"haywarden/agronomy/water"
)

// offsets are how much warmer a field's days and nights are than the station's.
func offsets(field int) (days, nights float64) {
	return 0.01 * float64((37*field)%101-50), 0.01 * float64((53*field)%97-48)
}

// heats are the weevil's degree-days by year and field.
type heats [years][fields]float64

// count fills in kernel A.
func (h *heats) count(b *base) {
	s := heat.Weevil()
	for from := 0; from < len(b.year); {
		y, to := b.year[from], from
		for to < len(b.year) && b.year[to] == y {
			to++
		}
		tmin, tmax := b.minF[from:to], b.maxF[from:to]
		for i := range fields {
			dx, dn := offsets(i)
			var sum float64
			for k, hi := range tmax {
				hi += dx
				lo := tmin[k] + dn
				if lo > hi {
					lo = hi
				}
				sum += s.Day(lo, hi)
			}
			h[y-firstYear][i] = sum
		}
		from = to
	}
}

// sums are what kernel A is known by: everything, and field 7 in 2012.
func (h *heats) sums() []float64 {
	var all float64
	for y := range h {
		for _, v := range h[y] {
			all += v
		}
	}
	return []float64{all, h[2012-firstYear][7]}
}

// taken is what all fields of kernel B did in all years.
type taken struct {
	usedMM, drainedMM, stress float64
	cuts                      int
}

func (t taken) sums() []float64 {
	return []float64{t.usedMM, t.drainedMM, float64(t.cuts), t.stress}
}

// drink runs kernel B: p is held at 0.55, and Kc climbs from 0.40 to 1.15 over 300 C-days.
func drink(b *base) (sum taken) {
	const fullKc, fullHeat, cutHeat, baseC = 1.15, 300, 550, 5
	h := water.HargreavesSamani()
	kc := water.NewCourse(water.Kc{Ini: 0.40, Mid: fullKc, End: fullKc}, water.Stages{Dev: fullHeat, Mid: cutHeat})
	sky := water.FAOOrbit().Year(latitude)
	for i := range fields {
		dx, dn := offsets(i)
		wetter := 0.8 + 0.4*float64((53*i)%97)/96
		zone := water.Bucket{TAWmm: 100 + float64((29*i)%151), P: 0.55, Depletion: water.Depletion{High: 1}}
		scarce := zone.ScarceMM(0)
		var dr, grown float64
		for t, tmax := range b.maxC {
			doy := b.doy[t]
			if doy == 1 {
				grown = 0
			}
			tmax += dx
			tmin := b.minC[t] + dn
			if tmin > tmax {
				tmin = tmax
			}
			if mean := (tmax + tmin) / 2; mean > baseC {
				grown += mean - baseC
			}
			next, ks, used, drained := zone.Day(dr, scarce, kc.At(grown)*h.EToMM(tmax, tmin, sky.RaMJ[doy]), b.rainMM[t]*wetter)
			dr = next
			sum.usedMM += used
			sum.drainedMM += drained
			sum.stress += 1 - ks
			if grown >= cutHeat {
				sum.cuts++
				grown = 0
			}
		}
	}
	return sum
}
