package regrowth

import (
	"haywarden/agronomy/water"
)

// Day is what a day's weather offers to any alfalfa at a place. It is worked out once for all stands
// that share the weather.
type Day struct {
	MeanC   float64
	WarmC   float64 // mean, held at the top of what heat counts
	LightKg float64 // growth of shoots and roots if all sun were caught and nothing lacked, kg/ha
	Shoots  float64 // share of it that goes to shoots
	LeafC   float64 // heat that leaves count, C-days
	EToMM   float64
	RainMM  float64
	MinC    float64
}

// Place makes days at one latitude.
type Place struct {
	m   *Model
	sky *water.SkyYear
	sun water.Radiation
	air water.Hargreaves
}

// NewPlace prepares a latitude, north positive; coast brings more sun out of the range of temperature.
func (m *Model) NewPlace(latDeg float64, coast bool) *Place {
	p := &Place{m: m, sky: water.FAOOrbit().Year(latDeg), sun: water.FAORadiation(), air: water.HargreavesSamani()}
	if coast {
		p.sun.RangeK = water.CoastRangeK
	}
	return p
}

// Day works out a day from its extremes and rain. The sun is told from the range of temperature; a day
// whose extremes are the wrong way round has none.
func (p *Place) Day(yearDay int, tmaxC, tminC, rainMM float64) Day {
	high := max(tmaxC, tminC)
	return p.Sunny(yearDay, tmaxC, tminC, rainMM, p.sun.ByRangeMJ(high, tminC, p.sky.RaMJ[yearDay]))
}

// Sunny is [Place.Day] where the sun was measured, MJ/m2.
func (p *Place) Sunny(yearDay int, tmaxC, tminC, rainMM, solarMJ float64) Day {
	next := yearDay + 1
	if next >= len(p.sky.DayLengthH) {
		next = 1
	}
	mean, h := (tmaxC+tminC)/2, p.sky.DayLengthH[yearDay]
	d := p.m.day(mean, solarMJ, p.m.shoots(h, p.sky.DayLengthH[next] >= h))
	d.EToMM, d.RainMM, d.MinC = p.air.EToMM(max(tmaxC, tminC), tminC, p.sky.RaMJ[yearDay]), rainMM, tminC
	return d
}

// day is the part of a day that growth sees.
func (m *Model) day(meanC, solarMJ, shoots float64) Day {
	const gramsM2 = 10 // kg/ha
	return Day{
		MeanC: meanC, WarmC: min(meanC, m.HeatTopC), LightKg: m.rue(meanC) * solarMJ * gramsM2, Shoots: shoots,
		LeafC: m.leafHeat(meanC), MinC: meanC,
	}
}

// Spring is the index of the day on which growth starts: the first from 1 March whose week, that day
// included, has a mean of 5 C or more; len(days) where none has. The first day is 1 January.
func (m *Model) Spring(days []Day) int {
	const march, week = 59, 7
	for i := march; i < len(days); i++ {
		var sum float64
		for _, d := range days[i-week+1 : i+1] {
			sum += d.MeanC
		}
		if sum/week >= m.ReserveBaseC {
			return i
		}
	}
	return len(days)
}

// Fall is the index of the day on which growth has stopped: the first from early August on with a
// minimum of killC or less, mid-November at the latest. The first day is 1 January.
func Fall(days []Day, killC float64) int {
	const august, november = 220, 319
	for i := august; i < min(len(days), november); i++ {
		if days[i].MinC <= killC {
			return i
		}
	}
	return min(len(days), november)
}
