package book

import (
	"fmt"
	"slices"

	"haywarden/agronomy/unit"
)

// The price lines that decisions look for in a deck. Hay is priced as fed at 12 % moisture.
const (
	HayBase     = "hay-base"      // $/ton at HayBaseRFV
	HayBaseRFV  = "hay-base-rfv"  // RFV that HayBase is for
	HayPerPoint = "hay-per-point" // $/ton for each RFV point above or below
	HayFloor    = "hay-floor"     // $/ton below which hay does not fall, the price of grass hay

	Corn  = "corn"  // shelled, $/bu
	Meal  = "meal"  // soybean meal of 48 % protein, $/ton as fed
	Milk  = "milk"  // $/cwt
	Straw = "straw" // $/ton as fed

	Nitrogen, Phosphate, PotashK2O  = "nitrogen", "phosphate", "potash-k2o" // $/lb of N, P2O5, K2O
	Urea, DAP, TripleSuper, Potash  = "urea", "dap", "triple-superphosphate", "potash"
	MAP, PotashSulfate              = "map", "potash-sulfate"
	PotashMagnesia, AmmoniumSulfate = "potash-magnesia", "ammonium-sulfate"
	Gypsum, ElementalSulfur         = "gypsum", "elemental-sulfur"
	Borate, SolubleBorate           = "borate", "soluble-borate"
	Sulfur, Boron, Lime             = "sulfur", "boron", "lime"
	AlfalfaSeed, CloverSeed         = "alfalfa-seed", "clover-seed"
	GrassSeed                       = "grass-seed"
	Diesel, Wage, Interest          = "diesel", "wage", "interest"
	CustomMow, CustomRake           = "custom-mow", "custom-rake"
	CustomBaleRound                 = "custom-bale-round"
	CustomBaleLarge                 = "custom-bale-large"
	CustomBaleSmall, CustomWrap     = "custom-bale-small", "custom-wrap"
	CustomChop, CustomHaul          = "custom-chop", "custom-haul"
	HarvestCost, StandFixed         = "harvest-cost", "stand-fixed-cost"
	Establishment, Spray, Storage   = "establishment-cost", "spray-cost", "storage-cost"
	LandRent, LandOwner, HayHauling = "land-rent", "land-owner-cost", "hay-hauling"
)

// PriceKind is what is known of a line by its name: how it is measured, what can be true of it, and for
// how many days a price of it is taken for the going one.
type PriceKind struct {
	Name, Title, Group, Unit string
	Low, High                float64
	Fresh                    int // days after which it is said to be old (choice)
}

// How long prices hold (choice): feed, milk and fuel move within weeks; hay is traded through a winter;
// fertilizer is bought by the season; seed, land, wages and custom rates are set by the year, and the
// surveys behind custom rates come every second year.
const (
	weeks, season, half, year, twoYears = 60, 120, 180, 400, 730
)

const (
	perTon, perPound, perAcre, perBale = "$/ton", "$/lb", "$/ac", "$/bale"
)

var priceKinds = []PriceKind{
	{HayBase, "hay at the reference RFV, as fed", "hay by RFV", perTon, 20, 800, season},
	{HayBaseRFV, "reference RFV", "hay by RFV", "RFV", 80, 220, season},
	{HayPerPoint, "for each RFV point", "hay by RFV", perTon, 0, 10, season},
	{HayFloor, "grass hay, the floor", "hay by RFV", perTon, 0, 500, season},
	{"hay-usda-supreme", "Supreme, RFV over 185", "hay by grade, USDA", perTon, 20, 900, season},
	{"hay-usda-premium", "Premium, RFV 170-185", "hay by grade, USDA", perTon, 20, 900, season},
	{"hay-usda-good", "Good, RFV 150-170", "hay by grade, USDA", perTon, 20, 900, season},
	{"hay-usda-fair", "Fair, RFV 130-150", "hay by grade, USDA", perTon, 20, 900, season},
	{"hay-usda-utility", "Utility, RFV under 130", "hay by grade, USDA", perTon, 20, 900, season},
	{"hay-task-force-prime", "Prime, RFV over 151", "hay by grade, task force", perTon, 20, 900, season},
	{"hay-task-force-1", "Grade 1, RFV 125-151", "hay by grade, task force", perTon, 20, 900, season},
	{"hay-task-force-2", "Grade 2, RFV 103-124", "hay by grade, task force", perTon, 20, 900, season},
	{"hay-task-force-3", "Grade 3, RFV 87-102", "hay by grade, task force", perTon, 20, 900, season},
	{Corn, "shelled corn", "feed and milk", "$/bu", 0.5, 30, weeks},
	{Meal, "soybean meal of 48 % protein", "feed and milk", perTon, 50, 2000, weeks},
	{Milk, "milk", "feed and milk", "$/cwt", 3, 100, weeks},
	{Straw, "straw", "feed and milk", perTon, 10, 600, season},
	{Nitrogen, "nitrogen, N", "fertilizer by nutrient", perPound, 0.05, 5, half},
	{Phosphate, "phosphate, P2O5", "fertilizer by nutrient", perPound, 0.05, 5, half},
	{PotashK2O, "potash, K2O", "fertilizer by nutrient", perPound, 0.05, 5, half},
	{Sulfur, "sulfur, S", "fertilizer by nutrient", perPound, 0.02, 5, half},
	{Boron, "boron, B", "fertilizer by nutrient", perPound, 0.1, 40, half},
	{Urea, "urea, 46-0-0", "fertilizer by material", perTon, 50, 3000, half},
	{MAP, "monoammonium phosphate, 11-52-0", "fertilizer by material", perTon, 50, 3000, half},
	{DAP, "diammonium phosphate, 18-46-0", "fertilizer by material", perTon, 50, 3000, half},
	{TripleSuper, "triple superphosphate, 0-46-0", "fertilizer by material", perTon, 50, 3000, half},
	{Potash, "muriate of potash, 0-0-60", "fertilizer by material", perTon, 50, 3000, half},
	{PotashSulfate, "sulfate of potash, 0-0-50-17S", "fertilizer by material", perTon, 50, 4000, half},
	{PotashMagnesia, "sulfate of potash-magnesia, 0-0-22-22S-11Mg", "fertilizer by material", perTon, 50, 3000, half},
	{AmmoniumSulfate, "ammonium sulfate, 21-0-0-24S", "fertilizer by material", perTon, 50, 2000, half},
	{Gypsum, "gypsum, 17 % S", "fertilizer by material", perTon, 5, 1000, half},
	{ElementalSulfur, "elemental sulfur, 90 %", "fertilizer by material", perTon, 50, 3000, half},
	{Borate, "borate, 14.3 % B", "fertilizer by material", perTon, 100, 8000, half},
	{SolubleBorate, "soluble borate, 20.5 % B", "fertilizer by material", perTon, 100, 10000, half},
	{Lime, "lime, spread", "fertilizer by material", perTon, 2, 300, year},
	{AlfalfaSeed, "alfalfa seed", "seed and fuel", perPound, 0.5, 30, year},
	{CloverSeed, "red clover seed", "seed and fuel", perPound, 0.5, 30, year},
	{GrassSeed, "grass seed", "seed and fuel", perPound, 0.2, 30, year},
	{Diesel, "diesel on the farm", "seed and fuel", "$/gal", 0.5, 20, weeks},
	{Wage, "pay of an operator", "labor and money", "$/h", 5, 150, year},
	{Interest, "interest", "labor and money", "%", 0, 30, year},
	{CustomMow, "mow and condition", "custom rates", perAcre, 2, 100, twoYears},
	{CustomRake, "rake or merge", "custom rates", perAcre, 1, 80, twoYears},
	{CustomBaleRound, "bale, large round", "custom rates", perBale, 1, 100, twoYears},
	{CustomBaleLarge, "bale, large square", "custom rates", perBale, 1, 100, twoYears},
	{CustomBaleSmall, "bale, small square", "custom rates", perBale, 0.1, 10, twoYears},
	{CustomWrap, "wrap a bale", "custom rates", perBale, 1, 60, twoYears},
	{CustomChop, "chop, as fed", "custom rates", perTon, 0.5, 60, twoYears},
	{CustomHaul, "haul, fill and pack, as fed", "custom rates", perTon, 0.5, 60, twoYears},
	{HarvestCost, "one cutting, all its work", "costs of a stand", perAcre, 5, 400, twoYears},
	{StandFixed, "a year, all but harvest and seeding, land in it", "costs of a stand", perAcre, 5, 1500, year},
	{Establishment, "seeding a stand", "costs of a stand", perAcre, 20, 2000, year},
	{Spray, "one spraying, product and pass", "costs of a stand", perAcre, 1, 200, year},
	{Storage, "storing, dry matter", "costs of a stand", perTon, 0, 200, year},
	{LandRent, "rent of land a year", "land and hauling", perAcre, 5, 1500, year},
	{LandOwner, "the owner's own cost of land a year: tax, upkeep", "land and hauling", perAcre, 0, 600, year},
	{HayHauling, "hauling hay to a buyer, as fed", "land and hauling", perTon, 0, 200, year},
}

// PriceKinds lists the lines that reckonings look for, by group.
func PriceKinds() []PriceKind { return slices.Clone(priceKinds) }

// PriceKindOf finds what is known of a line; not ok for one that no reckoning looks for, which a book
// may hold all the same.
func PriceKindOf(name string) (PriceKind, bool) {
	i := slices.IndexFunc(priceKinds, func(k PriceKind) bool { return k.Name == name })
	if i < 0 {
		return PriceKind{}, false
	}
	return priceKinds[i], true
}

// Accept checks a price of the kind as it is entered. The book reads older decks that were checked less
// closely, so this is asked at its door and not by [Prices.Check].
func (k PriceKind) Accept(l PriceLine) error {
	if l.Unit != k.Unit {
		return fmt.Errorf("unit %q: %s is given in %s", l.Unit, k.Name, k.Unit)
	}
	return within("value", l.Value, k.Low, k.High, k.Unit)
}

// OldOn reports whether a price of a day is old on another.
func (k PriceKind) OldOn(priced, date unit.Day) bool { return int(date-priced) > k.Fresh }

// Priced is a line as it holds on a date: with the deck it stands in and whose that is.
type Priced struct {
	PriceLine
	Deck   string
	Day    unit.Day
	Fact   string // of the deck
	Author string
	Own    bool // of the farm's own deck
	Age    int  // days
	Old    bool // past the days for which such a price is taken for the going one
}

// From names deck and day, with the age where it is old.
func (p Priced) From() string {
	from := fmt.Sprintf("%s of %s", p.Deck, p.Day)
	if p.Own {
		from = "the farm's own " + from
	}
	if p.Old {
		from += fmt.Sprintf(", %d days old", p.Age)
	}
	return from
}

// Deck returns the newest deck with a line: of the farm's own if one has it, else of the book's. A farm
// that tells what cutting costs it still sees the district's price of hay. No farm is the book alone.
func (v *View) Deck(f *FarmView, line string) (Deck, bool) {
	if f != nil {
		if d, ok := newestWith(f.Prices, line); ok {
			return d, true
		}
	}
	return newestWith(v.Prices, line)
}

func newestWith(decks []Deck, line string) (Deck, bool) {
	for _, d := range slices.Backward(decks) {
		if _, ok := d.Body.Line(line); ok {
			return d, true
		}
	}
	return Deck{}, false
}

// Price returns a line as it holds for a farm on the view's date; nil farm is the book alone. Not ok
// where no deck has it, or where it is there in another unit than reckonings take.
//
// The lines of [HayBase] belong together: reference, slope and floor come from the deck that has the
// base and from no other.
func (v *View) Price(f *FarmView, line string) (Priced, bool) {
	home := line
	switch line {
	case HayBaseRFV, HayPerPoint, HayFloor:
		home = HayBase
	}
	d, ok := v.Deck(f, home)
	if !ok {
		return Priced{}, false
	}
	l, ok := d.Body.Line(line)
	if !ok {
		return Priced{}, false
	}
	p := Priced{PriceLine: l, Deck: d.Body.Name, Day: d.Day, Fact: d.ID, Author: d.Author, Age: int(v.Date - d.Day)}
	p.Own = f != nil && slices.ContainsFunc(f.Prices, func(o Deck) bool { return o.ID == d.ID })
	if k, known := PriceKindOf(line); known {
		p.Old = k.OldOn(d.Day, v.Date)
		return p, l.Unit == k.Unit
	}
	return p, true
}
