package demo

import "haywarden/book"

// stacks records the hay of 2026's first cuts that was put up, and what was read in it: one stack is never
// read, and the first, baled too damp, heats.
func (l *ledger) stacks(all []*holding) {
	n := 0
	for _, h := range all {
		for _, st := range h.tracts {
			for _, cut := range st.years[2026].cuts {
				if cut.product != book.Hay || cut.number != 1 {
					continue
				}
				moisture, core := 16.0, 104.0
				if n == 0 {
					moisture, core = 22, 143
				}
				e := entry{farm: h.id, subject: h.ids[st], day: cut.day + 4, author: h.people[len(h.people)-1].Name, wait: atOnce}
				l.add(e, book.Stack{Package: "round", Moisture: &moisture, Place: "inside"})
				if e.day += 5; n != 1 {
					l.add(e, book.StackReading{CoreF: core})
				}
				n++
			}
		}
	}
}
