package losses

import "fmt"

// Model holds all that a harvest is reckoned with.
type Model struct {
	Tissue      Tissue
	Respiration Respiration
	Rain        Rain
	Machines    Machines
}

// Published returns the model with its published and chosen numbers.
func Published() Model {
	return Model{PublishedTissue(), PublishedRespiration(), PublishedRain(), PublishedMachines()}
}

// Product is what a crop is put up as.
type Product string

// The products.
const (
	Hay     Product = "hay"
	Haylage Product = "haylage"
	Baleage Product = "baleage"
)

// Products lists them.
func Products() []string { return []string{string(Hay), string(Haylage), string(Baleage)} }

// Harvest is how a cut is brought in.
type Harvest struct {
	As       Product
	Moisture float64 // % of fresh weight at the baler or chopper
	RainMM   float64 // that fell on it, cut
	YieldTHa float64 // standing dry matter, t/ha
	Crop     Crop
	By       Baler     // hay and baleage
	Tedded   []float64 // moisture, %, at each tedding
	// RakedAt is the moisture of hay at the rake, %; 0 where it is not known. Baleage is raked as it is
	// baled.
	RakedAt float64
	// RainedAt is the moisture at which the rain fell, %; 0 where it is not known, and then it is taken
	// half way through curing ([Rain] holds there without a correction), or as wet as it was brought in.
	RainedAt float64
	// Breathed is the share that hours of curing took by [Respiration]; 0 where they are not known.
	Breathed float64
}

// halfCured is the moisture, %, that rain is taken to fall at where nothing better is known.
const halfCured = 65

func (h Harvest) check() error {
	switch {
	case !(h.Moisture >= 5 && h.Moisture <= 80):
		return fmt.Errorf("moisture %g %%; accepted 5 to 80", h.Moisture)
	case !(h.YieldTHa >= 0.1 && h.YieldTHa <= 20):
		return fmt.Errorf("yield %g t/ha of dry matter; accepted 0.1 to 20", h.YieldTHa)
	case !(h.Breathed >= 0 && h.Breathed < 1):
		return fmt.Errorf("share breathed away %g; accepted 0 to under 1", h.Breathed)
	case h.As == Hay && h.Moisture > 40:
		return fmt.Errorf("moisture %g %% for hay; accepted up to 40: wetter than that it is haylage or baleage", h.Moisture)
	}
	for _, m := range append([]float64{h.RakedAt, h.RainedAt}, h.Tedded...) {
		if m != 0 && !(m >= h.Moisture && m <= 85) {
			return fmt.Errorf("moisture %g %% on the way; accepted %g, as brought in, to 85", m, h.Moisture)
		}
	}
	return nil
}

// Bring follows a standing crop to the wagon or the bale, in the order in which losses happen.
func (k Model) Bring(standing Feed, h Harvest) (Chain, error) {
	c, err := Begin(standing, k.Tissue)
	if err != nil {
		return Chain{}, err
	}
	if err := h.check(); err != nil {
		return Chain{}, err
	}
	breathing := k.Respiration.loss(h.Moisture / 100)
	if h.Breathed > 0 {
		breathing = k.Respiration.counted(h.Breathed, h.Moisture/100)
	}
	steps := []Loss{k.Machines.mowing(k.Tissue), breathing}
	rained := h.RainedAt
	if rained == 0 {
		rained = max(halfCured, h.Moisture)
	}
	rain, err := k.Rain.Loss(h.RainMM, rained, h.Crop)
	if err != nil {
		return Chain{}, err
	}
	if h.RainMM > 0 {
		steps = append(steps, rain)
	}
	for _, m := range h.Tedded {
		steps = append(steps, k.Machines.tedding(m, h.Crop))
	}
	switch h.As {
	case Haylage:
		return c.Then(append(steps, k.Machines.merging(), k.Machines.chopping())...)
	case Hay, Baleage:
		rake := k.Machines.raking(h.Moisture, h.YieldTHa, k.Tissue)
		switch {
		case h.RakedAt > 0:
			rake = k.Machines.raking(h.RakedAt, h.YieldTHa, k.Tissue)
		case h.As == Hay:
			rake = k.Machines.rakingUsual(h.YieldTHa, k.Tissue)
		}
		bale, err := k.Machines.baling(h.Moisture, h.By, k.Tissue)
		if err != nil {
			return Chain{}, err
		}
		return c.Then(append(steps, rake, bale)...)
	}
	return Chain{}, fmt.Errorf("method %q; accepted hay, haylage or baleage", h.As)
}
