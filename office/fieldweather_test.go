package office_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
	"haywarden/weather"
)

// report brings a station of the given id with a year of plain weather, colder by some degrees C.
func report(t *testing.T, o *office.Office, id, name string, lat, lon, colder float64, through unit.Day) {
	t.Helper()
	var deliveries []office.Delivery
	for y := 2010; y <= through.Year(); y++ {
		b := weather.NewBlock(id, y)
		for i := range b.Days {
			if unit.DateOf(y, 1, 1)+unit.Day(i) > through {
				break
			}
			v := 120 + 8*((i*7+y)%23) - int(10*colder)
			b.Days[i].Value[weather.TMax], b.Days[i].Mark[weather.TMax] = int16(v), weather.Reported
			b.Days[i].Value[weather.TMin], b.Days[i].Mark[weather.TMin] = int16(v-110), weather.Reported
			b.Days[i].Value[weather.Rain], b.Days[i].Mark[weather.Rain] = int16(30*((i+y)%3)), weather.Reported
		}
		deliveries = append(deliveries, office.Delivery{Block: b, Received: o.Now()})
	}
	st := weather.Station{ID: id, Name: name, Latitude: lat, Longitude: lon, Elevation: 250}
	if err := o.ReceiveWeather(t.Context(), ida, []weather.Station{st}, deliveries); err != nil {
		t.Fatal(err)
	}
}

func TestAFieldMayTakeSeveralStationsAndAnOffset(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	day := unit.DateOf(2022, 4, 20)
	farm := record(t, o, office.Entry{Day: day, Body: book.Farm{Name: "Alder Run"}})
	field := record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Field{Name: "Home Forty", Acres: 40, Station: "ZZT00000001", Latitude: 44, Longitude: -90}})
	record(t, o, office.Entry{Farm: farm, Day: day, Body: book.Stand{Field: field, Crop: book.Alfalfa, Seeded: day, Product: book.Haylage}})
	report(t, o, "ZZT00000001", "Test Ridge", 44, -90.1, 0, unit.DateOf(2026, 5, 18))
	report(t, o, "ZZT00000002", "Test Hollow", 44, -89.9, 4, unit.DateOf(2026, 5, 18))
	heat := func() float64 {
		s, err := o.Stand(t.Context(), ida, "Home Forty", office.Ask{})
		if err != nil {
			t.Fatal(err)
		}
		if s.Stand.Sky == nil {
			t.Fatal(s.Stand.NoSky)
		}
		return s.Stand.Sky.Heat41.Now()
	}
	alone := heat()
	told, err := o.SetFieldWeather(t.Context(), ida, "Alder Run Home Forty", office.LocalWeather{Stations: []string{"ZZT00000001", "test hollow"}})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"ZZT00000001", "ZZT00000002"}, told.Said.Stations); diff != "" || len(told.Stations) != 2 || told.Stations[1].Miles == nil {
		t.Errorf("told %+v (-want +got):\n%s", told, diff)
	}
	blended := heat()
	if blended >= alone || blended < alone-4*1.8*80 {
		t.Errorf("%.0f F-days from one station, %.0f beside one 4 C colder", alone, blended)
	}
	cold := -5.0
	if _, err := o.SetFieldWeather(t.Context(), ida, "Home Forty", office.LocalWeather{MinF: &cold}); err != nil {
		t.Fatal(err)
	}
	if hollow := heat(); hollow >= blended {
		t.Errorf("%.0f F-days where nights are 5 F colder, %.0f before", hollow, blended)
	}
	if told, err = o.SetFieldWeather(t.Context(), ida, "Home Forty", office.LocalWeather{Clear: true}); err != nil || len(told.Stations) != 1 {
		t.Errorf("cleared: %+v, %v", told, err)
	}
	if again := heat(); again != alone {
		t.Errorf("%.1f F-days after clearing, %.1f before", again, alone)
	}
	_, err = o.SetFieldWeather(t.Context(), ida, "Home Forty", office.LocalWeather{Stations: []string{"Test Rigde"}})
	if err == nil || !strings.Contains(err.Error(), "Test Ridge") {
		t.Errorf("a slip of the fingers: %v", err)
	}
	if _, err := o.SetFieldWeather(t.Context(), ida, "Nowhere", office.LocalWeather{}); !errors.Is(err, office.ErrNotFound) {
		t.Errorf("no such field: %v", err)
	}
}

func TestReadingsInAFieldSetItsOffset(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	oneStand(t, o)
	report(t, o, "ZZT00000001", "Test Ridge", 44, -90.1, 0, unit.DateOf(2026, 5, 18))
	table := func(days int) *strings.Reader {
		var b strings.Builder
		b.WriteString("date,tmin_f\n")
		for i := range days {
			d := unit.DateOf(2026, 5, 1) - 40 + unit.Day(i)
			v := 120 + 8*(((d.YearDay()-1)*7+2026)%23) - 110
			fmt.Fprintf(&b, "%s,%.2f\n", d, float64(v)/10*1.8+32-2.5)
		}
		return strings.NewReader(b.String())
	}
	told, err := o.SetFieldWeather(t.Context(), ida, "Home Forty", office.LocalWeather{Readings: table(30), File: "hollow.csv"})
	if err != nil {
		t.Fatal(err)
	}
	if told.Said.Days != 30 || told.Said.MinF > -2.4 || told.Said.MinF < -2.6 || told.Said.MaxF != 0 {
		t.Errorf("%+v", told.Said)
	}
	if _, err := o.SetFieldWeather(t.Context(), ida, "Home Forty", office.LocalWeather{Readings: table(9), File: "hollow.csv"}); err == nil || !strings.Contains(err.Error(), "at least 14") {
		t.Errorf("nine days: %v", err)
	}
	bad := strings.NewReader("date,tmin_f\n2026-05-01,38\n2026-05-01,39\n2026-05-02,140\n")
	_, err = o.SetFieldWeather(t.Context(), ida, "Home Forty", office.LocalWeather{Readings: bad, File: "hollow.csv"})
	for _, want := range []string{"hollow.csv", "row 2", "take one out", "accepted -60 to 125"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v does not say %q", err, want)
		}
	}
}
