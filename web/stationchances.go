package web

import (
	"fmt"
	"slices"
	"time"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/chart"
	"haywarden/office"
)

// spells says how likely runs of dry days are, from the day on and through the season.
func (v *stationView) spells(p *office.StationPage) {
	v.Spells.Head = []headView{{"Dry", "days"}, {"Within", "days"}, {"Came in", "years"}, {"Chance counted", "95 % interval"}, {"By the chain", ""}}
	for _, s := range p.Spells {
		v.Spells.Rows = append(v.Spells.Rows, append([]string{fmt.Sprint(s.Dry), fmt.Sprint(s.Within)}, spellCells(s)...))
	}
	if len(p.Season) > 0 {
		v.SpellsBy = [][]string{{"From", "Came in", "Chance counted", "By the chain"}}
	}
	for _, s := range p.Season {
		v.SpellsBy = append(v.SpellsBy, append([]string{advice.Short(s.From)}, spellCells(s)...))
	}
	v.SpellSay = "A dry day has less than 0.01 inch. "
	if len(p.Spells) > 0 && p.Spells[0].Counted {
		v.SpellSay += "Go by the count: the chain, which knows one day back only, gives too few long spells and stands here to compare."
	} else {
		v.SpellSay += "With fewer than 20 years to count, go by the chain of dry and wet days; it gives too few long spells."
	}
}

func spellCells(s office.SpellLine) []string {
	if s.Years == 0 {
		return []string{"none whole", "–", inHundred(s.Chain)}
	}
	return []string{
		fmt.Sprintf("%d of %d", s.With, s.Years),
		fmt.Sprintf("%s (%.0f to %.0f)", inHundred(float64(s.With)/float64(s.Years)), 100*s.Low, 100*s.High), inHundred(s.Chain),
	}
}

func inHundred(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// freezes draws and lists the freeze dates.
func (v *stationView) freezes(p *office.StationPage) {
	year := p.Date.Year()
	sides := []struct {
		id, title   string
		spring      bool
		first, last unit.Day
	}{
		{"spring", "Last freeze of spring", true, unit.DateOf(year, time.March, 1), unit.DateOf(year, time.June, 20)},
		{"fall", "First freeze of fall", false, unit.DateOf(year, time.September, 1), unit.DateOf(year, time.December, 10)},
	}
	for _, side := range sides {
		d := chart.Spreads{First: chartDay(side.first), Last: chartDay(side.last), Today: chartDay(p.Date)}
		d.Title = side.title
		for _, f := range slices.Backward(p.Freezes) {
			if f.Spring != side.spring || len(f.Methods) == 0 {
				continue
			}
			early, middle, late := inOrder(f, f.Methods[0])
			d.Days = append(d.Days, chart.Spread{
				Label: fmt.Sprintf("%g °F", f.ThresholdF), Early: dayOf(early), Middle: dayOf(middle), Late: dayOf(late), Low: dayOf(f.Low), High: dayOf(f.High),
			})
			d.Desc = fmt.Sprintf("%s: middle year %s", f.Name, dateSay(middle))
		}
		if len(d.Days) == 0 {
			continue
		}
		if !side.spring {
			slices.Reverse(d.Days) // either side lists the freezes in the order of the year
		}
		fv := freezeView{ID: "freeze-" + side.id, Title: side.title}
		d.Width = halfWide
		fv.Drawings = append(fv.Drawings, drawn{SVG: chart.SVG(d), Class: "wide-only"})
		d.Width = phoneWide
		fv.Drawings = append(fv.Drawings, drawn{SVG: chart.SVG(d), Class: "narrow-only"})
		v.Freezes = append(v.Freezes, fv)
	}
	v.FreezeLede = freezeLede(p.Freezes)
	v.freezeTables(p)
	v.falls(p)
}

// falls says how past falls would have treated a last cut.
func (v *stationView) falls(p *office.StationPage) {
	v.Falls.Head = []headView{{"Cut on", ""}, {"Enough heat left", "of years"}, {"Little drawn", "of years"}, {"Paid for in spring", "of years"}, {"that is", "95 % interval"}}
	for _, f := range p.Falls {
		v.Falls.Rows = append(v.Falls.Rows, []string{advice.Short(f.Day), share(f.Over), share(f.Under), share(f.Between), between(f.Low, f.High)})
	}
	v.FallSay = "Counted on the heat above 41 °F (5 °C) from the cut to the next day at 24 °F or less, or 30 November: with 900 F-days (500 C-days) roots fill again, under 360 (200) the crop has hardly drawn on them; between the two the cut is paid for in spring."
}

// freezeLede says the middle year of the two freezes that tops go by.
func freezeLede(all []office.FreezeChances) string {
	const tops = 28 // F; 24 F stands beside it
	var spring, fall string
	for _, f := range all {
		if f.ThresholdF != tops || len(f.Methods) == 0 || f.Methods[0].P50 == nil {
			continue
		}
		on := advice.Short(f.Methods[0].P50.Day)
		if f.Spring {
			spring = on
		} else {
			fall = on
		}
	}
	if spring == "" || fall == "" {
		return "There are too few whole years, or too few with a freeze, to say when 28 °F comes in the middle year."
	}
	return fmt.Sprintf("In the middle year 28 °F comes last in spring about %s and first in fall about %s.", spring, fall)
}

func (v *stationView) freezeTables(p *office.StationPage) {
	v.FreezeTab.Head = []headView{
		{"Freeze", ""}, {"Years", ""}, {"1 in 10", "before"}, {"Middle", "year"}, {"1 in 10", "after"}, {"Middle may lie", "9 draws in 10"}, {"Trend", "days a decade"},
	}
	v.FreezeWays = [][]string{{"Freeze", "Chances read by", "1 in 10 before", "Middle year", "1 in 10 after"}}
	for _, f := range p.Freezes {
		years := fmt.Sprint(f.Years)
		if f.Without > 0 {
			years += fmt.Sprintf(", %d without", f.Without)
		}
		name := fmt.Sprintf("Fall %g °F", f.ThresholdF)
		if f.Spring {
			name = fmt.Sprintf("Spring %g °F", f.ThresholdF)
		}
		row := []string{name, years, "too few years", "–", "–", "–", "–"}
		for i, m := range f.Methods {
			early, middle, late := inOrder(f, m)
			if i == 0 {
				row[2], row[3], row[4] = dateSay(early), dateSay(middle), dateSay(late)
				row[5] = dateSay(f.Low) + " – " + dateSay(f.High)
			}
			v.FreezeWays = append(v.FreezeWays, []string{name, m.Method + ": " + m.How, dateSay(early), dateSay(middle), dateSay(late)})
		}
		if t := f.Trend; t != nil {
			row[6] = fmt.Sprintf("%s (%s to %s)", signed(t.Decade, 1), signed(t.Low, 1), signed(t.High, 1))
		}
		v.FreezeTab.Rows = append(v.FreezeTab.Rows, row)
	}
	v.FreezeSay = fmt.Sprintf("Chances by Weibull’s rank p(n + 1) of the sorted years (quantile type 6); a year without a freeze ranks after all others. "+
		"A year counts only where no missing day could hide an earlier freeze. The middle’s band: the years drawn anew %d times. Trend: Theil–Sen with its 95 %% interval, over the years that have the freeze; later is above 0.", office.BandDraws)
}

// inOrder gives the dates as they come in the year: in spring the small chance of a later freeze is late.
func inOrder(f office.FreezeChances, d office.FreezeDates) (early, middle, late *office.FreezeDate) {
	if f.Spring {
		return d.P90, d.P50, d.P10
	}
	return d.P10, d.P50, d.P90
}

func dayOf(d *office.FreezeDate) chart.Day {
	if d == nil {
		return 0
	}
	return chartDay(d.Day)
}

func dateSay(d *office.FreezeDate) string {
	if d == nil {
		return "none"
	}
	return d.Day.Time().Format("2 Jan")
}
