package exchange

import (
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// FeedLots is a table of feed in store, of what was found left of it and of what is fed.
type FeedLots struct {
	File
	Rows []FeedLotRow
}

// FeedLotRow is feed put into store, what was left of it on a day, or what is fed of it from a day on.
type FeedLotRow struct {
	Row       int
	Farm, Lot string
	Day       unit.Day
	Fields    []string // that it was cut from, by name
	Put       *book.FeedLot
	Left      *book.LotLeft
	Fed       *book.LotFed
}

var feedLotColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "lot", Also: []string{"feed", "lot name"}, Needed: true},
	{Name: "date", Also: []string{"day", "filled"}, Needed: true},
	{Name: "store", Also: []string{"kept in", "silo", "structure"}, Needed: true},
	{Name: "forage", Also: []string{"crop"}},
	{Name: "fields", Also: []string{"field", "field names"}},
	{Name: "cutting", Also: []string{"cut"}},
	{Name: "tons_dm", Also: []string{"tons", "tons dry matter"}, check: "tons"},
	{Name: "diameter", in: []spelling{{"m", []string{"diameter m"}}}}, {Name: "height", Also: []string{"settled depth"}, in: []spelling{{"m", []string{"height m"}}}},
	{Name: "width", in: []spelling{{"m", []string{"width m"}}}}, {Name: "length", in: []spelling{{"m", []string{"length m"}}}},
	{Name: "wall", in: []spelling{{"m", []string{"wall m"}}}}, {Name: "crown", in: []spelling{{"m", []string{"crown m"}}}}, {Name: "ramp", in: []spelling{{"m", []string{"ramp m"}}}},
	{Name: "area1"}, {Name: "area2"},
	{Name: "density", Also: []string{"density lb ft3"}, in: []spelling{{"kg/m3", []string{"density kg m3"}}}},
	{Name: "density_by", check: "density by"},
	{Name: "bales", Also: []string{"number of bales"}},
	{Name: "bale_weight", Also: []string{"bale lb"}, in: []spelling{{"kg", []string{"bale kg"}}}, check: "bale weight"},
	{Name: "weighed"},
	{Name: "moisture", Also: []string{"moisture pct"}},
	{Name: "rfq", check: "RFQ"}, {Name: "ndf", Also: []string{"ndf pct"}, check: "NDF"},
	{Name: "left_tons", check: "tons left"}, {Name: "left_bales", check: "bales left"}, {Name: "removed", Also: []string{"removed ft", "feet removed"}, in: []spelling{{"m", []string{"removed m"}}}},
	{Name: "fed", Also: []string{"lb day", "fed lb day"}, in: []spelling{{"kg/day", []string{"kg day", "fed kg day"}}}},
	{Name: "group", Also: []string{"fed to"}},
}

// FeedLotColumns lists the columns of a table of feed in store.
func FeedLotColumns() []Column { return slices.Clone(feedLotColumns) }

var feedStores = []call[string]{
	{"sealed-tower", []string{"oxygen limiting tower", "sealed"}}, {"stave-tower", []string{"tower", "stave"}}, {"bunker", []string{"bunk", "trench"}}, {"pile", []string{"drive over pile"}},
	{"bag", []string{"bags"}}, {"wrapped-bale", []string{"wrapped bales", "wrapped", "baleage"}},
	{"inside", []string{"barn", "shed", "indoors"}}, {"covered", []string{"tarp", "under a tarp"}}, {"outside-ground", []string{"outside", "on the ground"}}, {"outside-raised", []string{"raised", "on pallets"}},
}

var densityWays = []call[string]{{"cores", []string{"cored", "core"}}, {"packing", []string{"reckoned"}}, {"table", []string{"guess", "usual"}}}

// ReadFeedLots reads feed in store: farm, lot and date are needed. A row with a store puts the lot up on
// that day: its forage (legume where none is named), the fields and cutting it came from, its size in
// feet with its density in lb of dry matter/ft3, or its bales with their weight, or its tons. A row with
// left_tons, left_bales or removed (feet fed off a silo) says what was left on that day; one with fed how
// many lb of dry matter a day are fed from then on, and to which group. The column store must be there,
// its cells may be empty.
func ReadFeedLots(r io.Reader, name string) (FeedLots, error) {
	s, err := open(r, name, feedLotColumns)
	if err != nil {
		return FeedLots{}, err
	}
	out := FeedLots{}
	for {
		more, err := s.next()
		if err != nil {
			return FeedLots{}, err
		}
		if !more {
			break
		}
		row := FeedLotRow{Row: s.row.Place, Farm: s.name("farm"), Lot: s.name("lot")}
		row.Day, _ = s.date("date", true)
		s.feedLotRow(&row)
		out.Rows = append(out.Rows, row)
	}
	out.File = s.file
	return out, nil
}

func (s *sheet) feedLotRow(row *FeedLotRow) {
	left := book.LotLeft{TonsDM: s.quantity("left_tons", ""), Bales: s.count("left_bales"), Removed: s.quantity("removed", "ft")}
	fed := s.quantity("fed", "lb/day")
	if s.raw("store") != "" {
		s.feedLot(row)
	}
	if left != (book.LotLeft{}) {
		row.Left = &left
		s.accept(left.Check())
	}
	if fed != nil {
		row.Fed = &book.LotFed{LbDay: *fed, Group: s.text("group")}
		s.accept(row.Fed.Check())
	}
	if s.raw("store") == "" && row.Left == nil && row.Fed == nil && s.raw("left_tons")+s.raw("left_bales")+s.raw("removed")+s.raw("fed") == "" {
		s.fault("store", "is empty, and nothing is left or fed; a lot wants its store, a look what is left, feeding its lb a day")
	}
}

// feedLot reads the feed that a row puts into store.
func (s *sheet) feedLot(row *FeedLotRow) {
	found := len(s.list)
	number := func(col, want string) float64 {
		if v := s.quantity(col, want); v != nil {
			return *v
		}
		return 0
	}
	b := book.FeedLot{Name: row.Lot, Store: oneOf(s, "store", feedStores, true), Forage: oneOf(s, "forage", forageNames, false), TonsDM: number("tons_dm", ""), RFQ: number("rfq", ""), NDF: number("ndf", "%"), Wet: number("moisture", "%")}
	if b.Forage == "" {
		b.Forage = "legume"
	}
	if n := s.count("cutting"); n != nil {
		b.Cutting = *n
	}
	for _, f := range strings.FieldsFunc(s.text("fields"), func(r rune) bool { return r == ';' || r == ',' }) {
		row.Fields = append(row.Fields, strings.TrimSpace(f))
	}
	size := book.LotSize{
		Diameter: number("diameter", "ft"), Height: number("height", "ft"), Width: number("width", "ft"), Length: number("length", "ft"), Wall: number("wall", "ft"), Crown: number("crown", "ft"), Ramp: number("ramp", "ft"),
		Area1: number("area1", "ft2"), Area2: number("area2", "ft2"), Density: number("density", "lb/ft3"), By: oneOf(s, "density_by", densityWays, false),
	}
	if size != (book.LotSize{}) {
		b.Size = &size
	}
	if n := s.count("bales"); n != nil {
		b.Bales = &book.LotBales{Number: *n, WeighLb: number("bale_weight", "lb")}
		if w := s.yes("weighed"); w != nil {
			b.Bales.Weighed = *w
		}
	}
	if row.Put = &b; len(s.list) == found {
		s.accept(b.Check())
	}
}
