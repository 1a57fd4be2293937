package office

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// NextDays are the days ahead as the newest kept forecast has them. None kept is a normal state.
type NextDays struct {
	Place  string    `json:"place,omitempty"`
	For    string    `json:"for,omitempty"` // the station that lies there, or a field
	Issued time.Time `json:"issued,omitzero"`
	Age    string    `json:"age"` // how old it is, or that none is kept
	Days   []NextDay `json:"days"`
}

// NextDay is one day ahead; what was not forecast is absent, and is no dry day.
type NextDay struct {
	Day    unit.Day `json:"day"`
	HighF  *float64 `json:"high_f,omitempty"`
	LowF   *float64 `json:"low_f,omitempty"`
	Chance *float64 `json:"rain_chance,omitempty"` // of 0.01 in or more
	RainIn *float64 `json:"rain_in,omitempty"`     // expected amount
}

// Kept reports whether there is a forecast at all.
func (n NextDays) Kept() bool { return !n.Issued.IsZero() }

// nextDays is how many days ahead are told.
const nextDays = 7

// forecastPlace is a place whose forecast may be kept.
type forecastPlace struct {
	place, named string
	fields       int
	miles        float64
}

// NextDays gives the days ahead for the district as a whole: of the newest forecasts, that of the place
// where most fields lie.
func (o *Office) NextDays(ctx context.Context, actor Actor, ask Ask) (NextDays, error) {
	view, err := o.View(ctx, actor, ask)
	if err != nil {
		return NextDays{}, err
	}
	stations, err := o.store.Stations(ctx, o.settle(ask).Known)
	if err != nil {
		return NextDays{}, err
	}
	return o.newest(ctx, placesIn(view, stations, func(*book.FieldView) bool { return true }), o.settle(ask))
}

// nextAt gives the days ahead for a station: of the newest forecasts for it and for the fields that take
// their weather from it, that of the nearest place.
func (o *Office) nextAt(ctx context.Context, view *book.View, st weather.Station, ask Ask) (NextDays, error) {
	places := placesIn(view, []weather.Station{st}, func(f *book.FieldView) bool { return slices.Contains(f.WeatherStations(), st.ID) })
	if place, ok := stationPlace(st); ok {
		places = append(places, forecastPlace{place: place, named: cmp.Or(st.Name, st.ID)})
	}
	for i := range places {
		var lat, lon float64
		if _, err := fmt.Sscanf(places[i].place, "%g,%g", &lat, &lon); err == nil {
			places[i].miles = weather.Miles(st.Latitude, st.Longitude, lat, lon)
		}
		places[i].fields = 0 // near counts here, not many
	}
	return o.newest(ctx, places, ask)
}

// placesIn lists the places whose forecasts fields take.
func placesIn(view *book.View, stations []weather.Station, wanted func(*book.FieldView) bool) []forecastPlace {
	var out []forecastPlace
	at := map[string]int{}
	for _, farm := range view.Farms {
		for _, f := range farm.Fields {
			lat, lon, ok := forecastPosition(view, stations, f)
			if !ok || !wanted(f) {
				continue
			}
			place := nws.PlaceOf(lat, lon)
			i, seen := at[place]
			if !seen {
				i = len(out)
				at[place] = i
				named := farm.Name + " · " + f.Name
				if st := describe(view, stations, f.Station); st.Latitude == lat && st.Longitude == lon {
					named = cmp.Or(st.Name, st.ID)
				}
				out = append(out, forecastPlace{place: place, named: named})
			}
			out[i].fields++
		}
	}
	return out
}

func (o *Office) newest(ctx context.Context, places []forecastPlace, ask Ask) (NextDays, error) {
	var best *weather.Forecast
	var at forecastPlace
	for _, p := range places {
		f, err := o.store.LatestForecast(ctx, p.place, ask.Date, ask.Known)
		if err != nil {
			return NextDays{}, err
		}
		if f == nil {
			continue
		}
		better := best == nil
		if !better {
			better = cmp.Or(f.Issued.Compare(best.Issued), cmp.Compare(p.fields, at.fields), cmp.Compare(at.miles, p.miles), cmp.Compare(at.place, p.place)) > 0
		}
		if better {
			best, at = f, p
		}
	}
	next := NextDays{Age: "no forecast kept", Days: []NextDay{}}
	if best == nil {
		return next, nil
	}
	next.Place, next.For, next.Issued = at.place, at.named, best.Issued
	next.Age = "forecast of " + clockTime(best.Issued) + ", " + AgeOf(best.Age(o.asOf(ask)))
	for _, d := range best.Days {
		if d.Day >= ask.Date && d.Day < ask.Date+nextDays {
			next.Days = append(next.Days, NextDay{Day: d.Day, HighF: inF(d.TMaxC), LowF: inF(d.TMinC), Chance: d.PoP, RainIn: inInches(d.RainMM)})
		}
	}
	return next, nil
}

// asOf is the time at which a question stands: now, or when it is asked as of another time.
func (o *Office) asOf(ask Ask) time.Time {
	switch {
	case !ask.Known.IsZero():
		return ask.Known
	case ask.Date < o.Today():
		return (ask.Date + 1).Time()
	}
	return o.Now()
}

// clockTime writes when a forecast was issued, in its place's own time.
func clockTime(t time.Time) string {
	if t.Minute() == 0 {
		return t.Format("Monday 2 January, 3 pm")
	}
	return t.Format("Monday 2 January, 3:04 pm")
}

// AgeOf says how old a forecast is.
func AgeOf(age time.Duration) string {
	hours := int(age.Hours())
	switch {
	case hours < 1:
		return "less than an hour old"
	case hours == 1:
		return "1 hour old"
	case hours < 48:
		return fmt.Sprintf("%d hours old", hours)
	}
	return fmt.Sprintf("%d days old", hours/24)
}

func inF(c *float64) *float64 {
	if c == nil {
		return nil
	}
	f := math.Round(*c*1.8 + 32)
	return &f
}

func inInches(mm *float64) *float64 {
	if mm == nil {
		return nil
	}
	in := math.Round(*mm/25.4*100) / 100
	return &in
}
