package herd

import "fmt"

// DietLimits hold a milking diet between too little fibre for the rumen and too much forage for milk,
// % of the diet's dry matter. Sources: [source.ForageFloor], [source.ForageShares].
type DietLimits struct {
	ForageNDFLow, ForageNDFSafe float64 // fibre from forage: too little under the first, enough from the second on
	NDF                         float64 // of the whole diet, at least
	ForageLow, ForageHigh       float64 // forage
}

// PublishedDietLimits returns the published limits.
func PublishedDietLimits() DietLimits { return DietLimits{15, 19, 28, 50, 80} }

// ForageNDF is fibre from forage in the diet, %, of a share of forage, 0-1, with so much NDF, %.
func ForageNDF(share, ndf float64) float64 { return share * ndf }

// Flags says what a milking diet of a share of forage, its fibre from forage and its whole fibre breaks;
// nothing where it breaks nothing. dietNDF below 0 is not known.
func (k DietLimits) Flags(share, forageNDF, dietNDF float64) []string {
	flags := []string{}
	switch {
	case forageNDF < k.ForageNDFLow:
		flags = append(flags, fmt.Sprintf("fibre from forage %.1f %% is under %g %%: too little for the rumen", forageNDF, k.ForageNDFLow))
	case forageNDF < k.ForageNDFSafe:
		flags = append(flags, fmt.Sprintf("fibre from forage %.1f %% lies between %g and %g %%: safe only with little starch and long forage", forageNDF, k.ForageNDFLow, k.ForageNDFSafe))
	}
	if dietNDF >= 0 && dietNDF < k.NDF {
		flags = append(flags, fmt.Sprintf("diet NDF %.1f %% is under %g %%", dietNDF, k.NDF))
	}
	switch percent := share * 100; {
	case percent < k.ForageLow:
		flags = append(flags, fmt.Sprintf("forage %.1f %% of the diet is under %g %%: milk made on bought feed", percent, k.ForageLow))
	case percent > k.ForageHigh:
		flags = append(flags, fmt.Sprintf("forage %.1f %% of the diet is over %g %%: milk is hard to hold", percent, k.ForageHigh))
	}
	return flags
}
