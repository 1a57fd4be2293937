package book

import (
	"errors"
	"fmt"
	"maps"
	"slices"
)

// SoilTest is what a laboratory found in a field's soil. Its subject is the field, Day of its fact the day
// the sample was taken. Values stand as they were printed: one by another extractant or in another unit is
// another number, and is never turned here.
type SoilTest struct {
	Lab      string             `json:"lab,omitempty"`
	Number   string             `json:"number,omitempty"`    // the laboratory's own, of the sample
	Part     string             `json:"part,omitempty"`      // of the field, where it was sampled by parts
	DepthIn  float64            `json:"depth_in,omitempty"`  // sampled to, inches; 0 where nobody said
	PH       float64            `json:"ph,omitempty"`        // in water; 0 where not measured
	Buffer   float64            `json:"buffer,omitempty"`    // buffer pH; 0 where not measured
	BufferBy Buffer             `json:"buffer_by,omitempty"` // which buffer
	P        *Extracted         `json:"p,omitempty"`
	K        *Extracted         `json:"k,omitempty"`
	More     map[string]float64 `json:"more,omitempty"` // by code of [SoilValues]
}

// Buffer is a buffer solution by which the acidity of a soil is measured.
type Buffer string

// The buffers. A lime table goes with one of them.
const (
	SMP         Buffer = "smp"
	Sikora      Buffer = "sikora"
	Sikora2     Buffer = "sikora-2"
	Mehlich     Buffer = "mehlich"
	AdamsEvans  Buffer = "adams-evans"
	Woodruff    Buffer = "woodruff"
	OtherBuffer Buffer = "other"
)

// Buffers lists the buffers known.
func Buffers() []Buffer {
	return []Buffer{SMP, Sikora, Sikora2, Mehlich, AdamsEvans, Woodruff, OtherBuffer}
}

// Extracted is phosphorus or potassium as an extractant found it.
type Extracted struct {
	Value float64    `json:"value"`
	Unit  SoilUnit   `json:"unit"`
	By    Extractant `json:"by"`
}

// SoilUnit is what a content of soil is told in.
type SoilUnit string

// The units: parts in a million, and pounds an acre in a slice that weighs two million pounds, which is
// what laboratories print whatever the depth.
const (
	PPM      SoilUnit = "ppm"
	LbAcre   SoilUnit = "lb/ac"
	lbPerPPM          = 2 // lb/ac in that slice for a ppm, [source.SoilSlice]
)

// Extractant is what drew a nutrient out of a soil. Numbers by two of them cannot be compared.
type Extractant string

// The extractants.
const (
	BrayP1          Extractant = "bray-p1" // of phosphorus; one state reads potassium in it too
	Mehlich3        Extractant = "mehlich-3"
	Mehlich3Color   Extractant = "mehlich-3-color" // of phosphorus, read by color and near Bray
	Olsen           Extractant = "olsen"
	AmmoniumAcetate Extractant = "ammonium-acetate"
)

// PExtractants lists those of phosphorus.
func PExtractants() []Extractant { return []Extractant{BrayP1, Mehlich3, Mehlich3Color, Olsen} }

// KExtractants lists those of potassium.
func KExtractants() []Extractant { return []Extractant{AmmoniumAcetate, Mehlich3, BrayP1} }

// PPM is the content in parts in a million.
func (e Extracted) PPM() float64 {
	if e.Unit == LbAcre {
		return e.Value / lbPerPPM
	}
	return e.Value
}

// SoilValue is a value that a soil test may report beside pH, P and K, with the range that is taken.
type SoilValue struct {
	Code, About string
	Low, High   float64
	Unit        string
}

const ppmSoil = "ppm"

// soilValues are wide of all soils seen (a choice).
var soilValues = []SoilValue{
	{"om", "organic matter", 0.1, 90, "%"},
	{"cec", "exchange capacity", 0.5, 80, "meq/100 g"},
	{"acidity", "exchangeable acidity", 0, 40, "meq/100 g"},
	{"ca", "calcium", 20, 15000, ppmSoil},
	{"mg", "magnesium", 5, 3000, ppmSoil},
	{"na", "sodium", 0, 3000, ppmSoil},
	{"s", "sulfur", 0, 500, ppmSoil},
	{"b", "boron", 0, 20, ppmSoil},
	{"zn", "zinc", 0, 300, ppmSoil},
	{"mn", "manganese", 0, 1000, ppmSoil},
	{"fe", "iron", 0, 1500, ppmSoil},
	{"cu", "copper", 0, 300, ppmSoil},
	{"nitrate", "nitrate nitrogen", 0, 500, ppmSoil},
	{"subsoil-ph", "pH of the subsoil", 3, 10, ""},
	{"subsoil-p", "phosphorus of the subsoil", 0, 1000, ppmSoil},
	{"subsoil-k", "potassium of the subsoil", 0, 3000, ppmSoil},
	{"salts", "soluble salts", 0, 30, "dS/m"},
}

// SoilValues lists them.
func SoilValues() []SoilValue { return slices.Clone(soilValues) }

// Kind says what the body is.
func (SoilTest) Kind() Kind { return KindSoilTest }

// Check implements [Body].
func (b SoilTest) Check() error {
	var errs []error
	if b.PH == 0 && b.P == nil && b.K == nil {
		errs = append(errs, errors.New("a soil test without pH, P or K says too little: one of them wanted"))
	}
	if b.DepthIn != 0 {
		errs = append(errs, within("depth", b.DepthIn, 1, 48, "inches"))
	}
	if b.PH != 0 {
		errs = append(errs, within("pH", b.PH, 3, 10, ""))
	}
	if b.Buffer != 0 {
		errs = append(errs, within("buffer pH", b.Buffer, 4, 8, ""))
		if b.BufferBy == "" {
			errs = append(errs, fmt.Errorf("buffer pH %g without its buffer: which of them was used decides the lime; accepted %v", b.Buffer, Buffers()))
		}
	}
	if b.BufferBy != "" {
		errs = append(errs, oneOf("buffer", b.BufferBy, Buffers()))
	}
	errs = append(errs, b.P.check("P", PExtractants(), 1000), b.K.check("K", KExtractants(), 3000))
	for _, code := range slices.Sorted(maps.Keys(b.More)) {
		i := slices.IndexFunc(soilValues, func(v SoilValue) bool { return v.Code == code })
		if i < 0 {
			errs = append(errs, fmt.Errorf("no value of soil has the code %q", code))
			continue
		}
		v := soilValues[i]
		errs = append(errs, within(code, b.More[code], v.Low, v.High, v.Unit))
	}
	return errors.Join(errs...)
}

// check tells what is wrong with a content, none being nothing wrong. most is in ppm.
func (e *Extracted) check(what string, by []Extractant, most float64) error {
	if e == nil {
		return nil
	}
	if e.By == "" {
		return fmt.Errorf("%s %g without its extractant: two of them find different numbers in one soil; accepted %v", what, e.Value, by)
	}
	if err := errors.Join(oneOf(what+" extractant", e.By, by), oneOf(what+" unit", e.Unit, []SoilUnit{PPM, LbAcre})); err != nil {
		return err
	}
	if e.Unit == LbAcre {
		most *= lbPerPPM
	}
	return within(what, e.Value, 0, most, string(e.Unit))
}

// TissueTest is what a laboratory found in the tops of a growing stand. Its subject is the stand, Day of its
// fact the day the sample was taken.
type TissueTest struct {
	Lab    string             `json:"lab,omitempty"`
	Number string             `json:"number,omitempty"`
	Part   string             `json:"part,omitempty"`  // top-6in, top-4in, whole
	Stage  string             `json:"stage,omitempty"` // bud, first-bloom, bloom
	Values map[string]float64 `json:"values"`          // by code of [TissueValues]
}

// TissueParts are what is sampled.
func TissueParts() []string { return []string{"top-6in", "top-4in", "whole"} }

// TissueStages are the stages at which it is sampled.
func TissueStages() []string { return []string{"bud", "first-bloom", "bloom"} }

// tissueValues are wide of all legume tops seen (a choice).
var tissueValues = []SoilValue{
	{"n", "nitrogen", 0.5, 8, "%"},
	{"p", "phosphorus", 0.03, 1.5, "%"},
	{"k", "potassium", 0.2, 7, "%"},
	{"ca", "calcium", 0.1, 5, "%"},
	{"mg", "magnesium", 0.03, 2, "%"},
	{"s", "sulfur", 0.03, 1.5, "%"},
	{"b", "boron", 1, 400, ppmSoil},
	{"mn", "manganese", 1, 2000, ppmSoil},
	{"fe", "iron", 5, 2000, ppmSoil},
	{"cu", "copper", 0.5, 300, ppmSoil},
	{"zn", "zinc", 1, 500, ppmSoil},
	{"mo", "molybdenum", 0, 50, ppmSoil},
}

// TissueValues lists the elements of a tissue test, of dry matter.
func TissueValues() []SoilValue { return slices.Clone(tissueValues) }

// Kind says what the body is.
func (TissueTest) Kind() Kind { return KindTissue }

// Check implements [Body].
func (b TissueTest) Check() error {
	var errs []error
	if len(b.Values) == 0 {
		errs = append(errs, errors.New("a tissue test without a value"))
	}
	if b.Part != "" {
		errs = append(errs, oneOf("part", b.Part, TissueParts()))
	}
	if b.Stage != "" {
		errs = append(errs, oneOf("stage", b.Stage, TissueStages()))
	}
	for _, code := range slices.Sorted(maps.Keys(b.Values)) {
		i := slices.IndexFunc(tissueValues, func(v SoilValue) bool { return v.Code == code })
		if i < 0 {
			errs = append(errs, fmt.Errorf("no element of tissue has the code %q", code))
			continue
		}
		v := tissueValues[i]
		errs = append(errs, within(code, b.Values[code], v.Low, v.High, v.Unit+" of dry matter"))
	}
	return errors.Join(errs...)
}
