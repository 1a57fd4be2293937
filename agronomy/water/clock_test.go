package water

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// Madison, Wisconsin, sea level: sunrise and sunset in UTC, altitude at 18:00 UTC. [source.SunClockCheck]
func TestSunTimesOfMadison(t *testing.T) {
	const lat, lon = 43.0731, -89.4012
	for _, c := range []struct {
		day       string
		rise, set string // the second on the next UTC day from March to August
		altitude  unit.Degree
		length    unit.Hour
	}{
		{"2024-01-15", "2024-01-15 13:26:27", "2024-01-15 22:47:44", 25.78751, 9.3547},
		{"2024-03-20", "2024-03-20 11:59:49", "2024-03-21 00:10:37", 47.15676, 12.1801},
		{"2024-06-20", "2024-06-20 10:18:14", "2024-06-21 01:40:30", 70.36405, 15.3712},
		{"2024-07-15", "2024-07-15 10:32:25", "2024-07-16 01:34:29", 68.26676, 15.0343},
		{"2024-09-22", "2024-09-22 11:45:32", "2024-09-22 23:53:49", 46.78215, 12.1382},
		{"2024-12-21", "2024-12-21 13:26:09", "2024-12-21 22:25:54", 23.48045, 8.9959},
	} {
		day, err := unit.ParseDay(c.day)
		if err != nil {
			t.Fatal(err)
		}
		s, err := SunTimes(lat, lon, day)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range []struct {
			name string
			got  time.Time
			want string
		}{{"rise", s.Rise, c.rise}, {"set", s.Set, c.set}} {
			printed, err := time.Parse(time.DateTime, v.want)
			if err != nil {
				t.Fatal(err)
			}
			if off := v.got.Sub(printed).Abs(); off > 5*time.Second {
				t.Errorf("%s %s: %s, off by %s", c.day, v.name, v.got.Format(time.DateTime), off)
			}
		}
		want(t, c.day+" length", float64(s.Length()), float64(c.length), 1e-3)
		altitude, err := SunAltitude(lat, lon, day.Time().Add(18*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		want(t, c.day+" altitude", float64(altitude), float64(c.altitude), 0.01)
	}
}

// The equation of FAO Paper 56 gives the geometric day, 0.18 to 0.28 h shorter than the clock's at 43 N.
func TestTheClockDayIsLongerThanTheGeometricOne(t *testing.T) {
	for _, d := range []unit.Day{unit.DateOf(2024, 1, 15), unit.DateOf(2024, 3, 20), unit.DateOf(2024, 6, 20), unit.DateOf(2024, 7, 15), unit.DateOf(2024, 9, 22), unit.DateOf(2024, 12, 21)} {
		s, err := SunTimes(43.0731, -89.4012, d)
		if err != nil {
			t.Fatal(err)
		}
		_, n, err := Above(43.0731, d.YearDay())
		if err != nil {
			t.Fatal(err)
		}
		if more := s.Length() - n; more < 0.175 || more > 0.285 {
			t.Errorf("%s: %.4f h by the clock, %.4f h geometric", d, s.Length(), n)
		}
	}
}

func TestSunUpAndDownAllDay(t *testing.T) {
	for _, c := range []struct {
		day  unit.Day
		lat  unit.Degree
		want Up
		h    unit.Hour
	}{
		{unit.DateOf(2024, 6, 20), 70, UpAllDay, 24},
		{unit.DateOf(2024, 12, 21), 70, DownAllDay, 0},
		{unit.DateOf(2024, 12, 21), -90, UpAllDay, 24},
		{unit.DateOf(2024, 6, 20), -90, DownAllDay, 0},
	} {
		s, err := SunTimes(c.lat, 25, c.day)
		if err != nil || s.Up != c.want || s.Length() != c.h {
			t.Errorf("%s at %g: %s, %g h, %v; want %s", c.day, c.lat, s.Up, s.Length(), err, c.want)
		}
	}
}

func TestPlacesOffTheGlobeAreRefused(t *testing.T) {
	if _, err := SunTimes(91, 0, 0); err == nil || err.Error() != "latitude 91: accepted -90 to 90 degrees, south negative" {
		t.Error(err)
	}
	if _, err := SunAltitude(0, 181, time.Unix(0, 0)); err == nil || err.Error() != "longitude 181: accepted -180 to 180 degrees, west negative" {
		t.Error(err)
	}
}

func TestTheSunStandsOnTheHorizonAtRiseAndSetAndHighestAtNoon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := unit.Degree(rapid.Float64Range(-65, 65).Draw(t, "lat")), unit.Degree(rapid.Float64Range(-180, 180).Draw(t, "lon"))
		day := unit.Day(rapid.IntRange(int(unit.DateOf(1950, 1, 1)), int(unit.DateOf(2080, 1, 1))).Draw(t, "day"))
		s, err := SunTimes(lat, lon, day)
		if err != nil || s.Up != RisesAndSets {
			t.Fatalf("%+v, %v", s, err)
		}
		if !s.Rise.Before(s.Noon) || !s.Noon.Before(s.Set) || s.Set.Sub(s.Rise) >= 24*time.Hour {
			t.Fatalf("rise %s, noon %s, set %s", s.Rise, s.Noon, s.Set)
		}
		// Solar noon lies within the equation of time of local mean noon, so the local day is the one asked for.
		if off := s.Noon.Sub(day.Time()).Hours() - 12 + float64(lon)/15; off < -0.3 || off > 0.3 {
			t.Fatalf("noon %s is %g h from mean noon", s.Noon, off)
		}
		at := func(m time.Time) float64 {
			a, err := SunAltitude(lat, lon, m)
			if err != nil {
				t.Fatal(err)
			}
			return float64(a)
		}
		for _, m := range []time.Time{s.Rise, s.Set} {
			if a := at(m); a < -0.84 || a > -0.82 {
				t.Fatalf("altitude %g at %s", a, m)
			}
		}
		noon := at(s.Noon)
		if noon < at(s.Noon.Add(-time.Hour)) || noon < at(s.Noon.Add(time.Hour)) {
			t.Fatalf("the sun is higher an hour from noon %s", s.Noon)
		}
	})
}
