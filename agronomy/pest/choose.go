package pest

import "fmt"

// Pest is one of the two that are weighed in dollars.
type Pest string

// The pests.
const (
	AlfalfaWeevil Pest = "weevil"
	Leafhopper    Pest = "leafhopper"
)

// Choice is what is decided.
type Choice string

// The choices.
const (
	Spray    Choice = "spray"
	CutEarly Choice = "cut early"
	Resample Choice = "resample"
	LeaveIt  Choice = "leave"
	Blocked  Choice = "blocked" // over the threshold, a block stands, and cutting early does not pay
)

// Blocks are what forbids a spray, as keys.
const (
	BlockPHI   = "phi"   // the days to harvest on the label are more than the days to the cut
	BlockBloom = "bloom" // the crop or weeds in it are in bloom: bees
	BlockLabel = "label" // nobody has confirmed that the label allows it here
	BlockNear  = "near"  // the cut is so near that it does the work
)

// Case is what a choice is made from.
type Case struct {
	Pest      Pest
	Count     float64 // larvae a stem, or hoppers a sweep
	HeightIn  float64
	Money     Money   // zero: no price is known
	Standing  Verdict // as the spread of the count says; empty: by the count alone
	Stand     Stand
	DaysToCut float64
	PHI       float64 // days to harvest on the label
	Bloom     bool
	Confirmed bool // label: this crop, every species in it, this state
}

// Chosen is a choice with what it rests on.
type Chosen struct {
	Choice    Choice
	Threshold float64 // pests a unit
	Plain     bool    // the threshold knows no price
	Outside   string  // where the published table does not go so far
	Standing  Verdict
	Loss      float64 // tons/ac that the pests take until the planned cut, nothing done
	Given     float64 // tons/ac not grown if cut today
	NetSpray  float64 // $/ac, cost off; meaningless without money
	NetCut    float64 // $/ac
	Blocks    []string
	Forbidden bool // a block other than nearness stands
}

// Weights are what choosing rests on.
type Weights struct {
	Larvae Larvae
	Hopper Hopper
	Growth float64 // tons/ac a day near harvest, [source.GrowthPerDay]
}

// PublishedWeights returns them.
func PublishedWeights() Weights { return Weights{PublishedLarvae(), PublishedHopper(), 0.05} }

// Choose weighs leaving, cutting early and treating. The order: a cut within a week is made and nothing
// is sprayed; then the count against its threshold; then what forbids a spray; then the dollars.
//
// Cutting early saves the same loss as treating (a cut kills most larvae and nearly all nymphs) and
// gives up the growth of the days until the planned cut; no trip is paid for. Treating is taken to
// prevent the whole loss, as the published tables do.
func (w Weights) Choose(c Case) (Chosen, error) {
	if err := c.sound(); err != nil {
		return Chosen{}, err
	}
	out := Chosen{Given: w.Growth * c.DaysToCut}
	out.Threshold, out.Plain, out.Outside = w.Threshold(c)
	if out.Standing = c.Standing; out.Standing == "" {
		out.Standing = Judge(c.Count, out.Threshold)
	}
	out.Loss = c.Count * w.tons(c)
	if !out.priceless(c) {
		out.NetSpray = Injury{Money: c.Money, TonsPerPest: w.tons(c), Kill: 1}.Net(c.Count)
		out.NetCut = (out.Loss - out.Given) * c.Money.Hay
	}
	out.block(c)
	out.decide(c)
	return out, nil
}

func (c Case) sound() error {
	switch {
	case c.Pest != AlfalfaWeevil && c.Pest != Leafhopper:
		return fmt.Errorf("pest %q: accepted weevil, leafhopper", c.Pest)
	case !(c.Count >= 0 && c.Count <= 1000):
		return fmt.Errorf("count %g: accepted 0 to 1000", c.Count)
	case !(c.HeightIn > 0 && c.HeightIn <= 60):
		return fmt.Errorf("height %g in: accepted over 0 to 60", c.HeightIn)
	case !(c.DaysToCut >= 0) || !(c.PHI >= 0):
		return fmt.Errorf("days to cut %g and days to harvest %g: 0 or more", c.DaysToCut, c.PHI)
	}
	return nil
}

// Threshold is the count at which to act, in the pest's unit; plain where it knows no price, outside
// where the published table does not go so far.
func (w Weights) Threshold(c Case) (at float64, plain bool, outside string) {
	priceless := c.Money.Hay <= 0 || c.Money.Cost <= 0
	switch {
	case c.Pest == AlfalfaWeevil && priceless:
		return PlainLarvae(c.HeightIn), true, ""
	case c.Pest == AlfalfaWeevil:
		at, outside = w.Larvae.Threshold(c.HeightIn, c.Money)
	case priceless:
		return w.Hopper.Plain(c.HeightIn, c.Stand), true, ""
	default:
		at, outside = w.Hopper.Threshold(c.HeightIn, c.Money, c.Stand)
	}
	return at, false, outside
}

// tons is the loss of one pest a unit, tons/ac. A resistant variety loses a third of it.
func (w Weights) tons(c Case) float64 {
	if c.Pest == AlfalfaWeevil {
		return w.Larvae.TonsPerLarva()
	}
	return w.Hopper.TonsPerHopper(c.HeightIn) / w.Hopper.times(c.Stand)
}

func (*Chosen) priceless(c Case) bool { return c.Money.Hay <= 0 || c.Money.Cost <= 0 }

func (o *Chosen) block(c Case) {
	for _, b := range []struct {
		key  string
		here bool
	}{{BlockNear, c.DaysToCut <= CutInstead}, {BlockPHI, c.PHI > c.DaysToCut}, {BlockBloom, c.Bloom}, {BlockLabel, !c.Confirmed}} {
		if b.here {
			o.Blocks = append(o.Blocks, b.key)
			o.Forbidden = o.Forbidden || b.key != BlockNear
		}
	}
}

func (o *Chosen) decide(c Case) {
	pays := o.Loss > o.Given // cutting early saves more than it gives up
	switch {
	case o.Standing == Under:
		o.Choice = LeaveIt
	case o.Standing == Near:
		o.Choice = Resample
	case c.DaysToCut <= CutInstead:
		o.Choice = CutEarly
	case len(o.Blocks) > 0 && (pays || c.Bloom):
		o.Choice = CutEarly // in bloom it is ripe to cut, and never sprayed
	case len(o.Blocks) > 0:
		o.Choice = Blocked
	case o.priceless(c):
		o.Choice = Spray
	case o.NetSpray <= 0 && o.NetCut <= 0:
		o.Choice = Resample // at the threshold, and nothing pays yet
	case o.NetCut >= o.NetSpray:
		o.Choice = CutEarly
	default:
		o.Choice = Spray
	}
}
