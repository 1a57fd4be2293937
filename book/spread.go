package book

import (
	"errors"
	"fmt"
	"maps"
	"slices"
)

// Application is what was spread on a field on a day: lime, fertilizer or manure. Its subject is the field.
type Application struct {
	Class    SpreadClass `json:"class"`
	Material string      `json:"material"` // as it is called: mop, dap, aglime, dairy-liquid, or any name with its analysis
	Rate     float64     `json:"rate"`
	Unit     RateUnit    `json:"unit"`
	// Analysis is what a laboratory or the bag says of it, by code of [AnalysisCodes]; where it is empty the
	// usual analysis of a material known by its name is taken.
	Analysis     map[string]float64 `json:"analysis,omitempty"`
	Cut          int                `json:"after_cut,omitempty"`    // of the year, that it was spread after; 0 before the first or in the seeding year
	Incorporated bool               `json:"incorporated,omitempty"` // worked in
	DepthIn      float64            `json:"depth_in,omitempty"`     // worked in to, inches
	Part         string             `json:"part,omitempty"`         // of the field; empty for all of it
	Note         string             `json:"note,omitempty"`
}

// SpreadClass is what kind of thing was spread.
type SpreadClass string

// The classes.
const (
	LimeSpread       SpreadClass = "lime"
	FertilizerSpread SpreadClass = "fertilizer"
	ManureSpread     SpreadClass = "manure"
)

// SpreadClasses lists them.
func SpreadClasses() []SpreadClass { return []SpreadClass{LimeSpread, FertilizerSpread, ManureSpread} }

// RateUnit is what a rate is told in, an acre.
type RateUnit string

// The units of rates.
const (
	PoundsAcre  RateUnit = "lb/ac"
	TonsAcre    RateUnit = "ton/ac"
	GallonsAcre RateUnit = "gal/ac"
)

// RateUnits lists them.
func RateUnits() []RateUnit { return []RateUnit{PoundsAcre, TonsAcre, GallonsAcre} }

// Pounds is the rate in pounds an acre; not ok for gallons, whose weight nobody said.
func (b Application) Pounds() (lb float64, ok bool) {
	switch b.Unit {
	case PoundsAcre:
		return b.Rate, true
	case TonsAcre:
		return 2000 * b.Rate, true
	default:
		return 0, false
	}
}

// ofFertilizer, ofManure and ofLime are what an analysis may say of each class: % by weight of fertilizer,
// lb in a ton or in 1,000 gal of manure; of lime its effective neutralizing lb a ton, purity and moisture.
var (
	ofFertilizer = []SoilValue{
		{"n", "nitrogen", 0, 100, "%"}, {"p2o5", "phosphate", 0, 100, "%"}, {"k2o", "potash", 0, 100, "%"},
		{"s", "sulfur", 0, 100, "%"}, {"mg", "magnesium", 0, 100, "%"}, {"ca", "calcium", 0, 100, "%"}, {"b", "boron", 0, 25, "%"}, {"zn", "zinc", 0, 100, "%"},
	}
	ofManure = []SoilValue{
		{"n", "nitrogen", 0, 150, "lb"}, {"p2o5", "phosphate", 0, 150, "lb"}, {"k2o", "potash", 0, 150, "lb"}, {"s", "sulfur", 0, 60, "lb"}, {"mg", "magnesium", 0, 60, "lb"}, {"ca", "calcium", 0, 300, "lb"},
	}
	ofLime = []SoilValue{
		{"effective", "effective neutralizing power", 200, 3600, "lb/ton"}, {"cce", "calcium carbonate equivalent", 20, 180, "%"}, {"moisture", "moisture", 0, 60, "%"}, {"mg", "magnesium", 0, 25, "%"},
	}
)

// AnalysisCodes lists what an analysis may say of a class.
func AnalysisCodes(c SpreadClass) []SoilValue {
	switch c {
	case LimeSpread:
		return slices.Clone(ofLime)
	case ManureSpread:
		return slices.Clone(ofManure)
	default:
		return slices.Clone(ofFertilizer)
	}
}

// Kind says what the body is.
func (Application) Kind() Kind { return KindApplication }

// Check implements [Body].
func (b Application) Check() error {
	errs := []error{named("material", b.Material), oneOf("class", b.Class, SpreadClasses()), oneOf("unit", b.Unit, RateUnits())}
	most := map[RateUnit]float64{PoundsAcre: 5000, TonsAcre: 60, GallonsAcre: 40000}[b.Unit]
	if b.Class == LimeSpread {
		most = map[RateUnit]float64{PoundsAcre: 30000, TonsAcre: 15}[b.Unit]
		if b.Unit == GallonsAcre {
			errs = append(errs, errors.New("unit gal/ac: lime is told in ton/ac or lb/ac"))
		}
	}
	if most > 0 {
		switch {
		case b.Rate == 0:
			errs = append(errs, fmt.Errorf("rate 0: accepted over 0 to %g %s", most, b.Unit))
		default:
			errs = append(errs, within("rate", b.Rate, 0, most, string(b.Unit)))
		}
	}
	if b.Class == FertilizerSpread && b.Unit == GallonsAcre {
		errs = append(errs, errors.New("unit gal/ac: the weight of a gallon of fertilizer is not known here; lb/ac wanted"))
	}
	if b.Cut != 0 {
		errs = append(errs, within("after cut", float64(b.Cut), 1, 9, "(of the year)"))
	}
	if b.DepthIn != 0 {
		errs = append(errs, within("depth", b.DepthIn, 1, 14, "inches"))
	}
	return errors.Join(append(errs, b.checkAnalysis())...)
}

func (b Application) checkAnalysis() error {
	var errs []error
	codes, whole := AnalysisCodes(b.Class), 0.
	for _, code := range slices.Sorted(maps.Keys(b.Analysis)) {
		i := slices.IndexFunc(codes, func(v SoilValue) bool { return v.Code == code })
		if i < 0 {
			errs = append(errs, fmt.Errorf("the analysis of %s has no %q", b.Class, code))
			continue
		}
		errs = append(errs, within(code, b.Analysis[code], codes[i].Low, codes[i].High, codes[i].Unit))
		whole += b.Analysis[code]
	}
	if b.Class == FertilizerSpread && whole > 100 {
		errs = append(errs, fmt.Errorf("the analysis adds up to %g %% of the weight: accepted up to 100", whole))
	}
	return errors.Join(errs...)
}

// Seeding is how a stand was sown. Its subject is the stand, Day of its fact the day of seeding.
type Seeding struct {
	Lots       []SeedLot `json:"lots"`
	Method     string    `json:"method,omitempty"`   // drilled, broadcast, frost-seeded, no-till
	DepthIn    float64   `json:"depth_in,omitempty"` // inches
	Companion  string    `json:"companion,omitempty"`
	Inoculated bool      `json:"inoculated,omitempty"`
	Note       string    `json:"note,omitempty"`
}

// SeedLot is one seed of a seeding: its tag and its rate.
type SeedLot struct {
	Species     string  `json:"species"`
	Variety     string  `json:"variety,omitempty"`
	Lot         string  `json:"lot,omitempty"`
	RateLb      float64 `json:"rate_lb_acre"`              // out of the bag
	Purity      float64 `json:"purity_pct,omitempty"`      // by the tag
	Germination float64 `json:"germination_pct,omitempty"` // by the tag, hard seed in it
	Coating     float64 `json:"coating_pct,omitempty"`
}

// SeedingMethods lists how stands are sown.
func SeedingMethods() []string { return []string{"drilled", "broadcast", "frost-seeded", "no-till"} }

// Kind says what the body is.
func (Seeding) Kind() Kind { return KindSeeding }

// Check implements [Body].
func (b Seeding) Check() error {
	var errs []error
	if len(b.Lots) == 0 {
		errs = append(errs, errors.New("a seeding without a seed"))
	}
	if b.Method != "" {
		errs = append(errs, oneOf("method", b.Method, SeedingMethods()))
	}
	if b.DepthIn != 0 {
		errs = append(errs, within("depth", b.DepthIn, 0, 3, "inches"))
	}
	for _, l := range b.Lots {
		errs = append(errs, named("species", l.Species), within("rate of "+l.Species, l.RateLb, 0.1, 200, "lb/ac"))
		for _, p := range []struct {
			what string
			v    float64
		}{{"purity", l.Purity}, {"germination", l.Germination}} {
			if p.v != 0 {
				errs = append(errs, within(p.what+" of "+l.Species, p.v, 10, 100, "%"))
			}
		}
		errs = append(errs, within("coating of "+l.Species, l.Coating, 0, 60, "%"))
	}
	return errors.Join(errs...)
}
