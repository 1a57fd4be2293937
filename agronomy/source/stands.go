package source

// Stands.
const (
	StemClasses  ID = "stem-classes"
	StemYield    ID = "stem-yield"
	StudentT     ID = "student-t"
	StemProtocol ID = "stem-protocol"
	YieldByAge   ID = "yield-by-age"
	CutShares    ID = "cut-shares"
	GrowthPerDay ID = "growth-per-day"
	StandMatrix  ID = "stand-matrix"
	PoissonRate  ID = "poisson-rate"
	SampleSize   ID = "sample-size"
	StemFrames   ID = "stem-frames"
	StemLoss     ID = "stem-loss"
	YieldOldAge  ID = "yield-old-age"
	RootHealth   ID = "root-health"

	WeevilScouting ID = "weevil-scouting"
	WeevilTips     ID = "weevil-tips"
	WeevilEvents   ID = "weevil-events"
	HeightCurve    ID = "height-by-heat"
	BloomHeat      ID = "bloom-heat"
	BudShare       ID = "bud-share"
	StickStart     ID = "stick-start"
	MixTrigger     ID = "mix-trigger"
	CloverCut      ID = "clover-cut"
	FrostTops      ID = "frost-tops"
	BetweenFields  ID = "between-fields"

	GrowthLight   ID = "growth-light"
	GrowthLeaves  ID = "growth-leaves"
	GrowthLeafT   ID = "growth-leaf-heat"
	GrowthStage   ID = "growth-stage"
	GrowthHeight  ID = "growth-height"
	GrowthReserve ID = "growth-reserve"
	GrowthShaped  ID = "growth-shaped"
	GrowthField   ID = "growth-field"
	GrowthClover  ID = "growth-red-clover"
	GrowthCheck   ID = "growth-check"
	StandWear     ID = "stand-wear"
	OctoberCut    ID = "october-cut"
	CutCalendar   ID = "cut-calendar"
	CutTarget     ID = "cut-target"
)

func stands() []Source {
	return []Source{
		{StemClasses, "Undersander et al. 2011, Alfalfa stand assessment, UW-Extension A3620: over 55, 40-55, under 40 stems a square foot", Published},
		{StemYield, "Univ. of Wisconsin equation, yield = 0.1 x stems + 0.38 tons/ac a year, held at 55 stems", Secondhand},
		{StudentT, "Student t interval and tail, R 4.2.2", Library},
		{StemProtocol, "UW, UNL and OSU Extension: 2 ft2 frames, growth 4-6 in, stems the mower would take", Published},
		{YieldByAge, "Yield by production year: Kaatz 2014 (MSU), Undersander 2016", Published},
		{CutShares, "Share of the year's yield in the first of four cuts, 0.36: MSU Extension gives 35-40 %", Published},
		{GrowthPerDay, "Brink et al. 2006 and Iowa State ICM 2005: 100 lb dry matter an acre a day near first harvest (0-200)", Published},
		{WeevilScouting, "Start of scouting for alfalfa weevil, F-days above 48 F since 1 January, by state: UW and NDSU (300, most feeding 600-800), Manitoba (300), South Dakota State (300 for larvae), Penn State (300-500), Cornell (280), Ohio State and Illinois (250-300), Purdue (250), Iowa State (250, south of I-80 200), Kentucky (190)", Published},
		{WeevilEvents, "South Dakota State Univ. Extension, alfalfa weevil: adults, four instars, cocoon and new adults by F-days above 48 F since 1 January", Published},
		{WeevilTips, "UW, Cornell and MSU: act at 40 % of stems with tip feeding when the cut is more than 7 days off", Published},
		{HeightCurve, "Height of first growth by heat: the stick's relation turned round at 600-970 F-days above 41 F, below it a choice", Choice},
		{BloomHeat, "Sharratt, Sheaffer & Baker 1989, Field Crops Research: heat to one-tenth bloom, Minnesota, base 3.5, 7.5 and 10 C for first, second and later growths", Published},
		{BudShare, "Share of the heat to one-tenth bloom at mid-bud, from Ben-Younes 1992, Oregon State Univ. thesis, and the 0-9 stage scale", Derived},
		{StickStart, "Ohio State Univ. C.O.R.N. 2022-12: read the stick from 16 in, twice a week", Published},
		{MixTrigger, "Letham 2017, Cornell NW New York: first cut of mixtures by tallest alfalfa, 28 in for pure alfalfa, 22 in half grass, 14 in all grass", Published},
		{CloverCut, "UW-CALS 2000 (Wiersma): cut red clover from bud to 20 % bloom; days to it from alfalfa's heat (choice)", Published},
		{FrostTops, "Undersander (Wisconsin): tops freeze at 24 F or less for 4 hours; judge after 2-4 days; do not call the first cut by heat after it", Published},
		{BetweenFields, "Spread between fields of one kind: from the book's own readings, at least 2.2 NDF; a neighbour's weight halves in 25 miles", Choice},
		{PoissonRate, "Exact limits of a Poisson rate and Jeffreys' gamma chance, R 4.2.2", Library},
		{SampleSize, "Spots for a half-width of the t interval, t quantiles of R 4.2.2", Library},
		{StemFrames, "Frames for a field: one for every 5 acres and 5 at least; more until half the interval is 15 % of the mean, 20 at most", Choice},
		{StemLoss, "Univ. of Nebraska Extension on winter-damaged stands: 0.1 tons/ac lost for each stem below 55, 1.5 tons/ac at 40", Published},
		{YieldOldAge, "Yield of the fifth production year and later by continuing the fall from the third to the fourth, x 0.79 a year", Derived},
		{RootHealth, "Ohio State Univ. Extension 2018: over 30 % of roots streaked or rotted, potential significantly reduced", Published},
		{GrowthLight, "Brown, Moot & Teixeira 2006, Eur. J. Agron. 25:319: growth for each MJ of sun caught, 0.60 to 1.60 g from 6 to 18 C; to shoots 0.90 in early spring, 0.67 in summer, 0.35 in early autumn. Teixeira et al. 2011: light caught by leaf area, k 0.93; shoots of a seedling 1.2 to 1.9 of regrowth", Published},
		{GrowthLeaves, "Teixeira, Brown, Meenken & Moot 2011, abstract: leaf area 0.016 a C-day in regrowth, 0.009 in seedlings", Published},
		{GrowthLeafT, "Heat that leaves count: nothing below 1 C, 0.7 (T - 1) to 15 C, T - 5.2 to 30 C; Moot et al. 2001", FromMemory},
		{GrowthStage, "Ben-Younes 1992, Oregon State Univ. thesis: 12.734 stages for tenfold heat, and 984.3 C-days above 4.6 C to one-tenth bloom of a seedling; laid over the heat to bloom of Sharratt et al. 1989 for later growths", Derived},
		{GrowthHeight, "Height at mid-bud by growth: 23 and 19 in of Berti (NDSU) 2018 for the second and third; of the first where the stick finds 40 % NDF; 60 cm in the seeding year is a choice", Derived},
		{GrowthReserve, "Reserve: least when regrowth is 6-8 in, full again at full bloom (Manitoba Agriculture; UMass Extension; UW 2024). Drawn to 45 % over 200 C-days and filled from root growth at a rate set so", Derived},
		{GrowthShaped, "Shapes nobody published: growth over 25 C and after full bloom, shares between day lengths, leaf speed and lag by reserve, most leaf area 6, least and most height", Choice},
		{GrowthField, "Share of the potential that a good field makes, leaves shed and stubble: fitted to published shares, ratios of systems and yields over Milwaukee 1971-2020, with 10 % lost from standing to weighed; see the table of agreement", Derived},
		{GrowthClover, "Red clover grows as alfalfa does and yields 0.85 of it; an alfalfa-grass stand as alfalfa: nothing by the day is published for either", Choice},
		{GrowthCheck, "The daily model run beside it in another program, from the published pieces", Derived},
		{StandWear, "How fast a stand thins by the reserve it goes into winter with: 1 to 1.8 times the usual (choice; UMass Extension: three cuts a year last 4-5 years, four 1-3)", Choice},
		{OctoberCut, "Univ. of Wisconsin on-farm programme, third-year report: a fifth cut in October gave 0.34-0.88 t/ac, and the next first cut fell by about as much", Published},
		{CutCalendar, "Cutting by the calendar: first cut late in May, then every 28 to 30 days", CommonPractice},
		{CutTarget, "Cutting in bud, when the standing crop comes down to a feed value wanted: UMass and UMN Extension, late bud for dairy", Published},
		{StandMatrix, "Keep or turn under by stems, roots and grass: a matrix of ours from the published thresholds", Choice},
	}
}
