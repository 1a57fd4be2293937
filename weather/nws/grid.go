package nws

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Grid is a cell's raw forecast: those of its layers that are used. A layer that was not sent has no
// pieces, and where a value is null there is none.
type Grid struct {
	Updated time.Time // when it was issued

	temperature, highest, lowest []piece // degrees C
	chance                       []piece // 0-1, of 0.254 mm or more in the period, which is 12 hours as a rule
	rain                         []piece // mm, total of the interval
}

// layer is a layer as sent.
type layer struct {
	UOM    string `json:"uom"`
	Values []struct {
		ValidTime string   `json:"validTime"`
		Value     *float64 `json:"value"`
	} `json:"values"`
}

// ParseGrid reads the answer to a forecastGridData address. Whatever of it had ended when it was issued
// is left out: offices send hours that are already past.
func ParseGrid(body []byte) (*Grid, error) {
	var in struct {
		Properties *struct {
			UpdateTime  string `json:"updateTime"`
			Temperature layer  `json:"temperature"`
			Highest     layer  `json:"maxTemperature"`
			Lowest      layer  `json:"minTemperature"`
			Chance      layer  `json:"probabilityOfPrecipitation"`
			Rain        layer  `json:"quantitativePrecipitation"`
		} `json:"properties"`
	}
	if err := json.Unmarshal(body, &in); err != nil {
		return nil, fmt.Errorf("grid: %w", err)
	}
	p := in.Properties
	if p == nil {
		return nil, errors.New("grid: there are no properties in it")
	}
	updated, err := time.Parse(time.RFC3339, p.UpdateTime)
	if err != nil || updated.Year() < 2000 || updated.Year() > 2200 {
		return nil, fmt.Errorf("grid: updateTime is %.60q: want a time such as 2026-06-10T09:12:00+00:00, of the years 2000 to 2200", p.UpdateTime)
	}
	g := &Grid{Updated: updated.UTC()}
	for _, l := range []struct {
		name      string
		in        layer
		unit      string
		low, high float64 // accepted
		scale     float64
		out       *[]piece
	}{
		{"temperature", p.Temperature, "degC", -90, 60, 1, &g.temperature},
		{"maxTemperature", p.Highest, "degC", -90, 60, 1, &g.highest},
		{"minTemperature", p.Lowest, "degC", -90, 60, 1, &g.lowest},
		{"probabilityOfPrecipitation", p.Chance, "percent", 0, 100, 0.01, &g.chance},
		{"quantitativePrecipitation", p.Rain, "mm", 0, 2000, 1, &g.rain},
	} {
		pieces, err := l.in.pieces(g.Updated, l.unit, l.low, l.high)
		if err != nil {
			return nil, fmt.Errorf("grid: %s%w", l.name, err)
		}
		for i := range pieces {
			pieces[i].value *= l.scale
		}
		*l.out = pieces
	}
	for i := 1; i < len(g.rain); i++ {
		if g.rain[i].start.Before(g.rain[i-1].end) {
			return nil, fmt.Errorf("grid: quantitativePrecipitation: the totals from %s and from %s overlap, so that rain would count twice",
				g.rain[i-1].start.Format(time.RFC3339), g.rain[i].start.Format(time.RFC3339))
		}
	}
	return g, nil
}

// pieces reads a layer's values, in order of their start. The unit is written with a prefix, which was
// unit: once and is wmoUnit: now; what follows the colon is the unit.
func (l layer) pieces(issued time.Time, unit string, low, high float64) (out []piece, err error) {
	for i, v := range l.Values {
		if v.Value == nil {
			continue
		}
		if u := l.UOM[strings.LastIndexByte(l.UOM, ':')+1:]; u != unit {
			return nil, fmt.Errorf(": its unit is %.60q; accepted is %s", l.UOM, unit)
		}
		refuse := func(format string, args ...any) ([]piece, error) {
			return nil, fmt.Errorf(" value %d: "+format, append([]any{i + 1}, args...)...)
		}
		start, end, err := parseInterval(v.ValidTime)
		switch {
		case err != nil:
			return refuse("%w", err)
		case *v.Value < low || *v.Value > high:
			return refuse("%g %s; accepted are %g to %g", *v.Value, unit, low, high)
		case !end.After(issued):
			continue
		case start.Before(issued.Add(-longest)) || end.After(issued.Add(longest)):
			return refuse("validTime %.60q is more than %d days from the issue, %s", v.ValidTime, longest/(24*time.Hour), issued.Format(time.RFC3339))
		}
		out = append(out, piece{start, end, *v.Value})
	}
	slices.SortStableFunc(out, func(a, b piece) int { return cmp.Or(a.start.Compare(b.start), a.end.Compare(b.end)) })
	return out, nil
}
