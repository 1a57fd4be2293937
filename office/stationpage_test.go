package office_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/heat"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/demo"
	"haywarden/office"
	"haywarden/weather"
	"haywarden/weather/nws"
)

const evenID = "ZZT00000005"

// evenYears are years in which every day is 70 and 50 F with a tenth of an inch of rain every other day,
// but for what spoil does to them.
func evenYears(from, to int, spoil func(d unit.Day, o *weather.Obs)) []office.Delivery {
	var out []office.Delivery
	for y := from; y <= to; y++ {
		b := weather.NewBlock(evenID, y)
		for i := range b.Days {
			o := weather.Obs{}
			o.Value[weather.TMax], o.Value[weather.TMin] = 211, 100
			o.Value[weather.Rain] = int16(25 * (i % 2))
			if spoil != nil {
				spoil(unit.DateOf(y, 1, 1)+unit.Day(i), &o)
			}
			b.Days[i] = o
		}
		out = append(out, office.Delivery{Block: b, Received: unit.DateOf(y, 1, 1).Time()})
	}
	return out
}

func even(t *testing.T, date string, from, to int, spoil func(unit.Day, *weather.Obs)) *office.StationPage {
	t.Helper()
	d, err := unit.ParseDay(date)
	if err != nil {
		t.Fatal(err)
	}
	o, _ := newOffice(t, "2027-01-02 10:00")
	st := weather.Station{ID: evenID, Name: "Even", WholeF: true}
	if err := o.ReceiveWeather(t.Context(), ida, []weather.Station{st}, evenYears(from, to, spoil)); err != nil {
		t.Fatal(err)
	}
	p, err := o.StationPage(t.Context(), ida, "even", office.Ask{Date: d})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// 70 and 50 F give 19 F-days above 41 F, and 12 above 48 F by the sine, which stays above it.
func TestASeasonLikeAllOthersIsOnItsDay(t *testing.T) {
	for date, days := range map[string][2]float64{"2026-05-20": {80, 139}, "2024-05-20": {80, 140}, "2025-03-01": {0, 59}} {
		p := even(t, date, 2010, 2026, nil)
		for i, c := range []struct{ each, days float64 }{{19, days[0]}, {12, days[1]}} {
			k := p.Clocks[i]
			if math.Abs(k.Now-c.each*c.days) > 1e-6 || k.Begun != (c.days > 0) || k.Missing != 0 {
				t.Errorf("%s, %s: %g, want %g days of %g", date, k.Name, k.Now, c.days, c.each)
			}
			if c.days == 0 {
				continue
			}
			n := len(k.Season) - 1
			// By May a leap year has had a day of heat more than the others, if the clock runs from January.
			below, slack := 0, 1e-6
			if i == 1 {
				slack = c.each + 1e-6
				if unit.Leap(p.Date.Year()) {
					below = 11 // of 2010 to 2023 three were leap years
				}
			}
			if k.Below != below || k.Years != p.Date.Year()-2010 || k.Ahead == nil || *k.Ahead != 0 {
				t.Errorf("%s, %s: %d of %d below, want %d; ahead %v", date, k.Name, k.Below, k.Years, below, k.Ahead)
			}
			if math.Abs(k.P10[n]-k.Now) > slack || math.Abs(k.P90[n]-k.Now) > slack || math.Abs(k.Normal[n]-k.Now) > 1e-6 {
				t.Errorf("%s, %s: now %g, normal %g, band %g to %g", date, k.Name, k.Now, k.Normal[n], k.P10[n], k.P90[n])
			}
		}
		if date == "2025-03-01" {
			continue
		}
		// 700 at 19 a day is passed on the 37th day of March and April, 300 at 12 on the 25th of the year.
		marks := [2]office.ClockMark{p.Clocks[0].Marks[0], p.Clocks[1].Marks[0]}
		if !marks[0].Reached || marks[0].Day != unit.DateOf(p.Date.Year(), time.April, 6) || marks[1].Day != unit.DateOf(p.Date.Year(), time.January, 25) {
			t.Errorf("%s: %+v", date, marks)
		}
		if p.Clocks[2].Begun || p.Rain.Ahead != nil || math.Abs(p.Rain.Now-p.Rain.Normal[len(p.Rain.Season)-1]) > 0.1 {
			t.Errorf("%s: %+v, rain %g of %g", date, p.Clocks[2].Begun, p.Rain.Now, p.Rain.Normal[len(p.Rain.Season)-1])
		}
	}
}

func TestWhatIsMissingIsCountedOnceAndSaid(t *testing.T) {
	p := even(t, "2026-02-01", 2014, 2026, func(d unit.Day, o *weather.Obs) {
		switch d {
		case unit.DateOf(2020, time.March, 3):
			o.Reject(weather.TMax, weather.Flagged)
		case unit.DateOf(2020, time.March, 4):
			*o = weather.NoObs()
		case unit.DateOf(2021, time.July, 9):
			o.Reject(weather.TMin, weather.Spike)
		}
	})
	for _, y := range p.Complete {
		for e, s := range y.Elements {
			if s.Observed+s.Failed+s.Absent != y.Days || s.Filled > s.Failed+s.Absent {
				t.Errorf("%d, element %d: %+v of %d days", y.Year, e, s, y.Days)
			}
		}
	}
	y2020 := p.Complete[2020-2014]
	want := [3]office.ElementShare{{Observed: 364, Failed: 1, Absent: 1, Filled: 2}, {Observed: 365, Absent: 1, Filled: 1}, {Observed: 365, Absent: 1}}
	if diff := cmp.Diff(want, y2020.Elements); diff != "" {
		t.Errorf("2020 (-want +got):\n%s", diff)
	}
	if got, want := y2020.Months[2], (office.MonthShare{Days: 31, Whole: 29, Mended: 1, Failed: 1}); got != want {
		t.Errorf("March 2020: %+v, want %+v; rain has no neighbour to be filled from", got, want)
	}
	if last := p.Complete[len(p.Complete)-1]; last.Days != 31 || last.Months[0].Days != 31 || last.Months[1].Days != 0 {
		t.Errorf("the running year: %+v", last)
	}
	wantFailed := []office.FailedCheck{{Element: "TMAX", Check: "flagged by the archive", Days: 1}, {Element: "TMIN", Check: "spike", Days: 1}}
	if diff := cmp.Diff(wantFailed, p.Failed); diff != "" {
		t.Errorf("checks (-want +got):\n%s", diff)
	}
	if p.Freezes[0].Years != 12 || p.Freezes[0].Without != 12 || p.Freezes[0].Methods[0].P50 != nil || p.Freezes[0].Trend != nil {
		t.Errorf("years that never freeze: %+v", p.Freezes[0])
	}
}

func TestThePageOfTheDistrictHoldsToTheRecord(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	o := larkmoor(t, d, func(book.Fact) bool { return true }, func(w demo.Delivery) (*weather.Block, bool) { return w.Block, true })
	ask := office.Ask{Date: unit.DateOf(2026, time.October, 20)}
	p, err := o.StationPage(t.Context(), ida, "ZZLM0000017", ask)
	if err != nil {
		t.Fatal(err)
	}
	shown, err := o.Station(t.Context(), ida, "ZZLM0000017", office.Ask{Date: ask.Date - 1})
	if err != nil {
		t.Fatal(err)
	}
	// The chances of the page are those of the plain listing, which R and Python have checked.
	sum, err := office.Summarise(shown.Series, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range p.Freezes {
		line := sum.Freezes[i]
		if f.Years != line.Years || f.ThresholdF != line.ThresholdF || len(f.Methods) != 4 {
			t.Errorf("%s: %d years by %d methods, listed as %s with %d", f.Name, f.Years, len(f.Methods), line.Name, line.Years)
			continue
		}
		w := f.Methods[0]
		got := [3]string{doy(w.P10), doy(w.P50), doy(w.P90)}
		if want := [3]string{line.P10, line.P50, line.P90}; got != want {
			t.Errorf("%s: %v, listed as %v", f.Name, got, want)
		}
		if f.Low == nil || f.High == nil || f.Low.DOY > w.P50.DOY || f.High.DOY < w.P50.DOY {
			t.Errorf("%s: the band %v to %v does not hold the middle %v", f.Name, f.Low, f.High, w.P50)
		}
		if f.Trend == nil || f.Trend.Low > f.Trend.Decade || f.Trend.High < f.Trend.Decade {
			t.Errorf("%s: trend %+v", f.Name, f.Trend)
		}
	}
	// A whole season's sum is the series' own; the smoothed normal ends where the mean of the years does.
	c := p.Clocks[0]
	if own := shown.Series.HeatF(heat.FirstCut(), c.From); c.Missing == 0 && len(own) == len(c.Season) && !math.IsNaN(own[len(own)-1]) && math.Abs(own[len(own)-1]-c.Now) > 1e-6 {
		t.Errorf("first growth %g, the series says %g", c.Now, own[len(own)-1])
	}
	mean, n := 0., 0
	for y := 1992; y < 2026; y++ {
		if sums := shown.Series.Season(y, c.From, unit.DateOf(2026, time.December, 31)).HeatF(heat.FirstCut(), c.From.InYear(y)); len(sums) > 0 && !math.IsNaN(sums[len(sums)-1]) {
			mean += sums[len(sums)-1]
			n++
		}
	}
	if end := c.Normal[len(c.Normal)-1]; n < 10 || math.Abs(end/(mean/float64(n))-1) > 0.02 {
		t.Errorf("the normal ends at %g, the mean of %d whole years at %g", end, n, mean/float64(n))
	}
}

func doy(d *office.FreezeDate) string {
	if d == nil {
		return "none"
	}
	return fmt.Sprintf("%.1f", d.DOY)
}

func TestNothingOfTheDayItselfOrLaterIsOnAPage(t *testing.T) {
	for date, later := range map[string]int16{"2026-01-01": 300, "2026-03-01": -200, "2026-05-20": 250, "2026-09-15": -150, "2026-12-31": -300} {
		day, err := unit.ParseDay(date)
		if err != nil {
			t.Fatal(err)
		}
		plain := even(t, date, 2012, 2026, nil)
		told := even(t, date, 2012, 2026, func(d unit.Day, o *weather.Obs) {
			if d >= day {
				o.Value[weather.TMin], o.Value[weather.Rain] = later, 900
			}
		})
		if diff := cmp.Diff(plain, told); diff != "" {
			t.Errorf("%s (-as it was +with other days later):\n%s", date, diff)
		}
	}
}

func TestTheRiskOfALastCutRisesAndFallsThroughTheFall(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	o := larkmoor(t, d, func(book.Fact) bool { return true }, func(w demo.Delivery) (*weather.Block, bool) { return w.Block, true })
	p, err := o.StationPage(t.Context(), ida, d.Stations[0].ID, office.Ask{Date: unit.DateOf(2026, 8, 1)})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Falls) < 9 || p.Falls[0].Years < 30 {
		t.Fatalf("%d dates", len(p.Falls))
	}
	for i, f := range p.Falls {
		if sum := f.Over + f.Under + f.Between; math.Abs(sum-1) > 1e-9 || f.Low > f.Between || f.High < f.Between {
			t.Errorf("%s: %+v", f.Day, f)
		}
		if i > 0 && (f.Over > p.Falls[i-1].Over || f.Under < p.Falls[i-1].Under) {
			t.Errorf("%s leaves more heat than ten days before", f.Day)
		}
	}
	first, last := p.Falls[0], p.Falls[len(p.Falls)-1]
	if first.Over < 0.9 || last.Under < 0.9 {
		t.Errorf("10 August %+v, 10 November %+v", first, last)
	}
}

func TestHayDaysFollowTheForecastAndTheSeason(t *testing.T) {
	d, err := demo.Make(demo.Seed)
	if err != nil {
		t.Fatal(err)
	}
	o := larkmoor(t, d, func(book.Fact) bool { return true }, func(w demo.Delivery) (*weather.Block, bool) { return w.Block, true })
	date, st := unit.DateOf(2026, 6, 10), d.Stations[0]
	page := func() *office.StationPage {
		p, err := o.StationPage(t.Context(), ida, st.ID, office.Ask{Date: date})
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Hay) != 5 {
			t.Fatalf("%d products", len(p.Hay))
		}
		for i, pack := range storage.Packages() {
			limits, err := storage.PublishedBaling().Of(storage.Package(pack))
			if err != nil || p.Hay[2+i].At != limits.Target {
				t.Errorf("%s is taken up at %g %%, and keeps at %g %%: %v", pack, p.Hay[2+i].At, limits.Target, err)
			}
		}
		return p
	}
	plain := page()
	for k, h := range plain.Hay {
		dewy := func(dew *float64, share float64) bool { // none for dry hay
			return k >= 2 && dew == nil || k < 2 && dew != nil && *dew >= 0 && *dew <= share+1e-9
		}
		if len(h.Ahead) != 10 || h.Ahead[0].Day != date || len(h.Season) != 10 {
			t.Fatalf("%s: %d days ahead, %d of the season", h.Product, len(h.Ahead), len(h.Season))
		}
		for _, s := range h.Ahead {
			if !(0 <= s.Low && s.Low <= s.Share && s.Share <= s.High && s.High <= 1) || !dewy(s.Dew, s.Share) {
				t.Errorf("%s: %+v", h.Product, s)
			}
		}
		for _, s := range h.Season {
			if s.Years < 30 || !dewy(s.Dew, s.Share) {
				t.Errorf("%s: %+v", h.Product, s)
			}
		}
	}
	// Haylage wants less time than baleage, and baleage than hay; the larger the bale, the drier it must be.
	for i := range plain.Hay[0].Ahead {
		if a, b, c := plain.Hay[0].Ahead[i].Share, plain.Hay[1].Ahead[i].Share, plain.Hay[2].Ahead[i].Share; a < b-0.15 || b < c-0.15 {
			t.Errorf("day %d: haylage %.2f, baleage %.2f, hay %.2f", i, a, b, c)
		}
		if a, b, c := plain.Hay[2].Ahead[i].Share, plain.Hay[3].Ahead[i].Share, plain.Hay[4].Ahead[i].Share; a < b || b < c {
			t.Errorf("day %d: small squares %.2f, round bales %.2f, large squares %.2f", i, a, b, c)
		}
	}
	with := func(pop, rain float64) float64 {
		f := weather.Forecast{Place: nws.PlaceOf(st.Latitude, st.Longitude), Source: "test", Issued: date.Time().Add(time.Duration(4+pop) * time.Hour)}
		high, low := 27.0, 12.0
		for k := range unit.Day(7) {
			f.Days = append(f.Days, weather.ForecastDay{Day: date + k, TMaxC: &high, TMinC: &low, PoP: &pop, RainMM: &rain})
		}
		if err := o.ReceiveForecasts(t.Context(), ida, []office.ForecastDelivery{{Forecast: f, Received: date.Time().Add(6 * time.Hour)}}); err != nil {
			t.Fatal(err)
		}
		return page().Hay[2].Ahead[0].Share
	}
	dry, wet := with(0, 0), with(1, 12)
	if dry < 0.85 || wet > 0.3 || plain.Hay[2].Ahead[0].Share >= dry {
		t.Errorf("hay mown today: %.2f by past years, %.2f where a dry week is forecast, %.2f where rain is", plain.Hay[2].Ahead[0].Share, dry, wet)
	}
}
