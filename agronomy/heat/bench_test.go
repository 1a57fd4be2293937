package heat

import (
	"math"
	"math/rand/v2"
	"testing"
)

// yearsOfWeather makes 30 years of days with the spread of a lake-shore station of the Midwest, F.
func yearsOfWeather() (tmin, tmax []float64) {
	r := rand.New(rand.NewPCG(1, 2))
	for i := range 30 * 365 {
		mean := 48 - 25*math.Cos(2*math.Pi*float64(i-20)/365) + 8*r.NormFloat64()
		half := 4 + 8*r.Float64()
		tmin, tmax = append(tmin, math.Round(mean-half)), append(tmax, math.Round(mean+half))
	}
	return tmin, tmax
}

// BenchmarkDay counts 30 years of one station by each method. Divide by 10,950 for the time of a day.
func BenchmarkDay(b *testing.B) {
	tmin, tmax := yearsOfWeather()
	for _, s := range []Spec{FirstCut(), Weevil(), {Method: Sine, Base: 50, Upper: 86}, {Method: Triangle, Base: 48, Upper: NoUpper()}} {
		b.Run(s.Method.String()+"/"+map[bool]string{true: "upper", false: "no-upper"}[s.HasUpper()], func(b *testing.B) {
			b.ReportAllocs()
			var sum float64
			for b.Loop() {
				for i := range tmin {
					sum += s.Day(tmin[i], tmax[i])
				}
			}
			if math.IsNaN(sum) {
				b.Fatal("a day without heat")
			}
		})
	}
}
