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

// Stacked is the newest hay stack of a stand with what was read in it.
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
	hotLasts    = 21  // days for which a warm reading keeps a stack under watch (choice)
)

// Stack is the stand's newest stack while it may heat; nil where there is none. A stack read warm stays
// under watch however old it is.
func (s *Stand) Stack() *Stacked {
	n := len(s.Stacks)
	if n == 0 {
		return nil
	}
	b := s.Stacks[n-1]
	k := &Stacked{Baled: b.Day, Package: b.Body.Package, Moisture: b.Body.Moisture, Place: b.Body.Place, Treated: b.Body.Treated}
	for _, r := range s.StackReadings {
		if r.Day < k.Baled {
			continue
		}
		if !k.Read || r.Day > k.ReadOn || r.Day == k.ReadOn && r.Body.CoreF > k.CoreF {
			k.Read, k.ReadOn, k.CoreF = true, r.Day, r.Body.CoreF
		}
	}
	if s.Date-k.Baled > heatingDays && !(k.Read && k.CoreF >= warmF && s.Date-k.ReadOn <= hotLasts) {
		return nil
	}
	return k
}
