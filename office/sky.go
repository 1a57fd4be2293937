package office

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// skyMaker makes the weather of all fields of a view, each station's record read once.
type skyMaker struct {
	office   *Office
	view     *book.View
	ask      Ask
	revision int64             // of the weather
	wanted   int               // how many skies the view takes
	stations []weather.Station // with weather, by id
	series   map[string]*weather.Series
}

// skiesOf makes the weather that the growing stands of a view take, by [book.FieldView.WeatherKey].
func (o *Office) skiesOf(ctx context.Context, view *book.View, ask Ask) (map[string]*outlook.Sky, error) {
	stations, err := o.store.Stations(ctx, ask.Known)
	if err != nil {
		return nil, err
	}
	revision, err := o.store.WeatherRevision(ctx)
	if err != nil {
		return nil, err
	}
	m := &skyMaker{office: o, view: view, ask: ask, revision: revision, stations: stations, series: map[string]*weather.Series{}}
	keys := map[string]bool{}
	for _, s := range view.Stands() {
		keys[s.InField.WeatherKey()] = true
	}
	m.wanted = len(keys)
	skies := map[string]*outlook.Sky{}
	for _, s := range view.Stands() {
		f := s.InField
		key := f.WeatherKey()
		if _, made := skies[key]; made || key == "" {
			continue
		}
		sky, err := m.kept(ctx, f)
		if err != nil {
			return nil, fmt.Errorf("weather of %s: %w", s.Named(), err)
		}
		if sky != nil {
			skies[key] = sky
		}
	}
	return skies, nil
}

// mostSkies is how many skies are kept in memory at a time, some 2.5 MB each; where one date wants more, two
// dates' worth.
const mostSkies = 48

// kept takes the weather of a field from memory, or makes it. An edit that touches neither weather nor
// what is said of it leaves it as it was.
func (m *skyMaker) kept(ctx context.Context, f *book.FieldView) (*outlook.Sky, error) {
	key := m.madeFrom(f)
	o := m.office
	o.mu.Lock()
	sky, known := o.skies[key]
	o.mu.Unlock()
	if known {
		return sky, nil
	}
	sky, err := m.sky(ctx, f)
	if err != nil {
		return nil, err
	}
	// Only what was read under one revision is kept.
	if after, err := o.store.WeatherRevision(ctx); err != nil || after != m.revision {
		return sky, err
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	if len(o.skies) >= max(mostSkies, 2*m.wanted) {
		clear(o.skies)
	}
	o.skies[key] = sky
	return sky, nil
}

// madeFrom names all that the weather of a field is made from.
func (m *skyMaker) madeFrom(f *book.FieldView) string {
	lat, lon, _ := f.Position()
	said := book.FieldWeather{}
	if f.Weather != nil {
		said = f.Weather.Body
	}
	parts := struct {
		Key, Field string
		Date       unit.Day
		Known      time.Time
		Revision   int64
		Said       book.FieldWeather
		Lat, Lon   float64
		Stations   []book.Station
		Name       string
	}{f.WeatherKey(), "", m.ask.Date, m.ask.Known, m.revision, said, 0, 0, m.view.Stations, ""}
	if f.Weather != nil || !m.placed(f) {
		parts.Field, parts.Lat, parts.Lon, parts.Name = f.ID, lat, lon, f.Name
	}
	text, err := json.Marshal(parts)
	if err != nil {
		panic("office: what a sky is made from cannot be written: " + err.Error()) // plain numbers and words
	}
	return string(text)
}

// placed reports whether the field's forecast is that of its station.
func (m *skyMaker) placed(f *book.FieldView) bool {
	s := describe(m.view, m.stations, f.WeatherKey())
	return s.Latitude != 0 || s.Longitude != 0
}

// sky makes the weather of a field, nil where none of its stations has any.
func (m *skyMaker) sky(ctx context.Context, f *book.FieldView) (*outlook.Sky, error) {
	own, err := m.own(ctx, f)
	if err != nil || own == nil {
		return nil, err
	}
	opt := outlook.SkyOptions{}
	if opt.Neighbours, err = m.neighbours(ctx, own.Station, f.WeatherStations()); err != nil {
		return nil, err
	}
	if lat, lon, ok := forecastPosition(m.view, m.stations, f); ok {
		if opt.Forecast, err = m.office.store.LatestForecast(ctx, nws.PlaceOf(lat, lon), m.ask.Date, m.ask.Known); err != nil {
			return nil, err
		}
	}
	return outlook.NewSky(own, m.ask.Date, opt), nil
}

// own is the record a field's weather rests on: its station's, or one made for the field.
func (m *skyMaker) own(ctx context.Context, f *book.FieldView) (*weather.Series, error) {
	var from []*weather.Series
	for _, id := range f.WeatherStations() {
		s, err := m.record(ctx, id)
		if err != nil {
			return nil, err
		}
		if s != nil {
			from = append(from, s)
		}
	}
	if len(from) == 0 {
		return nil, nil
	}
	if f.Weather == nil {
		return from[0], nil
	}
	return hereOf(f, from), nil
}

// hereOf makes the record of a field from its stations' and what is said of its own weather.
func hereOf(f *book.FieldView, from []*weather.Series) *weather.Series {
	said := f.Weather.Body
	place := weather.Place{MaxF: said.MaxF, MinF: said.MinF, ElevationM: math.NaN()}
	if said.Height != nil {
		place.ElevationM = *said.Height
	}
	place.Latitude, place.Longitude, _ = f.Position()
	names := make([]string, len(from))
	for i, s := range from {
		names[i] = s.Station.Name
	}
	name := "for " + f.Name + " from " + strings.Join(names, " and ")
	return weather.Here(weather.Station{ID: f.ID, Name: name, Latitude: place.Latitude, Longitude: place.Longitude}, place, from)
}

// record reads a station's record, nil where the book has none.
func (m *skyMaker) record(ctx context.Context, id string) (*weather.Series, error) {
	if s, read := m.series[id]; read {
		return s, nil
	}
	blocks, err := m.office.store.Weather(ctx, id, m.ask.Known)
	if err != nil {
		return nil, fmt.Errorf("station %s: %w", id, err)
	}
	var s *weather.Series
	if len(blocks) > 0 {
		s = weather.NewSeries(describe(m.view, m.stations, id), blocks, m.ask.Date)
	}
	m.series[id] = s
	return s, nil
}

// neighbours are the records of the stations near one, those it is made from left out.
func (m *skyMaker) neighbours(ctx context.Context, of weather.Station, without []string) ([]weather.Neighbour, error) {
	var others []*weather.Series
	for _, st := range m.stations {
		if slices.Contains(without, st.ID) {
			continue
		}
		if d := describe(m.view, m.stations, st.ID); !weather.Near(of, d) {
			continue
		}
		s, err := m.record(ctx, st.ID)
		if err != nil {
			return nil, err
		}
		if s != nil {
			others = append(others, s)
		}
	}
	return weather.NeighboursOf(of, others), nil
}

// describe is a station as the book's own record has it, else as its weather came.
func describe(view *book.View, stations []weather.Station, id string) weather.Station {
	if i, ok := slices.BinarySearchFunc(view.Stations, id, func(s book.Station, id string) int { return cmp.Compare(s.ID, id) }); ok {
		s := view.Stations[i]
		return weather.Station{ID: s.ID, Name: s.Name, Latitude: s.Latitude, Longitude: s.Longitude, Elevation: s.Elevation, WholeF: s.WholeF}
	}
	for _, s := range stations {
		if s.ID == id {
			s.Name = cmp.Or(s.Name, id)
			return s
		}
	}
	return weather.Station{ID: id, Name: id, WholeF: weather.ReadsWholeF(id)}
}
