package office_test

import (
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
	"haywarden/weather"
)

func TestTheNewestForecastIsTakenForDistrictAndStation(t *testing.T) {
	o, c := newOffice(t, "2026-06-09 14:00")
	st := weather.Station{ID: evenID, Name: "Even", Latitude: 43.30, Longitude: -89.40, WholeF: true}
	if err := o.ReceiveWeather(t.Context(), ida, []weather.Station{st}, evenYears(2024, 2026, nil)); err != nil {
		t.Fatal(err)
	}
	day := unit.DateOf(2022, 4, 20)
	farm := record(t, o, office.Entry{Day: day, Body: book.Farm{Name: "Alder Run"}})
	for _, f := range []struct {
		name, station string
		lat           float64
	}{{"Home", evenID, 43.07}, {"Far", "", 43.20}, {"Next", evenID, 43.1}} {
		record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Field{Name: f.name, Acres: 9, Latitude: f.lat, Longitude: -89.4, Station: f.station}})
	}
	c.set("2026-06-12 14:00")
	page := func(date unit.Day, known string) (district, station office.NextDays) {
		ask := office.Ask{Date: date}
		if known != "" {
			var err error
			if ask.Known, err = time.Parse("2006-01-02 15:04", known); err != nil {
				t.Fatal(err)
			}
		}
		district, err := o.NextDays(t.Context(), ida, ask)
		if err != nil {
			t.Fatal(err)
		}
		p, err := o.StationPage(t.Context(), ida, evenID, ask)
		if err != nil {
			t.Fatal(err)
		}
		return district, p.Next
	}
	if d, s := page(0, ""); d.Kept() || s.Kept() || d.Age != "no forecast kept" || len(s.Days) != 0 {
		t.Errorf("before any came: %+v, %+v", d, s)
	}
	for _, f := range []struct{ place, at string }{
		{"43.20,-89.40", "2026-06-10 04:00"}, {"43.30,-89.40", "2026-06-10 04:00"},
		{"43.20,-89.40", "2026-06-11 16:30"},
	} {
		made := issue(t, f.place, f.at)
		if err := o.ReceiveForecasts(t.Context(), ida, []office.ForecastDelivery{{Forecast: made, Received: made.Issued.Add(time.Hour)}}); err != nil {
			t.Fatal(err)
		}
	}
	first := unit.DateOf(2026, time.June, 10)
	d, s := page(first, "2026-06-10 12:00")
	if d.Place != "43.30,-89.40" || d.For != "Even" || s.Place != "43.30,-89.40" {
		t.Errorf("of equal age, the district takes %s (%s), the station %s; want the station's, whose weather most fields take", d.Place, d.For, s.Place)
	}
	if d.Age != "forecast of Wednesday 10 June, 4 am, 3 hours old" || len(d.Days) != 2 || *d.Days[0].HighF != 75 || d.Days[0].LowF != nil || d.Days[0].Chance != nil || *d.Days[1].LowF != 48 {
		t.Errorf("%+v", d)
	}
	d, s = page(0, "")
	if s.Place != "43.30,-89.40" || s.Age != "forecast of Wednesday 10 June, 4 am, 2 days old" || len(s.Days) != 0 {
		t.Errorf("the station's own: %+v", s)
	}
	if d.Place != "43.20,-89.40" || d.For != "Alder Run · Far" || d.Age != "forecast of Thursday 11 June, 4:30 pm, 16 hours old" {
		t.Errorf("the newest: %s, %s", d.Place, d.Age)
	}
	if len(d.Days) != 1 || d.Days[0].Day != unit.DateOf(2026, time.June, 12) {
		t.Errorf("days gone by are told: %+v", d.Days)
	}
	if d, _ := page(first, ""); d.Place != "43.30,-89.40" {
		t.Errorf("asked for the day before, %s issued later answers", d.Place)
	}
}

func TestAgesAreSaidInHoursAndThenInDays(t *testing.T) {
	for age, want := range map[time.Duration]string{
		-time.Hour: "less than an hour old", 59 * time.Minute: "less than an hour old", time.Hour: "1 hour old", 47*time.Hour + 59*time.Minute: "47 hours old",
		48 * time.Hour: "2 days old", 100 * time.Hour: "4 days old",
	} {
		if got := office.AgeOf(age); got != want {
			t.Errorf("%s: %q, want %q", age, got, want)
		}
	}
}
