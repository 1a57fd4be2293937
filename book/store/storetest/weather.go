package storetest

import (
	"context"
	"math"
	"testing"
	"time"

	"haywarden/book/store"
	"haywarden/weather"
)

const milwaukee = "USW00014839"

var weatherCases = []suiteCase{
	{"years come back as they were, by year", func(t *testing.T, s store.Store) {
		blocks := Years(milwaukee, 2018, 8, 3)
		blocks[2].Days[59].Reject(weather.TMin, weather.Outlier)
		shuffled := []*weather.Block{blocks[5], blocks[0], blocks[7], blocks[2], blocks[1], blocks[6], blocks[3], blocks[4]}
		out := put(t, s, File(1, noon, shuffled...))
		same(t, "imported", store.Imported{Added: []int{2018, 2019, 2020, 2021, 2022, 2023, 2024, 2025}, Revision: 1}, out)
		same(t, "blocks", blocks, weatherOf(t, s, milwaukee, time.Time{}))
	}},
	{"a changed year is kept beside the one it replaces", func(t *testing.T, s store.Store) {
		later := noon.AddDate(0, 1, 0)
		put(t, s, File(1, noon, Years(milwaukee, 2024, 2, 10)...))
		out := put(t, s, File(2, later, Block(milwaukee, 2024, 10), Block(milwaukee, 2025, 99), Block(milwaukee, 2026, 5)))
		same(t, "imported", store.Imported{Added: []int{2026}, Changed: []int{2025}, Unchanged: []int{2024}, Revision: 2}, out)
		old := Years(milwaukee, 2024, 2, 10)
		current := []*weather.Block{old[0], Block(milwaukee, 2025, 99), Block(milwaukee, 2026, 5)}
		for _, c := range []struct {
			name  string
			known time.Time
			want  []*weather.Block
		}{
			{"before any", noon.Add(-time.Nanosecond), []*weather.Block{}},
			{"with the first file", noon, old},
			{"just before the second", later.Add(-time.Nanosecond), old},
			{"with the second", later, current},
			{"now", time.Time{}, current},
		} {
			same(t, c.name, c.want, weatherOf(t, s, milwaukee, c.known))
		}
	}},
	{"a year that goes back to what it was is a change like any other", func(t *testing.T, s store.Store) {
		for i, n := range []int{1, 2, 1} {
			put(t, s, File(n, noon.Add(time.Duration(i)*time.Hour), Block("A", 2025, n)))
		}
		for i, n := range []int{1, 2, 1} {
			same(t, "block", []*weather.Block{Block("A", 2025, n)}, weatherOf(t, s, "A", noon.Add(time.Duration(i)*time.Hour)))
		}
	}},
	{"two imports at one moment are both kept, and the second counts", func(t *testing.T, s store.Store) {
		put(t, s, File(1, noon, Block("A", 2025, 1)))
		put(t, s, File(2, noon, Block("A", 2025, 2)))
		same(t, "block", []*weather.Block{Block("A", 2025, 2)}, weatherOf(t, s, "A", noon))
		same(t, "imports", 2, len(importsOf(t, s, "A")))
	}},
	{"stations do not mix", func(t *testing.T, s store.Store) {
		put(t, s, File(1, noon, Block("b", 2025, 1)))
		put(t, s, File(1, noon, Block("A", 2025, 2)))
		put(t, s, File(1, noon, Block("É", 2025, 3)))
		same(t, "block of A", []*weather.Block{Block("A", 2025, 2)}, weatherOf(t, s, "A", time.Time{}))
		same(t, "block of nothing", []*weather.Block{}, weatherOf(t, s, "a", time.Time{}))
		var names []string
		for _, st := range stationsOf(t, s, time.Time{}) {
			names = append(names, st.ID)
		}
		same(t, "stations in order of their bytes", []string{"A", "b", "É"}, names)
	}},
	{"a station is listed as last described by the time it is asked for", func(t *testing.T, s store.Store) {
		first := File(1, noon, Block(milwaukee, 2025, 1))
		put(t, s, first)
		second := first
		second.Received = noon.Add(time.Hour)
		second.Station.WholeF, second.Station.Elevation = false, -1.5
		put(t, s, second)
		for _, c := range []struct {
			name  string
			known time.Time
			want  []weather.Station
		}{
			{"before any", noon.Add(-time.Nanosecond), []weather.Station{}},
			{"with the first file", noon, []weather.Station{first.Station}},
			{"just before the second", second.Received.Add(-time.Nanosecond), []weather.Station{first.Station}},
			{"with the second", second.Received, []weather.Station{second.Station}},
			{"now", time.Time{}, []weather.Station{second.Station}},
		} {
			same(t, c.name, c.want, stationsOf(t, s, c.known))
		}
	}},
}

var importCases = []suiteCase{
	{"the same file again changes nothing and says so", func(t *testing.T, s store.Store) {
		first := put(t, s, File(1, noon, Years("A", 2020, 3, 1)...))
		again := put(t, s, File(1, noon.AddDate(1, 0, 0), Years("A", 2020, 3, 1)...))
		same(t, "again", store.Imported{Unchanged: []int{2020, 2021, 2022}, Revision: first.Revision}, again)
		same(t, "imports", 1, len(importsOf(t, s, "A")))
	}},
	{"what an import brought is listed, oldest first", func(t *testing.T, s store.Store) {
		first, second := File(1, noon, Years("A", 2020, 3, 1)...), File(2, noon.Add(time.Hour), Block("A", 2020, 9), Block("A", 2021, 2))
		put(t, s, first)
		put(t, s, File(3, noon, Block("B", 2020, 1)))
		put(t, s, second)
		same(t, "imports", []store.ImportRecord{
			{Station: "A", Source: "file-1.dly", SHA256: first.SHA256, Received: noon, Added: 3, Report: []byte{0, 255, 1}},
			{Station: "A", Source: "file-2.dly", SHA256: second.SHA256, Received: noon.Add(time.Hour), Changed: 1, Unchanged: 1, Report: []byte{0, 255, 2}},
		}, importsOf(t, s, "A"))
		same(t, "imports of an unknown station", []store.ImportRecord{}, importsOf(t, s, "C"))
	}},
	{"another file that brings nothing new is still recorded", func(t *testing.T, s store.Store) {
		put(t, s, File(1, noon, Block("A", 2020, 1)))
		in := File(2, noon.Add(time.Hour), Block("A", 2020, 1))
		in.Report = nil
		put(t, s, in)
		same(t, "imports", 2, len(importsOf(t, s, "A")))
		same(t, "blocks known then", 1, len(weatherOf(t, s, "A", noon)))
	}},
	{"an import that cannot be is refused whole", func(t *testing.T, s store.Store) {
		for _, c := range []struct {
			says string
			edit func(*store.Import)
		}{
			{"the station has no id", func(in *store.Import) { in.Station.ID = "" }},
			{"not said where the weather came from", func(in *store.Import) { in.Source = "" }},
			{"is not 64 lower-case hexadecimal digits", func(in *store.Import) { in.SHA256 = in.SHA256[1:] }},
			{"is not 64 lower-case hexadecimal digits", func(in *store.Import) { in.SHA256 = "G" + in.SHA256[1:] }},
			{"there is no year of weather", func(in *store.Import) { in.Blocks = nil }},
			{"a block is of station B, the import of station A", func(in *store.Import) { in.Blocks[1].Station = "B" }},
			{"of the year 20250; accepted are 1700 to 9999", func(in *store.Import) { in.Blocks[1].Year = 20250 }},
			{"the block of 2021 has 364 days; it takes 365", func(in *store.Import) { in.Blocks[1].Days = in.Blocks[1].Days[1:] }},
			{"there are two blocks of 2020", func(in *store.Import) { in.Blocks[1] = in.Blocks[0] }},
			{"the time it was received is missing", func(in *store.Import) { in.Received = time.Time{} }},
			{"zero character", func(in *store.Import) { in.Station.Name = "a\x00" }},
			{"is not a number", func(in *store.Import) { in.Station.Latitude = math.NaN() }},
		} {
			in := File(1, noon, Years("A", 2020, 2, 1)...)
			c.edit(&in)
			_, err := s.PutWeather(context.Background(), in)
			refused(t, err, store.ErrRefused, c.says)
		}
		same(t, "weather", 0, len(weatherOf(t, s, "A", time.Time{})))
		same(t, "revision", int64(0), revision(t, s))
	}},
}
