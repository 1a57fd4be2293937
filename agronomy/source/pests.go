package source

// Pests, sampling for them, injury and weeds.
const (
	SpotsForPrecision ID = "spots-for-precision"
	PrecisionPair     ID = "precision-pair"
	PowerLaw          ID = "power-law"
	HopperClumps      ID = "hopper-clumps"
	ClumpPlaceholder  ID = "clump-placeholder"
	FixedPrecision    ID = "fixed-precision"
	SequentialTest    ID = "sequential-test"
	WalkDesign        ID = "walk-design"
	AdultQuadrats     ID = "adult-quadrats"

	WeevilTable     ID = "weevil-money-table"
	WeevilOhio      ID = "weevil-ohio"
	WeevilOntario   ID = "weevil-ontario"
	WeevilIllinois  ID = "weevil-illinois"
	WeevilKentucky  ID = "weevil-kentucky"
	WeevilMinnesota ID = "weevil-minnesota"
	WeevilDakota    ID = "weevil-north-dakota"
	WeevilStems     ID = "weevil-stem-shake"
	WeevilHodgson   ID = "weevil-penn-state"
	WeevilEnemies   ID = "weevil-enemies"
	HopperTable     ID = "hopper-money-table"
	HopperCounts    ID = "hopper-counts"
	HopperIndex     ID = "hopper-index"
	HopperResistant ID = "hopper-resistant"
	HopperArrival   ID = "hopper-arrival"
	HopperHeat      ID = "hopper-heat"
	HopperSweeps    ID = "hopper-sweeps"
	RuleHopper3     ID = "rule-resistant-3x"
	RuleFirstCutBug ID = "rule-weevil-first-cut"
	InjuryLevel     ID = "injury-level"
	InjuryExample   ID = "injury-example"
	StubbleDays     ID = "stubble-days"
	StubbleLarvae   ID = "stubble-larvae"
	AphidLimits     ID = "aphid-limits"
	MinorLimits     ID = "minor-limits"
	CutwormLimits   ID = "cutworm-limits"
	LeafminerLimits ID = "leafminer-limits"
	ArmywormLimits  ID = "armyworm-limits"
	CutOrSpray      ID = "cut-or-spray"
	SpraySafety     ID = "spray-safety"

	DiagnosisRots   ID = "diagnosis-root-rots"
	DiagnosisWilts  ID = "diagnosis-wilts"
	DiagnosisLeaf   ID = "diagnosis-leaf"
	DiagnosisClover ID = "diagnosis-clover"
	DiagnosisMemory ID = "diagnosis-memory"
	NewStandWeeds   ID = "new-stand-weeds"
	OldStandWeeds   ID = "old-stand-weeds"

	NitrateLimits  ID = "nitrate-limits"
	NitrateForms   ID = "nitrate-forms"
	NitrateUnits   ID = "nitrate-units"
	BlisterBeetles ID = "blister-beetles"
	Bloat          ID = "bloat"
	Slobbers       ID = "slobbers"
	FrostedForage  ID = "frosted-forage"
)

func pests() []Source {
	return []Source{
		{SpotsForPrecision, "Spots for a standard error over mean c: variance/(mean c)^2; for the power law as printed for weevil adults (Hypera) in quadrats, n = (z/D)^2 a m^(b-2)", Derived},
		{PrecisionPair, "Sitona in alfalfa sweeps, J. Asia-Pacific Entomology 2014: standard error over mean 0.25 for field decisions, 0.10 for research", Published},
		{PowerLaw, "Taylor 1961, Nature 189:732: variance = a mean^b", FromMemory},
		{HopperClumps, "Simonet & Pienkowski 1979, Canadian Entomologist, and 1977, Ann. Entomol. Soc. Am. 70:933: leafhopper nymphs and eggs in alfalfa fit the negative binomial; no k is given in the abstracts", Published},
		{ClumpPlaceholder, "k 2, a 1.5 and b 1.4 stand in where no coefficient of a pest is known", Choice},
		{FixedPrecision, "Green 1970 and Kuno 1969: running totals at which a mean is known to a fixed precision; the sample size turned round", FromMemory},
		{SequentialTest, "Wald's sequential probability ratio test as in Binns, Nyrop & van der Werf, Sampling and Monitoring in Crop Protection, ch. 5: treat where the likelihood ratio is (1-beta)/alpha or more, leave where it is beta/(1-alpha) or less", Published},
		{WalkDesign, "A walk that tells half a threshold from one and a half of it, errors one in ten, three to twenty sets", Choice},
		{AdultQuadrats, "Sample size for adult alfalfa weevils: 1173 square feet for 0.1 a square foot (95 %, 20 %), about 100 for 0.3 (95 %, 40 %)", Published},
		{WeevilTable, "Scouting for insects in alfalfa, farms.com 146869, table 1: larvae a stem by height, cost of treatment and price of hay, 108 cells; the equation is ours and meets each to its rounding", Derived},
		{WeevilOhio, "Ohio State Univ. C.O.R.N. 2025-11 and Wayne County 2018: alfalfa weevil by height, tip feeding and larvae a stem", Published},
		{WeevilOntario, "Ontario Field Crop News 2017: over 1 active larva a stem under 12 in, 2 under 16 in, 3 at any height", Published},
		{WeevilIllinois, "Univ. of Illinois Bulletin 2004 no. 5: 25-50 % of tips skeletonised and 3 larvae a stem", Published},
		{WeevilKentucky, "Univ. of Kentucky (Townsend): 25 % of tips, 2 larvae a tip, harvest 10 days off or more", Published},
		{WeevilMinnesota, "Univ. of Minnesota Extension, Stearns County 2014: 30 % of stems with feeding", Published},
		{WeevilDakota, "Glogoza, North Dakota State Univ., in the Western Producer: 35 % of plants before the first cut", Published},
		{WeevilStems, "Univ. of Kentucky ENTFACT-127, Iowa State ICM 2007 and 2024, Ohio State 2018: 30 stems over the field shaken into a white bucket, 20 paces from edges", Published},
		{WeevilHodgson, "Hodgson, Iowa State Univ., after Tooker, Penn State: 40 larvae in 30 stems at $14, $260 and 20 in; 24 at $12, $380 and 28 in", Published},
		{WeevilEnemies, "Illinois Bulletin 2000 and Ontario: a fungus ends weevil in wet weather; sick larvae are slow and yellow to brown. Days until the next look are ours", Published},
		{HopperTable, "Univ. of Illinois Bulletin 10 June 2011 no. 10: leafhoppers a sweep by height, cost and price of hay; the equation is ours, over 8 in from the one row that could be read", Derived},
		{HopperCounts, "Univ. of Illinois 1997 and Univ. of Wisconsin (Cullen): 0.2 leafhoppers a sweep to 3 in, 0.5 to 6, 1.0 from 8, 2.0 from 12", Published},
		{HopperIndex, "Ohio State Univ. C.O.R.N. 2022-18: treat where leafhoppers in ten sweeps come to the height in inches", Published},
		{HopperResistant, "Ohio State Univ. 2005, 2006, 2012 and Univ. of Missouri 2007: three times the threshold in established resistant stands; Ontario 2017: not in the first year. A later Ohio letter says four", Published},
		{HopperArrival, "Arrival of potato leafhopper: Penn State, 1 May to 15 June; Wisconsin and Ontario late May; Minnesota from mid May; Illinois mid April in an early year. Ends where only a start is printed are ours", Published},
		{HopperHeat, "Simonet & Pienkowski 1979, J. Econ. Entomol. 72:428: egg 136 C-days over 7.6 C, nymph 153 over 9.4 C", Published},
		{HopperSweeps, "UW (Cullen), Iowa State 1998, Ontario 2017, Univ. of Delaware, Ohio State 2022: 15 in net, 5 sets of 20 sweeps, from 7 days after a cut, weekly; not sprayed within 7 days of a cut", Published},
		{RuleHopper3, "a leafhopper-resistant variety carries about three times the threshold, and is scouted and under heavy pressure sprayed all the same", CommonPractice},
		{RuleFirstCutBug, "alfalfa weevil is a pest of the first cut", CommonPractice},
		{InjuryLevel, "Pedigo, Hutchins & Higley 1986, Annu. Rev. Entomol. 31:341: EIL = C/(V I D K); threshold 0.8 of it, South Dakota State Univ.", FromMemory},
		{InjuryExample, "South Dakota State Univ. (Peterson): EIL 4 larvae a stem at $10 and $65 in early bud, threshold 3.2", Published},
		{StubbleDays, "Univ. of Nebraska CropWatch 2013: tons lost a day of bare stubble, 0.0198 where the next cut waits for bloom, 0.0345 by the calendar; the quotient is told from the chart", Derived},
		{StubbleLarvae, "MSU 6-8 larvae a square foot of stubble, Univ. of Minnesota 8 over twenty looks; UW 2016: no regrowth 4-5 days after the cut; Ohio State 2024: from a week after", Published},
		{AphidLimits, "Wright, Univ. of Nebraska 2012, from the High Plains guide: aphids a stem by height", Published},
		{MinorLimits, "Wisconsin DATCP Pest Bulletin: spittlebug 1 nymph a stem (2013), plant bugs 5 a sweep (2018), grasshoppers 8 a square yard in the field, 20 on margins (2019)", Published},
		{CutwormLimits, "Variegated cutworm: 2 larvae a square foot, Ag Proud 34540 (a trade author); Buntin & Pedigo 1985 found partial loss at 1.4-2.8", Published},
		{LeafminerLimits, "Crop Protection Network 2022 and Penn State: 30 % of leaflets with pinholes or mines", Published},
		{ArmywormLimits, "Univ. of Missouri 2022 (Flanary): 4 true armyworms a square foot; fall armyworm 2-3, a co-operative's note, Delaware gives no count", Published},
		{CutOrSpray, "Cutting early saves the loss that treating would, and gives up the growth of the days left; a cut within 7 days is made and nothing sprayed (UW, Cornell, MSU, Ohio State)", Derived},
		{SpraySafety, "Univ. of Illinois 2004 (cut, do not spray, in bloom), extension on bees, Cornell 2018 on natural enemies; words and order ours", Published},
		{DiagnosisRots, "Root rots of alfalfa: Univ. of Nebraska G2078, Oklahoma State Univ., Iowa State ICM on disease resistance, Michigan State Univ.", Published},
		{DiagnosisWilts, "Wilts of alfalfa: Univ. of Illinois on Verticillium, Univ. of Nebraska on Fusarium, Cornell crop adviser pages", Published},
		{DiagnosisLeaf, "Anthracnose and leaf spots of alfalfa: Univ. of Nebraska, Univ. of Illinois; when to cut for leaf spots is ours", Published},
		{DiagnosisClover, "Red clover: Univ. of Illinois RPD 303, Michigan State Univ., Penn State, Pacific Northwest Handbooks", Published},
		{DiagnosisMemory, "Signs recalled and not read again", FromMemory},
		{NewStandWeeds, "Oklahoma State Univ.: weeds a square foot of a fall seeding and yield lost; Farm and Dairy 2016: the first 60 days", Published},
		{OldStandWeeds, "Undersander, Univ. of Wisconsin: herbicide in established stands; by stem classes our reading", Published},
		{NitrateLimits, "Clemson Univ. feed laboratory: nitrate nitrogen in dry matter by class of animal; at the edge of two classes the stricter", Published},
		{NitrateForms, "Formula weights: NO3 4.427 and KNO3 7.218 times NO3-N", Derived},
		{NitrateUnits, "Hoard's Dairyman 2012 quoting Cherney, Cornell: 0.44 % safe alone, 0.88 % tolerated, over 1.5 % never; they fit the other tables only as nitrate ion", Published},
		{BlisterBeetles, "Swiger, Texas A&M; Catangui, South Dakota State 2005; Univ. of Kentucky; Oklahoma State EPP-2072: cantharidin lethal to horses from 0.45 to 1 mg/kg, 4 to 11 mg a striped beetle", Published},
		{Bloat, "NebGuide G2030; Ontario and Montana State on bloat; South Dakota State and Beef Magazine on frost", Published},
		{Slobbers, "Univ. of Kentucky ID-230, 2015; Sulc & Rhodes, Ohio State 2021: slaframine of black patch, mostly second-cut red clover", Published},
		{FrostedForage, "Undersander, Univ. of Wisconsin; Iowa State 2013; Ohio State C.O.R.N. 2024-29: frosted alfalfa forms no prussic acid, sorghums in it do", Published},
	}
}
