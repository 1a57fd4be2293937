package exchange

import (
	"io"
	"slices"

	"haywarden/book"
	"haywarden/tabular"
)

// Stands is a table of farms, fields and stands.
type Stands struct {
	File
	Stands []StandRow
}

// StandRow is one stand with its farm and field. What a row does not say is empty; where an empty
// value would be an answer too, Says tells.
type StandRow struct {
	Row     int
	Farm    book.Farm
	Field   book.Field
	Stand   book.Stand   // without its field: who takes it in knows the field's id
	Contact book.Contact // who to ring on the farm; an empty name where none was given
	Says    Says
}

// Says tells of what a row of a table of stands speaks.
type Says struct{ Grass, Sentinel, Hairy bool }

// standColumns are the columns of a table of stands, in the order in which they are written.
var standColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "county", Also: []string{"county name"}},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "acres", Also: []string{"acreage", "area ac", "area acres", "field acres"}, in: []spelling{{"ha", []string{"hectares", "ha", "area ha", "area hectares"}}, {stated, []string{"area", "size"}}}, Needed: true},
	{Name: "latitude", Also: []string{"lat", "field latitude"}},
	{Name: "longitude", Also: []string{"lon", "long", "lng", "field longitude"}},
	{Name: "station", Also: []string{"weather station", "station id"}},
	{Name: "crop", Also: []string{"species", "kind", "crop type", "forage"}, Needed: true},
	{Name: "seeded", Also: []string{"seeding date", "seed date", "date seeded", "seeded on", "planted", "planting date"}, Needed: true},
	{Name: "turned_under", Also: []string{"turned under on", "terminated", "date terminated"}, check: "turned under"},
	{Name: "grass_share", Also: []string{"grass", "share of grass"}, in: []spelling{{"%", []string{"grass pct", "grass percent", "pct grass"}}}},
	{Name: "variety", Also: []string{"cultivar"}},
	{Name: "product", Also: []string{"usual product", "first cut product", "stored as"}},
	{Name: "feed_rfv", Also: []string{"rfv", "target rfv", "rfv wanted", "rfv wanted when fed"}, check: "RFV wanted when fed"},
	{Name: "hopper_resistant", Also: []string{"leafhopper resistant", "glandular hairs"}},
	{Name: "sentinel", Also: []string{"sentinel field"}},
	{Name: "contact", Also: []string{"contact name", "producer", "producer name"}},
	{Name: "phone", Also: []string{"contact phone", "telephone", "phone number"}},
}

// StandColumns lists the columns of a table of stands.
func StandColumns() []Column { return slices.Clone(standColumns) }

var crops = []call[book.Crop]{
	{book.Alfalfa, []string{"lucerne"}},
	{book.ReducedLignin, []string{"reduced lignin", "alfalfa reduced lignin", "low lignin alfalfa", "low lignin", "reduced lignin lucerne"}},
	{book.RedClover, []string{"clover red"}},
	{book.AlfalfaGrass, []string{"alfalfa grass mix", "alfalfa grass mixture", "alfalfa and grass", "alfalfa with grass", "grass alfalfa", "lucerne grass", "mix", "mixture", "mixed"}},
}

var products = []call[book.Product]{
	{book.Hay, []string{"dry hay"}},
	{book.Haylage, []string{"silage", "hay silage", "alfalfa silage"}},
	{book.Baleage, []string{"balage", "wrapped bales", "bale silage"}},
}

// ReadStands reads a table of farms, fields and stands: farm, field, acres, crop and seeded are needed.
// Acres may carry ha or stand under hectares; the share of grass may be 0.3 or 30 %.
func ReadStands(r io.Reader, name string) (Stands, error) {
	s, err := open(r, name, standColumns)
	if err != nil {
		return Stands{}, err
	}
	var rows []StandRow
	soFar := standsSoFar{farms: map[string]*StandRow{}, fields: map[string][]*StandRow{}, contacts: map[string]*StandRow{}}
	for {
		more, err := s.next()
		if err != nil {
			return Stands{}, err
		}
		if !more {
			return Stands{File: s.file, Stands: rows}, nil
		}
		row := s.standRow()
		rows = append(rows, row)
		if row.Farm.Name != "" && row.Field.Name != "" {
			s.agree(soFar, &row)
		}
	}
}

// standRow reads the row.
func (s *sheet) standRow() StandRow {
	row := StandRow{Row: s.row.Place}
	row.Farm = book.Farm{Name: s.name("farm"), County: s.text("county")}
	row.Field = book.Field{Name: s.name("field"), Station: s.text("station"), Latitude: s.degrees("latitude"), Longitude: s.degrees("longitude")}
	if (s.raw("latitude") == "") != (s.raw("longitude") == "") {
		s.Add(row.Row, "", "latitude and longitude go together; give both or neither")
	}
	acres := s.quantity("acres", "ac")
	if acres != nil {
		row.Field.Acres = *acres
	} else if s.raw("acres") == "" {
		s.fault("acres", "is empty; 0.1 to 2000 acres wanted")
	}
	if row.Field.Name != "" && acres != nil {
		s.accept(row.Field.Check())
	}
	row.Stand = book.Stand{
		Crop: oneOf(s, "crop", crops, true), Variety: s.text("variety"), Product: oneOf(s, "product", products, false),
	}
	if rfv := s.quantity("feed_rfv", "RFV"); rfv != nil {
		row.Stand.FeedRFV = *rfv
		if *rfv == 0 {
			s.fault("feed_rfv", "accepted 80 to 220 points, or nothing")
		}
	}
	seeded, ok := s.date("seeded", true)
	row.Stand.Seeded = seeded
	if gone, under := s.date("turned_under", false); under {
		row.Stand.TurnedUnder = &gone
	}
	grass, sentinel, hairy := s.share("grass_share"), s.yes("sentinel"), s.yes("hopper_resistant")
	row.Says = Says{Grass: grass != nil, Sentinel: sentinel != nil, Hairy: hairy != nil}
	row.Stand.GrassShare, row.Stand.Sentinel, row.Stand.Hairy = or(grass, 0), or(sentinel, false), or(hairy, false)
	if ok && row.Stand.Crop != "" {
		whole := row.Stand
		whole.Field = "known to the book"
		s.accept(whole.Check())
	}
	row.Contact = book.Contact{Name: s.text("contact"), Phone: s.text("phone")}
	if row.Contact.Name == "" && row.Contact.Phone != "" {
		s.fault("contact", "is empty beside a phone; whose is it?")
	}
	return row
}

// degrees is a cell as a part of a position, 0 where it says none.
func (s *sheet) degrees(col string) float64 { return or(s.quantity(col, "deg"), 0) }

func or[T any](v *T, otherwise T) T {
	if v == nil {
		return otherwise
	}
	return *v
}

// standsSoFar is what earlier rows said, by the plain names of what they said it of.
type standsSoFar struct {
	farms, contacts map[string]*StandRow
	fields          map[string][]*StandRow
}

// agree notes where a row says otherwise of its farm, its field or its contact than an earlier one, or
// puts a second stand where one grows.
func (s *sheet) agree(soFar standsSoFar, row *StandRow) {
	farm := tabular.Plain(row.Farm.Name)
	if county := row.Farm.County; county != "" {
		if first := soFar.farms[farm]; first == nil {
			soFar.farms[farm] = row
		} else if first.Farm.County != county {
			s.fault("county", "%s is in %s in row %d; a farm has one county", row.Farm.Name, first.Farm.County, first.Row)
		}
	}
	if c := row.Contact; c.Name != "" {
		key := farm + " " + tabular.Plain(c.Name)
		if first := soFar.contacts[key]; first == nil {
			soFar.contacts[key] = row
		} else if c.Phone != "" && first.Contact.Phone != c.Phone {
			s.fault("phone", "%s has %q in row %d; give one number", c.Name, first.Contact.Phone, first.Row)
		}
	}
	field := farm + " " + tabular.Plain(row.Field.Name)
	for _, other := range soFar.fields[field] {
		switch {
		case row.Stand.Seeded == 0 || other.Stand.Seeded == 0: // that is a fault already
		case !apart(row.Stand, other.Stand):
			s.fault("field", "it has a stand in row %d; a field has one stand at a time: say when the earlier was turned under (column turned_under), or take one out", other.Row)
			return
		case row.Field.Acres != other.Field.Acres:
			s.fault("acres", "the field has %s acres in row %d", tabular.Float(other.Field.Acres), other.Row)
			return
		}
	}
	soFar.fields[field] = append(soFar.fields[field], row)
}

// apart reports whether one of two stands was turned under before the other was seeded.
func apart(a, b book.Stand) bool {
	gone := func(first, then book.Stand) bool {
		return first.TurnedUnder != nil && *first.TurnedUnder <= then.Seeded
	}
	return gone(a, b) || gone(b, a)
}
