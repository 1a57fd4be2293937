package forage

import (
	"fmt"
	"slices"
)

// OfWhat says what a laboratory's number is a share of.
type OfWhat string

// The wholes.
const (
	OfDM      OfWhat = "% of dry matter"
	OfFeed    OfWhat = "% as fed"
	OfCP      OfWhat = "% of protein"
	OfNDF     OfWhat = "% of NDF"
	EnergyDM  OfWhat = "Mcal/kg of dry matter"
	NoneOfAll OfWhat = "a number"
)

// OnBasis reports whether the number changes when feed as fed is turned into dry matter.
func (w OfWhat) OnBasis() bool { return w == OfDM || w == EnergyDM }

// LabField is one thing that a laboratory reports of a forage.
type LabField struct {
	Code       string // in small letters: `ndfd48`
	About      string
	Of         OfWhat
	Low, High  float64  // outside: no forage has it (a choice, [source.LabLimits])
	UsualLow   float64  // of legumes; 0 and 0 where nothing is usual
	UsualHigh  float64  // [source.LabUsual]
	Also       []string // what laboratories call it
	Recomputed bool     // derived from the rest and reckoned anew here
}

// Accepted says in what range and of what whole the number is taken.
func (f LabField) Accepted() string {
	said := fmt.Sprintf("%g to %g", f.Low, f.High)
	if f.Of == NoneOfAll {
		return said
	}
	return said + " " + string(f.Of)
}

// LabFields lists what is known of a report, the most looked at first.
func LabFields() []LabField { return slices.Clone(labFields) }

var labFields = []LabField{
	{Code: "dm", About: "dry matter", Of: OfFeed, Low: 10, High: 98, UsualLow: 18, UsualHigh: 90, Also: []string{"dry matter", "total dry matter"}},
	{Code: "moisture", About: "moisture, 100 less dry matter", Of: OfFeed, Low: 2, High: 90, Also: []string{"water", "moisture content"}},
	{Code: "cp", About: "crude protein", Of: OfDM, Low: 4, High: 35, UsualLow: 16, UsualHigh: 24, Also: []string{"crude protein", "protein", "protein crude", "crude prot"}},
	{Code: "acp", About: "available or adjusted crude protein", Of: OfDM, Low: 2, High: 35, Also: []string{"adjusted crude protein", "available crude protein", "adjusted protein", "available protein", "adj cp", "adj protein", "avail cp", "adjusted cp", "available cp"}},
	{Code: "sp", About: "soluble protein", Of: OfCP, Low: 5, High: 90, UsualLow: 30, UsualHigh: 70, Also: []string{"soluble protein", "soluble cp", "sol protein", "soluble crude protein"}},
	{Code: "adicp", About: "protein bound in ADF", Of: OfDM, Low: 0, High: 12, UsualLow: 0.8, UsualHigh: 2, Also: []string{"adf protein", "adf cp", "ad icp", "adip", "acid detergent insoluble crude protein", "acid detergent insoluble protein", "adf bound protein"}},
	{Code: "ndicp", About: "protein bound in NDF", Of: OfDM, Low: 0, High: 15, UsualLow: 2, UsualHigh: 4, Also: []string{"ndf protein", "ndf cp", "nd icp", "ndip", "neutral detergent insoluble crude protein", "neutral detergent insoluble protein", "ndf bound protein"}},
	{Code: "adf", About: "acid detergent fibre", Of: OfDM, Low: 10, High: 60, UsualLow: 26, UsualHigh: 38, Also: []string{"acid detergent fiber", "acid detergent fibre", "acid det fiber"}},                                                                         //nolint:misspell // as laboratories spell it
	{Code: "ndf", About: "neutral detergent fibre, with amylase, ash included", Of: OfDM, Low: 18, High: 80, UsualLow: 34, UsualHigh: 50, Also: []string{"andf", "neutral detergent fiber", "neutral detergent fibre", "neutral det fiber", "amylase ndf", "a ndf"}}, //nolint:misspell // as laboratories spell it
	{Code: "andfom", About: "neutral detergent fibre free of ash", Of: OfDM, Low: 18, High: 80, Also: []string{"ndfom", "a ndf om", "ndf om", "ash free ndf", "neutral detergent fiber om"}},                                                                         //nolint:misspell // as laboratories spell it
	{Code: "lignin", About: "acid detergent lignin", Of: OfDM, Low: 1, High: 16, UsualLow: 3, UsualHigh: 9, Also: []string{"adl", "acid detergent lignin", "lignin dm"}},
	{Code: "ndfd30", About: "NDF digested in 30 h", Of: OfNDF, Low: 10, High: 85, UsualLow: 38, UsualHigh: 50, Also: []string{"ndf digestibility 30", "ndf digestibility 30 hr", "ndfd 30 hr", "ndfd 30h", "30 hr ndfd", "30hr ndfd", "ivndfd30", "ndf dig 30 hr"}},
	{Code: "ndfd48", About: "NDF digested in 48 h", Of: OfNDF, Low: 15, High: 90, UsualLow: 42, UsualHigh: 55, Also: []string{"ndf digestibility 48", "ndf digestibility 48 hr", "ndfd 48 hr", "ndfd 48h", "48 hr ndfd", "48hr ndfd", "ivndfd48", "ndf dig 48 hr"}},
	{Code: "ndfd240", About: "NDF digested in 240 h", Of: OfNDF, Low: 20, High: 98, UsualLow: 50, UsualHigh: 65, Also: []string{"ndf digestibility 240", "ndf digestibility 240 hr", "ndfd 240 hr", "ndfd 240h", "240 hr ndfd"}},
	{Code: "undf240", About: "NDF left after 240 h", Of: OfDM, Low: 2, High: 45, UsualLow: 13, UsualHigh: 22, Also: []string{"undf 240", "undf240 dm", "undf 240 hr", "undigested ndf 240", "undfom240", "undf"}},
	{Code: "ivtd", About: "true digestibility in the laboratory", Of: OfDM, Low: 30, High: 98, UsualLow: 70, UsualHigh: 85, Also: []string{"in vitro true digestibility", "ivtd 48", "ivtd 48 hr", "ivtdmd"}},
	{Code: "ash", About: "ash", Of: OfDM, Low: 3, High: 30, UsualLow: 8, UsualHigh: 11, Also: []string{"total ash", "minerals"}},
	{Code: "ee", About: "ether extract, crude fat", Of: OfDM, Low: 0.3, High: 8, UsualLow: 1.5, UsualHigh: 3, Also: []string{"fat", "crude fat", "ether extract", "fat ee"}},
	{Code: "fa", About: "total fatty acids", Of: OfDM, Low: 0.3, High: 8, UsualLow: 1, UsualHigh: 1.8, Also: []string{"tfa", "total fatty acids", "fatty acids", "total fa"}},
	{Code: "starch", About: "starch", Of: OfDM, Low: 0, High: 20, UsualLow: 0.5, UsualHigh: 3},
	{Code: "wsc", About: "sugars soluble in water", Of: OfDM, Low: 0, High: 30, UsualLow: 3, UsualHigh: 12, Also: []string{"water soluble carbohydrates", "water sol carbs", "sugar wsc"}},
	{Code: "esc", About: "simple sugars, soluble in ethanol", Of: OfDM, Low: 0, High: 30, UsualLow: 3, UsualHigh: 9, Also: []string{"ethanol soluble carbohydrates", "sugar", "simple sugars", "sugar esc"}},
	{Code: "nfc", About: "carbohydrate that is not fibre", Of: OfDM, Low: 5, High: 50, UsualLow: 24, UsualHigh: 34, Also: []string{"non fiber carbohydrates", "nonfiber carbohydrates", "non fibre carbohydrates", "nonfibre carbohydrates"}}, //nolint:misspell // as laboratories spell it
	{Code: "ca", About: "calcium", Of: OfDM, Low: 0.1, High: 3.5, UsualLow: 1.1, UsualHigh: 1.7, Also: []string{"calcium"}},
	{Code: "p", About: "phosphorus", Of: OfDM, Low: 0.05, High: 0.8, UsualLow: 0.25, UsualHigh: 0.38, Also: []string{"phosphorus"}},
	{Code: "k", About: "potassium", Of: OfDM, Low: 0.3, High: 6, UsualLow: 1.8, UsualHigh: 3.2, Also: []string{"potassium"}},
	{Code: "mg", About: "magnesium", Of: OfDM, Low: 0.05, High: 1, UsualLow: 0.22, UsualHigh: 0.38, Also: []string{"magnesium"}},
	{Code: "s", About: "sulfur", Of: OfDM, Low: 0.05, High: 0.8, UsualLow: 0.20, UsualHigh: 0.33, Also: []string{"sulfur", "sulphur"}},
	{Code: "ph", About: "pH", Of: NoneOfAll, Low: 3, High: 9, UsualLow: 4.3, UsualHigh: 5},
	{Code: "lactic", About: "lactic acid", Of: OfDM, Low: 0, High: 20, Also: []string{"lactic acid"}},
	{Code: "acetic", About: "acetic acid", Of: OfDM, Low: 0, High: 15, Also: []string{"acetic acid"}},
	{Code: "butyric", About: "butyric acid", Of: OfDM, Low: 0, High: 10, Also: []string{"butyric acid"}},
	{Code: "nh3n", About: "ammonia, as protein", Of: OfCP, Low: 0, High: 60, Also: []string{"ammonia", "nh3 n", "ammonia n", "ammonia cp", "nh3 cpe", "ammonia nitrogen"}},
	{Code: "rfv", About: "relative feed value", Of: NoneOfAll, Low: 30, High: 400, Also: []string{"relative feed value"}, Recomputed: true},
	{Code: "rfq", About: "relative forage quality", Of: NoneOfAll, Low: 30, High: 450, Also: []string{"relative forage quality"}, Recomputed: true},
	{Code: "tdn", About: "total digestible nutrients", Of: OfDM, Low: 20, High: 90, Also: []string{"total digestible nutrients", "tdn 1x", "tdn1x"}, Recomputed: true},
	{Code: "nel", About: "net energy for lactation", Of: EnergyDM, Low: 0.3, High: 2.5, Also: []string{"ne l", "nel 3x", "net energy lactation", "net energy of lactation"}, Recomputed: true},
	{Code: "nem", About: "net energy for maintenance", Of: EnergyDM, Low: 0.1, High: 2.7, Also: []string{"ne m", "net energy maintenance", "net energy of maintenance"}, Recomputed: true},
	{Code: "neg", About: "net energy for gain", Of: EnergyDM, Low: -0.5, High: 2, Also: []string{"ne g", "net energy gain", "net energy of gain"}, Recomputed: true},
}

// FieldOf finds a field by its code.
func FieldOf(code string) (LabField, bool) {
	i := slices.IndexFunc(labFields, func(f LabField) bool { return f.Code == code })
	if i < 0 {
		return LabField{}, false
	}
	return labFields[i], true
}

// Report is what a laboratory reported of one sample, by code. Shares of dry matter are of dry matter.
type Report map[string]float64

// FromFeed turns a report as fed into one of dry matter; what is no share of the whole stays. It wants
// dm or moisture.
func (r Report) FromFeed() (Report, error) {
	dm, ok := r.DM()
	if !ok {
		return nil, errNoDM
	}
	out := Report{}
	for code, v := range r {
		if f, known := FieldOf(code); known && f.Of.OnBasis() {
			v *= 100 / dm
		}
		out[code] = v
	}
	return out, nil
}

// DM is dry matter, % as fed, from dm or moisture.
func (r Report) DM() (float64, bool) {
	if v, ok := r["dm"]; ok && v > 0 {
		return v, true
	}
	if v, ok := r["moisture"]; ok && v < 100 {
		return 100 - v, true
	}
	return 0, false
}
