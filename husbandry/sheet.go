package husbandry

import (
	"fmt"
	"math"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/source"
	"haywarden/book"
)

// Field is what a budget is for: a stand, or the mean of a farm's.
type Field struct {
	Name  string  `json:"name"`
	Acres float64 `json:"acres"`
	Yield float64 `json:"yield_tons_acre"` // dry matter a year
	First float64 `json:"first_cut_tons"`
	RFV   float64 `json:"feed_rfv"` // as fed
	Cuts  int     `json:"cuts"`
	Years int     `json:"years"` // the stand is kept after seeding
}

// UsualCuts and UsualYears are taken where nobody says (choice): four cuts of a stand kept four years.
const UsualCuts, UsualYears = 4, 4

// Check refuses what cannot be budgeted.
func (f Field) Check() error {
	for _, x := range []struct {
		what         string
		v, low, high float64
		unit         string
	}{{"yield", f.Yield, 0.1, 20, "tons of dry matter an acre"}, {"RFV", f.RFV, 60, 250, "points"}, {"cuts", float64(f.Cuts), 1, 9, ""}, {"years", float64(f.Years), 1, 15, "years"}} {
		if !(x.v >= x.low && x.v <= x.high) {
			return fmt.Errorf("%s %g: accepted %g to %g %s", x.what, x.v, x.low, x.high, x.unit)
		}
	}
	return nil
}

// Sheet is a budget of a field.
type Sheet struct {
	Farm  string `json:"farm"`
	Date  string `json:"date"`
	Field Field  `json:"field"`
	Parts []Part `json:"parts"`
}

// SheetOf makes the budget of a field of a farm on the view's date.
func SheetOf(v *book.View, f *book.FarmView, of Field) Sheet {
	u := purse{v, f}
	cost, year := u.year(of)
	return Sheet{Farm: f.Name, Date: v.Date.String(), Field: of, Parts: []Part{
		year, u.breakEven(of, cost), u.standing(of), u.trade(of), u.rent(of), u.moreCut(of), OwnOrHire(v, f, of.Acres*float64(of.Cuts)),
	}}
}

// harvest is $ an acre of one cutting: as entered, else by hired rates or own machines.
func (u purse) harvest(p *Part) (float64, string, bool) {
	if v, ok := u.look(p, book.HarvestCost); ok {
		return v, "line " + book.HarvestCost, true
	}
	if kit, ok := u.farm.Kit(); ok {
		sum, whole := 0.0, len(kit.Body.Machines) > 0
		var inner Part
		for _, m := range kit.Body.Machines {
			c, ok := u.cost(&inner, m)
			whole = whole && ok
			if ok {
				sum += c.yearly/(capacity(m)*m.HoursYear) + c.running
			}
		}
		if whole {
			p.Prices = append(p.Prices, inner.Prices...)
			return sum, "the farm's own machines by the hours they run", true
		}
	}
	p.lack("the cost of a cutting (line %s in $/ac), or the farm's machines with price, years and hours", book.HarvestCost)
	return 0, "", false
}

// year is the cost of a production year.
func (u purse) year(of Field) (budget.Cost, Part) {
	p := Part{Key: "year", Title: "What an acre and a ton cost", Sources: []source.ID{source.EnterpriseBudget, source.Annuity, source.RemovalGuide, source.RemovalCosts, source.RemovalUsual}}
	b := budget.Field{Cuts: float64(of.Cuts), Years: float64(of.Years), Yield: of.Yield}
	whole := true
	line := func(what string, v float64, from string) {
		b.Lines = append(b.Lines, budget.Line{Name: what, Value: v})
		p.row(what, v, "$/ac", from)
	}
	spread := 0.0
	if rent, ok := u.look(&p, book.LandRent); ok {
		line("land", rent, "line "+book.LandRent)
		low, mid, high, ok := u.removal(&p)
		if ok {
			line("phosphate and potash taken off", mid*of.Yield, "three sources: "+span(low*of.Yield, high*of.Yield, "$/ac"))
			spread = (high - low) * of.Yield / 2
		}
		whole = whole && ok
		for _, n := range []struct{ line, what string }{{book.Spray, "one spraying"}, {book.Storage, "storing"}} {
			v, ok := u.look(&p, n.line)
			switch {
			case !ok:
				p.note("No price of %s is entered: it is not in the sum.", n.what)
			case n.line == book.Storage:
				line(n.what, v*of.Yield, "line "+n.line)
			default:
				line(n.what, v, "line "+n.line)
			}
		}
	} else if fixed, ok := u.look(&p, book.StandFixed); ok {
		line("all but seeding and harvest", fixed, "line "+book.StandFixed)
	} else {
		p.lack("rent of land (line %s in $/ac), or all yearly costs in one (line %s)", book.LandRent, book.StandFixed)
		whole = false
	}
	seed, ok1 := u.take(&p, book.Establishment)
	rate, ok2 := u.take(&p, book.Interest)
	cut, how, ok3 := u.harvest(&p)
	if !whole || !ok1 || !ok2 || !ok3 {
		return budget.Cost{}, p
	}
	b.Establishment, b.Rate, b.CutCost = seed, rate/100, cut
	c, err := b.Year()
	if err != nil {
		p.note("%v", err)
		return budget.Cost{}, p
	}
	p.row("the year's part of seeding", c.Stand, "$/ac", fmt.Sprintf("%s over %d years at %g %%", Figure(seed, "$/ac"), of.Years, rate))
	p.row(fmt.Sprintf("%d cuttings", of.Cuts), c.Harvest, "$/ac", how+", "+Figure(cut, "$/ac")+" each")
	p.row("in all", c.PerAcre, "$/ac", "")
	p.row("a ton of dry matter", c.PerTon, "$/ton DM", fmt.Sprintf("%.1f tons an acre", of.Yield))
	e := math.Hypot(spread, yieldError*c.PerAcre) / of.Yield
	p.Says = fmt.Sprintf("A ton of dry matter costs %s (%s to %s), an acre %s a year.", Figure(c.PerTon, "$"), Figure(c.PerTon-e, "$"), Figure(c.PerTon+e, "$"), Figure(c.PerAcre, "$"))
	p.note("The range is of a yield right to 10 %% (choice) and of what the sources say a ton removes.")
	return c, p
}

const yieldError = 0.10

// breakEven says at what price and yield the year pays.
func (u purse) breakEven(of Field, c budget.Cost) Part {
	p := Part{Key: "break-even", Title: "What pays for it", Sources: []source.ID{source.EnterpriseBudget, source.HayPoint}}
	if c.PerTon == 0 {
		p.lack("the cost of a ton, above")
	}
	hay, ok := u.hay(&p)
	if c.PerTon == 0 {
		return p
	}
	even := c.PerTon * forage.PublishedHayDM
	p.row("hay that pays, as fed at 12 % moisture", even, "$/ton", "")
	if !ok {
		return p
	}
	price := hay.At(of.RFV)
	p.row(fmt.Sprintf("hay of RFV %.0f on the line", of.RFV), price, "$/ton", "")
	yield := c.PerAcre * forage.PublishedHayDM / price
	p.row("yield that pays at that price", yield, "tons/ac", "dry matter, harvest cost as for the yield above")
	margin := price/forage.PublishedHayDM*of.Yield - c.PerAcre
	e := yieldError * price / forage.PublishedHayDM * of.Yield
	switch {
	case math.Abs(margin) <= e:
		p.Says = fmt.Sprintf("No difference between what an acre brings at hay of RFV %.0f and what it costs: %s, with a yield right to 10 %%.", of.RFV, Figure(margin, "$/ac"))
	case margin > 0:
		p.Says = fmt.Sprintf("At hay of RFV %.0f an acre brings %s more than it costs (%s).", of.RFV, Figure(margin, "$"), span(margin-e, margin+e, "$"))
	default:
		p.Says = fmt.Sprintf("At hay of RFV %.0f an acre costs %s more than it brings (%s).", of.RFV, Figure(-margin, "$"), span(-margin-e, -margin+e, "$"))
	}
	return p
}

const (
	harvestLoss = 0.10 // of the standing crop's dry matter (choice)
	halfShare   = 0.5
	lastShare   = 0.05 // of the first cut that a late last cut costs the next spring (choice)
)

// standing is what the uncut first growth is worth.
func (u purse) standing(of Field) Part {
	p := Part{Key: "standing", Title: "The first cut, standing", Sources: []source.ID{source.StandingHalf, source.StandingCost, source.HayPoint}}
	hay, ok1 := u.hay(&p)
	cut, how, ok2 := u.harvest(&p)
	if of.First <= 0 {
		p.lack("a yield of the first cut")
	}
	if !ok1 || !ok2 || of.First <= 0 {
		return p
	}
	price := hay.At(of.RFV) / forage.PublishedHayDM
	byCost, byHalf := budget.Standing(of.First, price, harvestLoss, cut), budget.StandingShare(of.First, price, halfShare)
	p.row("what it sells for less loss and harvest", byCost, "$/ac", fmt.Sprintf("%.1f tons of dry matter at %s, 10 %% lost, harvest %s (%s)", of.First, Figure(price, "$/ton"), Figure(cut, "$/ac"), how))
	p.row("half of what it sells for", byHalf, "$/ac", "the other half for harvest, loss and risk")
	p.Says = fmt.Sprintf("Standing, an acre of the first cut is worth %s.", span(min(byCost, byHalf), max(byCost, byHalf), "$"))
	return p
}

// trade is the room between a buyer and this farm as the seller of hay.
func (u purse) trade(of Field) Part {
	p := Part{Key: "trade", Title: "Hay: bid and walk-away price", Sources: []source.ID{source.Bargain, source.TwoNutrients, source.HayPoint}}
	corn, ok1 := u.take(&p, book.Corn)
	meal, ok2 := u.take(&p, book.Meal)
	hay, ok3 := u.hay(&p)
	haul, ok4 := u.take(&p, book.HayHauling)
	if !ok1 || !ok2 || !ok3 || !ok4 {
		return p
	}
	n, err := budget.PublishedNutrients().Prices(corn, meal)
	if err != nil {
		p.note("%v", err)
		return p
	}
	ref := Reference()
	worth := n.Ton(ref.NEL, ref.CP/100)
	b := budget.HayTrade{Worth: worth, DM: forage.PublishedHayDM, Loss: feedLoss, Freight: haul, Other: hay.At(of.RFV), Hauling: haul}.Prices()
	p.row("a ton of dry matter eaten is worth to a feeder", worth, "$/ton DM", fmt.Sprintf("by corn and meal, protein %.0f %%, %.2f Mcal/lb, as an alfalfa of NDF %.0f %%", ref.CP, ref.NEL, ref.NDF))
	p.row("the buyer walks away above", b.Most, "$/ton", "less 5 % lost at feeding and the freight; as fed at the farm")
	p.row("the seller walks away below", b.Least, "$/ton", fmt.Sprintf("hay of RFV %.0f on the line, less hauling there", of.RFV))
	if b.Room() {
		p.row("the middle", b.Middle(), "$/ton", "")
		p.Says = fmt.Sprintf("There is room for a bargain from %s a ton.", span(b.Least, b.Most, "$"))
	} else {
		p.Says = "A buyer who feeds by corn and meal bids less than the hay market pays: sell to the market."
	}
	return p
}

const feedLoss = 0.05 // from delivery to mouth (choice)

// rent is the room between tenant and owner of hay land, and the parts of a shared crop.
func (u purse) rent(of Field) Part {
	p := Part{Key: "rent", Title: "Rent and share of hay land", Sources: []source.ID{source.Bargain, source.CropShare}}
	hay, ok1 := u.hay(&p)
	seed, ok2 := u.take(&p, book.Establishment)
	rate, ok3 := u.take(&p, book.Interest)
	cut, _, ok4 := u.harvest(&p)
	_, mid, _, ok5 := u.removal(&p)
	owner, ok6 := u.take(&p, book.LandOwner)
	other, ok7 := u.take(&p, book.LandRent)
	if !ok1 || !ok2 || !ok3 || !ok4 || !ok5 || !ok6 || !ok7 {
		return p
	}
	costs := seed*budget.Recovery(rate/100, float64(of.Years)) + cut*float64(of.Cuts) + mid*of.Yield
	b := budget.Rent{Yield: of.Yield, Price: hay.At(of.RFV) / forage.PublishedHayDM, Costs: costs, Owner: owner, Other: other}.Prices()
	p.row("the tenant's costs but land", costs, "$/ac", "seeding spread, cuttings, nutrients")
	p.row("the tenant walks away above", b.Most, "$/ac", "")
	p.row("the owner walks away below", b.Least, "$/ac", "the better of his own cost and the going rent")
	p.row("the owner's share where each gets by what he puts in", 100*budget.Shared(other, costs), "%", "land at the going rent")
	if b.Room() {
		p.Says = fmt.Sprintf("There is room for a rent from %s an acre.", span(b.Least, b.Most, "$"))
	} else {
		p.Says = "At these prices hay does not pay the going rent."
	}
	return p
}

// moreCut is a partial budget of one more cut at the end of the year.
func (u purse) moreCut(of Field) Part {
	p := Part{Key: "one-more-cut", Title: "One more cut, as a partial budget", Sources: []source.ID{source.PartialBudget, source.CutSharesUW}}
	hay, ok1 := u.hay(&p)
	cut, _, ok2 := u.harvest(&p)
	_, mid, _, ok3 := u.removal(&p)
	if !ok1 || !ok2 || !ok3 {
		return p
	}
	price := hay.At(of.RFV) / forage.PublishedHayDM
	share, err := budget.ShareOf(budget.PublishedCutShares(), "wisconsin", 4, 4)
	if err != nil {
		p.note("%v", err)
		return p
	}
	l := budget.LastCut{Yield: of.Yield * share, Price: price, Harvest: cut, Nutrients: mid, SpringLoss: price, SpringTons: lastShare * of.First}
	net, even := l.Net()
	p.row("yield of a last cut", l.Yield, "tons/ac", fmt.Sprintf("%.0f %% of the year", 100*share))
	p.row("it sells for", l.Yield*price, "$/ac", "")
	p.row("harvest", -cut, "$/ac", "")
	p.row("nutrients it takes", -mid*l.Yield, "$/ac", "")
	p.row("next spring's loss", -l.SpringLoss*l.SpringTons, "$/ac", "5 % of the first cut (choice)")
	p.row("it brings", net, "$/ac", "")
	if math.IsInf(even, 1) {
		p.Says = "No yield pays for it: a ton takes more nutrients than it sells for."
		return p
	}
	p.row("yield that pays for it", even, "tons/ac", "dry matter")
	e := yieldError * l.Yield * price
	switch {
	case math.Abs(net) <= e:
		p.Says = fmt.Sprintf("No difference: it brings %s, with a yield right to 10 %%.", Figure(net, "$/ac"))
	case net > 0:
		p.Says = fmt.Sprintf("It brings %s an acre (%s); it pays from %.1f tons on. What it costs the stand's life is not in it.", Figure(net, "$"), span(net-e, net+e, "$"), even)
	default:
		p.Says = fmt.Sprintf("It loses %s an acre (%s); it would pay from %.1f tons on.", Figure(-net, "$"), span(-net-e, -net+e, "$"), even)
	}
	return p
}
