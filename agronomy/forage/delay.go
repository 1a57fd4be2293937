package forage

// Standing is a crop on the stem and how it changes with each day of waiting.
type Standing struct {
	Tons, TonsPerDay float64 // dry matter, tons/ac
	RFV, FallPerDay  float64 // points
}

// PriceLine prices hay as fed by its relative feed value: Base $ a ton at BaseRFV and PerPoint $ for
// each point above it, never under 0. With Base and BaseRFV 0 the price is PerPoint for every point.
type PriceLine struct{ Base, BaseRFV, PerPoint float64 }

// At is the price of hay of a feed value, $ a ton as fed.
func (p PriceLine) At(rfv float64) float64 {
	return max(0, p.Base+p.PerPoint*(rfv-p.BaseRFV))
}

// Harvest is what is lost on the way to the stack.
type Harvest struct {
	Loss   float64 // share of the dry matter, 0 to 1
	Points float64 // RFV
	HayDM  float64 // dry matter of hay as priced, 0 to 1
}

// PublishedHayDM is the dry matter of hay as prices mean it, at 12 % moisture.
const PublishedHayDM = 0.88

// Worth is the market value of the crop, $ an acre, when cut after some days of waiting. Milk not
// made from poorer feed, and days taken from later cuts, are not in it. Source: [source.DelayValue].
func (s Standing) Worth(days float64, line PriceLine, h Harvest) float64 {
	tons := max(0, s.Tons+s.TonsPerDay*days) * (1 - h.Loss)
	return tons * line.At(s.RFV-s.FallPerDay*days-h.Points) / h.HayDM
}
