package outlook_test

import (
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

func soilTested(on unit.Day, ph, k float64, by book.Extractant) book.Dated[book.SoilTest] {
	return book.Dated[book.SoilTest]{Day: on, Body: book.SoilTest{PH: ph, K: &book.Extracted{Value: k, Unit: book.PPM, By: by}}}
}

// TestTestsByTwoExtractantsAreTwoSeries proves that a change of laboratory is not told as a change of soil,
// and that lb an acre and ppm are one.
func TestTestsByTwoExtractantsAreTwoSeries(t *testing.T) {
	on := func(y int) unit.Day { return unit.DateOf(y, time.October, 10) }
	f := &book.FieldView{SoilTests: []book.Dated[book.SoilTest]{
		soilTested(on(2018), 6.8, 172, book.Mehlich3), soilTested(on(2021), 6.7, 128, book.Mehlich3),
		soilTested(on(2024), 6.7, 80, book.AmmoniumAcetate), soilTested(on(2024), 6.3, 100, book.AmmoniumAcetate),
		{Day: on(2025), Body: book.SoilTest{K: &book.Extracted{Value: 180, Unit: book.LbAcre, By: book.AmmoniumAcetate}}},
	}}
	got := map[string]outlook.SoilSeries{}
	for _, s := range outlook.SoilSeriesOf(f, on(2025)) {
		got[s.Code+" "+string(s.By)] = s
	}
	for _, c := range []struct {
		key, moved string
		last       float64
		points     int
	}{
		{"ph ", "down from 6.8 in 2018", 6.5, 3},
		{"k mehlich-3", "down from 172 in 2018", 128, 2},
		{"k ammonium-acetate", "no difference since 2024 that tests could tell", 90, 2},
	} {
		s, ok := got[c.key]
		if !ok || len(s.Points) != c.points || s.Last().Value != c.last || s.Moved() != c.moved {
			t.Errorf("%s: %+v, %q; want %d points, the last %g, %q", c.key, s.Points, s.Moved(), c.points, c.last, c.moved)
		}
	}
	if n := len(outlook.SoilSeriesOf(f, on(2018)-1)); n != 0 {
		t.Errorf("%d series before the first test", n)
	}
	if p := got["ph "].Points[2].Parts; p != 2 {
		t.Errorf("%d parts, want 2: both were sampled on one day", p)
	}
}
