package nws

import (
	"time"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// Days makes the grid into days of a time zone, from that of its issue on. A day of which nothing is
// known is left out. It depends on the grid alone, not on when it is asked, so that an issue is kept as
// it was issued.
//
// Highest and lowest are those of the layers of that name, each for the day on which the middle of its
// interval falls, of the night's lowest six hours later, so that it is the morning's (choice). Where a
// layer has none for a day, the hourly temperatures stand in if none of the whole day is missing. Rain
// and its chance are of the whole day, or of what was left of it at the issue, and known only where
// nothing of that is missing: no forecast is not a dry one. [source.ForecastGrid]
func (g *Grid) Days(zone *time.Location) (days []weather.ForecastDay) {
	const night = 6 * time.Hour
	highest, lowest := byDay(g.highest, zone, 0, higher), byDay(g.lowest, zone, night, lower)
	end := g.end()
	for d := unit.DayOf(g.Updated.In(zone)); startOf(d, zone).Before(end); d++ {
		from, to := startOf(d, zone), startOf(d+1, zone)
		fd := weather.ForecastDay{Day: d, TMaxC: highest[d], TMinC: lowest[d]}
		if covered(g.temperature, from, to) {
			for _, p := range touching(g.temperature, from, to) {
				if highest[d] == nil {
					fd.TMaxC = higher(fd.TMaxC, p.value)
				}
				if lowest[d] == nil {
					fd.TMinC = lower(fd.TMinC, p.value)
				}
			}
		}
		if covered(g.rain, latest(from, g.Updated), to) {
			fd.RainMM = new(amount(g.rain, from, to))
		}
		if _, high, ok := g.RainChance(d, zone); ok {
			fd.PoP = &high
		}
		if fd.TMaxC != nil || fd.TMinC != nil || fd.RainMM != nil || fd.PoP != nil {
			days = append(days, fd)
		}
	}
	return days
}

// RainChance gives the bounds of the chance of rain in a day, or in what was left of it at the issue:
// max(p1, p2) where its halves are wet together, 1 - (1 - p1)(1 - p2) where they have nothing to do with
// each other; the upper one is for those who have hay down. A half's chance is the greatest of those
// that hold in it: the values stand for periods of 12 hours as a rule, whatever the interval they are
// written for, since equal neighbours come as one and edits cut them up (choice). It is known only
// where no hour is missing.
func (g *Grid) RainChance(d unit.Day, zone *time.Location) (low, high float64, known bool) {
	from, to := latest(startOf(d, zone), g.Updated), startOf(d+1, zone)
	if !to.After(from) || !covered(g.chance, from, to) {
		return 0, 0, false
	}
	y, m, day := d.Date()
	noon := time.Date(y, m, day, 12, 0, 0, 0, zone)
	var p1, p2 float64
	for _, p := range g.chance {
		if p.overlap(from, noon) > 0 {
			p1 = max(p1, p.value)
		}
		if p.overlap(noon, to) > 0 {
			p2 = max(p2, p.value)
		}
	}
	low = max(p1, p2)
	return low, max(low, 1-(1-p1)*(1-p2)), true
}

// end is when the last piece of any layer ends.
func (g *Grid) end() (end time.Time) {
	for _, layer := range [][]piece{g.temperature, g.highest, g.lowest, g.chance, g.rain} {
		for _, p := range layer {
			end = latest(end, p.end)
		}
	}
	return end
}

// byDay gives the extreme of each day, the day being that on which the middle of a piece falls, or a
// time after it.
func byDay(pieces []piece, zone *time.Location, after time.Duration, extreme func(*float64, float64) *float64) map[unit.Day]*float64 {
	out := map[unit.Day]*float64{}
	for _, p := range byDays(pieces) {
		d := unit.DayOf(p.middle().Add(after).In(zone))
		out[d] = extreme(out[d], p.value)
	}
	return out
}

func higher(old *float64, v float64) *float64 {
	if old != nil {
		v = max(*old, v)
	}
	return &v
}

func lower(old *float64, v float64) *float64 {
	if old != nil {
		v = min(*old, v)
	}
	return &v
}

func startOf(d unit.Day, zone *time.Location) time.Time {
	y, m, day := d.Date()
	return time.Date(y, m, day, 0, 0, 0, 0, zone)
}

func latest(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}
