package exchange

import (
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Stacks is a table of hay stacks and of the core temperatures read in them.
type Stacks struct {
	File
	Stacks []StackRow
}

// StackRow is a stack that was put up or a reading of one: at least one of both is set.
type StackRow struct {
	Row         int
	Farm, Field string
	Day         unit.Day
	Stack       *book.Stack
	Reading     *book.StackReading
}

var stackColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "date", Also: []string{"day", "baled"}, Needed: true},
	{Name: "package", Also: []string{"bales", "bale"}, Needed: true},
	{Name: "moisture", Also: []string{"moisture pct"}},
	{Name: "place", Also: []string{"stored", "where"}},
	{Name: "treated", Also: []string{"preservative"}},
	{Name: "core_f", Also: []string{"core", "core temperature"}},
	{Name: "stack", Also: []string{"of stack", "baled on"}},
}

// StackColumns lists the columns of a table of stacks.
func StackColumns() []Column { return slices.Clone(stackColumns) }

var stackPackages = []call[string]{
	{"small-square", []string{"small squares", "small square"}}, {"round", []string{"rounds", "round bales"}}, {"large-square", []string{"large squares", "big squares", "large square"}},
}

var stackPlaces = []call[string]{
	{"inside", []string{"barn", "shed", "indoors"}}, {"covered", []string{"tarp", "under a tarp"}},
	{"outside-ground", []string{"outside", "on the ground"}}, {"outside-raised", []string{"raised", "on pallets"}},
}

// ReadStacks reads hay stacks, a row a stack, a reading or both: farm, field and date are needed. A row with a
// package is a stack put up on that day, with its moisture in % of fresh weight where it is known; a row
// with core_f is the hottest core temperature read on that day, in F: in the stack baled on the day in the
// column stack, else in the field's newest. The column package must be there, its cells may be empty.
func ReadStacks(r io.Reader, name string) (Stacks, error) {
	s, err := open(r, name, stackColumns)
	if err != nil {
		return Stacks{}, err
	}
	out := Stacks{}
	for {
		more, err := s.next()
		if err != nil {
			return Stacks{}, err
		}
		if !more {
			break
		}
		row := StackRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
		row.Day, _ = s.date("date", true)
		s.stackRow(&row)
		out.Stacks = append(out.Stacks, row)
	}
	out.File = s.file
	return out, nil
}

func (s *sheet) stackRow(row *StackRow) {
	found := len(s.list)
	pack, core := oneOf(s, "package", stackPackages, false), s.quantity("core_f", "F")
	switch {
	case s.raw("package") == "" && s.raw("core_f") == "":
		s.fault("package", "is empty, and so is core_f; a stack wants its package (small-square, round or large-square), a reading its core_f")
	case core != nil:
		row.Reading = &book.StackReading{CoreF: *core}
		if baled, ok := s.date("stack", false); ok {
			row.Reading.Baled = &baled
			if row.Day != 0 && baled > row.Day {
				s.fault("stack", "%s: was baled after it was read, on %s; the day on which the hay was baled wanted", baled, row.Day)
			}
		}
		s.accept(row.Reading.Check())
	}
	if s.raw("package") != "" {
		b := book.Stack{Package: pack, Moisture: s.quantity("moisture", "%"), Place: oneOf(s, "place", stackPlaces, false)}
		if t := s.yes("treated"); t != nil {
			b.Treated = *t
		}
		row.Stack = &b
		if len(s.list) == found {
			s.accept(b.Check())
		}
	}
}
