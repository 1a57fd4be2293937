package stick

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/unit"
)

// Stage is the class of the most mature stem found.
type Stage string

// The three classes.
const (
	Vegetative Stage = "vegetative" // over 12 in tall, no bud or flower to be seen
	Bud        Stage = "bud"        // at least one bud to be seen
	Flower     Stage = "flower"     // at least one open flower
)

// ParseStage reads a stage class, in any case.
func ParseStage(s string) (Stage, error) {
	switch st := Stage(strings.ToLower(strings.TrimSpace(s))); st {
	case Vegetative, Bud, Flower:
		return st, nil
	}
	return "", fmt.Errorf("stage %q; accepted: vegetative, bud or flower, of the most mature stem", s)
}

// Reading is what was seen at one spot: the tallest stem, straightened, from the soil to its tip and
// not to the tip of a leaf; and the stage of the most mature stem.
type Reading struct {
	Height unit.Inch
	Stage  Stage
}

// Spot is the composition at one spot. Heights of 4 to 60 in are accepted; see [Tested].
func (m Model) Spot(height unit.Inch, s Stage) (Composition, error) {
	if !(height >= acceptedLow && height <= acceptedHigh) {
		return Composition{}, fmt.Errorf("height %g in; accepted %g to %g in, the tallest stem", height, acceptedLow, acceptedHigh)
	}
	stage, err := m.position(s)
	if err != nil {
		return Composition{}, err
	}
	return m.At(float64(height.Centimetres()), stage), nil
}

// position is where a class lies on the 0-9 scale.
func (m Model) position(s Stage) (float64, error) {
	class, err := ParseStage(string(s))
	switch class {
	case Vegetative:
		return m.StageVegetative, nil
	case Bud:
		return m.StageBud, nil
	case Flower:
		return m.StageFlower, nil
	}
	return 0, err
}

// Field is what the spots of a field say together.
type Field struct {
	RFV, NDF, ADF float64 // means of the spots; RFV is not that of the mean composition, which is lower
	SpotSE        float64 // standard error of RFV from the difference between spots
	SpotSENDF     float64 // the same of NDF, % of DM
	MethodSD      float64 // error of the method, RFV: common to all spots
	SD            float64 // both together, RFV
	SDNDF         float64 // both together, % NDF
	N             int     // spots read
	OutOfTested   int     // spots outside the printed table of 16 to 40 in
}

// Field averages the spots of a field in the given cut of the year, 1 being the first. Five spots
// are usual, more in a field over 30 ac. One spot alone says nothing of the field's unevenness: the
// error is then m.SpotSD, a choice, and the answer should say so.
func (m Model) Field(readings []Reading, cut int) (Field, error) {
	if len(readings) == 0 {
		return Field{}, fmt.Errorf("no readings: want at least one height and stage")
	}
	if cut < 1 {
		return Field{}, fmt.Errorf("cut %d: cuts of a year are counted from 1", cut)
	}
	n := float64(len(readings))
	f := Field{N: len(readings)}
	rfv, ndf := make([]float64, len(readings)), make([]float64, len(readings))
	for i, r := range readings {
		c, err := m.Spot(r.Height, r.Stage)
		if err != nil {
			return Field{}, fmt.Errorf("reading %d: %w", i+1, err)
		}
		if !Tested(r.Height) {
			f.OutOfTested++
		}
		rfv[i], ndf[i] = m.RFV(c), c.NDF
		f.RFV += rfv[i] / n
		f.NDF += c.NDF / n
		f.ADF += c.ADF / n
	}
	mean := Composition{NDF: f.NDF, ADF: f.ADF}
	if len(readings) > 1 {
		f.SpotSE, f.SpotSENDF = standardError(rfv, f.RFV), standardError(ndf, f.NDF)
	} else {
		f.SpotSE = m.SpotSD
		f.SpotSENDF = m.SpotSD / m.fallPerNDF(mean)
	}
	f.MethodSD = m.MethodSD(mean, cut)
	f.SD = math.Hypot(f.SpotSE, f.MethodSD)
	f.SDNDF = math.Hypot(f.SpotSENDF, m.MethodSDNDF(cut))
	return f, nil
}

// standardError is the standard error of a mean.
func standardError(values []float64, mean float64) float64 {
	ss := 0.0
	for _, v := range values {
		ss += (v - mean) * (v - mean)
	}
	n := float64(len(values))
	return math.Sqrt(ss / (n - 1) / n)
}

// fallPerNDF is how many points RFV falls for each unit of NDF when the stem grows, ADF rising along.
func (m Model) fallPerNDF(c Composition) float64 {
	byADF, byNDF := m.FeedValue.Slopes(c.ADF, c.NDF)
	return -(byNDF + byADF*m.ADFPerCM/m.NDFPerCM)
}
