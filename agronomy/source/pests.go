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
	}
}
