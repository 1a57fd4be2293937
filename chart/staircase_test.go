package chart

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestAStaircaseSaysInItsTableWhatItDraws proves that losses, ranges and shares stand beneath the
// drawing too, and that a range which does not hold its value is not shown.
func TestAStaircaseSaysInItsTableWhatItDraws(t *testing.T) {
	s := Staircase{Unit: "t/ha", Shares: true, Steps: []Step{
		{Label: "standing", Value: 4}, {"mown", 3.9, 3.7, 3.96}, {"odd", 3, 3.2, 3.5}, {Label: "lost", Value: math.NaN(), High: 2},
	}}
	want := [][]string{
		{"Stage", "t/ha", "Between", "Lost", "Of the first"},
		{"standing", "4", "", "", ""}, {"mown", "3.9", "3.7–3.96", "0.1", "98 %"}, {"odd", "3", "", "0.9", "75 %"}, {"lost", "–", "", "", ""},
	}
	if diff := cmp.Diff(want, s.Rows()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
