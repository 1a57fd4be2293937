package water

import (
	"fmt"

	"haywarden/agronomy/unit"
)

// Depletion is how the share of a root zone that a crop takes up freely shrinks as the day asks for
// more: p = p(table) + 0.04 (5 - ETc), held between 0.1 and 0.8. Source: [source.SoilWater].
type Depletion struct {
	Slope     float64 // d/mm
	Reference float64 // crop evapotranspiration that p of the table is for, mm/d
	Low, High float64
}

// FAODepletion returns the coefficients of the note to table 22.
func FAODepletion() Depletion { return Depletion{Slope: 0.04, Reference: 5, Low: 0.1, High: 0.8} }

// Free is p on a day on which the crop, well watered, would use etcMM.
func (d *Depletion) Free(p, etcMM float64) float64 {
	p += d.Slope * (d.Reference - etcMM)
	if p < d.Low {
		return d.Low
	}
	if p > d.High {
		return d.High
	}
	return p
}

// Bucket is a root zone that rain fills and a crop empties.
type Bucket struct {
	TAWmm float64 // water it holds between field capacity and wilting point
	P     float64 // of the table: share taken up freely at the reference evapotranspiration
	Depletion
}

// ScarceMM is the water left at which stress begins, (1 - p) TAW, on a day on which the crop, well
// watered, would use etcMM.
func (b *Bucket) ScarceMM(etcMM float64) float64 { return (1 - b.Free(b.P, etcMM)) * b.TAWmm }

// Day carries the root zone over a day: from what lacks to field capacity in the morning, what is
// scarce ([Bucket.ScarceMM]), what the crop would use if well watered, and what water came in (rain
// less runoff, irrigation, rise from below).
//
//	Ks = 1 where TAW - Dr >= scarce, else (TAW - Dr)/scarce    equation 84, Dr in the morning
//	ETa = Ks ETc, at most the TAW - Dr that is there
//	Dr + ETa - in, and what falls below 0 drains               equations 85, 88
//
// What comes in during the day is drunk from the next day on. So the balance closes, next - dr = used
// + drained - in; 0 <= Dr <= TAW holds from one day to the next; and more rain never brings more
// stress. Source: [source.SoilWater].
func (b *Bucket) Day(drMM, scarceMM, etcMM, inMM float64) (nextMM, ks, usedMM, drainedMM float64) {
	left := b.TAWmm - drMM
	ks = 1
	if !(left >= scarceMM) { // so that NaN is handed on
		ks = left / scarceMM
	}
	usedMM = ks * etcMM
	if usedMM > left {
		usedMM = left
	}
	nextMM = drMM + usedMM - inMM
	if nextMM < 0 {
		return 0, ks, usedMM, -nextMM
	}
	return nextMM, ks, usedMM, 0
}

// Water is what a day asks of a root zone and brings to it.
type Water struct {
	ETo        unit.Millimetre // reference evapotranspiration
	Kc         float64         // of the crop: see [Course.At]
	Rain       unit.Millimetre
	Runoff     unit.Millimetre // part of the rain that does not soak in
	Irrigation unit.Millimetre
	Rise       unit.Millimetre // from a water table
}

// Moved is what a day did to a root zone.
type Moved struct {
	ETc       unit.Millimetre // what the crop would have used if well watered
	P         float64         // share taken up freely on this day
	Ks        float64         // what stress left of the crop's use, 0 to 1
	Used      unit.Millimetre // evapotranspiration, Ks ETc
	Drained   unit.Millimetre // below the roots
	Depletion unit.Millimetre // below field capacity at the end of the day
}

// Run carries a root zone over days, from a depletion below field capacity. Source:
// [source.SoilWater].
func (b Bucket) Run(start unit.Millimetre, days []Water) ([]Moved, error) {
	switch {
	case !(b.TAWmm > 0):
		return nil, fmt.Errorf("available water %g mm: accepted more than 0", b.TAWmm)
	case !(start >= 0 && float64(start) <= b.TAWmm):
		return nil, fmt.Errorf("depletion %g mm: accepted 0 to the available water, %g mm", start, b.TAWmm)
	case !(b.P > 0 && b.P < 1):
		return nil, fmt.Errorf("p %g: accepted shares between 0 and 1", b.P)
	}
	moved := make([]Moved, len(days))
	dr := float64(start)
	for i, w := range days {
		if err := w.check(); err != nil {
			return nil, fmt.Errorf("day %d: %w", i+1, err)
		}
		etc := w.Kc * float64(w.ETo)
		in := float64(w.Rain - w.Runoff + w.Irrigation + w.Rise)
		next, ks, used, drained := b.Day(dr, b.ScarceMM(etc), etc, in)
		moved[i] = Moved{unit.Millimetre(etc), b.Free(b.P, etc), ks, unit.Millimetre(used), unit.Millimetre(drained), unit.Millimetre(next)}
		dr = next
	}
	return moved, nil
}

func (w Water) check() error {
	for _, v := range []struct {
		name   string
		amount float64
	}{
		{"eto", float64(w.ETo)},
		{"kc", w.Kc},
		{"rain", float64(w.Rain)},
		{"runoff", float64(w.Runoff)},
		{"irrigation", float64(w.Irrigation)},
		{"rise", float64(w.Rise)},
	} {
		if !(v.amount >= 0) {
			return fmt.Errorf("%s %g: accepted 0 or more", v.name, v.amount)
		}
	}
	if w.Runoff > w.Rain {
		return fmt.Errorf("runoff %g mm: accepted at most the rain, %g mm", w.Runoff, w.Rain)
	}
	return nil
}
