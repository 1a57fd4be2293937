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

// FreezeLine is one freeze of the year at one threshold. Mean and deviation are of the years that had
// one, and absent where there are too few; the percentiles count the years without one too.
type FreezeLine struct {
	Name       string       `json:"name"`
	ThresholdF float64      `json:"threshold_f"`
	Years      int          `json:"years"` // that are whole enough to tell
	Mean       *float64     `json:"mean_doy,omitempty"`
	SD         *float64     `json:"sd,omitempty"`
	P10        string       `json:"p10"`
	P50        string       `json:"p50"`
	P90        string       `json:"p90"`
	Days       []FreezeYear `json:"days"` // the freezes themselves, oldest first
}

// FreezeYear is one year's freeze.
type FreezeYear struct {
	Year int `json:"year"`
	DOY  int `json:"doy"`
}

// HeatYear is one year's heat by common clocks. A missing day adds nothing to a sum, and the day on which
// a clock stands at a number is told only where none is missing since the clock began.
type HeatYear struct {
	Year       int      `json:"year"`
	Average41F float64  `json:"average_41f"`                 // F-days, daily mean
	Sine48F    float64  `json:"sine_48f"`                    // F-days, single sine
	Sine5C     float64  `json:"sine_5c"`                     // C-days, single sine, from tenths C
	Bud        unit.Day `json:"average_41f_at_700,omitzero"` // first growth's clock, counted from 1 March, stands at 700
	Weevil     unit.Day `json:"sine_48f_at_300,omitzero"`    // the weevil's clock, counted from 1 January, stands at 300
	Missing    int      `json:"missing_days"`
	Through    unit.Day `json:"through,omitzero"` // the last day used, where the year is not over
}

// The stands of two clocks whose dates are told for each year: bud of alfalfa, as the advice on first
// growth takes it (choice), and the start of scouting for weevil. [source.WeevilScouting]
const (
	budHeat    = 700
	weevilHeat = 300
)

// Summarise reckons freeze dates and heat sums over years; zero years stand for all.
func Summarise(s *weather.Series, from, to int) (StationSummary, error) {
	first, last := s.Years()
	if first == 0 {
		return StationSummary{}, fmt.Errorf("station %s has no day of weather by the date asked for", s.Station.ID)
	}
	if from == 0 {
		from = first
	}
	if to == 0 {
		to = last
	}
	if from > to || from > last || to < first {
		return StationSummary{}, fmt.Errorf("years %d to %d: station %s has %d to %d", from, to, s.Station.ID, first, last)
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
	return sum, nil
}

func freezeLine(name string, threshold float64, events []weather.YearEvent, spring bool) FreezeLine {
	line := FreezeLine{Name: name, ThresholdF: threshold, Days: []FreezeYear{}}
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
		line.Days = append(line.Days, FreezeYear{e.Year, e.DOY})
		x = append(x, d)
		n++
		total += d
		sq += d * d
	}
	if n > 0 {
		mean := total / n
		line.Mean = &mean
	}
	if n > 1 {
		sd := math.Sqrt(max(0, (sq-total*total/n)/(n-1)))
		line.SD = &sd
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
	month, day := heat.FirstGrowth()
	growth := unit.DateOf(y, month, day)
	grown, whole48, whole41 := 0., true, true
	for d := unit.DateOf(y, time.January, 1); d.Year() == y; d++ {
		i, ok := s.Index(d)
		if !ok {
			h.Through = s.Last()
			break
		}
		if !s.HasTemperature(d) {
			h.Missing++
			whole48, whole41 = false, whole41 && d < growth
			continue
		}
		today := a41.Day(s.TMinF[i], s.TMaxF[i])
		h.Average41F += today
		h.Sine48F += s48.Day(s.TMinF[i], s.TMaxF[i])
		h.Sine5C += s5.Day(s.TMinC[i], s.TMaxC[i])
		if d >= growth {
			grown += today
		}
		if h.Bud == 0 && whole41 && grown >= budHeat {
			h.Bud = d
		}
		if h.Weevil == 0 && whole48 && h.Sine48F >= weevilHeat {
			h.Weevil = d
		}
	}
	return h
}

// Delivery is a station-year as received.
type Delivery struct {
	Block    *weather.Block
	Received time.Time
}
