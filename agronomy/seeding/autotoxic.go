package seeding

import "math"

// cmFoot is a foot in centimetres.
const cmFoot = 30.48

// Poisoned is the share of the ground that lies within a radius of some old plant, where plants stand at
// random with so many a square foot: 1 - exp(-plants pi r^2). Radius in cm; 20 and 25 are published.
// Source of the zone: [source.OldPlantZone]; of the share: arithmetic.
func Poisoned(plantsFt2, radiusCM float64) float64 {
	r := radiusCM / cmFoot
	return -math.Expm1(-plantsFt2 * math.Pi * r * r)
}

// AfterAlfalfa is a class of the risk of sowing alfalfa where alfalfa stood.
type AfterAlfalfa string

// The classes.
const (
	AfterNone  AfterAlfalfa = "free"  // no old alfalfa, or gone for a year or more
	AfterYoung AfterAlfalfa = "young" // the old stand is under a year: it may be reseeded at once
	AfterGrown AfterAlfalfa = "wait"  // gone for less than a year: another crop first
	AfterAlive AfterAlfalfa = "alive" // it still stands: never thicken alfalfa with alfalfa
)

// AlfalfaBefore is what stood in a field before a seeding of alfalfa.
type AlfalfaBefore struct {
	Stood    bool
	Standing bool    // when the new seed goes in
	Age      float64 // years, when it died or now
	Gone     float64 // months from its death to the seeding
}

// Class says what the old stand means, by its age and the gap alone: what is published of them is firmer than
// the score's weights. Source: [source.ReseedingGap].
func (b AlfalfaBefore) Class() AfterAlfalfa {
	switch {
	case !b.Stood || !b.Standing && b.Gone >= 12:
		return AfterNone
	case b.Age < 1:
		return AfterYoung
	case b.Standing:
		return AfterAlive
	}
	return AfterGrown
}

// Sentence says the class in words.
func (c AfterAlfalfa) Sentence() string {
	switch c {
	case AfterYoung:
		return "The old stand is under a year and has not yet harmed the ground: it may be reseeded at once, tilled before it grows."
	case AfterGrown:
		return "Alfalfa of a year or more leaves in the ground what stunts new alfalfa for good: grow another crop until it has been gone twelve months."
	case AfterAlive:
		return "Alfalfa cannot be thickened with alfalfa: what old plants leave in the ground kills or stunts the seedlings about them."
	case AfterNone:
	}
	return "No alfalfa has stood here for a year: nothing of an old stand is in the way."
}

// Interseed lists what may be sown into thin or dead alfalfa instead, best first. Source:
// [source.ReseedingGap]: red clover is tolerant.
func Interseed() []string {
	return []string{"red clover, 6-8 lb of pure live seed, frost seeded or drilled", "orchardgrass or perennial ryegrass, drilled", "an annual grass or corn, to use the nitrogen the stand leaves"}
}
