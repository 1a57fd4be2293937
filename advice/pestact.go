package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/count"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/pest"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	countLasts  = 10 // days after which a count says too little of today (choice: leafhoppers can double)
	lookAgainIn = 4  // days to the next look at a count near its threshold, [source.WeevilEnemies]
	usualWait   = 30 // days from a cut to the next where heat cannot tell, [source.RuleInterval]
)

// cutComing is the day on which the growth that stands is likely cut: first growth as its own advice has
// it, later growth at its bud by heat and no sooner than the interval allows.
func cutComing(s *outlook.Stand) (day unit.Day, how string, ok bool) {
	if s.Growth.Number == 1 && !s.SeedingYear() {
		_, middle, _, ok := cutAhead(s)
		return max(s.Date, middle), "the middle of its window", ok
	}
	if !heatKnown(s) {
		return 0, "", false
	}
	least := max(s.Date, s.Growth.Since+leastInterval)
	if s.SeedingYear() && !s.Growth.After {
		return max(s.Date, s.Growth.Since+2*usualWait), "60 days from seeding", true
	}
	bloom := regrowth.ToBloom(s.Growth.Number)
	spec := heat.Spec{Method: heat.Average, Base: float64(unit.Celsius(bloom.BaseC).Fahrenheit()), Upper: heat.NoUpper()}
	need := float64(unit.CDay(bloom.CDays).FDays()) * regrowth.BudShare
	w, ok := s.Sky.Reaches(s.Sky.HeatSince(s.Growth.Since, spec), need).Quantile(0.5)
	if !ok {
		return max(s.Date, s.Growth.Since+usualWait), "30 days from the last cut", true
	}
	return max(least, w), "bud by heat since the cut", true
}

// pestAct says what a count of weevil or leafhopper means for the cut that is planned.
func pestAct(s *outlook.Stand, o *outlook.Outlook, which pest.Pest, decision, name string) *Piece {
	seen := s.Scouted(string(which))
	if seen == nil || s.Date-seen.Day > countLasts {
		return nil
	}
	cut, how, ok := cutComing(s)
	if !ok {
		return nil
	}
	l, ok := o.Pest(s, which, cut)
	if !ok {
		return nil
	}
	if l.Choice == pest.LeaveIt && cut <= s.Date+pest.CutInstead {
		return nil // the mower comes before the next look
	}
	unitOf := "a stem"
	if which == pest.Leafhopper {
		unitOf = "a sweep"
	}
	p := &Piece{Decision: decision, Stand: s, Urgency: Watch}
	again := max(s.Date, seen.Day+lookAgainIn)
	counted := fmt.Sprintf("%.2g %s on %s against %.2g at %.0f in", seen.Mean, unitOf, Short(seen.Day), l.Threshold, seen.Growth)
	p.Window = &Window{Early: s.Date, Middle: again, Late: again + 3, Best: again, Means: "next look", Firm: true}
	p.Measure = "the same count again, spots chosen anew"
	switch l.Choice {
	case pest.Spray:
		last := cut - unit.Day(max(pest.CutInstead+1, math.Ceil(l.Product.PHIDays)))
		p.Urgency, p.Title = Week, Capital(name)+" is over its threshold: act by "+Short(max(s.Date, last))
		if last <= s.Date+lookAgainIn {
			p.Urgency = Today
		}
		p.Window = &Window{Early: s.Date, Middle: s.Date, Late: max(s.Date, last), Best: s.Date, Means: "a treatment still pays", Firm: true}
		p.Sentence = fmt.Sprintf("%s: %s. The cut is about %s.", Capital(name), counted, Short(cut))
		p.tell(pest.TellSpray(fmt.Sprintf("Spraying %s %s if its label still says so: %d days to harvest end before the cut. After %s it is too late: cut instead.", l.Product.Name, payWord(l), int(math.Ceil(l.Product.PHIDays)), Short(max(s.Date, last)))))
	case pest.CutEarly:
		if cut <= s.Date+pest.CutInstead && l.Loss <= l.Given {
			p.Title = Capital(name) + " is over its threshold: the coming cut does it"
			p.Sentence = fmt.Sprintf("%s: %s. The cut about %s is near enough: take the windrows off soon, and look at the stubble after.", Capital(name), counted, Short(cut))
			p.Window = &Window{Early: s.Date, Middle: cut, Late: cut, Best: cut, Means: "the mower does it", Firm: true}
			p.Cautions = append(p.Cautions, machinery)
			break
		}
		p.Urgency, p.Title = Week, "Cut early: "+name+" is over its threshold"
		p.Window = &Window{Early: s.Date, Middle: s.Date + 2, Late: max(cut, s.Date+2), Best: s.Date, Means: "the mower does it", Firm: true}
		p.Sentence = fmt.Sprintf("%s: %s. Cut now rather than about %s, take the windrows off soon, and look at the stubble after.", Capital(name), counted, Short(cut))
		p.Cautions = append(p.Cautions, machinery)
		if why := blocked(l, cut); why != "" {
			p.tell(pest.TellSpray("No spray: " + why + "."))
		}
	case pest.Blocked:
		p.Urgency, p.Title = Week, Capital(name)+" is over its threshold, and nothing may be sprayed"
		p.Sentence = fmt.Sprintf("%s: %s; the cut is about %s.", Capital(name), counted, Short(cut))
		p.tell(pest.TellSpray("No spray: " + blocked(l, cut) + ". Clear that up first, or bring the cut forward."))
	case pest.Resample:
		p.Urgency, p.Errand = Week, true
		p.Title = fmt.Sprintf("Count %s again %s", name, When(s.Date, again))
		p.Sentence = fmt.Sprintf("%s: %s: the chance that the field is over it is %s. %s", Capital(name), counted, Odds(l.Chance), moreSamples(seen, l.Threshold))
		p.warn(pest.BeforeYouEnter)
	default:
		p.Errand = true
		p.Title = fmt.Sprintf("%s under its threshold: next look %s", Capital(name), When(s.Date, max(s.Date, seen.Day+pest.HopperEvery)))
		p.Window.Best, p.Window.Middle, p.Window.Late = max(s.Date, seen.Day+pest.HopperEvery), max(s.Date, seen.Day+pest.HopperEvery), max(s.Date, seen.Day+pest.HopperEvery)+3
		p.Sentence = fmt.Sprintf("%s: %s. Leave it.", Capital(name), counted)
		p.warn(pest.BeforeYouEnter)
	}
	p.Worth.Text = fmt.Sprintf("Left alone it takes %.2f ton an acre until the cut; cutting today gives up %.2f of growth.", l.Loss, l.Given)
	if !l.Plain && p.Urgency < Watch && (l.Choice == pest.Spray || l.Choice == pest.CutEarly) {
		d := dollarsOf(l)
		p.Worth.Dollars = &d
	}
	if p.Urgency < Watch {
		p.LossShare = lossShare(s, l)
	}
	p.Grounds = pestGrounds(s, l, cut, how, unitOf)
	return p
}

// dollarsOf is what the choice is worth against leaving it, over the interval of the count.
func dollarsOf(l outlook.PestLoss) Dollars {
	d := Dollars{Middle: l.NetSpray, Against: "leaving it", Line: l.Line, Short: l.Line}
	if l.Choice == pest.CutEarly {
		d.Middle = l.NetCut
	}
	cost, c := costOf(l), l.Scouted
	gain := (d.Middle + cost) / max(c.Mean, 1e-9) // of each pest a unit
	d.Low, d.High = gain*c.Low-cost, gain*c.High-cost
	d.NoDifference = d.Low <= 0
	return d
}

// payWord says how surely a spray pays back.
func payWord(l outlook.PestLoss) string {
	if !l.Plain && dollarsOf(l).NoDifference {
		return "may pay, by no sure difference,"
	}
	return "pays"
}

// costOf is what the choice costs whatever was counted, $/ac.
func costOf(l outlook.PestLoss) float64 {
	if l.Choice == pest.CutEarly {
		return l.Given * l.Money.Hay
	}
	return l.Money.Cost
}

// lossShare is the part of the year's yield that a day of waiting loses.
func lossShare(s *outlook.Stand, l outlook.PestLoss) float64 {
	if l.Standing != pest.Over || s.Yield.Year <= 0 {
		return 0
	}
	return l.PerDay / s.Yield.Year
}

// blocked says in words what forbids a spray.
func blocked(l outlook.PestLoss, cut unit.Day) string {
	var why []string
	for _, b := range l.Blocks {
		switch b {
		case pest.BlockBloom:
			why = append(why, "crop or weeds bloom, and bees work there")
		case pest.BlockPHI:
			why = append(why, fmt.Sprintf("%s keeps the mower out until %s and the cut is about %s", l.Product.Name, Short(l.BlockedUntil), Short(cut)))
		case pest.BlockLabel:
			if l.Product == nil {
				why = append(why, "no product against it is entered, so that neither label nor days to harvest are known")
			} else {
				why = append(why, "nobody has read the label of "+l.Product.Name+" for this crop this year")
			}
		case pest.BlockNear:
			why = append(why, "the cut is within a week and does it")
		}
	}
	return list(why)
}

// moreSamples says how many more samples would tell a count from its threshold, 9 times in 10.
func moreSamples(c *outlook.Scouted, threshold float64) string {
	apart := math.Abs(c.Mean - threshold)
	if c.Samples < 2 || !(c.SD > 0) || apart == 0 {
		return "Count five more samples at new spots."
	}
	const ninety = 1.2816 // normal quantile
	n := int(math.Ceil(math.Pow(ninety*c.SD/apart, 2))) - c.Samples
	switch {
	case n > mostMore:
		return "It lies too near its threshold for more counting to part them: look again when it has moved."
	case n < 1:
		n = 1
	}
	return fmt.Sprintf("%s more %s at new spots would tell.", Capital(Count(n)), Plural(n, "sample"))
}

const mostMore = 20 // samples beyond which a field is not walked (choice)

func pestGrounds(s *outlook.Stand, l outlook.PestLoss, cut unit.Day, how, unitOf string) []Ground {
	c := l.Scouted
	grounds := []Ground{{
		What: "Count", Value: fmt.Sprintf("%.2g %s, 95 %% interval %.2g to %.2g", c.Mean, unitOf, c.Low, c.High),
		How: fmt.Sprintf("%d %s of %g %s on %s", c.Samples, Plural(c.Samples, "sample"), c.Size, c.Unit, Short(c.Day)), Sources: []source.ID{source.StudentT, source.PoissonRate},
	}}
	src, reckon := []source.ID{source.WeevilTable, source.WeevilOntario}, fmt.Sprintf("weevil-threshold height=%.3g", c.Growth)
	if c.Pest == string(pest.Leafhopper) {
		src, reckon = []source.ID{source.HopperTable, source.HopperCounts, source.HopperResistant}, fmt.Sprintf("hopper-threshold height=%.3g", c.Growth)
		if s.Hairy {
			reckon += " variety=resistant"
		}
		if s.SeedingYear() {
			reckon += " seeding_year=yes"
		}
	}
	value := fmt.Sprintf("%.2g %s; chance of being over it %s", l.Threshold, unitOf, Odds(l.Chance))
	from := "printed counts without a price: enter hay price and cost for one of your own"
	if !l.Plain {
		from = l.Line
		reckon += fmt.Sprintf(" hay=%g cost=%g", l.Money.Hay, l.Money.Cost)
	}
	if l.Outside != "" {
		from += "; " + l.Outside
	}
	grounds = append(grounds, Ground{What: "Threshold", Value: value, How: from, Reckon: reckon, Sources: src})
	height := "read on the visit"
	if c.Guessed {
		height = "not read: told by heat, or an inch a day after a cut"
	}
	return append(grounds,
		Ground{What: "Height", Value: fmt.Sprintf("%.0f in on %s", c.Growth, Short(c.Day)), How: height, Sources: []source.ID{source.HeightCurve}},
		Ground{What: "Cut", Value: "about " + Short(cut), How: how, Sources: []source.ID{source.CutOrSpray, source.GrowthPerDay}},
	)
}

// stopEarly says when a walk over sets may end before it is long enough for a mean.
func stopEarly(perUnit, size float64) string {
	w, err := count.AboutThreshold(perUnit*size, count.NegativeBinomial{K: count.PlaceholderK})
	if err != nil {
		return ""
	}
	leave, act := w.Bounds(w.Least)
	leave5, act5 := w.Bounds(count.LeastSpots)
	say := func(n int) string { return fmt.Sprint(max(0, n)) }
	return fmt.Sprintf("Stop early: after %d sets leave it at %s in all or fewer, act at %d or more; after %d sets at %s and %d (clumping k %g, a placeholder)", w.Least, say(leave), act, count.LeastSpots, say(leave5), act5, count.PlaceholderK)
}

// list joins clauses with commas and an and.
func list(parts []string) string {
	n := len(parts)
	if n < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
}
