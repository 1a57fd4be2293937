package store_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"haywarden/book/store"
	"haywarden/book/store/storetest"
)

func TestADamagedForecastIsFoundAndNotUsed(t *testing.T) {
	onBothEngines(t, func(t *testing.T, db *store.DB) {
		const place = "43.07,-89.40"
		if _, err := db.PutForecast(t.Context(), storetest.Forecast(place, clock(), 1), clock()); err != nil {
			t.Fatal(err)
		}
		mustCheck(t, db)
		for name, body := range map[string]string{
			"cut off":              `{"place":"43.07,-89.40","sou`,
			"of nothing":           `{}`,
			"of another place":     `{"place":"1.00,-1.00","source":"s","issued":"2026-05-19T08:30:05Z","days":[{"day":"2026-05-19"}]}`,
			"of another time":      `{"place":"43.07,-89.40","source":"s","issued":"2026-05-19T08:30:06Z","days":[{"day":"2026-05-19"}]}`,
			"with a chance of 140": `{"place":"43.07,-89.40","source":"s","issued":"2026-05-19T08:30:05Z","days":[{"day":"2026-05-19","pop":140}]}`,
		} {
			if _, err := db.Writer().ExecContext(t.Context(), "update forecasts set body = $1", body); err != nil {
				t.Fatal(err)
			}
			_, listed := db.Forecasts(t.Context(), place, time.Time{})
			_, latest := db.LatestForecast(t.Context(), place, 0, time.Time{})
			for did, err := range map[string]error{"checking": db.Check(t.Context()), "listing": listed, "looking": latest} {
				if !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), "forecast for 43.07,-89.40 of 2026-05-19T08:30:05") {
					t.Errorf("%s a forecast %s: error %v, want %v that names it", did, name, err, store.ErrDamaged)
				}
			}
		}
	})
}
