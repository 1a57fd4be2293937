// Package source lists every publication, standard, data set, library and rule of thumb the code
// rests on. A number without one of these beside it has no business in the program.
package source

import (
	"slices"
	"sync"
)

// ID names a source in code, in proofs and in grounds.
type ID string

// Grade says how far a source can be leaned on.
type Grade string

// The grades, from firm to soft.
const (
	Published      Grade = "published"                   // read in the publication or its official abstract
	Secondhand     Grade = "published, read second-hand" // read as quoted by somebody else
	Dataset        Grade = "data set"
	Library        Grade = "reference library" // computed by an independent general-purpose library
	Derived        Grade = "derived"           // our arithmetic on published numbers
	Choice         Grade = "choice"            // a choice of ours, open to change
	CommonPractice Grade = "common practice, no source"
	FromMemory     Grade = "from memory" // recalled and not read
)

// Source is one entry of the list.
type Source struct {
	ID    ID
	Cite  string // author, year, title or series: enough to find it
	Grade Grade
}

// All returns the list, ordered by ID.
func All() []Source {
	all := slices.Concat(forage(), weather(), water(), curing(), stands(), risk(), herd(), budgets(), rules(), losses(), stores(), trials(), fertilizers(), seeding(), survival(), soils(), pests())
	slices.SortFunc(all, func(a, b Source) int {
		if a.ID < b.ID {
			return -1
		}
		return 1
	})
	return all
}

// index finds sources by ID; made once and never changed.
var index = sync.OnceValue(func() map[ID]Source {
	byID := map[ID]Source{}
	for _, s := range All() {
		byID[s.ID] = s
	}
	return byID
})

// Find returns the source with the given ID.
func Find(id ID) (Source, bool) {
	s, ok := index()[id]
	return s, ok
}
