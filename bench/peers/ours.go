package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/ghcn"
)

const us = "Haywarden"

// ours times our kernels and our readers. The readers check every value, seal the file and account for
// it as well, which the peers do not.
func ours(b *base, dir string) ([]timing, error) {
	var h heats
	var t taken
	var failed error
	var got []float64
	read := func(name string) func() {
		return func() { got, failed = readStation(filepath.Join(dir, name)) }
	}
	times := []timing{
		{"A", us, best(5, func() { h.count(b) }), h.sums()},
		{"B", us, best(5, func() { t = drink(b) }), nil},
		{"dly", us, best(20, read("station.dly")), nil},
	}
	times[1].sums, times[2].sums = t.sums(), got
	if failed != nil {
		return nil, failed
	}
	times = append(times, timing{"csv", us, best(20, read("station.csv")), nil})
	times[3].sums = got
	grown := newSeasonBase(b)
	var sums []float64
	took := best(5, func() { sums = grown.grow() })
	return append(times, timing{"S", us, took, sums}), failed
}

// best is the shortest of several runs, in seconds.
func best(runs int, f func()) float64 {
	least := math.Inf(1)
	for range runs {
		start := time.Now()
		f()
		least = min(least, time.Since(start).Seconds())
	}
	return least
}

// readStation reads a file from the disk and returns how many values of three elements it holds, and
// their sums.
func readStation(path string) ([]float64, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // it was only read
	read := ghcn.FixedWidth
	if filepath.Ext(path) == ".csv" {
		read = ghcn.ByStation
	}
	stations, err := read(f, filepath.Base(path), unit.DateOf(lastYear, time.December, 31))
	if err != nil {
		return nil, err
	}
	if len(stations) != 1 {
		return nil, fmt.Errorf("%s: %d stations, want 1", path, len(stations))
	}
	var out []float64
	for _, e := range []weather.Element{weather.TMax, weather.TMin, weather.Rain} {
		n, sum := 0, 0
		for _, b := range stations[0].Blocks {
			for i := range b.Days {
				if v := b.Days[i].Value[e]; v != weather.Missing {
					n, sum = n+1, sum+int(v)
				}
			}
		}
		out = append(out, float64(n), float64(sum))
	}
	return out, nil
}
