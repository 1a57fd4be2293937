package source

// Forage quality.
const (
	RFVFormula           ID = "rfv-formula"
	RFVTable             ID = "rfv-table"
	StickTable           ID = "stick-table"
	StickNDF             ID = "stick-ndf-points"
	StickFit             ID = "stick-fit"
	StickSpread          ID = "stick-spread"
	HeatFibre            ID = "heat-fibre"
	DailyRates           ID = "daily-rates"
	RateScale            ID = "rate-scale"
	HarvestLoss          ID = "harvest-loss"
	HarvestWindow        ID = "harvest-window"
	HayGrades            ID = "usda-hay-grades"
	TaskForce            ID = "task-force-grades"
	RFVError             ID = "rfv-error"
	InverseVar           ID = "inverse-variance"
	ReducedLignin        ID = "reduced-lignin"
	SpotSpread           ID = "spot-spread"
	FibrePairs           ID = "fibre-pairs"
	DailyFall            ID = "daily-fall"
	BaleageLoss          ID = "baleage-loss"
	MixTriggers          ID = "mix-triggers"
	RedClover            ID = "red-clover-shift"
	Agreement            ID = "agreement"
	ShrunkBias           ID = "shrunk-bias"
	DelayValue           ID = "delay-value"
	JointCheck           ID = "joint-mean-check"
	RFQFormula           ID = "rfq-formula"
	RFQNutrients         ID = "rfq-nutrients"
	RFQLegumeIntake      ID = "rfq-legume-intake"
	RFQGrassIntake       ID = "rfq-grass-intake"
	RFQMix               ID = "rfq-mix"
	WholeNFC             ID = "whole-nfc"
	NRC2001Feeds         ID = "nrc-2001-feeds"
	NRC2001FeedsRecalled ID = "nrc-2001-feeds-recalled"
	UsualBound           ID = "usual-bound"
	StemStages           ID = "stem-stages"
	StageQuality         ID = "stage-quality"
	StageByCount         ID = "stage-by-count"
	ReducedLigninFactors ID = "reduced-lignin-factors"
	UsualLegume          ID = "usual-legume"
	LabLimits            ID = "lab-limits"
	LabUsual             ID = "lab-usual"
	LabChecks            ID = "lab-checks"
	LabRatios            ID = "lab-ratios"
	LabErrors            ID = "lab-errors"
	AshInForage          ID = "ash-in-forage"
	HayGradesIllinois    ID = "illinois-hay-grades"
	GrassHayGrades       ID = "grass-hay-grades"
	WesternTDN           ID = "western-tdn"
	WesternTDNRead       ID = "western-tdn-read"
	TaskForceColumns     ID = "task-force-columns"
	OutlierLimit         ID = "outlier-limit"
	SharedErrors         ID = "shared-errors"
	MilkOfForage         ID = "milk-of-forage"
)

func forage() []Source {
	return []Source{
		{RFVFormula, "Undersander, Relative Forage Quality, Univ. of Wisconsin-Madison Extension; Boman, Relative Feed Value of Alfalfa Hay, Utah State Univ. Extension", Published},
		{RFVTable, "Oklahoma State Univ. Extension, forage quality testing, table of relative feed value by ADF and NDF", Published},
		{StickTable, "Univ. of Wisconsin predictive equations for alfalfa quality (PEAQ), table of RFV by height and stage, as reproduced by Weld 2021", Secondhand},
		{StickNDF, "Ohio State Univ. Extension C.O.R.N. 2024-14, NDF by height and stage", Published},
		{StickFit, "Fit to the 75 cells of the printed height and stage table and 11 printed NDF points; slopes as recalled of Hintz & Albrecht 1991, Crop Sci. 31:1561", Derived},
		{StickSpread, "Spread of the height and stage method: NDF 2.2, ADF 2.0, correlation 0.8, chosen from Grass Forage Sci. doi 10.1111/gfs.12069 and Parsons, Cherney & Gauch 2006, Agron. J. 98:1081", Choice},
		{HeatFibre, "Michigan State Univ. Extension, growing degree days and first-cut alfalfa NDF (680, 750, 970 F-days base 41)", Published},
		{DailyRates, "Daily change of NDF, ADF and protein by season, chosen within Brink et al. 2010, Agron. J. 102:1274; Sulc, Buckeye Dairy News 13(2); Univ. of Idaho BUL 1018", Choice},
		{RateScale, "Daily rates scaled by (Tmean - 5)/13, held to 0.4-1.5, 13 being a mean spring day's heat above 5 C", Choice},
		{HarvestLoss, "Iowa State Univ. ICM 2006, 2019, 2022: 15 RFV points lost to haylage, 25 to hay", Published},
		{HarvestWindow, "Univ. of Wisconsin Extension, Barron Co. 2017: start = cut RFV + rate x harvest days / 2", Published},
		{HayGrades, "USDA-AMS alfalfa hay quality guidelines, 2003, as given by Cash & Dixon, Montana State Univ. Extension", Published},
		{TaskForce, "Hay marketing task force grades; RFV limits of Prime, 1, 2, 3 as printed in the UW-Extension hay price report of 28 Feb 2022, the rest from memory", FromMemory},
		{RFVError, "First-order error of RFV from the errors of ADF and NDF, our arithmetic on the RFV formula", Derived},
		{ReducedLignin, "Grev et al. 2017, Agron. J.: reduced-lignin alfalfa cut 5 days later with 21 % more forage and 3 % less RFQ, Minnesota", Published},
		{InverseVar, "Inverse-variance mean of independent or equally correlated estimates, general statistics", Derived},
		{SpotSpread, "Standard deviation of 8 RFV between spots of a field, taken where only one spot was read", Choice},
		{FibrePairs, "Penn State Extension, cutting management, table 1: late vegetative ADF 28 NDF 38 RFV 164, bud ADF 29 NDF 40 RFV 154", Published},
		{DailyFall, "Iowa State Univ. ICM 16 May 2005 (Undersander) and Iowa State dairy team: RFV falls 3-5 points a day in the first growth, 2-3 in the second, 1-2 later", Published},
		{BaleageLoss, "20 RFV points lost to baleage, midway between haylage and hay", Choice},
		{MixTriggers, "Letham 2017, Cornell Cooperative Extension, NW New York: alfalfa height, NDF target and daily rise to begin first cut of grass, half and half, and alfalfa", Published},
		{RedClover, "Red clover taken as alfalfa of the same stage with NDF, ADF and protein 2 points lower, chosen from Cassida et al. 2000, Crop Sci. 40:209, and Broderick et al. 2001, J. Dairy Sci. 84:1728", Choice},
		{Agreement, "Bias, root mean square error, regression and concordance of two sets of values, general statistics", Derived},
		{ShrunkBias, "Mean difference shrunk towards zero by its spread within and between farms (2.2 and 1.5 NDF, chosen), general statistics", Derived},
		{DelayValue, "Value of a standing cut by day of delay at a price line for hay, our arithmetic on the published daily change of yield and RFV", Derived},
		{JointCheck, "generalised least-squares mean by inverting the whole covariance matrix, gonum 0.17 mat", Library},
		{RFQFormula, "Undersander, Relative Forage Quality, Univ. of Wisconsin-Madison Extension: intake x TDN / 1.23, the equation of the kind that is most of the stand", Published},
		{RFQNutrients, "Univ. of Georgia forage glossary, TDN of legumes and of grasses with NDF free of protein (0.93 NDF where NDICP is missing)", Published},
		{RFQLegumeIntake, "Intake of legumes by NDF and its digestibility (0.374 lb a point, 1350 lb cow) as restated in public notes on forage trials; the slope lies beside 0.37 and 0.40 lb in Miner Institute and Hoard's Dairyman", Secondhand},
		{RFQGrassIntake, "Intake of grasses by CP, TDN and ADF (Moore & Kunkle 1999, from memory) as restated in public notes on hay trials", Secondhand},
		{RFQMix, "RFQ of a mixture taken on a straight line between its legume and grass equations, by the share of grass", Choice},
		{WholeNFC, "Undersander, Ash in Forage, Univ. of Wisconsin: NFC with the whole NDF taken away", Published},
		{NRC2001Feeds, "National Research Council 2001, Nutrient Requirements of Dairy Cattle, 7th rev. ed., ch. 2: energy of feeds from their parts, as restated in Gao et al. 2017, ChinaXiv 201711.01680", Secondhand},
		{NRC2001FeedsRecalled, "National Research Council 2001, 7th rev. ed., ch. 2: discount by intake and the part of fat over 3 %", FromMemory},
		{UsualBound, "Protein bound in ADF taken as 0.06 of protein where no laboratory reports it", Choice},
		{StemStages, "Kalu & Fick 1981, Crop Sci. 21:267-271: stages 0-9 of alfalfa stems and their mean by count and weight; limits from a teaching reproduction, names by number from memory", Secondhand},
		{StageQuality, "Kalu & Fick 1981, Crop Sci. 21:267-271, abstract: digestibility and protein of alfalfa by mean stage by weight, one New York season, n = 11", Published},
		{StageByCount, "Mueller & Fick 1989: mean stage by weight from mean stage by count", FromMemory},
		{ReducedLigninFactors, "Grev et al. 2017, Agron. J., abstract: lignin 8 % lower and NDF digestibility 10 % higher than in three reference varieties, four Minnesota sites; protein and NDF unchanged", Published},
		{UsualLegume, "Protein 20, fat 2.5 and ash 9 % taken of a legume whose fibre alone is known", Choice},
		{LabLimits, "Limits outside which a laboratory value is not taken, wide of all forages seen", Choice},
		{LabUsual, "Usual composition of legume forage; ash from Undersander, Ash in Forage, and dry matter of hay from a NIR laboratory's explanation were read, the rest is from memory", FromMemory},
		{LabChecks, "What must add up in a forage report, and how far apart a reported and a recomputed value may lie", Choice},
		{LabRatios, "Usual ADF and lignin as shares of NDF by species", FromMemory},
		{LabErrors, "Shewmaker & Putnam, common abuses of forage testing: at least 0.5 CP, 1.0 ADF and 1.5 NDF of error stand on a laboratory value; 5 points of RFV are no difference", Published},
		{AshInForage, "Undersander, Ash in Forage, Univ. of Wisconsin: a point of ash costs 0.98 of TDN; plants hold 6-8 %, the rest is soil", Published},
		{HayGradesIllinois, "Illinois Dept of Agriculture hay quality guidelines: Supreme over 180 RFV, Premium 150-180, Good 125-150, Fair 100-125, Low under 100", Published},
		{GrassHayGrades, "USDA-AMS grass hay guidelines by crude protein, as given by Cash & Dixon, Montana State Univ. Extension", Published},
		{WesternTDN, "Western TDN of alfalfa hay, 82.38 - 0.7515 ADF", FromMemory},
		{WesternTDNRead, "Mertens & Goeser, Hay & Forage Grower: western TDN about 82.4 - 0.75 ADF; edges of the USDA-AMS classes at ADF 27, 29, 32, 35 are 62, 60.5, 58, 56", Published},
		{TaskForceColumns, "Hay marketing task force grades: limits of CP, ADF and NDF", FromMemory},
		{OutlierLimit, "A difference over 2.5 standard deviations from the correction is looked at before it is averaged in; a slope is corrected from 15 pairs on", Choice},
		{SharedErrors, "Correlation of two methods' errors found from their differences to the laboratory, the laboratory's own error taken out; 0.5 between height and heat before 15 pairs are there", Choice},
		{MilkOfForage, "Milk from a ton of forage: energy in what a 1350 lb cow can eat of it, less her maintenance, over the energy of milk. After the idea of Undersander, Howard & Shaver 1993, J. Prod. Agric. 6:231 (from memory), reckoned with the 2001 dairy standard", Derived},
	}
}
