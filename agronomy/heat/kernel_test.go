package heat

import "testing"

// thousandFields counts the weevil's heat for 1000 fields over the 30 years 1991-2020, each field with
// small offsets of its own: the work of a district's night, and the kernel on which other languages
// were timed (the same arithmetic in C, gcc -O2, is the measure).
func thousandFields(r *record, sums *[30][1000]float64) {
	s := Weevil()
	first := r.firstOf[1991]
	year := make([]int, len(r.date)-first)
	for k := range year {
		year[k] = r.date[first+k].Year() - 1991
	}
	tmin, tmax := r.minF[first:], r.maxF[first:]
	*sums = [30][1000]float64{}
	for i := range 1000 {
		dx, dn := 0.01*float64((37*i)%101-50), 0.01*float64((53*i)%97-48)
		for k, y := range year {
			hi := tmax[k] + dx
			lo := tmin[k] + dn
			if lo > hi {
				lo = hi
			}
			sums[y][i] += s.Day(lo, hi)
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
