package book

import (
	"errors"
	"fmt"

	"haywarden/agronomy/unit"
)

// MachineKinds are the kinds of machine whose speed, field efficiency and repairs are published, tractors
// left out: those go before a machine.
func MachineKinds() []string {
	return []string{
		"mower-conditioner", "rotary-mower-conditioner", "windrower", "rake", "small-square-baler", "large-square-baler", "round-baler",
		"pull-chopper", "self-propelled-chopper",
	}
}

// Machine is a machine of a farm. What is 0 was not said: speed and efficiency are then those of the kind.
type Machine struct {
	Name       string  `json:"name"`
	Kind       string  `json:"kind"`
	WidthFt    float64 `json:"width_ft"` // cut, raked or gathered
	SpeedMph   float64 `json:"speed_mph,omitempty"`
	Efficiency float64 `json:"efficiency,omitempty"` // of the field, 0-1
	Price      float64 `json:"price,omitempty"`      // $
	Salvage    float64 `json:"salvage,omitempty"`    // $
	Years      float64 `json:"years,omitempty"`      // kept
	HoursYear  float64 `json:"hours_year,omitempty"`
	PowerHP    float64 `json:"power_hp,omitempty"` // at the PTO of the tractor before it, or its own
	Tractor    float64 `json:"tractor,omitempty"`  // owning and repairing that tractor, $/h
}

// Busy is a time in which the crew is elsewhere.
type Busy struct {
	What string   `json:"what"` // planting, corn silage
	From unit.Day `json:"from"`
	To   unit.Day `json:"to"` // the last such day
}

// Machines are a farm's machines and crew as they stood on a day; a newer list takes its place.
type Machines struct {
	Machines  []Machine `json:"machines,omitempty"`
	CrewHours float64   `json:"crew_hours,omitempty"` // of work a day
	Busy      []Busy    `json:"busy,omitempty"`
}

// Cautions are the words in which a book or a farm says how careful it is, from not at all to wholly.
func Cautions() []string {
	return []string{"by the average", "a little careful", "careful", "very careful", "safest only"}
}

// Caution is how careful a farm is, or, without a farm, the whole book.
type Caution struct {
	How string `json:"how"`
}

// Kind says what the body is.
func (Machines) Kind() Kind { return KindMachines }
func (Caution) Kind() Kind  { return KindCaution } // see Machines

// Check implements [Body].
func (b Machines) Check() error {
	errs := []error{}
	seen := map[string]bool{}
	for _, m := range b.Machines {
		errs = append(errs, m.Check())
		if seen[m.Name] {
			errs = append(errs, fmt.Errorf("machine %q is there twice: give each a name of its own", m.Name))
		}
		seen[m.Name] = true
	}
	if b.CrewHours != 0 {
		errs = append(errs, within("crew hours", b.CrewHours, 0.5, 24, "hours a day"))
	}
	for _, x := range b.Busy {
		errs = append(errs, x.Check())
	}
	return errors.Join(errs...)
}

// Check says what cannot be true of a machine, a line a field.
func (m Machine) Check() error {
	errs := []error{named("machine", m.Name), oneOf("kind", m.Kind, MachineKinds()), within("width", m.WidthFt, 0.5, 100, "ft")}
	for _, x := range []struct {
		what      string
		v         float64
		low, high float64
		unit      string
	}{
		{"speed", m.SpeedMph, 0.1, 25, "mph"}, {"efficiency", m.Efficiency, 0.05, 1, "(a share)"}, {"price", m.Price, 1, 5e6, "$"},
		{"salvage", m.Salvage, 0, 5e6, "$"}, {"years", m.Years, 1, 60, "years"}, {"hours a year", m.HoursYear, 1, 5000, "hours"},
		{"power", m.PowerHP, 5, 1200, "hp"}, {"tractor", m.Tractor, 0, 1000, "$/h"},
	} {
		if x.v != 0 {
			errs = append(errs, within(x.what, x.v, x.low, x.high, x.unit))
		}
	}
	if m.Salvage > m.Price {
		errs = append(errs, fmt.Errorf("salvage %g is over the price: accepted 0 to %g $", m.Salvage, m.Price))
	}
	return errors.Join(errs...)
}

// Check says what cannot be true of a time.
func (b Busy) Check() error {
	errs := []error{named("what takes the crew", b.What)}
	if b.To < b.From {
		errs = append(errs, fmt.Errorf("to %s is before from %s", b.To, b.From))
	}
	if b.To-b.From > longestBusy {
		errs = append(errs, fmt.Errorf("to %s is more than %d days after %s: part it", b.To, longestBusy, b.From))
	}
	return errors.Join(errs...)
}

const longestBusy = 120

// Check implements [Body].
func (b Caution) Check() error { return oneOf("how cautious", b.How, Cautions()) }
