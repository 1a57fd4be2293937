package intake

import (
	"archive/zip"
	"bufio"
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// What a zip file may hold (choice).
const (
	mostPacked = 256 << 20 // bytes of the zip file
	mostInside = 200       // files
)

// papers are the files that come along with weather and hold none.
var papers = []string{".txt", ".md", ".pdf", ".html", ".htm", ".xml", ".json", ".doc", ".docx", ".rtf", ".jpg", ".png"}

// readZip reads all weather files in a zip file, all or none of them. Papers that come along are passed
// over and noted; any other file that is no weather refuses the whole.
func readZip(in io.Reader, name string, today unit.Day, o Options) ([]weather.Reading, error) {
	seal := weather.NewSeal(in)
	raw, err := io.ReadAll(io.LimitReader(seal, mostPacked+1))
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if len(raw) > mostPacked {
		return nil, weather.Refuse(name, "the zip file is larger than %d MB; take out the files you need", mostPacked>>20)
	}
	archive, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	if err != nil {
		return nil, weather.Refuse(name, "the zip file is damaged or cut off (%v): fetch it again", err)
	}
	if len(archive.File) > mostInside {
		return nil, weather.Refuse(name, "the zip file holds %d files, accepted %d; take out the stations you need", len(archive.File), mostInside)
	}
	left := int64(mostUnpacked)
	var out []weather.Reading
	var passed []string
	from := map[string]string{} // station: the file it stands in
	for _, f := range archive.File {
		if f.FileInfo().IsDir() || strings.HasPrefix(f.Name, "__MACOSX/") || strings.HasPrefix(path.Base(f.Name), ".") {
			continue
		}
		readings, paper, err := inside(f, name, &left, today, o)
		if err != nil {
			return nil, err
		}
		if paper {
			passed = append(passed, path.Base(f.Name))
			continue
		}
		for _, r := range readings {
			if other, twice := from[r.Station.ID]; twice {
				return nil, weather.Refuse(name, "station %s stands in two of its files, %s and %s; bring them one after the other", r.Station.ID, other, f.Name)
			}
			from[r.Station.ID] = f.Name
		}
		out = append(out, readings...)
	}
	if len(out) == 0 {
		return nil, weather.Refuse(name, "the zip file holds no weather file")
	}
	if len(out) > weather.MostStations {
		return nil, weather.Refuse(name, "the zip file holds %d stations, accepted %d; take out the stations you need", len(out), weather.MostStations)
	}
	for i := range out {
		f := &out[i].Report.File
		seal.Mark(f)
		f.Format += ", zip"
		if len(passed) > 0 {
			f.Notes = append(f.Notes, "passed over in the zip file: "+strings.Join(passed, ", "))
		}
	}
	return out, nil
}

// inside reads one file of a zip file.
func inside(f *zip.File, name string, left *int64, today unit.Day, o Options) (readings []weather.Reading, paper bool, err error) {
	inner := name + ": " + f.Name
	if f.Flags&1 != 0 {
		return nil, false, weather.Refuse(inner, "it is locked with a password; unpack it and bring what is inside")
	}
	r, err := f.Open()
	if err != nil {
		return nil, false, weather.Refuse(inner, "it cannot be unpacked (%v): unpack it and bring what is inside", err)
	}
	defer r.Close() // it was only read
	in := bufio.NewReaderSize(&capped{r: r, left: left, name: inner}, 1<<16)
	format, err := look(in, inner)
	if err != nil {
		return nil, false, unzipping(err, inner)
	}
	switch {
	case format == weather.FormatUnknown && slices.Contains(papers, strings.ToLower(path.Ext(f.Name))):
		return nil, true, nil
	case format == weather.FormatGzip || format == weather.FormatZip:
		return nil, false, weather.Refuse(inner, "it is packed twice; unpack it once and bring it again")
	}
	readings, err = read(format, in, inner, today, o)
	if err != nil {
		return nil, false, unzipping(err, inner)
	}
	if _, err := io.Copy(io.Discard, in); err != nil { // so that its sum is checked to the end
		return nil, false, unzipping(err, inner)
	}
	return readings, false, nil
}

// unzipping makes a damaged file a fault of the file.
func unzipping(err error, name string) error {
	var refused *weather.Refusal
	var corrupt flate.CorruptInputError
	switch {
	case errors.As(err, &refused):
		return refused
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, zip.ErrChecksum), errors.Is(err, zip.ErrFormat), errors.As(err, &corrupt):
		return weather.Refuse(name, "it is damaged or cut off (%v): fetch the zip file again", err)
	}
	return err
}
