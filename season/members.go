package season

import (
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// MembersOf makes a member of each whole year of a record, all weighed alike: its growth and the fate of
// a crop mown on each of its days. Nothing is told yet: see [Tell].
func MembersOf(m *regrowth.Model, s *weather.Series, h *Harvest) ([]Member, []int, error) {
	years := YearsOf(m, s)
	out, names := make([]Member, len(years)), make([]int, len(years))
	for i, y := range years {
		days, place, err := weather.SwathDays(s, unit.DateOf(y.Year, 1, 1), unit.DateOf(y.Year, 12, 31))
		if err != nil {
			return nil, nil, err
		}
		fates, err := h.Fates(place, days, Plain(m))
		if err != nil {
			return nil, nil, err
		}
		names[i], out[i] = y.Year, Member{Weight: 1 / float64(len(years)), Days: y.Days, Fates: fates}
	}
	return out, names, nil
}
