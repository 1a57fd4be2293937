package source

// Curing of a mown swath, and the chance of making hay.
const (
	DryingRate      ID = "drying-rate"
	DryingDensity   ID = "drying-density"
	DryingTime      ID = "drying-time"
	Unconditioned   ID = "drying-unconditioned"
	ConditionGain   ID = "conditioning-gain"
	SwathTurned     ID = "swath-turned"
	HayIsotherm     ID = "hay-isotherm"
	HayIsothermPast ID = "hay-isotherm-1947"
	NightRegain     ID = "night-regain"
	DewLimit        ID = "dew-limit"
	Dewfall         ID = "dewfall"
	RainRewetting   ID = "rain-rewetting"
	RainDrying      ID = "rain-drying"
	RainHours       ID = "rain-hours"
	CuringSoil      ID = "curing-soil"
	CuringTargets   ID = "curing-targets"
	CuringCrop      ID = "curing-crop"
	HarmfulRain     ID = "harmful-rain"
	HayDays         ID = "hay-days"
)

func curing() []Source {
	return []Source{
		{DryingRate, "Rotz & Chen 1985, Trans. ASAE 28(5):1686, alfalfa drying model for the field, equations 4 and 5: abstract read, coefficients as two independent restatements give them", Secondhand},
		{DryingDensity, "Pitt 1985, J. Agric. Sci.: drying rate as swath density to the power -0.65; laid around the drying model at 571 g/m2, which brings it near 14 Wisconsin trials of swath width (Undersander, Frye & Bertram 2005-07)", Derived},
		{DryingTime, "Exponential drying at a steady rate, general", Derived},
		{Unconditioned, "Rotz et al. 1987: drying rate of a crop mown without a conditioner, 0.56 of the conditioned in the first cut and 0.73 in the second", Secondhand},
		{ConditionGain, "North Dakota State Univ. via Hay & Forage Grower: conditioning dries 15-25 % faster; divided by 1.2", Derived},
		{SwathTurned, "Tedding spreads the swath over the ground and dries 1.2-1.4 times faster that day, raking 1.1-1.2 times in the first hours and by the windrow's density after; middles taken", FromMemory},
		{HayIsotherm, "Henderson equation through the two points of Nash 1978: 13 % moisture at 60 % relative humidity, 22 % at 80 %; to within 2 points (Shepherd 1958, Aust. J. Agric. Res. 9:436: species and history differ)", Derived},
		{HayIsothermPast, "Dexter et al. 1947: hay at 70, 80, 90, 95 % relative humidity comes to 16, 21.5, 30, 35 % moisture", FromMemory},
		{NightRegain, "Hay drier than the air takes up a tenth of what it lacks an hour after sunset, relative humidity held to 95 %; first-order regain after Rotz 1985", Choice},
		{DewLimit, "Rotz et al. 2014: what a swath can hold at night with its dew, by humidity and wind; the unit of wind was not seen, m/s assumed", Secondhand},
		{Dewfall, "Dew on a crop of maize in September and October came to 0.01 to 0.41 mm a night (Atzema, Jacobs & Wartena 1990, Neth. J. Agric. Sci. 38). Taken: 0.05 mm an hour in saturated air, less down to 80 % relative humidity", Choice},
		{RainRewetting, "Rain brings a swath towards 4 kg of water a kg of dry matter, 80 g/m2 a mm; exponential after Rotz 1985, the coefficient ours", Choice},
		{RainDrying, "Water on the surface dries 1.3 times faster than water in the tissue, until half of what the rain brought is gone", Choice},
		{RainHours, "A day's rain falls in one spell at 2.5 mm/h around 15:00 by the sun; no shape of a rain day was published with the drying model", Choice},
		{CuringSoil, "Moisture of the top 0.3 m of a silt loam, 0.29 and 0.15 m3/m3 at field capacity and wilting point and 1.35 t/m3, carried by rain and the use of an alfalfa crop", Choice},
		{CuringTargets, "Moisture at harvest: haylage 60-65 in bunkers and bags and 50-55 in oxygen-limiting towers (Univ. of Wisconsin; Muck, Brink & Broderick 2015), baleage 45-55, small square bales 18-20, round 15-18, large square 12-16 (Alberta after Collins 2004, Montana, North Dakota)", Published},
		{CuringCrop, "A standing crop of 80 % moisture, mown at 10:00 by the sun, 4 t/ha in a swath over 70 % of the ground", Choice},
		{HarmfulRain, "Univ. of Kentucky: 0.05 in of rain on partly cured hay leaches it", Published},
		{HayDays, "Dry days wanted: haylage 1, baleage 1-2, hay 3-5; go from a chance of 0.70, with caution from 0.45. Taken: 1, 2, 4", Choice},
	}
}
