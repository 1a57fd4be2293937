package outlook

import (
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// lyingDays is how long after a cut hay is still looked for on the ground (choice).
const lyingDays = 10

// LyingHay is the day on which hay was mown that is not put up yet, as far as the book knows: a cut for
// hay of the last ten days, not weighed and without a stack after it.
func (s *Stand) LyingHay() (unit.Day, bool) {
	for _, c := range slices.Backward(s.Cuts) {
		if s.Date-c.Day > lyingDays {
			break
		}
		as := c.Body.Product
		if as == "" {
			as = s.Product
		}
		if as != book.Hay || c.Body.TonsDM != nil || c.Day >= s.Date {
			return 0, false
		}
		stacked := slices.ContainsFunc(s.Stacks, func(k book.Dated[book.Stack]) bool { return k.Day >= c.Day })
		return c.Day, !stacked
	}
	return 0, false
}

// BalesAs is how the farm bales: as the stand's newest stack, else by its own balers, else in round
// bales, which is then assumed.
func (s *Stand) BalesAs() (pack string, assumed bool) {
	if n := len(s.Stacks); n > 0 {
		return s.Stacks[n-1].Body.Package, false
	}
	if n := len(s.Farm.Machines); n > 0 {
		for _, m := range s.Farm.Machines[n-1].Body.Machines {
			if p, ok := strings.CutSuffix(m.Kind, "-baler"); ok {
				return p, false
			}
		}
	}
	return "round", true
}

// Stacked is a hay stack of a stand with what was read in it.
type Stacked struct {
	Baled    unit.Day
	Package  string
	Moisture *float64
	Place    string
	Treated  bool
	Read     bool
	ReadOn   unit.Day // last day on which its core was read
	CoreF    float64  // the hottest of that day
}

const (
	heatingDays = 42  // in which most fires of hay come, [source.HayHeat]
	warmF       = 120 // from which a core is read daily, [source.HayHeat]
	hotF        = 140 // from which a stack is taken apart, [source.HayHeat]
	warmLasts   = 21  // days for which a warm reading keeps a stack under watch (choice)
	hotLasts    = 42  // the same of a hot one that nobody has followed by a cooler (choice)
)

// Stack is the stand's stack that most wants watching: the hottest of those that were last read warm, else
// the newest that may still heat; nil where there is none. Hay put up since neither hides nor cools an older
// stack.
func (s *Stand) Stack() *Stacked {
	var pick *Stacked
	for i, b := range s.Stacks {
		k := &Stacked{Baled: b.Day, Package: b.Body.Package, Moisture: b.Body.Moisture, Place: b.Body.Place, Treated: b.Body.Treated}
		for _, r := range s.StackReadings {
			if !s.ReadIn(r, i) {
				continue
			}
			if !k.Read || r.Day > k.ReadOn || r.Day == k.ReadOn && r.Body.CoreF > k.CoreF {
				k.Read, k.ReadOn, k.CoreF = true, r.Day, r.Body.CoreF
			}
		}
		if k.watched(s.Date) && (pick == nil || k.warmth() >= pick.warmth()) {
			pick = k
		}
	}
	return pick
}

// ReadIn reports whether a reading is of the i-th stack: of the one it names, else of the newest of its day.
func (s *Stand) ReadIn(r book.Dated[book.StackReading], i int) bool {
	baled := s.Stacks[i].Day
	if r.Body.Baled != nil {
		return *r.Body.Baled == baled
	}
	return r.Day >= baled && (i+1 == len(s.Stacks) || r.Day < s.Stacks[i+1].Day)
}

// watched reports whether the stack may heat, or was read so warm that it stays under watch.
func (k *Stacked) watched(date unit.Day) bool {
	switch warm := k.warmth(); {
	case date-k.Baled <= heatingDays:
		return true
	case warm >= hotF:
		return date-k.ReadOn <= hotLasts
	default:
		return warm > 0 && date-k.ReadOn <= warmLasts
	}
}

// warmth is the core as last read where it was warm, else 0.
func (k *Stacked) warmth() float64 {
	if k.Read && k.CoreF >= warmF {
		return k.CoreF
	}
	return 0
}
