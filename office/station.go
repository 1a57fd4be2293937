package office

import (
	"fmt"
	"math"
	"time"

	"haywarden/agronomy/frost"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// StationSummary is what a station's years say.
type StationSummary struct {
	ID        string       `json:"id"`
	Name      string       `json:"name"`
	FirstYear int          `json:"first_year"`
	LastYear  int          `json:"last_year"`
	Freezes   []FreezeLine `json:"freezes"`
	Heat      []HeatYear   `json:"heat"`
}

// FreezeLine is one freeze of the year at one threshold.
type FreezeLine struct {
	Name       string  `json:"name"`
	ThresholdF float64 `json:"threshold_f"`
	Years      int     `json:"years"`
	Mean       float64 `json:"mean_doy"`
	SD         float64 `json:"sd"`
	P10        string  `json:"p10"`
	P50        string  `json:"p50"`
	P90        string  `json:"p90"`
}

// HeatYear is one year's heat by three common clocks.
type HeatYear struct {
	Year       int     `json:"year"`
	Average41F float64 `json:"average_41f"` // F-days, daily mean
	Sine48F    float64 `json:"sine_48f"`    // F-days, single sine
	Sine5C     float64 `json:"sine_5c"`     // C-days, single sine, from tenths C
	Missing    int     `json:"missing_days"`
}

// Summarise reckons freeze dates and heat sums over years; zero years stand for all.
func Summarise(s *weather.Series, from, to int) StationSummary {
	first, last := s.Years()
	if from == 0 {
		from = first
	}
	if to == 0 {
		to = last
	}
	from, to = max(from, first), min(to, last)
	sum := StationSummary{ID: s.Station.ID, Name: s.Station.Name, FirstYear: from, LastYear: to}
	var years []int
	for y := from; y <= to; y++ {
		years = append(years, y)
		sum.Heat = append(sum.Heat, heatYear(s, y))
	}
	for _, f := range []float64{32, 28, 24} {
		sum.Freezes = append(sum.Freezes, freezeLine(fmt.Sprintf("last spring %g °F", f), f, s.LastSpring(f, years...), true))
	}
	for _, f := range []float64{32, 28, 24} {
		sum.Freezes = append(sum.Freezes, freezeLine(fmt.Sprintf("first fall %g °F", f), f, s.FirstFall(f, years...), false))
	}
	return sum
}

func freezeLine(name string, threshold float64, events []weather.YearEvent, spring bool) FreezeLine {
	line := FreezeLine{Name: name, ThresholdF: threshold}
	var x []float64
	var n, total, sq float64
	for _, e := range events {
		if !e.Valid {
			continue
		}
		line.Years++
		if !e.Found {
			x = append(x, math.Inf(1))
			continue
		}
		d := float64(e.DOY)
		x = append(x, d)
		n++
		total += d
		sq += d * d
	}
	if n > 1 {
		line.Mean = total / n
		line.SD = math.Sqrt(max(0, (sq-total*total/n)/(n-1)))
	}
	quantile := frost.Quantile
	if spring {
		quantile = frost.QuantileLater
	}
	for p, to := range map[float64]*string{0.1: &line.P10, 0.5: &line.P50, 0.9: &line.P90} {
		*to = "none"
		if d, ok := quantile(x, p, frost.Weibull); ok {
			*to = fmt.Sprintf("%.1f", d)
		}
	}
	return line
}

func heatYear(s *weather.Series, y int) HeatYear {
	h := HeatYear{Year: y}
	a41, s48 := heat.FirstCut(), heat.Weevil()
	s5 := heat.Spec{Method: heat.Sine, Base: 5, Upper: heat.NoUpper()}
	for d := unit.DateOf(y, time.January, 1); d.Year() == y; d++ {
		i, ok := s.Index(d)
		if !ok || !s.HasTemperature(d) {
			h.Missing++
			continue
		}
		h.Average41F += a41.Day(s.TMinF[i], s.TMaxF[i])
		h.Sine48F += s48.Day(s.TMinF[i], s.TMaxF[i])
		h.Sine5C += s5.Day(s.TMinC[i], s.TMaxC[i])
	}
	return h
}

// Delivery is a station-year as received.
type Delivery struct {
	Block    *weather.Block
	Received time.Time
}
