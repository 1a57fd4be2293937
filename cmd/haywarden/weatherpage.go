package main

import (
	"fmt"
	"io"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/office"
)

// writeStations lists the stations with how far and how whole they are, and the age of their forecasts.
func writeStations(w io.Writer, rows []office.StationRow) {
	if len(rows) == 0 {
		fmt.Fprintln(w, "No station has weather yet: `haywarden weather import FILE` brings it.")
		return
	}
	fmt.Fprintf(w, "%-14s %-28s %-9s %-10s %8s %8s %6s  %s\n", "", "", "years", "through", "known", "last 365", "fields", "forecast")
	for _, r := range rows {
		years, through := "none", "–"
		if r.FirstYear != 0 {
			years = fmt.Sprintf("%d-%d", r.FirstYear, r.LastYear)
		}
		if r.Through != 0 {
			through = r.Through.String()
		}
		fmt.Fprintf(w, "%-14s %-28s %-9s %-10s %6.1f %% %6.1f %% %6d  %s\n", r.ID, r.Name, years, through, floored(r.Known), floored(r.Lately), r.Fields, r.Next.Age)
	}
}

// floored is a share in percent, rounded down to tenths: 100 means every day.
func floored(share float64) float64 { return float64(int(1000*share+1e-9)) / 10 }

// writeStationPage prints what the weather page of a station shows.
func writeStationPage(w io.Writer, p *office.StationPage) {
	writeNext(w, p.Next)
	writeSeason(w, p)
	writeFreezeChances(w, p.Freezes)
	writeHay(w, p.Hay)
	writeFalls(w, p.Falls)
	writeSpells(w, p)
	writeCompleteness(w, p)
}

func writeNext(w io.Writer, n office.NextDays) {
	where := ""
	if n.For != "" {
		where = ", for " + n.For
	}
	fmt.Fprintf(w, "\nThe next seven days: %s%s\n", n.Age, where)
	if !n.Kept() {
		fmt.Fprintln(w, "  `haywarden weather fetch` asks for one.")
		return
	}
	if len(n.Days) == 0 {
		fmt.Fprintln(w, "  It says nothing of the days from here on.")
		return
	}
	fmt.Fprintf(w, "  %-10s %8s %8s %8s %8s\n", "", "high, °F", "low, °F", "rain, %", "rain, in")
	for _, d := range n.Days {
		fmt.Fprintf(w, "  %-10s %8s %8s %8s %8s\n", d.Day.Time().Format("Mon 2 Jan"), said(d.HighF, 0, 1), said(d.LowF, 0, 1), said(d.Chance, 0, 100), said(d.RainIn, 2, 1))
	}
}

// said writes a number that may not have been forecast, times a factor.
func said(v *float64, places int, times float64) string {
	if v == nil {
		return "–"
	}
	return fmt.Sprintf("%.*f", places, *v*times)
}

func writeSeason(w io.Writer, p *office.StationPage) {
	fmt.Fprintf(w, "\nThis season through %s, against the smoothed normal and 8 past years in 10\n", p.Through)
	fmt.Fprintf(w, "  %-64s %9s %9s %16s %10s %10s\n", "", "so far", "normal", "8 years in 10", "ahead", "less in")
	for _, c := range append(p.Clocks, p.Rain) {
		name := c.Name + ": " + c.How + ", " + c.Unit
		if !c.Begun {
			fmt.Fprintf(w, "  %-64s %9s\n", name, "not begun")
			continue
		}
		places, i := 0, len(c.Season)-1
		if c.Unit == p.Rain.Unit {
			places = 1
		}
		normal, band, ahead, less := "–", "–", "–", "–"
		if c.Normal != nil {
			normal = fmt.Sprintf("%.*f", places, c.Normal[i])
		}
		if c.P10 != nil {
			band = fmt.Sprintf("%.*f to %.*f", places, c.P10[i], places, c.P90[i])
			less = fmt.Sprintf("%d of %d", c.Below, c.Years)
		}
		if c.Ahead != nil {
			ahead = counted(*c.Ahead, "day")
		}
		fmt.Fprintf(w, "  %-64s %9.*f %9s %16s %10s %10s\n", name, places, c.Now, normal, band, ahead, less)
	}
}

// writeFreezeChances prints the dates by four ways of reading chances, in the order in which they come.
func writeFreezeChances(w io.Writer, all []office.FreezeChances) {
	fmt.Fprintf(w, "\nFreezes: 1 year in 10 before, middle year, 1 in 10 after; by Weibull where the middle lies in 9 of 10 of %d draws of the years\n", office.BandDraws)
	for _, f := range all {
		fmt.Fprintf(w, "  %s, %s", f.Name, counted(f.Years, "year"))
		if f.Without > 0 {
			fmt.Fprintf(w, ", %d without one", f.Without)
		}
		if t := f.Trend; t != nil {
			fmt.Fprintf(w, "; trend %+.1f days a decade (%+.1f to %+.1f)", t.Decade, t.Low, t.High)
		}
		fmt.Fprintln(w)
		if len(f.Methods) == 0 {
			fmt.Fprintln(w, "    too few whole years for chances: 10 at least")
		}
		for i, m := range f.Methods {
			early, late := m.P10, m.P90
			if f.Spring {
				early, late = late, early
			}
			line := fmt.Sprintf("    %-8s %7s %7s %7s   %s", m.Method, freezeDay(early), freezeDay(m.P50), freezeDay(late), m.How)
			if i == 0 {
				line += fmt.Sprintf("; middle %s to %s", freezeDay(f.Low), freezeDay(f.High))
			}
			fmt.Fprintln(w, line)
		}
	}
}

func freezeDay(d *office.FreezeDate) string {
	if d == nil {
		return "none"
	}
	return d.Day.Time().Format("2 Jan")
}

// writeHay prints the chances of haymaking for each day of mowing ahead and through the season.
func writeHay(w io.Writer, all []office.HayDays) {
	for _, h := range all {
		if len(h.Ahead)+len(h.Season) == 0 {
			continue
		}
		fmt.Fprintf(w, "\nMade as %s within %s, no more than 0.05 in of rain on it, in 100: by the model of curing (too hopeful of dry hay from late August on), with heavy dew, and where all days are dry\n", h.Product, counted(h.Within, "day"))
		for _, s := range h.Ahead {
			fmt.Fprintf(w, "  mown %s %6.0f (%.0f to %.0f), with heavy dew %4s; dry %4.0f\n", s.Day, 100*s.Share, 100*s.Low, 100*s.High, said(s.Dew, 0, 100), 100*s.Dry)
		}
		for _, s := range h.Season {
			fmt.Fprintf(w, "  mown about %-6s in past years %4.0f, with heavy dew %4s; dry %4.0f\n", s.From.Time().Format("2 Jan"), 100*s.Share, said(s.Dew, 0, 100), 100*s.Dry)
		}
	}
}

// writeFalls prints how past falls would have treated a last cut.
func writeFalls(w io.Writer, falls []office.FallCut) {
	if len(falls) == 0 {
		return
	}
	fmt.Fprintf(w, "\nA last cut, by its day: share of %s by the heat left to 24 °F (over 500, under 200, between, C-days above 5 °C)\n", counted(falls[0].Years, "fall"))
	fmt.Fprintf(w, "  %-12s %9s %9s %20s\n", "cut on", "enough, %", "little, %", "paid for, %")
	for _, f := range falls {
		fmt.Fprintf(w, "  %-12s %9.0f %9.0f %20s\n", f.Day, 100*f.Over, 100*f.Under, fmt.Sprintf("%.0f (%.0f to %.0f)", 100*f.Between, 100*f.Low, 100*f.High))
	}
}

func writeSpells(w io.Writer, p *office.StationPage) {
	if len(p.Spells) == 0 {
		return
	}
	fmt.Fprintf(w, "\nRuns of dry days (under 0.01 in) from %s on, and of three within seven through the season\n", p.Date)
	fmt.Fprintf(w, "  %-12s %6s %8s %10s %16s %8s\n", "from", "days", "within", "came in", "counted, %", "chain, %")
	for _, s := range append(append([]office.SpellLine{}, p.Spells...), p.Season...) {
		came, share := "–", "–"
		if s.Years > 0 {
			came = fmt.Sprintf("%d of %d", s.With, s.Years)
			share = fmt.Sprintf("%.0f (%.0f to %.0f)", 100*float64(s.With)/float64(s.Years), 100*s.Low, 100*s.High)
		}
		fmt.Fprintf(w, "  %-12s %6d %8d %10s %16s %8.0f\n", s.From, s.Dry, s.Within, came, share, 100*s.Chain)
	}
	if !p.Spells[0].Counted {
		fmt.Fprintln(w, "  With fewer than 20 years to count, go by the chain; it gives too few long spells.")
	}
}

// writeCompleteness prints the years that lack anything; whole ones are joined.
func writeCompleteness(w io.Writer, p *office.StationPage) {
	fmt.Fprintf(w, "\nHow whole the record is: days observed, failed a check, filled (highest; lowest; rain)\n")
	var from, to int
	flush := func() {
		if from != 0 {
			years := fmt.Sprint(from)
			if to > from {
				years += fmt.Sprintf("-%d", to)
			}
			fmt.Fprintf(w, "  %-9s whole\n", years)
		}
		from = 0
	}
	for _, y := range p.Complete {
		whole := true
		var parts []string
		for _, e := range y.Elements {
			whole = whole && e.Observed == y.Days
			parts = append(parts, fmt.Sprintf("%4d %3d %3d", e.Observed, e.Failed, e.Filled))
		}
		if whole && y.Days == unit.DaysIn(y.Year) {
			if from == 0 {
				from = y.Year
			}
			to = y.Year
			continue
		}
		flush()
		fmt.Fprintf(w, "  %-9d %s  of %s\n", y.Year, strings.Join(parts, ";"), counted(y.Days, "day"))
	}
	flush()
	for _, c := range p.Failed {
		fmt.Fprintf(w, "  %s, failed: %s, %s\n", c.Element, c.Check, counted(c.Days, "day"))
	}
	for _, f := range p.Filled {
		fmt.Fprintf(w, "  %s, filled: %s, %s\n", f.Element, f.Method, counted(f.Days, "day"))
	}
}
