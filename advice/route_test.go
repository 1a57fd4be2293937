package advice

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func lengthOf(way []int, miles func(i, j int) float64) (sum float64) {
	for k := 1; k < len(way); k++ {
		sum += miles(way[k-1], way[k])
	}
	return sum
}

func plane(seed uint64, n int) func(i, j int) float64 {
	r := rand.New(rand.NewPCG(seed, 3))
	x, y := make([]float64, n), make([]float64, n)
	for i := range n {
		x[i], y[i] = 30*r.Float64(), 30*r.Float64()
	}
	return func(i, j int) float64 { return math.Hypot(x[i]-x[j], y[i]-y[j]) }
}

func TestNoWayPastAFewFieldsIsShorter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 7).Draw(t, "fields")
		miles := plane(rapid.Uint64().Draw(t, "seed"), n)
		way := shortestWay(n, miles)
		if seen := slices.Sorted(slices.Values(way)); len(seen) != n || n > 0 && (seen[0] != 0 || seen[n-1] != n-1) {
			t.Fatalf("way %v past %d fields", way, n)
		}
		length := lengthOf(way, miles)
		var try func(done, left []int)
		try = func(done, left []int) {
			if len(left) == 0 {
				if l := lengthOf(done, miles); l < length-1e-9 {
					t.Fatalf("%v is %g miles, %v is %g", way, length, done, l)
				}
				return
			}
			for i, next := range left {
				rest := slices.Delete(slices.Clone(left), i, i+1)
				try(append(slices.Clone(done), next), rest)
			}
		}
		var all []int
		for i := range n {
			all = append(all, i)
		}
		try(nil, all)
	})
}

func TestALongWayPassesEachFieldOnceAndHasNoCrossing(t *testing.T) {
	for seed := range uint64(20) {
		const n = 40
		miles := plane(seed, n)
		way := shortestWay(n, miles)
		if seen := slices.Sorted(slices.Values(way)); len(slices.Compact(seen)) != n {
			t.Fatalf("%d of %d fields", len(seen), n)
		}
		length := lengthOf(way, miles)
		for i := range n {
			for j := i + 1; j < n; j++ {
				turned := slices.Clone(way)
				slices.Reverse(turned[i : j+1])
				if l := lengthOf(turned, miles); l < length-1e-6 {
					t.Fatalf("seed %d: turning %d to %d round saves %g miles", seed, i, j, length-l)
				}
			}
		}
	}
}

func TestTheRoutineOfExactAndLongWaysAgree(t *testing.T) {
	var worse float64
	for seed := range uint64(40) {
		const n = exactStops
		miles := plane(seed, n)
		d := make([][]float64, n)
		for i := range d {
			d[i] = make([]float64, n)
			for j := range d[i] {
				d[i][j] = miles(i, j)
			}
		}
		exact, long := lengthOf(exactWay(d), miles), lengthOf(untangled(nearestWay(d), d), miles)
		if long < exact-1e-9 {
			t.Fatalf("seed %d: %g miles where the shortest is %g", seed, long, exact)
		}
		worse += (long/exact - 1) / 40
	}
	if worse > 0.08 {
		t.Errorf("ways past many fields are %.0f %% longer than the shortest", 100*worse)
	}
}
