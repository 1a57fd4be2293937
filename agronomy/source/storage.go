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
	SiloGeometry    ID = "silo-geometry"
	TowerDensity    ID = "tower-density"
	TowerLeft       ID = "tower-left"
	PackingForm     ID = "packing-form"
	PackingLine     ID = "packing-line"
	PackingTrust    ID = "packing-trust"
	PackingRule     ID = "packing-rule"
	DensityGoal     ID = "density-goal"
	BagDensity      ID = "bag-density"
	BaleDensity     ID = "bale-density"
	BaleGuess       ID = "bale-guess"
	FaceFloor       ID = "face-floor"
	FaceMiddle      ID = "face-middle"
	FaceArithmetic  ID = "face-arithmetic"
	WeeksLeft       ID = "weeks-left"
	LowCase         ID = "stock-low-case"
	FermentTime     ID = "ferment-time"
	BunkerSafety    ID = "bunker-safety"
	Allocation      ID = "allocation"
	AllocationBest  ID = "allocation-optima"
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
		{SiloGeometry, "Volumes of cylinders, of a bunker with a flat-arch crown and a ramp, and of a pile between two cross-sections; geometry", Derived},
		{TowerDensity, "Iowa State University, Ag Decision Maker C6-82: haylage in towers 5.90 + 0.10 h, corn silage 8.0 + 0.15 h lb of dry matter/ft3 over a settled depth of h ft", Published},
		{TowerLeft, "What is left in a tower: the whole less a tower as deep as was removed, by Ag Decision Maker C6-82; our arithmetic", Derived},
		{PackingForm, "Muck & Holmes 2000, Appl. Eng. Agric. 16:613-619, abstract: the packing factor is tractor weight over layer thickness times the root of packing time by dry matter", Published},
		{PackingLine, "Holmes & Muck, Univ. of Wisconsin: density = (8.5 + 0.0155 x factor) x (0.818 + 0.0136 x depth)", FromMemory},
		{PackingTrust, "Muck & Holmes 2000, abstract: over 175 silos of 6.6 to 27.1 lb/ft3 the factor explained 18.2 % of what differed; 20 % either way is our choice", Published},
		{PackingRule, "Silage packing note 2017: weight of all packing tractors in lb over 800 is the tons as fed an hour that they pack; its own example divides wrongly", Published},
		{DensityGoal, "Holmes & Muck 1999, 2002: at least 14 lb of dry matter/ft3; Bolsen 15-16; Visser 2014 and Lawrence, Cornell: 16-18 as the goal", Published},
		{BagDensity, "Bags hold 10-14 lb of dry matter/ft3, often 12-13", FromMemory},
		{BaleDensity, "Dry hay 9-11 lb/ft3 in round and 12-16 in large square bales, baleage 9-12 lb of dry matter/ft3", FromMemory},
		{BaleGuess, "Wisconsin weighing study in the press, 2023: advisers and farmers guessed bales 100 lb off; Hancock: density is overestimated, take 10 % off a table. Weigh three bales or more of a lot", Published},
		{FaceFloor, "British Columbia Ministry of Agriculture, order 372.302-3, 2015: a face moves at least 3 in a day in cool and 4 in warm weather; others want 12", Published},
		{FaceMiddle, "6 in a day off a bunker or bag where it is cool; towers 2 in a day in winter and 3-4 in summer", FromMemory},
		{FaceArithmetic, "Inches a day = 12 x pounds a day over face times density, and turned round; our arithmetic", Derived},
		{WeeksLeft, "Weeks = tons x 2000 x (1 - loss to come) over 7 x pounds a day; our arithmetic", Derived},
		{LowCase, "The low case of a stock: 10 % off silage by volume, 5 % off weighed bales", FromMemory},
		{FermentTime, "Silage stands closed about three weeks before it is fed", FromMemory},
		{BunkerSafety, "Horizontal silo safety, Penn State Extension; Murphy 2007; Bolsen on packing safety; Yoder, Univ. of Nebraska: frames and belts, slopes of 1 in 3 at most, sight rails, three times its height from the face", Published},
		{Allocation, "Least-cost sharing of stocks among users: a transport programme with floors or blended limits (Dantzig 1951; Waugh 1951, J. Farm Econ. 33:299 on least-cost feeds); fibre blends by dry matter", FromMemory},
		{AllocationBest, "Optima of small invented herds: by hand, by trying all ways, and by two other programmes for linear problems", Derived},
		{BunkChecks, "Chains from the field to the bunk worked out apart from the program, double precision", Derived},
	}
}
