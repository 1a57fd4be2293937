package diagnosis

import "haywarden/agronomy/source"

// Causes lists what is known, commoner first within a kind. Signs and advice: see each source.
func Causes() []Cause {
	alfalfa, clover := []string{"alfalfa"}, []string{"red clover"}
	summer := []string{"early summer", "midsummer"}
	growing := []string{"spring", "early summer", "midsummer", "fall"}
	return []Cause{
		{
			Name: "Potato leafhopper", Kind: "insect", Crops: alfalfa, Patterns: []string{"all over", "edges", "new seeding"}, Parts: []string{"leaf", "whole plant"}, Colors: []string{"yellow", "red or purple", "stunted"}, Seasons: summer,
			Signs: "A yellow V from the leaf's tip; plants short, later red.", Mistaken: []string{"Boron shortage", "Drought", "Verticillium wilt"},
			Test: "Sweep it: leafhoppers decide, not color. Boron yellows the young top leaves, drought the whole field alike.", Then: "Count by sweeps against the threshold; the loss is taken by the time it is yellow. If it is ripe, cut.", Source: source.HopperSweeps,
		},
		{
			Name: "Alfalfa weevil", Kind: "insect", Crops: alfalfa, Patterns: []string{"all over", "patches"}, Parts: []string{"growing tip", "leaf"}, Colors: []string{"holes", "white"}, Seasons: []string{"spring", "early summer"},
			Signs: "Pinholes, then tips skeletonised and grey from afar; green larvae with a white stripe and a black head.", Mistaken: []string{"Clover leaf weevil", "Spring frost"},
			Test: "Shake 30 stems into a bucket and count. Frost leaves no holes; clover leaf weevil is bigger, tan-headed, and hides at the base by day.", Then: "Larvae a stem and height against the threshold; near the cut, cut early.", Source: source.WeevilStems,
		},
		{
			Name: "Clover leaf weevil", Kind: "insect", Patterns: []string{"all over", "patches"}, Parts: []string{"leaf", "seedling"}, Colors: []string{"holes"}, Seasons: []string{"spring"},
			Signs: "Ragged leaf edges low on the plant; tan head, pink-edged stripe.", Mistaken: []string{"Alfalfa weevil"},
			Test: "Look under litter by day. Seldom costs a cut: a fungus usually ends it in wet weather.", Then: "Look again when it is dry.", Source: source.WeevilEnemies,
		},
		{
			Name: "Blotch leafminer", Kind: "insect", Patterns: []string{"all over"}, Parts: []string{"leaf"}, Colors: []string{"white", "holes"}, Seasons: []string{"spring", "early summer", "midsummer"},
			Signs: "Pale comma-shaped mines and many pinholes.", Mistaken: []string{"Leaf spots", "Potassium shortage"}, Test: "Hold a leaflet to the light: the maggot or its dirt lies in the mine.",
			Then: "Looks worse than it is; seldom pays to treat.", Source: source.LeafminerLimits,
		},
		{
			Name: "Spittlebug", Kind: "insect", Patterns: []string{"all over", "edges"}, Parts: []string{"stem", "growing tip"}, Colors: []string{"stunted", "white"}, Seasons: []string{"spring", "early summer"},
			Signs: "Froth in the leaf axils.", Mistaken: []string{"Potato leafhopper"}, Test: "Part the froth: a pale nymph sits in it.", Then: "Counts a stem against the limit; the first cut ends it.", Source: source.MinorLimits,
		},
		{
			Name: "Aphids", Kind: "insect", Patterns: []string{"patches", "all over", "new seeding"}, Parts: []string{"stem", "growing tip", "whole plant", "seedling"}, Colors: []string{"yellow", "stunted", "wilted"}, Seasons: growing,
			Signs: "Clusters on stems, sticky leaves, cast skins.", Mistaken: []string{"Drought", "Potato leafhopper"}, Test: "Shake stems over white paper and count; count lady beetles too.", Then: "By height and kind against the limit.", Source: source.AphidLimits,
		},
		{
			Name: "Clover root borer", Kind: "insect", Crops: clover, Patterns: []string{"scattered plants", "all over"}, Parts: []string{"root", "whole plant"}, Colors: []string{"wilted", "brown spots", "stunted"}, Seasons: summer,
			Signs: "Plants pull up easily; brown tunnels in the taproot.", Mistaken: []string{"Red clover root rots"}, Test: "Split the root: tunnels with dust, or rot without.", Then: "Nothing labelled helps: plan red clover for two years, then rotate.", Source: source.DiagnosisClover,
		},
		{
			Name: "Phytophthora root rot", Kind: "disease", Crops: alfalfa, Patterns: []string{"low ground", "patches", "new seeding"}, Parts: []string{"root", "seedling", "whole plant"}, Colors: []string{"yellow", "red or purple", "wilted", "black"}, Seasons: []string{"spring", "early summer", "fall"},
			Signs: "Taproot rotted off to a point where wet ground began; dark lesions.", Mistaken: []string{"Aphanomyces root rot", "Nitrogen shortage"},
			Test: "Dig in the wet patch and beside it: one rotted off tapers like a pencil, Aphanomyces leaves grey, water-soaked small roots.", Then: "Drain; sow a variety R or HR to both root rots.", Source: source.DiagnosisRots,
		},
		{
			Name: "Aphanomyces root rot", Kind: "disease", Crops: alfalfa, Patterns: []string{"low ground", "new seeding", "patches"}, Parts: []string{"seedling", "root", "whole plant"}, Colors: []string{"yellow", "stunted"}, Seasons: []string{"spring", "early summer"},
			Signs: "Seedlings upright but yellow and small; grey, water-soaked roots, few nodules.", Mistaken: []string{"Nitrogen shortage", "Phytophthora root rot"},
			Test: "Wash roots: grey and soaked, not just without nodules. Where no race is stated a variety resists race 1 only.", Then: "Sow R or HR to both rots, race 2 too where it is found.", Source: source.DiagnosisRots,
		},
		{
			Name: "Verticillium wilt", Kind: "disease", Crops: alfalfa, Patterns: []string{"scattered plants"}, Parts: []string{"leaf", "whole plant"}, Colors: []string{"yellow", "wilted"}, Seasons: growing,
			Signs: "Leaflets yellow in a V and roll while the stem stays green; orange-brown ring in the root.", Mistaken: []string{"Potato leafhopper", "Fusarium wilt", "Bacterial wilt"},
			Test: "Single plants in an older stand, green stems, ring in the cut root.", Then: "Cut young stands first, clean machines, rotate two to three years, sow R or HR.", Source: source.DiagnosisWilts,
		},
		{
			Name: "Fusarium wilt", Kind: "disease", Crops: alfalfa, Patterns: []string{"scattered plants"}, Parts: []string{"root", "whole plant", "stem"}, Colors: []string{"wilted", "white", "red or purple"}, Seasons: summer,
			Signs: "Shoots wilt and bleach; a red-brown streak in the middle of the root.", Mistaken: []string{"Verticillium wilt", "Bacterial wilt"}, Test: "Cut the root: a streak in the middle, not a ring.", Then: "Sow R or HR.", Source: source.DiagnosisWilts,
		},
		{
			Name: "Bacterial wilt", Kind: "disease", Crops: alfalfa, Patterns: []string{"scattered plants"}, Parts: []string{"root", "whole plant", "leaf"}, Colors: []string{"yellow", "stunted"}, Seasons: growing,
			Signs: "Small yellow-green plants; a yellow-brown ring under the root's skin.", Mistaken: []string{"Verticillium wilt"}, Test: "Peel the root: ring under the skin.", Then: "Nearly all newer varieties resist it; do not mow wet.", Source: source.DiagnosisMemory,
		},
		{
			Name: "Anthracnose", Kind: "disease", Crops: alfalfa, Patterns: []string{"scattered plants", "patches"}, Parts: []string{"stem", "crown"}, Colors: []string{"wilted", "brown spots", "black", "white"}, Seasons: []string{"midsummer", "fall"},
			Signs: "Tan diamonds with dark edges on the stem, tips bent like a shepherd's crook, blue-black crown.", Mistaken: []string{"Fusarium wilt", "Drought"}, Test: "Look for the diamond low on dead stems and for blue-black when the crown is broken.", Then: "Sow HR, to more than one race.", Source: source.DiagnosisLeaf,
		},
		{
			Name: "Leaf spots", Kind: "disease", Patterns: []string{"all over", "low ground"}, Parts: []string{"leaf", "stem"}, Colors: []string{"brown spots", "black", "yellow"}, Seasons: growing,
			Signs: "Spots from the lower leaves upward in wet weeks; lower leaves drop.", Mistaken: []string{"Blotch leafminer", "Potassium shortage"}, Test: "Count insects first; spots with a margin, no mines, no white dots.", Then: "Moving up and in bud, or within ten days of the cut: cut now, it saves leaves. Short: wait.", Source: source.DiagnosisLeaf,
		},
		{
			Name: "Crown rot", Kind: "disease", Patterns: []string{"scattered plants", "all over"}, Parts: []string{"crown", "root"}, Colors: []string{"brown spots", "black", "stunted"}, Seasons: growing,
			Signs: "Brown middle of the crown, stems on one side only.", Mistaken: []string{"Winter injury"}, Test: "Split crowns of twenty plants and rate them.", Then: "No cure: longer cutting intervals, potash, less traffic; count stems and decide on the stand.", Source: source.DiagnosisMemory,
		},
		{
			Name: "Sclerotinia crown rot", Kind: "disease", Patterns: []string{"patches", "new seeding"}, Parts: []string{"crown", "seedling", "stem"}, Colors: []string{"white", "wilted"}, Seasons: []string{"late winter", "spring", "fall"},
			Signs: "White cottony mould and black grains at the crown.", Mistaken: []string{"Winter injury"}, Test: "Look for black grains in the rotted crown.", Then: "Sow in spring, or rotate four years.", Source: source.DiagnosisClover,
		},
		{
			Name: "Northern anthracnose", Kind: "disease", Crops: clover, Patterns: []string{"patches", "all over"}, Parts: []string{"stem", "leaf"}, Colors: []string{"black", "brown spots", "wilted"}, Seasons: []string{"spring", "early summer"},
			Signs: "Long dark lesions on stems and leaf stalks, field looks scorched.", Mistaken: []string{"Spring frost"}, Test: "Dark sunken stalks; frost leaves none.", Then: "Cut, and sow a resistant variety next time.", Source: source.DiagnosisClover,
		},
		{
			Name: "Red clover root rots", Kind: "disease", Crops: clover, Patterns: []string{"scattered plants", "all over"}, Parts: []string{"root", "crown", "whole plant"}, Colors: []string{"brown spots", "wilted", "stunted"}, Seasons: growing,
			Signs: "Thinning from the second year; roots brown inside.", Mistaken: []string{"Clover root borer"}, Test: "Split the root: rot without tunnels.", Then: "Fertility and careful cutting slow it; plan for two to three years.", Source: source.DiagnosisClover,
		},
		{
			Name: "Black patch", Kind: "disease", Crops: clover, Patterns: []string{"patches", "all over"}, Parts: []string{"leaf"}, Colors: []string{"black", "brown spots"}, Seasons: summer,
			Signs: "Rings like a target on the leaves, second growth, warm and damp.", Mistaken: []string{"Leaf spots"}, Test: "Animals that drool tell it; take the feed away then and call the veterinarian.", Then: "Feed it to none that drooled; old hay is not safe for being old.", Source: source.Slobbers,
		},
		{
			Name: "Spring frost", Kind: "weather", Patterns: []string{"low ground", "all over"}, Parts: []string{"growing tip", "leaf"}, Colors: []string{"white", "wilted", "brown spots"}, Seasons: []string{"spring"},
			Signs: "Edges of young leaves bleached; or whole tops wilted and brown.", Mistaken: []string{"Alfalfa weevil"}, Test: "Wait two to four days and cut tips open: green inside or dead.", Then: "Edges only: do nothing. Tops killed: see the growing tips.", Source: source.FrostTops,
		},
		{
			Name: "Drought", Kind: "weather", Patterns: []string{"all over", "patches"}, Parts: []string{"whole plant", "leaf"}, Colors: []string{"wilted", "stunted", "yellow"}, Seasons: summer,
			Signs: "Short, early in bloom, dark then dull; worst on knolls.", Mistaken: []string{"Potato leafhopper"}, Test: "Dig: dry below the spade. Sweep all the same.", Then: "Cut at bloom and let it rest; drought forage with weeds may hold nitrate.", Source: source.DiagnosisMemory,
		},
		{
			Name: "Winter injury", Kind: "weather", Patterns: []string{"low ground", "patches", "scattered plants"}, Parts: []string{"crown", "root", "whole plant"}, Colors: []string{"brown spots", "wilted", "stunted"}, Seasons: []string{"late winter", "spring"},
			Signs: "Late, uneven green-up, stems on one side, ropy brown roots.", Mistaken: []string{"Crown rot", "Sclerotinia crown rot"}, Test: "Dig and split: firm and white, or brown and stringy.", Then: "Count stems at 4 to 6 in and decide.", Source: source.StemProtocol,
		},
		{
			Name: "Potassium shortage", Kind: "soil", Patterns: []string{"all over", "patches"}, Parts: []string{"leaf"}, Colors: []string{"white", "yellow"}, Seasons: growing,
			Signs: "White dots around the edge of lower leaves.", Mistaken: []string{"Leaf spots", "Blotch leafminer"}, Test: "Dots in a row on the margin; soil and tissue test.", Then: "Topdress by the soil test.", Source: source.DiagnosisMemory,
		},
		{
			Name: "Boron shortage", Kind: "soil", Crops: alfalfa, Patterns: []string{"all over", "patches"}, Parts: []string{"growing tip", "leaf"}, Colors: []string{"yellow", "red or purple", "stunted"}, Seasons: summer,
			Signs: "Young top leaves yellow and bunched in dry weather, lower leaves green.", Mistaken: []string{"Potato leafhopper"}, Test: "No hoppers in the net; tissue test of the tops.", Then: "By the soil and tissue test.", Source: source.DiagnosisMemory,
		},
		{
			Name: "Nitrogen shortage", Kind: "soil", Patterns: []string{"new seeding", "patches", "all over"}, Parts: []string{"whole plant", "seedling", "leaf"}, Colors: []string{"yellow", "stunted"}, Seasons: growing,
			Signs: "Pale all over; few nodules, white inside.", Mistaken: []string{"Aphanomyces root rot", "Potato leafhopper"}, Test: "Slice nodules: pink works, white does not. Test pH.", Then: "Lime and inoculant at the next seeding; sulfur looks alike, so test tissue.", Source: source.DiagnosisMemory,
		},
		{
			Name: "Herbicide drift or carryover", Kind: "chemical", Patterns: []string{"edges", "all over", "new seeding", "patches"}, Parts: []string{"leaf", "growing tip", "seedling", "whole plant"}, Colors: []string{"yellow", "white", "stunted", "wilted"}, Seasons: growing,
			Signs: "Starts straight at an edge or follows a boom's width; leaves cupped or bleached.", Mistaken: []string{"Potato leafhopper", "Spring frost"}, Test: "Ask what was sprayed, when and with what wind; weeds beside it show it too.", Then: "Write it down with photographs; whether it may be fed stands on that product's label.", Source: source.DiagnosisMemory,
		},
	}
}
