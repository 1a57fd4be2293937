package stand

import "math"

// cloverByYear is red clover's yield by production year as a share of its best, the year after seeding.
var cloverByYear = [...]float64{1.00, 0.65, 0.30}

// CloverByYear is red clover's yield in a production year as a share of its best: it lives two to three
// years, newer types a fourth. NaN before the first; after the last printed the last still holds.
// Source: [source.CloverAge].
func CloverByYear(productionYear int) float64 {
	if productionYear < 1 {
		return math.NaN()
	}
	return cloverByYear[min(productionYear, len(cloverByYear))-1]
}

// Evenness is how evenly a stand greens up, by the spread between its frames.
type Evenness string

// The classes.
const (
	Even       Evenness = "even"
	Patchy     Evenness = "patchy"
	VeryPatchy Evenness = "very patchy"
)

const (
	evenTo   = 0.25
	patchyTo = 0.40
)

// Evenness is the class of the spread between frames, their CV taken in hundredths; not known of one frame.
// Source: [source.StandEvenness].
func (c StemCount) Evenness() (class Evenness, known bool) {
	if math.IsNaN(c.CV) {
		return "", false
	}
	switch shown := math.Round(c.CV*100) / 100; {
	case shown <= evenTo:
		return Even, true
	case shown <= patchyTo:
		return Patchy, true
	}
	return VeryPatchy, true
}
