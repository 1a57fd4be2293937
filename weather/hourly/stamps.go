package hourly

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
)

// reading is what one line says of one instant.
type reading struct {
	line int
	at   time.Time
	temp float64 // C, NaN where there is none
	rain float64 // mm, NaN where there is none
}

// stamped parts a stamp into date, hour, minute and offset.
var (
	stamped = regexp.MustCompile(`^(.*?\d)[T ]+(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?\s*(AM|PM|am|pm)?\s*(Z|UTC|[+-]\d{2}:?\d{2})?$`)
	inWords = regexp.MustCompile(`^(\d{1,2})(?::?(\d{2}))?(?::\d{2})?\s*(AM|PM|am|pm)?$`)
)

// readHours reads the stamps of all rows, by station, in the order of time.
func readHours(t *declared.Table, o Options) [][]reading {
	order := t.FindOrder()
	out := make([][]reading, len(t.Stations))
	seen := make([]map[int64]bool, len(t.Stations)) // instants
	for i := range t.Rows {
		r := &t.Rows[i]
		at, local, why := stamp(r, order, o)
		if why == "" {
			why = t.Possible(unit.DayOf(at.In(o.Day)))
		}
		if why != "" {
			t.Bad(r.Line, "%s", why)
			continue
		}
		if seen[r.Station] == nil {
			seen[r.Station] = map[int64]bool{}
		}
		if local && seen[r.Station][at.Unix()] {
			if second, twice := again(at); twice {
				at = second
			}
		}
		x := reading{line: r.Line, at: at, temp: valueOf(r.Value[declared.HourTemperature]), rain: valueOf(r.Value[weather.Rain])}
		if seen[r.Station][at.Unix()] {
			t.Bad(r.Line, "%s stands twice", at.In(o.Stamps).Format("2006-01-02 15:04 -07:00"))
			continue
		}
		seen[r.Station][at.Unix()] = true
		out[r.Station] = append(out[r.Station], x)
	}
	for _, hours := range out {
		slices.SortStableFunc(hours, func(a, b reading) int { return cmp.Compare(a.at.Unix(), b.at.Unix()) })
	}
	return out
}

func valueOf(v declared.Value) float64 {
	if v.Mark == weather.Absent {
		return math.NaN()
	}
	return v.Base
}

// stamp reads the instant of a row. local says that it was read off a clock of the stamps' zone, the
// first of two where the clock shows it twice.
func stamp(r *declared.Row, order declared.Order, o Options) (at time.Time, local bool, why string) {
	date, hour, minute, half, offset := r.Date, "", "0", "", ""
	if m := stamped.FindStringSubmatch(r.Date); m != nil && (r.Hour == "" || m[2] == "00") {
		date, hour, minute, half, offset = m[1], m[2], m[3], m[5], m[6]
	}
	if r.Hour != "" {
		m := inWords.FindStringSubmatch(r.Hour)
		if m == nil {
			return at, false, fmt.Sprintf("hour %.20q: 0 to 24 or HH:MM wanted", r.Hour)
		}
		hour, minute, half = m[1], cmp.Or(m[2], "0"), m[3]
	}
	day, err := order.Date(date)
	switch {
	case err != nil:
		return at, false, fmt.Sprintf("date %.40q: %v", r.Date, err)
	case hour == "":
		return at, false, fmt.Sprintf("date %.40q: a time of day wanted, as in 2023-05-01 13:00, or a column hour", r.Date)
	}
	h, _ := strconv.Atoi(hour) // one or two digits
	mi, _ := strconv.Atoi(minute)
	switch {
	case half != "" && (h < 1 || h > 12), h > 24, mi > 59, h == 24 && mi > 0:
		return at, false, fmt.Sprintf("date %.40q: there is no such time", r.Date+" "+r.Hour)
	case half == "PM" || half == "pm":
		h = h%12 + 12
	case half != "":
		h %= 12
	}
	y, mo, d := day.Date()
	if offset != "" {
		east, err := ParseOffset(offset)
		if err != nil {
			return at, false, err.Error()
		}
		return time.Date(y, mo, d, h, mi, 0, 0, east), false, ""
	}
	at = time.Date(y, mo, d, h, mi, 0, 0, o.Stamps)
	if wall := time.Date(y, mo, d, h, mi, 0, 0, time.UTC); at.Hour() != wall.Hour() || at.Minute() != wall.Minute() || at.Day() != wall.Day() {
		return at, false, fmt.Sprintf("%s is an hour that clocks in %s leave out: the stamps are of another zone, perhaps of standard time all year", wall.Format("2006-01-02 15:04"), o.Stamps)
	}
	if before := at.Add(-time.Hour); sameClock(before, at) {
		at = before
	}
	return at, true, ""
}

// again is the second instant at which a clock shows what it shows at the first.
func again(first time.Time) (time.Time, bool) {
	second := first.Add(time.Hour)
	return second, sameClock(first, second)
}

func sameClock(a, b time.Time) bool { return a.Hour() == b.Hour() && a.Day() == b.Day() }

var offsets = regexp.MustCompile(`^([+-])(\d{2}):?(\d{2})$`)

// ParseOffset reads an offset from UTC as a zone without summer time: -06:00, Z, UTC.
func ParseOffset(s string) (*time.Location, error) {
	if s == "Z" || s == "UTC" {
		return time.UTC, nil
	}
	m := offsets.FindStringSubmatch(s)
	if m == nil {
		return nil, fmt.Errorf("offset %.20q: accepted Z and offsets as in -06:00", s)
	}
	h, _ := strconv.Atoi(m[2]) // two digits
	mi, _ := strconv.Atoi(m[3])
	if h > 14 || mi > 59 {
		return nil, fmt.Errorf("offset %.20q: accepted -14:00 to +14:00", s)
	}
	seconds := 3600*h + 60*mi
	if m[1] == "-" {
		seconds = -seconds
	}
	return time.FixedZone(m[1]+m[2]+":"+m[3], seconds), nil
}
