package csvdaily

import (
	"math"
	"strconv"
	"strings"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// row takes in one line; a fault is noted and the line left out.
func (t *table) row(line int, fields []string) {
	id := strings.TrimSpace(fields[t.head.station])
	station, ok := t.station(line, id, fields)
	if !ok {
		return
	}
	day, why := parseDate(strings.TrimSpace(fields[t.head.date]))
	switch {
	case why != "":
		t.fault(line, "DATE %q: %s", fields[t.head.date], why)
		return
	case day > t.g.Today():
		t.fault(line, "DATE %s is after today, %s", day, t.g.Today())
		return
	case day.Year() < weather.FirstYear:
		t.fault(line, "DATE %s, accepted from %d", day, weather.FirstYear)
		return
	}
	r := row{day: day, line: line, station: station}
	for _, e := range weather.Elements() {
		c, why := t.cell(e, fields)
		if why != "" {
			t.fault(line, "%s: %s", e.Code(), why)
			return
		}
		r.cell[e] = c
	}
	for _, i := range t.head.other {
		if strings.TrimSpace(fields[i]) != "" {
			t.places[station].Skip([]byte(t.head.names[i]))
		}
	}
	t.places[station].Lines++
	t.rows = append(t.rows, r)
}

// station finds the record that a line belongs to, and takes its name and place from its first line.
func (t *table) station(line int, id string, fields []string) (int, bool) {
	if at, ok := t.stations[id]; ok {
		return at, true
	}
	if id == "" || len(id) > 20 || strings.ContainsFunc(id, func(r rune) bool { return r <= ' ' || r > '~' }) {
		t.fault(line, "STATION %.40q: a name of up to 20 letters and digits wanted", id)
		return 0, false
	}
	rec := t.g.Station([]byte(id))
	if rec == nil {
		t.fault(line, "station %s is one too many: a file may hold %d; take out the stations you need", id, weather.MostStations)
		return 0, false
	}
	if t.head.name >= 0 {
		rec.Station.Name = strings.TrimSpace(fields[t.head.name])
	}
	for _, p := range []struct {
		name      string
		at        int
		low, high float64
		to        *float64
	}{
		{"LATITUDE", t.head.lat, -90, 90, &rec.Station.Latitude},
		{"LONGITUDE", t.head.lon, -180, 180, &rec.Station.Longitude},
		{"ELEVATION", t.head.height, -500, 9000, &rec.Station.Elevation},
	} {
		if p.at < 0 || strings.TrimSpace(fields[p.at]) == "" {
			continue
		}
		v, ok := t.number(fields[p.at])
		if ok && v == -999.9 && p.name == "ELEVATION" {
			continue // not known to the archive
		}
		if !ok || v < p.low || v > p.high {
			t.fault(line, "%s %q, accepted %g to %g", p.name, fields[p.at], p.low, p.high)
			return 0, false
		}
		*p.to = v
	}
	at := len(t.places)
	t.stations[id], t.places = at, append(t.places, rec)
	return at, true
}

// parseDate reads a date that begins with its year. Others are refused, not guessed: 6/7/2023 is a day
// in June to one reader and in July to another.
func parseDate(s string) (unit.Day, string) {
	const want = "a date written YYYY-MM-DD wanted"
	parts := []string{}
	switch {
	case len(s) == 8 && !strings.ContainsAny(s, "-/"):
		parts = []string{s[:4], s[4:6], s[6:]}
	case strings.Count(s, "-") == 2:
		parts = strings.Split(s, "-")
	case strings.Count(s, "/") == 2:
		parts = strings.Split(s, "/")
	}
	if len(parts) != 3 {
		return 0, want
	}
	if len(parts[0]) != 4 {
		return 0, want + ", since day and month cannot be told apart otherwise"
	}
	var n [3]int
	for i, p := range parts {
		v, err := strconv.ParseUint(p, 10, 16)
		if err != nil || len(p) == 0 || i > 0 && len(p) > 2 {
			return 0, want
		}
		n[i] = int(v)
	}
	month := time.Month(n[1])
	if month < time.January || month > time.December || n[2] < 1 || n[2] > weather.DaysInMonth(n[0], month) {
		return 0, "there is no such day"
	}
	return unit.DateOf(n[0], month, n[2]), ""
}

// cell reads one element of a line. An empty field, and the marks of missing that such files are known
// to carry, are absent.
func (t *table) cell(e weather.Element, fields []string) (cell, string) {
	absent := cell{mark: weather.Absent}
	if t.head.element[e] < 0 {
		return absent, ""
	}
	written := strings.TrimSpace(fields[t.head.element[e]])
	if written == "" {
		return absent, ""
	}
	c := cell{mark: weather.Reported}
	if written == "T" && e != weather.TMax && e != weather.TMin {
		c.mark = weather.Trace
	} else {
		v, ok := t.number(written)
		if !ok {
			return c, strconv.Quote(written) + " is not a number" + t.decimalHint(written)
		}
		if missing(v) {
			return absent, ""
		}
		c.value = v
	}
	if at := t.head.attributes[e]; at >= 0 {
		return attributed(c, strings.TrimSpace(fields[at]))
	}
	return c, ""
}

// missing reports whether a number is one of those that stand for a missing value. [source.GHCNQuality]
func missing(v float64) bool {
	return v == -9999 || v == 99.99 || v == 999.9 || v == 9999.9
}

// attributed applies the attributes "M,Q,S[,time]" to a value. [source.GHCNDaily]
func attributed(c cell, written string) (cell, string) {
	if written == "" {
		return c, ""
	}
	m, rest, _ := strings.Cut(written, ",")
	q, _, _ := strings.Cut(rest, ",")
	m, q = strings.TrimSpace(m), strings.TrimSpace(q)
	if len(m) > 1 || len(q) > 1 || strings.ContainsFunc(m+q, func(r rune) bool { return r > '~' }) {
		return c, "attributes " + strconv.Quote(written) + ": flags of one letter wanted, as in \",,W\" or \"T,,7\""
	}
	switch {
	case q != "":
		c.mark, c.flag = weather.Flagged, q[0]
	case m == "T":
		c.mark = weather.Trace
	case m == "P":
		c.mark = weather.PresumedZero
	}
	return c, ""
}

// number reads a plain decimal number. A decimal comma counts only where the fields are not parted by
// commas themselves.
func (t *table) number(s string) (float64, bool) {
	s = strings.TrimSpace(s)
	if t.comma && strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	for i, c := range []byte(s) {
		if (c < '0' || c > '9') && c != '.' && (i > 0 || c != '-' && c != '+') {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && math.Abs(v) < 1e6
}

// decimalHint explains why a decimal comma was not taken.
func (t *table) decimalHint(s string) string {
	if !t.comma && strings.Contains(s, ",") {
		return "; a decimal comma is read only where fields are parted by ; or a tab"
	}
	return ""
}
