package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// Held tells how well what was said beforehand was borne out.
type Held struct {
	Stations []StationHeld   `json:"stations"`
	Found    []outlook.Found `json:"-"` // stands looked at again this year, oldest first
	Stands   StandsHeld      `json:"stands"`
	LeftOut  []LeftOutOn     `json:"sentinels_left_out"` // by week of first growth
	Labs     []LabHeld       `json:"laboratory"`         // by farm and cutting
	Shared   string          `json:"stick_and_heat"`     // how far their errors go together, and whence that is known
}

// LabHeld is how the stick was borne out by a laboratory on a farm's cutting, in NDF, % of dry matter.
type LabHeld struct {
	Farm     string  `json:"farm"`
	Cutting  int     `json:"cutting"`
	Samples  int     `json:"samples"`
	Mean     float64 `json:"mean"`       // of laboratory less stick
	Bias     float64 `json:"correction"` // what later readings are corrected by
	SD       float64 `json:"sd"`
	SetAside int     `json:"set_aside"` // too far off to be averaged in
}

// LeftOutOn is how well read stands were judged from each other on a morning: the error of what is said of
// stands that nobody read.
type LeftOutOn struct {
	Day unit.Day `json:"day"`
	outlook.Pooling
}

// StationHeld is how well windows of heat and forecasts held at a station.
type StationHeld struct {
	ID        string              `json:"id"`
	Name      string              `json:"name"`
	Heat      []HeatHeld          `json:"heat"`
	Forecasts []outlook.LeadScore `json:"forecasts"`
}

// HeatHeld is how well the windows of one event held that are given on one day of the year.
type HeatHeld struct {
	Event string   `json:"event"`
	Given unit.Day `json:"given"` // in the year asked about
	outlook.Held
}

// StandsHeld counts this year's stands that were looked at again.
type StandsHeld struct {
	Looked int     `json:"looked"`
	Inside int     `json:"inside"` // between the 10 and 90 % expected
	Low    float64 `json:"low"`    // 95 % interval of the share
	High   float64 `json:"high"`
	Bias   float64 `json:"bias"` // mean of found less expected, RFV
}

// Held holds what the program says beforehand against what came: windows of heat at every station that
// fields use, in each year that has enough years before it; forecasts that were kept; and this year's
// stands that were read again, or sampled standing, while a growth stood.
func (o *Office) Held(ctx context.Context, actor Actor, ask Ask) (*Held, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	ask = o.settle(ask)
	now, err := o.outlook(ctx, ask)
	if err != nil {
		return nil, fmt.Errorf("look at what was said beforehand: %w", err)
	}
	h := &Held{Stations: []StationHeld{}, Labs: []LabHeld{}, Shared: now.Shared.String()}
	for _, c := range now.Reconciled.Corrections {
		farm := c.Farm
		for _, f := range now.View.Farms {
			if f.ID == c.Farm {
				farm = f.Name
			}
		}
		h.Labs = append(h.Labs, LabHeld{farm, c.Cutting, c.N, c.Mean, c.Bias, c.SD, len(c.SetAside)})
	}
	slices.SortStableFunc(h.Labs, func(a, b LabHeld) int { return cmp.Or(cmp.Compare(a.Farm, b.Farm), cmp.Compare(a.Cutting, b.Cutting)) })
	if err := o.stationsHeld(ctx, now.View, ask, h); err != nil {
		return nil, err
	}
	if err := o.leftOut(ctx, ask, h); err != nil {
		return nil, err
	}
	return h, o.standsHeld(ctx, now, ask, h)
}

// leftOut leaves each sentinel out in turn, week by week through the first growth of the year.
func (o *Office) leftOut(ctx context.Context, ask Ask, h *Held) error {
	h.LeftOut = []LeftOutOn{}
	last := min(ask.Date, unit.DateOf(ask.Date.Year(), time.June, 30))
	for d := unit.DateOf(ask.Date.Year(), time.May, 1); d <= last; d += 7 {
		out, err := o.outlook(ctx, Ask{Date: d, Known: ask.Known})
		if err != nil {
			return err
		}
		if p := outlook.Pool(out.LeaveOut()); p.Stands > 0 {
			h.LeftOut = append(h.LeftOut, LeftOutOn{d, p})
		}
	}
	return nil
}

func (o *Office) stationsHeld(ctx context.Context, view *book.View, ask Ask, h *Held) error {
	stations, err := o.store.Stations(ctx, ask.Known)
	if err != nil {
		return err
	}
	m := &skyMaker{office: o, view: view, ask: ask, stations: stations, series: map[string]*weather.Series{}}
	var used []string
	for _, s := range view.Stands() {
		for _, id := range s.InField.WeatherStations() {
			if !slices.Contains(used, id) {
				used = append(used, id)
			}
		}
	}
	slices.Sort(used)
	for _, id := range used {
		s, err := m.record(ctx, id)
		if err != nil {
			return err
		}
		if s == nil {
			continue
		}
		own := StationHeld{ID: id, Name: s.Station.Name, Heat: []HeatHeld{}, Forecasts: []outlook.LeadScore{}}
		for _, e := range triedEvents(ask.Date.Year()) {
			if held := outlook.HeatWindows(s.Until(ask.Date-1), e); held.Given > 0 {
				own.Heat = append(own.Heat, HeatHeld{Event: e.Name, Given: e.Given, Held: held})
			}
		}
		if s.Station.Latitude != 0 || s.Station.Longitude != 0 {
			kept, err := o.store.Forecasts(ctx, nws.PlaceOf(s.Station.Latitude, s.Station.Longitude), ask.Known)
			if err != nil {
				return err
			}
			own.Forecasts = append(own.Forecasts, outlook.BorneOut(kept, s, ask.Date-1)...)
		}
		h.Stations = append(h.Stations, own)
	}
	return nil
}

// triedEvents are the events by which windows of heat are tried: those that the year's first decisions
// wait for, given a month or two before and shortly before.
func triedEvents(year int) []outlook.HeatEvent {
	var out []outlook.HeatEvent
	for _, given := range []unit.Day{unit.DateOf(year, time.April, 1), unit.DateOf(year, time.May, 1), unit.DateOf(year, time.May, 15)} {
		out = append(out, outlook.HeatEvent{Name: "700 F-days above 41 °F since 1 March: alfalfa bud", Spec: heat.FirstCut(), From: time.March, Target: budHeat, Given: given})
	}
	for _, given := range []unit.Day{unit.DateOf(year, time.April, 1), unit.DateOf(year, time.April, 20)} {
		out = append(out, outlook.HeatEvent{Name: "300 F-days above 48 °F since 1 January: weevil scouting", Spec: heat.Weevil(), From: time.January, Target: weevilHeat, Given: given})
	}
	return out
}

// looked is one look at a stand and the next look at the same growth.
type looked struct {
	stand string
	given unit.Day // the morning after the first look
	on    unit.Day
	how   string
	rfv   float64 // of a sample; a stick reading is worked out when it is looked up
}

func (o *Office) standsHeld(ctx context.Context, now *outlook.Outlook, ask Ask, h *Held) error {
	var all []looked
	for _, s := range now.View.Stands() {
		all = append(all, looksAgain(s, ask.Date)...)
	}
	slices.SortStableFunc(all, func(a, b looked) int { return int(a.given - b.given) })
	days := map[unit.Day]*outlook.Outlook{ask.Date: now}
	at := func(d unit.Day, id string) (*outlook.Stand, error) {
		out := days[d]
		if out == nil {
			var err error
			if out, err = o.outlook(ctx, Ask{Date: d, Known: ask.Known}); err != nil {
				return nil, err
			}
			days[d] = out
		}
		i := slices.IndexFunc(out.Stands, func(s *outlook.Stand) bool { return s.ID == id })
		if i < 0 {
			return nil, nil
		}
		return out.Stands[i], nil
	}
	for _, l := range all {
		then, err := at(l.given, l.stand)
		if err != nil {
			return err
		}
		if then == nil {
			continue
		}
		expected, ok := then.Expect(l.on)
		if !ok {
			continue
		}
		if l.how == "stick" {
			after, err := at(l.on+1, l.stand)
			if err != nil {
				return err
			}
			if after == nil {
				continue
			}
			r, ok := after.LastReading()
			if !ok || r.Day != l.on {
				continue // set aside as doubtful, or of another growth
			}
			l.rfv = r.Field.RFV
		}
		h.Found = append(h.Found, outlook.Found{Stand: then, Given: l.given, On: l.on, How: l.how, RFV: l.rfv, Expected: expected})
	}
	h.Stands.Looked = len(h.Found)
	for _, f := range h.Found {
		if f.Inside() {
			h.Stands.Inside++
		}
		h.Stands.Bias += (f.RFV - f.Expected.Middle) / float64(len(h.Found))
	}
	h.Stands.Low, h.Stands.High = climate.Wilson(h.Stands.Inside, h.Stands.Looked)
	return nil
}

// looksAgain pairs each reading of a stand this year with the next look within three weeks.
func looksAgain(s *book.StandView, date unit.Day) []looked {
	const soon = 21 // days after which a look back tells little of what had been said (choice)
	var readings []unit.Day
	for _, v := range s.Visits {
		if len(v.Body.Spots) > 0 && v.Day.Year() == date.Year() && v.Day < date && !slices.Contains(readings, v.Day) {
			readings = append(readings, v.Day)
		}
	}
	cutBetween := func(from, to unit.Day) bool {
		return slices.ContainsFunc(s.Cuts, func(c book.Dated[book.Cut]) bool { return c.Day >= from && c.Day < to })
	}
	var out []looked
	for i := 1; i < len(readings); i++ {
		if a, b := readings[i-1], readings[i]; b-a > 1 && b-a <= soon && !cutBetween(a, b) {
			out = append(out, looked{stand: s.ID, given: a + 1, on: b, how: "stick"})
		}
	}
	k := forage.PublishedFeedValue()
	for _, l := range s.Labs {
		i, _ := slices.BinarySearch(readings, l.Day)
		if l.Body.Sample != "standing" || i == 0 || l.Day >= date {
			continue
		}
		if a := readings[i-1]; l.Day-a > 0 && l.Day-a <= soon && !cutBetween(a, l.Day) {
			out = append(out, looked{stand: s.ID, given: a + 1, on: l.Day, how: "lab", rfv: k.Of(l.Body.ADF, l.Body.NDF)})
		}
	}
	return out
}
