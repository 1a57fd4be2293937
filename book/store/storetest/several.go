package storetest

import (
	"context"
	"sync"
	"testing"
	"time"

	"haywarden/book/store"
	"haywarden/weather"
)

// partial makes an import of one year of which a file told only some days.
func partial(n int, received time.Time, station string, from, days int) store.Import {
	b := weather.NewBlock(station, 2025)
	copy(b.Days[from:from+days], Block(station, 2025, n).Days[from:])
	in := File(n, received, b)
	in.Partial = true
	return in
}

var severalCases = []suiteCase{
	{"a file of several stations is one change", func(t *testing.T, s store.Store) {
		a, b := File(1, noon, Years("A", 2020, 2, 1)...), File(1, noon, Years("B", 2021, 3, 5)...)
		out := putAll(t, s, a, b)
		same(t, "imported", []store.Imported{{Added: []int{2020, 2021}, Revision: 1}, {Added: []int{2021, 2022, 2023}, Revision: 1}}, out)
		same(t, "A", a.Blocks, weatherOf(t, s, "A", time.Time{}))
		same(t, "B", b.Blocks, weatherOf(t, s, "B", time.Time{}))
		again := putAll(t, s, a, b)
		same(t, "again", []store.Imported{{Unchanged: []int{2020, 2021}, Revision: 1}, {Unchanged: []int{2021, 2022, 2023}, Revision: 1}}, again)
		b.SHA256, b.Blocks = File(2, noon, Block("B", 2021, 9)).SHA256, []*weather.Block{Block("B", 2021, 9)}
		mixed := putAll(t, s, a, b)
		same(t, "one changed, one not", []store.Imported{{Unchanged: []int{2020, 2021}, Revision: 2}, {Changed: []int{2021}, Revision: 2}}, mixed)
		same(t, "nothing at all", 0, len(putAll(t, s)))
	}},
	{"one station that cannot be keeps all others of the file out", func(t *testing.T, s store.Store) {
		good := File(1, noon, Block("A", 2020, 1))
		for says, edit := range map[string]func(*store.Import){
			"the station has no id":                        func(in *store.Import) { in.Station.ID = "" },
			"there are two blocks of 2020":                 func(in *store.Import) { in.Blocks = append(in.Blocks, in.Blocks[0]) },
			"station A comes twice":                        func(in *store.Import) { *in = good },
			"the time it was received is missing":          func(in *store.Import) { in.Received = time.Time{} },
			"a block is of station C, the import of stati": func(in *store.Import) { in.Blocks[0].Station = "C" },
		} {
			bad := File(1, noon, Block("B", 2020, 1))
			edit(&bad)
			_, err := s.PutWeathers(context.Background(), []store.Import{good, bad})
			refused(t, err, store.ErrRefused, says)
		}
		same(t, "stations", []weather.Station{}, stationsOf(t, s, time.Time{}))
		same(t, "revision", int64(0), revision(t, s))
	}},
	{"what a partial year is silent on stays as stored", func(t *testing.T, s store.Store) {
		put(t, s, partial(1, noon, "A", 0, 100))
		out := put(t, s, partial(2, noon.Add(time.Hour), "A", 90, 60))
		same(t, "imported", store.Imported{Changed: []int{2025}, Revision: 2}, out)
		want := Block("A", 2025, 2)
		copy(want.Days[:90], Block("A", 2025, 1).Days)
		copy(want.Days[150:], weather.NewBlock("A", 2025).Days[150:])
		same(t, "year", []*weather.Block{want}, weatherOf(t, s, "A", time.Time{}))
		same(t, "again", []int{2025}, put(t, s, partial(2, noon.Add(2*time.Hour), "A", 90, 60)).Unchanged)
		put(t, s, File(3, noon.Add(3*time.Hour), weather.NewBlock("A", 2025)))
		same(t, "a whole year replaces", []*weather.Block{weather.NewBlock("A", 2025)}, weatherOf(t, s, "A", time.Time{}))
	}},
	{"a partial file that knows neither name nor place takes neither away", func(t *testing.T, s store.Store) {
		put(t, s, partial(1, noon, "A", 0, 10))
		bare := partial(2, noon, "A", 0, 20)
		bare.Station = weather.Station{ID: "A", WholeF: true}
		put(t, s, bare)
		same(t, "stations", []weather.Station{File(1, noon, Block("A", 2025, 1)).Station}, stationsOf(t, s, time.Time{}))
	}},
	{"parts of one year that come at once are all kept", func(t *testing.T, s store.Store) {
		const hands = 8
		var group sync.WaitGroup
		errs := make([]error, hands)
		for h := range hands {
			group.Go(func() {
				_, errs[h] = s.PutWeathers(context.Background(), []store.Import{partial(h, noon, "A", 40*h, 40)})
			})
		}
		group.Wait()
		want := weather.NewBlock("A", 2025)
		for h := range hands {
			if errs[h] != nil {
				t.Fatal(errs[h])
			}
			copy(want.Days[40*h:40*h+40], Block("A", 2025, h).Days[40*h:])
		}
		same(t, "year", []*weather.Block{want}, weatherOf(t, s, "A", time.Time{}))
	}},
}

func putAll(t *testing.T, s store.Store, ins ...store.Import) []store.Imported {
	t.Helper()
	out, err := s.PutWeathers(context.Background(), ins)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func stationsOf(t *testing.T, s store.Store, known time.Time) []weather.Station {
	t.Helper()
	stations, err := s.Stations(context.Background(), known)
	if err != nil {
		t.Fatal(err)
	}
	return stations
}
