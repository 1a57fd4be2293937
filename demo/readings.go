package demo

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

const breakfast = 13 * time.Hour // 8 in the morning in the district, as UTC

// read turns the true weather into station-years as an archive would hold them: whole degrees F and
// hundredths of an inch, kept in tenths of C and mm, with gaps.
func (s sky) read(seed uint64) []*weather.Block {
	var out []*weather.Block
	for k := range s {
		a := &s[k]
		r := stream(seed, "readings "+a.ID)
		var b *weather.Block
		var snow snowpack
		for i := range a.maxF {
			d := firstDay + unit.Day(i)
			if b == nil || b.Year != d.Year() {
				b = weather.NewBlock(a.ID, d.Year())
				out = append(out, b)
			}
			*b.On(d) = a.observe(i, &snow, r)
		}
	}
	for _, b := range out {
		spoil(b)
	}
	return out
}

// observe reads the instruments of one day; now and then somebody is away or a check fails.
func (a *air) observe(i int, snow *snowpack, r *rand.Rand) weather.Obs {
	high, low, rain := math.Round(a.maxF[i]), math.Round(a.minF[i]), a.rainIn[i]
	fell, depth := snow.next((a.maxF[i]+a.minF[i])/2, rain)
	var o weather.Obs
	o.Value[weather.TMax], o.Value[weather.TMin] = tenthsC(high), tenthsC(low)
	o.Value[weather.Rain] = int16(math.Round(rain * 254))
	o.Value[weather.Snow] = int16(math.Round(math.Round(fell*10) * 2.54))
	o.Value[weather.Depth] = int16(math.Round(math.Round(depth) * 25.4))
	chance := r.Float64()
	if told := firstDay + unit.Day(i); told >= springFrom && told <= springTo {
		return o // no gap by chance in the spring that is told
	}
	switch {
	case rain == 0 && chance > 0.93:
		o.Mark[weather.Rain] = weather.Trace
	case chance < 0.0012:
		return weather.NoObs()
	case chance < 0.0020:
		o.Reject(weather.TMax, weather.Flagged)
	case chance < 0.0026:
		o.Reject(weather.Rain, weather.Flagged)
	}
	return o
}

func tenthsC(f float64) int16 { return int16(math.Round((f - 32) / 0.18)) }

// spoil puts in the gaps that are told: a week without an observer, far from any decision, and a day
// of the spring that is shown.
func spoil(b *weather.Block) {
	gap := func(station string, from unit.Day, days int) {
		for d := from; b.Station == station && d < from+unit.Day(days); d++ {
			if o := b.On(d); o != nil {
				*o = weather.NoObs()
			}
		}
	}
	gap(ridge, unit.DateOf(2019, time.February, 7), 7)
	gap(crossing, unit.DateOf(2026, time.April, 3), 1)
}

// snowpack is the snow on the ground, inches. Snow falls at about eleven times its water when the day
// is cold, settles, and goes with warmth and rain (choice).
type snowpack float64

func (p *snowpack) next(meanF, rain float64) (fell, depth float64) {
	share := math.Max(0, math.Min(1, (35-meanF)/4))
	fell = rain * share * math.Max(8, math.Min(18, 11+(28-meanF)*0.3))
	loss := math.Max(0, meanF-31)*0.22 + rain*(1-share)*2
	*p = snowpack(math.Max(0, float64(*p)*0.93+fell-loss))
	return fell, float64(*p)
}

// deliveries says when each block came in: on the morning after its last day, or when the book was
// opened. One year was delivered with a wrong value, and corrected three weeks later.
func deliveries(blocks []*weather.Block) []Delivery {
	var out []Delivery
	for _, b := range blocks {
		received := unit.DateOf(b.Year+1, time.January, 1).Time().Add(breakfast)
		if begun := opened.Time().Add(breakfast); received.Before(begun) {
			received = begun
		}
		if b.Station == hollow && b.Year == 2025 {
			d := unit.DateOf(2025, time.November, 6)
			wrong := &weather.Block{Station: b.Station, Year: b.Year, Days: slices.Clone(b.Days)}
			wrong.On(d).Value[weather.TMax] = tenthsC(104)
			wrong.On(d).Mark[weather.TMax] = weather.Reported
			b.On(d).Reject(weather.TMax, weather.Flagged)
			out = append(out, Delivery{wrong, received})
			received = received.AddDate(0, 0, 21)
		}
		out = append(out, Delivery{b, received})
	}
	slices.SortStableFunc(out, func(a, b Delivery) int {
		return cmp.Or(a.Received.Compare(b.Received), cmp.Compare(a.Block.Year, b.Block.Year), cmp.Compare(a.Block.Station, b.Block.Station))
	})
	return out
}
