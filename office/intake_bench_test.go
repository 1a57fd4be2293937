package office_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"haywarden/book/store"
	"haywarden/office"
	"haywarden/weather"
	"haywarden/weather/csvdaily"
	"haywarden/weather/intake"
)

// stationFile writes forty years of an invented station in the fixed-width form of GHCN-Daily, with the
// cold, rain and snow of the Upper Midwest.
func stationFile(to *bytes.Buffer, station int) {
	const firstYear, years = 1986, 40
	r := rand.New(rand.NewPCG(uint64(station), 40))
	to.Reset()
	for year := firstYear; year < firstYear+years; year++ {
		for month := time.January; month <= time.December; month++ {
			var value [5][31]int
			days := weather.DaysInMonth(year, month)
			for d := range days {
				mean := 80 - 150*math.Cos(2*math.Pi*float64(weather.MonthStart(year, month)+d-20)/365) + 35*r.NormFloat64()
				half := 20 + 60*r.Float64()
				value[0][d], value[1][d] = int(mean+half), int(mean-half)
				if r.Float64() < 0.3 {
					value[2][d] = int(60 * r.ExpFloat64())
				}
				if mean < 0 {
					value[3][d], value[4][d] = value[2][d], int(50*r.ExpFloat64())
				}
			}
			for e, element := range weather.Elements() {
				fmt.Fprintf(to, "ZZT%08d%d%02d%s", station, year, month, element.Code())
				for d := range 31 {
					if d < days {
						fmt.Fprintf(to, "%5d  T", value[e][d])
					} else {
						to.WriteString("-9999   ")
					}
				}
				to.WriteByte('\n')
			}
		}
	}
}

// resident is the memory that this process holds, whoever asked for it: the database has memory that
// the collector does not know of.
func resident(tb testing.TB) float64 {
	if text, err := os.ReadFile("/proc/self/statm"); err == nil {
		var all, pages int
		if _, err := fmt.Sscan(string(text), &all, &pages); err != nil {
			tb.Fatal(err)
		}
		return float64(pages*os.Getpagesize()) / 1e6
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.Sys) / 1e6
}

// BenchmarkImportOf100StationsOver40Years brings a hundred files into a new book end to end: read,
// checked, summed, stored, each in a change of its own that outlives a power failure. It should take no
// more than 2 s and 100 MB.
func BenchmarkImportOf100StationsOver40Years(b *testing.B) {
	const stations, mostTime, mostMB = 100, 2 * time.Second, 100
	now := func() time.Time { return time.Date(2026, time.May, 1, 6, 0, 0, 0, time.UTC) }
	var file bytes.Buffer
	best, peak, size := time.Duration(math.MaxInt64), 0., 0
	for b.Loop() {
		b.StopTimer()
		db, err := store.Create(b.Context(), filepath.Join(b.TempDir(), "bench.book"), store.Options{Now: now})
		if err != nil {
			b.Fatal(err)
		}
		o := office.New(db, now, rand.NewChaCha8([32]byte{1}))
		var took time.Duration
		size = 0
		for s := range stations {
			stationFile(&file, s)
			size += file.Len()
			b.StartTimer()
			start := time.Now()
			got, err := o.ImportWeather(b.Context(), ida, bytes.NewReader(file.Bytes()), fmt.Sprintf("station %d.dly", s), intake.Options{Units: csvdaily.Unstated})
			took += time.Since(start)
			b.StopTimer()
			if err != nil || len(got) != 1 || len(got[0].Years.Added) != 40 {
				b.Fatal(len(got), err)
			}
			peak = max(peak, resident(b))
		}
		best = min(best, took)
		if err := db.Close(); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	b.SetBytes(int64(size))
	b.ReportMetric(best.Seconds(), "best-s")
	b.ReportMetric(peak, "peak-MB")
	if best > mostTime || peak > mostMB {
		b.Errorf("best of %d: %v, with up to %.0f MB in memory; want at most %v and %d MB", b.N, best, peak, mostTime, mostMB)
	}
}
