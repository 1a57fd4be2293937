package office

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"haywarden/book"
	"haywarden/book/store"
	"haywarden/exchange"
	"haywarden/weather"
)

// LocalWeather is what is said anew of a field's weather. What is nil stays as it was.
type LocalWeather struct {
	Stations   []string // ids or names; blended where there are several
	MaxF, MinF *float64 // added to the day's highest and lowest, F
	HeightM    *float64 // of the field, metres
	// Readings is a table of a thermometer's days in the field, from which MaxF and MinF are taken.
	Readings io.Reader
	File     string // name of the table, for messages
	Clear    bool   // forget all of it: the field takes its station's weather again
}

// FieldWeather is how a field's weather is made.
type FieldWeather struct {
	Farm     string               `json:"farm"`
	Field    string               `json:"field"`
	Stations []FieldStation       `json:"stations"`
	Said     book.FieldWeather    `json:"said"`
	Differs  *weather.LocalOffset `json:"readings,omitempty"` // where readings were given just now
}

// FieldStation is a station that a field's weather is made from.
type FieldStation struct {
	ID    string   `json:"id"`
	Name  string   `json:"name"`
	Miles *float64 `json:"miles,omitempty"` // nil where one of the two places is not known
}

// FieldWeather tells how a field's weather is made. The field is named as a stand is.
func (o *Office) FieldWeather(ctx context.Context, actor Actor, field string) (*FieldWeather, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	view, err := o.today(ctx)
	if err != nil {
		return nil, err
	}
	f, err := findField(view, field)
	if err != nil {
		return nil, err
	}
	return o.tellWeather(ctx, view, f)
}

// SetFieldWeather says how a field's weather is made, and tells what then holds.
func (o *Office) SetFieldWeather(ctx context.Context, actor Actor, field string, say LocalWeather) (*FieldWeather, error) {
	if err := may(actor, actRecord); err != nil {
		return nil, err
	}
	view, err := o.today(ctx)
	if err != nil {
		return nil, err
	}
	f, err := findField(view, field)
	if err != nil {
		return nil, err
	}
	said, differs, err := o.sayWeather(ctx, view, f, say)
	if err != nil {
		return nil, fmt.Errorf("weather of %s · %s: %w", f.Farm.Name, f.Name, err)
	}
	entry := Entry{Farm: f.Farm.ID, Subject: f.ID, Day: view.Date, Body: said}
	if changed := f.Weather == nil && !said.Nothing() || f.Weather != nil && !equalJSON(f.Weather.Body, said); changed {
		if _, err := o.Record(ctx, actor, entry); err != nil {
			return nil, err
		}
		if f.Weather = &(book.Dated[book.FieldWeather]{Day: view.Date, Author: actor.Name, Body: said}); said.Nothing() {
			f.Weather = nil
		}
	}
	told, err := o.tellWeather(ctx, view, f)
	if err != nil {
		return nil, err
	}
	told.Differs = differs
	return told, nil
}

// sayWeather lays what is said anew over what was said before.
func (o *Office) sayWeather(ctx context.Context, view *book.View, f *book.FieldView, say LocalWeather) (said book.FieldWeather, differs *weather.LocalOffset, err error) {
	if say.Clear {
		return book.FieldWeather{}, nil, nil
	}
	if f.Weather != nil {
		said = f.Weather.Body
	}
	if say.Stations != nil {
		if said.Stations, err = o.stationIDs(ctx, view, say.Stations); err != nil {
			return said, nil, err
		}
	}
	if say.HeightM != nil {
		said.Height = say.HeightM
	}
	if say.MaxF != nil || say.MinF != nil {
		said.Days, said.MaxSE, said.MinSE = 0, 0, 0
	}
	if say.MaxF != nil {
		said.MaxF = *say.MaxF
	}
	if say.MinF != nil {
		said.MinF = *say.MinF
	}
	if say.Readings != nil {
		if differs, err = o.differs(ctx, view, f, said, say); err != nil {
			return said, nil, err
		}
		said.MaxF, said.MinF, said.MaxSE, said.MinSE = differs.MaxF, differs.MinF, differs.MaxSE, differs.MinSE
		said.Days = max(differs.MaxDays, differs.MinDays)
	}
	return said, differs, said.Check()
}

// stationIDs finds stations with weather by id or name.
func (o *Office) stationIDs(ctx context.Context, view *book.View, names []string) ([]string, error) {
	stations, err := o.store.Stations(ctx, view.Known)
	if err != nil {
		return nil, err
	}
	ids := []string{}
	var known []string
	for _, s := range stations {
		known = append(known, s.ID, describe(view, stations, s.ID).Name)
	}
	for _, n := range names {
		i := slices.IndexFunc(stations, func(s weather.Station) bool {
			return s.ID == n || plain(describe(view, stations, s.ID).Name) == plain(n)
		})
		if i < 0 {
			return nil, fmt.Errorf("no station called %q has weather in the book%s", n, meant(n, known))
		}
		ids = append(ids, stations[i].ID)
	}
	return ids, nil
}

// differs compares readings in a field with what would be made for it without them.
func (o *Office) differs(ctx context.Context, view *book.View, f *book.FieldView, said book.FieldWeather, say LocalWeather) (*weather.LocalOffset, error) {
	table, err := exchange.ReadFieldReadings(say.Readings, say.File)
	if err != nil {
		return nil, err
	}
	said.MaxF, said.MinF = 0, 0
	bare := *f
	bare.Weather = nil
	if !said.Nothing() {
		bare.Weather = &book.Dated[book.FieldWeather]{Body: said}
	}
	stations, err := o.store.Stations(ctx, view.Known)
	if err != nil {
		return nil, err
	}
	m := &skyMaker{office: o, view: view, ask: Ask{Date: view.Date}, stations: stations, series: map[string]*weather.Series{}}
	s, err := m.own(ctx, &bare)
	if err != nil {
		return nil, err
	}
	if s == nil {
		return nil, errors.New("none of its stations has weather in the book to compare readings with")
	}
	days := make([]weather.LocalReading, len(table.Days))
	for i, d := range table.Days {
		days[i] = weather.LocalReading(d)
	}
	d := weather.Differ(s, days)
	if d.MaxDays < weather.LeastLocalDays && d.MinDays < weather.LeastLocalDays {
		return nil, fmt.Errorf("%s: %d days have both a reading and the station's report; at least %d are wanted for a difference that lasts", say.File, max(d.MaxDays, d.MinDays), weather.LeastLocalDays)
	}
	return &d, nil
}

func (o *Office) tellWeather(ctx context.Context, view *book.View, f *book.FieldView) (*FieldWeather, error) {
	stations, err := o.store.Stations(ctx, view.Known)
	if err != nil {
		return nil, err
	}
	told := &FieldWeather{Farm: f.Farm.Name, Field: f.Name, Stations: []FieldStation{}}
	if f.Weather != nil {
		told.Said = f.Weather.Body
	}
	lat, lon, placed := f.Position()
	for _, id := range f.WeatherStations() {
		s := describe(view, stations, id)
		st := FieldStation{ID: id, Name: s.Name}
		if placed && (s.Latitude != 0 || s.Longitude != 0) {
			miles := weather.Miles(lat, lon, s.Latitude, s.Longitude)
			st.Miles = &miles
		}
		told.Stations = append(told.Stations, st)
	}
	return told, nil
}

// today is the book as it stands.
func (o *Office) today(ctx context.Context) (*book.View, error) {
	facts, err := o.store.Facts(ctx, store.Filter{})
	if err != nil {
		return nil, err
	}
	return book.Project(facts, o.Today(), o.Now())
}

// findField looks up a field by its id, its name, or farm and field.
func findField(view *book.View, name string) (*book.FieldView, error) {
	var hits []*book.FieldView
	var known []string
	for _, farm := range view.Farms {
		for _, f := range farm.Fields {
			if f.ID == name || plain(farm.Name+f.Name) == plain(name) {
				return f, nil
			}
			if plain(f.Name) == plain(name) {
				hits = append(hits, f)
			}
			known = append(known, farm.Name+" "+f.Name, f.Name)
		}
	}
	switch len(hits) {
	case 1:
		return hits[0], nil
	case 0:
		return nil, fmt.Errorf("no field is called %q%s: %w", name, meant(name, known), ErrNotFound)
	}
	var names []string
	for _, f := range hits {
		names = append(names, f.Farm.Name+" · "+f.Name)
	}
	return nil, fmt.Errorf("%d fields are called %q: %s; give farm and field: %w", len(hits), name, strings.Join(names, ", "), ErrNotFound)
}
