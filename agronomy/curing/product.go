package curing

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/unit"
)

// Product is what a swath is taken up as.
type Product string

// The products, the wettest first.
const (
	BunkerHaylage Product = "bunker-haylage"
	BagHaylage    Product = "bag-haylage"
	TowerHaylage  Product = "tower-haylage" // oxygen-limiting
	Baleage       Product = "baleage"
	SmallSquare   Product = "small-square"
	RoundBale     Product = "round"
	LargeSquare   Product = "large-square"
)

// Products lists all, the wettest first.
func Products() []Product {
	return []Product{BunkerHaylage, BagHaylage, TowerHaylage, Baleage, SmallSquare, RoundBale, LargeSquare}
}

// wants is what a product waits for.
type wants struct {
	moisture unit.PercentWet
	from, to int // working hours by the sun: dew is off dry hay by mid-morning (choice)
	dryDays  int
}

func (p Product) wants() (wants, bool) {
	w, ok := map[Product]wants{
		BunkerHaylage: {63, 7, 21, 1},
		BagHaylage:    {62, 7, 21, 1},
		TowerHaylage:  {52, 7, 21, 1},
		Baleage:       {50, 9, 21, 2},
		SmallSquare:   {18, 11, 20, 4},
		RoundBale:     {17, 11, 20, 4},
		LargeSquare:   {15, 11, 20, 4},
	}[p]
	return w, ok
}

// Check refuses a word that is no product.
func (p Product) Check() error {
	if _, ok := p.wants(); ok {
		return nil
	}
	var words []string
	for _, q := range Products() {
		words = append(words, string(q))
	}
	return fmt.Errorf("product %q: accepted %s", p, strings.Join(words, ", "))
}

// Moisture is the moisture at which the product is usually taken up. Source: [source.CuringTargets].
func (p Product) Moisture() unit.PercentWet {
	w, _ := p.wants()
	return w.moisture
}

// Target is the product's moisture with its working hours.
func (p Product) Target() Target {
	w, _ := p.wants()
	return Target{DB: float64(w.moisture.OfDM()), From: w.from, To: w.to}
}

// DryDays is how many days without rain the simple rule wants, the day of mowing being the first.
// Source: [source.HayDays].
func (p Product) DryDays() int {
	w, _ := p.wants()
	return w.dryDays
}

// Word is how far a chance of keeping dry goes. Source: [source.HayDays].
type Word string

// The words.
const (
	Go      Word = "go"
	Caution Word = "caution"
	Wait    Word = "wait"
)

// WordOf turns a chance into a word, compared as shown, in whole percent. No chance, no word.
func WordOf(chance unit.Share) Word {
	const goFrom, cautionFrom = 70, 45
	switch percent := math.Round(100 * float64(chance)); {
	case math.IsNaN(percent):
		return ""
	case percent >= goFrom:
		return Go
	case percent >= cautionFrom:
		return Caution
	default:
		return Wait
	}
}
