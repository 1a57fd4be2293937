package trial

import (
	"fmt"
	"math"
)

// Sites is a set of like trials of one kind: what one mean over them rests on.
type Sites struct {
	Sites      int
	Replicates int     // at each
	Error      float64 // variance of a plot
	Interact   float64 // variance of entry by site; 0 for one trial judged in its own place
}

// Check says what cannot be.
func (s Sites) Check() error {
	switch {
	case s.Sites < 1 || s.Replicates < 1:
		return fmt.Errorf("%d sites of %d replicates: give 1 of both at least", s.Sites, s.Replicates)
	case !(s.Error > 0) || !(s.Interact >= 0):
		return fmt.Errorf("variances %g of a plot and %g of entry by site: give more than 0 and 0 or more", s.Error, s.Interact)
	}
	return nil
}

// variance of an entry's mean.
func (s Sites) variance() float64 {
	return s.Interact/float64(s.Sites) + s.Error/float64(s.Sites*s.Replicates)
}

// LSD is what two means over the sites must be apart: t sqrt(2 (interaction/sites + error/plots)), with the
// t of these degrees of freedom at the level. [source.ShrunkenMean]
func (s Sites) LSD(df, level float64) (float64, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	if err := checkLevel(level); err != nil {
		return 0, err
	}
	if !(df >= 1) {
		return 0, fmt.Errorf("df %g: give 1 at least", df)
	}
	return twoSided(level, df) * math.Sqrt(2*s.variance()), nil
}

// Heritability is the share of the spread of such means that is the entries' own. [source.ShrunkenMean]
func (s Sites) Heritability(entries float64) (float64, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	if !(entries >= 0) {
		return 0, fmt.Errorf("variance %g of entries: give 0 or more", entries)
	}
	return entries / (entries + s.variance()), nil
}

// PercentOfCheck sets an entry beside the check over trials that hold both: the mean of the ratios, and the
// ratio of the means, which differ. Percent.
func PercentOfCheck(entry, check []float64) (ofRatios, ofMeans float64, err error) {
	if len(entry) != len(check) || len(entry) == 0 {
		return 0, 0, fmt.Errorf("entry has %d values and check %d: give one of both for each trial that holds both", len(entry), len(check))
	}
	var sum, all, base float64
	for i, v := range entry {
		if !(check[i] > 0) {
			return 0, 0, fmt.Errorf("check value %d is %g: want more than 0", i+1, check[i])
		}
		sum, all, base = sum+v/check[i], all+v, base+check[i]
	}
	return 100 * sum / float64(len(entry)), 100 * all / base, nil
}
