package pest

import (
	"math"
	"time"

	"haywarden/agronomy/unit"
)

// Arrival is when leafhoppers are blown in from the Gulf, as month and day of a year. No heat sum tells
// it: they come on fronts.
type Arrival struct {
	State    string
	From, To [2]int // month, day
}

// Arrivals lists the printed windows; where one date is printed it is the first. Source:
// [source.HopperArrival].
func Arrivals() []Arrival {
	return []Arrival{
		{"Illinois", [2]int{4, 15}, [2]int{6, 15}},
		{"Minnesota", [2]int{5, 15}, [2]int{6, 15}},
		{"Ontario", [2]int{5, 20}, [2]int{6, 15}},
		{"Pennsylvania", [2]int{5, 1}, [2]int{6, 15}},
		{"Wisconsin", [2]int{5, 20}, [2]int{6, 15}},
	}
}

// ArrivalIn is the window of a state in a year, Wisconsin's where none is printed (of says whose).
func ArrivalIn(state string, year int) (from, to unit.Day, of string) {
	list := Arrivals()
	a := list[len(list)-1]
	for _, b := range list {
		if b.State == state {
			a = b
		}
	}
	on := func(md [2]int) unit.Day { return unit.DateOf(year, time.Month(md[0]), md[1]) }
	return on(a.From), on(a.To), a.State
}

// Brood is the heat of a leafhopper's egg and nymph: C-days over a base, C. Source:
// [source.HopperHeat].
type Brood struct{ EggBase, EggHeat, NymphBase, NymphHeat float64 }

// PublishedBrood returns it.
func PublishedBrood() Brood { return Brood{7.6, 136, 9.4, 153} }

// Days is how long egg and nymph take at a steady mean temperature, C; +Inf at the base and below.
func (k Brood) Days(tmeanC float64) (egg, nymph float64) {
	return ripe(k.EggHeat, tmeanC-k.EggBase), ripe(k.NymphHeat, tmeanC-k.NymphBase)
}

func ripe(heat, over float64) float64 {
	if over <= 0 {
		return math.Inf(1)
	}
	return heat / over
}

const (
	// HopperFirstLook and HopperEvery are the days from a cut to the first sweeps and from one look to
	// the next. Source: [source.HopperSweeps].
	HopperFirstLook, HopperEvery = 7, 7
	// CutInstead is the days before a cut within which nothing is sprayed: the mower does it. Source:
	// [source.HopperSweeps].
	CutInstead = 7
	// SweepsASet is how many 180-degree sweeps of a 15 in net a set holds. Source: [source.HopperSweeps].
	SweepsASet = 20
	// HopperLast is the last month in which hoppers are looked for: they do not overwinter and a growth
	// of October is not cut for yield (choice).
	HopperLast = time.September
)
