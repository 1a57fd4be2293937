// Package gridded reads the series of a single pixel of a gridded data set, in the two layouts in which
// they come.
//
// One is that of Daymet: lines of free text with latitude, longitude and elevation, then a header that
// begins year,yday and names each variable with its unit. Its years all have 365 days: in a leap year
// 29 February is there and 31 December is not, so that day 60 of a leap year is 29 February and day 365
// is 30 December. 31 December of leap years therefore stays missing. [source.DaymetCalendar]
//
// The other is a table with a date and columns tmmx, tmmn and pr, as people export it from gridMET,
// with declared units. Its days run from midnight to midnight Mountain Standard Time, an hour later than
// the Central day all year; Daymet's are the days of the stations that went into it. [source.GridDays]
//
// A pixel is a mean over an area made from stations: its lowest temperatures are milder than those of a
// hollow, and it has no observers. The report says so.
package gridded

import (
	"fmt"
	"io"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/declared"
	"haywarden/weather/plain"
)

// Read reads a single-pixel series, named name in messages and in the report. A day after today refuses
// it. Where no ID was declared, one is made from the place.
func Read(r io.Reader, name string, today unit.Day, o declared.Options) ([]weather.Reading, error) {
	text, err := declared.Load(r, name, weather.FormatGridded)
	if err != nil {
		return nil, err
	}
	notes := []string{"a pixel is a mean over an area, made from stations around: frost in a hollow is not in it"}
	if above, ok := text.Above(weather.YearAndDay); ok {
		text = above
		if e := text.Said["elevation"]; e != "" && !strings.ContainsAny(e, "mf") {
			text.Said["elevation"] = e + " m" // the layout defines it
		}
		notes = append(notes, "all years have 365 days: 31 December of leap years is missing, 29 February is not",
			"a day is that of the stations that the grid was made from, mostly the 24 hours before a morning or evening reading")
	} else {
		text = text.Comments()
		notes = append(notes, "a day is read as running from midnight to midnight Mountain Standard Time (from memory)")
	}
	if o.Station.ID == "" && text.Said["station"] == "" {
		o.Station.ID = pixelID(text, o.Station)
	}
	t, err := declared.Read(text, name, today, o)
	if err != nil {
		return nil, err
	}
	t.Note.Notes = append(t.Note.Notes, notes...)
	return plain.Finish(t)
}

// pixelID names a pixel by its place, as in GRID43.100N89.400W; empty where the place is not known.
func pixelID(text declared.Text, st weather.Station) string {
	lat, lon := st.Latitude, st.Longitude
	if lat == 0 && lon == 0 {
		if _, err := fmt.Sscan(text.Said["latitude"], &lat); err != nil {
			return ""
		}
		if _, err := fmt.Sscan(text.Said["longitude"], &lon); err != nil {
			return ""
		}
	}
	if lat < -90 || lat > 90 || lon < -180 || lon > 180 || lat != lat || lon != lon {
		return ""
	}
	ns, ew := "N", "E"
	if lat < 0 {
		lat, ns = -lat, "S"
	}
	if lon < 0 {
		lon, ew = -lon, "W"
	}
	return fmt.Sprintf("GRID%.3f%s%.3f%s", lat, ns, lon, ew)
}
