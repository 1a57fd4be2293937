package web

import (
	"fmt"
	"strconv"
	"strings"

	"haywarden/advice"
	"haywarden/chart"
	"haywarden/office"
)

// elementNames are the elements of [office.YearShare] in plain words.
var elementNames = map[string]string{"TMAX": "highest", "TMIN": "lowest", "PRCP": "rain"}

// record draws how whole the record is and says what was done to it.
func (v *stationView) record(p *office.StationPage) {
	d := chart.Record{}
	d.Title = "How whole the record of " + p.Name + " is"
	v.Years = [][]string{{"Year", "Days", "High observed", "failed", "filled", "Low observed", "failed", "filled", "Rain observed", "failed", "filled"}}
	days, whole := 0, 0
	for _, y := range p.Complete {
		year := chart.RecordYear{Year: y.Year}
		for m, month := range y.Months {
			days, whole = days+month.Days, whole+month.Whole
			if month.Days > 0 {
				n := float64(month.Days)
				year.Months[m] = chart.RecordMonth{Days: month.Days, Observed: float64(month.Whole) / n, Filled: float64(month.Mended) / n, Failed: month.Failed}
			}
		}
		d.Years = append(d.Years, year)
		row := []string{strconv.Itoa(y.Year), strconv.Itoa(y.Days)}
		for _, e := range y.Elements {
			row = append(row, share(float64(e.Observed)/float64(y.Days)), some(e.Failed), some(e.Filled))
		}
		v.Years = append(v.Years, row)
	}
	v.RecordSay = fmt.Sprintf("Highest, lowest and rain were all observed, and passed the checks, on %s of %s days.", share(float64(whole)/float64(max(1, days))), thousands(days))
	d.Desc = v.RecordSay
	v.Months = d.Rows()
	for _, size := range []struct {
		class string
		width float64
	}{{"full-only", fullWide}, {"mid-only", midWide}, {"narrow-only", phoneWide}} {
		d.Width = size.width
		v.Record = append(v.Record, drawn{SVG: chart.SVG(d), Class: size.class})
	}
	v.Done = doneTo(p)
}

// some writes a count, nothing for none.
func some(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func thousands(n int) string {
	s := strconv.Itoa(n)
	if len(s) > 3 {
		s = s[:len(s)-3] + "," + s[len(s)-3:]
	}
	return s
}

// doneTo lists the checks that dropped values and the ways in which days were filled.
func doneTo(p *office.StationPage) []factView {
	var failed, filled []string
	for _, c := range p.Failed {
		failed = append(failed, fmt.Sprintf("%s, %s: %s", elementNames[c.Element], c.Check, countDays(c.Days)))
	}
	for _, f := range p.Filled {
		filled = append(filled, fmt.Sprintf("%s, %s: %s", elementNames[f.Element], f.Method, countDays(f.Days)))
	}
	out := []factView{{"Failed a check", "no value"}, {"Filled for the sums here", "no day"}}
	if len(failed) > 0 {
		out[0].Value = advice.Capital(strings.Join(failed, "; ")) + "."
	}
	if len(filled) > 0 {
		out[1].Value = advice.Capital(strings.Join(filled, "; ")) + "."
	}
	return out
}

func countDays(n int) string { return fmt.Sprintf("%d %s", n, advice.Plural(n, "day")) }

// openImports is how many imports stand open; earlier ones are folded.
const openImports = 4

// imports lists what was brought and what it changed, newest first.
func (v *stationView) imports(p *office.StationPage) {
	for i, in := range p.Imports {
		say := fmt.Sprintf("%s: %d %s new, %d changed, %d as they were", in.Source, in.Added, advice.Plural(in.Added, "year"), in.Changed, in.Unchanged)
		n := 0
		for _, f := range in.Failed {
			n += f
		}
		if n > 0 {
			say += fmt.Sprintf("; %d %s failed a check", n, advice.Plural(n, "value"))
		}
		d := dayView{in.Received.Format("2006-01-02"), in.Received.Format("2 Jan 2006"), say + "."}
		if i < openImports || len(p.Imports) < openImports+leastFold {
			v.Imports = append(v.Imports, d)
		} else {
			v.Older = append(v.Older, d)
		}
	}
}

// recordLegend is the key of a record.
func recordLegend() string {
	return keys([]chart.Key{
		{Role: chart.Growing, Words: "observed; high as the bar: every day, 9 in 10, half, fewer"}, {Role: chart.Rest, Words: "narrow cap: filled"},
		{Role: chart.Seen, Shape: chart.Dot, Words: "a value failed a check"},
	})
}

// freezeLegend is the key of freeze dates.
func freezeLegend() string {
	return keys([]chart.Key{
		{Role: chart.InWindow, Shape: chart.Upright, Words: "8 years in 10, middle year"}, {Role: chart.Fan50, Shape: chart.Foot, Words: "where the middle may lie"},
		{Role: chart.Today, Shape: chart.Dots, Words: "today"},
	})
}
