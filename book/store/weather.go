package store

import (
	"bytes"
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book/store/sqlcdb"
	"haywarden/weather"
)

// PutWeather implements [Store]. A description of the station that differs from the last is kept beside
// it, as a block is. An import that brings nothing new is recorded once for each file, and the same file
// again changes nothing.
func (db *DB) PutWeather(ctx context.Context, in Import) (Imported, error) {
	out, err := db.PutWeathers(ctx, []Import{in})
	if err != nil {
		return Imported{}, err
	}
	return out[0], nil
}

// PutWeathers implements [Store].
func (db *DB) PutWeathers(ctx context.Context, ins []Import) ([]Imported, error) {
	if len(ins) == 0 {
		return nil, nil
	}
	doing := fmt.Sprintf("store weather of %s from %s", stationsOf(ins), ins[0].Source)
	received, seen := make([]string, len(ins)), map[string]bool{}
	for i, in := range ins {
		var err error
		if received[i], err = checkImport(in); err != nil {
			return nil, db.fail(ctx, doing, err)
		}
		if seen[in.Station.ID] {
			return nil, db.fail(ctx, doing, fmt.Errorf("%w: station %s comes twice in one change", ErrRefused, in.Station.ID))
		}
		seen[in.Station.ID] = true
	}
	var out []Imported
	revision, err := db.change(ctx, doing, func(ctx context.Context, q *sqlcdb.Queries, revision int64) (bool, error) {
		out = make([]Imported, len(ins)) // anew, as a change may be tried again
		changed := false
		for i, in := range ins {
			one, err := putOne(ctx, q, in, received[i], revision, &out[i])
			if err != nil {
				return false, err
			}
			changed = changed || one
		}
		return changed, nil
	})
	if err != nil {
		return nil, err
	}
	for i := range out {
		out[i].Revision = revision
	}
	return out, nil
}

func stationsOf(ins []Import) string {
	ids := make([]string, len(ins))
	for i, in := range ins {
		ids[i] = in.Station.ID
	}
	return strings.Join(ids, ", ")
}

// putOne stores one station's part of a change, and reports whether it changed anything.
func putOne(ctx context.Context, q *sqlcdb.Queries, in Import, received string, revision int64, out *Imported) (bool, error) {
	described, err := putStation(ctx, q, in, received, revision)
	if err != nil {
		return false, err
	}
	if err := putBlocks(ctx, q, in, received, revision, out); err != nil {
		return false, err
	}
	if !described && len(out.Added)+len(out.Changed) == 0 {
		seen, err := q.ImportsOfFile(ctx, sqlcdb.ImportsOfFileParams{Station: in.Station.ID, Sha256: in.SHA256})
		if err != nil || seen > 0 {
			return false, err
		}
	}
	return true, q.InsertImport(ctx, sqlcdb.InsertImportParams{
		Revision: revision, Station: in.Station.ID, Source: in.Source, Sha256: in.SHA256, Received: received,
		YearsAdded: int64(len(out.Added)), YearsChanged: int64(len(out.Changed)), YearsUnchanged: int64(len(out.Unchanged)),
		Report: append([]byte{}, in.Report...), // nil would be stored as null
	})
}

func checkImport(in Import) (received string, err error) {
	refuse := func(format string, args ...any) (string, error) {
		return "", fmt.Errorf("%w: "+format, append([]any{ErrRefused}, args...)...)
	}
	switch {
	case in.Station.ID == "":
		return refuse("the station has no id")
	case in.Source == "":
		return refuse("it is not said where the weather came from")
	case len(in.SHA256) != 64 || strings.Trim(in.SHA256, "0123456789abcdef") != "":
		return refuse("SHA-256 %q is not 64 lower-case hexadecimal digits", in.SHA256)
	case len(in.Blocks) == 0:
		return refuse("there is no year of weather in it")
	}
	for _, v := range []float64{in.Station.Latitude, in.Station.Longitude, in.Station.Elevation} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return refuse("the position of station %s is not a number", in.Station.ID)
		}
	}
	seen := map[int]bool{}
	for _, b := range in.Blocks {
		switch {
		case b.Station != in.Station.ID:
			return refuse("a block is of station %s, the import of station %s", b.Station, in.Station.ID)
		case b.Year < 1700 || b.Year > 9999:
			return refuse("a block is of the year %d; accepted are 1700 to 9999", b.Year)
		case len(b.Days) != unit.DaysIn(b.Year):
			return refuse("the block of %d has %d days; it takes %d", b.Year, len(b.Days), unit.DaysIn(b.Year))
		case seen[b.Year]:
			return refuse("there are two blocks of %d", b.Year)
		}
		seen[b.Year] = true
	}
	if err := plainText(in.Station.ID, in.Station.Name, in.Source); err != nil {
		return "", err
	}
	return instant(in.Received)
}

// putStation stores a description that differs from the last, and reports whether it did. A file of a
// form that has no place for name or position takes away neither.
func putStation(ctx context.Context, q *sqlcdb.Queries, in Import, received string, revision int64) (bool, error) {
	st := in.Station
	row, err := q.NewestStation(ctx, st.ID)
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return false, err
	}
	if err == nil && in.Partial {
		if st.Name == "" {
			st.Name = row.Name
		}
		if st.Latitude == 0 && st.Longitude == 0 && st.Elevation == 0 {
			st.Latitude, st.Longitude, st.Elevation = row.Latitude, row.Longitude, row.Elevation
		}
	}
	if err == nil && stationOf(row) == st {
		return false, nil
	}
	return true, q.InsertStation(ctx, sqlcdb.InsertStationParams{
		ID: st.ID, Revision: revision, Received: received, Name: st.Name,
		Latitude: st.Latitude, Longitude: st.Longitude, Elevation: st.Elevation, WholeF: st.WholeF,
	})
}

// putBlocks stores the years that differ from the newest stored, whenever those were received. Partial
// years are laid over the stored ones here, inside the change: another import cannot come between.
func putBlocks(ctx context.Context, q *sqlcdb.Queries, in Import, received string, revision int64, out *Imported) error {
	rows, err := q.NewestBlocks(ctx, sqlcdb.NewestBlocksParams{Station: in.Station.ID, Known: lastInstant})
	if err != nil {
		return err
	}
	stored := make(map[int][]byte, len(rows))
	for _, row := range rows {
		stored[int(row.Year)] = row.Days
	}
	blocks := slices.SortedFunc(slices.Values(in.Blocks), func(a, b *weather.Block) int { return cmp.Compare(a.Year, b.Year) })
	for _, b := range blocks {
		old, ok := stored[b.Year]
		if ok && in.Partial {
			older, err := weather.DecodeBlock(b.Station, b.Year, old)
			if err != nil {
				return fmt.Errorf("%w: %w", ErrDamaged, err)
			}
			b = b.Over(older)
		}
		days := b.Encode()
		switch {
		case !ok:
			out.Added = append(out.Added, b.Year)
		case bytes.Equal(old, days):
			out.Unchanged = append(out.Unchanged, b.Year)
			continue
		default:
			out.Changed = append(out.Changed, b.Year)
		}
		if err := q.InsertBlock(ctx, sqlcdb.InsertBlockParams{Station: b.Station, Year: int64(b.Year), Revision: revision, Received: received, Days: days}); err != nil {
			return err
		}
	}
	return nil
}

// Weather implements [Store].
func (db *DB) Weather(ctx context.Context, station string, known time.Time) ([]*weather.Block, error) {
	ctx, done := bounded(ctx)
	defer done()
	doing := "read weather of " + station
	rows, err := db.reads.NewestBlocks(ctx, sqlcdb.NewestBlocksParams{Station: station, Known: knownBy(known)})
	if err != nil {
		return nil, db.fail(ctx, doing, err)
	}
	blocks := make([]*weather.Block, len(rows))
	for i, row := range rows {
		if blocks[i], err = weather.DecodeBlock(station, int(row.Year), row.Days); err != nil {
			return nil, db.fail(ctx, doing, fmt.Errorf("%w: %w", ErrDamaged, err))
		}
	}
	return blocks, nil
}

// Imports implements [Store].
func (db *DB) Imports(ctx context.Context, station string) ([]ImportRecord, error) {
	ctx, done := bounded(ctx)
	defer done()
	doing := "list imports of weather of " + station
	rows, err := db.reads.Imports(ctx, station)
	if err != nil {
		return nil, db.fail(ctx, doing, err)
	}
	records := make([]ImportRecord, len(rows))
	for i, row := range rows {
		received, err := parseInstant(row.Received)
		if err != nil {
			return nil, db.fail(ctx, doing, err)
		}
		records[i] = ImportRecord{
			Station: row.Station, Source: row.Source, SHA256: row.Sha256, Received: received,
			Added: int(row.YearsAdded), Changed: int(row.YearsChanged), Unchanged: int(row.YearsUnchanged), Report: row.Report,
		}
	}
	return records, nil
}

// Stations implements [Store].
func (db *DB) Stations(ctx context.Context, known time.Time) ([]weather.Station, error) {
	ctx, done := bounded(ctx)
	defer done()
	rows, err := db.reads.NewestStations(ctx, knownBy(known))
	if err != nil {
		return nil, db.fail(ctx, "list weather stations", err)
	}
	stations := make([]weather.Station, len(rows))
	for i, row := range rows {
		stations[i] = stationOf(row)
	}
	// Sorted here, since databases differ in how they order letters.
	slices.SortFunc(stations, func(a, b weather.Station) int { return cmp.Compare(a.ID, b.ID) })
	return stations, nil
}

func stationOf(row sqlcdb.Station) weather.Station {
	return weather.Station{
		ID: row.ID, Name: row.Name, Latitude: row.Latitude, Longitude: row.Longitude, Elevation: row.Elevation, WholeF: row.WholeF,
	}
}
