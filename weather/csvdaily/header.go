package csvdaily

import (
	"fmt"
	"strings"

	"haywarden/weather"
)

// header says where in a line things stand; -1 where they do not.
type header struct {
	width                                 int
	station, name, date, lat, lon, height int
	element, attributes                   [5]int // by weather.Element
	other                                 []int  // columns of elements that are not kept
	names                                 []string
}

// strangers are the columns by which the look-alike is known.
var strangers = []string{"TEMP", "DEWP", "FRSHTT"}

// readHeader finds the columns.
func readHeader(names []string) (header, error) {
	h := header{width: len(names), station: -1, name: -1, date: -1, lat: -1, lon: -1, height: -1}
	for e := range h.element {
		h.element[e], h.attributes[e] = -1, -1
	}
	at := map[string]int{}
	for i, n := range names {
		n = strings.ToUpper(strings.TrimSpace(n))
		h.names = append(h.names, n)
		if first, twice := at[n]; twice && n != "" {
			return h, fmt.Errorf("column %s stands twice, as number %d and %d; take one out", n, first+1, i+1)
		}
		at[n] = i
	}
	for _, n := range strangers {
		if _, ok := at[n]; ok {
			return h, fmt.Errorf("column %s marks a Global Summary of the Day file, whose rain is in inches with 99.99 for missing and whose flags mean other things: it is not read; bring the daily summaries (GHCN-Daily) of the station", n)
		}
	}
	for i, n := range h.names {
		h.place(n, i)
	}
	return h, h.check()
}

func (h *header) place(name string, i int) {
	for to, field := range map[string]*int{
		"STATION": &h.station, "NAME": &h.name, "STATION_NAME": &h.name, "DATE": &h.date,
		"LATITUDE": &h.lat, "LONGITUDE": &h.lon, "ELEVATION": &h.height,
	} {
		if name == to {
			*field = i
			return
		}
	}
	if e, ok := weather.ElementOf(name); ok {
		h.element[e] = i
		return
	}
	if code, ok := strings.CutSuffix(name, "_ATTRIBUTES"); ok {
		if e, kept := weather.ElementOf(code); kept {
			h.attributes[e] = i
		}
		return
	}
	if name != "" {
		h.other = append(h.other, i)
	}
}

// check demands what no file can do without.
func (h *header) check() error {
	var lack []string
	if h.station < 0 {
		lack = append(lack, "STATION")
	}
	if h.date < 0 {
		lack = append(lack, "DATE")
	}
	if len(lack) > 0 {
		return fmt.Errorf("no column %s; the columns are %s", strings.Join(lack, " and no column "), shortened(h.names))
	}
	for _, at := range h.element {
		if at >= 0 {
			return nil
		}
	}
	return fmt.Errorf("none of the columns TMAX, TMIN, PRCP, SNOW, SNWD; the columns are %s", shortened(h.names))
}

// shortened lists names up to a length that fits a message.
func shortened(names []string) string {
	const most = 12
	if len(names) > most {
		return fmt.Sprintf("%.200q and %d more", names[:most], len(names)-most)
	}
	return fmt.Sprintf("%.200q", names)
}
