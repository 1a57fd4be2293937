// Package intake reads a weather file of any form the program knows: it looks at the head of the
// file, unpacks gzip and zip, and hands the rest to the reader of that form.
package intake

import (
	"bufio"
	"cmp"
	"compress/flate"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/csvdaily"
	"haywarden/weather/declared"
	"haywarden/weather/ghcn"
	"haywarden/weather/gridded"
	"haywarden/weather/hourly"
	"haywarden/weather/plain"
)

// mostUnpacked is how large a compressed file may become (choice): the longest station records are
// some 20 MB, so that more is a mistake or a trap.
const mostUnpacked = 1 << 30

// Options are what whoever brings a file says of it. The zero value says nothing.
type Options struct {
	Units    csvdaily.Units   // of daily-summaries CSV; found from the values where unstated
	Declared declared.Options // columns, units, order of dates and station of plain, gridded and hourly CSV
	Day      *time.Location   // whose days hourly readings make
	Stamps   *time.Location   // of hourly stamps without an offset; nil: as Day
	Begins   bool             // an hour's rain is that of the hour that begins at its stamp
	Morning  weather.Morning  // what to do with readings of the morning
	// Listed are stations as the archive lists them: their name and place stand where a file tells none.
	Listed []weather.Station
}

// Read reads a weather file, named name in messages and in the report. A value for a day after today
// refuses it.
func Read(r io.Reader, name string, today unit.Day, o Options) ([]weather.Reading, error) {
	readings, err := unpacked(r, name, today, o)
	if err != nil {
		return nil, err
	}
	for i := range readings {
		if err := readings[i].Mornings(o.Morning); err != nil {
			return nil, weather.Refuse(name, "%v", err)
		}
		o.describe(&readings[i].Station, len(readings) == 1)
	}
	return readings, nil
}

// describe gives a station the name and place that its file does not tell: as the archive lists it, else as
// was said, where the file is of that station alone.
func (o Options) describe(st *weather.Station, alone bool) {
	known := []weather.Station{}
	if i := slices.IndexFunc(o.Listed, func(l weather.Station) bool { return l.ID == st.ID }); i >= 0 {
		known = append(known, o.Listed[i])
	}
	if said := o.Declared.Station; alone && (said.ID == "" || said.ID == st.ID) {
		known = append(known, said)
	}
	for _, k := range known {
		if st.Name == "" || st.Name == st.ID {
			st.Name = cmp.Or(k.Name, st.Name)
		}
		if st.Latitude == 0 && st.Longitude == 0 {
			st.Latitude, st.Longitude = k.Latitude, k.Longitude
		}
		if st.Elevation == 0 {
			st.Elevation = k.Elevation
		}
	}
}

// unpacked reads a file that may be packed.
func unpacked(r io.Reader, name string, today unit.Day, o Options) ([]weather.Reading, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	format, err := look(in, name)
	switch {
	case err != nil:
		return nil, err
	case format == weather.FormatZip:
		return readZip(in, name, today, o)
	case format != weather.FormatGzip:
		return read(format, in, name, today, o)
	}
	seal := weather.NewSeal(in) // the sum is that of the packed file, which is the one that was brought
	unpacked, err := gzip.NewReader(seal)
	if err != nil {
		return nil, weather.Refuse(name, "the file begins like gzip but cannot be unpacked: %v", err)
	}
	left := int64(mostUnpacked)
	inner := bufio.NewReaderSize(&capped{r: unpacked, left: &left, name: name}, 1<<16)
	if format, err = look(inner, name); err != nil {
		return nil, unpacking(err, name)
	}
	if format == weather.FormatGzip || format == weather.FormatZip {
		return nil, weather.Refuse(name, "the file is packed twice; unpack it once and bring it again")
	}
	readings, err := read(format, inner, name, today, o)
	if err != nil {
		return nil, unpacking(err, name)
	}
	if _, err := io.Copy(io.Discard, seal); err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	for i := range readings {
		f := &readings[i].Report.File
		seal.Mark(f)
		f.Format += ", gzip"
	}
	return readings, nil
}

// look tells the form of what comes next without reading past it.
func look(in *bufio.Reader, name string) (weather.Format, error) {
	head, err := in.Peek(weather.SniffLength)
	if err != nil && !errors.Is(err, io.EOF) {
		return weather.FormatUnknown, fmt.Errorf("read %s: %w", name, err)
	}
	if len(head) == 0 {
		return weather.FormatUnknown, weather.Refuse(name, "the file is empty")
	}
	return weather.Sniff(head), nil
}

// read reads a file that is not packed. Where columns were declared, a table is read by them, whatever
// its names look like.
func read(format weather.Format, in io.Reader, name string, today unit.Day, o Options) ([]weather.Reading, error) {
	said := o.Declared.Columns.Given()
	switch {
	case format == weather.FormatFixedWidth:
		return ghcn.FixedWidth(in, name, today)
	case format == weather.FormatByStation:
		return ghcn.ByStation(in, name, today)
	case format == weather.FormatDailyCSV && !said:
		return csvdaily.Read(in, name, today, o.Units)
	case format == weather.FormatGridded:
		return gridded.Read(in, name, today, o.Declared)
	case format == weather.FormatHourly, format == weather.FormatUnknown && said && o.Day != nil:
		return hourly.Read(in, name, today, hourly.Options{Options: o.Declared, Day: o.Day, Stamps: o.Stamps, Begins: o.Begins})
	case format == weather.FormatPlainCSV, said:
		return plain.Read(in, name, today, o.Declared)
	default:
		return nil, weather.Refuse(name, "the form of the file is not known. Read are: GHCN-Daily fixed width (.dly), GHCN-Daily by-station CSV, "+
			"daily-summaries CSV with a header that names STATION, DATE and elements, a plain CSV with a date and columns as tmax_f and rain_in, "+
			"a single-pixel gridded CSV, an hourly CSV with stamps and a temperature, each also packed with gzip or zip")
	}
}

// capped gives an error where a reader gives more than it may. What is left may be shared.
type capped struct {
	r    io.Reader
	left *int64
	name string
}

func (c *capped) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	if *c.left -= int64(n); *c.left < 0 {
		return 0, weather.Refuse(c.name, "unpacked, the file is larger than %d MB", mostUnpacked>>20)
	}
	return n, err
}

// unpacking makes a damaged gzip file a fault of the file.
func unpacking(err error, name string) error {
	var refused *weather.Refusal
	var corrupt flate.CorruptInputError
	switch {
	case errors.As(err, &refused):
		return refused
	case errors.Is(err, io.ErrUnexpectedEOF):
		return weather.Refuse(name, "the gzip file ends too early: it was cut off, fetch it again")
	case errors.Is(err, gzip.ErrChecksum), errors.Is(err, gzip.ErrHeader), errors.As(err, &corrupt):
		return weather.Refuse(name, "the gzip file is damaged (%v): fetch it again", err)
	}
	return err
}
