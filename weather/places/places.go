// Package places reads the lists in which GHCN-Daily says where its stations are and what they measured
// when (ghcnd-stations.txt and ghcnd-inventory.txt, fixed width), and finds the stations nearest to a
// place. [source.GHCNDaily]
package places

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"haywarden/weather"
)

// Place is a station of the list.
type Place struct {
	weather.Station
	State          string
	ElevationKnown bool
}

// Years are the years over which a station has some of an element.
type Years struct {
	First int `json:"first"`
	Last  int `json:"last"`
}

// Inventory tells by station and element of which years there is something.
type Inventory map[string]map[string]Years

// columns cuts the letters from one column to another, counted from 1, without the blanks around them.
func columns(line []rune, from, to int) string {
	if from > len(line) {
		return ""
	}
	return strings.TrimSpace(string(line[from-1 : min(to, len(line))]))
}

// each calls f with every line that is not empty; what f finds wrong refuses the file.
func each(r io.Reader, name string, f func(line []rune) string) error {
	in := bufio.NewScanner(r)
	refusal := &weather.Refusal{File: name}
	n := 0
	for in.Scan() {
		n++
		text := strings.TrimRight(in.Text(), " \r")
		if text == "" {
			continue
		}
		why := "the line is not UTF-8"
		if utf8.ValidString(text) {
			why = f([]rune(strings.TrimPrefix(text, "\ufeff")))
		}
		if why != "" {
			refusal.Found++
			if len(refusal.Issues) < weather.MostIssues {
				refusal.Issues = append(refusal.Issues, weather.Issue{Line: n, Reason: why})
			}
		}
	}
	switch err := in.Err(); {
	case errors.Is(err, bufio.ErrTooLong):
		return weather.Refuse(name, "line %d is far too long: this is no list of stations", n+1)
	case err != nil:
		return fmt.Errorf("read %s: %w", name, err)
	case refusal.Found > 0:
		return refusal
	}
	return nil
}

// head reads ID, latitude and longitude, which begin a line of both lists.
func head(line []rune) (id string, lat, lon float64, why string) {
	id = columns(line, 1, 11)
	if len([]rune(id)) != 11 {
		return "", 0, 0, fmt.Sprintf("columns 1-11: station ID %q of 11 letters wanted", id)
	}
	lat, err := strconv.ParseFloat(columns(line, 13, 20), 64)
	if err != nil || !(lat >= -90 && lat <= 90) {
		return "", 0, 0, fmt.Sprintf("columns 13-20: latitude %q, accepted -90 to 90", columns(line, 13, 20))
	}
	lon, err = strconv.ParseFloat(columns(line, 22, 30), 64)
	if err != nil || !(lon >= -180 && lon <= 180) {
		return "", 0, 0, fmt.Sprintf("columns 22-30: longitude %q, accepted -180 to 180", columns(line, 22, 30))
	}
	return id, lat, lon, ""
}

// Stations reads ghcnd-stations.txt: ID 1-11, latitude 13-20, longitude 22-30, elevation in m 32-37
// (-999.9 where it is not known), state 39-40, name 42-71.
func Stations(r io.Reader, name string) (out []Place, err error) {
	err = each(r, name, func(line []rune) string {
		id, lat, lon, why := head(line)
		if why != "" {
			return why
		}
		p := Place{Station: weather.Station{ID: id, Latitude: lat, Longitude: lon, Name: columns(line, 42, 71), WholeF: weather.ReadsWholeF(id)}, State: columns(line, 39, 40)}
		v, err := strconv.ParseFloat(columns(line, 32, 37), 64)
		if err != nil || !(v == -999.9 || v >= -500 && v <= 9000) {
			return fmt.Sprintf("columns 32-37: elevation %q, accepted -500 to 9000 m, or -999.9 where it is not known", columns(line, 32, 37))
		}
		if v != -999.9 {
			p.Elevation, p.ElevationKnown = v, true
		}
		out = append(out, p)
		return ""
	})
	if err == nil && len(out) == 0 {
		err = weather.Refuse(name, "the list holds no station")
	}
	if err != nil {
		return nil, err
	}
	return out, nil
}

// ReadInventory reads ghcnd-inventory.txt: ID 1-11, latitude 13-20, longitude 22-30, element 32-35, first
// year 37-40, last year 42-45.
func ReadInventory(r io.Reader, name string) (Inventory, error) {
	out := Inventory{}
	err := each(r, name, func(line []rune) string {
		id, _, _, why := head(line)
		if why != "" {
			return why
		}
		element := columns(line, 32, 35)
		first, err1 := strconv.Atoi(columns(line, 37, 40))
		last, err2 := strconv.Atoi(columns(line, 42, 45))
		switch {
		case len(element) != 4:
			return fmt.Sprintf("columns 32-35: element %q of four letters wanted", element)
		case err1 != nil || err2 != nil || first < weather.FirstYear || last < first || last > 9999:
			return fmt.Sprintf("columns 37-45: years %q to %q, accepted from %d, the first not after the last", columns(line, 37, 40), columns(line, 42, 45), weather.FirstYear)
		}
		if out[id] == nil {
			out[id] = map[string]Years{}
		}
		out[id][element] = Years{first, last}
		return ""
	})
	if err == nil && len(out) == 0 {
		err = weather.Refuse(name, "the inventory holds no station")
	}
	if err != nil {
		return nil, err
	}
	return out, nil
}

// Near is a station and how far it lies.
type Near struct {
	Place
	Miles float64
}

// Nearest lists the stations nearest to a place, at most so many, nearest first. Only those that keep
// accepts count; nil accepts all.
func Nearest(all []Place, lat, lon float64, most int, keep func(Place) bool) []Near {
	var out []Near
	for _, p := range all {
		if keep == nil || keep(p) {
			out = append(out, Near{p, weather.Miles(lat, lon, p.Latitude, p.Longitude)})
		}
	}
	slices.SortFunc(out, func(a, b Near) int { return cmp.Or(cmp.Compare(a.Miles, b.Miles), cmp.Compare(a.ID, b.ID)) })
	return out[:min(most, len(out))]
}
