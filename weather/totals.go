package weather

import (
	"maps"
	"slices"

	"haywarden/agronomy/unit"
)

// rainTotal is rain of several days, read at once.
type rainTotal struct {
	tenths int32
	known  bool
	days   int
}

// mostTotalDays is over how many days a total is believed to run (choice).
const mostTotalDays = 60

// Total notes rain of several days that was read at once on a day, in tenths mm (MDPR), and
// [Record.TotalDays] over how many days it fell (DAPR). [source.GHCNDaily]
func (r *Record) Total(read unit.Day, tenths int32) {
	t := r.total(read)
	t.tenths, t.known = tenths, true
}

// TotalDays notes over how many days the rain fell that was read at once on a day.
func (r *Record) TotalDays(read unit.Day, days int) { r.total(read).days = days }

func (r *Record) total(read unit.Day) *rainTotal {
	if r.totals == nil {
		r.totals = map[unit.Day]*rainTotal{}
	}
	if r.totals[read] == nil {
		r.totals[read] = &rainTotal{}
	}
	return r.totals[read]
}

// settleTotals says of each day without a report of rain what a total says of it. A total of nothing
// makes its days dry. Any other is not spread, since that would turn each of its days into a wet one:
// they stay missing, marked as days within which rain fell. Without the number of days a total speaks of
// the day on which it was read alone. (derived)
func (r *Record) settleTotals() {
	for _, read := range slices.Sorted(maps.Keys(r.totals)) {
		t := r.totals[read]
		days := max(1, t.days)
		if !t.known || t.tenths < 0 || days > mostTotalDays {
			continue
		}
		for d := read - unit.Day(days) + 1; d <= read; d++ {
			if d.Year() < FirstYear {
				continue
			}
			o := r.Year(d.Year()).block.On(d)
			switch {
			case o.Mark[Rain] != Absent:
			case t.tenths == 0:
				o.Value[Rain], o.Mark[Rain] = 0, PresumedZero
			default:
				o.Mark[Rain] = WetUnknown
				r.dropped = append(r.dropped, Rejected{Day: d, Element: Rain, Value: NoValue, Mark: WetUnknown, Than: t.tenths, By: float64(days), Other: read})
			}
		}
	}
}
