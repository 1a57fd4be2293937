package office

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/frost"
	"haywarden/agronomy/unit"
	"haywarden/agronomy/water"
	"haywarden/weather"
)

// FreezeChances are the chances of the last freeze of spring or the first of fall at a threshold.
type FreezeChances struct {
	Name       string        `json:"name"`
	Spring     bool          `json:"spring"`
	ThresholdF float64       `json:"threshold_f"`
	Years      int           `json:"years"`   // whole enough to tell
	Without    int           `json:"without"` // of them, those without such a freeze
	Methods    []FreezeDates `json:"methods"` // Weibull first, the one used
	// Low and High bound the 50 % date of Weibull: 9 of 10 draws of the years lie between.
	Low   *FreezeDate  `json:"low,omitempty"`
	High  *FreezeDate  `json:"high,omitempty"`
	Trend *FreezeTrend `json:"trend,omitempty"`
}

// FreezeDates are the dates of one way of reading chances from the years: in spring the day after which a
// freeze still comes with the chance, in fall the day by which it has come.
type FreezeDates struct {
	Method string      `json:"method"`
	How    string      `json:"how"`
	P10    *FreezeDate `json:"p10,omitempty"` // absent: the freeze does not come in so many years
	P50    *FreezeDate `json:"p50,omitempty"`
	P90    *FreezeDate `json:"p90,omitempty"`
}

// FreezeDate is a day of the year and the nearest whole day in the year of the page.
type FreezeDate struct {
	DOY float64  `json:"doy"`
	Day unit.Day `json:"day"`
}

// FreezeTrend is how the date moves over the record, in days a decade, later above 0, with its 95 %
// interval and the chance that so much would be seen without any trend. Years without a freeze are left
// out of it.
type FreezeTrend struct {
	Decade float64 `json:"days_a_decade"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	P      float64 `json:"p"`
	Years  int     `json:"years"`
}

// The bootstrap of freeze dates (choice). Its seed is fixed: the same record gives the same band.
const (
	bandShare = 0.9
	BandDraws = 2000
	BandSeed  = 1
)

// leastFreezeYears is how many years a 10 or 90 % date wants. [source.FreezeYears]
const leastFreezeYears = 10

// freezeMethods name the ways of reading chances, with their quantile type.
var freezeMethods = []struct {
	method frost.QuantileMethod
	how    string
}{
	{frost.Weibull, "rank p(n + 1), type 6; years without a freeze rank last"},
	{frost.Hazen, "rank pn + ½, type 5, of the years that have one"},
	{frost.Type7, "rank p(n − 1) + 1, type 7, of the years that have one"},
	{frost.Normal, "mean + z·sd of the years that have one"},
}

// freezeChances reckons six freezes: 32, 28 and 24 F in spring and fall.
func freezeChances(s *weather.Series, date unit.Day) []FreezeChances {
	var out []FreezeChances
	for _, spring := range []bool{true, false} {
		for _, f := range []float64{32, 28, 24} {
			events, name := s.FirstFall(f), fmt.Sprintf("First of fall, %g °F", f)
			if spring {
				events, name = s.LastSpring(f), fmt.Sprintf("Last of spring, %g °F", f)
			}
			c := FreezeChances{Name: name, Spring: spring, ThresholdF: f}
			c.reckon(events, date)
			out = append(out, c)
		}
	}
	return out
}

func (c *FreezeChances) reckon(events []weather.YearEvent, date unit.Day) {
	var x, years, days []float64
	for _, e := range events {
		switch {
		case !e.Valid:
			continue
		case !e.Found:
			c.Without++
			x = append(x, math.Inf(1))
		default:
			x = append(x, float64(e.DOY))
			years, days = append(years, float64(e.Year)), append(days, float64(e.DOY))
		}
		c.Years++
	}
	if c.Years < leastFreezeYears {
		return
	}
	quantile, bootstrap := frost.Quantile, frost.BootstrapBand
	if c.Spring {
		quantile, bootstrap = frost.QuantileLater, frost.BootstrapLater
	}
	on := func(doy float64, ok bool) *FreezeDate {
		if !ok || math.IsNaN(doy) || math.IsInf(doy, 0) {
			return nil
		}
		return &FreezeDate{DOY: doy, Day: unit.DateOf(date.Year(), time.January, 1) + unit.Day(math.Round(doy)) - 1}
	}
	for _, m := range freezeMethods {
		dates := FreezeDates{Method: string(m.method), How: m.how}
		for p, to := range map[float64]**FreezeDate{0.1: &dates.P10, 0.5: &dates.P50, 0.9: &dates.P90} {
			*to = on(quantile(x, p, m.method))
		}
		c.Methods = append(c.Methods, dates)
	}
	if band, ok := bootstrap(x, 0.5, frost.Weibull, bandShare, BandDraws, rand.New(rand.NewPCG(BandSeed, 0))); ok {
		c.Low, c.High = on(band.Low, true), on(band.High, true)
	}
	if t := climate.FitTrend(years, days); len(days) >= leastFreezeYears && !math.IsNaN(t.Slope) {
		c.Trend = &FreezeTrend{Decade: 10 * t.Slope, Low: 10 * t.Low, High: 10 * t.High, P: t.P, Years: len(days)}
	}
}

// SpellLine is the chance of a run of dry days within the days from a date on: counted over the years
// with its 95 % interval, and by the chain of dry and wet days.
type SpellLine struct {
	From    unit.Day `json:"from"`
	Dry     int      `json:"dry_days"`
	Within  int      `json:"within_days"`
	With    int      `json:"years_with"`
	Years   int      `json:"years"`
	Low     float64  `json:"low"` // of the share counted
	High    float64  `json:"high"`
	Chain   float64  `json:"chain"`
	Counted bool     `json:"counted"` // the count is the one to use: 20 years or more
}

// drySpells gives the chances from a date on, and of three dry days through the season.
func drySpells(s *weather.Series, date unit.Day) (ahead, season []SpellLine) {
	r := water.Rain{First: s.First, MM: s.RainMM, LimitMM: water.DryBelowMM}
	add := func(to *[]SpellLine, from unit.Day, dry, within int) {
		// The days that follow the day before a date begin with the date.
		_, month, day := (from - 1).Date()
		if month == time.February {
			day = min(day, 28) // which every year has
		}
		c := r.Chance(month, day, dry, within, water.AnyToday)
		line := SpellLine{From: from, Dry: dry, Within: within, With: c.Count.With, Years: c.Count.Years, Chain: float64(c.Chain), Counted: c.Counted}
		if math.IsNaN(line.Chain) {
			return // no rain is known at this time of year
		}
		if line.Years > 0 {
			low, high := c.Count.Interval()
			line.Low, line.High = float64(low), float64(high)
		}
		*to = append(*to, line)
	}
	ahead, season = []SpellLine{}, []SpellLine{}
	for _, within := range []int{7, 10} {
		for dry := 2; dry <= 5; dry++ {
			add(&ahead, date, dry, within)
		}
	}
	for month := time.May; month <= time.September; month++ {
		for _, day := range []int{1, 16} {
			add(&season, unit.DateOf(date.Year(), month, day), 3, 7)
		}
	}
	return ahead, season
}
