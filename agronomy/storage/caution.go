// Package storage says what keeping and feeding a forage costs, and what can go wrong with it: hay in
// a barn or outside, silage by structure and packing, spoilage at the feed-out face, how wet each bale
// may be, hay that heats, gas over fresh silage, and how a lot is sampled so that its test can be
// leaned on.
//
// Shares lost are parts of the dry matter that enters the store, 0 to 1; moistures are % of fresh
// weight. What can hurt someone is only ever given as a [Told], which cannot be read without its
// cautions.
package storage

import "haywarden/agronomy/caution"

// Caution is a warning that belongs to an instruction.
type Caution = caution.Caution

// The cautions, in words of our own. Sources: [source.HayHeat], [source.SiloGas],
// [source.BaleLimits], [source.BunkerSafety].
const (
	CallFirst       Caution = "Call the fire service before you move or open a hot stack: hay that smoulders can burst into flame the moment air reaches it."
	NeverAlone      Caution = "Never climb on a hot stack alone. It can be burnt hollow underneath: lay planks, wear a harness with a line, and have a second person off the stack who can pull you out."
	ProbeRight      Caution = "Read the core, about 8 ft down, with a probe left in for 15 minutes, in several places. The hottest reading counts, not the mean."
	KeepLooking     Caution = "Hay may heat for weeks: go on reading for at least 3 weeks after stacking, twice a day if it was baled over 20 % moisture; most fires come within 6 weeks."
	SmellIsFire     Caution = "A smell of smoke or of caramel, or steam, means fire whatever the probe says: get people and animals out and call the fire service."
	ToxicSmoke      Caution = "Smoke of hay treated with an acid preservative is poisonous: keep out of it, and tell the fire crew that the hay was treated."
	LabelRules      Caution = "Whether a preservative may be used on this hay, how much, and what it does to skin and machine stands on its label. The label decides."
	NotInside       Caution = "Hay over 25 % moisture without treatment does not go into a building: it can set it on fire."
	GasKills        Caution = "Gas over fresh silage kills within minutes and can lie there unseen. A yellow-brown haze or a smell of bleach means stay out; neither means nothing."
	GasSpreads      Caution = "It is heavier than air and runs down the chute into feed room and barn: keep children, visitors and animals away, shut the door to the barn, and put up a sign."
	NoRescue        Caution = "If someone is down in a silo do not go in after them: call the fire service. Only a crew with breathing apparatus and lifeline may."
	GasThenDoctor   Caution = "Whoever breathed the gas goes to a doctor at once even when feeling well: the lungs can fail hours or weeks later."
	GasMeterFirst   Caution = "Later too: run the blower for an hour first and all the while, take a gas meter, keep a second person outside. No date makes a silo safe."
	SteepRolls      Caution = "Packing tractors roll over: frame and belt on every one, no slope over 1 ft in 3, sight rails on the walls and never filled over them, back up steep slopes, grown and practised drivers only, and nobody on foot where machines work."
	ShaftsTake      Caution = "Stop the engine and wait until every shaft, belt and auger stands before anyone clears, greases or climbs into a bagger, blower, unloader or wagon. Guards stay on."
	MeasureOutside  Caution = "Measure depth from outside or from the platform, never by climbing in: what lies below may be gas."
	FaceCanCollapse Caution = "A silage face can come down without warning: stay three times its height away, never undercut it, and take no sample from it by hand; take it from the loader bucket, away from the face."
)

// Told is an instruction together with the cautions without which it could hurt someone.
type Told = caution.Told

// tell wants one caution at least.
func tell(action string, cautions ...Caution) Told {
	return caution.Tell(action, cautions[0], cautions[1:]...)
}
