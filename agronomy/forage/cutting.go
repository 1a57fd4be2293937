package forage

import "fmt"

// Loss is what relative feed value loses between the standing crop and store, in points.
type Loss struct{ Points, Low, High float64 }

// Losses are the losses by product. Hay loses the leaves that haylage keeps.
type Losses struct {
	Haylage, Baleage, Hay Loss
	MiddleOfHarvest       float64 // the share of the harvest that is in when its middle is reached
}

// PublishedLosses returns the losses of haylage and hay ([source.HarvestLoss]), with ranges that also
// hold what other states print; baleage lies midway ([source.BaleageLoss], a choice).
func PublishedLosses() Losses {
	return Losses{
		Haylage: Loss{15, 10, 20}, Baleage: Loss{20, 12.5, 25}, Hay: Loss{25, 15, 30},
		MiddleOfHarvest: 0.5,
	}
}

// products are the words for what a crop is put up as.
var products = []string{"haylage", "baleage", "hay"}

// To is the loss of a product.
func (k Losses) To(product string) (Loss, error) {
	switch product {
	case "haylage":
		return k.Haylage, nil
	case "baleage":
		return k.Baleage, nil
	case "hay":
		return k.Hay, nil
	}
	return Loss{}, fmt.Errorf("product %q; accepted: haylage, baleage or hay", product)
}

// Start is the standing RFV at which a harvest of several days begins so that its middle is cut at
// cutRFV, when RFV falls by perDay points a day. Source: [source.HarvestWindow].
func (k Losses) Start(cutRFV, perDay, harvestDays float64) float64 {
	return cutRFV + perDay*harvestDays*k.MiddleOfHarvest
}

// HarvestLoss is the published loss to a product, in RFV points, with its range.
func HarvestLoss(product string) (points, low, high float64, err error) {
	l, err := PublishedLosses().To(product)
	return l.Points, l.Low, l.High, err
}

// StartRFV is [Losses.Start] with the published coefficients.
func StartRFV(cutRFV, perDay, harvestDays float64) float64 {
	return PublishedLosses().Start(cutRFV, perDay, harvestDays)
}

// Trigger says when a first cut is due.
type Trigger struct {
	HeightIn  float64 // tallest alfalfa in or beside the field at which to begin, in
	NDF       float64 // NDF to cut at, % of DM
	NDFPerDay float64 // how fast it rises, % of DM a day
}

// Triggers are the published rows for first cut: pure alfalfa, half and half, pure grass. They are
// rules for acting and no points on a surface of NDF. Source: [source.MixTriggers].
type Triggers struct{ Alfalfa, Half, Grass Trigger }

// PublishedTriggers returns the three rows.
func PublishedTriggers() Triggers {
	return Triggers{
		Alfalfa: Trigger{HeightIn: 28, NDF: 40, NDFPerDay: 0.5},
		Half:    Trigger{HeightIn: 22, NDF: 44, NDFPerDay: 0.8},
		Grass:   Trigger{HeightIn: 14, NDF: 50, NDFPerDay: 1.0},
	}
}

// At is the trigger of a stand with a share of grass, 0 to 1, on straight lines between the rows (a
// choice). Shares beyond 0 and 1 are held there.
func (k Triggers) At(grassShare float64) Trigger {
	g := min(max(grassShare, 0), 1)
	from, to, part := k.Alfalfa, k.Half, 2*g
	if g > 0.5 {
		from, to, part = k.Half, k.Grass, 2*g-1
	}
	between := func(a, b float64) float64 { return a + (b-a)*part }
	return Trigger{
		HeightIn:  between(from.HeightIn, to.HeightIn),
		NDF:       between(from.NDF, to.NDF),
		NDFPerDay: between(from.NDFPerDay, to.NDFPerDay),
	}
}

// MixTrigger is [Triggers.At] with the published rows.
func MixTrigger(grassShare float64) (heightIn, ndfTarget, ndfPerDay float64) {
	t := PublishedTriggers().At(grassShare)
	return t.HeightIn, t.NDF, t.NDFPerDay
}
