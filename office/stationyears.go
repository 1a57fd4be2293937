package office

import (
	"cmp"
	"math"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// YearShare is how whole one year of a record is. A year that is not over counts the days before the date.
type YearShare struct {
	Year     int             `json:"year"`
	Days     int             `json:"days"`
	Elements [3]ElementShare `json:"elements"` // highest, lowest temperature, rain
	Months   [12]MonthShare  `json:"months"`
}

// ElementShare counts the days of one element: as many were observed, failed a check or are absent as
// the year has days, and of those not observed some were filled.
type ElementShare struct {
	Observed int `json:"observed"`
	Failed   int `json:"failed"`
	Absent   int `json:"absent"`
	Filled   int `json:"filled"`
}

// MonthShare counts the days of a month.
type MonthShare struct {
	Days   int `json:"days"`
	Whole  int `json:"whole"`  // highest, lowest and rain all observed
	Mended int `json:"mended"` // all known, some of them filled
	Failed int `json:"failed"` // a value failed a check
}

// FailedCheck counts the values of an element that one check dropped and that are still missing for it.
type FailedCheck struct {
	Element string `json:"element"`
	Check   string `json:"check"`
	Days    int    `json:"days"`
}

// FilledDays counts the values of an element that one method filled.
type FilledDays struct {
	Element string `json:"element"`
	Method  string `json:"method"`
	Days    int    `json:"days"`
}

// told are the elements whose completeness is told: those that every sum on the page rests on.
var told = [3]weather.Element{weather.TMax, weather.TMin, weather.Rain}

// failed reports whether a value was dropped by a check.
func failed(m weather.Mark) bool { return m >= weather.Flagged }

// completeness counts a record's days, filled ones by the copy in which they were.
func completeness(s, filled *weather.Series) (years []YearShare, checks []FailedCheck) {
	checks = []FailedCheck{}
	counts := map[FailedCheck]int{}
	var order []FailedCheck
	for i := range s.Len() {
		d := s.First + unit.Day(i)
		if len(years) == 0 || years[len(years)-1].Year != d.Year() {
			years = append(years, YearShare{Year: d.Year()})
		}
		y := &years[len(years)-1]
		month := &y.Months[d.Month()-1]
		y.Days++
		month.Days++
		observed, known, dropped := true, true, false
		for k, e := range told {
			share, was := &y.Elements[k], s.Marks[i][e]
			mended := filled.Marks[i][e] == weather.Filled
			switch {
			case failed(was):
				share.Failed++
				dropped = true
				c := FailedCheck{Element: e.Code(), Check: was.String()}
				if counts[c]++; counts[c] == 1 {
					order = append(order, c)
				}
			case was == weather.Absent:
				share.Absent++
			default:
				share.Observed++
			}
			if mended {
				share.Filled++
			}
			ok := !failed(was) && was != weather.Absent
			observed, known = observed && ok, known && (ok || mended)
		}
		switch {
		case observed:
			month.Whole++
		case known:
			month.Mended++
		}
		if dropped {
			month.Failed++
		}
	}
	for _, c := range order {
		c.Days = counts[c]
		checks = append(checks, c)
	}
	sortChecks(checks)
	return years, checks
}

// knownShare is the share of days from one to another with both temperatures and rain observed; 0 where
// there is no day.
func knownShare(s *weather.Series, from, to unit.Day) float64 {
	known, days := 0, 0
	for d := from; d <= to; d++ {
		days++
		if i, ok := s.Index(d); ok && s.HasTemperature(d) && !math.IsNaN(s.RainMM[i]) {
			known++
		}
	}
	if days == 0 || s.Len() == 0 {
		return 0
	}
	return float64(known) / float64(days)
}

// sortChecks orders checks by element, the most frequent first.
func sortChecks(all []FailedCheck) {
	slices.SortStableFunc(all, func(a, b FailedCheck) int {
		return cmp.Or(cmp.Compare(elementRank(a.Element), elementRank(b.Element)), cmp.Compare(b.Days, a.Days), cmp.Compare(a.Check, b.Check))
	})
}

func elementRank(code string) int {
	e, _ := weather.ElementOf(code)
	return int(e)
}
