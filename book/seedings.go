package book

import (
	"errors"
	"fmt"
)

// SeedingPlan is a seeding that is planned for a field, as it was told on a day. Its subject is the field; told
// anew for the same year and season it takes the place of what was told before.
type SeedingPlan struct {
	Year    int         `json:"year"`
	Season  string      `json:"season"` // spring, late-summer
	Crop    Crop        `json:"crop"`
	Acres   float64     `json:"acres,omitempty"`      // 0: the whole field
	Into    bool        `json:"into_stand,omitempty"` // sown into a stand that stays
	Ordered bool        `json:"ordered,omitempty"`    // the seed is bought
	Offers  []SeedOffer `json:"seed"`
}

// SeedOffer is a lot of seed; lots of one species compete.
type SeedOffer struct {
	Species     string   `json:"species"`
	Variety     string   `json:"variety,omitempty"`
	PureLb      float64  `json:"pure_lb_acre"` // pounds of pure live seed wanted an acre
	Purity      *float64 `json:"purity,omitempty"`
	Germination *float64 `json:"germination,omitempty"` // without hard seed
	Hard        *float64 `json:"hard,omitempty"`
	Coating     *float64 `json:"coating,omitempty"` // only where purity is that of bare seed
	SeedsPerLb  float64  `json:"seeds_per_lb,omitempty"`
	PriceLb     float64  `json:"price_lb,omitempty"` // $ a pound in the bag
	BagLb       float64  `json:"bag_lb,omitempty"`
}

// Tagged reports whether the lot's tag is known.
func (o SeedOffer) Tagged() bool { return o.Purity != nil && o.Germination != nil }

// The seasons of a seeding.
const (
	SpringSeeding     = "spring"
	LateSummerSeeding = "late-summer"
)

// SeedingSeasons are when seed is sown.
func SeedingSeasons() []string { return []string{SpringSeeding, LateSummerSeeding} }

// SeedSpecies are what is sown.
func SeedSpecies() []string {
	return []string{
		"alfalfa", "red-clover", "ladino-clover", "alsike-clover", "birdsfoot-trefoil",
		"orchardgrass", "tall-fescue", "timothy", "smooth-brome", "reed-canarygrass", "perennial-ryegrass",
	}
}

// Kind says what the body is.
func (SeedingPlan) Kind() Kind { return KindSeedingPlan }

// Check implements [Body].
func (b SeedingPlan) Check() error {
	errs := []error{
		within("year", float64(b.Year), 1950, 2200, ""), oneOf("season", b.Season, SeedingSeasons()), oneOf("crop", b.Crop, Crops()),
		within("acres", b.Acres, 0, 5000, "acres"),
	}
	if len(b.Offers) == 0 {
		errs = append(errs, errors.New("species is empty: a plan says what is sown"))
	}
	rate := map[string]float64{}
	for _, o := range b.Offers {
		errs = append(errs, o.check())
		if was, ok := rate[o.Species]; ok && was != o.PureLb {
			errs = append(errs, fmt.Errorf("pure_lb of %s is %g and %g: lots of one species are for one rate", o.Species, was, o.PureLb))
		}
		rate[o.Species] = o.PureLb
	}
	return errors.Join(errs...)
}

func (o SeedOffer) check() error {
	errs := []error{oneOf("species", o.Species, SeedSpecies()), within("pure_lb", o.PureLb, 0.1, 100, "lb/ac of pure live seed")}
	for _, s := range []struct {
		name      string
		v         *float64
		low, high float64
	}{{"purity", o.Purity, 0.01, 1}, {"germination", o.Germination, 0, 1}, {"hard", o.Hard, 0, 1}, {"coating", o.Coating, 0, 0.9}} {
		if s.v != nil {
			errs = append(errs, within(s.name, *s.v, s.low, s.high, "as a share"))
		}
	}
	if o.Germination != nil && o.Hard != nil && *o.Germination+*o.Hard > 1+1e-9 {
		errs = append(errs, fmt.Errorf("germination %g: with hard seed %g over 1 together; give it without hard seed", *o.Germination, *o.Hard))
	}
	if o.SeedsPerLb != 0 {
		errs = append(errs, within("seeds_per_lb", o.SeedsPerLb, 10000, 5e6, "seeds a pound"))
	}
	if o.PriceLb != 0 {
		errs = append(errs, within("price", o.PriceLb, 0.01, 100, "$/lb"))
	}
	if o.BagLb != 0 {
		errs = append(errs, within("bag", o.BagLb, 1, 2500, "lb"))
	}
	return errors.Join(errs...)
}
