package source

// Losses from the standing crop to the bunk, storage, heating hay, silo gas and sampling of lots.
const (
	MassBalance     ID = "mass-balance"
	LeafStem        ID = "leaf-and-stem"
	LeafADF         ID = "leaf-adf"
	LeafHalf        ID = "leaf-share"
	RespirationRate ID = "respiration-rate"
	RespirationEnds ID = "respiration-ends"
	RespirationPart ID = "respiration-part"
	CuringLoss      ID = "curing-loss"
	RainModel       ID = "rain-model"
	RainMichigan    ID = "rain-michigan"
	RainWisconsin   ID = "rain-wisconsin"
	RainUtah        ID = "rain-utah"
	MowingLoss      ID = "mowing-loss"
	MergingLoss     ID = "merging-loss"
	TeddingLoss     ID = "tedding-loss"
	RakingLoss      ID = "raking-loss"
	RakingYield     ID = "raking-yield"
	MoistureTables  ID = "moisture-tables"
	BalerEnds       ID = "baler-ends"
	ChoppingLoss    ID = "chopping-loss"
	FieldChecks     ID = "field-checks"
)

func losses() []Source {
	return []Source{
		{MassBalance, "Composition after a loss as (before - share x composition of the loss)/(1 - share), component by component; our arithmetic", Derived},
		{LeafStem, "Alfalfa leaf NDF 22, protein 28; stem NDF 55, protein 11 % of dry matter; what rain leaches 12 % protein and no fibre", FromMemory},
		{LeafADF, "Animals 2021, 11, 413, table 3: ensiled alfalfa leaf 15.8 % ADF. The stem's 42 is what a crop of NDF 40 and ADF 30 leaves for it, our arithmetic", Published},
		{LeafHalf, "Undersander, Univ. of Wisconsin, quoting a trial of 2016: leaf and stem are half and half of the standing crop's dry matter", Secondhand},
		{RespirationRate, "Breathing of cut alfalfa scaled to 4 % a day at 20 C and 80 % moisture (Tullberg 1975, by MacDonald & Clark), doubling every 10 C and ending at 35 %; our scaling", Derived},
		{RespirationEnds, "MacDonald & Clark, review of field curing, quoting Klinner & Shepperson 1975: 2-8 % lost to respiration in good drying", Secondhand},
		{RespirationPart, "Part of the breathing that is over at a moisture, water leaving exponentially; our arithmetic", Derived},
		{CuringLoss, "Rotz & Abrams 1988, Trans. ASAE 31:350: field curing 3.2 % without rain and 11.2 % with it", Published},
		{RainModel, "Loss to rain as 0.1, 0.48 or 0.62 % for each mm at 65 % moisture, times 0.5 at 75 % and 1.15 at 40 %, at most 45 %; red clover 0.7 and grass 0.5 of alfalfa; 40 % of alfalfa's loss is leaf. Our lines through Rotz, Davis & Abrams 1991, Collins 1982 and 1985, Utah and Michigan trials", Derived},
		{RainMichigan, "Rotz, Davis & Abrams 1991, Trans. ASAE 34(4):1583: 0.1 % of dry matter for each mm at 18 mm an hour", Published},
		{RainWisconsin, "Collins, Univ. of Wisconsin: alfalfa lost 22 % with 1 in of rain after a day of curing and 6.3 % without", Published},
		{RainUtah, "Utah State Univ. trial: 0.8 in of rain took 9.7 % of dry matter", Published},
		{MowingLoss, "Orloff & Mueller 2008, as given by New Mexico State Univ. Circular 668: mowing and conditioning takes 2 % of yield and 3 % of leaves; 1-7 % in Alberta", Secondhand},
		{MergingLoss, "Penn State Extension after Rotz: inverting or merging swaths takes 1 % (1-3) and leaves quality as it is", Published},
		{TeddingLoss, "Undersander, Univ. of Wisconsin; Alberta Agriculture: tedding alfalfa over 50 % moisture takes under 5 % of dry matter, up to 15 drier; grass 2-3 %. The line from 4 % at 50 to 15 at 20 % moisture is a choice", Published},
		{RakingLoss, "Penn State Extension after Rotz: raking takes 5 % (1-20), NDF +1.0 and protein -0.5", Published},
		{RakingYield, "Raking loss times 4 t/ha over the yield, held to 0.6-1.8, after Rotz & Abrams 1988, who found it to fall as yield rises; our form", Derived},
		{MoistureTables, "Pitt 1990, NRAES-5: loss of dry matter and of leaves in raking and baling by moisture", FromMemory},
		{BalerEnds, "Rotz & Muck 1994: balers of small squares take 2-6 %, of rounds 3-9 %; large squares as small ones, a choice", FromMemory},
		{ChoppingLoss, "Chopping takes 3 % (1-8)", FromMemory},
		{FieldChecks, "Losses of a field worked out apart from the program, double precision", Derived},
	}
}
