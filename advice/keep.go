package advice

import (
	"fmt"
	"math"
	"strings"
	"time"

	"haywarden/agronomy/source"
	"haywarden/agronomy/stand"
	"haywarden/outlook"
)

const (
	sureEnough  = 0.9 // a chance beyond this, or under one less it, settles a class
	mostFrames  = 20  // frames in all, after which more of them settle nothing
	leastMore   = 4   // frames worth a second walk
	digRoots    = 20
	newsDays    = 21 // how long a verdict to keep is news
	feedDays    = 75 // how long a verdict that hangs on the feed is shown
	decideDays  = 45 // how long a verdict to act is pressed
	turnedBy    = time.October
	cloverShare = 0.5
)

// KeepOrTurn says what a stem count, roots and grass mean for the stand's next year.
func KeepOrTurn(s *outlook.Stand, o *outlook.Outlook) *Piece {
	if s.Stems == nil || s.Year < 1 {
		return nil
	}
	if s.Judged() == outlook.Clover {
		return cloverStand(s)
	}
	c := s.Stems.Count
	old := int(s.Date - s.Stems.Day)
	p := &Piece{Decision: "keep-or-turn", Stand: s, Urgency: Watch}
	open := undecided(c)
	verdict := stand.Matrix(c.Class, badRoots(s), s.Grass(), float64(s.Year))
	if fadedVerdict(s, open, verdict.Action, old) {
		return nil
	}
	switch {
	case open && c.Interval.N < mostFrames:
		more := max(min(leastMore, mostFrames-c.Interval.N), min(c.MoreFrames, mostFrames-c.Interval.N))
		p.Title = fmt.Sprintf("Count %s more %s and dig %d roots", Count(more), Plural(more, "frame"), digRoots)
		p.Sentence = fmt.Sprintf("%s stems a square foot (%s to %s): %s that it is under 40. More frames settle it; the roots say how it will last.", stems(c.Interval.Mean), stems(c.Interval.Low), stems(c.Interval.High), Odds(c.ChanceBelow40))
		if !c.Interval.Known() {
			p.Sentence = fmt.Sprintf("%s stems a square foot in one frame, which says nothing of the rest of the field. More frames settle it; the roots say how it will last.", stems(c.Interval.Mean))
		}
		p.Measure = "stems in frames of 2 square feet across the field, and roots split lengthwise"
		if old <= decideDays && s.Growth.Number == 1 {
			p.Urgency = Week
		}
	case open:
		p.Title = "Marginal: roots, grass and money decide"
		p.Sentence = fmt.Sprintf("%s stems a square foot after %d frames (%s to %s): more frames settle nothing. By %s: %s.", stems(c.Interval.Mean), c.Interval.N, stems(c.Interval.Low), stems(c.Interval.High), inWords(verdict.Because), verdict.Action)
		p.Measure = verdict.Ask
	default:
		p.Title = Capital(string(verdict.Action))
		p.Sentence = fmt.Sprintf("%s stems a square foot (%s to %s): %s; %s.", stems(c.Interval.Mean), stems(c.Interval.Low), stems(c.Interval.High), chancesOf(c), inWords(verdict.Because))
		p.Measure = verdict.Ask
		if verdict.Action != stand.Keep && old <= decideDays {
			p.Urgency = Week
		}
	}
	p.Worth.Text = keepWorth(s)
	p.Grounds = keepGrounds(s, verdict)
	if m, ok := KeepMoneyOf(s, o.Guide); ok {
		p.Grounds = append(p.Grounds, m.grounds()...)
		if !open {
			p.Worth.Text = moneyWorth(p.Worth.Text, m)
			p.Sentence += moneySays(m)
		}
		p.Choices = m.Choices(s)
	}
	p.Rules = []Rule{stemRule(c, verdict)}
	return p
}

// undecided reports whether a count leaves open that the stand is under 40 stems, or not: its chance,
// as shown in hundredths, lies between 1 and 9 in 10. One frame decides nothing.
func undecided(c stand.StemCount) bool {
	p := math.Round(100*c.ChanceBelow40) / 100
	return !c.Interval.Known() || p >= 1-sureEnough && p <= sureEnough
}

// fadedVerdict reports whether a count has had its say: what to count more of lasts until the first
// cut, a verdict to keep for three weeks, one that hangs on the feed until summer, one to turn under
// until the fall's work is done.
func fadedVerdict(s *outlook.Stand, open bool, a stand.Action, old int) bool {
	switch {
	case open:
		return s.Growth.Number > 1
	case a == stand.Keep:
		return old > newsDays
	case a == stand.KeepIfNeeded, a == stand.KeepThenTurn:
		return old > feedDays
	}
	return s.Date.Month() > turnedBy
}

// chancesOf says the chances that decide a class: that of under 55 goes without saying where it is
// likely under 40.
func chancesOf(c stand.StemCount) string {
	say := Odds(c.ChanceBelow40) + " that it is under 40"
	if c.ChanceBelow40 > sureEnough {
		return say
	}
	return say + ", " + Odds(c.ChanceBelow55) + " under 55"
}

// inWords says what decided a verdict as people would.
func inWords(because string) string {
	return strings.NewReplacer("stems: full", "enough stems", "stems: some loss", "few enough stems to cost some yield", "stems: replace", "too few stems").Replace(because)
}

// stems writes a stem count as it is counted, in whole stems.
func stems(v float64) string { return fmt.Sprintf("%.0f", max(0, v)) }

func badRoots(s *outlook.Stand) float64 {
	if r := s.Stems.Roots; r != nil {
		return float64(r.Bad) / float64(r.Dug)
	}
	return math.NaN()
}

func keepWorth(s *outlook.Stand) string {
	gap := stand.YieldPotential(stand.PublishedStems().Full) - s.Stems.Count.YieldPotential
	if gap < 0.05 {
		return "Stems do not hold its yield back."
	}
	return fmt.Sprintf("By its stems it gives %.1f tons an acre a year, %.1f less than a full stand.", s.Stems.Count.YieldPotential, gap)
}

// moneyWorth adds the two sums to what the tons say.
func moneyWorth(tons string, m KeepMoney) string {
	if len(m.Lacks) > 0 {
		return tons
	}
	return fmt.Sprintf("%s It makes %s an acre this year; new stands one after another make %s a year.", tons, dollar(m.Next), dollar(m.Chain))
}

// moneySays says what money says where it says otherwise than the look.
func moneySays(m KeepMoney) string {
	say := m.Decides()
	if len(m.Lacks) > 0 || strings.HasSuffix(say, "agree.") {
		return ""
	}
	return " " + say
}

func keepGrounds(s *outlook.Stand, v stand.Verdict) []Ground {
	c := s.Stems.Count
	g := []Ground{{
		What: "Stem count of " + Span(s.Stems.From, s.Stems.Day), Value: countValue(c),
		How: "Student t over frames; chances by the same", Reckon: stemArguments(s), Sources: []source.ID{source.StudentT, source.StemClasses},
	}, {
		What: "Yield by stems", Value: fmt.Sprintf("%.2f tons/ac a year", c.YieldPotential), How: "0.1 x stems + 0.38, held at 55 stems", Sources: []source.ID{source.StemYield},
	}}
	roots := "none dug"
	if r := s.Stems.Roots; r != nil {
		roots = fmt.Sprintf("%d of %d rotted or streaked (%.0f %%)", r.Bad, r.Dug, 100*badRoots(s))
	}
	return append(g, Ground{What: "Roots", Value: roots, How: "share rated 3 or worse of 5", Sources: []source.ID{source.StandMatrix}},
		Ground{What: "Matrix", Value: string(v.Action), How: fmt.Sprintf("stems, roots and %.0f %% grass, %s production year", 100*s.Grass(), Ordinal(s.Year)), Sources: []source.ID{source.StandMatrix}})
}

func countValue(c stand.StemCount) string {
	if !c.Interval.Known() {
		return fmt.Sprintf("%.1f in one frame", c.Interval.Mean)
	}
	v := fmt.Sprintf("mean %.1f, 95 %% interval %.1f to %.1f, %d frames", c.Interval.Mean, max(0, c.Interval.Low), c.Interval.High, c.Interval.N)
	if c.Interval.Mean > 0 {
		v += fmt.Sprintf(", CV %.2f", c.Interval.CV)
	}
	return v
}

// stemArguments writes the counts as the reckoning takes them.
func stemArguments(s *outlook.Stand) string {
	text, frame := "", 0.0
	for _, v := range s.Visits {
		if v.Day < s.Stems.From || v.Day > s.Stems.Day {
			continue
		}
		for _, f := range v.Body.Frames {
			if f.Stems == nil {
				continue
			}
			if frame != 0 && f.Ft2 != frame {
				return ""
			}
			if frame = f.Ft2; text != "" {
				text += ","
			}
			text += fmt.Sprint(*f.Stems)
		}
	}
	return fmt.Sprintf("stem-count counts=%s frame=%g acres=%g", text, frame, s.InField.Acres)
}

func stemRule(c stand.StemCount, v stand.Verdict) Rule {
	r := Rule{Says: "over 55 stems gives full yield, 40-54 some loss but often another year, under 40 is time to replace", Source: source.RuleStems}
	switch {
	case c.Interval.Mean >= 55:
		r.Here = "full yield"
	case c.Interval.Mean >= 40:
		r.Here = "some loss, often another year"
	default:
		r.Here = "time to replace"
	}
	if undecided(c) {
		r.Differs = "the count is too uncertain to name a class by its mean alone"
	} else if c.Class != stand.Replace && (v.Action == stand.TurnUnder || v.Action == stand.FirstCutThenTurn) {
		r.Differs = "the rule looks at stems only and the roots are failing"
	}
	return r
}

// cloverStand checks red clover against half of alfalfa's stem numbers, which never decides by itself.
func cloverStand(s *outlook.Stand) *Piece {
	c := s.Stems.Count
	if int(s.Date-s.Stems.Day) > newsDays || s.Growth.Number > 1 {
		return nil
	}
	p := &Piece{Decision: "keep-or-turn", Stand: s, Urgency: Watch, Title: "Red clover: stand looks usable"}
	p.Sentence = fmt.Sprintf("%s stems a square foot. No density guide for red clover is published; half of alfalfa's numbers is used as a check only.", stems(c.Interval.Mean))
	if c.Interval.Mean < 40*cloverShare || s.Year >= 3 {
		p.Title = "Red clover: look hard before counting on it"
		p.Sentence += fmt.Sprintf(" In its %s year most stands are thinning.", Ordinal(s.Year))
	}
	p.Grounds = keepGrounds(s, stand.Verdict{Action: "not decided by numbers"})
	return p
}
