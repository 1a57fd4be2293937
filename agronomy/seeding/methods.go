package seeding

import (
	_ "embed"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{
		seedingRate(), seedingGoal(), lastDay(), survival(), reseeding(), diseaseIndex(),
		seedLots(), seedDepth(), emergence(), lateWindow(), oldGround(), speciesChoice(), dormancy(),
	}
}

var (
	share = method.Range{Low: 0, High: 1}
	some  = method.Range{Low: 0.01, High: 1}
	coat  = method.Range{Low: 0, High: 0.9}
)

func speciesInput() method.Input {
	in := method.Input{Key: "species", About: "what is sown", Kind: method.Word, Default: "alfalfa"}
	for _, s := range PublishedSpecies() {
		in.Choices = append(in.Choices, s.Name)
	}
	return in
}

func lotInputs() []method.Input {
	return []method.Input{
		{Key: "purity", About: "purity of the tag, coat left out", Accepted: some, Default: "0.99"},
		{Key: "germination", About: "germination of the tag without hard seed", Accepted: share, Default: "0.9"},
		{Key: "coating", About: "coat by weight, only where purity is that of the bare seed", Accepted: coat, Default: "0"},
	}
}

func lotConstants() []method.Constant {
	list := []method.Constant{{Key: "hard_counts", Value: 1, Source: source.HardSeed}}
	for _, s := range PublishedSpecies() {
		list = append(list, method.Constant{Key: s.Name, Value: float64(s.SeedsPerLb), Unit: "seeds/lb", Source: source.SeedsPerPound})
	}
	return list
}

func lotOf(c *method.Call) Lot {
	l := Lot{
		SeedsPerLb: unit.SeedsPound(c.K(c.Word("species"))), Purity: unit.Share(c.Num("purity")), Germination: unit.Share(c.Num("germination")),
		Hard: unit.Share(c.Num("hard")), Coating: unit.Share(c.Num("coating")), HardCounts: unit.Share(c.K("hard_counts")),
	}
	if c.Given("seeds_per_lb") {
		l.SeedsPerLb = unit.SeedsPound(c.Num("seeds_per_lb"))
	}
	if l.CoatTwice() {
		c.Note("purity %g leaves no room for a coat of %g: a coated tag's purity already leaves the coat out; then say coating=0", l.Purity, l.Coating)
	}
	return l
}

func seedingRate() *method.Method {
	return &method.Method{
		Name: "seeding-rate", Title: "What a seeding rate lays down",
		About: "Seeds and live seeds a square foot from pounds an acre, and the share of the bag that is pure live seed. Not a count of plants: fewer than half of live seeds become one.",
		Inputs: append([]method.Input{
			speciesInput(),
			{Key: "rate", About: "bagged seed", Unit: unit.Must("lb/ac"), Accepted: method.Range{Low: 0.1, High: 200}, Tested: method.Range{Low: 1, High: 30}},
			{Key: "seeds_per_lb", About: "the lot's own count of bare seed; else the species' usual one", Accepted: method.Range{Low: 10000, High: 5e6}, Optional: true},
			{Key: "hard", About: "hard seed of the tag", Accepted: share, Default: "0"},
		}, lotInputs()...),
		Outputs: []method.Output{
			{Key: "seeds_ft2", About: "seeds laid down", Unit: unit.Must("/ft2"), Decimals: 1},
			{Key: "live_seeds_ft2", About: "live seeds laid down", Unit: unit.Must("/ft2"), Decimals: 1},
			{Key: "pls", About: "pure live seed, share of the bag", Decimals: 3},
		},
		Constants: lotConstants(),
		Sources:   []source.ID{source.SeedsPerPound, source.PureLiveSeed, source.HardSeed, source.CoatedSeed, source.SeedGoal},
		Example:   "rate=15 purity=0.99 germination=0.9",
		Run: func(c *method.Call) error {
			s, err := lotOf(c).At(unit.PoundAcre(c.Num("rate")))
			if err != nil {
				return err
			}
			c.Answer("seeds_ft2", float64(s.Seeds))
			c.Answer("live_seeds_ft2", float64(s.Live))
			c.Answer("pls", float64(s.PureLive))
			return nil
		},
	}
}

func seedingGoal() *method.Method {
	return &method.Method{
		Name: "seeding-goal", Title: "Seed to buy for a goal",
		About: "Pounds of bagged seed for so many live seeds a square foot, or for so many pounds of pure live seed an acre; what a field takes and costs.",
		Inputs: append([]method.Input{
			{Key: "goal", About: "live seeds wanted; or give pls_lb", Unit: unit.Must("/ft2"), Accepted: method.Range{Low: 1, High: 500}, Tested: method.Range{Low: 20, High: 120}, Optional: true},
			{Key: "pls_lb", About: "pure live seed wanted; or give goal", Unit: unit.Must("lb/ac"), Accepted: method.Range{Low: 0.1, High: 100}, Tested: method.Range{Low: 1, High: 25}, Optional: true},
			speciesInput(),
			{Key: "acres", About: "size of the field", Unit: unit.Must("ac"), Accepted: method.Range{Low: 0.1, High: 5000}, Default: "1"},
			{Key: "price", About: "price of bagged seed", Unit: unit.Must("$/lb"), Accepted: method.Range{Low: 0.01, High: 100}, Optional: true},
		}, lotInputs()...),
		Outputs: []method.Output{
			{Key: "bulk_lb_ac", About: "bagged seed an acre", Unit: unit.Must("lb/ac"), Decimals: 1},
			{Key: "total_lb", About: "bagged seed for the field", Unit: unit.Must("lb"), Decimals: 0},
			{Key: "cost", About: "what it costs", Unit: unit.Must("$"), Decimals: 2, When: "with a price"},
		},
		Constants: lotConstants(),
		Sources:   []source.ID{source.PureLiveSeed, source.SeedsPerPound, source.CoatedSeed, source.SeedlingSurvival},
		Example:   "pls_lb=12 purity=0.99 germination=0.9 acres=40 price=5",
		Run:       runGoal,
	}
}

func runGoal(c *method.Call) error {
	if c.Given("goal") == c.Given("pls_lb") {
		return errOneGoal
	}
	lot := lotOf(c)
	rate, err := lot.ForPure(unit.PoundAcre(c.Num("pls_lb")))
	if c.Given("goal") {
		rate, err = lot.ForLive(unit.PerFt2(c.Num("goal")))
		c.Note("reckoned with %g seeds a pound; lots of one species differ by a fifth", float64(lot.SeedsPerLb))
	}
	if err != nil {
		return err
	}
	total := float64(rate) * c.Num("acres")
	c.Answer("bulk_lb_ac", float64(rate))
	c.Answer("total_lb", total)
	if c.Given("price") {
		c.Answer("cost", total*c.Num("price"))
	}
	return nil
}
