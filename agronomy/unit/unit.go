// Package unit gives each quantity that crosses a public door a type of its own, so that inches
// never meet centimetres and a percentage of dry matter never meets one of feed as fed. Hot loops
// inside a discipline use plain float64 with the unit in the name.
//
// The package also holds the table of written units that a user may attach to a number
// (`height=71cm`), with exact factors: international acre 4046.8564224 m2, short ton 2000 lb,
// 1 lb = 0.45359237 kg, 1 in = 2.54 cm (GNU units 2.22).
package unit

// Quantities with one unit each. The name is the unit.
type (
	Inch       float64 // length, in
	Centimetre float64 // length, cm
	Millimetre float64 // depth of water, mm
	Metre      float64 // height and depth, m
	Mile       float64 // distance, mi
	Fahrenheit float64 // temperature, F
	Celsius    float64 // temperature, C
	FDay       float64 // heat sum, Fahrenheit degree-days
	CDay       float64 // heat sum, Celsius degree-days
	PercentDM  float64 // share of dry matter, %
	Percent    float64 // a plain percentage, %
	PoundAcre  float64 // mass by area, lb an acre
	SeedsPound float64 // seeds in a pound
	RFV        float64 // relative feed value, an index
	Acre       float64 // area, international acre
	TonAcre    float64 // dry matter, short tons an acre
	PerFt2     float64 // plants or stems a square foot
	DollarTon  float64 // $ a short ton
	DollarAcre float64 // $ an acre
	Share      float64 // a part of a whole, 0 to 1
	Days       float64 // a span of time, days
	Hour       float64 // a span of time, h
	Degree     float64 // angle, degrees of arc
	MetreSec   float64 // speed of wind, m/s
	Kilopascal float64 // pressure, kPa
	MJm2Day    float64 // energy of a day, MJ/m2
	WattM2     float64 // power, W/m2
	GramM2     float64 // dry matter lying on the ground, g/m2
	PerHour    float64 // a rate, 1/h
	PercentWet float64 // water in forage, % of its fresh weight
	WaterDM    float64 // water in forage, kg a kg of dry matter
	MeqSoil    float64 // acidity and exchange capacity of soil, meq/100 g
	PPMBray    float64 // phosphorus by Bray P1, ppm
	PPMOlsen   float64 // phosphorus by Olsen, ppm
	PPMAcetate float64 // potassium by ammonium acetate, ppm
	PPMM3P     float64 // phosphorus by Mehlich 3, ppm
	PPMM3K     float64 // potassium by Mehlich 3, ppm
)

// Centimetres converts a length.
func (v Inch) Centimetres() Centimetre { return Centimetre(v * 2.54) }

// Inches converts a length.
func (v Centimetre) Inches() Inch { return Inch(v / 2.54) }

// Celsius converts a temperature.
func (v Fahrenheit) Celsius() Celsius { return Celsius((v - 32) / 1.8) }

// Fahrenheit converts a temperature.
func (v Celsius) Fahrenheit() Fahrenheit { return Fahrenheit(v*1.8 + 32) }

// CDays converts a heat sum: a factor without an offset, since 32 is never subtracted from a sum.
func (v FDay) CDays() CDay { return CDay(v / 1.8) }

// FDays converts a heat sum.
func (v CDay) FDays() FDay { return FDay(v * 1.8) }

// OfDM converts moisture by fresh weight into water over dry matter.
func (v PercentWet) OfDM() WaterDM { return WaterDM(v / (100 - v)) }

// OfWet converts water over dry matter into moisture by fresh weight.
func (v WaterDM) OfWet() PercentWet { return PercentWet(100 * v / (1 + v)) }
