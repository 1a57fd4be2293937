package source

// Weather, heat and frost.
const (
	SineHeat      ID = "single-sine"
	HeatMethods   ID = "heat-methods"
	HeatCutoffs   ID = "heat-cutoffs"
	HeatIntegral  ID = "heat-integral"
	HeatCheck     ID = "heat-library-check"
	MSUHeat       ID = "msu-gdd41"
	MilwaukeeSums ID = "milwaukee-sums"
	SeattleSums   ID = "seattle-newyork-sums"
	FreezeFormula ID = "freeze-quantiles"
	FreezeMixed   ID = "freeze-mixed"
	FrostHours    ID = "frost-hours"
	KillingFreeze ID = "killing-freeze"
	FallRestHeat  ID = "fall-rest-heat"
	FallRestRisk  ID = "fall-rest-risk"
	GHCNDaily     ID = "ghcn-daily"
	WholeF        ID = "whole-fahrenheit"
	GHCNQuality   ID = "ghcn-quality"
	DryDay        ID = "dry-day"
	Quantiles     ID = "sample-quantiles"

	GapFilling      ID = "gap-filling"
	LikenessWeights ID = "likeness-weights"
	ForecastBlend   ID = "forecast-blend"
	ForecastGrid    ID = "nws-forecast-grid"
	Generator       ID = "weather-generator"
	SmoothNormals   ID = "smooth-normals"
	TrendTest       ID = "trend-test"
	EnsembleScore   ID = "ensemble-score"
	WilsonInterval  ID = "wilson-interval"
	SeedlingRest    ID = "seedling-rest"
	WeevilHeat      ID = "weevil-heat"
	HourlyHeat      ID = "hourly-heat"
	FreezeChecks    ID = "freeze-checks"
	FreezeGap       ID = "freeze-gap"
	FreezeYears     ID = "freeze-years"
	NormalsTables   ID = "freeze-normals"
	NormalsCurve    ID = "freeze-normals-curve"
	SpringFrost     ID = "spring-frost"
	BootstrapBand   ID = "bootstrap-band"
	TrendInterval   ID = "trend-interval"
	StandardLapse   ID = "standard-lapse"
	PlaceBlend      ID = "place-blend"
	GreatCircle     ID = "great-circle"
	GrossScreen     ID = "gross-screen"
	MorningReading  ID = "morning-reading"
	DaymetCalendar  ID = "daymet-calendar"
	GridDays        ID = "grid-days"
)

func weather() []Source {
	return []Source{
		{SineHeat, "Baskerville & Emin 1969, Ecology 50:514 (single sine); formula re-derived and checked by numerical integration", FromMemory},
		{HeatMethods, "Univ. of California statewide IPM glossary: average, triangle, sine and double methods; Allen 1976, Environ. Entomol. 5:388", Published},
		{HeatCutoffs, "Univ. of California IPM glossary and Oregon State Univ. degree-day notes: horizontal, intermediate, vertical cutoff", Published},
		{HeatIntegral, "20,000-point numerical integral of the sine day, R 4.2.2 and Python 3.11", Library},
		{HeatCheck, "documentation of a general thermal-ecology library: Tmin 7, Tmax 14, LT 12, UT 33 C gives sine 0.47, triangle 0.29", Library},
		{MSUHeat, "Michigan State Univ. Extension and NDSU: GDD41, simple average from 1 March; 60/40 F gives 9", Published},
		{MilwaukeeSums, "degree-day sums and freeze dates of Milwaukee Mitchell Airport (GHCN-Daily USW00014839) computed in R 4.2.2 and Python separately", Library},
		{SeattleSums, "degree-day sums of the Seattle and New York daily record 2012-2015 (vega-datasets 3.2.1, NOAA) computed in R 4.2.2 and Python separately", Library},
		{FreezeFormula, "Weibull, Hazen, type 7 and normal quantiles of freeze dates; R 4.2.2 quantile()", Library},
		{FreezeMixed, "NOAA freeze probabilities: discrete freeze or no freeze times a continuous date given a freeze", Published},
		{FrostHours, "Hours below a threshold from a sine day, our arithmetic", Derived},
		{KillingFreeze, "Killing freeze of alfalfa top growth: 24 F for 4 hours (Undersander, Wisconsin) to 28 F (Sheaffer, Minnesota), as listed by Cherney et al. 2012, Cornell", Published},
		{FallRestHeat, "Belanger et al. 1998/1999, Can. J. Plant Sci., via Ohio State Univ. Extension 2018: at least 500 or at most 200 C-days base 5 C left after the last cut", Published},
		{FallRestRisk, "Share of years whose heat after the cut falls between the two limits, our arithmetic", Derived},
		{GHCNDaily, "NOAA NCEI readme for daily GHCN, version 3", Published},
		{WholeF, "Rhines et al. 2015, Q. J. R. Meteorol. Soc. 141:2923: US minima read in whole F and archived in tenths C", Published},
		{GHCNQuality, "Durre et al. 2010, J. Appl. Meteorol. Climatol. 49:1615 and the NCEI GHCN-Daily quality page", Published},
		{DryDay, "a dry day has less than 0.25 mm of rain, the 0.01 in limit of the probability of precipitation (AMS Glossary)", Published},
		{GapFilling, "Neighbour regression, inverse-distance mean and the normal-ratio method of classic hydrology", CommonPractice},
		{LikenessWeights, "Past years weighed by a Gaussian of the distance of heat and rain to date; widened until a third of the years count", Choice},
		{ForecastBlend, "Forecast and climate weighed by their variances; errors of 1.5 to 3.7 C for days 1 to 7", Choice},
		{ForecastGrid, "National Weather Service API, gridpoint FAQ and documentation; probability of precipitation: 0.01 in at a point in the period, normally 12 h (AMS Glossary)", Published},
		{Generator, "Richardson 1981, Water Resour. Res. 17:182; Richardson & Wright 1984, USDA-ARS-8; Thom's gamma estimate; matrices self-consistent but recalled", FromMemory},
		{SmoothNormals, "Daily normals smoothed by three waves of the year, least squares", Choice},
		{TrendTest, "Theil-Sen slope and Mann-Kendall test, R 4.2.2", Library},
		{EnsembleScore, "Continuous ranked probability score of an ensemble, general statistics", Derived},
		{SeedlingRest, "Late-summer seedings want about 6 to 8 weeks from emergence to a killing freeze: several state guides; counted on the station's own freezes", Secondhand},
		{WilsonInterval, "Wilson score interval, R 4.2.2", Library},
		{Quantiles, "sample quantile types of R 4.2.2 quantile()", Library},
		{WeevilHeat, "Alfalfa weevil heat: Ohio State Univ. C.O.R.N. 2025-13 (sine, base 48 F); Peterson & Meyer 1995, Environ. Entomol. 24:1404 (sine, 8.9 C, from 1 January)", Published},
		{HourlyHeat, "Degree-days of hourly readings: mean of max(0, T - base), the definition the daily methods approach", FromMemory},
		{FreezeChecks, "statistics module of Python 3.11: quantiles (exclusive = Weibull, inclusive = type 7), NormalDist", Library},
		{FreezeGap, "A year's first or last freeze is certain where under 10 % of its days are missing and no missing day could have been it: not both its neighbours within 3 C of the threshold", Choice},
		{FreezeYears, "At least 10 years to show a 10 or 90 % freeze date, 20 better, 30 the normal", Choice},
		{NormalsTables, "Fall freeze tables of Medford, Mauston, Menomonie, Dalton WI, Ames IA, Waskish MN and 1991-2020 dates of Albany NY and Wausau WI, NOAA normals as reproduced by others", Secondhand},
		{NormalsCurve, "Freeze date at any chance from published 10, 50 and 90 % dates: half a normal curve on either side of the median", Derived},
		{GrossScreen, "Kunkel et al. 2005, J. Atmos. Oceanic Technol. 22:1691 (abstract): rain over 254 mm and temperatures over 5 standard deviations from the monthly mean are flagged for a person to judge", Published},
		{MorningReading, "An observer who reads in the morning writes down the highest temperature and the rain of mostly the day before", FromMemory},
		{DaymetCalendar, "Daymet calendar, ORNL DAAC: all years have 365 days; leap years keep 29 February and leave out 31 December", Published},
		{GridDays, "Days of gridded data: those of the stations in Daymet, midnight to midnight Mountain Standard Time in gridMET", FromMemory},
		{SpringFrost, "Alfalfa tops after frost: killed from 24 F for 4 hours (Undersander, Wisconsin), leaves deformed at 25-30 F, no harm at 28-32 F (Univ. of Nevada and Wisconsin extension); where the ranges overlap the worse is taken", Published},
		{BootstrapBand, "Efron 1979, Ann. Statist. 7:1: the percentile bootstrap over years; checked against the binomial chance of a drawn median", FromMemory},
		{TrendInterval, "Sen 1968, J. Am. Stat. Assoc. 63:1379: interval of the median slope from the variance of Kendall's S; checked in R 4.2.2 by the slopes its test is silent on", FromMemory},
		{StandardLapse, "ICAO standard atmosphere: 6.5 C cooler each kilometre higher, the rate in equation 7 of FAO Irrigation and Drainage Paper 56", FromMemory},
		{GreatCircle, "Haversine formula on a sphere of the earth's mean radius, 6371.0088 km; checked on the widely printed example of Nashville to Los Angeles", FromMemory},
		{PlaceBlend, "Several stations' temperatures weighed by 1/distance squared at the field's height; rain of the nearest that reported", Choice},
	}
}
