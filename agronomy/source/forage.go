package source

// Forage quality.
const (
	RFVFormula    ID = "rfv-formula"
	RFVTable      ID = "rfv-table"
	StickTable    ID = "stick-table"
	StickNDF      ID = "stick-ndf-points"
	StickFit      ID = "stick-fit"
	StickSpread   ID = "stick-spread"
	HeatFibre     ID = "heat-fibre"
	DailyRates    ID = "daily-rates"
	RateScale     ID = "rate-scale"
	HarvestLoss   ID = "harvest-loss"
	HarvestWindow ID = "harvest-window"
	HayGrades     ID = "usda-hay-grades"
	TaskForce     ID = "task-force-grades"
	RFVError      ID = "rfv-error"
	InverseVar    ID = "inverse-variance"
	ReducedLignin ID = "reduced-lignin"
	SpotSpread    ID = "spot-spread"
	FibrePairs    ID = "fibre-pairs"
	DailyFall     ID = "daily-fall"
	BaleageLoss   ID = "baleage-loss"
	MixTriggers   ID = "mix-triggers"
	RedClover     ID = "red-clover-shift"
	Agreement     ID = "agreement"
	ShrunkBias    ID = "shrunk-bias"
	DelayValue    ID = "delay-value"
	JointCheck    ID = "joint-mean-check"
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
	}
}
