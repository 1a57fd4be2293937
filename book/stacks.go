package book

import (
	"errors"

	"haywarden/agronomy/unit"
)

// Stack is hay that was baled and put up, on the day of baling. Its subject is the stand it came from.
type Stack struct {
	Package  string   `json:"package"`                // small-square, round, large-square
	Moisture *float64 `json:"moisture_pct,omitempty"` // when baled, % of fresh weight
	Place    string   `json:"place,omitempty"`        // inside, covered, outside-ground, outside-raised
	Treated  bool     `json:"treated,omitempty"`      // with a preservative
}

// StackReading is the hottest core temperature found on a day in one of a stand's stacks. Its subject is
// the stand the hay came from, growing still or not.
type StackReading struct {
	CoreF float64   `json:"core_f"`
	Baled *unit.Day `json:"baled,omitempty"` // the day the stack was baled; nil for the newest of its day
}

// Packages are how hay is baled.
func Packages() []string { return []string{"small-square", "round", "large-square"} }

// StackPlaces are where hay is stacked.
func StackPlaces() []string { return []string{"inside", "covered", "outside-ground", "outside-raised"} }

// Kind says what the body is.
func (Stack) Kind() Kind        { return KindStack }
func (StackReading) Kind() Kind { return KindStackReading } // see Stack

// Check implements [Body].
func (b Stack) Check() error {
	errs := []error{oneOf("package", b.Package, Packages())}
	if b.Moisture != nil {
		errs = append(errs, within("moisture", *b.Moisture, 5, 40, "% of fresh weight: wetter than that it is no hay"))
	}
	if b.Place != "" {
		errs = append(errs, oneOf("place", b.Place, StackPlaces()))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b StackReading) Check() error { return within("core temperature", b.CoreF, -60, 2000, "F") }
