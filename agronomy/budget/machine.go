package budget

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Kind is a kind of machine with its management data. Tractors have no speed or field efficiency of
// their own: theirs are 0.
type Kind struct {
	Name       string
	RF1, RF2   float64 // repair factors
	Efficiency float64 // of the field, 0-1
	Speed      float64 // mph
	Life       float64 // hours
}

// PublishedKinds returns the data of a current engineering standard, recalled and not read. Source:
// [source.MachineData].
func PublishedKinds() []Kind {
	return []Kind{
		{"tractor-2wd", 0.007, 2.0, 0, 0, 12000}, {"tractor-4wd", 0.003, 2.0, 0, 0, 16000},
		{"mower-conditioner", 0.18, 1.6, 0.80, 5, 2500}, {"rotary-mower-conditioner", 0.16, 2.0, 0.90, 7, 2500},
		{"windrower", 0.06, 2.0, 0.80, 5, 3000}, {"rake", 0.17, 1.4, 0.80, 6, 2500},
		{"small-square-baler", 0.23, 1.8, 0.75, 4, 2000}, {"large-square-baler", 0.10, 1.8, 0.80, 5, 3000},
		{"round-baler", 0.43, 1.8, 0.65, 5, 1500},
		{"pull-chopper", 0.15, 1.6, 0.70, 3, 2500}, {"self-propelled-chopper", 0.03, 2.0, 0.70, 3.5, 4000},
	}
}

// KindOf finds a kind by name.
func KindOf(kinds []Kind, name string) (Kind, error) {
	i := slices.IndexFunc(kinds, func(k Kind) bool { return k.Name == name })
	if i < 0 {
		var names []string
		for _, k := range kinds {
			names = append(names, k.Name)
		}
		return Kind{}, fmt.Errorf("machine %q: accepted %s", name, strings.Join(names, ", "))
	}
	return kinds[i], nil
}

// Repairs is what repairs have cost after so many hours: RF1 P (hours/1000)^RF2, $ of the price's year.
func (k Kind) Repairs(price, hours float64) float64 {
	return k.RF1 * price * math.Pow(hours/1000, k.RF2)
}

// Capacity is acres an hour at mph over a width in ft: speed width efficiency / 8.25, 8.25 being
// 43560/5280. Source: [source.MachineCapacity].
func Capacity(speed, width, efficiency float64) float64 {
	const (
		footMile = 5280
		footAcre = 43560
		perFoot  = float64(footAcre) / footMile
	)
	return speed * width * efficiency / perFoot
}

// Recovery is the part of a sum that is due at the end of each of n years so that it is paid with
// interest: i (1+i)^n / ((1+i)^n - 1), and 1/n without interest. Source: [source.Annuity].
func Recovery(rate, years float64) float64 {
	if rate == 0 {
		return 1 / years
	}
	// As i / (1 - (1+i)^-n), and with log1p and expm1 so that small rates keep their digits.
	return rate / -math.Expm1(-years*math.Log1p(rate))
}

// Owned is a machine as owned.
type Owned struct {
	Price, Salvage float64 // $
	Years          float64
	Rate           float64 // of interest, 0-1
}

// Recovery is interest and wear a year, $: (P - S) CRF + S i.
func (o Owned) Recovery() float64 {
	return (o.Price-o.Salvage)*Recovery(o.Rate, o.Years) + o.Salvage*o.Rate
}

// Housed is taxes, housing and insurance a year, $: a share of the mean value (P + S)/2. Source:
// [source.MachineInsurance].
func (o Owned) Housed(share float64) float64 { return share * (o.Price + o.Salvage) / 2 }

// Running holds what an hour of work uses. Source: [source.MachineRunning].
type Running struct {
	Diesel float64 // gal/h a PTO horsepower
	Oil    float64 // cost of oil as a share of fuel
	Labour float64 // hours of a person an hour of the machine
}

// PublishedRunning returns the published means; labour is also given as 1.2.
func PublishedRunning() Running { return Running{0.044, 0.15, 1.1} }

// Fuel is gallons an hour at a rated PTO power, hp.
func (k Running) Fuel(power float64) float64 { return k.Diesel * power }

// Late is what acres that must wait for a machine lose, $: K A^2 Y V / (Z T C p). K is the share of the
// value lost a day, A acres, Y tons/ac, V $/ton, T hours a day, C acres/h, p the share of days fit for
// work; Z is 2 where work may start only when the crop is ready, 4 where it starts half the time before.
// Source: [source.Timeliness].
type Late struct{ OneSided, Balanced float64 }

// PublishedLate returns Z.
func PublishedLate() Late { return Late{2, 4} }

// Cost is the loss, $.
func (k Late) Cost(balanced bool, perDay, acres, yield, value, hours, capacity, fit float64) float64 {
	z := k.OneSided
	if balanced {
		z = k.Balanced
	}
	return perDay * acres * acres * yield * value / (z * hours * capacity * fit)
}

// OwnOrHire compares owning a machine with hiring its work.
type OwnOrHire struct {
	Break float64 // acres a year from which owning is cheaper; +Inf: never
	Own   float64 // $ an acre at the acres asked
	Hire  float64
}

// Compare weighs yearly cost of owning, $, and running cost, $ an acre, against a hired rate, $ an
// acre. Source: [source.OwnOrHire].
func Compare(yearly, running, hired, acres float64) OwnOrHire {
	o := OwnOrHire{Break: math.Inf(1), Own: yearly/acres + running, Hire: hired}
	if hired > running {
		o.Break = yearly / (hired - running)
	}
	return o
}
