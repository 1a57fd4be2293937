package season

import "haywarden/agronomy/regrowth"

// Start is where a stand is on a morning.
type Start struct {
	Day     int // 0 is 1 January
	Crop    regrowth.Crop
	Growing bool // growth has begun this year
	LastCut int  // day of this year's last cut, negative where there was none
}

// NewYear is a stand on 1 January after a winter that it went into with a reserve; the soil is full.
func NewYear(m *regrowth.Model, reserve float64) Start {
	return Start{Crop: m.Start(regrowth.First, reserve, 0), LastCut: -1}
}

// Cutter decides on the evening of a day of growth, from what can be known by then: the crop, how long
// it has grown and what is told of haymaking weather.
type Cutter interface {
	Cuts(day, since int, crop *regrowth.Crop, told Sky) bool
}

// Season is one simulated year of a stand.
type Season struct {
	Cuts   []Cut   `json:"cuts"`
	Winter float64 `json:"winter"` // reserve it goes into winter with
	Wear   float64 `json:"wear"`   // what that costs later years, $/ac, 0 or less
	Worth  float64 `json:"worth"`  // $/ac: all cuts and the wear
}

// Simulate carries the stand from its start to the end of a member's growth. The cutter is asked only
// on days that the rules allow and on which there is something to cut.
func (f *Field) Simulate(from Start, m *Member, c Cutter) Season {
	crop, growing, last := from.Crop, from.Growing, from.LastCut
	spring, fall := f.Model.Spring(m.Days), regrowth.Fall(m.Days, KillC)
	var s Season
	for day := from.Day; day < fall; day++ {
		if growing = growing || day >= spring; !growing {
			f.Model.Rest(&crop, &f.Soil, &m.Days[day])
			continue
		}
		f.Model.Grow(&crop, &f.Soil, &m.Days[day])
		since := day - last
		if last < 0 {
			since = -1
		}
		if f.ripe(&crop) && f.Rules.allow(day, since) && c.Cuts(day, since, &crop, m.Told[day]) {
			s.Cuts = append(s.Cuts, f.Reckon(&crop, day, m.Fates[day]))
			s.Worth += s.Cuts[len(s.Cuts)-1].Worth
			f.Model.Cut(&crop)
			last = day
		}
	}
	s.Winter, s.Wear = crop.Reserve, f.winter(crop.Reserve)
	s.Worth += s.Wear
	return s
}
