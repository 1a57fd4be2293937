package outlook

import (
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/stick"
	"haywarden/agronomy/unit"
)

const (
	stickLasts    = 14   // days after which a reading no longer says where the crop stands (choice)
	rateSD        = 0.1  // NDF a day: daily rates in print run from 0.4 to 0.7 in spring, [source.DailyRates] (choice)
	stickHeatCorr = 0.5  // between the errors of stick and heat (choice)
	badDropIn     = 2    // a stand does not lose this height between readings, in
	badRiseIn     = 4    // nor gain more than this in three days, in
	LateHeat      = 1000 // F-days above 41 F past which heat alone is no guide, [source.HeatFibre]
)

// readStick works out the stick readings of this growth.
func (s *Stand) readStick() error {
	if s.Judged() == Clover {
		return nil
	}
	m := stick.Published()
	for _, v := range s.Visits {
		if len(v.Body.Spots) == 0 || !s.Growth.Holds(v.Day) {
			continue
		}
		readings := make([]stick.Reading, len(v.Body.Spots))
		var sum float64
		for i, sp := range v.Body.Spots {
			readings[i] = stick.Reading{Height: unit.Inch(sp.HeightIn), Stage: stick.Stage(sp.Stage)}
			sum += sp.HeightIn
		}
		f, err := m.Field(readings, s.Growth.Number)
		if err != nil {
			return fmt.Errorf("stick reading of %s: %w", v.Day, err)
		}
		r := Reading{Day: v.Day, Observer: v.Author, Field: f, Spots: v.Body.Spots, Highest: sum / float64(len(v.Body.Spots))}
		r.Doubt = s.doubt(r)
		s.Readings = append(s.Readings, r)
	}
	return nil
}

// doubt compares a reading with the last sound one. A reading that bears out the one before it, which
// was set aside, is believed: two against one, it was the older that was wrong.
func (s *Stand) doubt(r Reading) string {
	last, ok := s.LastReading()
	if !ok {
		return ""
	}
	if before := s.Readings[len(s.Readings)-1]; before.Doubt != "" && misfit(before, r) == "" {
		return ""
	}
	return misfit(last, r)
}

// misfit says why a reading cannot follow an older one of the same growth; empty where it can.
func misfit(older, r Reading) string {
	days := float64(r.Day - older.Day)
	rise := r.Highest - older.Highest
	switch {
	case rise < -badDropIn:
		return fmt.Sprintf("%.0f in lower than on %s", -rise, inWords(older.Day))
	case rise > badRiseIn*max(1, days/3):
		return fmt.Sprintf("%.0f in higher than %.0f days before", rise, days)
	}
	return ""
}

// inWords writes a day as reasons say it: 21 May.
func inWords(d unit.Day) string { return d.Time().Format("2 January") }

// LastReading is the newest stick reading that does not look wrong.
func (s *Stand) LastReading() (Reading, bool) {
	for _, v := range slices.Backward(s.Readings) {
		if v.Doubt == "" {
			return v, true
		}
	}
	return Reading{}, false
}

// judgeStanding combines stick and heat into the quality standing this morning. It is said only for
// growths where a published method holds.
func (s *Stand) judgeStanding(t *tested) error {
	switch {
	case s.Judged() == Clover:
		s.NotStanding = "no method by height or heat is published for red clover"
	case s.Judged() == Mixture:
		s.NotStanding = "the stick's table holds for pure alfalfa only"
	case s.SeedingYear():
		s.NotStanding = "a stand in its seeding year is judged by age"
	case s.Growth.Number >= 3:
		s.NotStanding = "third and later growths are judged by days and stage"
	case !s.Frosted.Lifted():
		s.NotStanding = "frost has hit the growing tips: heat and stick no longer say where the crop stands"
	}
	if s.NotStanding != "" {
		return nil
	}
	st := &Standing{Season: seasonOf(s.Growth.Number), HeatAgrees: true, Shared: t.shared}
	var anchor forage.Quality // what ADF is known beside NDF, zero where none is
	if b, a, ok := s.fromStick(st.Season); ok {
		if c := s.correction(t); c != nil {
			a += forage.AdfForNDF(b.NDF+c.Bias) - forage.AdfForNDF(b.NDF)
			b.NDF += c.Bias
			st.Corrected = c
		}
		st.From, anchor = append(st.From, b), forage.Quality{NDF: b.NDF, ADF: a}
	}
	if b, ok := s.fromHeat(); ok {
		st.From = append(st.From, b)
	}
	if b, a, ok := s.fromLab(st.Season); ok {
		st.From, anchor = append(st.From, b), forage.Quality{NDF: b.NDF, ADF: a}
	}
	if len(st.From) == 0 {
		s.NotStanding = s.unread()
		return nil
	}
	return s.settle(st, anchor)
}

// unread says why a growth without a reading is not judged by heat either.
func (s *Stand) unread() string {
	switch {
	case s.Growth.Number == 1 && s.Frosted != nil:
		return "no reading since the frost of " + inWords(s.Frosted.Day) + ", after which heat does not say where the crop stands"
	case s.Growth.Number == 1 && s.Sky != nil && s.Sky.Heat41.Now() > LateHeat:
		return "no reading in this growth, and its heat is past the range in which heat tells the fibre: was a cut not recorded?"
	}
	return "no reading in this growth"
}

// settle turns the bases of an estimate into one: first stick, neighbours and heat, whose errors go
// together, then the laboratory, whose do not.
func (s *Stand) settle(st *Standing, anchor forage.Quality) error {
	var values, sds []float64
	var stickNDF, stickSD, heatNDF, heatSD float64
	var lab *Basis
	for i, b := range st.From {
		switch b.Name {
		case BasisLab:
			lab = &st.From[i]
			continue
		case BasisHeat:
			heatNDF, heatSD = b.NDF, b.SD
		default:
			stickNDF, stickSD = b.NDF, b.SD
		}
		values, sds = append(values, b.NDF), append(sds, b.SD)
	}
	var ndf, sd float64
	var err error
	if len(values) > 0 {
		if ndf, sd, err = forage.Combine(values, sds, sharedError(sds, st.Shared.Corr)); err != nil {
			return err
		}
	}
	switch {
	case lab != nil && len(values) > 0:
		if ndf, sd, err = forage.Combine([]float64{ndf, lab.NDF}, []float64{sd, lab.SD}, 0); err != nil {
			return err
		}
	case lab != nil:
		ndf, sd = lab.NDF, lab.SD
	}
	if len(values) == 2 {
		st.HeatAgrees = math.Abs(stickNDF-heatNDF) <= 2*math.Hypot(stickSD, heatSD)
	}
	st.Borrowed = st.From[0].Name != BasisStick && lab == nil
	m := stick.Published()
	st.NDF, st.SDNDF, st.SDADF = ndf, sd, sd*m.SDADF/m.SDNDF
	st.ADF = forage.AdfForNDF(ndf)
	if anchor.ADF != 0 {
		// Keep the field's own ratio of ADF to NDF, as tested or as read by the stick.
		st.ADF = anchor.ADF + forage.AdfForNDF(ndf) - forage.AdfForNDF(anchor.NDF)
	}
	k := forage.PublishedFeedValue()
	st.RFV = k.Of(st.ADF, st.NDF)
	st.SD = k.Spread(st.ADF, st.NDF, st.SDADF, st.SDNDF, m.Corr)
	s.Standing, s.NotStanding = st, ""
	return nil
}

// sharedError is the correlation between the errors of stick and heat. It is held down so far that an
// estimate much less sure than the other counts for nothing and never against itself: else a taller
// but ragged stand would be judged younger.
func sharedError(sds []float64, corr float64) float64 {
	return min(corr, slices.Min(sds)/slices.Max(sds))
}

// The names of bases.
const (
	BasisStick      = "stick"      // a stick reading of this stand
	BasisHeat       = "heat"       // heat of first growth
	BasisNeighbours = "neighbours" // fields of the same kind that were read
)

// fromStick carries the last reading forward to this morning by the days' own temperatures. The rate is
// not known well, so that an old reading says less than a new one.
func (s *Stand) fromStick(season forage.Season) (Basis, float64, bool) {
	r, ok := s.LastReading()
	if !ok || s.Date-r.Day > stickLasts {
		return Basis{}, 0, false
	}
	q := s.carried(forage.Quality{NDF: r.Field.NDF, ADF: r.Field.ADF}, r.Day, s.Date, season)
	sd := aged(r.Field.SDNDF, s.Date-r.Day)
	return Basis{Name: BasisStick, Day: r.Day, NDF: q.NDF, SD: sd, N: r.Field.N}, q.ADF, true
}

// aged is the error of an estimate carried over days, whose daily rate is not known well.
func aged(sd float64, days unit.Day) float64 { return math.Hypot(sd, rateSD*float64(days)) }

// meanOn is a day's mean temperature, C, observed or usual; not ok where neither is known.
func (s *Stand) meanOn(d unit.Day) (float64, bool) {
	if s.Sky == nil {
		return 0, false
	}
	maxF, minF, _ := s.Sky.temperatures(d)
	t := meanC(maxF, minF)
	return t, !math.IsNaN(t)
}

// fromHeat is the fibre of first growth by heat, inside the range the method was tested in.
func (s *Stand) fromHeat() (Basis, bool) {
	if s.Sky == nil || s.Growth.Number != 1 || !s.Sky.Heat41.Trusted() || s.Frosted != nil {
		return Basis{}, false
	}
	ndf, sd, tested := forage.HeatNDF(s.Sky.Heat41.Now())
	if !tested {
		return Basis{}, false
	}
	return Basis{Name: BasisHeat, Day: s.Sky.Through, NDF: ndf, SD: sd}, true
}

func seasonOf(growth int) forage.Season {
	if growth == 1 {
		return forage.Spring
	}
	return forage.Summer
}

// Doubt is why the newest stick reading of this growth was set aside; empty where it was not.
func (s *Stand) Doubt() string {
	if n := len(s.Readings); n > 0 {
		return s.Readings[n-1].Doubt
	}
	return ""
}

// Disputed reports whether stick and heat tell different stories and only one reading speaks for the
// stick.
func (s *Stand) Disputed() bool {
	return s.Standing != nil && !s.Standing.HeatAgrees && !s.Standing.Borrowed && len(s.Readings) == 1
}

// Doubted reports whether the stick reading of a day was set aside.
func (s *Stand) Doubted(d unit.Day) bool {
	return slices.ContainsFunc(s.Readings, func(r Reading) bool { return r.Day == d && r.Doubt != "" })
}
