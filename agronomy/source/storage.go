package source

// Storage, heating hay, silo gas and the sampling of lots.
const (
	HayInside       ID = "hay-inside"
	HayEnds         ID = "hay-storage-ends"
	HayOutside      ID = "hay-outside"
	HayOutsideEnds  ID = "hay-outside-ends"
	BaleRind        ID = "bale-rind"
	BunkerLine      ID = "bunker-density-loss"
	SiloTypes       ID = "silo-types"
	SiloEnds        ID = "silo-ends"
	WrappedBales    ID = "wrapped-bales"
	WetSilage       ID = "wet-silage"
	FeedOutRule     ID = "feed-out-rule"
	FaceRate        ID = "face-rate"
	FeedingLoss     ID = "feeding-loss"
	GroundLoss      ID = "ground-feeding-loss"
	BaleLimits      ID = "bale-limits"
	BaleLimitsSouth ID = "bale-limits-south"
	BaleTargets     ID = "bale-targets"
	TreatedLimits   ID = "treated-limits"
	TreatedTrials   ID = "treated-trials"
	HayHeat         ID = "hay-heat"
	SiloGas         ID = "silo-gas"
	HayProbe        ID = "hay-probe"
	BigSquareCores  ID = "big-square-cores"
	SilageHandfuls  ID = "silage-handfuls"
	LotError        ID = "lot-error"
	BunkChecks      ID = "bunk-checks"
)

func stores() []Source {
	return []Source{
		{HayInside, "Rotz & Abrams 1988, Trans. ASAE 31:350: hay stored inside lost 4.2, 7.9 and 10.9 % at 11-20, 20-25 and 25-34 % moisture; our straight line through the middles of the classes", Derived},
		{HayEnds, "Rotz & Muck 1994: hay inside loses 5 % (3-9), outside 15 (6-30)", FromMemory},
		{HayOutside, "Shinners et al. 2009, Trans. ASABE 52:409: round bales on the ground lost 19.5 % in sisal, 10.6 or 11.3 in plastic twine, 7.2 or 7.3 in net, 4.5 under caps, 1.9 inside; 4 points less off the ground", Published},
		{HayOutsideEnds, "Univ. of Tennessee: 37 % bare on the ground, 19 wrapped, 8 covered and raised; Ozarks farm press 2009: uncovered round bales 5 to over 40 %, seldom under 15 in the Midwest", Published},
		{BaleRind, "A spoiled ring as a share of a round bale, 1 - ((d - 2t)/d)^2; geometry", Derived},
		{BunkerLine, "Ruppel 1992, as given by Holmes & Muck 1999: alfalfa in bunkers lost 20.2, 16.8, 15.9, 15.1, 13.4 and 10.0 % in 180 days at 10, 14, 15, 16, 18 and 22 lb/ft3", Published},
		{SiloTypes, "Muck, Brink & Broderick 2015, Appl. Eng. Agric. 31:479: the same alfalfa lost 4 % in an oxygen-limiting tower, 11 in a bag and 17 in a bunker in 14-15 months", Published},
		{SiloEnds, "Rotz & Muck 1994: sealed towers lose 6-14, stave towers 10 (7-17), bunkers 10-16 %; others put bunkers to 18, bags at 8-15 and wrapped bales to 10", FromMemory},
		{WrappedBales, "Shinners et al. 2009, Trans. ASABE 52:401: wrapped bales lost 3.5 % at 40-60 % and 2.3 at 30-40 % moisture", Published},
		{WetSilage, "Review of silo dry matter losses: 20 % or more above 75 % moisture, 5 or less wilted and well sealed", Published},
		{FeedOutRule, "Feed-out loss 1.5 % x (12/inches a day - 1), half as much again in the warm season, at most 15; our rule on the time that silage spends in reach of air", Derived},
		{FaceRate, "Holmes 2011; Undersander: feed 12 in or more a day, for heating reaches 2-3 ft behind the face", Published},
		{FeedingLoss, "Feeding wastes 3-5 % at a bunk and 5-20 % at a round-bale feeder", FromMemory},
		{GroundLoss, "Univ. of Wisconsin fact sheet: hay fed without limit wastes 25-45 %", Published},
		{BaleLimits, "Rogers, North Dakota State Univ.: baling moisture at most 20 % small square, 18 round, 15 large square, without preservative", Published},
		{BaleLimitsSouth, "Mississippi State Univ.: 18-22 % small square, 16-18 round and large square", Published},
		{BaleTargets, "Alberta Agriculture after Collins 2004 and Montana State Univ. Extension: small square 18-20 %, round 15-18, large square 12-16", Published},
		{TreatedLimits, "With propionic preservative up to 25 % in small and 22 % in large square bales", FromMemory},
		{TreatedTrials, "Coblentz, US Dairy Forage Research Center: buffered propionic acid cut heating in large square bales up to 27.4 % moisture, not reliably in 5 ft rounds", Published},
		{HayHeat, "Core temperatures and actions: Hall and Hill, Penn State; Overhults, Univ. of Kentucky 2004; Hartschuh, Ohio State; extension text in the Neshoba Democrat. Where they differ, the lower temperature", Published},
		{SiloGas, "No entry for 42 days: Ontario Field Crop News, Sep 2025; peak of 3-5 days and 21 days: Griswold, Penn State; blower for 60 minutes: Shutske, Univ. of Minnesota; others: Ohio State, Iowa State, Virginia Tech. The strictest of them", Published},
		{HayProbe, "National Forage Testing Association, recommended principles for proper hay sampling; Putnam & Orloff: 20 cores, lots of at most 200 tons baled within 48 hours", Published},
		{BigSquareCores, "Sampling of 400 kg bales, abstract (Sheaffer et al. 2000, Agron. J., from memory): 12 bales with a core each suffice", Published},
		{SilageHandfuls, "Laboratory guidance on sampling silage: 15-20 handfuls", Published},
		{LotError, "Standard error and normal interval of a mean of samples, each of several cores; general statistics", Derived},
		{BunkChecks, "Chains from the field to the bunk worked out apart from the program, double precision", Derived},
	}
}
