package csvdaily

import (
	"fmt"
	"strings"

	"haywarden/tabular"
	"haywarden/weather"
)

// header says where in a row things stand; -1 where they do not.
type header struct {
	station, name, date int
	latitude, longitude int
	elevation           int
	element, attributes [5]int   // by weather.Element
	other               []int    // columns of elements that are not kept
	names               []string // of all columns
}

// strangers are the columns by which the look-alike is known.
var strangers = []string{"TEMP", "DEWP", "FRSHTT"}

// readHeader finds the columns.
func readHeader(in tabular.Header) (header, error) {
	for _, n := range strangers {
		if in.Find(n) >= 0 {
			return header{}, fmt.Errorf("column %s marks a Global Summary of the Day file, whose rain is in inches with 99.99 for missing and whose flags mean other things: it is not read; bring the daily summaries (GHCN-Daily) of the station", n)
		}
	}
	h := header{
		station: in.Find("STATION"), name: in.Find("NAME", "STATION_NAME"), date: in.Find("DATE"),
		latitude: in.Find("LATITUDE"), longitude: in.Find("LONGITUDE"), elevation: in.Find("ELEVATION"),
		names: in.Names(),
	}
	known := map[int]bool{h.station: true, h.name: true, h.date: true, h.latitude: true, h.longitude: true, h.elevation: true}
	elements := 0
	for _, e := range weather.Elements() {
		h.element[e], h.attributes[e] = in.Find(e.Code()), in.Find(e.Code()+"_ATTRIBUTES")
		known[h.element[e]] = true
		if h.element[e] >= 0 {
			elements++
		}
	}
	for i, n := range h.names {
		if !known[i] && n != "" && !strings.HasSuffix(strings.ToUpper(n), "_ATTRIBUTES") {
			h.other = append(h.other, i)
		}
	}
	switch {
	case h.station < 0 && h.date < 0:
		return h, fmt.Errorf("no column STATION and no column DATE; the columns are %v", in)
	case h.station < 0:
		return h, fmt.Errorf("no column STATION; the columns are %v", in)
	case h.date < 0:
		return h, fmt.Errorf("no column DATE; the columns are %v", in)
	case elements == 0:
		return h, fmt.Errorf("none of the columns TMAX, TMIN, PRCP, SNOW, SNWD; the columns are %v", in)
	}
	return h, nil
}
