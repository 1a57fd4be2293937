package weather

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// at moves a made record to a place.
func at(s *Series, id string, lat, lon, height float64) *Series {
	s.Station.ID, s.Station.Latitude, s.Station.Longitude, s.Station.Elevation = id, lat, lon, height
	return s
}

func TestAFieldOfOneStationTakesJustWhatItReported(t *testing.T) {
	s := at(madeSeries(3, 2018, 2020, 0), "A", 44, -90, 300)
	s.Station.WholeF = true
	here := Here(Station{ID: "F"}, Place{Latitude: 44.1, Longitude: -90, ElevationM: math.NaN()}, []*Series{s})
	if !here.Station.WholeF || here.Len() != s.Len() || here.First != s.First {
		t.Fatalf("whole F %v, %d days from %s", here.Station.WholeF, here.Len(), here.First)
	}
	for i := range s.TMaxC {
		if here.TMaxC[i] != s.TMaxC[i] || here.TMinF[i] != s.TMinF[i] || here.RainMM[i] != s.RainMM[i] || here.Marks[i] != s.Marks[i] {
			t.Fatalf("day %d differs", i)
		}
	}
	cold := Here(Station{ID: "F"}, Place{Latitude: 44.1, Longitude: -90, ElevationM: math.NaN(), MinF: -3}, []*Series{s})
	if d := cold.TMinF[40] - s.TMinF[40]; d != -3 {
		t.Errorf("a hollow 3 F colder: %+g F", d)
	}
}

func TestAFieldBetweenStationsLiesBetweenThem(t *testing.T) {
	warm, cool := madeSeries(3, 2016, 2020, 3), madeSeries(4, 2016, 2020, 0)
	at(warm, "W", 44, -90.2, 250)
	at(cool, "C", 44, -89.8, 250)
	rapid.Check(t, func(t *rapid.T) {
		lon := rapid.Float64Range(-90.19, -89.81).Draw(t, "longitude")
		here := Here(Station{ID: "F"}, Place{Latitude: 44, Longitude: lon, ElevationM: 250}, []*Series{cool, warm})
		i := rapid.IntRange(0, here.Len()-1).Draw(t, "day")
		low, high := min(warm.TMaxC[i], cool.TMaxC[i]), max(warm.TMaxC[i], cool.TMaxC[i])
		if v := here.TMaxC[i]; v < low-1e-9 || v > high+1e-9 {
			t.Fatalf("%g C between stations of %g and %g C", v, low, high)
		}
		if r := here.RainMM[i]; r != warm.RainMM[i] && r != cool.RainMM[i] {
			t.Fatalf("rain %g mm is neither station's", r)
		}
	})
	near := Here(Station{}, Place{Latitude: 44, Longitude: -90.17, ElevationM: 250}, []*Series{cool, warm})
	if math.Abs(near.TMaxC[100]-warm.TMaxC[100]) > math.Abs(near.TMaxC[100]-cool.TMaxC[100]) {
		t.Error("the nearer station weighs less")
	}
}

func TestAStationsMissingDayLeavesNoStep(t *testing.T) {
	warm, cool := at(madeSeries(3, 2016, 2020, 4), "W", 44, -90.1, 250), at(madeSeries(4, 2016, 2020, 0), "C", 44, -89.9, 250)
	place := Place{Latitude: 44, Longitude: -90, ElevationM: 250}
	whole := Here(Station{}, place, []*Series{warm, cool})
	i, _ := warm.Index(unit.DateOf(2020, 5, 3))
	warm.TMaxC[i] = math.NaN()
	holed := Here(Station{}, place, []*Series{warm, cool})
	// The stations lie 4 C apart: the mean of what is left alone would fall by 2.
	if d := math.Abs(holed.TMaxC[i] - whole.TMaxC[i]); d > 1 {
		t.Errorf("%.2f C between the day with and without one station", d)
	}
	warm.TMaxF[i], cool.TMaxC[i] = math.NaN(), math.NaN()
	if both := Here(Station{}, place, []*Series{warm, cool}); !math.IsNaN(both.TMaxC[i]) || !math.IsNaN(both.TMaxF[i]) {
		t.Errorf("%g C on a day that nobody reported", both.TMaxC[i])
	}
}

func TestAHigherFieldIsCoolerByTheStandardAtmosphere(t *testing.T) {
	s := at(madeSeries(3, 2018, 2020, 0), "A", 44, -90, 200)
	here := Here(Station{}, Place{Latitude: 44, Longitude: -90, ElevationM: 400}, []*Series{s})
	if d := here.TMinC[50] - s.TMinC[50]; math.Abs(d+1.3) > 1e-9 {
		t.Errorf("200 m higher: %+g C, want -1.3 (6.5 C a kilometre)", d)
	}
	if math.Abs(here.TMinF[50]-(here.TMinC[50]*1.8+32)) > 1e-9 {
		t.Error("F and C say different things")
	}
}

func TestReadingsInAFieldGiveItsOffsetOrNone(t *testing.T) {
	s := madeSeries(5, 2020, 2020, 0)
	var read []LocalReading
	for i := range 20 {
		noise := 1.0 - 2*float64(i%2)
		read = append(read, LocalReading{Day: s.First + 120 + unit.Day(i), MaxF: math.NaN(), MinF: s.TMinF[120+i] - 4 + noise})
	}
	o := Differ(s, read)
	// Twenty days, half 1 above and half 1 below: s = sqrt(20/19), se = s/sqrt(20) = 0.2294.
	if math.Abs(o.MinF+4) > 1e-9 || o.MinDays != 20 || math.Abs(o.MinSE-0.2294) > 1e-4 || o.MaxDays != 0 || o.MaxF != 0 {
		t.Errorf("%+v", o)
	}
	if few := Differ(s, read[:13]); few.MinF != 0 || few.MinDays != 13 {
		t.Errorf("thirteen days gave %+v", few)
	}
}

// Nashville to Los Angeles airport is 2887.2599506 km on a ball of 6372.8 km, an example printed widely
// (Rosetta Code, haversine formula); a degree of latitude is a 360th of a great circle.
func TestDistances(t *testing.T) {
	want := 2887.2599506071106 * 6371.0088 / 6372.8 / 1.609344
	if got := Miles(36.12, -86.67, 33.94, -118.40); math.Abs(got-want) > 1e-6 {
		t.Errorf("%.6f, want %.6f", got, want)
	}
	if got, want := Miles(0, 179.5, 0, -179.5), 2*math.Pi*6371.0088/1.609344/360; math.Abs(got-want) > 1e-9 {
		t.Errorf("over the date line %.6f, want %.6f", got, want)
	}
}
