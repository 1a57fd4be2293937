package office

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/book/store"
	"haywarden/weather"
	"haywarden/weather/nws"
)

// StationPage is what one station's record says on a morning: how whole it is and what was done to it,
// how the season goes against its past years, its chances, and the days ahead. Nothing observed on the
// date itself or later is in it.
type StationPage struct {
	ID        string          `json:"id"`
	Name      string          `json:"name"`
	Latitude  float64         `json:"latitude"`
	Longitude float64         `json:"longitude"`
	Elevation float64         `json:"elevation_m"`
	Region    string          `json:"region,omitempty"`
	Date      unit.Day        `json:"date"`
	FirstYear int             `json:"first_year"`
	LastYear  int             `json:"last_year"`
	Through   unit.Day        `json:"through,omitzero"` // last day with both temperatures
	Fields    []string        `json:"fields"`           // that take their weather from here
	Complete  []YearShare     `json:"complete"`
	Failed    []FailedCheck   `json:"failed"`
	Filled    []FilledDays    `json:"filled"`
	Imports   []ImportLine    `json:"imports"`
	Clocks    []SeasonClock   `json:"clocks"`
	Rain      SeasonClock     `json:"rain"`
	Freezes   []FreezeChances `json:"freezes"`
	Falls     []FallCut       `json:"last_cut_by_date"`
	Hay       []HayDays       `json:"haymaking"`
	Spells    []SpellLine     `json:"dry_spells_ahead"`
	Season    []SpellLine     `json:"dry_spells_by_date"`
	Next      NextDays        `json:"next"`
}

// ImportLine is one file or delivery and the years it brought.
type ImportLine struct {
	Received  time.Time `json:"received"`
	Source    string    `json:"source"`
	Added     int       `json:"added"`
	Changed   int       `json:"changed"`
	Unchanged int       `json:"unchanged"`
	Failed    []int     `json:"failed,omitempty"` // values that failed a check, by element; nothing where not told
}

// StationPage makes the page of a station, found by its id or name.
func (o *Office) StationPage(ctx context.Context, actor Actor, name string, ask Ask) (*StationPage, error) {
	ask = o.settle(ask)
	shown, err := o.Station(ctx, actor, name, ask)
	if err != nil {
		return nil, err
	}
	view, err := o.project(ctx, ask)
	if err != nil {
		return nil, err
	}
	s := shown.Series.Until(ask.Date - 1)
	st := describe(view, []weather.Station{s.Station}, s.Station.ID)
	if st.WholeF != s.Station.WholeF { // the book knows better how its observers read
		blocks, err := o.store.Weather(ctx, st.ID, ask.Known)
		if err != nil {
			return nil, err
		}
		s = weather.NewSeries(st, blocks, ask.Date-1)
	}
	p := &StationPage{
		ID: st.ID, Name: cmp.Or(st.Name, st.ID), Latitude: st.Latitude, Longitude: st.Longitude, Elevation: st.Elevation,
		Region: view.Place.Region, Date: ask.Date, Fields: fieldsUnder(view, st.ID),
		Failed: []FailedCheck{}, Filled: []FilledDays{}, Imports: []ImportLine{},
	}
	p.FirstYear, p.LastYear = s.Years()
	p.Through, _ = s.LastObserved(ask.Date - 1)
	if p.Next, err = o.nextAt(ctx, view, st, ask); err != nil {
		return nil, err
	}
	for _, i := range slices.Backward(shown.Imports) {
		p.Imports = append(p.Imports, importLine(i))
	}
	slices.SortStableFunc(p.Imports, func(a, b ImportLine) int { return b.Received.Compare(a.Received) })
	if s.Len() == 0 {
		return p, nil
	}
	neighbours, err := o.neighbours(ctx, view, st, ask)
	if err != nil {
		return nil, err
	}
	whole, notes := weather.Fill(s, neighbours)
	for _, n := range notes {
		p.Filled = append(p.Filled, FilledDays{Element: n.Element.Code(), Method: string(n.Method), Days: n.Days})
	}
	p.Complete, p.Failed = completeness(s, whole)
	p.Clocks, p.Rain = seasonClocks(whole, ask.Date), rainClock(whole, ask.Date)
	p.Freezes = freezeChances(s, ask.Date)
	measured, _ := weather.FillMeasured(s, neighbours)
	var ahead *weather.Forecast
	if place, ok := stationPlace(st); ok {
		if ahead, err = o.store.LatestForecast(ctx, place, ask.Date, ask.Known); err != nil {
			return nil, err
		}
	}
	if p.Hay, err = hayDays(measured, ahead, ask.Date); err != nil {
		return nil, err
	}
	p.Falls = fallCuts(s, neighbours, ask.Date)
	p.Spells, p.Season = drySpells(s, ask.Date)
	return p, nil
}

// project is the book as it stood on a date.
func (o *Office) project(ctx context.Context, ask Ask) (*book.View, error) {
	facts, err := o.store.Facts(ctx, store.Filter{Known: ask.Known, Through: ask.Date})
	if err != nil {
		return nil, err
	}
	return book.Project(facts, ask.Date, ask.Known)
}

// fieldsUnder names the fields that take their weather from a station.
func fieldsUnder(view *book.View, id string) []string {
	out := []string{}
	for _, farm := range view.Farms {
		for _, f := range farm.Fields {
			if slices.Contains(f.WeatherStations(), id) {
				out = append(out, farm.Name+" · "+f.Name)
			}
		}
	}
	return out
}

// neighbours are the other stations near enough to fill a gap.
func (o *Office) neighbours(ctx context.Context, view *book.View, st weather.Station, ask Ask) ([]weather.Neighbour, error) {
	stations, err := o.store.Stations(ctx, ask.Known)
	if err != nil {
		return nil, err
	}
	m := &skyMaker{office: o, view: view, ask: Ask{Date: ask.Date - 1, Known: ask.Known}, stations: stations, series: map[string]*weather.Series{}}
	return m.neighbours(ctx, st, []string{st.ID})
}

// importLine tells of one import, with what its checks dropped where its report says so.
func importLine(r store.ImportRecord) ImportLine {
	line := ImportLine{Received: r.Received, Source: r.Source, Added: r.Added, Changed: r.Changed, Unchanged: r.Unchanged}
	var report weather.Report
	if err := json.Unmarshal(r.Report, &report); err != nil || len(report.Elements) == 0 {
		return line // a delivery brings no report
	}
	for _, t := range report.Elements[:min(3, len(report.Elements))] {
		n := 0
		for _, rule := range slices.Concat(t.Flagged, t.Failed) {
			n += rule.Count
		}
		line.Failed = append(line.Failed, n)
	}
	return line
}

// StationRow is a station in the list of all.
type StationRow struct {
	ID        string   `json:"id"`
	Name      string   `json:"name"`
	FirstYear int      `json:"first_year"`
	LastYear  int      `json:"last_year"`
	Through   unit.Day `json:"through,omitzero"` // last day with both temperatures
	Known     float64  `json:"known"`            // share of its days with both temperatures and rain
	Lately    float64  `json:"known_lately"`     // the same of the last 365 days before the date
	Fields    int      `json:"fields"`
	Next      NextDays `json:"next"`
}

// StationRows lists the stations with what matters of each, by name.
func (o *Office) StationRows(ctx context.Context, actor Actor, ask Ask) ([]StationRow, string, error) {
	if err := may(actor, actRead); err != nil {
		return nil, "", err
	}
	ask = o.settle(ask)
	view, err := o.project(ctx, ask)
	if err != nil {
		return nil, "", err
	}
	stations, err := o.store.Stations(ctx, ask.Known)
	if err != nil {
		return nil, "", err
	}
	rows := []StationRow{}
	for _, st := range stations {
		blocks, err := o.store.Weather(ctx, st.ID, ask.Known)
		if err != nil {
			return nil, "", fmt.Errorf("weather of station %s: %w", st.ID, err)
		}
		st = describe(view, []weather.Station{st}, st.ID)
		s := weather.NewSeries(st, blocks, ask.Date-1)
		row := StationRow{ID: st.ID, Name: cmp.Or(st.Name, st.ID), Fields: len(fieldsUnder(view, st.ID))}
		row.FirstYear, row.LastYear = s.Years()
		row.Through, _ = s.LastObserved(ask.Date - 1)
		row.Known, row.Lately = knownShare(s, s.First, ask.Date-1), knownShare(s, ask.Date-365, ask.Date-1)
		if row.Next, err = o.nextAt(ctx, view, st, ask); err != nil {
			return nil, "", err
		}
		rows = append(rows, row)
	}
	slices.SortFunc(rows, func(a, b StationRow) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) })
	return rows, view.Place.Region, nil
}

// stationPlace is the place whose forecast a station itself would take.
func stationPlace(st weather.Station) (string, bool) {
	return nws.PlaceOf(st.Latitude, st.Longitude), st.Latitude != 0 || st.Longitude != 0
}
