package exchange

import (
	"slices"

	"haywarden/book"
)

// A laboratory says in the heading, in a column of its own or nowhere by what a soil was extracted. The
// codes of phosphorus and potassium tell the extractant; p and k alone want it said elsewhere.
var (
	pColumns = []extracted{
		{"p", ""}, {"p-bray", book.BrayP1}, {"p-mehlich3", book.Mehlich3}, {"p-mehlich3-color", book.Mehlich3Color}, {"p-olsen", book.Olsen},
	}
	kColumns = []extracted{
		{"k", ""}, {"k-acetate", book.AmmoniumAcetate}, {"k-mehlich3", book.Mehlich3}, {"k-bray", book.BrayP1},
	}
	bufferColumns = []buffered{
		{"buffer", ""}, {"buffer-smp", book.SMP}, {"buffer-sikora", book.Sikora}, {"buffer-mehlich", book.Mehlich}, {limeIndex, book.SMP},
	}
)

type extracted struct {
	code string
	by   book.Extractant
}

type buffered struct {
	code string
	by   book.Buffer
}

// limeIndex is the SMP buffer pH times ten, as some laboratories print it.
const limeIndex = "lime-index"

// ways are what an extractant is called.
var ways = map[book.Extractant][]string{
	book.BrayP1:          {"bray", "bray 1", "bray p1", "bray i", "weak bray"},
	book.Mehlich3:        {"mehlich 3", "mehlich iii", "m3", "m3 icp", "mehlich 3 icp"},
	book.Mehlich3Color:   {"mehlich 3 color", "mehlich 3 colorimetric", "m3 color", "m3 col"},
	book.Olsen:           {"olsen", "olsen bicarbonate", "bicarbonate", "bicarb", "sodium bicarbonate"},
	book.AmmoniumAcetate: {"ammonium acetate", "nh4oac", "acetate", "am acetate", "amm acetate", "neutral ammonium acetate"},
}

// called puts an extractant to a nutrient as headings do, in either order.
func called(by book.Extractant, nutrient ...string) (names []string) {
	for _, n := range nutrient {
		for _, w := range ways[by] {
			names = append(names, w+" "+n, n+" "+w)
		}
	}
	return names
}

func extractants(of ...book.Extractant) (calls []call[book.Extractant]) {
	for _, by := range of {
		calls = append(calls, call[book.Extractant]{by, ways[by]})
	}
	return calls
}

var bufferCalls = []call[book.Buffer]{
	{book.SMP, []string{"smp buffer", "shoemaker mclean pratt"}}, {book.Sikora, []string{"sikora buffer"}}, {book.Sikora2, []string{"sikora ii"}},
	{book.Mehlich, []string{"mehlich buffer", "modified mehlich"}}, {book.AdamsEvans, []string{"adams evans buffer", "moore sikora"}}, {book.Woodruff, []string{"woodruff buffer"}}, {book.OtherBuffer, nil},
}

var (
	contentUnits  = []TermUnit{{"ppm", []string{"mg/kg", "parts per million"}, 1}, {"lb/ac", []string{"lb/acre", "lbs/ac", "lbs/acre", "lb/a", "lbs/a", "pounds/acre", "poundsperacre", "lbperacre", "lbsperacre", "#/acre", "#/a", "lb/acres"}, 0.5}}
	capacityUnits = []TermUnit{{"meq/100 g", []string{"meq/100g", "meq/100grams", "cmol/kg", "cmolc/kg"}, 1}}
	saltUnits     = []TermUnit{{"dS/m", []string{"ds/m", "mmho/cm", "mmhos/cm"}, 1}}
	depthUnits    = []TermUnit{{"in", []string{"inch", "inches"}, 1}, {"cm", nil, 1 / 2.54}}
	plainUnits    = []TermUnit{{"", []string{"ph", "s.u."}, 1}}
)

// soilNames are what laboratories call the other values.
var soilNames = map[string][]string{
	"om": {"organic matter", "o m", "org matter", "loi", "soil organic matter"}, "cec": {"cation exchange capacity", "exchange capacity", "est cec", "c e c"},
	"acidity": {"exchangeable acidity", "exch acidity", "acidity meq"}, "ca": {"calcium"}, "mg": {"magnesium"}, "na": {"sodium"}, "s": {"sulfur", "sulphur", "sulfate s", "so4 s", "s sulfate"}, //nolint:misspell // as laboratories elsewhere spell it
	"b": {"boron", "hot water boron"}, "zn": {"zinc", "dtpa zinc"}, "mn": {"manganese"}, "fe": {"iron"}, "cu": {"copper"}, "nitrate": {"no3 n", "nitrate n", "nitrate nitrogen", "no3"},
	"subsoil-ph": {"subsoil ph", "ph subsoil"}, "subsoil-p": {"subsoil p", "p subsoil"}, "subsoil-k": {"subsoil k", "k subsoil"}, "salts": {"soluble salts", "ec", "electrical conductivity"},
}

// inUnits are the spellings of a column in our own form whose heading says its unit.
func inUnits(code string) []spelling {
	return []spelling{{"ppm", []string{code + " ppm"}}, {"lb/ac", []string{code + " lb ac", code + " lb acre"}}}
}

// isContent reports whether a value is a content, which laboratories print in ppm or in lb an acre.
func isContent(unitName string) bool { return unitName == string(book.PPM) }

var soilColumns = makeSoilColumns()

func makeSoilColumns() []Column {
	columns := []Column{
		{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
		{Name: "field", Also: []string{"field name"}, Needed: true},
		{Name: "sampled", Also: []string{"sample date", "date sampled", "sampled on", "date", "day"}, Needed: true},
		{Name: "lab", Also: []string{"laboratory", "lab name"}},
		{Name: "number", Also: []string{"lab number", "sample number"}},
		{Name: "part", Also: []string{"zone", "part of field"}},
		{Name: "depth", Also: []string{"depth in", "sample depth", "sampling depth", "depth inches"}, check: "depth"},
		{Name: "ph", Also: []string{"water ph", "soil ph", "ph water", "ph 1 1", "wph", "ph w"}, check: "pH"},
		{Name: "extractant"}, {Name: "extractant-p", Also: []string{"p extractant"}}, {Name: "extractant-k", Also: []string{"k extractant"}},
		{Name: "buffer-by", Also: []string{"buffer method", "buffer kind"}},
	}
	for _, b := range bufferColumns {
		columns = append(columns, Column{Name: b.code})
	}
	for _, e := range slices.Concat(pColumns, kColumns) {
		columns = append(columns, Column{Name: e.code, in: inUnits(e.code)})
	}
	for _, v := range book.SoilValues() {
		c := Column{Name: v.Code}
		if isContent(v.Unit) {
			c.in = inUnits(v.Code)
		}
		columns = append(columns, c)
	}
	return columns
}

// SoilColumns lists the columns of a table of soil tests.
func SoilColumns() []Column { return slices.Clone(soilColumns) }

// SoilTerms lists what a laboratory's table of soil tests may say.
func SoilTerms() []Term { return slices.Clone(soilTerms) }

var soilTerms = makeSoilTerms()

func makeSoilTerms() (terms []Term) {
	also := func(name string) []string {
		i := slices.IndexFunc(soilColumns, func(c Column) bool { return c.Name == name })
		return soilColumns[i].Also
	}
	word := func(code, about string, needed bool, names ...string) {
		terms = append(terms, Term{Code: code, About: about, Names: slices.Concat(also(code), names), Needed: needed})
	}
	number := func(code, about string, units []TermUnit, say bool, names ...string) {
		terms = append(terms, Term{Code: code, About: about, Names: slices.Concat(also(code), names), Units: units, SayUnit: say})
	}
	word("farm", callingAbout["farm"], true, callings["farm"]...)
	word("field", callingAbout["field"], true, "field id", "field no", "tract", "sample description")
	word("sampled", callingAbout["sampled"], true, callings["sampled"]...)
	word("lab", callingAbout["lab"], false)
	word("number", callingAbout["number"], false, callings["number"]...)
	word("part", "part of the field, where it was sampled by parts", false, "sample", "grid", "sample name")
	number("depth", "depth that was sampled", depthUnits, false, "bottom depth", "lower depth")
	number("ph", "pH in water", plainUnits, false, "1 1 ph", "ph h2o")
	word("extractant", "by what P and K were extracted", false, "extraction", "extraction method", "method")
	word("extractant-p", "by what P was extracted", false, "p method", "phosphorus method")
	word("extractant-k", "by what K was extracted", false, "k method", "potassium method")
	word("buffer-by", "which buffer", false, "buffer type")
	for _, b := range bufferColumns {
		switch b.code {
		case "buffer":
			number(b.code, "buffer pH, by the buffer said elsewhere", plainUnits, false, "buffer ph", "bph", "ph buffer", "lime buffer")
		case limeIndex:
			number(b.code, "SMP buffer pH times ten", plainUnits, false, "lime test index", "lti")
		default:
			by := string(b.by)
			number(b.code, "buffer pH by "+by, plainUnits, false, by+" buffer", by+" buffer ph", "buffer ph "+by, by+" ph", "buffer "+by, by+" bph")
		}
	}
	for _, n := range []struct {
		what    string
		columns []extracted
		names   []string
	}{{"phosphorus", pColumns, []string{"p", "phosphorus"}}, {"potassium", kColumns, []string{"k", "potassium"}}} {
		for _, e := range n.columns {
			if e.by == "" {
				number(e.code, n.what+", by the extractant said elsewhere", contentUnits, true, n.what, "soil "+e.code, "available "+e.code, "available "+n.what)
				continue
			}
			number(e.code, n.what+" by "+string(e.by), contentUnits, true, called(e.by, n.names...)...)
		}
	}
	for i := range terms {
		if terms[i].Code == "p-bray" {
			terms[i].Names = append(terms[i].Names, "p1", "p 1", "bray p1", "weak bray p1")
		}
	}
	for _, v := range book.SoilValues() {
		units, say := contentUnits, true
		switch v.Unit {
		case "%":
			units, say = shareUnits, false
		case "meq/100 g":
			units, say = capacityUnits, false
		case "dS/m":
			units, say = saltUnits, false
		case "":
			units, say = plainUnits, false
		}
		number(v.Code, v.About, units, say, soilNames[v.Code]...)
	}
	return terms
}
