package source

// Soil acidity, phosphorus and potassium, removal, tissue and manure.
const (
	LimeOhio          ID = "lime-ohio"
	LimeOhioLines     ID = "lime-ohio-lines"
	LimeOhioENP       ID = "lime-ohio-enp"
	LimeIowa          ID = "lime-iowa"
	LimePennState     ID = "lime-penn-state"
	LimePennTurf      ID = "lime-penn-turf"
	LimeCarolina      ID = "lime-north-carolina"
	LimeKansas        ID = "lime-kansas"
	LimeFromCEC       ID = "lime-from-cec"
	LimeLead          ID = "lime-lead"
	LimeNoTill        ID = "lime-no-till"
	LimeSplit         ID = "lime-split"
	LimeMichigan      ID = "lime-michigan"
	LimeMagnesium     ID = "lime-magnesium"
	LimeStateSieves   ID = "lime-state-sieves"
	LimeIllinoisENV   ID = "lime-illinois-env"
	LimeFineness      ID = "lime-fineness"
	LimeNewYork       ID = "lime-new-york"
	LimeRelative      ID = "lime-relative"
	LimeRecalled      ID = "lime-recalled"
	SoilSlice         ID = "soil-slice"
	SoilExtractants   ID = "soil-extractants"
	SoilExtractLab    ID = "soil-extract-lab"
	SoilCEC           ID = "soil-cec"
	SoilIllinois      ID = "soil-illinois"
	SoilTriState2020  ID = "soil-tri-state-2020"
	SoilTriStateRest  ID = "soil-tri-state-rest"
	SoilTriState1995  ID = "soil-tri-state-1995"
	SoilTriStateOld   ID = "soil-tri-state-old"
	SoilMinnesota     ID = "soil-minnesota"
	SoilMinnesotaRest ID = "soil-minnesota-rest"
	RemovalTriState   ID = "removal-tri-state"
	RemovalTriState95 ID = "removal-tri-state-1995"
	RemovalRecalled   ID = "removal-recalled"
	RemovalWisconsin  ID = "removal-wisconsin"
	RemovalPPI        ID = "removal-ppi"
	RemovalKentucky   ID = "removal-kentucky"
	RemovalMinor      ID = "removal-minor"
	RemovalAnalysis   ID = "removal-analysis"
	ManureMidwest     ID = "manure-midwest"
	ManurePennsylv    ID = "manure-pennsylvania"
	ManureWisconsin   ID = "manure-wisconsin"
	ManureTopdress    ID = "manure-topdress"
	ManureLab         ID = "manure-lab"
	TissueGeorgia     ID = "tissue-georgia"
	TissueAlberta     ID = "tissue-alberta"
	TissueTriState    ID = "tissue-tri-state"
	TissueSulfur      ID = "tissue-sulfur"
	TissueSulfurRatio ID = "tissue-sulfur-ratio"
	Molybdenum        ID = "molybdenum"
	SoilEvery         ID = "soil-every"
	SoilClasses       ID = "soil-classes"
	SoilClemson       ID = "soil-clemson"
	SoilMontana       ID = "soil-montana"
	PotashEnough      ID = "potash-enough"
	PhosphorusEnough  ID = "phosphorus-enough"

	TargetIllinois        ID = "target-illinois"
	TargetTriState        ID = "target-tri-state"
	TargetKansas          ID = "target-kansas"
	TargetMichigan        ID = "target-michigan"
	TargetMinnesota       ID = "target-minnesota"
	TargetWestVirginia    ID = "target-west-virginia"
	TargetWisconsin       ID = "target-wisconsin"
	TargetWisconsinClover ID = "target-wisconsin-clover"
	TargetLeast           ID = "target-least"
)

func soils() []Source {
	return []Source{
		{LimeOhio, "Ohio State Univ. soil pH and lime text; Vitosh, Johnson & Mengel 1995, E-2567: lime test index from the SMP buffer, 8 in deep, material of neutralizing value 90 %, lime when the zone is 0.2 to 0.3 under the target; a 0-4 in sample takes half", Published},
		{LimeOhioLines, "Lines of the Ohio lime table: 71.4 - 1.03 LTI for pH 6.8, 60.4 - 0.87 for 6.5, 49.3 - 0.71 for 6.0, organic soil 32.9 - 6.31 pH; the table itself was not seen", FromMemory},
		{LimeOhioENP, "Ohio's Country Journal 2014: tons by effective neutralizing power, rate x 2000 / ENP", Published},
		{LimeIowa, "Iowa State PM 1688 (2002), lb of pure fine calcium carbonate an acre to 6 in by SMP or Sikora buffer, as printed by Laboski (Univ. Wisconsin), liming terminology", Secondhand},
		{LimePennState, "Penn State Agronomy Guide, limestone recommendation from exchangeable acidity, 7 in", Published},
		{LimePennTurf, "Penn State Ag Analytical Services, lime by acidity for turf: slopes of 1,005, 846 and 667 lb of acre and meq", Derived},
		{LimeCarolina, "North Carolina Dept. of Agriculture, Agronomic Division, buffer factor: acidity from the Mehlich buffer, residual credit of recent lime", Published},
		{LimeKansas, "Kansas State Univ. MF-2586 type: lb of effective calcium carbonate for each inch of depth by SMP buffer", FromMemory},
		{LimeFromCEC, "Lime from exchange capacity and base saturation (0.50 at pH 5.0 to 1.00 at 7.0), textbook reasoning and no state's recommendation", FromMemory},
		{LimeLead, "Illinois liming pages: lime at least six months before a legume is sown", Published},
		{LimeNoTill, "Univ. Tennessee, alfalfa soil-test comments: at most 4 tons an acre at once on untilled ground and a new test after 2 years; no no-till seeding under pH 5.8", Published},
		{LimeSplit, "Over 4 tons an acre: half before ploughing and half disked in after; at most 8 tons a season (Ohio, Pennsylvania)", FromMemory},
		{LimeMichigan, "MSU Extension, lime: at most 4 tons an acre at once and 6 in a year", Published},
		{LimeMagnesium, "Ohio lime advice: dolomitic stone where magnesium is under 50 ppm", Published},
		{LimeStateSieves, "Laboski (Univ. Wisconsin), liming terminology: sieves of the states; Iowa's effective calcium carbonate equivalent with its worked example", Published},
		{LimeIllinoisENV, "Illinois effective neutralizing value: 5, 20, 50 and 100 % of the size classes in a year, 15, 45, 100 and 100 % in four; typical stone 46.35 and 67.5", FromMemory},
		{LimeFineness, "Fineness by 8, 20 and 60 mesh with weights 0.2, 0.6 and 1 (Wisconsin, Minnesota, Ohio); the middle weights are recalled", FromMemory},
		{LimeNewYork, "Cornell Northeast certified adviser guide, PO 41: effective neutralizing value by 20, 60 and 100 mesh", Published},
		{LimeRelative, "Mississippi State P3762: relative neutralizing value, half of the 10-50 mesh and all that is finer", Published},
		{LimeRecalled, "Indiana's relative neutralizing value (8 and 60 mesh), Kansas' effective calcium carbonate and Missouri's effective neutralizing material", FromMemory},
		{SoilSlice, "Penn State Agronomy Guide: an acre's slice of 6 2/3 in weighs 2,000,000 lb, so lb an acre is twice the ppm", Published},
		{SoilExtractants, "Culman et al. 2019, Ohio State ANR-75; Tri-State 2020: Mehlich-3 P is 1.35 x Bray P1, Mehlich-3 K is 1.14 x ammonium acetate K", Published},
		{SoilExtractLab, "A commercial laboratory's notes: Bray P1 0.70 x Mehlich-3 P, acetate K 0.84 x Mehlich-3 K", Published},
		{SoilCEC, "A commercial laboratory's notes: exchange capacity from K, Mg, Ca in lb an acre and the buffer pH, for water pH up to 6.4", Published},
		{SoilIllinois, "Illinois Agronomy Handbook, chapter 8 (Fernandez & Hoeft): build-up 9 lb of P2O5 and 4 of K2O for a lb an acre of test, removal 12 and 50 lb a ton, targets 40 to 50 and 260 or 300 lb an acre", FromMemory},
		{SoilTriState2020, "Tri-State Fertilizer Recommendations 2020, Bulletin 974, as its authors' pages give them: critical 30 ppm of P with alfalfa, K 100 or 120, kept to 130 or 170; build-up over 4 years", Published},
		{SoilTriStateRest, "Tri-State 2020: P kept up to 50 ppm, 5 lb of P2O5 a ppm and year, 20 lb of K2O with maintenance, at most 300 a year", FromMemory},
		{SoilTriState1995, "Vitosh, Johnson & Mengel 1995, E-2567: extractants and the frame of build-up, maintenance and drawdown; critical P 25 ppm with alfalfa by MSU's slides", Published},
		{SoilTriStateOld, "E-2567: critical K 75 + 2.5 CEC, plateau of 15 ppm P and 30 ppm K, drawdown over 10 and 20", FromMemory},
		{SoilMinnesota, "Univ. Minnesota, fertilizing red clover, alsike clover and birdsfoot trefoil: P by Bray or Olsen, K by class and yield", Published},
		{SoilMinnesotaRest, "Univ. Minnesota, alfalfa: (18.57 - 0.93 Bray) and (55.71 - 0.38 K) lb a ton; the K line of clover is fitted to its printed table", FromMemory},
		{RemovalTriState, "Tri-State 2020: 49 lb of K2O a ton of dry matter, from MSU Extension 2024; 12 lb of P2O5 recalled", Secondhand},
		{RemovalTriState95, "Ohio article 2017 on Tri-State 1995: 13 lb of P2O5 and 50 of K2O a ton", Published},
		{RemovalRecalled, "Removal by Illinois (12 and 50), Iowa (12.5 and 40) and IPNI's North-Central table (alfalfa 12 and 49, S and Mg 5.4; red clover 12 and 42, S 3)", FromMemory},
		{RemovalWisconsin, "Farm Progress (Wisconsin): 60 lb of K2O a ton of dry matter; 13 lb of P2O5 recalled", Published},
		{RemovalPPI, "Stewart (PPI): 15 lb of P2O5, 60 of K2O, 5 of S and of Mg a ton of hay", Published},
		{RemovalKentucky, "Univ. Kentucky Soil Science News & Views 142: 14 lb of P2O5 and 55 of K2O a ton of hay", Published},
		{RemovalMinor, "Iowa supplier's agronomist: 6 lb of S and Mg, 30 of Ca and 0.08 of B a ton of dry matter", Secondhand},
		{RemovalAnalysis, "Removal from a forage test: 20 lb a ton for each percent of dry matter; oxides by atomic masses", Derived},
		{ManureMidwest, "Grower article quoting the Midwest manure book: dairy liquid pit 31-15-19 a 1,000 gal, solid 9-3-6 a ton; 70 to 90 % of P and K to be had in the first year", Secondhand},
		{ManurePennsylv, "Beegle (Penn State), manure on alfalfa: 25 lb of K2O a 1,000 gal and 8.3 a ton; P2O5 13 and 4 recalled", Published},
		{ManureWisconsin, "First-year credits of Wisconsin: dairy solid 3-7 a ton, liquid 8-21 a 1,000 gal", FromMemory},
		{ManureTopdress, "Manure on alfalfa: under 3,000 gal or 10 tons an acre at once (Anderson, Nebraska), up to 4,000 gal (Ketterings, Cornell); right after a cut, on dry ground, older and grassy stands first, none on new seedings (Penn State)", Published},
		{ManureLab, "Peters (Univ. Wisconsin), manure of 1998-2010: book values hold on average and farms differ widely, so a laboratory's analysis goes before", Published},
		{TissueGeorgia, "Univ. Georgia AESL, alfalfa plant analysis, top 4-6 in at first bloom; boron and sulfur by Penn State", Published},
		{TissueAlberta, "Alberta guideline for the top 15 cm at 5 % bloom, by Manitoba Agriculture", Published},
		{TissueTriState, "E-2567, alfalfa before first flower", FromMemory},
		{TissueSulfur, "Laboski (Wisconsin); Kaatz (MSU): no return to sulfur at 0.25 % in the top 6 in and more, 25 lb of sulfate sulfur an acre where less", Published},
		{TissueSulfurRatio, "Penn State Extension, sulfur on forages: nitrogen to sulfur over 11 to 1 tells want", Published},
		{Molybdenum, "Eight-year trial in New Zealand: liming cures most want of molybdenum; excess of it takes copper from cattle, and lime and molybdenum are never put on together", Published},
		{TargetIllinois, "Illinois liming pages; Morrison (Illinois) 2012: pH 6.5 and more for alfalfa and legume-grass, preferably near 7", Published},
		{TargetTriState, "Tri-State 2020; Sulc (Ohio State) 2013: 6.8 for alfalfa, 6.0 and more for clover", Published},
		{TargetKansas, "Ruiz Diaz (Kansas State) 2022, lime before fall alfalfa: east of the Flint Hills to 6.8 where under 6.4", Published},
		{TargetMichigan, "MSU Extension, lime: desirable pH of alfalfa 6.3 to 7.8", Published},
		{TargetMinnesota, "Kaiser, Lamb & Eliason (Minnesota), fertilizing alfalfa: 6.5 and more; red clover responds only under 6.0", Published},
		{TargetWestVirginia, "Rayburn (West Virginia) 1994: 6.5 to 7.0 for alfalfa, 5.8 to 6.5 for red clover", Published},
		{TargetWisconsin, "Undersander (Wisconsin), lecture on alfalfa: 6.8", Published},
		{TargetWisconsinClover, "Wisconsin A2809: 6.3 for red clover", FromMemory},
		{TargetLeast, "The least target that the guides print, where no state's is known: 6.5 for alfalfa, 6.0 for red clover", Choice},
		{SoilClemson, "Clemson soil test crop code 050, alfalfa: P2O5 and K2O by the class of both tests", Published},
		{SoilMontana, "Bauder (Montana State) 1998: P2O5 for a ton of hay by Olsen test, enough at 18 ppm", Published},
		{SoilClasses, "Illinois Agronomy Handbook, soil classes of the lime chart by exchange capacity: A over 24 meq, B 15 to 24, C 8 to 15, D under 8", FromMemory},
		{PotashEnough, "Wisconsin Extension, potassium fertilizer for alfalfa (Kelling's trials): no reason to build the test past 120 ppm of K, little benefit from any over 150", Published},
		{PhosphorusEnough, "Penn State 2022, cross-check soil tests: 30 to 50 ppm of P by Mehlich 3 is optimum", Published},
		{SoilEvery, "Soil is tested every 3 to 4 years", CommonPractice},
	}
}
