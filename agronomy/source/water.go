package source

// Sun, reference evapotranspiration, soil water and dry spells.
const (
	ReferenceET      ID = "fao56"
	ReferenceETPrint ID = "fao56-recalled"
	HargreavesET     ID = "hargreaves-samani"
	ReferenceETCheck ID = "reference-et-check"
	ReferenceETForm  ID = "reference-et-forms"
	ClipLow          ID = "clear-sky-clip"
	SunClock         ID = "sun-clock"
	SunClockCheck    ID = "sun-clock-check"
	DayShape         ID = "day-shape"
	SoilWater        ID = "soil-water"
	SoilTexture      ID = "soil-texture"
	CropWater        ID = "crop-water"
	WaterRecalled    ID = "crop-water-recalled"
	GrowthByHeat     ID = "crop-water-heat"
	BucketCheck      ID = "soil-water-check"
	DrySpellChain    ID = "dry-spell-chain"
	DrySpellCount    ID = "dry-spell-count"
	RainTogether     ID = "rain-together"
)

func water() []Source {
	return []Source{
		{ReferenceET, "Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56, equations 6-52 and examples 2-20; read in restatements and test suites that quote them", Secondhand},
		{ReferenceETPrint, "Allen et al. 1998, FAO Paper 56: printed results of examples 2, 3, 5, 10, 11, 12; our recomputation agrees", FromMemory},
		{HargreavesET, "Hargreaves & Samani 1985, Appl. Eng. Agric. 1:96, as equation 52 of FAO Paper 56", Secondhand},
		{ReferenceETCheck, "daily grass reference evapotranspiration of pyet 1.4.0 and RefET 0.5.0, run side by side on a typical year of Greensboro NC (NREL TMY3 723170)", Library},
		{ReferenceETForm, "documentation of the NCAR Command Language's FAO-56 functions, which print the paper's examples with more digits", Library},
		{ClipLow, "Low limit of Rs/Rso in net longwave radiation: FAO Paper 56 prints an upper limit only, the standardised ASCE form 0.3 to 1.0; pyet 1.4.0 and RefET 0.5.0 use the latter", Library},
		{SunClock, "Meeus, Astronomical Algorithms, low-precision solar coordinates, in the form of NOAA's solar calculator", FromMemory},
		{SunClockCheck, "sunrise, sunset and altitude at Madison WI by astronomy-engine 2.1.19, with ephem 4.1.4, suncalc 2.0.2 and NREL SPA agreeing", Library},
		{DayShape, "Parton & Logan 1981, Agric. Meteorol. 23:205 (sine by day, exponential by night; constants for air at 1.5 m, Denver); Wann, Yen & Gold 1985, Agric. For. Meteorol. 34:121, for constants of North Carolina", Secondhand},
		{SoilWater, "Allen et al. 1998, FAO Paper 56, equations 82-88 and the note to table 22", FromMemory},
		{SoilTexture, "Allen et al. 1998, FAO Paper 56, table 19 and example 36; water at field capacity and wilting point agree with the table's evaporable water, which was read", FromMemory},
		{CropWater, "Allen et al. 1998, FAO Paper 56, tables 11, 12 and 22: hay crops by cutting and averaged; read in restatements that agree", Secondhand},
		{WaterRecalled, "Allen et al. 1998, FAO Paper 56: stages of later cuttings, roots and depletion of ryegrass hay, equation 62 with example 28", FromMemory},
		{GrowthByHeat, "Stages of a cutting counted in heat: the days of FAO Paper 56 at 8 C-days above 5 C a day in spring and 14 in summer", Choice},
		{BucketCheck, "a daily bucket of 1000 fields and 30 years computed in C, NumPy, numba, R and Octave", Library},
		{DrySpellChain, "Two-state first-order Markov chain of wet and dry days, general probability; it gives too few long dry spells (Farmer & Homeyer, read in summary)", Derived},
		{DrySpellCount, "Dry spells counted on the station's own years; with 20 years or more the count is used and the chain stands beside it", Choice},
		{RainTogether, "Chance that several days all stay dry, from each day's chance of rain: the product if days were independent, and the bounds whatever they are", Derived},
	}
}
