package allot

import (
	"errors"
	"fmt"
	"math"
)

// Rule is how a lot is held to a group's quality.
type Rule string

// The rules.
const (
	ByFloor Rule = "floor" // each lot alone reaches the group's RFQ
	ByBlend Rule = "blend" // all that the group eats together keeps under its NDF
)

// Lot is feed in store.
type Lot struct {
	Name  string
	Tons  float64            // to be fed, dry matter
	RFQ   float64            // NaN: not known
	NDF   float64            // % of dry matter; NaN: not known
	Value float64            // $/ton that it would bring if it is not fed; 0 without prices
	Worth map[string]float64 // $/ton that it is worth fed to a group, by the group's name; nil: feeding only spares buying
}

// Group is animals fed alike.
type Group struct {
	Name    string
	Tons    float64 // to be fed, dry matter
	Floor   float64 // RFQ that each lot reaches; NaN: any
	Ceiling float64 // NDF that the blend keeps under, %; NaN: any
	Buy     float64 // $/ton of forage bought for it, delivered; NaN: none can be had
	BuyNDF  float64 // of bought forage, %; NaN: just at the ceiling
}

// Ask is what is to be shared and how.
type Ask struct {
	Lots   []Lot
	Groups []Group
	Rule   Rule
	Whole  bool // each lot to one group at most: a bag has one face
	// Kept lets a group leave some of a lot that is its own, which keeps its value; otherwise all of a
	// whole lot is fed, and what that is over the need is worth nothing.
	Kept bool
	// Sold counts what is left as sold at its value, so that the cost is net of the sales. Otherwise the
	// value of a lot is the cost of feeding it, and what is left stands for itself.
	Sold bool
	// Tons leaves prices aside: the least tons are bought, for any group.
	Tons bool
}

const (
	mostTons  = 1e6
	mostPrice = 1e5
)

// check refuses what makes no sense before anything is solved.
func (a Ask) check() error {
	if a.Rule != ByFloor && a.Rule != ByBlend {
		return fmt.Errorf("rule %q; accepted floor or blend", a.Rule)
	}
	if len(a.Groups) == 0 {
		return errors.New("no group is given: want one at least, with the tons it eats")
	}
	seen := map[string]bool{"": true, Bought: true, Left: true}
	once := func(what, name string) error {
		if seen[name] {
			return fmt.Errorf("%s %q: each lot and group wants a name of its own, and %s and %s are taken", what, name, Bought, Left)
		}
		seen[name] = true
		return nil
	}
	for _, g := range a.Groups {
		if err := once("group", g.Name); err != nil {
			return err
		}
		if err := a.checkGroup(g); err != nil {
			return fmt.Errorf("group %s: %w", g.Name, err)
		}
	}
	for _, l := range a.Lots {
		if err := once("lot", l.Name); err != nil {
			return err
		}
		if err := a.checkLot(l); err != nil {
			return fmt.Errorf("lot %s: %w", l.Name, err)
		}
	}
	return nil
}

func (a Ask) checkGroup(g Group) error {
	switch {
	case !(g.Tons >= 0 && g.Tons <= mostTons):
		return fmt.Errorf("tons %g: accepted 0 to %g", g.Tons, float64(mostTons))
	case known(g.Floor) && !(g.Floor >= 0 && g.Floor <= 400):
		return fmt.Errorf("rfq_min %g: accepted 0 to 400", g.Floor)
	case known(g.Ceiling) && !(g.Ceiling >= 10 && g.Ceiling <= 90):
		return fmt.Errorf("ndf_max %g: accepted 10 to 90 %% of dry matter", g.Ceiling)
	case known(g.BuyNDF) && !(g.BuyNDF >= 10 && g.BuyNDF <= 90):
		return fmt.Errorf("buy_ndf %g: accepted 10 to 90 %% of dry matter", g.BuyNDF)
	case known(g.Buy) && !(g.Buy > 0 && g.Buy <= mostPrice):
		return fmt.Errorf("buy %g: accepted over 0 to %g $/ton; leave it out where nothing can be bought", g.Buy, float64(mostPrice))
	case a.Rule == ByBlend && known(g.Ceiling) && known(g.Buy) && !known(g.BuyNDF):
		return errors.New("buy_ndf is missing: a blend wants the NDF of what is bought")
	}
	return nil
}

func (a Ask) checkLot(l Lot) error {
	switch {
	case !(l.Tons >= 0 && l.Tons <= mostTons):
		return fmt.Errorf("tons %g: accepted 0 to %g; feed that is owed is no lot", l.Tons, float64(mostTons))
	case known(l.RFQ) && !(l.RFQ >= 20 && l.RFQ <= 400):
		return fmt.Errorf("rfq %g: accepted 20 to 400", l.RFQ)
	case known(l.NDF) && !(l.NDF >= 10 && l.NDF <= 90):
		return fmt.Errorf("ndf %g: accepted 10 to 90 %% of dry matter", l.NDF)
	case !(l.Value >= 0 && l.Value <= mostPrice):
		return fmt.Errorf("value %g: accepted 0 to %g $/ton", l.Value, float64(mostPrice))
	case len(l.Worth) > 0 && (a.Whole || a.Tons):
		return errors.New("what a ton is worth by group is only weighed where lots are split and priced")
	}
	for name, w := range l.Worth {
		if !(w >= 0 && w <= mostPrice) {
			return fmt.Errorf("worth to %s %g: accepted 0 to %g $/ton", name, w, float64(mostPrice))
		}
	}
	return nil
}

// known reports whether a number was given: what was not is NaN.
func known(v float64) bool { return !math.IsNaN(v) }

// suits reports whether a lot may go to a group at all. Feed values are told in whole points.
func (a Ask) suits(l Lot, g Group) bool {
	if a.Rule == ByFloor {
		return !known(g.Floor) || known(l.RFQ) && math.Floor(l.RFQ+0.5) >= math.Floor(g.Floor+0.5)
	}
	return !known(g.Ceiling) || known(l.NDF)
}
