package budget

import (
	_ "embed"
	"fmt"
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
func Methods() []*method.Method {
	return []*method.Method{
		forageWorth(), hayPrice(), priceByMoisture(), unitCost(), nutrientPrices(), nutrientWorth(), nutrientWorthFibre(), hayByFactors(),
		standingHay(), standingShare(), hayBid(), landRent(), cropShare(),
		machineCapacity(), machineCost(), capitalRecovery(), machineRepair(), machineFuel(), machineTimeliness(), harvestPace(), ownOrHire(),
		costPerTon(), removalCost(), breakEven(), breakEvenYield(), partialBudget(), oneMoreCut(), milkDelay(),
		cashFlow(), equalAnnual(), standLife(), standSalvage(), rotationLife(), replaceWithRisk(), keepOrTurn(),
	}
}

// Units and ranges that several methods share.
var (
	perTon  = unit.Must("$/ton")
	perAcre = unit.Must("$/ac")
	money   = unit.Must("$")
	tonsAc  = unit.Must("tons/ac")
	acres   = unit.Must("ac")

	shareOf1 = method.Range{Low: 0, High: 1}
	priceTon = method.Range{Low: 0.01, High: 2000}
	costAcre = method.Range{Low: 0, High: 20000}
	yieldAc  = method.Range{Low: 0.01, High: 20}
)

func price(key, about string) method.Input {
	return method.Input{Key: key, About: about, Unit: perTon, Accepted: priceTon}
}

func cost(key, about string) method.Input {
	return method.Input{Key: key, About: about, Unit: perAcre, Accepted: costAcre}
}

// dollars of a ton that may be nothing: freight, a cost.
func tonCost(key, about string) method.Input {
	return method.Input{Key: key, About: about, Unit: perTon, Accepted: method.Range{Low: 0, High: 2000}}
}

func yield(about string) method.Input {
	return method.Input{Key: "yield", About: about, Unit: tonsAc, Accepted: yieldAc, Tested: method.Range{Low: 0.3, High: 9}}
}

func share(key, about string) method.Input {
	return method.Input{Key: key, About: about, Accepted: shareOf1}
}

func interest() method.Input {
	return method.Input{Key: "rate", About: "interest a year", Accepted: shareOf1, Tested: method.Range{Low: 0, High: 0.2}}
}

func optional(in method.Input) method.Input { in.Optional = true; return in }

func byDefault(in method.Input, v string) method.Input { in.Default = v; return in }

func listOf(in method.Input) method.Input { in.Kind = method.Numbers; return in }

func out(key, about string, u unit.Unit, decimals int) method.Output {
	return method.Output{Key: key, About: about, Unit: u, Decimals: decimals}
}

func when(o method.Output, when string) method.Output { o.When = when; return o }

func never(o method.Output, word string) method.Output { o.Never = word; return o }

func constant(key string, v float64, u string, id source.ID) method.Constant {
	return method.Constant{Key: key, Value: v, Unit: u, Source: id}
}

// stretch makes one number stand for all of n.
func stretch(list []float64, n int, key, of string) ([]float64, error) {
	switch {
	case len(list) == n:
		return list, nil
	case len(list) != 1:
		return nil, fmt.Errorf("%d %s for %d %s: want one for each, or one for all", len(list), key, n, of)
	}
	all := make([]float64, n)
	for i := range all {
		all[i] = list[0]
	}
	return all, nil
}

// whole refuses parts of what is counted.
func whole(c *method.Call, key string) (int, error) {
	v := c.Num(key)
	if v != float64(int(v)) {
		return 0, fmt.Errorf("%s %g: accepted whole numbers", key, v)
	}
	return int(v), nil
}

// key is a name as a constant's key: `red_clover`.
func key(name string) string { return strings.ReplaceAll(name, "-", "_") }
