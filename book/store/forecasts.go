package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book/store/sqlcdb"
	"haywarden/weather"
)

// PutForecast implements [Store]. It is compared with the forecast of the same place and issue stored
// last, whenever that was received.
func (db *DB) PutForecast(ctx context.Context, f weather.Forecast, received time.Time) (bool, error) {
	doing := "store the forecast for " + f.Place
	row, err := forecastRow(f, received)
	if err != nil {
		return false, db.fail(ctx, doing, err)
	}
	added := false
	_, err = db.change(ctx, doing, func(ctx context.Context, q *sqlcdb.Queries, revision int64) (bool, error) {
		added = false // anew, as a change may be tried again
		stored, err := q.ForecastOfIssue(ctx, sqlcdb.ForecastOfIssueParams{Place: row.Place, Issued: row.Issued})
		if err != nil && !errors.Is(err, sql.ErrNoRows) {
			return false, err
		}
		if err == nil && stored == row.Body {
			return false, nil
		}
		row.Revision, added = revision, true
		return true, q.InsertForecast(ctx, row)
	})
	return added && err == nil, err
}

// forecastRow is a forecast as it is stored.
func forecastRow(f weather.Forecast, received time.Time) (row sqlcdb.InsertForecastParams, err error) {
	if err := checkForecast(f); err != nil {
		return row, fmt.Errorf("%w: %w", ErrRefused, err)
	}
	if err := plainText(f.Place, f.Source); err != nil {
		return row, err
	}
	row = sqlcdb.InsertForecastParams{Place: f.Place, Issued: f.Issued.UTC().Format(instantLayout), Day: unit.DayOf(f.Issued).String()}
	if row.Received, err = instant(received); err != nil {
		return row, err
	}
	body, err := json.Marshal(f)
	row.Body = string(body)
	return row, err
}

// checkForecast says what is wrong with a forecast.
func checkForecast(f weather.Forecast) error {
	_, offset := f.Issued.Zone()
	switch y := f.Issued.Year(); {
	case f.Place == "":
		return errors.New("it is not said which place the forecast is for")
	case f.Source == "":
		return errors.New("it is not said where the forecast came from")
	case f.Issued.IsZero():
		return errors.New("the time of its issue is missing")
	case y < 1900 || y > 9998: // so that UTC and every zone agree on four digits
		return fmt.Errorf("issued in the year %d; accepted are 1900 to 9998", y)
	case offset%60 != 0:
		return fmt.Errorf("the time of its issue is %d s off UTC; accepted are whole minutes", offset)
	case len(f.Days) == 0:
		return errors.New("there is no day in it")
	}
	for i, d := range f.Days {
		if i > 0 && d.Day <= f.Days[i-1].Day {
			return fmt.Errorf("day %s comes after %s; days stand in order, each once", d.Day, f.Days[i-1].Day)
		}
		for _, v := range []struct {
			name      string
			value     *float64
			low, high float64
		}{
			{"highest temperature", d.TMaxC, -100, 70}, {"lowest temperature", d.TMinC, -100, 70},
			{"chance of rain", d.PoP, 0, 1}, {"rain", d.RainMM, 0, 2000},
		} {
			if v.value != nil && !(*v.value >= v.low && *v.value <= v.high) { // a NaN is in no range
				return fmt.Errorf("day %s: %s %g; accepted are %g to %g", d.Day, v.name, *v.value, v.low, v.high)
			}
		}
	}
	return nil
}

// readForecast reads a stored forecast.
func readForecast(row sqlcdb.Forecast) (f weather.Forecast, err error) {
	if err = json.Unmarshal([]byte(row.Body), &f); err == nil {
		err = checkForecast(f)
	}
	if err == nil && (f.Place != row.Place || f.Issued.UTC().Format(instantLayout) != row.Issued || unit.DayOf(f.Issued).String() != row.Day) {
		err = errors.New("it is for another place or time than it is kept under")
	}
	if err != nil {
		return weather.Forecast{}, fmt.Errorf("%w: forecast for %s of %s: %w", ErrDamaged, row.Place, row.Issued, err)
	}
	return f, nil
}

// Forecasts implements [Store].
func (db *DB) Forecasts(ctx context.Context, place string, known time.Time) ([]weather.Forecast, error) {
	ctx, done := bounded(ctx)
	defer done()
	doing := "read the forecasts for " + place
	rows, err := db.reads.Forecasts(ctx, sqlcdb.ForecastsParams{Place: place, Known: knownBy(known)})
	if err != nil {
		return nil, db.fail(ctx, doing, err)
	}
	forecasts := make([]weather.Forecast, len(rows))
	for i, row := range rows {
		if forecasts[i], err = readForecast(row); err != nil {
			return nil, db.fail(ctx, doing, err)
		}
	}
	return forecasts, nil
}

// LatestForecast implements [Store].
func (db *DB) LatestForecast(ctx context.Context, place string, by unit.Day, known time.Time) (*weather.Forecast, error) {
	ctx, done := bounded(ctx)
	defer done()
	doing := "read the latest forecast for " + place
	row, err := db.reads.LatestForecast(ctx, sqlcdb.LatestForecastParams{Place: place, Known: knownBy(known), Through: through(by)})
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, db.fail(ctx, doing, err)
	}
	f, err := readForecast(row)
	if err != nil {
		return nil, db.fail(ctx, doing, err)
	}
	return &f, nil
}

func (db *DB) damagedForecasts(ctx context.Context) (findings []error, err error) {
	rows, err := db.reads.AllForecasts(ctx)
	if err != nil {
		return nil, err
	}
	for _, row := range rows {
		if _, err := readForecast(row); err != nil {
			findings = append(findings, err)
		}
	}
	return findings, nil
}
