package declared

import (
	"fmt"
	"strings"

	"haywarden/tabular"
	"haywarden/weather"
)

// MostID is the longest ID of a station.
const MostID = 20

// GoodID reports whether a text can be the ID of a station.
func GoodID(id string) bool {
	return id != "" && len(id) <= MostID && !strings.ContainsFunc(id, func(r rune) bool { return r <= ' ' || r > '~' })
}

// station finds the record that a line belongs to, and takes its name and place from its first line.
func (t *Table) station(in tabular.Row, cell func(weather.Quantity) string) (int, bool) {
	id, given := t.options.Station.ID, t.options.Station
	if t.Has(weather.StationQ) {
		written := cell(weather.StationQ)
		if id != "" && written != id {
			t.Bad(in.Line, "station %.40q, but %s was declared for the whole file; which is right?", written, id)
			return 0, false
		}
		id = written
	}
	if at, ok := t.byID[id]; ok {
		return at, at >= 0
	}
	switch {
	case id == "" && !t.Has(weather.StationQ):
		t.Bad(0, "the file does not say its station: declare one, or give it in a line \"# station: ID\" above the table or in a column station")
		t.byID[id] = -1
		return 0, false
	case !GoodID(id):
		t.Bad(in.Line, "station %.40q: an ID of up to %d letters, digits and marks without accents or spaces wanted; what people call it goes into the name", id, MostID)
		return 0, false
	}
	rec := t.Gatherer.Station([]byte(id))
	if rec == nil {
		t.Bad(in.Line, "station %s is one too many: a file may hold %d; take out the stations you need", id, weather.MostStations)
		return 0, false
	}
	given.ID = id
	if why := t.describe(in, cell, &given); why != "" {
		t.Bad(in.Line, "%s", why)
		return 0, false
	}
	rec.Station = given
	at := len(t.Stations)
	t.byID[id], t.Stations = at, append(t.Stations, &Station{Record: rec})
	return at, true
}

// describe takes name and place from the columns of a line.
func (t *Table) describe(in tabular.Row, cell func(weather.Quantity) string, st *weather.Station) string {
	if name := cell(weather.NameQ); name != "" {
		st.Name = name
	}
	for _, p := range []struct {
		q         weather.Quantity
		low, high float64
		to        *float64
	}{
		{weather.LatitudeQ, -90, 90, &st.Latitude},
		{weather.LongitudeQ, -180, 180, &st.Longitude},
		{weather.ElevationQ, -500, 9000, &st.Elevation},
	} {
		written := cell(p.q)
		if written == "" {
			continue
		}
		v, err := in.Number(written)
		if err == nil && p.q == weather.ElevationQ && v == -999.9 {
			continue // not known to the archive
		}
		v = t.measure(p.q).Base(v)
		if err != nil || v < p.low || v > p.high {
			return fmt.Sprintf("%s %.40q, accepted %g to %g", p.q, written, p.low, p.high)
		}
		*p.to = v
	}
	return ""
}
