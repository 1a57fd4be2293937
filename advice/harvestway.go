package advice

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// wayed is a product with what it is worth at the bunk.
type wayed struct {
	outlook.Brought
	mean, fault float64 // worth, and its error: over the paths, and of the losses in print
}

// HarvestWay says which way of taking up a crop mown on a day brings most to the bunk: haylage, baleage or hay.
// It is nil where the weather of that day is not known.
func HarvestWay(s *outlook.Stand, best unit.Day) *Piece {
	brought := s.BroughtOn(best)
	if len(brought) == 0 {
		return nil
	}
	worth, unitName, line := worthAtBunk(s)
	all := make([]wayed, len(brought))
	for i, b := range brought {
		mean, sd := b.Worth(worth)
		ends := b.Dry.Spread(func(f losses.Feed) float64 { return worth(f.DM, f.RFV()) })
		all[i] = wayed{b, mean, math.Hypot(sd, (ends.High-ends.Low)/2)}
	}
	slices.SortStableFunc(all, func(a, b wayed) int { return -cmp.Compare(a.mean, b.mean) })
	most := all[0]
	other := all[1]
	for _, w := range all[1:] {
		if w.Product == s.Target.Product {
			other = w
		}
	}
	told, by := compared(most, other, worth)
	p := &Piece{Decision: "harvest-way", Stand: s, Urgency: Watch, Cautions: []string{machinery}}
	if told == risk.More && best <= s.Date+noticeDays { // what makes no difference wants nobody's week
		p.Urgency = Week
	}
	switch {
	case told != risk.More:
		p.Title = fmt.Sprintf("%s or %s: no difference at the bunk", Capital(string(most.Product)), other.Product)
	case most.Product == s.Target.Product:
		p.Title = Capital(string(most.Product)) + " brings most to the bunk"
	default:
		p.Title = fmt.Sprintf("%s brings more to the bunk than %s", Capital(string(most.Product)), other.Product)
	}
	var parts []string
	for _, w := range s.Wanted(brought) {
		parts = append(parts, fmt.Sprintf("%s %.1f tons an acre at RFV %s (%s made clean within %d days)", w.Product, w.Kept.Middle*s.Yield.FirstCut, Points(w.RFV.Middle), Odds(w.Clean), w.Within))
	}
	p.Sentence = fmt.Sprintf("Mown on %s it comes to the bunk as %s. %s", Weekday(best), strings.Join(parts, ", "), swathSay(s, best, most))
	p.Worth.Text = fmt.Sprintf("%s is worth $%.0f an acre more than %s (± %.0f), %s.", Capital(string(most.Product)), by.By, other.Product, by.Error, line)
	if unitName != dollars {
		p.Worth.Text = fmt.Sprintf("%s comes to %.2f %s more than %s (± %.2f), %s.", Capital(string(most.Product)), by.By, unitName, other.Product, by.Error, line)
	}
	if told != risk.More {
		p.Worth.Text += " That is no difference."
	}
	p.allowance(s, best, brought)
	// Whichever way is taken, each has its own danger.
	p.warn(storage.NotInside, storage.KeepLooking, storage.GasKills)
	p.Grounds = wayGrounds(s, brought)
	return p
}

// allowanceApart is how far the loss counted step by step may lie from the one that the target allows before
// it is said: less than that no test can tell apart. [source.LabErrors]
const allowanceApart = 5

// allowance sets the points lost on the way beside those that the stand's target allows, where they differ:
// the one is counted step by step to the bunk, the other a rule from field to store.
func (p *Piece) allowance(s *outlook.Stand, best unit.Day, brought []outlook.Brought) {
	i := slices.IndexFunc(brought, func(b outlook.Brought) bool { return b.Product == s.Target.Product })
	expected, ok := s.Expect(best)
	if i < 0 || !ok {
		return
	}
	lost := math.Round(expected.Middle - brought[i].RFV.Middle)
	if math.Abs(lost-s.Target.Loss) <= allowanceApart {
		return
	}
	so := "want more standing if what is eaten must test " + Points(s.Target.FeedRFV)
	if lost < s.Target.Loss {
		so = "less will do standing for " + Points(s.Target.FeedRFV) + " at the bunk"
	}
	p.Worth.Text += fmt.Sprintf(" Step by step %s loses %.0f points from field to bunk, and the target allows %s: %s.", s.Target.Product, lost, Points(s.Target.Loss), so)
	p.Rules = append(p.Rules, Rule{
		Says: fmt.Sprintf("%s points of RFV are lost from the standing crop to feed as %s, %s to %s", Points(s.Target.Loss), s.Target.Product, Points(s.Target.LossLow), Points(s.Target.LossHigh)),
		Here: fmt.Sprintf("cut at %s to feed %s", Points(s.Target.CutRFV), Points(s.Target.FeedRFV)), Differs: fmt.Sprintf("counted through each machine, the store and the bunk it is %.0f", lost), Source: source.HarvestLoss,
	})
}

const dollars = "$ an acre"

// worthAtBunk is what a share of the standing crop is worth at a feed value: in money where hay has a
// price, else in tons, points weighed in.
func worthAtBunk(s *outlook.Stand) (of func(kept, rfv float64) float64, unitName, line string) {
	tons := s.Yield.FirstCut
	if price, ok := s.HayPrice(); ok {
		return func(kept, rfv float64) float64 { return kept * tons / hayDryMatter * price.Ton(rfv) }, dollars,
			fmt.Sprintf("each priced as hay of its feed value by %s (%s)", price.Deck, price.Day)
	}
	return func(kept, rfv float64) float64 { return kept * tons * (1 + pointTon*(rfv-s.Target.FeedRFV)) }, "tons an acre",
		fmt.Sprintf("a point of RFV counted as %g ton on a ton, no hay price being in the book", pointTon)
}

// compared tells two ways apart. They share field and weather, so that their errors go together as far as
// the paths say; the losses in print are taken to err apart (choice).
func compared(a, b wayed, worth func(kept, rfv float64) float64) (risk.Told, risk.Difference) {
	_, sa, corr := a.Against(b.Brought, worth)
	_, sb, _ := b.Against(a.Brought, worth)
	together := 0.0
	if a.fault > 0 && b.fault > 0 {
		together = min(1, max(-1, corr*sa*sb/(a.fault*b.fault)))
	}
	d, err := risk.Tell(risk.Estimate{Value: a.mean, Error: a.fault}, risk.Estimate{Value: b.mean, Error: b.fault}, together)
	if err != nil {
		return risk.NoDifference, risk.Difference{By: a.mean - b.mean, Told: risk.NoDifference}
	}
	return d.Told, d
}

// swathSay says how to lay the swath of the way that brings most.
func swathSay(s *outlook.Stand, best unit.Day, most wayed) string {
	i := int(best - s.Date)
	wide, wideH := s.Sky.CleanChance(i, most.Product, outlook.Wide)
	narrow, narrowH := s.Sky.CleanChance(i, most.Product, outlook.Narrow)
	tedded, teddedH := s.Sky.CleanChance(i, most.Product, outlook.Tedded)
	if math.IsNaN(wideH) {
		return "In no way the weather may go is it made clean in time."
	}
	say := fmt.Sprintf("Laid wide, over 70 %% of the ground, %s takes %.0f hours where it is made in time", most.Product, wideH)
	if !math.IsNaN(narrowH) {
		say += fmt.Sprintf(", over 30 %% it takes %.0f", narrowH)
	}
	say += fmt.Sprintf(": %s against %s.", Odds(wide), Odds(narrow))
	switch {
	case tedded-wide >= 0.05:
		say += fmt.Sprintf(" Tedded the same afternoon: %s.", Odds(tedded))
	case !math.IsNaN(teddedH) && most.Product != "haylage":
		say += " Tedding wins little here and costs leaves."
	}
	return say
}

func wayGrounds(s *outlook.Stand, brought []outlook.Brought) []Ground {
	var g []Ground
	for _, b := range brought {
		var sources []source.ID
		var steps []string
		for _, step := range b.Dry.Steps {
			steps = append(steps, fmt.Sprintf("%s %.0f %%", step.Name, 100*step.Share.Mid))
			for _, id := range step.Sources {
				if !slices.Contains(sources, id) {
					sources = append(sources, id)
				}
			}
		}
		total := b.Dry.Total().Percent()
		g = append(g, Ground{
			What: Capital(string(b.Product)) + " at the bunk", Value: fmt.Sprintf("RFV %s (%s to %s), %.0f %% of the standing dry matter (%.0f to %.0f), NDF %.1f %%", Points(b.RFV.Middle), Points(b.RFV.Low), Points(b.RFV.High), 100*b.Kept.Middle, 100*b.Kept.Low, 100*b.Kept.High, b.NDF),
			How: fmt.Sprintf("%s of what enters each; without rain %.0f %% is lost, %.0f to %.0f by what is in print; stored %s", strings.Join(steps, ", "), total.Mid, total.Low, total.High, storedAs(string(b.Product))), Sources: sources,
		})
	}
	return append(g, Ground{
		What: "Curing", Value: fmt.Sprintf("harm from %.2f mm of rain on the swath", curing.UsualHarmMM),
		How:     fmt.Sprintf("hourly drying from the day of mowing through %s; %g t/ha, conditioned, in a swath over 70 %% of the ground, mown at 10:00 by the sun; protein of %d %% assumed standing", s.Sky.Follows(), float64(outlook.SwathYieldTHa), outlook.StandingCP),
		Sources: aheadSources(s.Sky, source.DryingRate, source.DryingDensity, source.CuringCrop, source.HarmfulRain, source.RainModel, source.MassBalance),
	})
}

// storedAs says how each product is taken to be kept.
func storedAs(product string) string {
	switch product {
	case "hay":
		return "as round bales inside (assumed)"
	case "baleage":
		return "as wrapped bales (assumed)"
	}
	return "in a covered bunker (assumed)"
}
