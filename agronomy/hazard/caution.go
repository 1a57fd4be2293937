package hazard

import (
	"haywarden/agronomy/caution"
)

// The cautions of grazing and of feeding what may hurt, in words of our own. Sources: [source.Bloat],
// [source.Slobbers], [source.BlisterBeetles], [source.NitrateLimits], [source.FrostedForage].
const (
	NeverHungry   caution.Caution = "Cattle and sheep can die of bloat within an hour: never turn them hungry or on wet or dewy alfalfa or clover; fill them with dry hay first, move them at midday or later, and look at them several times in the first days."
	HalfGrass     caution.Caution = "Keep alfalfa and clovers to half of the forage on offer, graze from one-tenth bloom, and give small fresh breaks so that stems are eaten too. Ask your veterinarian about a bloat guard before turnout; it must be eaten every day."
	BloatCall     caution.Caution = "A swollen left side, kicking at the belly or hard breathing is an emergency: take all of them off and call the veterinarian."
	FrostWait     caution.Caution = "After any freeze keep animals off for at least three days, after a killing frost until stems are down and dry, and count anew after each one. Sorghum or sudangrass in the field gives prussic acid after frost: ask before anything grazes it."
	SprayedNoFeed caution.Caution = "A field that was sprayed is not grazed or cut before the days on the label have passed."
	CloverDrool   caution.Caution = "Heavy drooling on red clover comes of a mould that leaves black rings on the leaf: take the feed away, and call the veterinarian if they will not eat, scour or slip calves. Old hay is not safe for being old."
	NoBeetles     caution.Caution = "Hay for horses bears no blister beetle at all: a few can kill, dead ones in hay as well, and picking them out does not help. Walk edges and flowering weeds a week before the cut, cut before bloom, and neither crimp nor drive over the swath where beetles swarm."
	HorseCall     caution.Caution = "Colic, sores in the mouth or blood in the urine of a horse on alfalfa: take the hay away and call the veterinarian at once."
	TestNitrate   caution.Caution = "Nitrate cannot be seen. Have a laboratory test drought, frosted, hailed or weedy forage before it is fed, ask in which form it reports, and count what is in the water. Drying does not lower it."
	NitrateCall   caution.Caution = "Weakness, fast breathing or brown blood: call the veterinarian at once, take the feed away, and do not drive the animals."
	AskNutrition  caution.Caution = "How much each class of animal may get is a matter for your veterinarian or nutritionist, who know the whole ration."
)

// TellGraze is an instruction that speaks of grazing, with all that goes with it. There is no other way
// to give one.
func TellGraze(action string) caution.Told {
	return caution.Tell(action, NeverHungry, HalfGrass, BloatCall, FrostWait, SprayedNoFeed, CloverDrool)
}

// TellNitrate is an instruction about forage that may hold nitrate.
func TellNitrate(action string) caution.Told {
	return caution.Tell(action, TestNitrate, NitrateCall, AskNutrition)
}

// TellHorse is an instruction about hay for horses.
func TellHorse(action string) caution.Told { return caution.Tell(action, NoBeetles, HorseCall) }
