package ghcn

import (
	"bytes"
	"io"
	"math"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// reader is what both readers are.
type reader func(r io.Reader, name string, today unit.Day) ([]weather.Reading, error)

// Reading fifty years from memory: lines, blocks, quality control, checksum and report. The floor
// aimed at is 400 MB/s a core.
func BenchmarkFixedWidth(b *testing.B) {
	benchmark(b, FixedWidth, "USW00014839.dly")
}

func BenchmarkByStation(b *testing.B) {
	benchmark(b, ByStation, "USW00014839_2016_2020.csv")
}

func benchmark(b *testing.B, read reader, name string) {
	data := dataFile(b, name)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	best := time.Duration(math.MaxInt64)
	for b.Loop() {
		start := time.Now()
		if _, err := read(bytes.NewReader(data), name, today); err != nil {
			b.Fatal(err)
		}
		best = min(best, time.Since(start))
	}
	// The mean holds whatever else the machine did.
	b.ReportMetric(float64(len(data))/1e6/best.Seconds(), "best-MB/s")
}
