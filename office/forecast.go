package office

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"haywarden/book"
	"haywarden/book/store"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// Forecaster gives forecasts of places; [nws.Client] is one.
type Forecaster interface {
	Forecast(ctx context.Context, latitude, longitude float64, kept *weather.Forecast) (f weather.Forecast, changed bool, err error)
}

// PlaceForecast is what is kept of the forecasts for a place where fields lie.
type PlaceForecast struct {
	Place   string            `json:"place"`
	Fields  []string          `json:"fields"`            // farm and field
	Latest  *weather.Forecast `json:"forecast"`          // the newest kept; null where there is none
	Added   bool              `json:"added"`             // it came to the book just now
	Problem string            `json:"problem,omitempty"` // why the service gave nothing, in plain words

	latitude, longitude float64
}

// mostPlaces is how many places are asked for at a time (choice): with a request a second, and two for a
// new place, more than a minute. Those left out have the freshest forecasts, and their turn later.
const mostPlaces = 40

// Forecast gives the newest forecast for a place that was issued by the date asked for and received by
// the time known; nil where there is none.
func (o *Office) Forecast(ctx context.Context, actor Actor, place string, ask Ask) (*weather.Forecast, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	ask = o.settle(ask)
	return o.store.LatestForecast(ctx, place, ask.Date, ask.Known)
}

// Forecasts gives for each place where fields lie what [Office.Forecast] does, by place.
func (o *Office) Forecasts(ctx context.Context, actor Actor, ask Ask) ([]PlaceForecast, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	ask = o.settle(ask)
	places, err := o.forecastPlaces(ctx, ask)
	if err != nil {
		return nil, err
	}
	for i := range places {
		if places[i].Latest, err = o.store.LatestForecast(ctx, places[i].Place, ask.Date, ask.Known); err != nil {
			return nil, err
		}
	}
	return places, nil
}

// FetchForecasts asks a service for the forecasts of all places where fields lie and keeps what is new;
// fields near each other share a place. That the service has nothing to give, for one place or for all,
// is told beside what is kept and is no error: a forecast that is kept stays good for its age.
func (o *Office) FetchForecasts(ctx context.Context, actor Actor, from Forecaster) ([]PlaceForecast, error) {
	if err := may(actor, actRecord); err != nil {
		return nil, err
	}
	places, err := o.forecastPlaces(ctx, o.settle(Ask{}))
	if err != nil {
		return nil, err
	}
	for i := range places {
		if places[i].Latest, err = o.store.LatestForecast(ctx, places[i].Place, 0, time.Time{}); err != nil {
			return nil, err
		}
	}
	// The oldest are asked for first, so that nothing is left out twice and a line that breaks off does most good.
	slices.SortStableFunc(places, func(a, b PlaceForecast) int { return issuedOf(a).Compare(issuedOf(b)) })
	var offline bool
	for i := range places {
		p := &places[i]
		switch {
		case i >= mostPlaces:
			p.Problem = fmt.Sprintf("not asked for: %d places at a time are enough for the service; its turn comes the next time", mostPlaces)
		case offline:
			p.Problem = "not asked for: the forecast service cannot be reached"
		default:
			err := o.fetch(ctx, from, p)
			if offline = errors.Is(err, nws.ErrOffline); err != nil && (ctx.Err() != nil || errors.Is(err, errNotKept)) {
				return nil, err
			}
			if err != nil {
				p.Problem = strings.TrimPrefix(err.Error(), "forecast for "+p.Place+": ")
			}
		}
	}
	slices.SortFunc(places, func(a, b PlaceForecast) int { return cmp.Compare(a.Place, b.Place) })
	return places, nil
}

// ForecastDelivery is a forecast that came another way than by asking, and when the book received it.
type ForecastDelivery struct {
	Forecast weather.Forecast
	Received time.Time
}

// ReceiveForecasts takes forecasts that were made elsewhere.
func (o *Office) ReceiveForecasts(ctx context.Context, actor Actor, deliveries []ForecastDelivery) error {
	if err := may(actor, actRecord); err != nil {
		return err
	}
	for _, d := range deliveries {
		if _, err := o.store.PutForecast(ctx, d.Forecast, d.Received); err != nil {
			return fmt.Errorf("keep the forecast for %s: %w", d.Forecast.Place, err)
		}
	}
	return nil
}

// errNotKept says that the fault is the book's, not the service's.
var errNotKept = errors.New("the forecast came and could not be kept")

func (o *Office) fetch(ctx context.Context, from Forecaster, p *PlaceForecast) error {
	f, changed, err := from.Forecast(ctx, p.latitude, p.longitude, p.Latest)
	if err != nil || !changed {
		return err
	}
	added, err := o.store.PutForecast(ctx, f, o.Now())
	switch {
	case errors.Is(err, store.ErrRefused):
		return err
	case err != nil:
		return fmt.Errorf("%w: %w", errNotKept, err)
	}
	// Read again: the service may have handed out an older issue than it did before.
	newest, err := o.store.LatestForecast(ctx, p.Place, 0, time.Time{})
	if err != nil {
		return fmt.Errorf("%w: %w", errNotKept, err)
	}
	p.Added, p.Latest = added && newest != nil && newest.Issued.Equal(f.Issued), newest
	return nil
}

func issuedOf(p PlaceForecast) time.Time {
	if p.Latest == nil {
		return time.Time{}
	}
	return p.Latest.Issued
}

// forecastPlaces lists the places whose forecasts are used, by place: where the stations lie that fields
// take their weather from, since the years that go on from a forecast are the station's. A field that
// has its own weather, or a station of unknown place, takes the forecast of where it lies itself.
func (o *Office) forecastPlaces(ctx context.Context, ask Ask) ([]PlaceForecast, error) {
	facts, err := o.store.Facts(ctx, store.Filter{Known: ask.Known, Through: ask.Date})
	if err != nil {
		return nil, err
	}
	view, err := book.Project(facts, ask.Date, ask.Known)
	if err != nil {
		return nil, err
	}
	stations, err := o.store.Stations(ctx, ask.Known)
	if err != nil {
		return nil, err
	}
	var places []PlaceForecast
	at := map[string]int{}
	for _, farm := range view.Farms {
		for _, f := range farm.Fields {
			lat, lon, ok := forecastPosition(view, stations, f)
			if !ok {
				continue
			}
			place := nws.PlaceOf(lat, lon)
			i, seen := at[place]
			if !seen {
				i = len(places)
				at[place] = i
				places = append(places, PlaceForecast{Place: place, latitude: lat, longitude: lon})
			}
			places[i].Fields = append(places[i].Fields, farm.Name+" · "+f.Name)
		}
	}
	slices.SortFunc(places, func(a, b PlaceForecast) int { return cmp.Compare(a.Place, b.Place) })
	return places, nil
}

// forecastPosition is where the forecast is for that a field's weather goes on with.
func forecastPosition(view *book.View, stations []weather.Station, f *book.FieldView) (latitude, longitude float64, ok bool) {
	if key := f.WeatherKey(); key != "" && key == f.Station {
		if s := describe(view, stations, key); s.Latitude != 0 || s.Longitude != 0 {
			return s.Latitude, s.Longitude, true
		}
	}
	return f.Position()
}
