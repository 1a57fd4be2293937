package exchange

import (
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Sown is a table of how stands were sown.
type Sown struct {
	File
	Seedings []SownRow
}

// SownRow is one seeding, of the rows that tell its seeds.
type SownRow struct {
	Row         int // the first of them
	Farm, Field string
	Day         unit.Day
	Seeding     book.Seeding
}

var sownColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "seeded", Also: []string{"date", "day", "seeding date"}, Needed: true},
	{Name: "species", Also: []string{"crop", "seed"}, Needed: true},
	{Name: "variety", Also: []string{"cultivar"}},
	{Name: "lot", Also: []string{"lot number", "seed lot"}},
	{Name: "rate", Also: []string{"rate lb ac", "lb ac", "lb acre", "seeding rate"}, Needed: true},
	{Name: "purity", Also: []string{"pure seed", "purity pct"}},
	{Name: "germination", Also: []string{"germ", "total germination", "germination pct"}},
	{Name: "coating", Also: []string{"coating pct"}},
	{Name: "method", Also: []string{"how", "drill"}},
	{Name: "depth", Also: []string{"depth in", "seeding depth"}, check: "depth"},
	{Name: "companion", Also: []string{"companion crop", "nurse crop"}},
	{Name: "inoculated", Also: []string{"inoculant"}},
	{Name: "note", Also: []string{"remarks", "comment"}},
}

// SownColumns lists the columns of a table of seedings.
func SownColumns() []Column { return slices.Clone(sownColumns) }

var seedingMethods = []call[string]{
	{"drilled", []string{"drill", "grain drill"}}, {"broadcast", []string{"spinner", "cultipacker"}}, {"frost-seeded", []string{"frost seeding", "frost"}}, {"no-till", []string{"notill", "no till drill"}},
}

// ReadSown reads how stands were sown, a row a seed: farm, field, the day of seeding, species and rate in
// lb an acre out of the bag are needed. Rows of one field and day are one seeding; what they say of
// method, depth, companion and inoculant is taken from the first that says it.
func ReadSown(r io.Reader, name string) (Sown, error) {
	s, err := open(r, name, sownColumns)
	if err != nil {
		return Sown{}, err
	}
	var out Sown
	at := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Sown{}, err
		}
		if !more {
			break
		}
		before := len(s.list)
		row := SownRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
		row.Day, _ = s.date("seeded", true)
		lot := book.SeedLot{Species: s.name("species"), Variety: s.text("variety"), Lot: s.text("lot")}
		if v, ok := s.inUnit("rate", "lb/ac"); ok {
			lot.RateLb = v
		} else if s.raw("rate") == "" {
			s.fault("rate", "is empty; lb/ac out of the bag wanted")
		}
		for _, p := range []struct {
			col  string
			into *float64
		}{{"purity", &lot.Purity}, {"germination", &lot.Germination}, {"coating", &lot.Coating}} {
			if v, ok := s.inUnit(p.col, "%"); ok {
				*p.into = v
			}
		}
		b := book.Seeding{Lots: []book.SeedLot{lot}, Method: oneOf(s, "method", seedingMethods, false), Companion: s.text("companion"), Note: s.text("note")}
		if d := s.quantity("depth", "in"); d != nil {
			b.DepthIn = *d
		}
		if yes := s.yes("inoculated"); yes != nil {
			b.Inoculated = *yes
		}
		if len(s.list) == before {
			s.accept(b.Check())
		}
		key := tabular.Plain(row.Farm) + "\n" + tabular.Plain(row.Field) + "\n" + row.Day.String()
		if i, known := at[key]; known {
			out.Seedings[i].Seeding = together(out.Seedings[i].Seeding, b)
			continue
		}
		row.Seeding, at[key] = b, len(out.Seedings)
		out.Seedings = append(out.Seedings, row)
	}
	out.File = s.file
	return out, nil
}

// together puts another seed to a seeding.
func together(a, b book.Seeding) book.Seeding {
	a.Lots = append(a.Lots, b.Lots...)
	for _, v := range []struct{ had, more *string }{{&a.Method, &b.Method}, {&a.Companion, &b.Companion}, {&a.Note, &b.Note}} {
		if *v.had == "" {
			*v.had = *v.more
		}
	}
	if a.DepthIn == 0 {
		a.DepthIn = b.DepthIn
	}
	a.Inoculated = a.Inoculated || b.Inoculated
	return a
}
