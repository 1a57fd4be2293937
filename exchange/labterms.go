package exchange

import (
	"maps"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/book"
)

// LabForage is what a [book.TableForm] of laboratory results of forage tells of.
const LabForage = book.OfForage

var labColumns = append([]Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "sampled", Also: []string{"sample date", "date sampled", "sampled on", "date", "day"}, Needed: true},
	{Name: "lab", Also: []string{"laboratory", "lab name"}},
	{Name: "sample", Also: []string{"sample kind", "kind", "feed", "sample type"}, Needed: true},
	{Name: "number", Also: []string{"lab number", "sample number"}},
	{Name: "lot", Also: []string{"lot number"}},
	{Name: "cutting", Also: []string{"cutting number"}},
	{Name: "method", Also: []string{"lab method"}},
	{Name: basisCode},
	{Name: "adf", Also: []string{"adf pct", "adf pct dm"}, Needed: true, check: "ADF"},
	{Name: "ndf", Also: []string{"ndf pct", "ndf pct dm", "andf"}, Needed: true, check: "NDF"},
	{Name: "cp", Also: []string{"protein", "crude protein", "cp pct", "cp pct dm"}, check: "protein"},
}, valueColumns()...)

// valueColumns are the other values, under their codes.
func valueColumns() (columns []Column) {
	for _, v := range book.LabValues() {
		columns = append(columns, Column{Name: v.Code})
	}
	return columns
}

// LabColumns lists the columns of a table of laboratory results.
func LabColumns() []Column { return slices.Clone(labColumns) }

// callings are what laboratories call who and what a sample is of, beside the names of our own columns.
var callings = map[string][]string{
	"farm":    {"client", "client name", "customer", "producer", "grower", "account name", "submitted for"},
	"field":   {"description", "sample description", "sample desc", "field id", "sample name", "identification"},
	"sampled": {"sampling date", "date collected", "collected", "collection date"},
	"sample":  {"feed type", "product", "product type", "forage type", "feed name", "material", "feed code"},
	"number":  {"lab no", "lab id", "sample no", "sample id", "report number", "report no", "log number"},
	"lot":     {"lot id", "stack"},
	"cutting": {"cut", "cut number", "cutting no"},
	"method":  {"analysis", "analysis type", "test type", "analysis method"},
	basisCode: {"reported on", "reporting basis"},
}

var callingAbout = map[string]string{
	"farm": "farm", "field": "field", "sampled": "day the sample was taken", "lab": "laboratory", "sample": "standing, hay, haylage or baleage",
	"number": "the laboratory's number of the sample", "lot": "lot", "cutting": "cutting of the year", "method": "wet chemistry or NIR",
	basisCode: "whether the row is of dry matter or as fed",
}

var (
	percentUnits = []TermUnit{{"%", []string{"percent", "pct"}, 1}, {"g/kg", nil, 0.1}, {"ppm", []string{"mg/kg"}, 1e-4}}
	shareUnits   = percentUnits[:1]
	energyUnits  = []TermUnit{{"Mcal/kg", nil, 1}, {"Mcal/lb", nil, 1 / 0.45359237}, {"Mcal/cwt", nil, 1 / 45.359237}, {"MJ/kg", nil, 1 / 4.184}}
	bareUnits    = []TermUnit{{"", []string{"points", "rfv", "rfq"}, 1}}
)

// LabTerms lists what a laboratory's table may say.
func LabTerms() []Term { return slices.Clone(labTerms) }

var labTerms = makeLabTerms()

func makeLabTerms() (terms []Term) {
	column := func(name string) Column {
		i := slices.IndexFunc(labColumns, func(c Column) bool { return c.Name == name })
		return labColumns[i]
	}
	for _, code := range []string{"farm", "field", "sampled", "lab", "sample", "number", "lot", "cutting", "method", basisCode} {
		c := column(code)
		terms = append(terms, Term{Code: code, About: callingAbout[code], Names: slices.Concat(c.Also, callings[code]), Needed: c.Needed})
	}
	for _, f := range forage.LabFields() {
		t := Term{Code: f.Code, About: f.About, Names: f.Also, OnBasis: f.Of.OnBasis(), Needed: column(f.Code).Needed}
		switch f.Of {
		case forage.NoneOfAll:
			t.Units = bareUnits
		case forage.EnergyDM:
			t.Units, t.SayUnit = energyUnits, true
		case forage.OfDM:
			t.Units = percentUnits
		default:
			t.Units = shareUnits
		}
		if f.Of != forage.NoneOfAll {
			t.About += ", " + string(f.Of)
		}
		terms = append(terms, t)
	}
	return terms
}

// LabReport gives a result as the checks of forage read it.
func LabReport(l book.Lab) forage.Report {
	r := forage.Report{"adf": l.ADF, "ndf": l.NDF}
	if l.CP != 0 {
		r["cp"] = l.CP
	}
	maps.Copy(r, l.More)
	return r
}
