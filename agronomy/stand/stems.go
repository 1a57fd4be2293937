// Package stand judges a standing legume crop by what is counted in it: stems, roots, grass and age.
// How many frames were thrown and how far they differ is part of every answer.
//
// The classes are the Wisconsin ones, in wide use but disputed: Ohio puts the plateau at 50 stems,
// prairie sources at 40, and old stands of the northern plains do with fewer. A [StemScale] can be
// changed for a region.
package stand

import (
	"fmt"
	"math"

	"haywarden/agronomy/count"
)

// StemScale holds the limits and the yield line of a stem count, stems a square foot:
//
//	yield potential = Slope * min(stems, Full) + Intercept    tons DM/ac a year, pure alfalfa
//
// Sources: [source.StemClasses], [source.StemYield]; frames: [source.StemFrames].
type StemScale struct {
	Full      float64 // density does not limit yield from here on
	Replace   float64 // below, consider replacing the stand
	Slope     float64 // tons DM/ac for a stem a square foot
	Intercept float64
	HalfWidth float64 // wanted of the 95 % interval, as a share of the mean
	Most      int     // frames nobody need exceed
	Least     int     // frames of any field
	Acres     float64 // for each frame
}

// PublishedStems returns the published limits and line; the frames are our choice.
func PublishedStems() StemScale {
	return StemScale{Full: 55, Replace: 40, Slope: 0.1, Intercept: 0.38, HalfWidth: 0.15, Most: 20, Least: 5, Acres: 5}
}

// Class says what a stem density means.
type Class string

// The classes.
const (
	Full     Class = "full"      // 55 and more: density does not limit yield
	SomeLoss Class = "some loss" // 40 to 54: often worth another year
	Replace  Class = "replace"   // under 40
)

// StemCount is a stem count worked out. The interval and the chances need two frames: with one they
// are NaN and [count.Interval.Known] is false.
type StemCount struct {
	count.Interval         // stems a square foot
	ChanceBelow40  float64 // that the field's own mean is under the limit for replacing
	ChanceBelow55  float64 // the same for full yield
	Class          Class
	YieldPotential float64 // tons DM/ac a year that the stems could carry, age apart
	MoreFrames     int     // still to throw for an interval of 15 % either way
	FieldFrames    int     // that a field of this size wants at least
}

// most stems a square foot that can be meant; more is a frame not divided by its size.
const mostStems = 200

// AssessStems judges counts of stems a square foot, one for each frame, by the published scale.
func AssessStems(perFt2 []float64, acres float64) (StemCount, error) {
	return PublishedStems().Assess(perFt2, acres)
}

// Assess judges counts of stems a square foot, one for each frame, of a field of so many acres. Stems
// are those the mower would take, counted at 4-6 in of growth. Source: [source.StemProtocol].
func (k StemScale) Assess(perFt2 []float64, acres float64) (StemCount, error) {
	if !(acres > 0) || math.IsInf(acres, 1) {
		return StemCount{}, fmt.Errorf("acres %g: want the size of the field, more than 0", acres)
	}
	for i, v := range perFt2 {
		if !(v >= 0 && v <= mostStems) {
			return StemCount{}, fmt.Errorf("frame %d: %g stems a square foot; accepted 0 to %d", i+1, v, mostStems)
		}
	}
	iv, err := count.Means(perFt2)
	if err != nil {
		return StemCount{}, err
	}
	return StemCount{
		Interval:       iv,
		ChanceBelow40:  iv.ChanceBelow(k.Replace),
		ChanceBelow55:  iv.ChanceBelow(k.Full),
		Class:          k.Class(iv.Mean),
		YieldPotential: k.YieldPotential(iv.Mean),
		MoreFrames:     k.moreFrames(iv, acres),
		FieldFrames:    k.Frames(acres),
	}, nil
}

// Class is the class of a density, taken as it is shown, to a tenth of a stem.
func (k StemScale) Class(stems float64) Class {
	switch shown := math.Round(stems*10) / 10; {
	case shown >= k.Full:
		return Full
	case shown >= k.Replace:
		return SomeLoss
	}
	return Replace
}

// YieldPotential is what a density could carry, tons DM/ac a year. It is a potential at the farm's own
// losses: age and the year's weather take from it.
func (k StemScale) YieldPotential(stems float64) float64 {
	return k.Slope*min(stems, k.Full) + k.Intercept
}

// YieldPotential is [StemScale.YieldPotential] of the published line.
func YieldPotential(stems float64) float64 { return PublishedStems().YieldPotential(stems) }

// Frames is how many frames a field wants before its spread is known, thrown along a W and off the
// headlands.
func (k StemScale) Frames(acres float64) int {
	return max(k.Least, int(math.Ceil(acres/k.Acres)))
}

// moreFrames is what is still to throw: by the spread between frames, or by acres where one frame
// tells nothing of it.
func (k StemScale) moreFrames(iv count.Interval, acres float64) int {
	want := k.Frames(acres)
	if iv.Known() {
		want = count.SampleSize(iv.CV, k.HalfWidth)
	}
	return max(0, min(want, k.Most)-iv.N)
}
