package count

import (
	"fmt"
	"math"
)

// EnoughTotal is the running total over n spots at which the mean is known to a wanted precision
// (standard error over mean): stop when the total has come to it. Not ok where no total over so few
// spots suffices. Both published forms turn [Spots] round. Sources: [source.FixedPrecision].
func EnoughTotal(m Model, precision float64, n int) (total float64, ok bool, err error) {
	if n < 1 || !(precision > 0) {
		return 0, false, fmt.Errorf("%d spots and precision %g: want at least one spot and a precision over 0", n, precision)
	}
	if err := sound(m); err != nil {
		return 0, false, err
	}
	c2, spots := precision*precision, float64(n)
	switch m := m.(type) {
	case NegativeBinomial:
		total = 1 / (c2 - 1/(m.K*spots))
	case PowerLaw:
		if m.B == 2 {
			return 0, false, fmt.Errorf("b 2: the number of spots does not hang on the mean; a line needs another b")
		}
		total = math.Pow(c2/m.A, 1/(m.B-2)) * math.Pow(spots, (m.B-1)/(m.B-2))
	default:
		total = 1 / c2
	}
	return total, total > 0 && !math.IsInf(total, 0) && !math.IsNaN(total), nil
}
