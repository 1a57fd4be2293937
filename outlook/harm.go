package outlook

import (
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Harmed is the newest look at hail, standing water or drought in the growth that stands.
type Harmed struct {
	book.Harm
	SeenOn unit.Day
}

// The kinds of harm.
const (
	Hail    = book.Hail
	Ponding = book.Ponding
	Drought = book.Drought
)

// harmLasts is for how many days a look at harm has its say (choice).
const harmLasts = 40

// Harmed is the newest look at harm of this growth, nil where there is none.
func (s *Stand) Harmed() *Harmed {
	var found *Harmed
	for _, v := range s.Visits {
		if h := v.Body.Harm; h != nil && s.Date-v.Day <= harmLasts && s.Growth.Holds(v.Day) {
			found = &Harmed{*h, v.Day}
		}
	}
	return found
}
