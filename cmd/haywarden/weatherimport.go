package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"haywarden/office"
	"haywarden/tabular"
	"haywarden/weather"
	"haywarden/weather/csvdaily"
	"haywarden/weather/declared"
	"haywarden/weather/hourly"
	"haywarden/weather/intake"
	"haywarden/weather/places"
)

// exitPartial is the exit code where some files were taken in and others were not.
const exitPartial = 3

// errPartial says that some files were not taken in; why is told by then.
var errPartial = errors.New("some files were not taken in")

func newWeatherImportCommand(m *Main) *cobra.Command {
	var location string
	var said importFlags
	var asJSON bool
	c := &cobra.Command{
		Use:   "import FILE...",
		Short: "Bring station files into the book",
		Long: `Reads station weather in any of these forms, each also packed with gzip or zip:

  GHCN-Daily .dly, GHCN-Daily by-station CSV, daily-summaries CSV
  plain CSV, a line a day, columns named with their units (date, tmax_f, tmin_f, rain_in)
  a single pixel of a gridded data set, with year,yday or with date,tmmx,tmmn,pr
  hourly CSV, of which days are made in the zone of the place (--zone)

A file is checked and stored only when every line of it was understood; several files are taken one by
one, and one that is refused does not hold up the others. The same file again changes nothing.`,
		Example: `  haywarden weather import USW00014839.dly
  haywarden weather import order.csv --units standard
  haywarden weather import gauge.csv --station HILLFARM --place 43.07,-89.40 --unit tmax=F --unit rain=in
  haywarden weather import hours.csv --station HILLFARM --zone America/Chicago --stamps UTC`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			options, err := said.options()
			if err != nil {
				return err
			}
			o, done, err := openOffice(c.Context(), m, location)
			if err != nil {
				return err
			}
			imported, err := importFiles(c.Context(), m, o, args, options)
			if err := closed(err, done); err != nil && !errors.Is(err, errPartial) {
				return err
			}
			if asJSON {
				return cmp.Or(writeJSON(m.Stdout, imported), err)
			}
			for _, w := range imported {
				if err := w.Report.WriteText(m.Stdout); err != nil {
					return err
				}
				fmt.Fprintln(m.Stdout, brought(w))
			}
			return err
		},
	}
	bookFlag(c, &location)
	said.add(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print the reports as JSON")
	return c
}

// importFiles brings the files one after the other. Where there are several, one that is refused is told
// at once and the rest go on; the error is then errPartial unless none was taken in.
func importFiles(ctx context.Context, m *Main, o *office.Office, files []string, said intake.Options) (all []office.WeatherImported, err error) {
	refused := 0
	for _, name := range files {
		imported, err := importFile(ctx, m, o, name, said)
		switch {
		case err == nil:
			all = append(all, imported...)
		case len(files) == 1 || ctx.Err() != nil:
			return all, err
		default:
			refused++
			fmt.Fprintf(m.Stderr, "haywarden: %v\n", err)
		}
	}
	switch {
	case refused == len(files):
		return nil, fmt.Errorf("none of %d files was taken in", refused)
	case refused > 0:
		return all, fmt.Errorf("%d of %d: %w", refused, len(files), errPartial)
	}
	return all, nil
}

func importFile(ctx context.Context, m *Main, o *office.Office, name string, said intake.Options) ([]office.WeatherImported, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("read weather: %w", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	progress := newProgress(m.Stderr, f)
	defer progress.end()
	return o.ImportWeather(ctx, adviser(), progress, filepath.Base(name), said)
}

// importFlags are what is said of a file that does not say it itself.
type importFlags struct {
	units, dates, station, name, place, elevation, zone, stamps, list string
	columnUnits, columns                                              map[string]string
	begins, shift                                                     bool
	readAt                                                            int
}

func (f *importFlags) add(c *cobra.Command) {
	s := c.Flags()
	s.StringVar(&f.units, "units", "", "units of a daily-summaries CSV: metric, standard or tenths (found from the values where not given)")
	s.StringToStringVar(&f.columnUnits, "unit", nil, "unit of a column that does not name it, as in tmax=F; may be repeated")
	s.StringToStringVar(&f.columns, "column", nil, "which column holds what, as in tmax=\"Max Temp\"; may be repeated")
	s.StringVar(&f.dates, "dates", "", "order of dates whose year stands last: mdy or dmy (found where one date can be read in one way only)")
	s.StringVar(&f.station, "station", "", "ID of the station, where the file does not tell it")
	s.StringVar(&f.name, "name", "", "name of the station, where the file does not tell it")
	s.StringVar(&f.place, "place", "", "latitude and longitude, as in 43.07,-89.40, where the file does not tell them")
	s.StringVar(&f.elevation, "elevation", "", "elevation with its unit, as in \"860 ft\", where the file does not tell it")
	s.StringVar(&f.list, "stations", "", "the archive's list of stations (ghcnd-stations.txt), from which name and place are taken where the file does not tell them")
	s.StringVar(&f.zone, "zone", "", "zone whose days are made of hours: a name as in America/Chicago, or an offset as in -06:00")
	s.StringVar(&f.stamps, "stamps", "", "zone of hourly stamps that carry no offset, as in UTC (default that of --zone)")
	s.BoolVar(&f.begins, "hour-begins", false, "an hour's rain is that of the hour that begins at its stamp (default: that ends there)")
	s.BoolVar(&f.shift, "shift-mornings", false, "move highest temperature and rain read between 05 and 10 h to the day before")
	s.IntVar(&f.readAt, "read-at", -1, "hour, 0 to 24, at which values were read of which the file does not tell it")
}

func (f *importFlags) options() (o intake.Options, err error) {
	if o.Units, err = csvdaily.ParseUnits(f.units); err != nil {
		return o, usage("--%v", err)
	}
	if o.Declared.Dates, err = declared.ParseOrder(f.dates); err != nil {
		return o, usage("--dates: %v", err)
	}
	o.Declared.Columns = weather.Declared{Units: f.columnUnits, Columns: f.columns}
	st := &o.Declared.Station
	if f.station != "" && !declared.GoodID(f.station) {
		return o, usage("--station %q: up to %d letters, digits and marks without accents or spaces wanted", f.station, declared.MostID)
	}
	st.ID, st.Name = f.station, f.name
	if f.place != "" {
		if st.Latitude, st.Longitude, err = parsePlace(f.place); err != nil {
			return o, usage("--place %v", err)
		}
	}
	if f.elevation != "" {
		if st.Elevation, err = parseElevation(f.elevation); err != nil {
			return o, err
		}
	}
	if f.list != "" {
		if o.Listed, err = listed(f.list); err != nil {
			return o, err
		}
	}
	for _, z := range []struct {
		flag, said string
		to         **time.Location
	}{{"zone", f.zone, &o.Day}, {"stamps", f.stamps, &o.Stamps}} {
		if z.said == "" {
			continue
		}
		if *z.to, err = parseZone(z.said); err != nil {
			return o, usage("--%s: %v", z.flag, err)
		}
	}
	o.Begins, o.Morning.Shift = f.begins, f.shift
	if f.readAt != -1 {
		if f.readAt < 0 || f.readAt > 24 {
			return o, usage("--read-at %d: accepted 0 to 24", f.readAt)
		}
		o.Morning.ReadAt = &f.readAt
	}
	return o, nil
}

// listed reads the archive's list of stations.
func listed(name string) ([]weather.Station, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("read stations: %w", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	all, err := places.Stations(f, filepath.Base(name))
	if err != nil {
		return nil, err
	}
	out := make([]weather.Station, len(all))
	for i, p := range all {
		out[i] = p.Station
	}
	return out, nil
}

// parsePlace reads a latitude and a longitude with a comma between them.
func parsePlace(s string) (lat, lon float64, err error) {
	a, b, _ := strings.Cut(s, ",")
	lat, err1 := strconv.ParseFloat(strings.TrimSpace(a), 64)
	lon, err2 := strconv.ParseFloat(strings.TrimSpace(b), 64)
	if err1 != nil || err2 != nil || !(lat >= -90 && lat <= 90) || !(lon >= -180 && lon <= 180) {
		return 0, 0, fmt.Errorf("%q: latitude -90 to 90, a comma, longitude -180 to 180 wanted, as in 43.07,-89.40", s)
	}
	return lat, lon, nil
}

// progress tells on a terminal how far a long file has been read.
type progress struct {
	io.Reader
	to         io.Writer // nil: nobody looks
	name       string
	read, size int64
	began      time.Time
	told       time.Time
}

func newProgress(stderr io.Writer, f *os.File) *progress {
	p := &progress{Reader: f, name: filepath.Base(f.Name()), began: time.Now()}
	if out, ok := stderr.(*os.File); ok {
		if at, err := out.Stat(); err == nil && at.Mode()&os.ModeCharDevice != 0 {
			p.to = out
		}
	}
	if at, err := f.Stat(); err == nil {
		p.size = at.Size()
	}
	return p
}

// Read passes on what the file gives. What is done within a second needs no telling.
func (p *progress) Read(b []byte) (int, error) {
	n, err := p.Reader.Read(b)
	p.read += int64(n)
	if now := time.Now(); p.to != nil && p.size > 0 && now.Sub(p.began) > time.Second && now.Sub(p.told) > 200*time.Millisecond {
		p.told = now
		fmt.Fprintf(p.to, "\rreading %s: %d %%", p.name, 100*p.read/p.size)
	}
	return n, err
}

func (p *progress) end() {
	if !p.told.IsZero() {
		fmt.Fprint(p.to, "\r\x1b[K")
	}
}

// parseElevation reads an elevation with its unit, as metres.
func parseElevation(s string) (float64, error) {
	number, unit := tabular.CutUnit(s)
	v, err := strconv.ParseFloat(number, 64)
	measure, err2 := declared.ParseElevationUnit(unit)
	if v = measure.Base(v); err != nil || err2 != nil || !(v >= -500 && v <= 9000) {
		return 0, usage("--elevation %q: a number with its unit wanted, as in \"860 ft\" or \"262 m\", accepted -500 to 9000 m", s)
	}
	return v, nil
}

// parseZone reads a zone by its name in the world's list of zones, or as an offset.
func parseZone(s string) (*time.Location, error) {
	if z, err := hourly.ParseOffset(s); err == nil {
		return z, nil
	}
	z, err := time.LoadLocation(s)
	if err != nil || s == "Local" {
		return nil, fmt.Errorf("zone %.60q is not known: a name as in America/Chicago or an offset as in -06:00 wanted", s)
	}
	return z, nil
}
