package csvdaily

import (
	"fmt"
	"math"
	"slices"
	"time"

	"haywarden/weather"
)

// Units are the units of a file.
type Units string

// The units a file may be in. Metric and Standard are the archive's own words for its orders.
const (
	Unstated Units = ""         // to be found from the values
	Metric   Units = "metric"   // degrees C, mm
	Standard Units = "standard" // degrees F, inches
	Tenths   Units = "tenths"   // tenths of a degree C and of a mm; snow in mm
)

// ParseUnits reads the name of a system of units; empty means unstated.
func ParseUnits(s string) (Units, error) {
	if u := Units(s); slices.Contains([]Units{Unstated, Metric, Standard, Tenths}, u) {
		return u, nil
	}
	return Unstated, fmt.Errorf("units %q: accepted metric (C, mm), standard (F, inches), tenths (tenths of C and mm)", s)
}

// String says the units in words.
func (u Units) String() string {
	switch u {
	case Metric:
		return "metric: degrees C and mm"
	case Standard:
		return "standard: degrees F and inches"
	case Tenths:
		return "tenths of a degree C and of a mm, snow in mm"
	default:
		return "unstated"
	}
}

// howToSay is the end of every refusal for units.
const howToSay = "say which they are: metric (C, mm), standard (F, inches) or tenths (tenths of C and mm)"

// The rule by which units are found (derived, from what summers and years of rain are in the
// Midwest). The ranges of the median do not meet.
const (
	leastSummer  = 10  // June to August highest temperatures (choice)
	aboveTenths  = 150 // no degree C or F is so high
	lowF, highF  = 60, 105
	lowC, highC  = 15, 40
	leastOfYear  = 330       // days with rain reported, for a year's total (choice)
	lowMM, topMM = 250, 2500 // mean year's rain, wide enough for any year with crops, narrow enough to tell units apart (choice)
)

// settle decides the units: those given where nothing speaks against them, else those found.
func settle(given Units, t *table) (u Units, how string, err error) {
	found, how := t.summer()
	fits, rain := t.rain()
	switch {
	case given == Unstated && found == Unstated:
		return found, "", fmt.Errorf("the units cannot be told: %s; %s", how, howToSay)
	case given != Unstated && found != Unstated && given != found:
		return given, "", fmt.Errorf("the units were given as %s, but the values are %s: %s; bring the file again with the right units", given, found, how)
	case found != Unstated && fits != nil && !slices.Contains(fits, found):
		return found, "", fmt.Errorf("the units cannot be told: temperatures are %s (%s), but rain is not (%s); %s", found, how, rain, howToSay)
	case given != Unstated && fits != nil && !slices.Contains(fits, given):
		return given, "", fmt.Errorf("the units were given as %s, but the rain does not fit: %s", given, rain)
	case given != Unstated && found != Unstated:
		return given, "given, and borne out: " + how, nil
	case given != Unstated:
		return given, "given; the values cannot bear it out: " + how, nil
	case rain != "":
		how += ", " + rain
	}
	return found, "found: " + how, nil
}

// summer finds the units from the highest temperatures of June to August.
func (t *table) summer() (Units, string) {
	var v []float64
	for _, r := range t.rows {
		if m := r.day.Month(); m < time.June || m > time.August {
			continue
		}
		if c := r.cell[weather.TMax]; c.mark == weather.Reported {
			v = append(v, c.value)
		}
	}
	if len(v) < leastSummer {
		return Unstated, fmt.Sprintf("%d highest temperatures of June to August, %d needed", len(v), leastSummer)
	}
	slices.Sort(v)
	median := (v[(len(v)-1)/2] + v[len(v)/2]) / 2
	highest := max(v[len(v)-1], -v[0])
	how := fmt.Sprintf("the median of %d highest temperatures of June to August is %.4g", len(v), median)
	isF, isC := median >= lowF && median <= highF, median >= lowC && median <= highC
	switch {
	case highest > aboveTenths && (isF || isC):
		return Unstated, how + fmt.Sprintf(", but one is as far out as %.4g", highest)
	case highest > aboveTenths:
		return Tenths, how + fmt.Sprintf(" and one is as far out as %.4g", highest)
	case isF:
		return Standard, how
	case isC:
		return Metric, how
	}
	return Unstated, how
}

// rain lists the units that the mean year's rain fits, nil where no year is whole enough, and says it.
func (t *table) rain() (fits []Units, how string) {
	type year struct{ station, year int }
	sum, n := map[year]float64{}, map[year]int{}
	for _, r := range t.rows {
		if c := r.cell[weather.Rain]; c.mark <= weather.PresumedZero && c.mark != weather.Absent {
			y := year{r.station, r.day.Year()}
			sum[y] += c.value
			n[y]++
		}
	}
	var totals []float64
	for y, days := range n {
		if days >= leastOfYear {
			totals = append(totals, sum[y])
		}
	}
	if len(totals) == 0 {
		return nil, ""
	}
	slices.Sort(totals) // so that the mean does not depend on the order of a map
	mean := 0.
	for _, v := range totals {
		mean += v / float64(len(totals))
	}
	fits = []Units{}
	for u, mm := range map[Units]float64{Metric: mean, Standard: mean * 25.4, Tenths: mean / 10} {
		if mm >= lowMM && mm <= topMM {
			fits = append(fits, u)
		}
	}
	return fits, fmt.Sprintf("the mean year's rain of %d years is %.5g", len(totals), mean)
}

// stored converts a value to what is stored: tenths of C and of mm, snow in mm.
func (u Units) stored(e weather.Element, v float64) float64 {
	switch {
	case u == Tenths:
		return v
	case e == weather.TMax || e == weather.TMin:
		if u == Standard {
			v = (v - 32) / 1.8
		}
		return math.Round(v * 10)
	case e == weather.Rain:
		if u == Standard {
			v *= 25.4
		}
		return math.Round(v * 10)
	case u == Standard:
		v *= 25.4
	}
	return math.Round(v)
}

// keep puts the rows into their records.
func (t *table) keep(u Units) {
	whole := make([]bool, len(t.places))
	for i, p := range t.places {
		whole[i] = u == Standard || weather.ReadsWholeF(p.Station.ID)
	}
	for _, r := range t.rows {
		rec := t.places[r.station]
		year := r.day.Year()
		for _, e := range weather.Elements() {
			c := r.cell[e]
			if c.mark == weather.Absent {
				continue
			}
			v := u.stored(e, c.value)
			if v != math.Trunc(v) {
				t.fault(r.line, "%s %g: tenths are whole numbers; are the units metric or standard?", e.Code(), c.value)
				break
			}
			if u == Standard && (e == weather.TMax || e == weather.TMin) && c.value != math.Trunc(c.value) {
				whole[r.station] = false
			}
			rec.Year(year).Put(r.day.YearDay()-1, e, int32(v), c.mark, c.flag)
		}
	}
	for i, p := range t.places {
		p.Station.WholeF = whole[i]
	}
}
