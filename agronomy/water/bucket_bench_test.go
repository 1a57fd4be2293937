package water

import (
	"math"
	"testing"
)

// BenchmarkBucket carries one field through 30 years with p moving by the day, hours not counted.
func BenchmarkBucket(b *testing.B) {
	const days = 30 * 365
	z := Bucket{168, 0.55, FAODepletion()}
	b.ReportAllocs()
	var sum float64
	for b.Loop() {
		var dr float64
		for i := range days {
			etc, rain := float64(i%7), float64(i%5)
			next, ks, _, _ := z.Day(dr, z.ScarceMM(etc), etc, rain)
			dr, sum = next, sum+ks
		}
	}
	if math.IsNaN(sum) {
		b.Fatal("a day without water")
	}
}
