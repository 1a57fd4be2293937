package exchange

import (
	"io"
	"slices"
	"strconv"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Seedings is a table of planned seedings.
type Seedings struct {
	File
	Plans []SeedingRow
}

// SeedingRow is one plan, gathered from the rows of its lots.
type SeedingRow struct {
	Row         int // the first of them
	Farm, Field string
	Day         unit.Day // when it was told; 0: no row says
	Plan        book.SeedingPlan
}

var seedingColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "year", Also: []string{"seeding year"}, Needed: true},
	{Name: "season", Also: []string{"when"}, Needed: true},
	{Name: "crop", Also: []string{"stand"}, Needed: true},
	{Name: "species", Also: []string{"seed"}, Needed: true},
	{Name: "pure_lb", Also: []string{"pls lb", "pls lb ac", "pure live seed"}, Needed: true},
	{Name: "date", Also: []string{"day", "told"}},
	{Name: "acres", Also: []string{"size"}, in: []spelling{{"ha", []string{"hectares"}}}},
	{Name: "variety", Also: []string{"lot", "cultivar"}},
	{Name: "purity", Also: []string{"pure seed"}, in: []spelling{{"%", []string{"purity pct"}}}},
	{Name: "germination", Also: []string{"germ"}, in: []spelling{{"%", []string{"germination pct"}}}},
	{Name: "hard", Also: []string{"hard seed"}, in: []spelling{{"%", []string{"hard pct"}}}},
	{Name: "coating", Also: []string{"coat"}, in: []spelling{{"%", []string{"coating pct"}}}},
	{Name: "seeds_per_lb", Also: []string{"seeds per pound", "seeds lb"}},
	{Name: "price", Also: []string{"price lb", "$ lb"}},
	{Name: "bag", Also: []string{"bag lb", "bag size"}},
	{Name: "ordered", Also: []string{"bought"}},
	{Name: "into_stand", Also: []string{"interseeded", "into stand"}},
}

// SeedingColumns lists the columns of a table of planned seedings.
func SeedingColumns() []Column { return slices.Clone(seedingColumns) }

func calls[T ~string](words []T, also map[T][]string) []call[T] {
	var out []call[T]
	for _, w := range words {
		out = append(out, call[T]{w, also[w]})
	}
	return out
}

// ReadSeedings reads planned seedings, a row a lot of seed. Rows of one farm, field, season and year are one
// plan, whose lots of one species compete.
func ReadSeedings(r io.Reader, name string) (Seedings, error) {
	s, err := open(r, name, seedingColumns)
	if err != nil {
		return Seedings{}, err
	}
	var order []*SeedingRow
	at := map[string]*SeedingRow{}
	for {
		more, err := s.next()
		if err != nil {
			return Seedings{}, err
		}
		if !more {
			break
		}
		found := len(s.list)
		row := SeedingRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
		row.Day, _ = s.date("date", false)
		row.Plan = s.plan()
		if len(s.list) == found {
			s.accept(row.Plan.Check())
		}
		key := tabular.Plain(row.Farm) + " " + tabular.Plain(row.Field) + " " + row.Plan.Season + strconv.Itoa(row.Plan.Year)
		first := at[key]
		if first == nil {
			at[key] = &row
			order = append(order, &row)
			continue
		}
		lots := append(slices.Clone(first.Plan.Offers), row.Plan.Offers...)
		same := row.Plan
		same.Offers = first.Plan.Offers
		if len(s.list) == found && (row.Day != first.Day || same.Crop != first.Plan.Crop || same.Acres != first.Plan.Acres || same.Into != first.Plan.Into || same.Ordered != first.Plan.Ordered) {
			s.fault("field", "the plan is told otherwise in row %d: date, crop, acres, ordered and into_stand are the plan's, the same in each of its rows", first.Row)
			continue
		}
		if first.Plan.Offers = lots; len(s.list) == found {
			s.accept(first.Plan.Check())
		}
	}
	out := Seedings{File: s.file}
	for _, p := range order {
		out.Plans = append(out.Plans, *p)
	}
	return out, nil
}

func (s *sheet) plan() book.SeedingPlan {
	p := book.SeedingPlan{
		Season: oneOf(s, "season", calls(book.SeedingSeasons(), map[string][]string{book.LateSummerSeeding: {"late summer", "summer", "august", "fall"}}), true),
		Crop:   oneOf(s, "crop", calls(book.Crops(), map[book.Crop][]string{book.AlfalfaGrass: {"mix", "mixture"}}), true),
	}
	if v := s.quantity("year", ""); v != nil {
		p.Year = int(*v)
	} else if s.raw("year") == "" {
		s.fault("year", "is empty; the year of the seeding wanted")
	}
	if v := s.quantity("acres", "ac"); v != nil {
		p.Acres = *v
	}
	if v := s.yes("ordered"); v != nil {
		p.Ordered = *v
	}
	if v := s.yes("into_stand"); v != nil {
		p.Into = *v
	}
	o := book.SeedOffer{Variety: s.text("variety"), Purity: s.share("purity"), Germination: s.share("germination"), Hard: s.share("hard"), Coating: s.share("coating")}
	o.Species = oneOf(s, "species", calls(book.SeedSpecies(), nil), true)
	if v := s.quantity("pure_lb", "lb/ac"); v != nil {
		o.PureLb = *v
	} else if s.raw("pure_lb") == "" {
		s.fault("pure_lb", "is empty; pounds of pure live seed an acre wanted")
	}
	for _, c := range []struct {
		col, unit string
		to        *float64
	}{{"seeds_per_lb", "", &o.SeedsPerLb}, {"price", "$/lb", &o.PriceLb}, {"bag", "lb", &o.BagLb}} {
		if v := s.quantity(c.col, c.unit); v != nil {
			*c.to = *v
		}
	}
	p.Offers = []book.SeedOffer{o}
	return p
}
