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
	}
}
