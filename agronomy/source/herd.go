package source

// Herd.
const (
	FatCorrectedMilk ID = "fat-corrected-milk"
	NRC2001Intake    ID = "nrc-2001-intake"
	NRC2001Example   ID = "nrc-2001-example"
	NASEM2021Cow     ID = "nasem-2021-cow"
	IntakeByFibre    ID = "intake-by-fibre"
	KoreanIntake     ID = "intake-cross-check"
	DigestibleFibre  ID = "digestible-fibre"
	NRC2001Dry       ID = "nrc-2001-dry"
	Hayirli2003      ID = "dry-intake-2003"
	NASEM2021Dry     ID = "nasem-2021-dry"
	NASEM2021Heifer  ID = "nasem-2021-heifer"
	NRC2001Heifer    ID = "nrc-2001-heifer"
	HeiferFibre      ID = "heifer-fibre"
	UsualCow         ID = "usual-cow"
	NRC2001Energy    ID = "nrc-2001-energy"
	NASEM2021Energy  ID = "nasem-2021-energy"
	NASEM2021Uterus  ID = "nasem-2021-uterus"
	TDNEnergy        ID = "tdn-energy"
	NFTAEnergy       ID = "tdn-energy-printed"
	ForageFibre      ID = "forage-fibre-limit"
	ForageFloor      ID = "forage-fibre-floor"
	ForageShares     ID = "forage-shares"
	HerdNeed         ID = "herd-need"
	PlanLosses       ID = "plan-losses"
	HerdTonsIllinois ID = "herd-tons-illinois"
	HerdTonsOhio     ID = "herd-tons-ohio"
	QualityMinnesota ID = "quality-minnesota-2009"
	QualityBands     ID = "quality-bands-wisconsin"
	TooGood          ID = "too-good-forage"
)

func herd() []Source {
	return []Source{
		{FatCorrectedMilk, "Gaines 1928: milk corrected to 4 % fat, 0.4 M + 15 F", FromMemory},
		{NRC2001Intake, "National Research Council 2001, Nutrient Requirements of Dairy Cattle, 7th rev. ed., ch. 1: intake of lactating cows", FromMemory},
		{NRC2001Example, "Example cows of the 7th edition (2001) as repeated in teaching tables: 680 kg cows eating 23.6 and 30.2 kg at 35 and 55 kg of milk and 15.6 kg at 11 days, a dry cow eating 13.7 kg", Secondhand},
		{NASEM2021Cow, "National Academies 2021, Nutrient Requirements of Dairy Cattle, 8th rev. ed., equation 2-1, p. 12, as quoted in the open textbook Decoding Dairy Diets", Secondhand},
		{IntakeByFibre, "Allen, Sousa & VandeHaar 2019, J. Dairy Sci., abstract: intake from forage fibre and milk, 60-309 days in milk; equation 2-2 of the 8th edition", Published},
		{KoreanIntake, "Lee et al. 2021, Anim. Biosci. 34(10), abstract: intake in the Korean feeding standard, R2 0.47", Published},
		{DigestibleFibre, "Miner Institute on Oba & Allen 1999: a point of forage NDF digestibility brings 0.37 lb of intake and 0.51 lb of milk a cow a day", Secondhand},
		{NRC2001Dry, "National Research Council 2001, 7th rev. ed., ch. 1: intake of dry cows and springing heifers, coefficients rounded", FromMemory},
		{Hayirli2003, "Hayirli, Grummer, Nordheim & Crump 2003, J. Dairy Sci. 86:1771-1779, abstract: intake in the last three weeks before calving", Published},
		{NASEM2021Dry, "National Academies 2021, 8th rev. ed.: intake of dry cows by week from calving and diet NDF", FromMemory},
		{NASEM2021Heifer, "National Academies 2021, 8th rev. ed.: intake of heifers by weight and mature weight", FromMemory},
		{NRC2001Heifer, "National Research Council 2001, 7th rev. ed.: intake of heifers by weight and diet energy", FromMemory},
		{HeiferFibre, "Hoffman & Kester 2013, Univ. of Wisconsin: heifers eat near 1.0 % of their weight as NDF, over 9000 pen-days", Published},
		{UsualCow, "A cow whose milk and condition are not known taken with true protein 3.1 %, lactose 4.85 %, condition score 3, past her first lactation", Choice},
		{NRC2001Energy, "National Research Council 2001, 7th rev. ed., ch. 2: energy of maintenance, milk (Tyrrell & Reid 1965) and pregnancy", FromMemory},
		{NASEM2021Energy, "National Academies 2021, 8th rev. ed., ch. 3: energy of maintenance, milk and pregnancy tissue, as quoted in the open textbook Decoding Dairy Diets", Secondhand},
		{NASEM2021Uterus, "National Academies 2021, 8th rev. ed.: growth of the gravid uterus by day of pregnancy", FromMemory},
		{TDNEnergy, "National Research Council 1989, 6th rev. ed.: energy from total digestible nutrients", FromMemory},
		{NFTAEnergy, "National Forage Testing Association, laboratory procedures, appendix A3: energy from total digestible nutrients", Published},
		{ForageFibre, "Hay & Forage Grower, quality is key for high-forage diets: forage fibre up to 1.1-1.2 % of a cow's weight a day; 1.3-1.8 in reviews of grazing, 0.9 usual (from memory)", Published},
		{ForageFloor, "Hoard's Dairyman on the 8th edition (2021): fibre from forage at least 15-19 % of the diet's dry matter", Secondhand},
		{ForageShares, "Linn 2011 and Hay & Forage Grower: at least half of the diet from forage and diet NDF of 28 % for cheap milk; hard to pass 80 % forage without losing milk", Published},
		{HerdNeed, "A year's need as head x intake x shares x 365/2000, divided by what each loss leaves: a loss is a share of what was stored. Our arithmetic", Derived},
		{PlanLosses, "MidWest Plan Service MWPS-7, 6th ed. 1997: plan on 15 % lost between field and store and 10 % between store and mouth", Secondhand},
		{HerdTonsIllinois, "Hutjens, Univ. of Illinois, managing forages during expansion: a 1400 lb cow at 2 % of her weight eats 28 lb a day, 5.1 tons a year, 5.5 with 6.5 % shrink", Published},
		{HerdTonsOhio, "Weiss, Ohio State Univ., Buckeye Dairy News 6(5): tons a cow a year at 20 and 40 % of 47, 54 and 61 lb of dry matter; multiplies by 1.10 where dividing by 0.90 is right", Published},
		{QualityMinnesota, "Paulson 2009, Univ. of Minnesota: forage quality goals by group", Published},
		{QualityBands, "Undersander et al., Univ. of Wisconsin: bands of relative forage quality by group", FromMemory},
		{TooGood, "Heifers and dry cows get fat on forage over 150 RFQ", FromMemory},
	}
}
