package weather

import (
	"fmt"
	"slices"
)

// Among holds a reading against the record of its station that is stored already: most checks look at
// neighbours in time and at the values of all years, and a file of one season has few. Values of the
// reading that fail among the others are dropped and marked, as if the whole record had come in one
// file; what is stored is not changed.
func (r *Reading) Among(stored []*Block) {
	if len(stored) == 0 {
		return
	}
	byYear := map[int]*Block{}
	var all []*Block
	for _, b := range r.Blocks {
		byYear[b.Year] = b
	}
	for _, old := range stored {
		b := &Block{Station: old.Station, Year: old.Year, Days: slices.Clone(old.Days)}
		if fresh := byYear[old.Year]; fresh != nil {
			b = fresh.Over(old)
		}
		all = append(all, b)
	}
	for _, b := range r.Blocks {
		if !slices.ContainsFunc(stored, func(old *Block) bool { return old.Year == b.Year }) {
			all = append(all, &Block{Station: b.Station, Year: b.Year, Days: slices.Clone(b.Days)})
		}
	}
	failed := 0
	for _, d := range Quality(r.Station, all) {
		b := byYear[d.Day.Year()]
		if b == nil || !b.On(d.Day).Has(d.Element) {
			continue
		}
		b.On(d.Day).Reject(d.Element, d.Mark)
		r.dropped = append(r.dropped, d)
		failed++
	}
	if failed > 0 {
		r.recount()
		r.note(fmt.Sprintf("%s of these failed against the %d years of this station in the book, not within the file", grouped(failed), len(stored)))
	}
}
