package blend

import (
	"context"
	_ "embed"
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method { return []*method.Method{cheapest()} }

// dealerStep is what a dealer delivers at once where nothing else is said, lb ([source.DealerSteps]).
const dealerStep = 100

func cheapest() *method.Method {
	materials, limits := PublishedMaterials(), PublishedLimits()
	var ids, needed []string
	var constants []method.Constant
	for _, m := range materials {
		ids = append(ids, m.ID)
		for _, c := range m.Contents {
			constants = append(constants, method.Constant{Key: m.ID + "_" + string(c.Nutrient), Value: c.Share, Source: c.Source})
		}
	}
	for _, n := range Needed() {
		needed = append(needed, string(n))
	}
	constants = append(
		constants,
		method.Constant{Key: "boron_most", Value: limits.Boron, Unit: "lb/ac", Source: source.BoronTopdress, Exempt: "a limit that refuses and never enters an answer"},
		method.Constant{Key: "potash_split", Value: limits.Split, Unit: "lb/ac", Source: source.PotashSplit, Exempt: "a limit from which on a note is made"},
		method.Constant{Key: "potash_most", Value: limits.K2O, Unit: "lb/ac", Source: source.PotashMost, Exempt: "a limit from which on a note is made"},
	)
	perAcre := unit.Must("lb/ac")
	return &method.Method{
		Name: "blend", Title: "Least-cost fertilizer for what a field needs",
		About: "The products that meet the needs at the least cost, at your dealer's prices, and what one more pound of each nutrient costs. It takes needs as they are: soil test and removal say how much. With acres a note gives the order in whole hundredweights of bulk.",
		Inputs: []method.Input{
			{Key: "need", About: "pounds of each nutrient to spread", Kind: method.Pairs, Unit: perAcre, Choices: needed, Accepted: method.Range{Low: 0, High: 1000}, Tested: method.Range{Low: 0, High: 600}},
			{Key: "prices", About: "price of each product that can be had", Kind: method.Pairs, Unit: unit.Must("$/ton"), Choices: ids, Accepted: method.Range{Low: 1, High: 10000}},
			{Key: "n_max", About: "most nitrogen that may come along; left out: any", Unit: perAcre, Accepted: method.Range{Low: 0, High: 200}, Optional: true},
			{Key: "acres", About: "of the field, for the order", Unit: unit.Must("ac"), Accepted: method.Range{Low: 0.1, High: 10000}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "products", About: "what to spread, the products that are used", Unit: perAcre, Decimals: 1},
			{Key: "cost_ac", About: "cost of the products", Unit: unit.Must("$/ac"), Decimals: 2},
			{Key: "shadow", About: "what one more pound of each need costs; of n, what one more pound allowed changes the cost by", Unit: unit.Must("$/lb"), Decimals: 4},
		},
		Constants: constants,
		Sources:   []source.ID{source.LeastCostBlend, source.NitrogenIdle, source.BoronPlacing, source.PotashTiming, source.ElementalSulfur, source.DealerSteps},
		Example:   "need=p2o5:60,k2o:250,s:25,b:2 prices=map:760,tsp:690,mop:480,gyp:110,b14:1400 n_max=10 acres=40",
		Run:       run,
	}
}

func run(c *method.Call) error {
	f := Field{Acres: 1, Need: map[Nutrient]float64{}, NMost: math.Inf(1)}
	for _, p := range c.Pairs("need") {
		f.Need[Nutrient(p.Name)] = p.Value
	}
	if c.Given("n_max") {
		f.NMost = c.Num("n_max")
	}
	limits := Limits{Boron: c.K("boron_most"), Split: c.K("potash_split"), K2O: c.K("potash_most")}
	offers := offered(c)
	m, err := Cheapest(f, offers, limits)
	if err != nil {
		return err
	}
	products := make([]method.Pair, len(m.Parts))
	for i, p := range m.Parts {
		products[i] = method.Pair{Name: p.Material.ID, Value: p.PerAcre}
	}
	c.Answer("products", products)
	c.Answer("cost_ac", float64(m.CostAcre))
	shadow := []method.Pair{}
	for _, n := range append(Needed(), N) {
		if v, ok := m.Shadow[n]; ok {
			shadow = append(shadow, method.Pair{Name: string(n), Value: v})
		}
	}
	c.Answer("shadow", shadow)
	for _, w := range append(m.Words(), m.Cautions(limits)...) {
		c.Note("%s", w)
	}
	if !c.Given("acres") {
		return nil
	}
	f.Acres = unit.Acre(c.Num("acres"))
	return noteOrder(c, f, offers, limits)
}

// offered are the products that have a price, with the contents that the method declares.
func offered(c *method.Call) (offers []Offer) {
	for _, p := range c.Pairs("prices") {
		for _, m := range PublishedMaterials() {
			if m.ID != p.Name {
				continue
			}
			for i := range m.Contents {
				m.Contents[i].Share = c.K(m.ID + "_" + string(m.Contents[i].Nutrient))
			}
			offers = append(offers, Offer{Material: m, PerTon: unit.DollarTon(p.Value), Step: dealerStep})
		}
	}
	return offers
}

func noteOrder(c *method.Call, f Field, offers []Offer, l Limits) error {
	o, err := Ordered(context.Background(), []Field{f}, offers, l)
	if err != nil {
		return err
	}
	var lines []string
	for _, line := range o.Lines {
		lines = append(lines, fmt.Sprintf("%s %.0f lb", line.Material.ID, line.Pounds))
	}
	c.Note("order for %.4g ac in whole %d lb: %s; $%.2f, of which rounding costs $%.2f", float64(f.Acres), dealerStep, strings.Join(lines, ", "), o.Cost, o.Rounding)
	return nil
}
