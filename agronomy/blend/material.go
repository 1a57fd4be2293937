package blend

import "haywarden/agronomy/source"

// Nutrient is what a product supplies. The values are the names a user writes.
type Nutrient string

// The nutrients that are reckoned with.
const (
	N    Nutrient = "n"
	P2O5 Nutrient = "p2o5"
	K2O  Nutrient = "k2o"
	S    Nutrient = "s"
	Mg   Nutrient = "mg"
	B    Nutrient = "b"
)

// Needed are the nutrients that a field can need, in the order in which they are told. Nitrogen is only
// limited: the stand fixes its own.
func Needed() []Nutrient { return []Nutrient{P2O5, K2O, S, Mg, B} }

// Word is what the trade calls it.
func (n Nutrient) Word() string {
	return map[Nutrient]string{N: "nitrogen", P2O5: "phosphate", K2O: "potash", S: "sulfur", Mg: "magnesium", B: "boron"}[n]
}

// Content is the share of a product that is a nutrient.
type Content struct {
	Nutrient Nutrient
	Share    float64 // 0 to 1
	Source   source.ID
}

// Material is a fertilizer product.
type Material struct {
	ID       string
	Name     string
	Contents []Content
}

// Share returns how much of the material is the nutrient.
func (m Material) Share(n Nutrient) float64 {
	for _, c := range m.Contents {
		if c.Nutrient == n {
			return c.Share
		}
	}
	return 0
}

// PublishedMaterials returns the usual products.
func PublishedMaterials() []Material {
	return []Material{
		{"map", "monoammonium phosphate 11-52-0", []Content{{N, 0.11, source.FertilizerGuide}, {P2O5, 0.52, source.FertilizerRecalled}}},
		{"dap", "diammonium phosphate 18-46-0", []Content{{N, 0.18, source.FertilizerGuide}, {P2O5, 0.46, source.FertilizerGuide}}},
		{"tsp", "triple superphosphate 0-46-0", []Content{{P2O5, 0.46, source.FertilizerRecalled}}},
		{"mop", "muriate of potash 0-0-60", []Content{{K2O, 0.60, source.FertilizerRecalled}}},
		{"sop", "sulfate of potash 0-0-50-17S", []Content{{K2O, 0.50, source.FertilizerRecalled}, {S, 0.17, source.FertilizerRecalled}}},
		{"kmag", "sulfate of potash-magnesia 0-0-22-22S-11Mg", []Content{{K2O, 0.22, source.FertilizerRecalled}, {S, 0.22, source.FertilizerRecalled}, {Mg, 0.11, source.FertilizerRecalled}}},
		{"as", "ammonium sulfate 21-0-0-24S", []Content{{N, 0.21, source.FertilizerAlabama}, {S, 0.24, source.FertilizerAlabama}}},
		{"gyp", "gypsum 17S", []Content{{S, 0.17, source.GypsumSulfur}}},
		{"es", "elemental sulfur 90S", []Content{{S, 0.90, source.FertilizerGuide}}},
		{"b14", "borate 14.3B", []Content{{B, 0.143, source.FertilizerRecalled}}},
		{"b20", "soluble borate 20.5B", []Content{{B, 0.205, source.FertilizerRecalled}}},
	}
}

// Limits of what is spread in a year, pounds an acre.
type Limits struct {
	Boron float64 // never more
	Split float64 // potash over it is split
	K2O   float64 // more is unusual
}

// PublishedLimits returns those of [source.BoronTopdress], [source.PotashSplit] and [source.PotashMost].
func PublishedLimits() Limits { return Limits{Boron: 4, Split: 200, K2O: 300} }
