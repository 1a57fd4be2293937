package exchange

import (
	"io"
	"slices"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Herds is a table of herds.
type Herds struct {
	File
	Herds []HerdRow
}

// HerdRow is one farm's herd on a day, gathered from the rows of both.
type HerdRow struct {
	Row  int // the first of them
	Farm string
	Day  unit.Day // 0: no row says one
	Herd book.Herd
}

var herdColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "date", Also: []string{"day", "as of"}},
	{Name: "group", Also: []string{"pen", "group name"}, Needed: true},
	{Name: "kind", Also: []string{"animals", "type"}, Needed: true},
	{Name: "head", Also: []string{"animals in it", "number", "count"}, Needed: true},
	{Name: "weight", Also: []string{"weight lb", "body weight", "bw lb"}, in: []spelling{{"kg", []string{"weight kg", "bw kg"}}}, Needed: true},
	{Name: "milk", Also: []string{"milk lb", "milk lb day"}, in: []spelling{{"kg", []string{"milk kg"}}}},
	{Name: "fat", Also: []string{"fat pct", "milk fat"}},
	{Name: "protein", Also: []string{"protein pct", "true protein"}},
	{Name: "days_in_milk", Also: []string{"dim"}, check: "days in milk"},
	{Name: "days_pregnant", check: "days pregnant"},
	{Name: "mature_weight", Also: []string{"mature lb", "mature weight lb"}, in: []spelling{{"kg", []string{"mature kg", "mature weight kg"}}}, check: "mature weight"},
	{Name: "diet_ndf", Also: []string{"diet ndf pct"}, check: "diet NDF"},
	{Name: "forage_ndf", Also: []string{"forage ndf pct"}, check: "forage NDF"},
	{Name: "intake", Also: []string{"intake lb", "dmi lb", "dmi"}, in: []spelling{{"kg", []string{"intake kg", "dmi kg"}}}},
	{Name: "forage_share", Also: []string{"forage"}, in: []spelling{{"%", []string{"forage pct"}}}, check: "forage share", Needed: true},
	{Name: "legume_share", Also: []string{"legume"}, in: []spelling{{"%", []string{"legume pct"}}}, check: "legume share"},
	{Name: "silage_share", Also: []string{"corn silage share", "corn silage"}, in: []spelling{{"%", []string{"silage pct", "corn silage pct"}}}, check: "silage share"},
	{Name: "target", Also: []string{"quality group"}},
	{Name: "yield", Also: []string{"yield tons acre", "tons acre"}},
	{Name: "field_loss", in: []spelling{{"%", []string{"field loss pct"}}}, check: "field loss"},
	{Name: "storage_loss", in: []spelling{{"%", []string{"storage loss pct"}}}, check: "storage loss"},
	{Name: "feeding_loss", in: []spelling{{"%", []string{"feeding loss pct"}}}, check: "feeding loss"},
	{Name: "reserve", in: []spelling{{"%", []string{"reserve pct"}}}},
}

// HerdColumns lists the columns of a table of herds.
func HerdColumns() []Column { return slices.Clone(herdColumns) }

// cropKind is what the column kind says of a row that is a forage and no group.
const cropKind = "forage"

var groupKinds = []call[string]{
	{string(book.Lactating), []string{"milking", "cows", "milk cows", "lactating cows", "in milk"}},
	{string(book.DryCows), []string{"dry cows"}},
	{string(book.Heifer), []string{"heifers", "calves", "young stock", "youngstock"}},
	{cropKind, []string{"forage crop", "crop"}},
}

var forageNames = []call[string]{
	{"legume", []string{"alfalfa", "clover", "legumes"}}, {"corn silage", []string{"silage", "corn"}}, {"other", []string{"grass", "other forage"}},
}

var qualityNames = func() (calls []call[string]) {
	for _, g := range book.QualityGroups() {
		calls = append(calls, call[string]{word: g})
	}
	return calls
}()

// ReadHerds reads herds, a row a group: farm, group, kind, head, weight
// and forage_share are needed. Rows of one farm and date
// are one herd, which takes the place of an older one whole. A row of kind forage tells of a forage the
// farm grows, named in the column group: its yield, losses and reserve. Weights and milk are pounds
// unless they say otherwise; shares are 0.3 or 30 %.
func ReadHerds(r io.Reader, name string) (Herds, error) {
	s, err := open(r, name, herdColumns)
	if err != nil {
		return Herds{}, err
	}
	var order []*HerdRow
	at := map[string]*HerdRow{}
	named := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Herds{}, err
		}
		if !more {
			break
		}
		farm := s.name("farm")
		day, _ := s.date("date", false)
		key := tabular.Plain(farm) + " " + day.String()
		if at[key] == nil {
			at[key] = &HerdRow{Row: s.row.Place, Farm: farm, Day: day}
			order = append(order, at[key])
		}
		s.herdRow(&at[key].Herd, key, named)
	}
	out := Herds{File: s.file}
	for _, h := range order {
		out.Herds = append(out.Herds, *h)
	}
	return out, nil
}

// herdRow reads a group or a forage into the herd it belongs to.
func (s *sheet) herdRow(h *book.Herd, key string, named map[string]int) {
	kind := oneOf(s, "kind", groupKinds, true)
	var called string
	if kind == cropKind {
		c := s.forageCrop()
		called = "forage " + c.Forage
		h.Crops = append(h.Crops, c)
	} else {
		g := s.group(book.GroupKind(kind))
		called = tabular.Plain(g.Name)
		h.Groups = append(h.Groups, g)
	}
	key += " " + called
	if first := named[key]; first != 0 && called != "" {
		s.fault("group", "the herd has it in row %d; take one out", first)
	}
	named[key] = s.row.Place
}

func (s *sheet) group(kind book.GroupKind) book.Group {
	found := len(s.list)
	g := book.Group{Name: s.name("group"), Kind: kind, Target: oneOf(s, "target", qualityNames, false)}
	if n := s.count("head"); n != nil {
		g.Head = *n
	} else if s.raw("head") == "" {
		s.fault("head", "is empty; 0 to 100000 animals wanted")
	}
	for _, c := range []struct {
		col, unit string
		to        *float64
	}{
		{"weight", "lb", &g.WeightLb}, {"milk", "lb", &g.MilkLb}, {"mature_weight", "lb", &g.MatureLb}, {"intake", "lb", &g.IntakeLb},
		{"fat", "%", &g.Fat}, {"protein", "%", &g.Protein}, {"diet_ndf", "%", &g.DietNDF}, {"forage_ndf", "%", &g.ForageNDF},
		{"days_in_milk", "", &g.DaysInMilk}, {"days_pregnant", "", &g.DaysPregnant},
	} {
		*c.to = or(s.quantity(c.col, c.unit), 0)
	}
	g.ForageShare, g.LegumeShare, g.SilageShare = or(s.share("forage_share"), 0), or(s.share("legume_share"), 0), or(s.share("silage_share"), 0)
	for _, col := range []string{"weight", "forage_share"} {
		if s.raw(col) == "" {
			s.fault(col, "is empty; a group wants it")
		}
	}
	if len(s.list) == found && kind != "" {
		s.accept(g.Check())
	}
	return g
}

func (s *sheet) forageCrop() book.ForageCrop {
	found := len(s.list)
	c := book.ForageCrop{}
	raw := tabular.Plain(s.raw("group"))
	for _, f := range forageNames {
		for _, w := range append([]string{f.word}, f.also...) {
			if raw == tabular.Plain(w) {
				c.Forage = f.word
			}
		}
	}
	if c.Forage == "" {
		s.fault("group", "a row of kind forage names legume, corn silage or other here")
	}
	c.Yield = or(s.quantity("yield", "tons/ac"), 0)
	c.Field, c.Storage, c.Feeding, c.Reserve = or(s.share("field_loss"), 0), or(s.share("storage_loss"), 0), or(s.share("feeding_loss"), 0), or(s.share("reserve"), 0)
	if len(s.list) == found {
		s.accept(c.Check())
	}
	return c
}
