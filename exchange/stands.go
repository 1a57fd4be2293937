package exchange

import (
	"io"
	"math"
	"slices"
	"strings"

	"haywarden/book"
	"haywarden/tabular"
)

// StandRow is one stand with its farm and field.
type StandRow struct {
	Row   int
	Farm  book.Farm
	Field book.Field
	Stand book.Stand // Field is left empty: who takes it in knows the field's id
	// Contact is who to ring on the farm; an empty name where none was given.
	Contact book.Contact
}

// standColumns are the columns of a table of stands, with the other names they go by.
var standColumns = map[string][]string{
	"farm": {"farm", "farm name"}, "county": {"county"}, "field": {"field", "field name"},
	"acres": {"acres", "area"}, "latitude": {"latitude", "lat"}, "longitude": {"longitude", "long", "lon"},
	"station": {"station", "weather station"}, "crop": {"crop", "kind", "species"}, "seeded": {"seeded", "seeding date"},
	"grass_share": {"grass_share", "grass", "grass pct"}, "variety": {"variety"}, "product": {"product"},
	"feed_rfv": {"feed_rfv", "target rfv"}, "sentinel": {"sentinel"}, "contact": {"contact"}, "phone": {"phone"},
}

// standOrder is the order in which the columns are written.
var standOrder = []string{"farm", "county", "field", "acres", "latitude", "longitude", "station", "crop", "seeded", "grass_share", "variety", "product", "feed_rfv", "sentinel", "contact", "phone"}

// ReadStands reads a table of stands: farm, field, acres, crop and seeded are needed. Acres may carry
// ha; the share of grass may be 0.3 or 30 %.
func ReadStands(r io.Reader, name string) ([]StandRow, error) {
	s, err := open(r, name, standColumns, []string{"farm", "field", "acres", "crop", "seeded"})
	if err != nil {
		return nil, err
	}
	var rows []StandRow
	seen := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return nil, err
		}
		if !more {
			break
		}
		row := s.stand()
		key := tabular.Plain(row.Farm.Name) + "/" + tabular.Plain(row.Field.Name)
		if first, twice := seen[key]; twice {
			s.fault(s.row.Place, "field", "%s of %s stands in row %d already", row.Field.Name, row.Farm.Name, first)
		}
		seen[key] = s.row.Place
		rows = append(rows, row)
	}
	if len(rows) == 0 && s.found == 0 {
		s.fault(0, "", "the file has a header and no rows")
	}
	if s.found > 0 {
		return nil, s.refusal()
	}
	return rows, nil
}

func (s *sheet) stand() StandRow {
	c := standColumns
	row := StandRow{Row: s.row.Place}
	row.Farm = book.Farm{Name: s.text(c["farm"]...), County: s.text(c["county"]...)}
	row.Field = book.Field{Name: s.text(c["field"]...), Station: s.text(c["station"]...)}
	acres, _ := s.number("ac", c["acres"]...)
	row.Field.Acres = math.Round(acres*100) / 100 // hectares turn into acres with endless digits
	row.Field.Latitude, _ = s.number("deg", c["latitude"]...)
	row.Field.Longitude, _ = s.number("deg", c["longitude"]...)
	row.Stand = book.Stand{Field: "pending", Crop: cropOf(s.text(c["crop"]...)), Variety: s.text(c["variety"]...), Product: book.Product(strings.ToLower(s.text(c["product"]...))), Sentinel: s.yes(c["sentinel"]...)}
	day, ok := s.date(c["seeded"]...)
	if !ok && s.text(c["seeded"]...) == "" {
		s.fault(s.row.Place, "seeded", "is empty: the day of seeding is wanted, YYYY-MM-DD")
	}
	row.Stand.Seeded = day
	row.Stand.GrassShare, _ = s.share(c["grass_share"]...)
	row.Stand.FeedRFV, _ = s.number("", c["feed_rfv"]...)
	row.Contact = book.Contact{Name: s.text(c["contact"]...), Phone: s.text(c["phone"]...)}
	s.checked(s.row.Place, row.Farm.Check())
	s.checked(s.row.Place, row.Field.Check())
	told := row.Stand
	if !ok {
		told.Seeded = book.EarliestSeeding // its fault is noted already
	}
	s.checked(s.row.Place, told.Check())
	row.Stand.Field = ""
	return row
}

// cropOf reads a crop by the words people use for it; others are left for the check to refuse.
func cropOf(s string) book.Crop {
	plain := tabular.Plain(s)
	for crop, words := range map[book.Crop][]string{
		book.Alfalfa:       {"alfalfa", "lucerne"},
		book.ReducedLignin: {"reducedligninalfalfa", "reducedlignin", "lowlignin", "lowligninalfalfa"},
		book.RedClover:     {"redclover", "clover"},
		book.AlfalfaGrass:  {"alfalfagrass", "alfalfawithgrass", "mix", "mixture", "mixed"},
	} {
		if slices.Contains(words, plain) {
			return crop
		}
	}
	return book.Crop(s)
}

// WriteStands writes stands as [ReadStands] reads them.
func WriteStands(w io.Writer, rows []StandRow) error {
	out := tabular.NewWriter(w)
	if err := out.Row(standOrder...); err != nil {
		return err
	}
	for _, r := range rows {
		err := out.Row(tabular.Safe(r.Farm.Name), tabular.Safe(r.Farm.County), tabular.Safe(r.Field.Name), tabular.Float(r.Field.Acres),
			orEmpty(r.Field.Latitude), orEmpty(r.Field.Longitude), tabular.Safe(r.Field.Station), string(r.Stand.Crop), r.Stand.Seeded.String(),
			orEmpty(r.Stand.GrassShare), tabular.Safe(r.Stand.Variety), string(r.Stand.Product), orEmpty(r.Stand.FeedRFV), yesNo(r.Stand.Sentinel),
			tabular.Safe(r.Contact.Name), tabular.Safe(r.Contact.Phone))
		if err != nil {
			return err
		}
	}
	return out.Close()
}

func orEmpty(v float64) string {
	if v == 0 {
		return ""
	}
	return tabular.Float(v)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return ""
}
