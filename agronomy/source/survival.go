package source

// Survival of stands: plants, crowns, winters, what they leave and what replaces them.
const (
	PlantsIllinois   ID = "plants-illinois"
	SeedingYearYield ID = "seeding-year-yield"
	PlantsIowa       ID = "plants-iowa"
	PlantsSeeding    ID = "plants-seeding"
	CrownScale       ID = "crown-scale"
	CrownEffective   ID = "crown-effective"
	StandEvenness    ID = "stand-evenness"
	WinterPoints     ID = "winter-points"
	WinterQuestions  ID = "winter-questions"
	CloverAge        ID = "clover-age"
	CreditWisconsin  ID = "credit-wisconsin"
	CreditWisMemory  ID = "credit-wisconsin-memory"
	CreditIllinois   ID = "credit-illinois"
	CreditIllMemory  ID = "credit-illinois-memory"
	CreditMinnesota  ID = "credit-minnesota"
	CreditNebraska   ID = "credit-nebraska"
	CreditPenn       ID = "credit-pennsylvania"
	CreditRanges     ID = "credit-ranges"
	CrownCold        ID = "crown-cold"
	SnowShelter      ID = "snow-shelter"
	CrownAir         ID = "crown-air"
	WinterThaw       ID = "winter-thaw"
	IceCover         ID = "ice-cover"
	StressClass      ID = "stress-class"
	WinterLoss       ID = "winter-loss"
	EmergencyForages ID = "emergency-forages"
	EmergencyWinter  ID = "emergency-winter"
	EmergencyMillet  ID = "emergency-millet"
	HailCut          ID = "hail-cut"
	HailLoss         ID = "hail-loss"
	HailNebraska     ID = "hail-nebraska"
	PondingDays      ID = "ponding-days"
	PondingDormant   ID = "ponding-dormant"
	DroughtCut       ID = "drought-cut"
	FrostShare       ID = "frost-share"
	FrostBands       ID = "frost-bands"
)

func survival() []Source {
	return []Source{
		{SeedingYearYield, "Yield of the seeding year, 0.55 of a full one: 0.50-0.60 recalled as the rule of the Midwest for clear seedings; Teixeira et al. 2011 measured 0.61 in New Zealand", FromMemory},
		{PlantsIllinois, "Univ. of Illinois IPM Bulletin 2010: suggested least plants a square foot, over 12, 8 and 5 in production years 1, 2 and 3", Published},
		{PlantsIowa, "Iowa State Univ. ICM 2013, quoted by Ohio State Univ. 2016: consider reseeding under 8, 5, 4 and 3 plants a square foot in production years 1 to 4", Secondhand},
		{PlantsSeeding, "Plants in the fall of the seeding year: Univ. of Minnesota wants 25-30, a seed-trade sheet calls 12-20 adequate; Penn State Univ. keeps established stands of 4-5", Published},
		{CrownScale, "Crown and root rating 0 to 5: Univ. of Minnesota quoting Wisconsin for 4 and 5, Ohio State Univ. 2018 for the look of roots; the words of 1 to 3 from memory", Secondhand},
		{CrownEffective, "Health as the share rated 2 or less, and plants that count as those rated 3 or less: rules of ours on the published scale", Choice},
		{StandEvenness, "Evenness of a stand by the CV of its frames, even to 0.25, patchy to 0.40", Choice},
		{WinterPoints, "Points of a winter-injury worksheet as recalled from the Alfalfa Management Guide (Undersander et al., ASA-CSSA-SSSA); looked for and not found in print: verify before leaning on it", FromMemory},
		{WinterQuestions, "What decides winter injury (age, variety, pH, potassium, drainage, fall moisture, cutting, stubble): Univ. of Minnesota, South Dakota State, Penn State and Cornell Extension; consultants' survey of Minnesota and Wisconsin 2013", Published},
		{CloverAge, "Yield of red clover by year as a share of its best: our reading of its life of 2-3 years (Penn State, Kentucky PR-710, Wisconsin)", Choice},
		{CreditWisconsin, "Wisconsin nitrogen credits, quoted in Hay & Forage Grower: 190 lb on medium and fine soils over 4 plants a square foot, 40 less where fall regrowth was under 8 in", Secondhand},
		{CreditWisMemory, "Wisconsin nitrogen credits of fair and poor stands, of sandy soils, of the second year and of red clover, recalled", FromMemory},
		{CreditIllinois, "Illinois Agronomy Handbook, as reprinted 2009: 100 lb from 5 plants a square foot, 50 from 2 to 4", Secondhand},
		{CreditIllMemory, "Illinois nitrogen credits under 2 plants and of the second year, recalled", FromMemory},
		{CreditMinnesota, "Univ. of Minnesota Extension: 150, 100 and 50 lb after good, fair and poor stands; second year 75, 50 and 0 from its guideline rates; good is 4 plants a square foot and more, fair 2-3", Published},
		{CreditNebraska, "Univ. of Nebraska EC117: over 4 plants a square foot 150 lb, 1.5-4 120, fewer 90; sandy soils 100, 70 and 40", Published},
		{CreditPenn, "Penn State Univ.: stands of half alfalfa or more, 120 lb the first year and 50 the second", Published},
		{CreditRanges, "Kansas 100-140 lb and Idaho 100-200 lb by soil and density, second year about half the first, quoted in Hay & Forage Grower", Secondhand},
		{CrownCold, "Cold at the crown: harm begins from 5 to 15 F (Ohio State 2014), under 15 F (Univ. of Minnesota), crowns withstand 10-15 F (Undersander 2014) or 5 F (Anderson, Nebraska), about 0 F (Michigan State E-2310): disputed", Published},
		{SnowShelter, "Snow as shelter: 4 in keeps off 10-15 F (Ohio State 2014), 4 in of loose snow 16 F (Undersander 2014); 4-6 in is enough (Univ. of Minnesota)", Published},
		{CrownAir, "Crown temperature from the air: the mean of two days, and the night's low as the worst case, plus 12.5 F for 4 in of snow, no more than freezing under the snow", Choice},
		{WinterThaw, "Several days at 50-60 F in midwinter can break dormancy (Michigan State E-2310); Univ. of Minnesota 2023 says 40 F and above: disputed", Published},
		{IceCover, "Iowa State Univ. ICM 24 Jan 2005: ice over a stand injures in 1 to 3 weeks and kills in 2 to 6; South Dakota State: about 3 weeks of stress before death", Published},
		{StressClass, "Classes of a winter's stress from the days at the crown under 15, 5 and 0 F, possible ice and thaw", Choice},
		{WinterLoss, "Share of the year's yield lost by the winter's stress and the stand's own points: a table of ours that orders visits and no more", Choice},
		{EmergencyForages, "Iowa State Univ. (Barnhart 2007 and 2014, ICM 9 July 2007): annual forages that can still be sown into midsummer, uses and days", Published},
		{EmergencyWinter, "After winter-killed alfalfa: Peterson and Undersander in Hay & Forage Grower (small grain with peas, foxtail millets), UW-Extension May 2013 (Italian ryegrass, corn, oats twice)", Published},
		{EmergencyMillet, "North Dakota State Univ. (Berglund 2012, Kandel 2017): foxtail millet 15-25 lb, sown into the first week of July", Published},
		{HailCut, "Undersander, Hay & Forage Grower and Battle River reprint: cut after hail by terminal buds hurt, lodging and two weeks to the cut; new seedings by crowns and 25 plants a square foot", Published},
		{HailLoss, "Univ. of Wisconsin Marshfield: 35 lb of dry matter an acre for each per cent of leaves lost within two weeks of the cut; later red clover 23 lb", Published},
		{HailNebraska, "Anderson, Univ. of Nebraska: cut at late bud when over 25 % of tips are broken, within two weeks when half are or the crop is lodged, and always over two thirds", Published},
		{PondingDays, "Iowa State Univ. 2017: growing alfalfa stands 3 to 4 days under water, less in heat", Published},
		{PondingDormant, "South Dakota State Univ.: dormant alfalfa lives 7 to 10 days under water, and 2 to 3 in of silt; soft, discoloured or foul roots will not live", Published},
		{DroughtCut, "Undersander, Hay & Forage Grower, and Manitoba Agriculture: cut drought-stressed alfalfa over 10 in at half to full flower; leave it where the crowns see the sun", Published},
		{FrostShare, "Sulc (Ohio State), Hay & Forage Grower: judge a frost after several days to a week; a third of the tops or less hurt wants nothing done", Published},
		{FrostBands, "Univ. of Kentucky Forage News 2017: 27-31 F at the canopy singes leaves, 26-27 F hurts growing points, under 26 F for long kills stems: cut where there is enough growth", Published},
	}
}
