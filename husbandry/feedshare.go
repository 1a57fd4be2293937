package husbandry

import (
	"context"
	"errors"
	"math"

	"haywarden/agronomy/allot"
	"haywarden/book"
	"haywarden/outlook"
)

// Allocate shares a farm's hay crop among its groups until the next crop is opened, by the prices that hold
// for it; without a price of hay the least tons are bought. An error of [allot.Share] says who cannot be
// fed and what would feed them.
func Allocate(ctx context.Context, v *book.View, out *outlook.Farm, rule allot.Rule, whole bool) (*allot.Plan, error) {
	ask, _ := askOf(v, out)
	ask.Rule, ask.Whole, ask.Kept = rule, whole, whole
	return allot.Share(ctx, ask)
}

// dryShare carries hay lines, as fed at 12 % moisture, to dry matter.
const dryShare = 0.88

// askOf is what is to be shared, and the prices it takes.
func askOf(v *book.View, out *outlook.Farm) (allot.Ask, Part) {
	days := float64(max(1, out.Opens-out.Date))
	var part Part
	u := purse{v, out.FarmView}
	line, priced := u.hay(&part)
	hauling, _ := u.look(&part, book.HayHauling)
	ask := allot.Ask{Rule: allot.ByFloor, Tons: !priced}
	for _, g := range out.Groups {
		group := allot.Group{Name: g.Name, Tons: g.LbDay * days / poundsATon, Floor: g.Floor, Ceiling: g.Ceiling, Buy: math.NaN(), BuyNDF: g.Ceiling}
		if priced {
			group.Buy = max(1, (line.At(asked(g.Floor))+hauling)/dryShare)
		}
		ask.Groups = append(ask.Groups, group)
	}
	for _, l := range out.Lots {
		if l.Forage != legumeForage || l.Put.Mid == 0 {
			continue
		}
		lot := allot.Lot{Name: l.Name, Tons: l.Feed(), RFQ: l.RFQ, NDF: l.NDF}
		// Dry hay that is not fed can be sold; silage and wrapped bales are fed before anything is bought (a
		// choice), so that what feeding them costs is nothing.
		if priced && l.DryHay() {
			lot.Value = max(0, (line.At(asked(l.RFQ))-hauling)/dryShare)
		}
		ask.Lots = append(ask.Lots, lot)
	}
	return ask, part
}

// share keeps the plan, or why there is none, with the farm.
func share(ctx context.Context, v *book.View, out *outlook.Farm) error {
	ask, part := askOf(v, out)
	if out.Prices = part.Prices; ask.Tons {
		out.Prices, out.Lacks = nil, append(out.Lacks, part.Lacks...)
	}
	plan, err := allot.Share(ctx, ask)
	if hungry, ok := errors.AsType[*allot.Hungry](err); ok {
		out.NoPlan = hungry.Error()
		return nil
	}
	if err != nil {
		out.NoPlan = "The feed could not be shared: " + err.Error() + "."
		return ctx.Err()
	}
	out.Plan = plan
	return nil
}
