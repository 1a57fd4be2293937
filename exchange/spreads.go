package exchange

import (
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Spreads is a table of lime, fertilizer and manure that was spread.
type Spreads struct {
	File
	Spread []SpreadRow
}

// SpreadRow is one application.
type SpreadRow struct {
	Row         int
	Farm, Field string
	Day         unit.Day
	Application book.Application
}

// analysis is the columns of what the bag, the quarry or a laboratory says of a material.
var analysis = []string{"n", "p2o5", "k2o", "s", "mg", "ca", "b", "zn", "effective", "cce", "moisture"}

var spreadColumns = makeSpreadColumns()

func makeSpreadColumns() []Column {
	columns := []Column{
		{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
		{Name: "field", Also: []string{"field name"}, Needed: true},
		{Name: "date", Also: []string{"day", "applied", "date applied", "spread on"}, Needed: true},
		{Name: "material", Also: []string{"product", "what"}, Needed: true},
		{Name: "class", Also: []string{"kind", "type"}},
		{Name: "rate", Also: []string{"rate per acre", "amount per acre"}, Needed: true, check: "rate", in: []spelling{
			{"lb/ac", []string{"rate lb ac", "rate lb acre", "lb ac", "lb acre"}}, {"ton/ac", []string{"rate ton ac", "rate tons acre", "tons ac", "tons acre"}}, {"gal/ac", []string{"rate gal ac", "rate gal acre", "gal ac", "gal acre"}},
		}},
		{Name: "unit", Also: []string{"rate unit", "units"}},
		{Name: "after_cut", Also: []string{"cut"}, check: "after cut"},
		{Name: "incorporated", Also: []string{"worked in"}},
		{Name: "depth", Also: []string{"depth in"}, check: "depth"},
		{Name: "part", Also: []string{"zone"}},
		{Name: "note", Also: []string{"remarks", "comment"}},
	}
	for _, code := range analysis {
		columns = append(columns, Column{Name: code})
	}
	return columns
}

// SpreadColumns lists the columns of a table of applications.
func SpreadColumns() []Column { return slices.Clone(spreadColumns) }

var spreadClasses = []call[book.SpreadClass]{
	{book.LimeSpread, []string{"limestone", "liming"}}, {book.FertilizerSpread, []string{"fertiliser", "commercial fertilizer"}}, {book.ManureSpread, []string{"slurry", "compost"}}, //nolint:misspell // as it is spelt elsewhere
}

// materials are what goes by a usual name, with the class it is of. Their analyses are kept with the science.
var materials = []struct {
	called call[string]
	class  book.SpreadClass
}{
	{call[string]{"map", []string{"11-52-0", "monoammonium phosphate"}}, book.FertilizerSpread},
	{call[string]{"dap", []string{"18-46-0", "diammonium phosphate"}}, book.FertilizerSpread},
	{call[string]{"tsp", []string{"0-46-0", "triple superphosphate"}}, book.FertilizerSpread},
	{call[string]{"mop", []string{"0-0-60", "0-0-62", "potash", "muriate of potash", "potassium chloride"}}, book.FertilizerSpread},
	{call[string]{"sop", []string{"0-0-50", "sulfate of potash", "potassium sulfate"}}, book.FertilizerSpread},
	{call[string]{"kmag", []string{"0-0-22", "sulfate of potash-magnesia", "sulfate of potash magnesia"}}, book.FertilizerSpread},
	{call[string]{"as", []string{"21-0-0", "ammonium sulfate", "ams"}}, book.FertilizerSpread},
	{call[string]{"gyp", []string{"gypsum", "calcium sulfate"}}, book.FertilizerSpread},
	{call[string]{"es", []string{"elemental sulfur"}}, book.FertilizerSpread},
	{call[string]{"b14", []string{"borate 14.3", "borate"}}, book.FertilizerSpread},
	{call[string]{"b20", []string{"borate 20.5", "soluble borate"}}, book.FertilizerSpread},
	{call[string]{"dairy-liquid", []string{"dairy slurry", "liquid dairy manure", "dairy manure liquid"}}, book.ManureSpread},
	{call[string]{"dairy-solid", []string{"dairy pack", "solid dairy manure", "dairy manure solid"}}, book.ManureSpread},
	{call[string]{"aglime", []string{"lime", "ag lime", "limestone", "ground limestone"}}, book.LimeSpread},
	{call[string]{"dolomitic-lime", []string{"dolomite", "dolomitic limestone", "dolomitic lime"}}, book.LimeSpread},
}

var rateUnits = []call[book.RateUnit]{
	{book.PoundsAcre, []string{"lb", "lbs", "pounds", "lb/acre", "lbs/ac", "lbs/acre", "lb/a", "lbs/a", "pounds/acre"}},
	{book.TonsAcre, []string{"t", "ton", "tons", "ton/acre", "tons/ac", "tons/acre", "ton/a", "tons/a", "t/ac"}},
	{book.GallonsAcre, []string{"gal", "gallons", "gal/acre", "gallons/acre", "gal/a"}},
}

// ReadSpreads reads lime, fertilizer and manure that was spread, a row an application: farm, field, date,
// material and rate an acre are needed. The unit stands after the rate, in its heading, or under unit: lb/ac,
// ton/ac or gal/ac. A material not known by its name wants its class and, where it is to count, its
// analysis: % of fertilizer, lb in a ton or in 1,000 gal of manure, of lime its effective lb a ton.
func ReadSpreads(r io.Reader, name string) (Spreads, error) {
	s, err := open(r, name, spreadColumns)
	if err != nil {
		return Spreads{}, err
	}
	var out Spreads
	seen := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return Spreads{}, err
		}
		if !more {
			break
		}
		row := s.spreadRow()
		key := keyOfSpread(row)
		if first := seen[key]; first != 0 {
			s.Add(row.Row, "", "it says what row %d says; take one out", first)
		}
		seen[key] = row.Row
		out.Spread = append(out.Spread, row)
	}
	out.File = s.file
	return out, nil
}

func (s *sheet) spreadRow() SpreadRow {
	before := len(s.list)
	row := SpreadRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field")}
	row.Day, _ = s.date("date", true)
	b := book.Application{Class: oneOf(s, "class", spreadClasses, false), Material: s.name("material"), Part: s.text("part"), Note: s.text("note")}
	for _, m := range materials {
		if b.Material != "" && slices.ContainsFunc(append([]string{m.called.word}, m.called.also...), func(w string) bool { return tabular.Plain(w) == tabular.Plain(b.Material) }) {
			if b.Material = m.called.word; b.Class == "" {
				b.Class = m.class
			}
			if b.Class != m.class {
				s.fault("class", "%s is %s", m.called.word, m.class)
			}
			break
		}
	}
	if b.Class == "" && b.Material != "" && s.raw("class") == "" {
		s.fault("material", "it goes by no name known here; say under class what it is: lime, fertilizer or manure")
	}
	b.Rate, b.Unit = s.rate()
	if n := s.count("after_cut"); n != nil {
		b.Cut = *n
	}
	if yes := s.yes("incorporated"); yes != nil {
		b.Incorporated = *yes
	}
	if d := s.quantity("depth", "in"); d != nil {
		b.DepthIn = *d
	}
	b.Analysis = s.analysis(b.Class)
	if row.Application = b; len(s.list) == before {
		s.accept(b.Check())
	}
	return row
}

// rate reads how much was spread an acre, in the unit that its cell, its heading or the column unit says.
func (s *sheet) rate() (v float64, in book.RateUnit) {
	raw := s.raw("rate")
	if raw == "" {
		s.fault("rate", "is empty; a number with its unit wanted, such as 250 lb/ac")
		return 0, ""
	}
	number, said := tabular.CutUnit(raw)
	v, err := s.row.Number(number)
	if err != nil {
		s.fault("rate", "a number wanted")
		return 0, ""
	}
	for _, u := range []string{said, s.unit["rate"], s.raw("unit")} {
		if u == "" {
			continue
		}
		at := slices.IndexFunc(rateUnits, func(c call[book.RateUnit]) bool {
			return strings.EqualFold(string(c.word), u) || slices.Contains(c.also, strings.ToLower(u))
		})
		if at < 0 {
			s.fault("rate", "no unit of a rate is written %q; accepted lb/ac, ton/ac, gal/ac", u)
			return 0, ""
		}
		if in != "" && in != rateUnits[at].word {
			s.fault("rate", "%s and %s are both said of it; take one out", in, rateUnits[at].word)
			return 0, ""
		}
		in = rateUnits[at].word
	}
	if in == "" {
		s.fault("rate", "a unit wanted, after the number or under unit: lb/ac, ton/ac or gal/ac")
	}
	return v, in
}

func (s *sheet) analysis(class book.SpreadClass) map[string]float64 {
	var out map[string]float64
	for _, code := range analysis {
		want := "%"
		if i := slices.IndexFunc(book.AnalysisCodes(class), func(v book.SoilValue) bool { return v.Code == code }); i >= 0 {
			want = book.AnalysisCodes(class)[i].Unit
		}
		v, ok := s.inUnit(code, want)
		if !ok {
			continue
		}
		if out == nil {
			out = map[string]float64{}
		}
		out[code] = v
	}
	return out
}

// inUnit is a cell as a number in the one unit that it may carry; not ok where it is empty or wrong.
func (s *sheet) inUnit(col, want string) (float64, bool) {
	raw := s.raw(col)
	if raw == "" {
		return 0, false
	}
	number, after := tabular.CutUnit(raw)
	v, err := s.row.Number(number)
	switch {
	case err != nil:
		s.fault(col, "a number wanted, in %s", want)
	case after != "" && after != want:
		s.fault(col, "%s wanted, not %s", want, after)
	default:
		return v, true
	}
	return 0, false
}

func keyOfSpread(r SpreadRow) string {
	a := r.Application
	parts := []string{tabular.Plain(r.Farm), tabular.Plain(r.Field), r.Day.String(), tabular.Plain(a.Material), tabular.Plain(a.Part), strconv.FormatFloat(a.Rate, 'g', -1, 64), string(a.Unit), strconv.Itoa(a.Cut)}
	for _, code := range slices.Sorted(maps.Keys(a.Analysis)) {
		parts = append(parts, code, strconv.FormatFloat(a.Analysis[code], 'g', -1, 64))
	}
	return strings.Join(parts, "\n")
}
