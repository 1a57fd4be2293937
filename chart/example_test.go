package chart_test

import (
	"fmt"
	"time"

	"haywarden/chart"
)

func ExampleSVG() {
	drawing := chart.Window{
		Frame: chart.Frame{Title: "Window", Desc: "19 May to 24 May, best 21 May."},
		First: chart.Date(2026, time.May, 18), Last: chart.Date(2026, time.June, 14),
		Early: chart.Date(2026, time.May, 19), Best: chart.Date(2026, time.May, 21), Late: chart.Date(2026, time.May, 24),
	}
	fmt.Println(chart.SVG(drawing)[:62])
	fmt.Println(drawing.Rows()[1][:3])
	// Output:
	// <svg class="drawing" role="img" xmlns="http://www.w3.org/2000/
	// [2026-05-19 2026-05-21 2026-05-24]
}
