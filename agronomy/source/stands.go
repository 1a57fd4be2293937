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
		{StandMatrix, "Keep or turn under by stems, roots and grass: a matrix of ours from the published thresholds", Choice},
	}
}
