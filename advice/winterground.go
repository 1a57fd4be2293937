package advice

import (
	"fmt"
	"math"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// WinterGrounds are the figures that a guess at a stand's winter rests on.
func WinterGrounds(w *outlook.Wintered) []Ground {
	var out []Ground
	if w.Winter != nil {
		out = append(out, StationWinter(w.Winter)...)
	}
	points := fmt.Sprintf("%.0f points, %s risk", w.Risk.Low, w.Risk.LowClass)
	if !w.Risk.Known() {
		points = fmt.Sprintf("%.0f to %.0f points, %s to %s risk", w.Risk.Low, w.Risk.High, w.Risk.LowClass, w.Risk.HighClass)
	}
	change := "it would change by " + wouldChange(w)
	lost := Ground{
		What: "Yield lost", Value: LossSpan(w), How: "stress against points, a table of ours that orders visits; a count takes its place", Sources: []source.ID{source.WinterLoss},
	}
	if w.Counted {
		change = "the stems counted since decide"
		lost.How, lost.Sources = "by the stems counted, against a full stand", []source.ID{source.StemYield}
	}
	return append(out, Ground{
		What: "How tender it was", Value: points, How: "eight questions; the points are from memory; " + change,
		Sources: []source.ID{source.WinterPoints, source.WinterQuestions},
	}, lost)
}

// StationWinter are the figures of a station's winter.
func StationWinter(w *outlook.Winter) []Ground {
	s := w.Stress
	snow := ""
	class := string(s.Class)
	if w.SnowUnknown() {
		snow = "; snow was reported on few days and is taken as none"
		if w.Mildest != s.Class {
			class = fmt.Sprintf("%s, or %s if snow lay: the station does not say", s.Class, w.Mildest)
		}
	}
	out := []Ground{{
		What: "Coldest at the crown", Value: fmt.Sprintf("%.0f °F on %s", s.Coldest, Short(s.ColdestOn)),
		How:     fmt.Sprintf("mean of two days and shelter of snow; %d nights under 15 °F, %d under 5, %d under 0 (%d under 15 if the ground followed the air); harm begins at 15, 5 or 0 °F by source%s", s.Hurt, s.Kill, s.Mildest, s.HurtLow, snow),
		Sources: []source.ID{source.CrownAir, source.CrownCold, source.SnowShelter},
	}}
	if s.Sheltered > 0 {
		out = append(out, Ground{What: "Kept by snow", Value: fmt.Sprintf("%d nights under 0 °F in the air stayed over 15 at the crown", s.Sheltered), How: "4 in of snow keeps off 10-16 °F", Sources: []source.ID{source.SnowShelter}})
	}
	if s.MildThaw.Days > 0 {
		after := "no such thaw of three days"
		if !math.IsInf(s.AfterThaw, 1) {
			after = fmt.Sprintf("%.0f °F at the crown within three weeks after", s.AfterThaw)
		}
		out = append(out, Ground{What: "Thaw", Value: fmt.Sprintf("longest run over 50 °F %d %s, over 40 °F %d", s.Thaw.Days, Plural(s.Thaw.Days, "day"), s.MildThaw.Days), How: "which of the two breaks dormancy is disputed; " + after, Sources: []source.ID{source.WinterThaw}})
	}
	if s.Ice.Days > 0 {
		out = append(out, Ground{What: "Ice, perhaps", Value: fmt.Sprintf("%d %s from %s", s.Ice.Days, Plural(s.Ice.Days, "day"), Short(s.Ice.From)), How: "a freeze after rain or melt on open ground, until 40 °F; no station sees ice; it injures in 1-3 weeks, kills in 2-6", Sources: []source.ID{source.IceCover}})
	}
	return append(out, Ground{What: "The winter", Value: class, How: "by the days above; a class of ours", Sources: []source.ID{source.StressClass}})
}

// LossSpan writes the share of the year's yield that a winter may have cost.
func LossSpan(w *outlook.Wintered) string {
	if math.Round(100*w.Low) == math.Round(100*w.High) {
		return fmt.Sprintf("%.0f %%", 100*w.Low)
	}
	return fmt.Sprintf("%.0f to %.0f %%", 100*w.Low, 100*w.High)
}
