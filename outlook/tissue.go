package outlook

import (
	"slices"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
)

// tissueHolds is for how many days a tissue test says what a stand wants: its own season and the next
// (choice).
const tissueHolds = 400

// wholePlant is what the tables of tops do not judge.
const wholePlant = "whole"

// TissueFound is what the newest tissue test of a stand says.
type TissueFound struct {
	Day    unit.Day
	Lab    string
	Part   string // empty where nobody said: taken for the tops
	Stage  string
	Values map[soil.Element]float64
	Judged []soil.Judged // by alfalfa's tables; none of red clover, for which no table is known, and none of whole plants
	Whole  bool          // whole plants were sampled, which the tables do not judge
}

// Tops is the newest tissue test of the stand that still says something; nil where there is none.
func (s *Stand) Tops() *TissueFound {
	for _, t := range slices.Backward(s.StandView.Tissue) {
		if t.Day > s.Date || s.Date-t.Day > tissueHolds {
			continue
		}
		f := &TissueFound{Day: t.Day, Lab: t.Body.Lab, Part: t.Body.Part, Stage: t.Body.Stage, Whole: t.Body.Part == wholePlant, Values: map[soil.Element]float64{}}
		for code, v := range t.Body.Values {
			f.Values[soil.Element(code)] = v
		}
		if f.Whole || s.Judged() == Clover {
			return f
		}
		var err error
		if f.Judged, err = soil.Interpret(f.Values); err != nil {
			return nil // the book's own check is as narrow
		}
		return f
	}
	return nil
}

// Of is what the tables say of one element; not ok where it was not tested or is judged by none.
func (f *TissueFound) Of(e soil.Element) (soil.Judged, bool) {
	if f == nil {
		return soil.Judged{}, false
	}
	i := slices.IndexFunc(f.Judged, func(j soil.Judged) bool { return j.Element == e })
	if i < 0 || len(f.Judged[i].Tables) == 0 {
		return soil.Judged{}, false
	}
	return f.Judged[i], true
}

// What a short stand is given of sulfur and boron, lb an acre. Sources: [source.TissueSulfur],
// [source.BoronTopdress].
const (
	SulfurGiven = soil.SulfurRate
	BoronGiven  = 2
)

// cloverBoron is the boron that is enough in red clover, ppm. Source: [source.BoronTissue].
const cloverBoron = 20

// Short says of which of sulfur and boron the stand's tops hold too little, by every table; what was spread
// since the test counts as given.
func (s *Stand) Short() (sulfur, boron bool) {
	f := s.Tops()
	if f == nil || f.Whole {
		return false, false
	}
	given := s.SpreadBetween(f.Day, s.Date).Given
	if v, ok := f.Values["s"]; ok {
		sulfur = v < soil.SulfurCritical && given.S == 0
	}
	if v, ok := f.Values["b"]; ok {
		if s.Judged() == Clover {
			boron = v < cloverBoron
		} else if j, ok := f.Of("b"); ok {
			boron = j.Low
		}
		boron = boron && given.B == 0
	}
	return sulfur, boron
}
