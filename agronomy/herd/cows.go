// Package herd says what dairy animals eat and how much forage of which quality a herd needs in a
// year. Intake and energy come by two editions of the American feeding standard, of 2001 and of 2021:
// they differ, most in early lactation, and requirements of one never go with feed values of the
// other, so an answer always names its edition.
package herd

import "math"

// Edition is the edition of the feeding standard.
type Edition string

// The editions.
const (
	Edition2001 Edition = "2001"
	Edition2021 Edition = "2021"
)

// Other is the other edition, for the range between the two.
func (e Edition) Other() Edition {
	if e == Edition2001 {
		return Edition2021
	}
	return Edition2001
}

const daysAWeek = 7

// FCM holds the coefficients of 4 % fat-corrected milk. Source: [source.FatCorrectedMilk].
type FCM struct{ Milk, Fat float64 }

// PublishedFCM returns Gaines's coefficients.
func PublishedFCM() FCM { return FCM{0.4, 15} }

// Of is milk, kg/day, of so much fat, %, as milk of 4 % fat: 0.4 M + 15 (M F/100).
func (k FCM) Of(milk, fat float64) float64 { return k.Milk*milk + k.Fat*milk*fat/100 }

// Cow2001 holds the intake equation of 2001:
//
//	DMI = (0.372 FCM + 0.0968 W^0.75) (1 - exp(-0.192 (WOL + 3.67)))
//
// kg/day, W weight in kg, WOL week of lactation. Against weekly intakes of weeks 1 to 10 it was off by
// 14 %. Printed examples lie 0.2-0.3 kg lower. Source: [source.NRC2001Intake].
type Cow2001 struct{ FCM, Weight, Power, Rate, Lead float64 }

// PublishedCow2001 returns the coefficients.
func PublishedCow2001() Cow2001 { return Cow2001{0.372, 0.0968, 0.75, 0.192, 3.67} }

// Intake is dry matter, kg/day.
func (k Cow2001) Intake(weight, fcm, week float64) float64 {
	return (k.FCM*fcm + k.Weight*math.Pow(weight, k.Power)) * (1 - math.Exp(-k.Rate*(week+k.Lead)))
}

// Cow2021 holds the intake equation of 2021 from the animal alone:
//
//	DMI = [3.7 + 5.7 P + 0.305 E + 0.022 W + (-0.689 - 1.87 P) C] [1 - (0.212 + 0.136 P) exp(-0.053 D)]
//
// P is 0 in first lactation and 1 later, E the energy of the milk in Mcal/day, C the condition score
// (1-5), D days in milk. Source: [source.NASEM2021Cow].
type Cow2021 struct {
	Base, Older, Energy, Weight, Condition, OlderCondition float64
	Lag, OlderLag, Rate                                    float64
}

// PublishedCow2021 returns the coefficients.
func PublishedCow2021() Cow2021 {
	return Cow2021{3.7, 5.7, 0.305, 0.022, -0.689, -1.87, 0.212, 0.136, 0.053}
}

// Intake is dry matter, kg/day. older may be a share, for a group of both.
func (k Cow2021) Intake(weight, milkEnergy, older, condition, days float64) float64 {
	full := k.Base + k.Older*older + k.Energy*milkEnergy + k.Weight*weight + (k.Condition+k.OlderCondition*older)*condition
	return full * (1 - (k.Lag+k.OlderLag*older)*math.Exp(-k.Rate*days))
}

// ByFibre holds the intake equation from the fibre of the diet and milk, past peak:
//
//	DMI = 12.0 - 0.107 fN + 8.17 A + 0.0253 fD - 0.328 (A - 0.602)(fD - 48.3) + 0.225 M + 0.0039 (fD - 48.3)(M - 33.1)
//
// fN is forage NDF in % of the diet, A the diet's ADF over NDF, fD digestibility of the forage's NDF
// in %, M milk in kg/day. RMSE is the error of a prediction, kg. Source: [source.IntakeByFibre].
type ByFibre struct {
	Base, ForageNDF, Ratio, Digest, RatioDigest, Milk, DigestMilk float64
	MeanRatio, MeanDigest, MeanMilk, RMSE                         float64
}

// PublishedByFibre returns the coefficients.
func PublishedByFibre() ByFibre {
	return ByFibre{12.0, -0.107, 8.17, 0.0253, -0.328, 0.225, 0.0039, 0.602, 48.3, 33.1, 1.55}
}

// Intake is dry matter, kg/day.
func (k ByFibre) Intake(forageNDF, ratio, digest, milk float64) float64 {
	d := digest - k.MeanDigest
	return k.Base + k.ForageNDF*forageNDF + k.Ratio*ratio + k.Digest*digest +
		k.RatioDigest*(ratio-k.MeanRatio)*d + k.Milk*milk + k.DigestMilk*d*(milk-k.MeanMilk)
}

// CrossCheck holds an intake equation of other origin, to lay beside that of 2001:
//
//	DMI = 4.103 + 0.112 W^0.75 + 0.284 FCM - 0.119 NDF
//
// It knows no stage of lactation. RMSE is on data it was not fitted to. Source: [source.KoreanIntake].
type CrossCheck struct{ Base, Weight, Power, FCM, NDF, RMSE float64 }

// PublishedCrossCheck returns the coefficients.
func PublishedCrossCheck() CrossCheck { return CrossCheck{4.103, 0.112, 0.75, 0.284, -0.119, 2.70} }

// Intake is dry matter, kg/day; ndf is of the diet, % of dry matter.
func (k CrossCheck) Intake(weight, fcm, ndf float64) float64 {
	return k.Base + k.Weight*math.Pow(weight, k.Power) + k.FCM*fcm + k.NDF*ndf
}

// Response is what a point more of forage fibre digestibility (NDFD, % of NDF) brings a cow a day.
// About 0.40 and 0.50 lb are also printed. Source: [source.DigestibleFibre].
type Response struct{ IntakeLb, MilkLb float64 }

// PublishedResponse returns the means of the trials.
func PublishedResponse() Response { return Response{0.37, 0.51} }
