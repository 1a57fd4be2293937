package outlook

import (
	"math"
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Held is how well windows held that were given for an event: of how many the event fell between the
// 10 and the 90 % day, and how far the whole distribution lay from what came.
type Held struct {
	Given     int     `json:"windows"`
	Inside    int     `json:"inside"`
	Early     int     `json:"before"` // events before the window
	Late      int     `json:"after"`
	Low       float64 `json:"low"` // 95 % interval of the share inside, by Wilson
	High      float64 `json:"high"`
	Width     float64 `json:"days_wide"`       // mean of the windows
	CRPS      float64 `json:"crps_days"`       // mean
	PlainCRPS float64 `json:"plain_crps_days"` // of the past years' own days, nothing of this season known
}

// Share is the part of windows that held.
func (h Held) Share() float64 { return float64(h.Inside) / float64(h.Given) }

// Promised is the part of 10 to 90 % windows that should hold.
const Promised = 0.8

// Agrees reports whether the promised share lies within what was found.
func (h Held) Agrees() bool { return h.Low <= Promised && Promised <= h.High }

// held gathers scores.
type held struct {
	Held
	plain int // windows with a plain score beside
}

func (h *held) add(days Days, came float64) {
	w, ok := days.Window()
	if !ok {
		return
	}
	h.Given++
	h.Width += float64(w.Late - w.Early)
	switch {
	case came < float64(w.Early):
		h.Early++
	case came > float64(w.Late):
		h.Late++
	default:
		h.Inside++
	}
	h.CRPS += crps(days, came)
}

func (h *held) scores() Held {
	n := float64(max(1, h.Given))
	h.Width, h.CRPS = h.Width/n, h.CRPS/n
	h.PlainCRPS /= float64(max(1, h.plain))
	h.Low, h.High = climate.Wilson(h.Inside, h.Given)
	return h.Held
}

// crps scores a distribution of days. A path on which the event does not come in time is taken to bring it
// on the year's last day, which is where the paths end.
func crps(days Days, came float64) float64 {
	values, weights := make([]float64, len(days.at)), make([]float64, len(days.at))
	last := float64(unit.DateOf(unit.Day(came).Year(), time.December, 31))
	for i, c := range days.at {
		values[i], weights[i] = min(last, c.day), c.weight
	}
	return climate.CRPS(values, weights, came)
}

// HeatEvent is a heat sum reached, by which windows are tried.
type HeatEvent struct {
	Name   string
	Spec   heat.Spec
	From   time.Month // its first day is where the sum begins
	Target float64    // F-days
	Given  unit.Day   // when in the year the window is given; the year does not count
}

// leastBehind is how many past years a tried year must have before it (choice).
const leastBehind = 15

// HeatWindows tries the windows of a heat sum on a station's past: each year that has enough years before
// it is given the window that the program would have given then, from the years before it alone and the
// season to that day, without a forecast, and is held against the day that came.
func HeatWindows(series *weather.Series, e HeatEvent) Held {
	var h held
	first, last := series.Years()
	days := map[int]float64{} // the day of the year on which each year came to the target
	for y := first; y <= last; y++ {
		if d, ok := cameOn(series, e, y); ok {
			days[y] = float64(d)
		}
	}
	for y := first + leastBehind; y <= last; y++ {
		came, known := days[y]
		date := e.Given.InYear(y)
		if !known || came <= float64(date) {
			continue
		}
		past := series.Until(date - 1)
		sky := &Sky{Station: series.Station, Date: date, own: past, series: past}
		sky.learnUsual()
		sky.gatherMembers(nil)
		if len(sky.Members) < leastBehind || sky.Made {
			continue
		}
		h.add(sky.Reaches(sky.HeatSince(unit.DateOf(y, e.From, 1), e.Spec), e.Target), came)
		var values []float64
		for q := first; q < y; q++ {
			if d, ok := days[q]; ok {
				values = append(values, d-float64(unit.DateOf(q, 1, 1))+float64(unit.DateOf(y, 1, 1)))
			}
		}
		if len(values) > 0 {
			h.PlainCRPS += climate.CRPS(values, nil, came)
			h.plain++
		}
	}
	return h.scores()
}

// cameOn is the morning on which a year's heat had come to the target; not ok where a day is missing
// before it or it did not come.
func cameOn(s *weather.Series, e HeatEvent, year int) (unit.Day, bool) {
	total := 0.
	for d := unit.DateOf(year, e.From, 1); d.Year() == year; d++ {
		i, ok := s.Index(d)
		if !ok || !s.HasTemperature(d) {
			return 0, false
		}
		if total += e.Spec.Day(s.TMinF[i], s.TMaxF[i]); total >= e.Target {
			return d + 1, true
		}
	}
	return 0, false
}

// LeadScore is how well the kept forecasts of one lead, in days, were borne out at a station.
type LeadScore struct {
	Lead       int     `json:"lead_days"`
	Days       int     `json:"days"`         // with both a forecast and a report of temperature
	HighErr    float64 `json:"high_error_f"` // mean absolute error, F
	LowErr     float64 `json:"low_error_f"`
	HighBias   float64 `json:"high_bias_f"` // mean of forecast less observed, F
	LowBias    float64 `json:"low_bias_f"`
	RainDays   int     `json:"rain_days"`
	Brier      float64 `json:"brier"`       // mean square of the rain chance's error, 0 to 1
	UsualBrier float64 `json:"usual_brier"` // the same for the share of wet days of all those days
}

// BorneOut compares forecasts with what a station then reported, by lead: 1 is the day after the issue.
func BorneOut(forecasts []weather.Forecast, s *weather.Series, through unit.Day) []LeadScore {
	var out []LeadScore
	wet := map[int][]float64{}
	at := func(lead int) *LeadScore {
		for len(out) < lead {
			out = append(out, LeadScore{Lead: len(out) + 1})
		}
		return &out[lead-1]
	}
	for _, f := range forecasts {
		issued := unit.DayOf(f.Issued)
		for _, d := range f.Days {
			i, ok := s.Index(d.Day)
			lead := int(d.Day - issued)
			if !ok || d.Day > through || lead < 1 {
				continue
			}
			l := at(lead)
			if d.TMaxC != nil && d.TMinC != nil && s.HasTemperature(d.Day) {
				high, low := (*d.TMaxC-s.TMaxC[i])*1.8, (*d.TMinC-s.TMinC[i])*1.8
				l.Days++
				l.HighErr += math.Abs(high)
				l.LowErr += math.Abs(low)
				l.HighBias += high
				l.LowBias += low
			}
			if d.PoP != nil && !math.IsNaN(s.RainMM[i]) {
				came := 0.
				if s.RainMM[i] >= weather.DryBelowMM {
					came = 1
				}
				l.RainDays++
				l.Brier += (*d.PoP - came) * (*d.PoP - came)
				wet[lead] = append(wet[lead], came)
			}
		}
	}
	for i := range out {
		l := &out[i]
		n, r := float64(max(1, l.Days)), float64(max(1, l.RainDays))
		l.HighErr, l.LowErr, l.HighBias, l.LowBias, l.Brier = l.HighErr/n, l.LowErr/n, l.HighBias/n, l.LowBias/n, l.Brier/r
		var share float64
		for _, c := range wet[l.Lead] {
			share += c / r
		}
		l.UsualBrier = share * (1 - share)
	}
	return out
}

// Expected is what was expected of a stand on a day to come.
type Expected struct {
	Middle    float64 // standing RFV
	Low, High float64 // 10 and 90 %
}

// Expect says what standing RFV is expected on a later day; not ok where nothing is.
func (s *Stand) Expect(on unit.Day) (Expected, bool) {
	a := s.Ahead()
	if a == nil || on < s.Date {
		return Expected{}, false
	}
	q, ok := a.Band(int(on - s.Date))
	return Expected{Low: q[0], Middle: q[2], High: q[4]}, ok
}

// Found is what a stand was later found to be, beside what had been expected.
type Found struct {
	Stand     *Stand // as it was looked at when the window was given
	Given, On unit.Day
	How       string // stick or lab
	RFV       float64
	Expected  Expected
}

// Inside reports whether it fell between the 10 and the 90 %.
func (f Found) Inside() bool { return f.Expected.Low <= f.RFV && f.RFV <= f.Expected.High }
