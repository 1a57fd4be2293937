package source

// Variety trials.
const (
	SplitPlotAnova  ID = "split-plot-anova"
	BlocksAnova     ID = "blocks-anova"
	WeightedT       ID = "weighted-t"
	Satterthwaite   ID = "satterthwaite"
	MixedModel      ID = "mixed-model"
	AverageInfo     ID = "average-information"
	MultipliedSteps ID = "multiplied-steps"
	BarleyTrial     ID = "barley-trial"
	TrialsInR       ID = "trials-in-r"
	Lme4            ID = "lme4"
	JointRegression ID = "joint-regression"
	Ecovalence      ID = "ecovalence"
	StabilityVar    ID = "stability-variance"
	SelectionIndex  ID = "smith-hazel"
	SuperiorityMean ID = "superiority"
	ShrunkenMean    ID = "shrunken-mean"
	WellRunTrial    ID = "well-run-trial"
	BaseIndex       ID = "base-index"
	EntryF          ID = "entry-f-first"
	IndexArithmetic ID = "smith-hazel-worked"
	BestOfShrunken  ID = "best-of-shrunken"
	ReplicatesPower ID = "replicates-by-power"
)

func trials() []Source {
	return []Source{
		{BlocksAnova, "Analysis of variance of randomised complete blocks, least significant difference t s sqrt(2/r) (Fisher): standard texts", FromMemory},
		{SplitPlotAnova, "Snedecor & Cochran, Statistical Methods: alfalfa split plot of 6 blocks, 3 varieties, 4 dates of the third cut, data as in R package nlme 3.1", Dataset},
		{WeightedT, "Cochran & Cox, Experimental Designs: t weighted by the two errors, for varieties at one date of a split plot", FromMemory},
		{Satterthwaite, "Satterthwaite 1946, degrees of freedom of a sum of mean squares", FromMemory},
		{MixedModel, "Bates, Maechler, Bolker & Walker 2015, J. Stat. Software 67(1): profiled REML criterion by penalised least squares and Cholesky factors", Published},
		{AverageInfo, "Gilmour, Thompson & Cullis 1995, Biometrics 51:1440-1450: average information REML", Secondhand},
		{MultipliedSteps, "Laporte, Charcosset & Mary-Huard 2022, PLoS Comput. Biol. 18: e1009659: min-max steps for variance components", Secondhand},
		{BarleyTrial, "Immer, Hayes & Powers 1934, barley varieties by sites, 1931 and 1932, data as in R package MASS 7.3 (immer)", Dataset},
		{TrialsInR, "Analysis of variance, F, t and regression of R 4.2.2 (aov, lm, pt, pf)", Library},
		{Lme4, "lme4 1.1-31 in R 4.2.2, agreeing with statsmodels 0.13.5", Library},
		{JointRegression, "Finlay & Wilkinson 1963, Aust. J. Agric. Res. 14:742-754: slope of an entry on the means of environments", Secondhand},
		{Ecovalence, "Wricke 1962, Z. Pflanzenzuechtung 47:92-96: ecovalence, an entry's share of the interaction", Secondhand},
		{StabilityVar, "Shukla 1972, Heredity 29:237-245: stability variance of an entry", Secondhand},
		{SuperiorityMean, "Lin & Binns 1988, Can. J. Plant Sci. 68:193-198: superiority, distance of an entry from the best of each environment", Secondhand},
		{ShrunkenMean, "Least significant difference and heritability of a mean over sites: standard quantitative genetics", FromMemory},
		{WellRunTrial, "Univ. of Kentucky forage variety reports: a coefficient of variation under 12 % marks a well-run trial of total dry matter", Published},
		{BaseIndex, "Williams 1962, Biometrics 18:375-393: base index, the wanted weights laid on the traits themselves, where covariances are poorly known; here on shrunken means in standard deviations of the entries", Secondhand},
		{EntryF, "An LSD is not used where the F test of the entries does not pass: university variety trial guides", Published},
		{SelectionIndex, "Smith 1936, Hazel 1943: index weights b = P^-1 G a", FromMemory},
		{IndexArithmetic, "Three traits of alfalfa with matrices made up to be worked by hand", Derived},
		{BestOfShrunken, "Chance of being best, of beating the check: normal draws about the shrunken means with all that is still not known of them, variances taken as known", Choice},
		{ReplicatesPower, "Replicates by the power of the t test of two means in randomised blocks (noncentral t)", Derived},
	}
}
