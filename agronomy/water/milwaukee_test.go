package water

import (
	"math"
	"testing"
	"time"

	"haywarden/agronomy/unit"
)

const milwaukeeRecord = "weather_milwaukee_1971_2020.csv"

func milwaukeeRain(tb testing.TB, limitMM float64) Rain {
	t := record(tb, milwaukeeRecord)
	r := Rain{First: unit.DateOf(1971, 1, 1), LimitMM: limitMM}
	for i := range t.rows {
		r.MM = append(r.MM, t.number(i, "prcp_mm"))
	}
	return r
}

// Year totals of Hargreaves evapotranspiration, computed in R and Python by the bare equation: the few
// days with a mean below -17.8 C, which are 0 here, count there as less than nothing.
func TestMilwaukeeYearsByTemperatureAlone(t *testing.T) {
	rows := record(t, milwaukeeRecord)
	h, sky := HargreavesSamani(), FAOOrbit().Year(42.955)
	sums := map[int]float64{}
	for i := range rows.rows {
		d, err := unit.ParseDay(rows.word(i, "date"))
		if err != nil {
			t.Fatal(err)
		}
		tmax, tmin, ra := rows.number(i, "tmax_c"), rows.number(i, "tmin_c"), sky.RaMJ[d.YearDay()]
		sums[d.Year()] += h.EToMM(tmax, tmin, ra)
		if warm := (tmax+tmin)/2 + 17.8; warm < 0 {
			sums[d.Year()] += 0.0023 * warm * math.Sqrt(tmax-tmin) * 0.408 * ra
		}
	}
	for year, mm := range map[int]float64{1988: 926.0428, 2012: 930.9056, 2019: 824.2900} {
		want(t, "year", sums[year], mm, 5.1e-5)
	}
}

// June 1971-2020, a day of 1 mm or more being wet; counted in R and Python.
func TestMilwaukeeJuneTransitions(t *testing.T) {
	r := milwaukeeRain(t, 1)
	var sum Transitions
	var wet, days int
	var windows Spells
	for year := 1971; year <= 2020; year++ {
		from, to := int(unit.DateOf(year, 6, 1)-r.First), int(unit.DateOf(year, 7, 1)-r.First)
		june := r.MM[from:to]
		c := CountTransitions(june, r.LimitMM)
		sum.DD, sum.DW, sum.WD, sum.WW = sum.DD+c.DD, sum.DW+c.DW, sum.WD+c.WD, sum.WW+c.WW
		for _, mm := range june {
			days++
			if mm >= r.LimitMM {
				wet++
			}
		}
	}
	c := sum.Chain(0)
	if sum.WW != 159 || sum.WD+sum.WW != 410 || sum.DW != 248 || sum.DD+sum.DW != 1040 {
		t.Errorf("%+v, want 159 of 410 and 248 of 1040", sum)
	}
	want(t, "P(wet|wet)", c.P11, 0.387805, 5.1e-7)
	want(t, "P(wet|dry)", c.P01, 0.238462, 5.1e-7)
	want(t, "wet", float64(wet)/float64(days), 0.281333, 5.1e-7)
	for start := 31; start <= 58; start++ { // the day before each window of three in June
		s := r.Spells(time.May, start, 3, 3, AnyToday)
		windows.With, windows.Years = windows.With+s.With, windows.Years+s.Years
	}
	if (windows != Spells{576, 1400}) {
		t.Errorf("windows of three days all dry: %+v, want 576 of 1400", windows)
	}
	// 2012 was the dry one.
	longest, _ := r.longest(r.MM[unit.DateOf(2012, 6, 1)-r.First : unit.DateOf(2012, 8, 1)-r.First])
	if longest != 15 {
		t.Errorf("the longest dry spell of June and July 2012 is %d days, want 15", longest)
	}
}

// The chain stands beside the count: near it for the spells hay wants, over fifty years of one station.
func TestMilwaukeeCountAndChainAgreeInJune(t *testing.T) {
	r := milwaukeeRain(t, DryBelowMM)
	var off, days float64
	for day := 1; day <= 20; day++ {
		p := r.Chance(time.June, day, 3, 7, AnyToday)
		if !p.Counted || p.Count.Years != 50 {
			t.Fatalf("June %d: %+v, want 50 years counted", day, p)
		}
		off += float64(p.Chance - p.Chain)
		days++
	}
	if off /= days; math.Abs(off) > 0.05 {
		t.Errorf("count less chain is %.3f on the mean of June", off)
	} else {
		t.Logf("count less chain is %+.3f on the mean of June", off)
	}
}
