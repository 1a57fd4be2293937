package advice

import (
	"errors"
	"fmt"
	"strings"

	"haywarden/agronomy/blend"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

const (
	topdressDays = 12 // after a cut, before wheels break much regrowth (choice)
	leastPotash  = 20 // lb an acre under which nobody drives out (choice)
)

// Topdress says what potash and phosphate to put on after the cut that was just taken: by the guide where
// it can be asked, else what the year takes away; less what was spread since last fall.
func Topdress(s *outlook.Stand, o *outlook.Outlook) *Piece {
	cut, after := s.LastCut()
	if !after || s.SeedingYear() || s.Date-cut.Day > topdressDays || cut.Day > s.Date {
		return nil
	}
	first, last := s.Growth.Number == 2, s.Growth.Number > s.UsualCuts()
	if !first && !last {
		return nil
	}
	w := wanted(s, o)
	if w == nil || w.left() < leastPotash {
		return nil
	}
	put := w.left()
	parted := w.year > soil.PublishedFertilityTables().Split && s.SoilCrop() != soil.RedClover
	if parted && first {
		put = max(0, w.year/2-w.given)
	}
	if put < leastPotash {
		return nil
	}
	which := "first"
	if last {
		which = "last"
	}
	p := &Piece{Decision: "topdress", Stand: s, Urgency: Watch, Title: fmt.Sprintf("Potash after the %s cut: %.0f lb an acre", which, put)}
	if w.short {
		p.Urgency = Week
	}
	p.Window = &Window{Early: cut.Day, Middle: max(s.Date, cut.Day), Late: cut.Day + topdressDays, Best: s.Date, Means: "before wheels break much regrowth", Firm: true}
	p.Sentence = w.says + "."
	if w.given > 0 {
		p.Sentence += fmt.Sprintf(" %.0f lb have been spread since last fall.", w.given)
	}
	switch {
	case parted && first:
		p.Sentence += " Half goes on now, half after the last cut; on soils that hold potash trials saw no clear gain from splitting."
	case parted:
		p.Sentence += " What was not given after the first cut goes on now, for the winter."
	}
	phosphate := max(0, w.phosphate-w.givenP)
	if phosphate >= leastPotash {
		p.Sentence += fmt.Sprintf(" With it %.0f lb of phosphate.", phosphate)
	} else {
		phosphate = 0
	}
	p.Worth.Text = potashWorth(s, o, put, phosphate)
	p.Grounds = w.grounds
	p.Rules = w.rules
	return p
}

// potashWanted is what a stand wants of potash in a year, lb of K2O an acre.
type potashWanted struct {
	year, given       float64
	phosphate, givenP float64
	short             bool // the test lies under the guide's critical level
	says              string
	grounds           []Ground
	rules             []Rule
}

func (w *potashWanted) left() float64 { return w.year - w.given }

// wanted asks the guide; where its table is not in the program it goes by removal. Nil where no soil test
// holds: it is for the sample to say then.
func wanted(s *outlook.Stand, o *outlook.Outlook) *potashWanted {
	t := s.SoilFound()
	if t == nil || t.K == nil || t.Old(s.Date) {
		return nil
	}
	g := o.GuidesOf(s)
	takes, ok := s.YearTakes(g.Removal)
	if !ok {
		return nil
	}
	w := &potashWanted{grounds: []Ground{testGround(t), takenGround(takes)}}
	f, err := o.Fertility(s)
	switch {
	case err == nil:
		w.year, w.phosphate = float64(f.K2O), float64(f.P2O5)
		w.short = f.BuildK > 0
		w.says = fmt.Sprintf("At K %.0f ppm the %s guide gives %.0f lb of potash an acre a year for %.1f tons", t.K.PPM(), guideName(f.Guide), w.year, s.Yield.Year)
		if w.short {
			w.says += fmt.Sprintf(", %.0f of it to raise the test", float64(f.BuildK))
		}
		w.grounds = append(w.grounds, guideGround(s, f))
	case errors.Is(err, soil.ErrNotLoaded), g.Fertility == "":
		most := blend.PublishedLimits().K2O
		w.year, w.phosphate = min(most, takes.Removed.K2O), takes.Removed.P2O5
		w.says = fmt.Sprintf("The year's %.1f tons take %.0f lb of potash an acre away: giving it back keeps the test of %.0f ppm where it is", float64(takes.Tons), takes.Removed.K2O, t.K.PPM())
		if takes.Removed.K2O > most {
			w.says += fmt.Sprintf("; %.0f lb are the most in a year", most)
		}
		w.grounds = append(w.grounds, Ground{What: "Guide", Value: "not asked", How: err.Error(), Sources: []source.ID{takes.Book.Source}})
	default:
		w.year, w.phosphate = min(blend.PublishedLimits().K2O, takes.Removed.K2O), takes.Removed.P2O5
		w.says = fmt.Sprintf("The year's %.1f tons take %.0f lb of potash an acre away; the guide cannot be asked: %s", float64(takes.Tons), takes.Removed.K2O, err.Error())
	}
	if err != nil {
		ampleP, ampleK := t.Ample()
		if ampleK {
			return nil
		}
		if ampleP {
			w.phosphate = 0
			w.grounds = append(w.grounds, Ground{What: "Phosphorus", Value: "ample", How: "over 50 ppm by Mehlich 3 none is wanted", Sources: []source.ID{source.PhosphorusEnough}})
		}
		w.grounds = append(w.grounds, Ground{What: "Potassium", Value: "not ample", How: "little benefit from any potash over 150 ppm by acetate", Sources: []source.ID{source.PotashEnough, source.SoilExtractants}})
	}
	from := s.SeasonFrom()
	spread := s.SpreadBetween(from, s.Date)
	w.given, w.givenP = spread.Given.K2O, spread.Given.P2O5
	if spread.Times > 0 || len(spread.Unknown) > 0 {
		how := "fertilizer by its analysis, manure by its first year"
		if len(spread.Unknown) > 0 {
			how += "; not reckoned: " + strings.Join(spread.Unknown, "; ")
		}
		w.grounds = append(w.grounds, Ground{What: "Spread since " + Short(from), Value: fmt.Sprintf("%.0f lb of P2O5 and %.0f of K2O an acre", w.givenP, w.given), How: how, Sources: []source.ID{source.ManureMidwest, source.FertilizerRecalled}})
	}
	w.grounds = append(w.grounds, Ground{What: "When", Value: "over 200 lb a year half after the first cut, half after the last", How: "guides say split it; trials on soils that hold potash saw no clear gain, and red clover none", Sources: []source.ID{source.PotashSplit, source.PotashTiming, source.PotashMost}})
	w.rules = []Rule{removalRule(s, takes, w)}
	return w
}

// removalRule sets giving back what is taken beside the guide.
func removalRule(s *outlook.Stand, t outlook.Taken, w *potashWanted) Rule {
	r := Rule{Says: "give back what the crop takes", Here: fmt.Sprintf("%.0f lb of potash for %.1f tons", t.Removed.K2O, float64(t.Tons)), Source: t.Book.Source}
	switch d := w.year - t.Removed.K2O; {
	case w.short:
		r.Differs = "the test is low: the guide gives more until it is not"
	case d < -10:
		r.Differs = "the guide gives less: the soil has more than the crop needs, or the year's most is reached"
	}
	return r
}

func takenGround(t outlook.Taken) Ground {
	how := "by " + tableOf(t.Book)
	ids := []source.ID{t.Book.Source}
	if t.Own > 0 {
		how = fmt.Sprintf("by %s of the field's own forage, %s", Count(t.Own)+" "+Plural(t.Own, "test"), tableOf(t.Book)+" for what was not tested")
		ids = append(ids, source.RemovalAnalysis)
	}
	return Ground{What: "A year's crop takes", Value: fmt.Sprintf("%.0f lb of P2O5, %.0f of K2O and %.0f of S an acre with %.1f tons", t.Removed.P2O5, t.Removed.K2O, t.Removed.S, float64(t.Tons)), How: how + "; tables differ by half in potash", Sources: ids}
}

func guideGround(s *outlook.Stand, f outlook.Feeding) Ground {
	g := Ground{
		What: "Guide", Value: fmt.Sprintf("%.0f lb of P2O5 and %.0f of K2O an acre a year", float64(f.P2O5), float64(f.K2O)),
		How: fmt.Sprintf("%s guide at %.1f tons", guideName(f.Guide), s.Yield.Year), Sources: guideSources(f.Guide),
	}
	if f.CriticalK > 0 {
		g.How += fmt.Sprintf(", critical level K %.0f and P %.0f in the guide's unit", f.CriticalK, f.CriticalP)
	}
	for _, n := range f.Notes {
		g.How += "; " + n
	}
	return g
}

func guideName(g soil.FertilityGuide) string {
	return map[soil.FertilityGuide]string{
		soil.Illinois: "Illinois", soil.TriState2020: "Tri-State (2020)", soil.TriState1995: "Tri-State (1995)", soil.Minnesota: "Minnesota", soil.Wisconsin: "Wisconsin",
	}[g]
}

func guideSources(g soil.FertilityGuide) []source.ID {
	return map[soil.FertilityGuide][]source.ID{
		soil.Illinois: {source.SoilIllinois}, soil.TriState2020: {source.SoilTriState2020, source.SoilTriStateRest, source.SoilExtractants},
		soil.TriState1995: {source.SoilTriState1995, source.SoilTriStateOld, source.SoilExtractants}, soil.Minnesota: {source.SoilMinnesota, source.SoilMinnesotaRest},
	}[g]
}

func potashWorth(s *outlook.Stand, o *outlook.Outlook, potash, phosphate float64) string {
	c := o.Cost(s, map[blend.Nutrient]float64{blend.K2O: potash, blend.P2O5: phosphate})
	say := "A stand short of potash thins in winter; how much a pound more yields is not published here."
	if len(c.Lines) > 0 {
		say += fmt.Sprintf(" It costs $%.0f an acre by %s.", c.Acre, strings.Join(c.Lines, " and "))
	}
	return say
}
