package advice

import "slices"

func sorted(x []float64) []float64 {
	slices.Sort(x)
	return x
}
