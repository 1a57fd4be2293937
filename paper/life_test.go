package paper_test

import (
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/paper"
)

// standOfYears is a stand with a weighed year, one that nobody weighed, two counts and two soil tests.
func standOfYears() *outlook.Stand {
	on := func(y int, m time.Month, d int) unit.Day { return unit.DateOf(y, m, d) }
	tons, stems := 4.0, func(n int) book.Dated[book.Visit] {
		return book.Dated[book.Visit]{Day: on(2024+n/50, time.April, 28), Body: book.Visit{Frames: []book.Frame{{Stems: &n, Ft2: 1}}}}
	}
	tested := func(y int, ph, k float64) book.Dated[book.SoilTest] {
		return book.Dated[book.SoilTest]{Day: on(y, time.October, 9), Body: book.SoilTest{PH: ph, K: &book.Extracted{Value: k, Unit: book.PPM, By: book.Mehlich3}}}
	}
	f := &book.FieldView{Field: book.Field{Name: "North", Acres: 20}, Farm: &book.FarmView{Farm: book.Farm{Name: "Ridge"}}, SoilTests: []book.Dated[book.SoilTest]{tested(2021, 6.8, 170), tested(2024, 6.4, 90)}}
	return &outlook.Stand{
		StandView: &book.StandView{
			ID: "s", Stand: book.Stand{Crop: book.Alfalfa, Seeded: on(2022, time.April, 20)}, Farm: f.Farm, InField: f,
			Cuts:   []book.Dated[book.Cut]{{Day: on(2024, time.May, 24), Body: book.Cut{Number: 1, TonsDM: &tons}}, {Day: on(2025, time.May, 26), Body: book.Cut{Number: 1}}},
			Visits: []book.Dated[book.Visit]{stems(44), stems(58)},
		},
		Date: on(2026, time.May, 19), Year: 4, Yield: outlook.Yield{Year: 5},
	}
}

// TestALifeIsDrawnFromSeedingOn proves that the line of a life holds what was weighed apart from what was
// reckoned, the counts, and the soil since shortly before the seeding.
func TestALifeIsDrawnFromSeedingOn(t *testing.T) {
	life, ok := paper.Life(standOfYears())
	if !ok || len(life.Tracks) != 4 {
		t.Fatalf("%+v", life)
	}
	var said []string
	for _, r := range life.Rows()[1:] {
		said = append(said, strings.TrimSpace(strings.Join(r, " ")))
	}
	for _, want := range []string{"2022-04-20 seeded", "2024 Yield 4 tons of dry matter an acre measured", "Stems 44 a square foot measured", "Potassium 90 ppm by mehlich-3 measured", "2021-10-09 Water pH 6.8  measured"} {
		if !strings.Contains(strings.Join(said, "\n"), want) {
			t.Errorf("no %q in\n%s", want, strings.Join(said, "\n"))
		}
	}
	if y := life.Tracks[0].Points; len(y) != 2 || y[0].Guessed || !y[1].Guessed {
		t.Errorf("yields %+v; want the year that nobody weighed told as reckoned", y)
	}
	s := standOfYears()
	line, ok := paper.SoilLine(s)
	if want := "Soil of 2024: pH 6.4, K 90 ppm by mehlich-3; pH down from 6.8 in 2021, K down from 170 in 2021."; !ok || line != want {
		t.Errorf("%q, want %q", line, want)
	}
	s.InField.SoilTests = nil
	if _, ok := paper.SoilLine(s); ok {
		t.Error("a field without a test has a line of soil")
	}
}
