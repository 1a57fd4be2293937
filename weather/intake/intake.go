// Package intake reads a weather file of any form the program knows: it looks at the head of the
// file, unpacks gzip, and hands the rest to the reader of that form.
package intake

import (
	"bufio"
	"compress/flate"
	"compress/gzip"
	"errors"
	"fmt"
	"io"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/csvdaily"
	"haywarden/weather/ghcn"
)

// mostUnpacked is how large a compressed file may become (choice): the longest station records are
// some 20 MB, so that more is a mistake or a trap.
const mostUnpacked = 1 << 30

// Read reads a weather file, named name in messages and in the report. The units matter to
// daily-summaries CSV only, the other forms define theirs. A value for a day after today refuses it.
func Read(r io.Reader, name string, today unit.Day, units csvdaily.Units) ([]weather.Reading, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	format, err := look(in, name)
	if err != nil {
		return nil, err
	}
	if format != weather.FormatGzip {
		return read(format, in, name, today, units)
	}
	seal := weather.NewSeal(in) // the sum is that of the packed file, which is the one that was brought
	unpacked, err := gzip.NewReader(seal)
	if err != nil {
		return nil, weather.Refuse(name, "the file begins like gzip but cannot be unpacked: %v", err)
	}
	inner := bufio.NewReaderSize(&capped{r: unpacked, left: mostUnpacked, name: name}, 1<<16)
	if format, err = look(inner, name); err != nil {
		return nil, unpacking(err, name)
	}
	if format == weather.FormatGzip {
		return nil, weather.Refuse(name, "the file is packed twice; unpack it once and bring it again")
	}
	readings, err := read(format, inner, name, today, units)
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

func read(format weather.Format, in io.Reader, name string, today unit.Day, units csvdaily.Units) ([]weather.Reading, error) {
	switch format {
	case weather.FormatFixedWidth:
		return ghcn.FixedWidth(in, name, today)
	case weather.FormatByStation:
		return ghcn.ByStation(in, name, today)
	case weather.FormatDailyCSV:
		return csvdaily.Read(in, name, today, units)
	case weather.FormatZip:
		return nil, weather.Refuse(name, "this is a zip file; unpack it and bring the weather file inside")
	default:
		return nil, weather.Refuse(name, "the form of the file is not known. Read are: GHCN-Daily fixed width (.dly), GHCN-Daily by-station CSV, "+
			"daily-summaries CSV with a header that names STATION, DATE and elements, each also packed with gzip")
	}
}

// capped gives an error where a reader gives more than it may.
type capped struct {
	r    io.Reader
	left int64
	name string
}

func (c *capped) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	if c.left -= int64(n); c.left < 0 {
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
