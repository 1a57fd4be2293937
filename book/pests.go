package book

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
)

// Pests is one pest counted on a visit: a figure for each sample, all of one size. Counts are kept as
// they were made, so that their spread is known.
type Pests struct {
	Pest   string    `json:"pest"`
	Counts []float64 `json:"counts"` // in each sample
	Size   float64   `json:"size"`   // of a sample: stems in a bucket, sweeps in a set, square feet, leaflets
}

// PestKind is a pest that can be counted, and in what.
type PestKind struct {
	Name string
	Unit string // what a sample is made of
	Most float64
}

// PestKinds lists them: the most is of one unit, beyond what was ever counted.
func PestKinds() []PestKind {
	return []PestKind{
		{"weevil", "stems", 50}, {"leafhopper", "sweeps", 50},
		{"pea-aphid", "stems", 2000}, {"blue-aphid", "stems", 2000}, {"spotted-aphid", "stems", 2000}, {"cowpea-aphid", "stems", 2000},
		{"pea-aphid-seedling", "stems", 500}, {"blue-aphid-seedling", "stems", 500}, {"spotted-aphid-seedling", "stems", 500}, {"cowpea-aphid-seedling", "stems", 500},
		{"spittlebug", "stems", 50}, {"plant-bug", "sweeps", 100},
		{"grasshopper-field", "square yards", 500}, {"grasshopper-margin", "square yards", 500},
		{"cutworm", "square feet", 100}, {"fall-armyworm", "square feet", 200}, {"armyworm", "square feet", 200}, {"weevil-stubble", "square feet", 500},
		{"blotch-leafminer", "leaflets", 1},
	}
}

// PestKindOf finds a pest by its name.
func PestKindOf(name string) (PestKind, bool) {
	all := PestKinds()
	i := slices.IndexFunc(all, func(k PestKind) bool { return k.Name == name })
	if i < 0 {
		return PestKind{}, false
	}
	return all[i], true
}

// mostSamples is more than anybody walks.
const mostSamples = 1000

func (b Pests) check() error {
	k, ok := PestKindOf(b.Pest)
	if !ok {
		var names []string
		for _, k := range PestKinds() {
			names = append(names, k.Name)
		}
		return fmt.Errorf("pest %q: accepted %s", b.Pest, strings.Join(names, ", "))
	}
	if len(b.Counts) == 0 || len(b.Counts) > mostSamples {
		return fmt.Errorf("%s: %d samples; accepted 1 to %d", b.Pest, len(b.Counts), mostSamples)
	}
	errs := []error{within(b.Pest+" sample", b.Size, 1, 1000, k.Unit)}
	for i, n := range b.Counts {
		if n != math.Trunc(n) {
			errs = append(errs, fmt.Errorf("%s sample %d: %g; a whole number wanted", b.Pest, i+1, n))
			continue
		}
		errs = append(errs, within(fmt.Sprintf("%s sample %d", b.Pest, i+1), n, 0, k.Most*b.Size, fmt.Sprintf("in %g %s", b.Size, k.Unit)))
	}
	return errors.Join(errs...)
}

// SprayProduct is a product that somebody may spray, as its own label was read to say. The program knows
// no products and no rates: this is the user's word. The newest of a name holds.
type SprayProduct struct {
	Name     string   `json:"name"`
	Against  []string `json:"against"`           // pests, by [PestKinds]
	PHIDays  float64  `json:"phi_days"`          // from spraying to cutting or grazing
	REIHours float64  `json:"rei_hours"`         // before anybody goes back in
	Cost     float64  `json:"cost_ac,omitempty"` // with the trip, $/ac; 0: not told
	Crops    []Crop   `json:"crops,omitempty"`   // that the label was read for, here
	// LabelRead is the day on which the label was last read for these crops in this state.
	LabelRead *unit.Day `json:"label_read,omitempty"`
}

// Confirmed reports whether the label was read for a crop in the year of a day: labels change, and last
// year's reading confirms nothing (choice).
func (b SprayProduct) Confirmed(c Crop, on unit.Day) bool {
	return slices.Contains(b.Crops, c) && b.LabelRead != nil && *b.LabelRead <= on && b.LabelRead.Year() == on.Year()
}

// Sprayed is that a stand was sprayed, with what the label of that day said.
type Sprayed struct {
	Product  string  `json:"product"`
	PHIDays  float64 `json:"phi_days"`
	REIHours float64 `json:"rei_hours"`
	By       string  `json:"by,omitempty"`
}

// Kind says what the body is.
func (SprayProduct) Kind() Kind { return KindProduct }
func (Sprayed) Kind() Kind      { return KindSprayed } // see SprayProduct

// Check implements [Body].
func (b SprayProduct) Check() error {
	errs := []error{named("product", b.Name), label(b.PHIDays, b.REIHours), within("cost", b.Cost, 0, 300, "$/ac")}
	if len(b.Against) == 0 {
		errs = append(errs, errors.New("against no pest: name those that its label names"))
	}
	for _, a := range b.Against {
		if _, ok := PestKindOf(a); !ok {
			errs = append(errs, fmt.Errorf("against %q: no pest is called so", a))
		}
	}
	for _, c := range b.Crops {
		errs = append(errs, oneOf("crop", c, Crops()))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b Sprayed) Check() error {
	return errors.Join(named("product", b.Product), label(b.PHIDays, b.REIHours))
}

func label(phi, rei float64) error {
	return errors.Join(within("days to harvest", phi, 0, 365, "days"), within("re-entry", rei, 0, 720, "hours"))
}

// SprayProducts lists what may be sprayed on a farm as of the view: the newest entry of each name, the
// farm's own before the book's, by name.
func (v *View) SprayProducts(f *FarmView) []SprayProduct {
	var out []SprayProduct
	for _, list := range [][]Dated[SprayProduct]{f.Products, v.Products} {
		for _, d := range slices.Backward(list) {
			same := func(p SprayProduct) bool { return strings.EqualFold(p.Name, d.Body.Name) }
			if !slices.ContainsFunc(out, same) {
				out = append(out, d.Body)
			}
		}
	}
	slices.SortFunc(out, func(a, b SprayProduct) int { return strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) })
	return out
}
