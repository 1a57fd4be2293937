package csvdaily

import (
	"strconv"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/tabular"
	"haywarden/weather"
)

// row takes in one row; a fault is noted and the row left out.
func (t *table) row(in tabular.Row) {
	station, ok := t.station(in)
	if !ok {
		return
	}
	date, err := tabular.DateByYear(in.Cell(t.head.date))
	if err != nil {
		t.fault(in.Line, "DATE %.40q: %v", in.Cell(t.head.date), err)
		return
	}
	day := unit.DayOf(date)
	switch {
	case day > t.g.Today():
		t.fault(in.Line, "DATE %s is after today, %s", day, t.g.Today())
		return
	case day.Year() < weather.FirstYear:
		t.fault(in.Line, "DATE %s, accepted from %d", day, weather.FirstYear)
		return
	}
	r := row{day: day, line: in.Line, station: station}
	for _, e := range weather.Elements() {
		c, why := t.cell(e, in)
		if why != "" {
			t.fault(in.Line, "%s: %s", e.Code(), why)
			return
		}
		r.cell[e] = c
	}
	for _, i := range t.head.other {
		if in.Cell(i) != "" {
			t.places[station].Skip([]byte(t.head.names[i]))
		}
	}
	t.places[station].Lines++
	t.rows = append(t.rows, r)
}

// station finds the record that a line belongs to, and takes its name and place from its first line.
func (t *table) station(in tabular.Row) (int, bool) {
	id := in.Cell(t.head.station)
	if at, ok := t.stations[id]; ok {
		return at, true
	}
	if id == "" || len(id) > 20 || strings.ContainsFunc(id, func(r rune) bool { return r <= ' ' || r > '~' }) {
		t.fault(in.Line, "STATION %.40q: a name of up to 20 letters and digits wanted", id)
		return 0, false
	}
	rec := t.g.Station([]byte(id))
	if rec == nil {
		t.fault(in.Line, "station %s is one too many: a file may hold %d; take out the stations you need", id, weather.MostStations)
		return 0, false
	}
	rec.Station.Name = in.Cell(t.head.name)
	for _, p := range []struct {
		name      string
		at        int
		low, high float64
		to        *float64
	}{
		{"LATITUDE", t.head.latitude, -90, 90, &rec.Station.Latitude},
		{"LONGITUDE", t.head.longitude, -180, 180, &rec.Station.Longitude},
		{"ELEVATION", t.head.elevation, -500, 9000, &rec.Station.Elevation},
	} {
		written := in.Cell(p.at)
		if written == "" {
			continue
		}
		v, err := in.Number(written)
		if err == nil && v == -999.9 && p.name == "ELEVATION" {
			continue // not known to the archive
		}
		if err != nil || v < p.low || v > p.high {
			t.fault(in.Line, "%s %.40q, accepted %g to %g", p.name, written, p.low, p.high)
			return 0, false
		}
		*p.to = v
	}
	at := len(t.places)
	t.stations[id], t.places = at, append(t.places, rec)
	return at, true
}

// cell reads one element of a line. An empty field, and the marks of missing that such files are known
// to carry, are absent.
func (t *table) cell(e weather.Element, in tabular.Row) (cell, string) {
	absent := cell{mark: weather.Absent}
	written := in.Cell(t.head.element[e])
	if written == "" {
		return absent, ""
	}
	c := cell{mark: weather.Reported}
	if written == "T" && e != weather.TMax && e != weather.TMin {
		c.mark = weather.Trace
	} else {
		v, err := in.Number(written)
		switch {
		case err != nil:
			return c, err.Error()
		case missing(v):
			return absent, ""
		case v > mostValue || v < -mostValue:
			return c, strconv.Quote(written) + " is too large a number"
		}
		c.value = v
	}
	return attributed(c, in.Cell(t.head.attributes[e]))
}

// mostValue keeps a value in any unit within whole numbers.
const mostValue = 1e6

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
