package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"time"

	"haywarden/book/store"
	"haywarden/weather"
	"haywarden/weather/intake"
)

// WeatherImported says what a weather file brought to one station.
type WeatherImported struct {
	Report weather.Report `json:"report"`
	Years  store.Imported `json:"years"`
}

// Nothing reports whether the file changed nothing.
func (w WeatherImported) Nothing() bool { return len(w.Years.Added)+len(w.Years.Changed) == 0 }

// ImportWeather takes a weather file into the book: reads all of it, checks it, and stores all its
// stations in one change, only when every line was understood. What the file does not speak of, other
// elements or another part of the year, stays as it was. Its values are held against the station's whole
// record. The same file again changes nothing.
func (o *Office) ImportWeather(ctx context.Context, actor Actor, r io.Reader, name string, said intake.Options) ([]WeatherImported, error) {
	if err := may(actor, actRecord); err != nil {
		return nil, err
	}
	readings, err := intake.Read(r, name, o.Today(), said)
	if err != nil {
		return nil, err
	}
	for i := range readings {
		stored, err := o.store.Weather(ctx, readings[i].Station.ID, time.Time{})
		if err != nil {
			return nil, err
		}
		readings[i].Among(stored)
	}
	now := o.Now()
	imports := make([]store.Import, len(readings))
	for i, rd := range readings {
		report, err := json.Marshal(rd.Report)
		if err != nil {
			return nil, fmt.Errorf("write report of %s: %w", name, err)
		}
		imports[i] = store.Import{Source: name, SHA256: rd.Report.File.SHA256, Received: now, Station: rd.Station, Blocks: rd.Blocks, Partial: true, Report: report}
	}
	years, err := o.store.PutWeathers(ctx, imports)
	if err != nil {
		return nil, err
	}
	out := make([]WeatherImported, len(readings))
	for i, rd := range readings {
		out[i] = WeatherImported{Report: rd.Report, Years: years[i]}
	}
	return out, nil
}

// StationShown is one station's record with what was imported.
type StationShown struct {
	Series  *weather.Series
	Imports []store.ImportRecord
}

// Station looks at one station's record as known.
func (o *Office) Station(ctx context.Context, actor Actor, id string, ask Ask) (*StationShown, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	ask = o.settle(ask)
	stations, err := o.store.Stations(ctx, ask.Known)
	if err != nil {
		return nil, err
	}
	for _, st := range stations {
		if st.ID != id && plain(st.Name) != plain(id) {
			continue
		}
		blocks, err := o.store.Weather(ctx, st.ID, ask.Known)
		if err != nil {
			return nil, err
		}
		imports, err := o.store.Imports(ctx, st.ID)
		if err != nil {
			return nil, err
		}
		if !ask.Known.IsZero() {
			imports = slices.DeleteFunc(imports, func(r store.ImportRecord) bool { return r.Received.After(ask.Known) })
		}
		return &StationShown{Series: weather.NewSeries(st, blocks, ask.Date), Imports: imports}, nil
	}
	return nil, fmt.Errorf("no weather of a station called %q is in the book; `haywarden weather show` lists the stations: %w", id, ErrNotFound)
}

// Stations lists the stations with weather.
func (o *Office) Stations(ctx context.Context, actor Actor) ([]weather.Station, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	return o.store.Stations(ctx, time.Time{})
}

// ReceiveWeather takes station-years that were made elsewhere, in the order they were received.
func (o *Office) ReceiveWeather(ctx context.Context, actor Actor, stations []weather.Station, deliveries []Delivery) error {
	if err := may(actor, actRecord); err != nil {
		return err
	}
	byID := map[string]weather.Station{}
	for _, s := range stations {
		byID[s.ID] = s
	}
	for _, in := range batches(deliveries) {
		station := byID[in[0].Block.Station]
		blocks := make([]*weather.Block, len(in))
		for i, d := range in {
			blocks[i] = d.Block
		}
		sum := sha256.New()
		for _, b := range blocks {
			sum.Write(b.Encode())
		}
		_, err := o.store.PutWeather(ctx, store.Import{
			Source: "delivery", SHA256: hex.EncodeToString(sum.Sum(nil)), Received: in[0].Received, Station: station, Blocks: blocks, Report: []byte("{}"),
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// batches joins deliveries of one station at one time.
func batches(all []Delivery) [][]Delivery {
	var out [][]Delivery
	at := map[string]int{}
	for _, d := range all {
		key := d.Block.Station + d.Received.UTC().Format(time.RFC3339Nano)
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], d)
	}
	return out
}
