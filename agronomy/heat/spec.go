// Package heat counts degree-days: the heat of a day above a base temperature, by which insects
// hatch and first growth ages.
//
// A sum means nothing without its method, base, upper threshold and start date: in a cool spring the
// methods here differ by half. A [Spec] carries the first three, so that a total can always be kept
// with what it was counted by. No daily method is the truth; each published event was fitted with one
// of them and is looked up with the same one. Sources: [source.HeatMethods], [source.SineHeat].
package heat

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// Method is how a day's heat is told from its lowest and highest temperature.
type Method uint8

// The methods.
const (
	Average        Method = iota // mean temperature less the base
	Modified                     // the same, both temperatures first brought between base and upper
	Sine                         // area under a sine through lowest and highest
	Triangle                     // area under straight lines through lowest and highest
	DoubleSine                   // a half day from today's lowest, a half day to tomorrow's
	DoubleTriangle               // the same with straight lines
)

var methodNames = [...]string{"average", "modified", "sine", "triangle", "double-sine", "double-triangle"}

// MethodNames lists the methods as users write them.
func MethodNames() []string { return slices.Clone(methodNames[:]) }

// ParseMethod reads a method as users write it.
func ParseMethod(name string) (Method, error) {
	i := slices.Index(methodNames[:], name)
	if i < 0 {
		return 0, fmt.Errorf("degree-day method %q; accepted: %s", name, strings.Join(methodNames[:], ", "))
	}
	return Method(i), nil
}

// String is the method as users write it.
func (m Method) String() string {
	if int(m) < len(methodNames) {
		return methodNames[m]
	}
	return fmt.Sprintf("method %d", m)
}

// Double reports whether the method looks at tomorrow's lowest temperature too.
func (m Method) Double() bool { return m == DoubleSine || m == DoubleTriangle }

// Cutoff is what becomes of development above the upper threshold. Source: [source.HeatCutoffs].
type Cutoff uint8

// The cutoffs.
const (
	Horizontal   Cutoff = iota // goes on at the rate of the threshold
	Intermediate               // slows by as much as it is hotter
	Vertical                   // stops
)

var cutoffNames = [...]string{"horizontal", "intermediate", "vertical"}

// CutoffNames lists the cutoffs as users write them.
func CutoffNames() []string { return slices.Clone(cutoffNames[:]) }

// ParseCutoff reads a cutoff as users write it.
func ParseCutoff(name string) (Cutoff, error) {
	i := slices.Index(cutoffNames[:], name)
	if i < 0 {
		return 0, fmt.Errorf("cutoff %q; accepted: %s", name, strings.Join(cutoffNames[:], ", "))
	}
	return Cutoff(i), nil
}

// String is the cutoff as users write it.
func (c Cutoff) String() string {
	if int(c) < len(cutoffNames) {
		return cutoffNames[c]
	}
	return fmt.Sprintf("cutoff %d", c)
}

// Spec is a way of counting heat. Base and Upper are in the unit of the temperatures it is given, and
// so are the degree-days that come out: F-days from F, C-days from C.
type Spec struct {
	Method Method
	Base   float64
	Upper  float64 // NoUpper() or NaN where there is none; the simple average never has one
	Cutoff Cutoff  // for Upper; the averages know the horizontal one only
}

// NoUpper is the upper threshold of a spec that has none.
func NoUpper() float64 { return math.Inf(1) }

// HasUpper reports whether the spec has an upper threshold that its method uses.
func (s Spec) HasUpper() bool {
	return s.Method != Average && !math.IsNaN(s.Upper) && !math.IsInf(s.Upper, 1)
}

// Check refuses a spec that cannot be counted by.
func (s Spec) Check() error {
	switch {
	case int(s.Method) >= len(methodNames):
		return fmt.Errorf("degree-day %v is not known; accepted: %s", s.Method, strings.Join(methodNames[:], ", "))
	case int(s.Cutoff) >= len(cutoffNames):
		return fmt.Errorf("degree-day %v is not known; accepted: %s", s.Cutoff, strings.Join(cutoffNames[:], ", "))
	case math.IsNaN(s.Base) || math.IsInf(s.Base, 0):
		return fmt.Errorf("base %g: want a temperature", s.Base)
	case s.HasUpper() && s.Upper <= s.Base:
		return fmt.Errorf("upper %g is not above base %g: give a higher one, or none", s.Upper, s.Base)
	case s.Method <= Modified && s.Cutoff != Horizontal:
		return fmt.Errorf("method %v has no %v cutoff: use horizontal, or a sine or triangle method", s.Method, s.Cutoff)
	}
	return nil
}

// FirstCut is the heat of first growth: simple average above 41 F, counted from [FirstGrowth].
// Source: [source.MSUHeat].
func FirstCut() Spec { return Spec{Method: Average, Base: 41, Upper: NoUpper()} }

// FirstGrowth is the day from which [FirstCut] is counted, 1 March. Source: [source.MSUHeat].
func FirstGrowth() (time.Month, int) { return time.March, 1 }

// Weevil is the heat of the alfalfa weevil: single sine above 48 F without an upper threshold, counted
// from [WeevilStart]. Source: [source.WeevilHeat].
func Weevil() Spec { return Spec{Method: Sine, Base: 48, Upper: NoUpper()} }

// WeevilStart is the day from which [Weevil] is counted, 1 January. Source: [source.WeevilHeat].
func WeevilStart() (time.Month, int) { return time.January, 1 }
