package book

import (
	"errors"
	"fmt"
	"maps"
	"slices"
)

// Lab is a laboratory's result; Day of its fact is the day the sample was taken. It stands beside what
// was predicted and never in its place.
type Lab struct {
	Lab     string             `json:"lab,omitempty"`
	Sample  string             `json:"sample"` // standing, hay, haylage, baleage
	ADF     float64            `json:"adf"`    // % of dry matter
	NDF     float64            `json:"ndf"`    // % of dry matter
	CP      float64            `json:"cp,omitempty"`
	Number  string             `json:"number,omitempty"`  // the laboratory's own, of the sample
	Lot     string             `json:"lot,omitempty"`     // bales or silage the sample stands for
	Cutting int                `json:"cutting,omitempty"` // of the year, 1 the first
	Method  string             `json:"method,omitempty"`  // wet chemistry, NIR
	More    map[string]float64 `json:"more,omitempty"`    // by code of [LabValues]
}

// LabValue is a value that a laboratory may report beside fibre and protein, with the range that is taken.
type LabValue struct {
	Code      string
	Low, High float64
	Unit      string
}

// The units of laboratory values.
const (
	ofDM  = "% of dry matter"
	ofNDF = "% of NDF"
	ofCP  = "% of protein"
	mcal  = "Mcal/kg of dry matter"
)

// labValues are wide of all forages seen (a choice).
var labValues = []LabValue{
	{"dm", 10, 98, "% as fed"}, {"moisture", 2, 90, "% as fed"},
	{"acp", 2, 35, ofDM}, {"sp", 5, 90, ofCP}, {"adicp", 0, 12, ofDM}, {"ndicp", 0, 15, ofDM},
	{"andfom", 18, 80, ofDM}, {"lignin", 1, 16, ofDM},
	{"ndfd30", 10, 85, ofNDF}, {"ndfd48", 15, 90, ofNDF}, {"ndfd240", 20, 98, ofNDF}, {"undf240", 2, 45, ofDM}, {"ivtd", 30, 98, ofDM},
	{"ash", 3, 30, ofDM}, {"ee", 0.3, 8, ofDM}, {"fa", 0.3, 8, ofDM}, {"starch", 0, 20, ofDM}, {"wsc", 0, 30, ofDM}, {"esc", 0, 30, ofDM}, {"nfc", 5, 50, ofDM},
	{"ca", 0.1, 3.5, ofDM}, {"p", 0.05, 0.8, ofDM}, {"k", 0.3, 6, ofDM}, {"mg", 0.05, 1, ofDM}, {"s", 0.05, 0.8, ofDM},
	{"ph", 3, 9, ""}, {"lactic", 0, 20, ofDM}, {"acetic", 0, 15, ofDM}, {"butyric", 0, 10, ofDM}, {"nh3n", 0, 60, ofCP},
	{"rfv", 30, 400, "points"}, {"rfq", 30, 450, "points"}, {"tdn", 20, 90, ofDM}, {"nel", 0.3, 2.5, mcal}, {"nem", 0.1, 2.7, mcal}, {"neg", -0.5, 2, mcal},
}

// LabValues lists them.
func LabValues() []LabValue { return slices.Clone(labValues) }

// Check implements [Body].
func (b Lab) Check() error {
	errs := []error{
		oneOf("sample", b.Sample, []string{"standing", "hay", "haylage", "baleage"}),
		within("NDF", b.NDF, 18, 80, ofDM), within("ADF", b.ADF, 10, 60, ofDM),
	}
	if b.ADF >= b.NDF {
		errs = append(errs, fmt.Errorf("ADF %g is not under NDF %g: ADF is a part of NDF, check which is which", b.ADF, b.NDF))
	}
	if b.CP != 0 {
		errs = append(errs, within("protein", b.CP, 4, 35, ofDM))
	}
	if b.Cutting != 0 {
		errs = append(errs, within("cutting", float64(b.Cutting), 1, 9, "(of the year)"))
	}
	for _, code := range slices.Sorted(maps.Keys(b.More)) {
		i := slices.IndexFunc(labValues, func(v LabValue) bool { return v.Code == code })
		if i < 0 {
			errs = append(errs, fmt.Errorf("no laboratory value has the code %q", code))
			continue
		}
		v := labValues[i]
		errs = append(errs, within(code, b.More[code], v.Low, v.High, v.Unit))
	}
	return errors.Join(errs...)
}

// ColumnUse is what one column of somebody's table says.
type ColumnUse struct {
	Column string `json:"column"`          // as its heading is written
	Code   string `json:"code"`            // empty: the column is left out
	Unit   string `json:"unit,omitempty"`  // of its numbers; empty: the code's own
	Basis  string `json:"basis,omitempty"` // dm or as-fed where the heading says so
}

// What a [TableForm] tells of.
const (
	OfForage = "forage"
	OfSoil   = "soil"
)

// The bases of a laboratory's shares.
const (
	DryBasis = "dm"
	FedBasis = "as-fed"
	RowBasis = "row" // a column says it for each row
)

// TableForm is how a laboratory writes its tables, confirmed once by a person. Given anew it takes the
// place of what was said before.
type TableForm struct {
	Of      string      `json:"of"`    // what the tables tell of: forage, soil
	From    string      `json:"from"`  // whose tables they are
	Basis   string      `json:"basis"` // dm, as-fed or row; empty where the table is not of forage
	Columns []ColumnUse `json:"columns"`
}

// Kind implements [Body].
func (TableForm) Kind() Kind { return KindForm }

// Check implements [Body].
func (b TableForm) Check() error {
	errs := []error{named("whose tables they are", b.From), named("what the tables tell of", b.Of)}
	if b.Of == OfForage || b.Basis != "" {
		errs = append(errs, oneOf("basis", b.Basis, []string{DryBasis, FedBasis, RowBasis}))
	}
	if len(b.Columns) == 0 {
		errs = append(errs, errors.New("a form of a table without a column"))
	}
	seen := map[string]bool{}
	for _, c := range b.Columns {
		errs = append(errs, named("heading of a column", c.Column))
		if c.Basis != "" {
			errs = append(errs, oneOf("basis of "+c.Column, c.Basis, []string{DryBasis, FedBasis}))
		}
		if c.Code != "" && seen[c.Code] {
			errs = append(errs, fmt.Errorf("two columns say %s: leave one of them out", c.Code))
		}
		seen[c.Code] = true
	}
	return errors.Join(errs...)
}
