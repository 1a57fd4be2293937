package husbandry

import (
	"fmt"
	"math"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// UsualCaution is how careful a farm is taken to be that has not said (choice).
const UsualCaution = string(risk.Careful)

// What rain on a cut crop takes: 12 % of its dry matter and 30 points of RFV (choice; trials lie between 4
// and 44 % of the dry matter), the worst tail looked at is 2 years in 10, and the values of two days of one
// stand err together to 0.9 (choice).
const (
	wetTons, wetRFV = 0.12, 30
	tail            = 0.2
	together        = 0.9
	daysWeighed     = 7
	// A forecast of tomorrow is taken as one of two: dry, with rain 1 time in 10, or wet, with 6 (choice).
	saysDry, saysWet = 0.1, 0.6
	quartiles        = 1.349 // standard deviations between the quartiles of a normal
)

// Weigh lays cutting today beside cutting on the next days, by how careful the farm is. rain holds chances
// of rain on hay cut on each day from today, 0 to 1; those it does not reach come from the record of the
// station. pace is acres a day of the crew, 0 for not known.
func Weigh(v *book.View, s *outlook.Stand, rain []float64, how string, pace float64) (Part, error) {
	p := Part{Key: "weigh", Title: "Cut now or wait", Sources: []source.ID{source.WaitOneStep, source.OptimalStopping, source.TailMean, source.CautionWords, source.Newsvendor, source.NoDifference}}
	for i, r := range rain {
		if !(r >= 0 && r <= 1) {
			return p, fmt.Errorf("chance of rain %d is %g: accepted 0 to 1, such as 0.3", i+1, r)
		}
	}
	weight, err := risk.ChosenTaste().Weight(risk.Caution(how))
	if err != nil {
		return p, err
	}
	u := purse{v, s.Farm}
	hay, ok := u.hay(&p)
	a := s.Ahead()
	if a == nil {
		p.lack("a feed value of the standing crop, which only pure alfalfa with weather has")
	}
	if !ok || a == nil {
		return p, nil
	}
	days, scores, err := u.days(&p, s, a, hay, rain, weight)
	if err != nil || len(days) < 2 {
		return p, err
	}
	best := 0
	for i := range scores {
		if scores[i].Value > scores[best].Value {
			best = i
		}
	}
	p.Says = fmt.Sprintf("Weighed %s, the best day to cut is %s.", how, named(s.Date+unit.Day(best)))
	if best > 0 {
		d, err := risk.Tell(scores[best], scores[0], together)
		if err != nil {
			return p, err
		}
		if d.Told == risk.NoDifference {
			p.Says = fmt.Sprintf("Weighed %s, no difference between cutting today and on %s, the best of the next days: today will do.", how, named(s.Date+unit.Day(best)))
		}
	}
	return p, u.updates(&p, s, days, pace)
}

// days works out each day's worth and score.
func (u purse) days(p *Part, s *outlook.Stand, a *outlook.Ahead, hay HayLine, rain []float64, weight float64) ([]risk.Day, []risk.Estimate, error) {
	tons, err := cutTons(s)
	if err != nil {
		return nil, nil, err
	}
	worth := func(tons, rfv float64) float64 {
		return tons * (1 - harvestLoss) / forage.PublishedHayDM * hay.At(rfv-s.Target.Loss)
	}
	var days []risk.Day
	var scores []risk.Estimate
	for i := range daysWeighed {
		band, ok := a.Band(i)
		if !ok {
			break
		}
		grown := tons + float64(i)*s.Yield.DailyGrowth
		dry := worth(grown, band[2])
		d := risk.Day{Dry: dry, Loss: max(0, dry-worth(grown*(1-wetTons), band[2]-wetRFV)), Rain: 1 - s.Sky.DryChance(i, s.Target.DryDays)}
		from := "the station's record"
		if i < len(rain) {
			d.Rain, from = rain[i], "as given"
		}
		if math.IsNaN(d.Rain) {
			break
		}
		o, err := risk.NewOutcomes([]float64{d.Dry, d.Dry - d.Loss}, []float64{1 - d.Rain, d.Rain})
		if err != nil {
			return nil, nil, err
		}
		score, err := o.Score(weight, tail)
		if err != nil {
			return nil, nil, err
		}
		worst, err := o.Worst(tail)
		if err != nil {
			return nil, nil, err
		}
		days = append(days, d)
		scores = append(scores, risk.Estimate{Value: score, Error: math.Abs(worth(grown, band[3])-worth(grown, band[1])) / quartiles})
		p.row("cut on "+named(s.Date+unit.Day(i)), score, "$/ac", fmt.Sprintf("RFV %.0f, rain %.0f in 10 (%s); %s dry, %s wet, on average %s, worst 2 in 10 %s",
			band[2], 10*d.Rain, from, Figure(d.Dry, "$"), Figure(d.Dry-d.Loss, "$"), Figure(o.Mean(), "$"), Figure(worst, "$")))
	}
	return days, scores, nil
}

// cutTons is what the coming cut yields, tons of dry matter an acre.
func cutTons(s *outlook.Stand) (float64, error) {
	if s.Growth.Number <= 1 {
		return s.Yield.FirstCut, nil
	}
	share, err := budget.ShareOf(budget.PublishedCutShares(), "wisconsin", 4, min(s.Growth.Number, 4))
	return s.Yield.Year * share, err
}

// updates says what looking again tomorrow is worth, and how many acres to lay down.
func (u purse) updates(p *Part, s *outlook.Stand, days []risk.Day, pace float64) error {
	w, err := risk.CutOrWait(risk.Cut{Dry: days[0].Dry, Wet: days[0].Dry - days[0].Loss, Rain: days[0].Rain}, risk.Cut{Dry: days[1].Dry, Wet: days[1].Dry - days[1].Loss, Rain: days[1].Rain})
	if err != nil {
		return err
	}
	p.note("By the average, cut today rather than tomorrow while the chance of rain today is up to %.0f in 10.", 10*w.Break)
	mornings := make([]risk.Morning, len(days))
	for i, d := range days {
		mornings[i] = risk.Morning{Dry: d.Dry, Loss: d.Loss, Forecasts: []risk.Forecast{{Chance: 1, Rain: d.Rain}}}
		if i > 0 && d.Rain > saysDry && d.Rain < saysWet {
			dry := (saysWet - d.Rain) / (saysWet - saysDry)
			mornings[i].Forecasts = []risk.Forecast{{Chance: dry, Rain: saysDry}, {Chance: 1 - dry, Rain: saysWet}}
		}
	}
	plan, err := risk.WithUpdates(mornings)
	if err != nil {
		return err
	}
	p.row("looking again each morning adds", plan.Updates, "$/ac", "over the best day fixed today, by the average")
	if pace <= 0 {
		return nil
	}
	over, short := days[0].Loss, days[0].Dry-days[1].Dry
	if short <= 0 || over <= 0 {
		p.note("A day's wait costs nothing at these prices, so no acreage is best: mow what suits.")
		return nil
	}
	var acres, chances []float64
	sum := 0.0
	for _, m := range s.Sky.Members {
		n := 0
		for n < daysWeighed+s.Target.DryDays && m.DryFrom(0, n+1) {
			n++
		}
		acres = append(acres, pace*float64(max(0, n-s.Target.DryDays+1)))
		chances = append(chances, m.Weight)
		sum += m.Weight
	}
	if sum <= 0 {
		return nil
	}
	for i := range chances {
		chances[i] /= sum
	}
	spell, err := risk.NewListed(acres, chances)
	if err != nil {
		return err
	}
	best, err := risk.Mowing{Short: short, Over: over}.Best(spell, s.InField.Acres)
	if err != nil {
		return err
	}
	p.row("acres to lay down now", best.Acres, "ac", fmt.Sprintf("an acre too many costs %s in rain, one too few %s in waiting; %.0f acres a day by the crew", Figure(over, "$"), Figure(short, "$"), pace))
	return nil
}

// named writes a day as a person says it.
func named(d unit.Day) string { return d.Time().Format("2 January") }
