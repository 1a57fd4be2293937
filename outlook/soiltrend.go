package outlook

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// SoilSeries is one value of a field's soil through its tests. Phosphorus and potassium are ppm by one
// extractant: what another found is another series.
type SoilSeries struct {
	Code   string // ph, p, k, om ...
	Name   string
	Unit   string // empty for pH
	By     book.Extractant
	Points []SoilPoint // oldest first
}

// SoilPoint is the mean of what was found on a day over the parts of the field.
type SoilPoint struct {
	Day   unit.Day
	Value float64
	Parts int
}

// Last is the newest point.
func (s SoilSeries) Last() SoilPoint { return s.Points[len(s.Points)-1] }

// What two soil tests of a field differ by without the soil having changed: cores, season and laboratory
// (choice).
const (
	phError      = 0.2
	contentError = 0.2 // of the mean of both
)

// Moved says what came of a value from the first test to the last; empty where there is one test.
func (s SoilSeries) Moved() string {
	if len(s.Points) < 2 {
		return ""
	}
	a, b := s.Points[0], s.Last()
	within := contentError * (a.Value + b.Value) / 2
	if s.Unit == "" {
		within = phError
	}
	if math.Abs(b.Value-a.Value) <= within+1e-9 {
		return fmt.Sprintf("no difference since %d that tests could tell", a.Day.Year())
	}
	way := "up"
	if b.Value < a.Value {
		way = "down"
	}
	return fmt.Sprintf("%s from %s in %d", way, shown(a.Value), a.Day.Year())
}

func shown(v float64) string {
	if v >= 100 {
		return fmt.Sprintf("%.0f", v)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
}

// SoilSeriesOf are the values of a field's soil through its tests up to a day, in the order in which a test
// is read.
func SoilSeriesOf(f *book.FieldView, through unit.Day) []SoilSeries {
	var all []SoilSeries
	at := map[string]int{}
	add := func(day unit.Day, code, name, in string, by book.Extractant, v float64) {
		key := code + " " + string(by)
		i, known := at[key]
		if !known {
			i = len(all)
			at[key] = i
			all = append(all, SoilSeries{Code: code, Name: name, Unit: in, By: by})
		}
		s := &all[i]
		if n := len(s.Points); n > 0 && s.Last().Day == day {
			p := &s.Points[n-1]
			p.Value = (p.Value*float64(p.Parts) + v) / float64(p.Parts+1)
			p.Parts++
			return
		}
		s.Points = append(s.Points, SoilPoint{day, v, 1})
	}
	for _, t := range f.SoilTests {
		if t.Day > through {
			continue
		}
		if t.Body.PH != 0 {
			add(t.Day, "ph", "Water pH", "", "", t.Body.PH)
		}
		for _, e := range []struct {
			code, name string
			got        *book.Extracted
		}{{"p", "Phosphorus", t.Body.P}, {"k", "Potassium", t.Body.K}} {
			if e.got != nil {
				add(t.Day, e.code, e.name, "ppm", e.got.By, e.got.PPM())
			}
		}
		for _, v := range book.SoilValues() {
			if got, ok := t.Body.More[v.Code]; ok {
				add(t.Day, v.Code, strings.ToUpper(v.About[:1])+v.About[1:], v.Unit, "", got)
			}
		}
	}
	order := map[string]int{"ph": -3, "p": -2, "k": -1}
	slices.SortStableFunc(all, func(a, b SoilSeries) int { return cmp.Compare(order[a.Code], order[b.Code]) })
	return all
}

// YearYield is what a calendar year's cuts gave.
type YearYield struct {
	Year    int
	Tons    float64 // dry matter an acre
	Guessed int     // cuts that were not weighed
}

// YearYields are the yields of the years in which the book has cuts of the stand, oldest first; the running
// year up to its newest cut.
func (s *Stand) YearYields() (out []YearYield) {
	for year := s.Seeded.Year(); year <= s.Date.Year(); year++ {
		if t, ok := s.TakenBetween(unit.DateOf(year, time.January, 1), unit.DateOf(year, time.December, 31), regionTable); ok {
			out = append(out, YearYield{year, float64(t.Tons), t.Guessed})
		}
	}
	return out
}

// StemCounts are the means of the stems counted in the stand's life, a point for each day of counting.
func (s *Stand) StemCounts() (out []SoilPoint) {
	for _, v := range s.Visits {
		sum, n := 0., 0
		for _, f := range v.Body.Frames {
			if f.Stems != nil {
				sum, n = sum+float64(*f.Stems)/f.Ft2, n+1
			}
		}
		if n > 0 {
			out = append(out, SoilPoint{v.Day, sum / float64(n), n})
		}
	}
	return out
}

// TestClass is what a table that a user typed in calls a test; not ok where no class holds it.
func (o *Outlook) TestClass(s *Stand, nutrient string, e *book.Extracted) (class, edition string, ok bool) {
	t, has := o.View.GuideTable(string(o.GuidesOf(s).Fertility), book.TestClasses)
	if !has || e == nil {
		return "", "", false
	}
	crop := s.Crop
	if crop == book.ReducedLignin {
		crop = book.Alfalfa
	}
	v := math.Round(e.PPM())
	for _, c := range t.Body.Classes {
		if c.Nutrient == nutrient && c.By == e.By && c.Crop == crop && c.Soil == "" && v >= c.From && v <= c.To {
			return c.Class, t.Body.Edition, true
		}
	}
	return "", "", false
}
