package advice

import (
	"fmt"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
	"math"
	"strings"
)

const (
	readyDays  = 7  // days before the window opens at which to get ready
	earlyWatch = 25 // days before the window opens at which the cut is first spoken of
	noticeDays = 2  // a producer is called this long before the best day
	waitDays   = 7  // what acting is compared with: waiting a week
	overDays   = 7  // days after the late date for which the cut is still called for
)

// qualityCut is the cut judged by feed value: by the day on which standing RFV comes down to what the
// harvest loss still leaves enough of.
func qualityCut(s *outlook.Stand, o *outlook.Outlook, decision string) *Piece {
	ahead := s.Ahead()
	if ahead == nil {
		return unjudged(s, decision, blind(s))
	}
	target := s.Target.CutRFV
	days := ahead.Reaches(target)
	w, ok := days.Window()
	if !ok || w.Early > s.Date+earlyWatch {
		return nil
	}
	best, fit := ahead.BestDay(max(w.Early, s.Date), max(w.Late, s.Date+2), s.Target.DryDays, target)
	p := &Piece{
		Decision: decision, Stand: s,
		Window: &Window{Early: w.Early, Middle: w.Middle, Late: w.Late, Best: best, Means: fmt.Sprintf("standing RFV down to %s", Points(target))},
	}
	if w.Late >= s.Date && fit >= 0.05 {
		p.Window.BestWhy = fmt.Sprintf("%s of %s with a feed value within 10 points of the target", Odds(fit), drySpell(s.Target.DryDays))
	}
	p.callFor(w, best)
	p.Sentence = cutSentence(s, w)
	p.Worth, p.LossShare = delayWorth(s, ahead, best)
	if w.Early > s.Date {
		p.LossShare = 0
	}
	p.Measure = nextReading(s)
	p.Grounds = cutGrounds(s, o, w, ahead)
	p.Rules = cutRules(s, ahead, w)
	if s.ReducedLignin() {
		p.Rules = append(p.Rules, Rule{Says: "reduced-lignin alfalfa may stand about 5 days longer at equal digestibility", Here: "RFV cannot see it: the window is for RFV", Source: source.ReducedLignin})
	}
	return p
}

// callFor sets title and urgency by where the date stands in the window.
func (p *Piece) callFor(w outlook.Window, best unit.Day) {
	today := p.Stand.Date
	what := "Cut"
	if p.Stand.Growth.Number > 1 {
		what = "Take the " + Ordinal(p.Stand.Growth.Number) + " cut"
	}
	from := Short(best)
	if best < today+6 {
		from = best.Time().Format("Monday")
	}
	switch {
	case today > w.Late+overDays:
		p.Urgency, p.Title = Today, what+" now: its quality has gone by"
	case today >= w.Early && best <= today:
		p.Urgency, p.Title = Today, what+" now"
	case today >= w.Early && best == today+1:
		p.Urgency, p.Title = Today, what+" from tomorrow"
	case today >= w.Early-1 && best <= today+noticeDays:
		p.Urgency, p.Title = Today, what+" from "+from
	case today >= w.Early-1:
		p.Urgency, p.Title = Week, what+" from "+from
	case today >= w.Early-readyDays:
		p.Urgency, p.Title = Week, "Get ready to cut"
	default:
		p.Urgency, p.Title = Watch, Capital(Ordinal(p.Stand.Growth.Number))+" cut about "+Short(w.Middle)
	}
}

func cutSentence(s *outlook.Stand, w outlook.Window) string {
	var b strings.Builder
	target := Points(s.Target.CutRFV)
	leaves := "leaves"
	switch {
	case w.Late < s.Date:
		fmt.Fprintf(&b, "Standing RFV went below %s about %s", target, Short(w.Middle))
		leaves = "would have left"
	case w.Middle < s.Date:
		fmt.Fprintf(&b, "Standing RFV most likely passed %s about %s", target, Short(w.Middle))
	default:
		fmt.Fprintf(&b, "Standing RFV comes down to %s about %s", target, Weekday(w.Middle))
	}
	fmt.Fprintf(&b, ", which %s %s for the cow as %s", leaves, Points(s.Target.FeedRFV), s.Target.Product)
	if s.Standing.Borrowed {
		b.WriteString("; no reading here" + lentFrom(s))
	}
	b.WriteString(".")
	return b.String()
}

func drySpell(n int) string {
	if n == 1 {
		return "a dry day"
	}
	return Count(n) + " dry days in a row"
}

func lentFrom(s *outlook.Stand) string {
	for _, b := range s.Standing.From {
		if b.Name == outlook.BasisNeighbours {
			return fmt.Sprintf(", judged from %s %s read nearby", Count(b.N), Plural(b.N, "field"))
		}
	}
	return ", judged by heat alone"
}

// delayWorth is what cutting on the best day gains against a week later. The ton that waiting adds to
// this cut is a day's growth lost at the season's end, so quality is what waiting costs.
func delayWorth(s *outlook.Stand, a *outlook.Ahead, best unit.Day) (Worth, float64) {
	from := max(0, int(best-s.Date))
	low, mid, high, ok := a.Loss(from, from+waitDays)
	if !ok || mid <= 0 {
		return Worth{}, 0
	}
	tons := s.Yield.FirstCut
	w := Worth{Text: fmt.Sprintf("A week's wait loses %s points (%s to %s) on %.1f tons an acre; the %.1f ton it adds is growth lost at the season's end.",
		Points(mid), Points(low), Points(high), tons, waitDays*s.Yield.DailyGrowth)}
	share := mid / waitDays * pointTon * tons / s.Yield.Year
	price, ok := s.HayPrice()
	if !ok {
		return w, share
	}
	// What is sold is priced as it will be fed, and never under the deck's floor.
	const sold = (1 - dryMatterLoss) / hayDryMatter // tons of hay from a standing ton of dry matter
	hay := tons * sold
	low, mid, high, _ = a.LossOf(from, from+waitDays, func(rfv float64) float64 { return hay * price.Ton(rfv-s.Target.Loss) })
	w.Dollars = &Dollars{
		Low: low, Middle: mid, High: high,
		Against:      "waiting until " + Short(best+waitDays),
		Line:         fmt.Sprintf("%s (%s), $%.2f a point of hay", price.Deck, price.Day, price.Per),
		Short:        fmt.Sprintf("%s, $%.2f a point", price.Deck, price.Per),
		NoDifference: low <= 0,
	}
	if price.Old > 0 {
		w.Dollars.Line += fmt.Sprintf(", a price %d days old", price.Old)
		w.Dollars.Short += fmt.Sprintf(", %d days old", price.Old)
	}
	if w.Dollars.NoDifference {
		w.Dollars.Line += fmt.Sprintf(", at its floor of $%.0f a ton", price.Floor)
	}
	return w, mid / waitDays / (s.Yield.Year * sold * price.Ton(s.Target.FeedRFV))
}

const (
	pointTon      = 0.0074 // tons that a point of RFV on a ton counts as, for ordering alone (choice)
	dryMatterLoss = 0.10   // of the standing crop's dry matter, lost to the store (choice)
	hayDryMatter  = 0.88   // hay is sold at 12 % moisture
)

// nextReading says what would narrow the window most.
func nextReading(s *outlook.Stand) string {
	r, ok := s.LastReading()
	if ok && s.Date-r.Day <= 3 {
		return ""
	}
	if !ok {
		return "a stick reading of five spots in this field"
	}
	return fmt.Sprintf("a stick reading of five spots: the last is %d days old", s.Date-r.Day)
}

func cutGrounds(s *outlook.Stand, o *outlook.Outlook, w outlook.Window, a *outlook.Ahead) []Ground {
	var g []Ground
	if r, ok := s.LastReading(); ok && !s.Standing.Borrowed {
		g = append(g, Ground{
			What:  "Stick reading of " + Short(r.Day),
			Value: fmt.Sprintf("RFV %s ± %.0f (spots %.0f, method %.0f), NDF %.1f %%", Points(r.Field.RFV), r.Field.SD, r.Field.SpotSE, r.Field.MethodSD, r.Field.NDF),
			How:   fmt.Sprintf("%d spots, tallest stem and stage of the most mature one; pure alfalfa only", r.Field.N), Reckon: stickArguments(r, s.Growth.Number),
			Sources: []source.ID{source.StickTable, source.StickFit, source.StickSpread},
		})
	}
	for _, b := range s.Standing.From {
		switch b.Name {
		case outlook.BasisHeat:
			now := s.Sky.Heat41.Now()
			g = append(g, Ground{
				What: "Heat since 1 March", Value: fmt.Sprintf("%.0f F-days above 41 °F through %s: NDF %.1f %% ± %.0f", now, Short(s.Sky.Through), b.NDF, b.SD),
				How:    fmt.Sprintf("daily mean less 41 °F, station %s%s", s.Sky.Station.Name, filledNote(s.Sky.Heat41)),
				Reckon: fmt.Sprintf("heat-fibre gdd41=%.1f", now), Sources: []source.ID{source.HeatFibre, source.MSUHeat},
			})
		case outlook.BasisNeighbours:
			g = append(g, neighbourGround(s, o, b))
		case outlook.BasisLab:
			g = append(g, Ground{
				What: "Laboratory, sample of " + Short(b.Day), Value: fmt.Sprintf("NDF %.1f %% ± %.1f this morning", b.NDF, b.SD),
				How: "result of the standing crop, carried on by the days since; kept beside the reading, not over it", Sources: []source.ID{source.LabErrors, source.DailyRates},
			})
		}
	}
	if c := s.Standing.Corrected; c != nil {
		g = append(g, Ground{
			What: "Corrected by the laboratory", Value: fmt.Sprintf("%+.1f NDF on the stick, from %d %s of this farm's %s cut (%+.1f on average)", c.Bias, c.N, Plural(c.N, "sample"), Ordinal(c.Cutting), c.Mean),
			How:     fmt.Sprintf("the mean difference drawn towards zero, as few samples say little (± %.1f); samples of this growth itself stand beside the reading", c.SD),
			Sources: []source.ID{source.ShrunkBias, source.OutlierLimit},
		})
	}
	g = append(g, Ground{
		What: "Standing this morning", Value: fmt.Sprintf("RFV %s ± %.0f, NDF %.1f %%, ADF %.1f %%", Points(s.Standing.RFV), s.Standing.SD, s.Standing.NDF, s.Standing.ADF),
		How: standingHow(s.Standing), Sources: []source.ID{source.InverseVar, source.DailyRates, source.RFVFormula},
	})
	g = append(g, Ground{
		What: "Ahead", Value: fmt.Sprintf("%s, %s, %s (10, 50, 90 %%)", Short(w.Early), Short(w.Middle), Short(w.Late)),
		How:     fmt.Sprintf("fibre grows by the season's daily rate, itself uncertain, faster in warm weather, through %s, each with %d equally likely errors of today's estimate", s.Sky.Follows(), outlook.ErrorSteps),
		Reckon:  fmt.Sprintf("quality-ahead ndf=%.1f adf=%.1f cp=20 days=7 season=%s", s.Standing.NDF, s.Standing.ADF, s.Standing.Season),
		Sources: aheadSources(s.Sky, source.DailyRates, source.RateScale),
	})
	g = append(g, Ground{
		What: "Target", Value: fmt.Sprintf("%s at feeding%s + %s lost to %s (%s to %s) = cut at %s", Points(s.Target.FeedRFV), assumed(s.Target.Assumed), Points(s.Target.Loss), s.Target.Product, Points(s.Target.LossLow), Points(s.Target.LossHigh), Points(s.Target.CutRFV)),
		How: "harvest and storage loss by product", Sources: []source.ID{source.HarvestLoss},
	})
	if dry := s.Sky.DryChance(7, s.Target.DryDays); !math.IsNaN(dry) { // not known where the year ends before
		g = append(g, Ground{
			What: "Dry weather", Value: fmt.Sprintf("%s of this fortnight's days open %s", years10(dry), drySpell(s.Target.DryDays)),
			How: "counted over the station's past years; a dry day has under 0.25 mm", Sources: []source.ID{source.DryDay},
		})
	}
	return append(g, yieldGround(s))
}

func years10(p float64) string { return fmt.Sprintf("%.0f %%", 100*p) }

func standingHow(st *outlook.Standing) string {
	names := make([]string, len(st.From))
	for i, b := range st.From {
		names[i] = fmt.Sprintf("%s (NDF %.1f ± %.1f)", b.Name, b.NDF, b.SD)
	}
	how := "from " + strings.Join(names, " and ")
	if len(st.From) > 1 {
		how += ", weighted by their errors: " + st.Shared.String()
	}
	if !st.HeatAgrees {
		how += "; the two disagree by more than their errors explain: read again"
	}
	return how
}

// cutRules sets the trade's rules beside the method: for the first cut 170 and 3-5 points a day, for the
// second the days between cuts.
func cutRules(s *outlook.Stand, a *outlook.Ahead, w outlook.Window) []Rule {
	var rules []Rule
	if s.Growth.Number > 1 {
		rules = append(rules, intervalRule(s, w.Middle, "its feed value comes down to the target"))
	} else if at170, ok := a.Reaches(170).Window(); ok {
		r := Rule{Says: "start the first cut at a standing RFV of 170 so that 150 reaches the cow", Here: "170 stands about " + Short(at170.Middle), Source: source.RuleFirstCut170}
		if gap := int(w.Middle - at170.Middle); gap != 0 {
			r.Differs = fmt.Sprintf("this stand is cut at %s: %s loses %s points and %s are wanted at feeding", Points(s.Target.CutRFV), s.Target.Product, Points(s.Target.Loss), Points(s.Target.FeedRFV))
		}
		rules = append(rules, r)
	}
	loss := Rule{
		Says: "15 to 20 points are lost in harvest", Source: source.RuleLossToCow,
		Here: fmt.Sprintf("%s to %s (%s to %s)", Points(s.Target.Loss), s.Target.Product, Points(s.Target.LossLow), Points(s.Target.LossHigh)),
	}
	if s.Target.Loss < 15 || s.Target.Loss > 20 {
		loss.Differs = "dry hay loses more leaf than haylage"
	}
	rules = append(rules, loss)
	if low, mid, high, ok := a.Loss(0, waitDays); ok {
		r := Rule{Says: "each day of delay costs 3 to 5 points", Here: fmt.Sprintf("%.1f points a day over the next week (%.1f to %.1f)", mid/waitDays, low/waitDays, high/waitDays), Source: source.RuleDelay}
		if perDay := mid / waitDays; math.Round(perDay*10) < 30 || math.Round(perDay*10) > 50 {
			r.Differs = "the rate follows the usual temperatures of the coming days and slows as fibre rises"
		}
		rules = append(rules, r)
	}
	return rules
}
