package storage

import (
	"fmt"

	"haywarden/agronomy/losses"
)

// Keeping is how a crop is stored and fed.
type Keeping struct {
	Store      string  // a [Place] for hay, a [Structure] for silage
	Wrap       Wrap    // hay
	Density    float64 // lb of dry matter/ft3; 0 where it is not known
	FaceInches float64 // fed off the face of a bunker, pile or bag, in/day; 0 where it is enough
	WarmSeason bool
	Feeder     Feeder
}

// Model is all that storage is reckoned with.
type Model struct {
	Hay     HayStore
	Silage  SilageStore
	FeedOut FeedOut
}

// Published returns the model with its published and chosen numbers.
func Published() Model {
	return Model{PublishedHayStore(), PublishedSilageStore(), PublishedFeedOut()}
}

// ToBunk carries a harvested crop through the store to the animals.
func (k Model) ToBunk(harvested losses.Chain, as losses.Product, moisture float64, by Keeping) (losses.Chain, error) {
	var steps []losses.Loss
	if as == losses.Hay {
		l, err := k.Hay.Loss(moisture, Place(by.Store), by.Wrap)
		if err != nil {
			return losses.Chain{}, err
		}
		steps = append(steps, l)
	} else {
		s := Structure(by.Store)
		if (s == WrappedBale) != (as == losses.Baleage) {
			return losses.Chain{}, fmt.Errorf("%s stored as %s: baleage goes into wrapped-bale and haylage into the other structures", as, s)
		}
		l, err := k.Silage.Loss(s, moisture, by.Density)
		if err != nil {
			return losses.Chain{}, err
		}
		steps = append(steps, l)
		if by.FaceInches > 0 && (s == Bunker || s == Pile || s == Bag) {
			out, err := k.FeedOut.Loss(by.FaceInches, by.WarmSeason)
			if err != nil {
				return losses.Chain{}, err
			}
			steps = append(steps, out)
		}
	}
	feeding, err := Feeding(by.Feeder)
	if err != nil {
		return losses.Chain{}, err
	}
	return harvested.Then(append(steps, feeding)...)
}
