package weather

import (
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/unit"
)

// HayChance is the chance of making hay, baleage or haylage where it is mown on a day.
type HayChance struct {
	Day unit.Day
	curing.Chance
}

// soilDays is how long before an ensemble's date the soil is followed: by then the wetness it began
// with does not count any more (choice).
const soilDays = 60

// HayChances runs the swath over every year of the record from each of so many days on, the first given by
// month and day, and counts the years in which the product is made in time and without harmful rain. A
// year with a day not known between mowing and the last day allowed is left out of that day's count.
// The place is the station's; whether it lies by a coast or a great lake, and the rest of the question,
// are as asked. For what was known on a date, cut the series there first ([Series.Until]). The answers
// carry the calendar days of the year given by first.
func HayChances(s *Series, ask curing.Haymaking, first unit.Day, starts int) ([]HayChance, error) {
	if starts < 1 || starts > unit.DaysIn(first.Year()) {
		return nil, fmt.Errorf("%d days of mowing: accepted 1 to a year", starts)
	}
	ask.Place = stationPlace(ask.Place, s.Station)
	days := curingDays(s.First, s.TMaxC, s.TMinC, s.RainMM)
	if err := followSoil(ask.Place, days); err != nil {
		return nil, err
	}
	var members []curing.Member
	from, to := s.Years()
	for y := from; y <= to && s.Len() > 0; y++ {
		if i := int(first.InYear(y) - s.First); i >= 0 && i < len(days) {
			members = append(members, curing.Member{Weight: 1, Days: days[i:min(len(days), i+starts+max(0, ask.Days)-1)]})
		}
	}
	return chancesFrom(ask, members, first, starts)
}

// HayChances asks the same of the ensemble's members, by their weights, for mowing on its date and the
// days after it. past is the record up to the day before, which tells how wet the soil is; the place is
// its station's.
func (e *Ensemble) HayChances(past *Series, ask curing.Haymaking, starts int) ([]HayChance, error) {
	if starts < 1 || starts > 366 {
		return nil, fmt.Errorf("%d days of mowing: accepted 1 to 366", starts)
	}
	members, place, err := e.Swathing(past, ask.Place, starts+max(0, ask.Days)-1)
	if err != nil {
		return nil, err
	}
	ask.Place = place
	return chancesFrom(ask, members, e.Date, starts)
}

// Swathing gives the ensemble's members as the days over a swath, at most so many from its date on, and
// the place they lie at. past is the record up to the day before, which tells how wet the soil is.
func (e *Ensemble) Swathing(past *Series, at curing.Place, most int) ([]curing.Member, curing.Place, error) {
	at = stationPlace(at, past.Station)
	before := past.Between(e.Date-soilDays, e.Date-1)
	lead := curingDays(before.First, before.TMaxC, before.TMinC, before.RainMM)
	members := make([]curing.Member, len(e.Members))
	for i, m := range e.Members {
		n := min(len(m.TMaxC), most)
		days := append(slices.Clip(lead), curingDays(e.Date, m.TMaxC[:n], m.TMinC[:n], m.RainMM[:n])...)
		if err := followSoil(at, days); err != nil {
			return nil, at, err
		}
		members[i] = curing.Member{Weight: m.Weight, Days: days[len(lead):]}
	}
	return members, at, nil
}

// SwathDays gives the days of a record from one day to another as the days over a swath, the soil
// followed from two months before, and the place they lie at.
func SwathDays(s *Series, from, to unit.Day) ([]curing.Day, curing.Place, error) {
	at := stationPlace(curing.Place{}, s.Station)
	b := s.Between(from-soilDays, to)
	days := curingDays(b.First, b.TMaxC, b.TMinC, b.RainMM)
	if err := followSoil(at, days); err != nil {
		return nil, at, err
	}
	return days[min(len(days), max(0, int(from-b.First))):], at, nil
}

func chancesFrom(ask curing.Haymaking, members []curing.Member, first unit.Day, starts int) ([]HayChance, error) {
	at := make([]int, starts)
	for i := range at {
		at[i] = i
	}
	chances, err := ask.Chances(members, at)
	if err != nil {
		return nil, err
	}
	out := make([]HayChance, len(chances))
	for i, c := range chances {
		out[i] = HayChance{first + unit.Day(i), c}
	}
	return out, nil
}

// stationPlace puts the question where the station stands. An elevation that the archive does not know
// is taken as the sea's, which lowers a clear day's sun by under a hundredth.
func stationPlace(p curing.Place, st Station) curing.Place {
	p.LatDeg, p.ElevationM = st.Latitude, st.Elevation
	if !(p.ElevationM > missingElevation) {
		p.ElevationM = 0
	}
	return p
}

// missingElevation is over what the archive writes for an elevation not known. [source.GHCNDaily]
const missingElevation = -999

func curingDays(first unit.Day, tmax, tmin, rain []float64) []curing.Day {
	days := make([]curing.Day, len(tmax))
	for i := range days {
		days[i] = curing.Day{
			YearDay: (first + unit.Day(i)).YearDay(), TMaxC: tmax[i], TMinC: tmin[i], RainMM: rain[i],
			SolarMJ: math.NaN(), VapourKPa: math.NaN(),
		}
	}
	return days
}

func followSoil(p curing.Place, days []curing.Day) error {
	m, err := curing.NewMaker(p)
	if err != nil {
		return err
	}
	curing.SiltLoam().Along(m, days)
	return nil
}
