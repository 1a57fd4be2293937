package source

// Fertilizer materials and their blending.
const (
	FertilizerGuide    ID = "fertilizer-guide"
	FertilizerAlabama  ID = "fertilizer-alabama"
	FertilizerRecalled ID = "fertilizer-recalled"
	GypsumSulfur       ID = "gypsum-sulfur"
	LeastCostBlend     ID = "least-cost-blend"
	BoronTopdress      ID = "boron-topdress"
	BoronTissue        ID = "boron-tissue"
	BoronPlacing       ID = "boron-placing"
	PotashSplit        ID = "potash-split"
	PotashTiming       ID = "potash-timing"
	PotashMost         ID = "potash-most"
	NitrogenIdle       ID = "nitrogen-idle"
	ElementalSulfur    ID = "elemental-sulfur"
	DealerSteps        ID = "dealer-steps"
)

func fertilizers() []Source {
	return []Source{
		{FertilizerGuide, "New England Vegetable Management Guide: monoammonium phosphate 11-48-0, diammonium phosphate 18-46-0, elemental sulfur 90-92 % S", Published},
		{FertilizerAlabama, "Alabama Cooperative Extension ANR-174: ammonium sulfate 21-0-0 with 24 % S (another guide has 23)", Published},
		{FertilizerRecalled, "Usual analyses: monoammonium phosphate 52 % P2O5, triple superphosphate 46; muriate of potash 60 % K2O, sulfate of potash 50 with 17 % S, sulfate of potash-magnesia 22 with 22 % S and 11 % Mg; borates 14.3 and 20.5 % B", FromMemory},
		{GypsumSulfur, "Gypsum of 17 % S, article of an Iowa supplier of soil amendments", Secondhand},
		{LeastCostBlend, "Least-cost blend as a linear programme, invented prices, every corner of it tried; our arithmetic", Derived},
		{BoronTopdress, "Penn State Extension, boron on forages: 2 lb of B an acre with topdressing, up to 4 lb where short", Published},
		{BoronTissue, "Penn State Extension, boron on forages: 30 ppm in the tops of alfalfa and 20 in clover are enough", Published},
		{BoronPlacing, "Penn State Extension; Johnson & Camberato (Purdue) 2009: broadcast only, corn and small grains that follow are sensitive. Never with the seed is recalled", Published},
		{PotashSplit, "Univ. of Georgia, alfalfa plant analysis: split potash over 200 lb of K2O a year", Published},
		{PotashTiming, "Clemson crop code 050; Burbrink (Purdue) 2019: half after the first cut, half after the last. Minnesota and Wisconsin trials saw no clear gain from either; Smith & Smith 1977, Agron. J. 69:45-48: red clover gains nothing from splitting", Published},
		{PotashMost, "At most 300 lb of K2O an acre a year", FromMemory},
		{NitrogenIdle, "Laboski (Wisconsin), Hay & Forage Grower: alfalfa gains nothing from the nitrogen of ammonium sulfate", Published},
		{ElementalSulfur, "Elemental sulfur takes months of warm moist soil: the year before it is needed, or at seeding", FromMemory},
		{DealerSteps, "What a dealer delivers: 100 lb of bulk blend", Choice},
	}
}
