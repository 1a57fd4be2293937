package losses

import (
	"fmt"
	"math"

	"haywarden/agronomy/source"
)

// Respiration is how a cut crop breathes its sugars away until it is dry:
//
//	rate = PerHour * 2^((T - AtC)/Doubling) * max(0, (w - Stop)/(Start - Stop))
//
// T in C, w the moisture as a part of fresh weight. It breathes fastest at cutting, twice as fast for
// every 10 C, and stops near 35 % moisture. Source: [source.RespirationRate]. Dry, Least and Most are
// the whole loss, as a share, to hay that was not rained on: measured, and in good drying weather.
type Respiration struct {
	PerHour, AtC, Doubling float64
	Start, Stop            float64 // moisture at cutting, and where breathing ends
	Dry, Least, Most       float64 // [source.CuringLoss], [source.RespirationEnds]
}

// PublishedRespiration returns the coefficients.
func PublishedRespiration() Respiration {
	return Respiration{PerHour: 0.0017, AtC: 20, Doubling: 10, Start: 0.80, Stop: 0.35, Dry: 0.032, Least: 0.02, Most: 0.08}
}

// Rate is the share of the dry matter breathed away in an hour at a temperature in C and a moisture
// from 0 to 1.
func (k Respiration) Rate(tempC, moisture float64) float64 {
	return k.PerHour * math.Exp2((tempC-k.AtC)/k.Doubling) * max(0, (moisture-k.Stop)/(k.Start-k.Stop))
}

// Hour is an hour of curing.
type Hour struct{ TempC, Moisture float64 }

// Left is the part of the dry matter that is not breathed away in an hour.
func (k Respiration) Left(h Hour) float64 { return max(0, 1-k.Rate(h.TempC, h.Moisture)) }

// Over is the share lost over a run of hours, as a model of drying gives them.
func (k Respiration) Over(hours []Hour) float64 {
	left := 1.0
	for _, h := range hours {
		left *= k.Left(h)
	}
	return 1 - left
}

// DownTo is the loss of a crop dried to a moisture, 0 to 1, where its hours are not known: the
// measured loss of dry hay, times the part of the breathing that is over by then if water leaves at
// one rate throughout. Source: [source.RespirationPart].
func (k Respiration) DownTo(moisture float64) Range {
	part := k.part(moisture)
	return Range{Low: k.Least * part, Mid: k.Dry * part, High: k.Most * part}
}

// part integrates (w - Stop) over the time it takes to dry from Start to the moisture, the water in a
// kilogram of dry matter falling as exp(-t), against the same down to Stop.
func (k Respiration) part(moisture float64) float64 {
	water := func(w float64) float64 { return w / (1 - w) }
	first := water(k.Start)
	upTo := func(w float64) float64 {
		m := water(w)
		return math.Log((1+first)/(1+m)) - k.Stop*math.Log(first/m)
	}
	return upTo(min(max(moisture, k.Stop), k.Start)) / upTo(k.Stop)
}

// counted is the loss where a model of drying has counted it hour by hour, between the measured ends.
func (k Respiration) counted(breathed, moisture float64) Loss {
	l := k.loss(moisture)
	l.Share.Mid = breathed
	l.Share, l.Sources = l.Share.within(), []source.ID{source.RespirationRate, source.RespirationEnds, source.RespirationPart}
	return l
}

func (k Respiration) loss(moisture float64) Loss {
	return Loss{
		Name: "respiration", Share: k.DownTo(moisture), Made: Made{Breathed: 1},
		Sources: []source.ID{source.CuringLoss, source.RespirationEnds, source.RespirationPart},
	}
}

// Crop is the kind of crop, for what rain does to it.
type Crop string

// The crops that rain treats differently.
const (
	Alfalfa   Crop = "alfalfa"
	RedClover Crop = "red-clover"
	Grass     Crop = "grass"
)

// Crops lists them.
func Crops() []string { return []string{string(Alfalfa), string(RedClover), string(Grass)} }

// Rain is what rain takes from a crop lying cut:
//
//	share = PerMM * mm * wetness * crop, at most Most
//
// Sources put the loss to a millimetre of rain six times apart, so that it is always a range: the low
// end is what a heavy swath lost to 18 mm in an hour, the high what light hay lost in longer rains.
// Drier hay loses more, down to where it is dry. Source: [source.RainModel].
type Rain struct {
	PerMM                 Range // share for each mm at 65 % moisture
	Most                  float64
	Wetness               Line // of moisture, %
	RedClover, Grass      float64
	LeafAlfalfa           float64 // part of the loss that is leaf knocked off; the rest is leached
	LeafClover, LeafGrass float64
}

// PublishedRain returns the coefficients.
func PublishedRain() Rain {
	return Rain{
		PerMM: Range{Low: 0.001, Mid: 0.0048, High: 0.0062}, Most: 0.45,
		Wetness:   Line{{40, 1.15}, {65, 1}, {75, 0.5}},
		RedClover: 0.7, Grass: 0.5, LeafAlfalfa: 0.4,
	}
}

// Loss is what so many mm take from a crop at a moisture in % of fresh weight.
func (k Rain) Loss(mm, moisture float64, crop Crop) (Loss, error) {
	if !(mm >= 0) || math.IsInf(mm, 1) {
		return Loss{}, fmt.Errorf("rain %g mm; it must be 0 or more", mm)
	}
	part, leaf := 1.0, k.LeafAlfalfa
	switch crop {
	case Alfalfa:
	case RedClover:
		part, leaf = k.RedClover, k.LeafClover
	case Grass:
		part, leaf = k.Grass, k.LeafGrass
	default:
		return Loss{}, fmt.Errorf("crop %q; accepted alfalfa, red-clover or grass", crop)
	}
	to := k.PerMM.times(mm * k.Wetness.At(moisture) * part)
	return Loss{
		Name: "rain", Share: Range{min(k.Most, to.Low), min(k.Most, to.Mid), min(k.Most, to.High)},
		Made: Made{Leaf: leaf, Leached: 1 - leaf}, Sources: []source.ID{source.RainModel},
	}, nil
}
