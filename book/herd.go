package book

import (
	"errors"
	"fmt"
	"strings"
)

// GroupKind is what the animals of a group are.
type GroupKind string

// The kinds of group.
const (
	Lactating GroupKind = "lactating"
	DryCows   GroupKind = "dry"
	Heifer    GroupKind = "heifer"
)

// GroupKinds lists the kinds known.
func GroupKinds() []GroupKind { return []GroupKind{Lactating, DryCows, Heifer} }

// QualityGroups are the lines of a table of quality targets, from the most demanding on.
func QualityGroups() []string {
	return []string{"early-cows", "late-cows", "young-calves", "heifers", "breeding-heifers", "older-animals"}
}

// Group is a pen of animals fed alike. What is 0 was not said.
type Group struct {
	Name         string    `json:"name"`
	Kind         GroupKind `json:"kind"`
	Head         int       `json:"head"`
	WeightLb     float64   `json:"weight_lb"`
	MilkLb       float64   `json:"milk_lb,omitempty"` // a head and day
	Fat          float64   `json:"fat_pct,omitempty"`
	Protein      float64   `json:"protein_pct,omitempty"` // true protein
	DaysInMilk   float64   `json:"days_in_milk,omitempty"`
	DaysPregnant float64   `json:"days_pregnant,omitempty"` // dry cows
	MatureLb     float64   `json:"mature_lb,omitempty"`     // weight of a grown cow, for heifers
	DietNDF      float64   `json:"diet_ndf_pct,omitempty"`  // of dry matter
	ForageNDF    float64   `json:"forage_ndf_pct,omitempty"`
	IntakeLb     float64   `json:"intake_lb,omitempty"` // dry matter a head and day, weighed at the bunk
	ForageShare  float64   `json:"forage_share"`        // of the diet's dry matter, 0-1
	LegumeShare  float64   `json:"legume_share"`        // of the forage, 0-1
	SilageShare  float64   `json:"silage_share,omitempty"`
	Target       string    `json:"target,omitempty"` // line of the quality table; empty: by kind
}

// ForageCrop is a forage that the farm grows for its herd, or counts on.
type ForageCrop struct {
	Forage  string  `json:"forage"`           // legume, corn silage, other
	Yield   float64 `json:"yield_tons_acre"`  // standing, dry matter a year; 0: as the book judges its stands
	Field   float64 `json:"field_loss"`       // share of the standing crop
	Storage float64 `json:"storage_loss"`     // share of what is stored
	Feeding float64 `json:"feeding_loss"`     // share of what is fed out
	Reserve float64 `json:"reserve,omitzero"` // kept over a year's need, as a share of it
}

// Forages lists the forages that a herd's need is parted into.
func Forages() []string { return []string{"legume", "corn silage", "other"} }

// Herd is a farm's animals as they stood on a day; a newer one takes its place.
type Herd struct {
	Edition string       `json:"edition,omitempty"` // of the feeding standard answers go by: 2001 or 2021
	Groups  []Group      `json:"groups"`
	Crops   []ForageCrop `json:"crops,omitempty"`
}

// QualityRow is the forage quality wanted for a group; a nil end is open.
type QualityRow struct {
	Group   string   `json:"group"`
	RFQLow  *float64 `json:"rfq_low,omitempty"`
	RFQHigh *float64 `json:"rfq_high,omitempty"`
	Fat     *float64 `json:"fat_over,omitempty"` // RFQ from which the group gets fat on it
}

// Quality is the book's table of quality targets: a published one, with rows of its own over it.
type Quality struct {
	Base string       `json:"base"` // wisconsin or minnesota
	Rows []QualityRow `json:"rows,omitempty"`
}

// Kind says what the body is.
func (Herd) Kind() Kind    { return KindHerd }
func (Quality) Kind() Kind { return KindQuality } // see Herd

// Check implements [Body].
func (b Herd) Check() error {
	errs := []error{}
	if b.Edition != "" {
		errs = append(errs, oneOf("edition", b.Edition, []string{"2001", "2021"}))
	}
	seen := map[string]bool{}
	for _, g := range b.Groups {
		errs = append(errs, g.Check())
		key := strings.ToLower(strings.TrimSpace(g.Name))
		if seen[key] {
			errs = append(errs, fmt.Errorf("group %q is there twice: give each a name of its own", g.Name))
		}
		seen[key] = true
	}
	for _, c := range b.Crops {
		errs = append(errs, c.Check())
		if seen["crop "+c.Forage] {
			errs = append(errs, fmt.Errorf("forage %q is there twice", c.Forage))
		}
		seen["crop "+c.Forage] = true
	}
	return errors.Join(errs...)
}

// Check says what cannot be true of a group, a line a field.
func (g Group) Check() error {
	errs := []error{
		named("group", g.Name), oneOf("kind", g.Kind, GroupKinds()), within("head", float64(g.Head), 0, 100000, "animals"),
		within("weight", g.WeightLb, 80, 2600, "lb"), within("forage share", g.ForageShare, 0, 1, "(a share of the dry matter)"),
		within("legume share", g.LegumeShare, 0, 1, "(a share of the forage)"), within("silage share", g.SilageShare, 0, 1, "(a share of the forage)"),
	}
	if s := g.LegumeShare + g.SilageShare; s > 1+1e-9 {
		errs = append(errs, fmt.Errorf("silage share %g and legume share %g add to %.2f: accepted up to 1", g.SilageShare, g.LegumeShare, s))
	}
	for _, x := range []struct {
		what      string
		v         float64
		low, high float64
		unit      string
	}{
		{"milk", g.MilkLb, 1, 200, "lb a head and day"}, {"fat", g.Fat, 1, 9, "%"}, {"protein", g.Protein, 1, 8, "%"},
		{"days in milk", g.DaysInMilk, 1, 1000, "days"}, {"days pregnant", g.DaysPregnant, 150, 290, "days"},
		{"mature weight", g.MatureLb, 500, 2600, "lb"}, {"diet NDF", g.DietNDF, 10, 80, "% of dry matter"},
		{"forage NDF", g.ForageNDF, 20, 80, "% of dry matter"}, {"intake", g.IntakeLb, 1, 100, "lb of dry matter a head and day"},
	} {
		if x.v != 0 {
			errs = append(errs, within(x.what, x.v, x.low, x.high, x.unit))
		}
	}
	if g.Kind == Lactating && g.IntakeLb == 0 {
		if g.MilkLb == 0 {
			errs = append(errs, errors.New("milk is missing: a lactating group wants it, 1 to 200 lb a head and day"))
		}
		if g.Fat == 0 {
			errs = append(errs, errors.New("fat is missing: a lactating group wants it, 1 to 9 %"))
		}
		if g.DaysInMilk == 0 {
			errs = append(errs, errors.New("days in milk is missing: a lactating group wants it, 1 to 1000 days"))
		}
	}
	if g.Target != "" {
		errs = append(errs, oneOf("target", g.Target, QualityGroups()))
	}
	return errors.Join(errs...)
}

// Check says what cannot be true of a forage crop.
func (c ForageCrop) Check() error {
	errs := []error{oneOf("forage", c.Forage, Forages())}
	if c.Yield != 0 {
		errs = append(errs, within("yield", c.Yield, 0.1, 20, "tons of dry matter an acre"))
	}
	return errors.Join(append(errs,
		within("field loss", c.Field, 0, 0.9, "(a share)"), within("storage loss", c.Storage, 0, 0.9, "(a share)"),
		within("feeding loss", c.Feeding, 0, 0.9, "(a share)"), within("reserve", c.Reserve, 0, 2, "(a share of the need)"))...)
}

// Check implements [Body].
func (b Quality) Check() error {
	errs := []error{oneOf("table", b.Base, []string{"wisconsin", "minnesota"})}
	for _, r := range b.Rows {
		errs = append(errs, oneOf("group", r.Group, QualityGroups()))
		for _, x := range []struct {
			what string
			v    *float64
		}{{"RFQ from", r.RFQLow}, {"RFQ to", r.RFQHigh}, {"RFQ too good over", r.Fat}} {
			if x.v != nil {
				errs = append(errs, within(r.Group+" "+x.what, *x.v, 60, 250, "points"))
			}
		}
		if r.RFQLow != nil && r.RFQHigh != nil && *r.RFQLow > *r.RFQHigh {
			errs = append(errs, fmt.Errorf("%s: RFQ from %g is over RFQ to %g", r.Group, *r.RFQLow, *r.RFQHigh))
		}
	}
	return errors.Join(errs...)
}
