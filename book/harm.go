package book

import (
	"errors"
	"fmt"

	"haywarden/agronomy/unit"
)

// Crowns are plants dug, split lengthwise and rated: how many had each rating, 0 sound to 5 dead.
type Crowns [6]int

// badCrown is the rating from which a root counts as rotted or streaked.
const badCrown = 3

// Roots are the roots of the dig, and how many of them are bad.
func (c Crowns) Roots() Roots {
	var r Roots
	for rating, n := range c {
		r.Dug += n
		if rating >= badCrown {
			r.Bad += n
		}
	}
	return r
}

func (c Crowns) check() error {
	for rating, n := range c {
		if n < 0 {
			return fmt.Errorf("crowns rated %d: %d; accepted 0 and more", rating, n)
		}
	}
	if n := c.Roots().Dug; n < 1 || n > 500 {
		return fmt.Errorf("crowns: %d rated; accepted 1 to 500", n)
	}
	return nil
}

// WinterSeen is what was learnt of how a stand goes into winter. What nobody knows is empty.
type WinterSeen struct {
	Hardiness  string `json:"hardiness,omitempty"`  // of the variety: moderate, hardy, very
	Resistance string `json:"resistance,omitempty"` // to root and crown diseases: none, moderate, high
	Drainage   string `json:"drainage,omitempty"`   // of the soil: poor, medium, good
	Moisture   string `json:"moisture,omitempty"`   // of the soil in that fall: wet, medium, dry
	Stubble    *bool  `json:"stubble,omitempty"`    // more than 6 in left at the last cut
}

func (w WinterSeen) check() error {
	if w == (WinterSeen{}) {
		return errors.New("winter: nothing is answered")
	}
	var errs []error
	for _, q := range []struct {
		what, given string
		choices     []string
	}{
		{"hardiness", w.Hardiness, []string{"moderate", "hardy", "very"}}, {"resistance", w.Resistance, []string{"none", "moderate", "high"}},
		{"drainage", w.Drainage, []string{"poor", "medium", "good"}}, {"fall moisture", w.Moisture, []string{"wet", "medium", "dry"}},
	} {
		if q.given != "" {
			errs = append(errs, oneOf(q.what, q.given, q.choices))
		}
	}
	return errors.Join(errs...)
}

// HarmKind is what harmed a stand besides pests and winter.
type HarmKind string

// The kinds.
const (
	Hail    HarmKind = "hail"
	Ponding HarmKind = "ponding"
	Drought HarmKind = "drought"
)

// HarmKinds lists them.
func HarmKinds() []HarmKind { return []HarmKind{Hail, Ponding, Drought} }

// Harm is what a look at a harmed stand found. What was not looked at is nil.
type Harm struct {
	Kind   HarmKind `json:"kind"`
	Day    unit.Day `json:"day"`                   // of the storm, or on which water came or growth stopped
	Tips   *float64 `json:"tips_pct,omitempty"`    // stems with the tip broken or bruised, %
	Leaves *float64 `json:"leaves_pct,omitempty"`  // leaves lost, %
	Lodged bool     `json:"lodged,omitempty"`      // most of the crop lies
	Under  *float64 `json:"under_days,omitempty"`  // days under water
	Crowns *bool    `json:"crowns_see,omitempty"`  // the sun reaches the crowns
	Soft   *bool    `json:"roots_soft,omitempty"`  // roots soft, foul or brown after water
	Silt   *float64 `json:"silt_inches,omitempty"` // left by the water
}

func (h Harm) check() error {
	errs := []error{oneOf("harm", h.Kind, HarmKinds())}
	if h.Day < EarliestSeeding {
		errs = append(errs, errors.New("harm: the day is wanted on which it came"))
	}
	for _, v := range []struct {
		what string
		v    *float64
		high float64
		unit string
	}{{"tips broken", h.Tips, 100, "% of stems"}, {"leaves lost", h.Leaves, 100, "% of leaves"}, {"days under water", h.Under, 60, "days"}, {"silt", h.Silt, 60, "inches"}} {
		if v.v != nil {
			errs = append(errs, within(v.what, *v.v, 0, v.high, v.unit))
		}
	}
	return errors.Join(errs...)
}

// Dig is the dig of a visit: of its ratings where crowns were rated, else as counted; nil where nobody dug.
func (b Visit) Dig() *Roots {
	if b.Crowns != nil {
		r := b.Crowns.Roots()
		return &r
	}
	return b.Roots
}
