package heat

import (
	"testing"
	"time"
)

// thousandFields counts the weevil's heat for 1000 fields over the 30 years 1991-2020, each field with
// small offsets of its own: the work of a district's night, and the kernel on which other languages
// were timed (the same arithmetic in C, gcc -O2, is the measure).
func thousandFields(r *record, sums *[30][1000]float64) {
	s := Weevil()
	for y := range sums {
		from, to := r.between(1991+y, time.January, 1, time.December, 31)
		tmin, tmax := r.minF[from:to], r.maxF[from:to]
		for i := range sums[y] {
			dx, dn := 0.01*float64((37*i)%101-50), 0.01*float64((53*i)%97-48)
			var sum float64
			for k, hi := range tmax {
				hi += dx
				lo := tmin[k] + dn
				if lo > hi {
					lo = hi
				}
				sum += s.Day(lo, hi)
			}
			sums[y][i] = sum
		}
	}
}

// Sums as computed in C, NumPy, R and Octave.
func TestThousandFieldsAgreeWithOtherLanguages(t *testing.T) {
	r := milwaukee(t)
	var sums [30][1000]float64
	thousandFields(r, &sums)
	var all float64
	for y := range sums {
		for _, v := range sums[y] {
			all += v
		}
	}
	if !near(all, 97192050.198991, 1e-4) {
		t.Errorf("all fields and years: %.6f, want 97192050.198991", all)
	}
	if got := sums[2012-1991][7]; !near(got, 3774.98339856, 1e-8) {
		t.Errorf("field 7 in 2012: %.8f, want 3774.98339856", got)
	}
}

func BenchmarkThousandFields(b *testing.B) {
	r := milwaukee(b)
	var sums [30][1000]float64
	b.ReportAllocs()
	for b.Loop() {
		thousandFields(r, &sums)
	}
}
