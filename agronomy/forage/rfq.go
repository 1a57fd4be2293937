package forage

// Sample is what a laboratory finds in a forage, % of dry matter; NDFD48 is % of NDF. What is not
// known is left to the functions below, which say what they take in its place.
type Sample struct {
	CP, NDF, ADF float64
	EE, Ash      float64 // ether extract (crude fat), and minerals
	NDICP, ADICP float64 // protein bound in NDF and in ADF
	Lignin       float64
	NDFD48       float64 // NDF digested in 48 h, % of NDF
}

// BoundShare is the protein bound in NDF, as a share of NDF, where none was reported.
// Source: [source.RFQNutrients].
const BoundShare = 0.07

// FreeNDF is NDF free of protein, % of DM.
func (s Sample) FreeNDF() float64 { return s.NDF - s.NDICP }

// NFC is fibre-free carbohydrate, % of DM, with the bound protein counted once:
//
//	NFC = 100 - (NDF - NDICP + CP + EE + Ash)
//
// Source: [source.RFQNutrients].
func (s Sample) NFC() float64 { return 100 - (s.FreeNDF() + s.CP + s.EE + s.Ash) }

// WholeNFC is the other form in print, which takes the whole NDF away and so counts the bound protein
// twice. Source: [source.WholeNFC].
func (s Sample) WholeNFC() float64 { return 100 - (s.NDF + s.CP + s.EE + s.Ash) }

// Nutrients are the coefficients of total digestible nutrients, % of DM:
//
//	FA  = EE - FatFree, never under 0
//	TDN = NFC*nfc + Protein*CP + Fat*FA + digestible NDF - Metabolic
//
// of legumes with NDF digested as the laboratory found it, of grasses with Lag + Slope*NDFD48.
// Source: [source.RFQNutrients].
type Nutrients struct {
	NFC, FatFree, FatDigested, FatEnergy float64

	LegumeCP, LegumeMetabolic float64
	GrassCP, GrassMetabolic   float64
	GrassNDFD, GrassNDFDSlope float64
}

// LegumeIntake is the intake of a legume, % of body weight a day: DMI0/NDF, and PerNDFD lb for each
// point that NDF is more digestible than MeanNDFD, for a cow of so many lb. Source: [source.RFQLegumeIntake].
type LegumeIntake struct{ DMI0, MeanNDFD, PerNDFD, CowLb float64 }

// GrassIntake is the intake of a grass, % of body weight a day, a surface of CP, TDN and ADF.
// Source: [source.RFQGrassIntake].
type GrassIntake struct{ Base, CP, CP2, TDN, TDN2, ADF, ADF2, CPADF float64 }

// ForageQuality holds the coefficients of relative forage quality, RFQ = DMI * TDN / Divisor.
type ForageQuality struct {
	Nutrients Nutrients
	Legume    LegumeIntake
	Grass     GrassIntake
	Divisor   float64
}

// PublishedForageQuality returns the published coefficients.
func PublishedForageQuality() ForageQuality {
	return ForageQuality{
		Nutrients: Nutrients{
			NFC: 0.98, FatFree: 1, FatDigested: 0.97, FatEnergy: 2.25,
			LegumeCP: 0.93, LegumeMetabolic: 7, GrassCP: 0.87, GrassMetabolic: 10,
			GrassNDFD: 22.7, GrassNDFDSlope: 0.664,
		},
		Legume: LegumeIntake{DMI0: 120, MeanNDFD: 45, PerNDFD: 0.374, CowLb: 1350},
		Grass: GrassIntake{
			Base: -2.318, CP: 0.442, CP2: 0.0100, TDN: 0.0638, TDN2: 0.000922,
			ADF: 0.180, ADF2: 0.00196, CPADF: 0.00529,
		},
		Divisor: 1.23,
	}
}

// Graded is a forage by relative forage quality and what it is made of.
type Graded struct{ NFC, TDN, DMI, RFQ float64 }

// legumeTDN is TDN of a legume with a given NFC and digested NDF.
func (k Nutrients) legumeTDN(s Sample, nfc, ndf float64) float64 {
	return k.NFC*nfc + k.LegumeCP*s.CP + k.fat(s) + ndf - k.LegumeMetabolic
}

func (k Nutrients) grassTDN(s Sample, nfc, ndf float64) float64 {
	return k.NFC*nfc + k.GrassCP*s.CP + k.fat(s) + ndf - k.GrassMetabolic
}

func (k Nutrients) fat(s Sample) float64 {
	return k.FatDigested * k.FatEnergy * max(s.EE-k.FatFree, 0)
}

// GrassDigested is the digestibility of grass NDF in a cow, % of NDF, from what the laboratory found.
func (k Nutrients) GrassDigested(ndfd48 float64) float64 {
	return k.GrassNDFD + k.GrassNDFDSlope*ndfd48
}

// PerPoint is % of body weight a day for each point of NDFD.
func (k LegumeIntake) PerPoint() float64 { return k.PerNDFD / k.CowLb * 100 }

// At is intake, % of body weight a day.
func (k LegumeIntake) At(ndf, ndfd48 float64) float64 {
	return k.DMI0/ndf + (ndfd48-k.MeanNDFD)*k.PerPoint()
}

// At is intake, % of body weight a day.
func (k GrassIntake) At(cp, adf, tdn float64) float64 {
	return k.Base + k.CP*cp - k.CP2*cp*cp - k.TDN*tdn + k.TDN2*tdn*tdn + k.ADF*adf - k.ADF2*adf*adf - k.CPADF*cp*adf
}

func (k ForageQuality) of(nfc, tdn, dmi float64) Graded {
	return Graded{NFC: nfc, TDN: tdn, DMI: dmi, RFQ: dmi * tdn / k.Divisor}
}

// OfLegume is relative forage quality of a legume or a stand that is mostly legume. It wants CP, NDF,
// EE, ash and NDFD48.
func (k ForageQuality) OfLegume(s Sample) Graded {
	tdn := k.Nutrients.legumeTDN(s, s.NFC(), s.FreeNDF()*s.NDFD48/100)
	return k.of(s.NFC(), tdn, k.Legume.At(s.NDF, s.NDFD48))
}

// OfLegumeWhole is the same with the whole NDF in both places, [Sample.WholeNFC]: to compare with a
// report that was made so.
func (k ForageQuality) OfLegumeWhole(s Sample) Graded {
	tdn := k.Nutrients.legumeTDN(s, s.WholeNFC(), s.NDF*s.NDFD48/100)
	return k.of(s.WholeNFC(), tdn, k.Legume.At(s.NDF, s.NDFD48))
}

// OfGrass is relative forage quality of a grass or a stand that is mostly grass. It wants ADF as well.
func (k ForageQuality) OfGrass(s Sample) Graded {
	tdn := k.Nutrients.grassTDN(s, s.NFC(), s.FreeNDF()*k.Nutrients.GrassDigested(s.NDFD48)/100)
	return k.of(s.NFC(), tdn, k.Grass.At(s.CP, s.ADF, tdn))
}

// OfGrassWhole is [ForageQuality.OfGrass] with the whole NDF in both places.
func (k ForageQuality) OfGrassWhole(s Sample) Graded {
	tdn := k.Nutrients.grassTDN(s, s.WholeNFC(), s.NDF*k.Nutrients.GrassDigested(s.NDFD48)/100)
	return k.of(s.WholeNFC(), tdn, k.Grass.At(s.CP, s.ADF, tdn))
}

// OfMix lies between legume and grass by the share of grass, both reckoned on the same analysis
// ([source.RFQMix], a choice; the published rule takes the equation of what is most of the stand).
func (k ForageQuality) OfMix(s Sample, grassShare float64) Graded {
	return between(k.OfLegume(s), k.OfGrass(s), grassShare)
}

// between lies g of the way from one to the other.
func between(a, b Graded, g float64) Graded {
	at := func(x, y float64) float64 { return (1-g)*x + g*y }
	return Graded{NFC: at(a.NFC, b.NFC), TDN: at(a.TDN, b.TDN), DMI: at(a.DMI, b.DMI), RFQ: at(a.RFQ, b.RFQ)}
}
