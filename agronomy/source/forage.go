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
		{InverseVar, "Inverse-variance mean of independent or equally correlated estimates, general statistics", Derived},
	}
}
