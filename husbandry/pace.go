package husbandry

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/book"
)

// work is what a kind of machine does, and the line of its hired rate where that is by the acre.
var work = map[string]struct{ job, custom string }{
	"mower-conditioner": {"mowing", book.CustomMow}, "rotary-mower-conditioner": {"mowing", book.CustomMow}, "windrower": {"mowing", book.CustomMow},
	"rake": {"raking", book.CustomRake}, "small-square-baler": {"baling", ""}, "large-square-baler": {"baling", ""}, "round-baler": {"baling", ""},
	"pull-chopper": {"chopping", ""}, "self-propelled-chopper": {"chopping", ""},
}

// speeds are a machine's speed and field efficiency: its own, else those of the kind.
func speeds(m book.Machine) (speed, efficiency float64, assumed bool) {
	k, err := budget.KindOf(budget.PublishedKinds(), m.Kind)
	if err != nil {
		return m.SpeedMph, m.Efficiency, false
	}
	speed, efficiency = m.SpeedMph, m.Efficiency
	if speed == 0 {
		speed, assumed = k.Speed, true
	}
	if efficiency == 0 {
		efficiency, assumed = k.Efficiency, true
	}
	return speed, efficiency, assumed
}

func capacity(m book.Machine) float64 {
	speed, efficiency, _ := speeds(m)
	return budget.Capacity(speed, m.WidthFt, efficiency)
}

// Pace says how fast the farm's crew takes a cutting of so many acres on a date, for each way of harvest it
// has the machines of.
func Pace(v *book.View, f *book.FarmView, acres float64) Part {
	p := Part{Key: "pace", Title: "How fast the crew takes a cutting", Sources: []source.ID{source.MachineCapacity, source.MachineData}}
	kit, ok := f.Kit()
	if !ok || len(kit.Body.Machines) == 0 {
		p.lack("the farm's machines: enter them, or bring them with `haywarden import machines FILE.csv`")
		return p
	}
	pace := map[string]float64{}
	for _, m := range kit.Body.Machines {
		speed, efficiency, assumed := speeds(m)
		from := fmt.Sprintf("%s, %g ft at %g mph, field efficiency %.2f", m.Kind, m.WidthFt, speed, efficiency)
		if assumed {
			from += " (the kind's usual where not told)"
		}
		p.row(m.Name, capacity(m), "ac/h", from)
		pace[work[m.Kind].job] += capacity(m)
	}
	hours := kit.Body.CrewHours
	if hours == 0 {
		p.lack("hours of work a day of the crew")
		return p
	}
	for _, b := range kit.Body.Busy {
		if b.From <= v.Date+lookAhead && b.To >= v.Date {
			p.note("The crew is at %s from %s to %s.", b.What, b.From, b.To)
		}
	}
	var said []string
	for _, way := range []struct{ name, last string }{{"haylage", "chopping"}, {"hay or baleage", "baling"}} {
		if pace[way.last] == 0 {
			continue
		}
		slowest, least := "", math.Inf(1)
		for _, job := range []string{"mowing", "raking", way.last} {
			switch rate := pace[job]; {
			case rate == 0:
				p.note("No machine for %s is told: the pace of %s is without it.", job, way.name)
			case rate < least:
				slowest, least = job, rate
			}
		}
		day := least * hours
		p.row(way.name+", acres a day", day, "ac", slowest+" sets the pace")
		say := fmt.Sprintf("%.0f acres a day as %s, set by %s", day, way.name, slowest)
		if acres > 0 {
			worked := acres / day
			say += fmt.Sprintf("; %.0f acres take %.1f days of work", acres, worked)
			if done, away := finish(v, kit.Body.Busy, worked); away > 0 {
				say += fmt.Sprintf(", and with %d days elsewhere are done on %s at the earliest", away, done)
			}
		}
		said = append(said, say)
	}
	if len(said) == 0 {
		p.lack("a baler or a chopper")
		return p
	}
	p.Says = strings.ToUpper(said[0][:1]) + strings.Join(said, ". ")[1:] + ". Days fit for work are not in it."
	return p
}

const lookAhead = 60 // days over which busy times are told (choice)

// finish counts days of work from the view's date past those on which the crew is elsewhere.
func finish(v *book.View, busy []book.Busy, worked float64) (done string, away int) {
	day := v.Date
	for left := int(math.Ceil(worked)); ; day++ {
		elsewhere := false
		for _, b := range busy {
			elsewhere = elsewhere || b.From <= day && day <= b.To
		}
		if elsewhere {
			away++
		} else if left--; left <= 0 {
			return day.String(), away
		}
		if away > 400 {
			return day.String(), away
		}
	}
}

// machineCost is what a machine costs: a year whether it runs or not, and for an acre of work.
type machineCost struct{ yearly, running float64 }

// laborHours of a person go with an hour of a machine, and housed is taxes, housing and insurance.
const housed = 0.01

// cost reckons a machine as owned; the part says what it lacks.
func (u purse) cost(p *Part, m book.Machine) (machineCost, bool) {
	k, err := budget.KindOf(budget.PublishedKinds(), m.Kind)
	if err != nil || m.Price == 0 || m.Years == 0 || m.HoursYear == 0 {
		p.lack("price, years kept and hours a year of %s", m.Name)
		return machineCost{}, false
	}
	rate, ok1 := u.take(p, book.Interest)
	wage, ok2 := u.take(p, book.Wage)
	if !ok1 || !ok2 {
		return machineCost{}, false
	}
	fuel := 0.0
	if m.PowerHP > 0 {
		diesel, ok := u.take(p, book.Diesel)
		if !ok {
			return machineCost{}, false
		}
		run := budget.PublishedRunning()
		fuel = run.Fuel(m.PowerHP) * diesel * (1 + run.Oil)
	} else {
		p.note("No power of %s is told: fuel is not in it.", m.Name)
	}
	o := budget.Owned{Price: m.Price, Salvage: m.Salvage, Years: m.Years, Rate: rate / 100}
	all := m.HoursYear * m.Years
	hour := k.Repairs(m.Price, all)/all + fuel + wage*budget.PublishedRunning().Labour + m.Tractor
	return machineCost{yearly: o.Recovery() + o.Housed(housed), running: hour / capacity(m)}, true
}

// OwnOrHire weighs each of the farm's machines against the hired rate of its work, over acres a year.
func OwnOrHire(v *book.View, f *book.FarmView, acres float64) Part {
	u := purse{v, f}
	p := Part{Key: "own-or-hire", Title: "Own or hire", Sources: []source.ID{source.OwnOrHire, source.MachineData, source.MachineRunning, source.MachineInsurance, source.Annuity, source.NoDifference}}
	kit, ok := f.Kit()
	if !ok || len(kit.Body.Machines) == 0 {
		p.lack("the farm's machines with price, years and hours")
		return p
	}
	if acres <= 0 {
		p.lack("acres of legume: no stand grows here on this date")
		return p
	}
	var said []string
	for _, m := range kit.Body.Machines {
		line := work[m.Kind].custom
		if line == "" {
			continue // its hired rate is by the bale or the ton
		}
		hired, ok1 := u.take(&p, line)
		c, ok2 := u.cost(&p, m)
		if !ok1 || !ok2 {
			continue
		}
		o := budget.Compare(c.yearly, c.running, hired, acres)
		from := fmt.Sprintf("%s a year and %s for running, over %.0f acres a year, every cut counted", Figure(c.yearly, "$"), Figure(c.running, "$/ac"), acres)
		p.row(m.Name+", owned", o.Own, "$/ac", from)
		p.row(m.Name+", hired", o.Hire, "$/ac", line)
		if math.IsInf(o.Break, 1) {
			p.note("Running %s costs as much as hiring it, before it is paid for.", m.Name)
		} else {
			p.row(m.Name+", cheaper owned from", o.Break, "ac", "acres a year")
		}
		d, err := risk.Tell(risk.Estimate{Value: o.Own, Error: costError * o.Own}, risk.Estimate{Value: o.Hire, Error: costError * o.Hire}, 0)
		switch {
		case err != nil:
		case d.Told == risk.NoDifference:
			said = append(said, m.Name+": no difference, each cost taken as right to 10 %")
		case d.Told == risk.Less:
			said = append(said, m.Name+": owning is cheaper")
		default:
			said = append(said, m.Name+": hiring is cheaper")
		}
	}
	p.Says = strings.Join(said, "; ")
	if p.Says != "" {
		p.Says = strings.ToUpper(p.Says[:1]) + p.Says[1:] + ". Who comes in time is not in it."
	}
	return p
}

const costError = 0.10 // of a cost, taken for its error (choice)
