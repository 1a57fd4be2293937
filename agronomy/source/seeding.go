package source

// Seed and seeding.
const (
	SeedsPerPound    ID = "seeds-per-pound"
	PureLiveSeed     ID = "pure-live-seed"
	HardSeed         ID = "hard-seed"
	CoatedSeed       ID = "coated-seed"
	SeedGoal         ID = "seed-goal"
	SeedlingSurvival ID = "seedling-survival"
	SeedlingCap      ID = "seedling-cap"
	LastSeeding      ID = "last-seeding"
	ReseedingScore   ID = "reseeding-score"
	ReseedingBetween ID = "reseeding-between"
	ReseedingGap     ID = "reseeding-gap"
	DiseaseIndex     ID = "disease-index"
	SeedDepth        ID = "seed-depth"
	SeedDepthSeason  ID = "seed-depth-by-season"
	EmergenceHeat    ID = "emergence-heat"
	AlfalfaEmergence ID = "alfalfa-emergence-heat"
	OldPlantZone     ID = "old-plant-zone"
	SeedingCalendar  ID = "seeding-calendar"
	SpringCalendar   ID = "spring-seeding-calendar"
	SeedlingFrost    ID = "seedling-frost"
	CompanionCrop    ID = "companion-crop"
	Inoculant        ID = "inoculant"
	SpeciesFit       ID = "species-fit"
	SpeciesAcid      ID = "species-ph"
	DormancyChecks   ID = "dormancy-checks"
	SeedLotsApart    ID = "seed-lots-apart"
	SeedOrder        ID = "seed-order"
	OldPlantLoss     ID = "old-plant-loss"
)

func seeding() []Source {
	return []Source{
		{SeedsPerPound, "Rayburn 1994, West Virginia Univ. Extension, forage seeding rates: seeds a pound and rates alone and in mixtures", Published},
		{PureLiveSeed, "Undersander (Wisconsin), Hay & Forage Grower: pure live seed = purity x germination, 0.90 x 0.90 = 0.81; Progressive Forage 2012: 0.70 x 0.80 = 0.56", Published},
		{HardSeed, "Seed-tag convention: hard seed counts towards total germination; Mueller & Teuber 2007, UC ANR 8289: it sprouts weeks to months late", FromMemory},
		{CoatedSeed, "Seed house stand establishment page: alfalfa of 225,000 seeds a pound is about 150,000 under a 34 % coat, 70 seeds a square foot at 20 lb", Published},
		{SeedGoal, "A goal of 80 alfalfa seeds a square foot; 15 lb of 250,000 seeds a pound is 86", CommonPractice},
		{SeedlingSurvival, "Rankin (Univ. of Wisconsin), optimum alfalfa seeding rate: 60 % emerge, 40-50 % of those die by spring, then 25 become 8 or 9 (the text's 30-40 % loss disagrees with its counts; the counts are used)", Published},
		{SeedlingCap, "Crowded seedlings thin themselves: no more than 25 plants a square foot in the first spring", Choice},
		{LastSeeding, "Killing frost less 6-8 weeks of growth after emergence (Rankin; Sulc 2011), 8 or more (Sheaffer & Drewitz 2022), less the days to emerge", Published},
		{ReseedingScore, "Undersander et al. 2011, Alfalfa Management Guide, ASA: reseeding score of topgrowth, resistance, rain, soil, tillage, age and delay", FromMemory},
		{ReseedingBetween, "Reseeding multiplier between the tabled delays on straight lines, half points in the band above", Choice},
		{ReseedingGap, "Nelson (Univ. of Missouri), Hay & Forage Grower: an alfalfa-free gap of 12 months or more; stands under 12 months may be reseeded at once (Rankin; Morrison 2010)", Published},
		{DiseaseIndex, "Seed catalog class definitions and Miller, disease resistance index: HR 5, R 4, MR 3, LR 2, S 1 over six diseases, 30 at most", Published},
		{SeedDepth, "Sheaffer & Drewitz (Univ. of Minnesota Extension) and Illinois forage seeding guide: 1/4 to 1/2 inch in medium and heavy soil, 1/2 to 1 inch in sand, firm enough that a footprint sinks half an inch or less", Published},
		{SeedDepthSeason, "The shallow half of the range in a moist spring, the deep half in late summer's dry ground", CommonPractice},
		{EmergenceHeat, "Moot et al. and Butler et al., thermal time to half emergence in the field, base 0 C: red clover 104.6, white clover 110, timothy 200, orchardgrass 219 C-days", Secondhand},
		{AlfalfaEmergence, "Alfalfa emerges after about 100 C-days above 0 C", FromMemory},
		{OldPlantZone, "Seguin, Sheaffer et al. and Nelson (Univ. of Missouri): seedlings within 20 to 25 cm of an old alfalfa plant stand at 70 % and weigh 44 % of others", Secondhand},
		{SeedingCalendar, "State extension calendars of late-summer seeding: Illinois, Wisconsin, Minnesota, North Dakota, Ohio, Pennsylvania", Published},
		{SpringCalendar, "Spring seeding by the calendar, from as soon as the ground is fit to mid or late May", CommonPractice},
		{SeedlingFrost, "Alfalfa seedlings stand 20-25 F at emergence; with 2 to 5 trifoliolate leaves 26 F for four hours kills them: state extension guides", Published},
		{CompanionCrop, "Undersander (Wisconsin) and Iowa State Univ. Extension: a companion crop for spring seedings on land that washes, oats at 30-50 lb (others 2-3 bu), spring wheat 1 bu, Italian ryegrass 4 lb at most, off as forage at boot; none in late summer (Sulc, Ohio State)", Published},
		{Inoculant, "Fresh inoculant of the species' own strain on bare seed, kept cool and used by its date", CommonPractice},
		{SpeciesFit, "Michigan State Univ. Extension, legume species for hay and pasture: alfalfa wants well-drained ground and pH 6.8, lasts 4-5 years and is dairy feed; red clover is a weak perennial of 2 years", Published},
		{SpeciesAcid, "Lowest soil pH: alfalfa 6.5 and red clover 6.0 (Tri-State and Illinois extension guides), grasses 5.5 from memory", Secondhand},
		{DormancyChecks, "Fall dormancy: regression of the class of check varieties on their height about 25 days after a September cut, standard test of the alfalfa trade", Secondhand},
		{SeedOrder, "Seed is ordered six weeks before it is sown: varieties sell out, and inoculant is bought fresh", Choice},
		{OldPlantLoss, "Nelson (Univ. of Missouri), Hay & Forage Grower: one old alfalfa plant on 2.8 square feet cuts the new stand's yield by nearly 30 %; after a gap of 3-6 months 8-29 % are lost for good", Published},
		{SeedLotsApart, "Lots within 3 % in dollars a live seed are called no different: a germination test is no nearer", Choice},
	}
}
