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
		{StandMatrix, "Keep or turn under by stems, roots and grass: a matrix of ours from the published thresholds", Choice},
	}
}
