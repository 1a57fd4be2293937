package declared

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"strconv"
	"strings"

	"haywarden/tabular"
	"haywarden/weather"
)

// Text is a file decoded, with what its lines above the table say.
type Text struct {
	Rest string            // the table; the lines above it are empty, so that lines keep their numbers
	Said map[string]string // by key, in lower case: station, name, latitude ...
	note weather.FileNote
}

// Load reads a file whole and decodes it.
func Load(r io.Reader, name string, format weather.Format) (Text, error) {
	seal := weather.NewSeal(r)
	raw, err := io.ReadAll(io.LimitReader(seal, mostBytes+1))
	if err != nil {
		return Text{}, fmt.Errorf("read %s: %w", name, err)
	}
	if len(raw) > mostBytes {
		return Text{}, weather.Refuse(name, "the file is larger than %d MB; take out the part you need", mostBytes>>20)
	}
	text, encoding, err := tabular.Decode(raw)
	if fault, ok := errors.AsType[*tabular.Fault](err); ok {
		return Text{}, weather.Refuse(name, "%v", fault)
	}
	if err != nil {
		return Text{}, fmt.Errorf("read %s: %w", name, err)
	}
	text = strings.ReplaceAll(text, "\r\n", "\n")
	if !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n")
	}
	t := Text{Rest: text, Said: map[string]string{}, note: weather.FileNote{Format: string(format), Encoding: encoding}}
	seal.Mark(&t.note)
	return t, nil
}

// Comments takes the lines that begin with # for what is said of the file, as in "# station: HILL" or
// "# units: tmax=F, rain=in", and leaves them empty.
func (t Text) Comments() Text {
	if !strings.Contains(t.Rest, "#") {
		return t
	}
	lines := strings.Split(t.Rest, "\n")
	for i, line := range lines {
		if said, ok := strings.CutPrefix(strings.TrimSpace(line), "#"); ok {
			t.say(strings.TrimRight(said, ",;\t ")) // a spreadsheet program fills the line up
			lines[i] = ""
		}
	}
	t.Rest = strings.Join(lines, "\n")
	return t
}

// Above takes the lines before the one that header accepts for free text in which keys may stand; false
// where no line is accepted.
func (t Text) Above(header func(line string) bool) (Text, bool) {
	lines := strings.Split(t.Rest, "\n")
	for i, line := range lines {
		if header(line) {
			t.Rest = strings.Join(lines, "\n")
			return t, true
		}
		// Several keys may share a line, parted by blanks: "Latitude: 43.10  Longitude: -89.40".
		for part := range strings.SplitSeq(strings.ReplaceAll(line, "\t", "  "), "  ") {
			t.say(strings.Trim(part, "#, "))
		}
		lines[i] = ""
	}
	return t, false
}

func (t Text) say(line string) {
	key, value, ok := strings.Cut(line, ":")
	if !ok {
		return
	}
	key = strings.ToLower(strings.TrimSpace(key))
	if _, before := t.Said[key]; !before {
		t.Said[key] = strings.TrimSpace(value)
	}
}

// fill adds what the file says of itself to what was said of it.
func (t Text) fill(o Options) (Options, error) {
	st := &o.Station
	if id := t.said("station", "station id", "id"); id != "" {
		if st.ID != "" && st.ID != id {
			return o, fmt.Errorf("the file says its station is %s, but %s was declared; which is right?", id, st.ID)
		}
		st.ID = id
	}
	if st.Name == "" {
		st.Name = t.said("name", "station name")
	}
	for _, p := range []struct {
		names     []string
		to        *float64
		low, high float64
	}{
		{[]string{"latitude", "lat"}, &st.Latitude, -90, 90},
		{[]string{"longitude", "lon"}, &st.Longitude, -180, 180},
		{[]string{"elevation", "elev"}, &st.Elevation, -500, 9000},
	} {
		written := t.said(p.names...)
		if written == "" || *p.to != 0 {
			continue
		}
		number, unit := tabular.CutUnit(written)
		v, err := strconv.ParseFloat(number, 64)
		if err == nil && p.names[0] == "elevation" {
			var m weather.Measure
			m, err = ParseElevationUnit(unit)
			v = m.Base(v)
		}
		if err != nil || v < p.low || v > p.high {
			return o, fmt.Errorf("%s: %.40q above the table, accepted %g to %g%s", p.names[0], written, p.low, p.high, elevationHint(p.names[0]))
		}
		*p.to = v
	}
	if units := t.said("units", "unit"); units != "" {
		said := map[string]string{}
		for part := range strings.FieldsFuncSeq(units, func(r rune) bool { return r == ',' || r == ';' }) {
			column, u, ok := strings.Cut(part, "=")
			if !ok {
				return o, fmt.Errorf("units: %.60q above the table: pairs as in tmax=F, rain=in wanted", units)
			}
			said[strings.TrimSpace(column)] = strings.TrimSpace(u)
		}
		maps.Copy(said, o.Columns.Units)
		o.Columns.Units = said
	}
	return o, nil
}

// ParseElevationUnit reads m or ft.
func ParseElevationUnit(s string) (weather.Measure, error) {
	s, _, _ = strings.Cut(s, " ")
	m, err := weather.ParseMeasure(s)
	if err != nil || !m.Fits(weather.ElevationQ) {
		return weather.NoMeasure, fmt.Errorf("elevation in %.20q: accepted m and ft", s)
	}
	return m, nil
}

func elevationHint(key string) string {
	if key == "elevation" {
		return " m, with its unit, as in 262 m or 860 ft"
	}
	return ""
}

func (t Text) said(keys ...string) string {
	for _, k := range keys {
		if v := t.Said[k]; v != "" {
			return v
		}
	}
	return ""
}
