package regrowth

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

const (
	crops   = "alfalfa, red-clover or alfalfa-grass"
	balance = "balance"
	full    = "full"
	// killC is 25 F: what grows is over after it. Source: [source.KillingFreeze].
	killC = -3.9
)

const twoDays = "data=date,tmax,tmin,rain;2026-05-20,24,12,0;2026-05-21,25,13,4"

func regrowthRun() *method.Method {
	rows := "by day"
	return &method.Method{
		Name: "regrowth-run", Title: "A season of regrowth, day by day",
		About: "Grows alfalfa through daily weather: stage, height, leaf area, what could have grown, what a cut on that day would weigh off a good field, fibre, protein and the reserve in the roots. " +
			"The values of a day stand before it is cut. It is a model of an ordinary good stand: it foresees no ordinary year's yield better than rain alone does, and sees a drought.",
		Inputs: []method.Input{
			{Key: "data", About: "the days in order, columns date, tmax, tmin, rain and, where it was measured, solar; as @file.csv alone. C and mm unless a cell says F or in", Kind: method.Sheet},
			{Key: "lat", About: "latitude", Unit: unit.Must("deg"), Accepted: method.Range{Low: 0, High: 66}, Tested: method.Range{Low: 36, High: 49}},
			{Key: "taw", About: "water that the root zone holds", Unit: unit.Must("mm"), Accepted: method.Range{Low: 20, High: 1000}, Tested: method.Range{Low: 100, High: 300}, Default: "200"},
			{Key: "lacks", About: "water lacking to field capacity before the first day", Unit: unit.Must("mm"), Accepted: method.Range{Low: 0, High: 1000}, Default: "0"},
			{Key: "water", About: "whether the soil is reckoned with, or always wet enough", Kind: method.Word, Choices: []string{balance, full}, Default: balance},
			{Key: "cuts", About: "dates of cutting, after the growth of the day", Kind: method.Words, Optional: true},
			{Key: "cycle", About: "growth that the first day belongs to: 0 seeding year, 1 first of a year, 2 second, 3 later", Accepted: method.Range{Low: 0, High: 3}, Default: "1"},
			{Key: "reserve", About: "reserve in the roots as it begins, 1 being full", Accepted: method.Range{Low: 0, High: 1}, Default: "1"},
			{Key: "crop", About: crops, Kind: method.Word, Choices: Sorts(), Default: string(Alfalfa)},
		},
		Outputs: []method.Output{
			{Key: "stage", About: "stage " + rows + ", 0-9", Decimals: 1},
			{Key: "height_cm", About: "height " + rows, Unit: unit.Must("cm"), Decimals: 0},
			{Key: "lai", About: "leaf area over ground " + rows, Decimals: 1},
			{Key: "potential", About: "growth that light, warmth and water allow, no field's yield, " + rows, Unit: massHa, Decimals: 0},
			{Key: "field", About: "dry matter that a cut would weigh off a good field, 10 % lost, " + rows, Unit: massHa, Decimals: 0},
			{Key: "ndf", About: "fibre " + rows, Unit: percent, Decimals: 1},
			{Key: "adf", About: "acid fibre " + rows, Unit: percent, Decimals: 1},
			{Key: "cp", About: "protein " + rows, Unit: percent, Decimals: 1},
			{Key: "reserve", About: "reserve in the roots " + rows, Decimals: 2},
			{Key: "ks", About: "what dry soil left of growth " + rows + ", 1 being all", Decimals: 2},
		},
		Constants: declared(),
		Sources:   append(restsOn(), source.GrowthClover, source.RedClover, source.KillingFreeze, source.HargreavesET, source.SoilWater),
		Example:   twoDays + " lat=43.1 cycle=2",
		Sheets:    map[string]string{"season.csv": checkSeason, "steady.csv": checkSteady},
		Run:       run,
	}
}

// row is a day of the sheet.
type row struct {
	day                     unit.Day
	tmaxC, tminC, rain, sun float64
	measured                bool
}

func run(c *method.Call) error {
	rows, err := readRows(c.Sheet("data"))
	if err != nil {
		return err
	}
	cuts, err := readCuts(c.Words("cuts"), rows)
	if err != nil {
		return err
	}
	cycle := c.Num("cycle")
	if cycle != float64(int(cycle)) {
		return fmt.Errorf("cycle %g: accepted 0, 1, 2 and 3", cycle)
	}
	taw := c.Num("taw")
	if lacks := c.Num("lacks"); lacks > taw {
		return fmt.Errorf("lacks %g mm: accepted 0 to taw, %g mm", lacks, taw)
	}
	m := modelOf(c)
	m.settleFor(Sort(c.Word("crop")))
	if s := Sort(c.Word("crop")); s != Alfalfa {
		c.Note("%s is an estimate: it is grown as alfalfa, and nothing published says how far that holds", s)
	}
	place, soil := m.NewPlace(c.Num("lat"), false), m.SoilOf(taw)
	crop := m.Start(int(cycle), c.Num("reserve"), c.Num("lacks"))
	out := map[string][]float64{}
	put := func(key string, v float64) { out[key] = append(out[key], v) }
	growing := crop.Growth != First
	for i, r := range rows {
		d := place.Day(r.day.YearDay(), r.tmaxC, r.tminC, r.rain)
		if r.measured {
			d = place.Sunny(r.day.YearDay(), r.tmaxC, r.tminC, r.rain, r.sun)
		}
		growing = growing || m.greensUp(rows[:i+1])
		over := r.tminC <= killC && r.day.YearDay() > 220
		switch {
		case over:
			growing = false
			m.Rest(&crop, &soil, &d)
		case !growing:
			m.Rest(&crop, &soil, &d)
		default:
			if c.Word("water") == full {
				crop.LacksMM = 0
			}
			m.Grow(&crop, &soil, &d)
		}
		q := m.Quality(&crop, Sort(c.Word("crop")))
		put("stage", m.StageOf(&crop))
		put("height_cm", crop.Height)
		put("lai", crop.LAI)
		put("potential", crop.KgHa)
		put("ndf", q.NDF)
		put("adf", q.ADF)
		put("cp", q.CP)
		put("reserve", crop.Reserve)
		put("ks", crop.Ks)
		put("field", m.Standing(&crop)*(1-m.UsualLoss))
		if slices.Contains(cuts, r.day) {
			if !growing {
				return fmt.Errorf("cuts: nothing grows on %s yet or any more", r.day)
			}
			m.Cut(&crop)
		}
	}
	for key, list := range out {
		c.Answer(key, list)
	}
	return nil
}

// greensUp reports whether growth has started by the last of some days: see [Model.Spring].
func (m *Model) greensUp(rows []row) bool {
	const march, week = 60, 7
	last := rows[len(rows)-1]
	if last.day.YearDay() < march {
		return false
	}
	back := rows[max(0, len(rows)-week):]
	var sum float64
	for _, r := range back {
		sum += (r.tmaxC + r.tminC) / 2
	}
	return sum/float64(len(back)) >= m.ReserveBaseC
}

func readRows(t *method.Table) ([]row, error) {
	type column struct {
		name string
		unit unit.Unit
		low  float64
		high float64
		at   int
	}
	cols := []column{{"tmax", celsius, -60, 60, 0}, {"tmin", celsius, -60, 60, 0}, {"rain", unit.Must("mm"), 0, 1000, 0}, {"solar", sunDay, 0, 45, 0}}
	date := slices.Index(t.Header, "date")
	if date < 0 {
		return nil, fmt.Errorf("no column is headed date, found %s", strings.Join(t.Header, ", "))
	}
	for i := range cols {
		cols[i].at = slices.Index(t.Header, cols[i].name)
		if cols[i].at < 0 && cols[i].name != "solar" {
			return nil, fmt.Errorf("no column is headed %s, found %s", cols[i].name, strings.Join(t.Header, ", "))
		}
	}
	rows := make([]row, len(t.Rows))
	for i, cells := range t.Rows {
		var err error
		if rows[i].day, err = unit.ParseDay(cells[date]); err != nil {
			return nil, fmt.Errorf("row %d: %w", i+1, err)
		}
		if i > 0 && rows[i].day != rows[i-1].day+1 {
			return nil, fmt.Errorf("row %d is %s and the row before %s: accepted days in a row, none missing", i+1, rows[i].day, rows[i-1].day)
		}
		var v [4]float64
		for j, col := range cols {
			if col.at < 0 {
				continue
			}
			v[j], err = unit.Parse(cells[col.at], col.unit)
			if err != nil || !(v[j] >= col.low && v[j] <= col.high) {
				return nil, fmt.Errorf("row %d, column %s: %q; accepted %g to %g %s", i+1, col.name, cells[col.at], col.low, col.high, col.unit.Symbol)
			}
		}
		if v[0] < v[1] {
			return nil, fmt.Errorf("row %d: tmax %g C lies under tmin %g C", i+1, v[0], v[1])
		}
		rows[i].tmaxC, rows[i].tminC, rows[i].rain, rows[i].sun, rows[i].measured = v[0], v[1], v[2], v[3], cols[3].at >= 0
	}
	return rows, nil
}

func readCuts(words []string, rows []row) ([]unit.Day, error) {
	var cuts []unit.Day
	for _, w := range words {
		d, err := unit.ParseDay(w)
		if err != nil {
			return nil, fmt.Errorf("cuts: %w", err)
		}
		if first, last := rows[0].day, rows[len(rows)-1].day; d < first || d > last {
			return nil, fmt.Errorf("cuts: %s lies outside the days given, %s to %s", d, first, last)
		}
		cuts = append(cuts, d)
	}
	return cuts, nil
}
