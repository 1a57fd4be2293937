package advice

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/source"
	"haywarden/agronomy/stand"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	spokenAhead = 400 // days before seeding from which lime is this week's business (choice)
	limeLead    = 183 // days before seeding by which lime is spread at the latest, [source.LimeLead]
	oldStand    = 4   // production year from which a stand's field is readied for the next (choice)
	leastMg     = 50  // ppm of magnesium under which lime is dolomitic, [source.LimeMagnesium]
	untilledLow = 5.8 // pH under which alfalfa is not seeded without tillage, [source.LimeNoTill]
	limeFrom    = time.August
	limeUntil   = time.November
)

// LimeNow says what lime a field wants so that it has acted when a legume is seeded: for a seeding that is
// planned, for the next stand where this one is old or thin, else on the standing crop after its last cut.
func LimeNow(s *outlook.Stand, o *outlook.Outlook) *Piece {
	var plan *outlook.Planned
	for i := range s.Plans {
		if !s.Plans[i].Plan.Body.Into {
			plan = &s.Plans[i]
			break
		}
	}
	if plan == nil && (!s.Growing(s.Date) || s.SeedingYear() || s.Date.Month() < limeFrom || s.Date.Month() > limeUntil) {
		return nil
	}
	crop := s.SoilCrop()
	if plan != nil {
		crop = plan.SoilCrop()
	}
	tilled := plan != nil || lastYears(s)
	l, err := o.Lime(s, crop, !tilled)
	if l.Test == nil || l.Test.Old(s.Date) {
		if plan != nil {
			return limeUntested(s, plan, l)
		}
		return nil
	}
	if !l.Target.Short(round1(l.Test.PH)) || err == nil && l.Tons == 0 {
		return nil
	}
	if _, limed := s.LimedSince(l.Test.Day); limed {
		return nil // the test does not know of it: the next one tells
	}
	p := &Piece{Decision: "lime", Stand: s, Urgency: Watch}
	ph := fmt.Sprintf("pH %.1f is under the %.1f that %s wants", l.Test.PH, l.Target.PH, cropWord(crop))
	rate := limeRate(l, err, tilled)
	switch {
	case plan != nil:
		p.forSeeding(plan, l, crop, ph, rate)
	case lastYears(s):
		p.Title = "Lime when this stand is turned under"
		p.Sentence = fmt.Sprintf("%s, and this stand is in its last years. %s Spread and worked in when it is turned under, lime has acted by the next legume.", ph, rate)
	default:
		p.Title = "Lime the stand after its last cut"
		p.Sentence = fmt.Sprintf("%s. %s On a standing crop it acts in the top inches only; no more than 4 tons at once, and a new test after 2 years.", ph, rate)
	}
	if l.Test.Mg != 0 && l.Test.Mg < leastMg {
		p.Sentence += fmt.Sprintf(" Magnesium is %.0f ppm: take dolomitic stone.", l.Test.Mg)
		p.Grounds = append(p.Grounds, Ground{What: "Magnesium", Value: fmt.Sprintf("%.0f ppm, under %d", l.Test.Mg, leastMg), How: "dolomitic stone where it is short", Sources: []source.ID{source.LimeMagnesium}})
	}
	p.Worth.Text = limeWorth(s, o, l, err)
	p.Measure = "the effective neutralizing power of the lime that is to be had, which sets its tons"
	p.Grounds = append([]Ground{testGround(l.Test), {
		What: "Target", Value: fmt.Sprintf("pH %.1f, lime from more than %.1f under it", l.Target.PH, l.Target.Gap), How: targetHow(l.Target), Sources: []source.ID{l.Target.Source},
	}}, append(limeGrounds(l, err, tilled), p.Grounds...)...)
	return p
}

// forSeeding says what lime a planned seeding wants, and that it is late where less than six months are left.
func (p *Piece) forSeeding(plan *outlook.Planned, l outlook.Limed, crop soil.Crop, ph, rate string) {
	sow, today := plan.Window.Best, p.Stand.Date
	p.Urgency, p.Title = Week, "Lime now for the seeding of "+monthOf(sow)
	p.Window = beforeSeeding(today, sow)
	p.Sentence = fmt.Sprintf("%s, and it is to be seeded about %s, in %d weeks. %s", ph, Short(sow), max(0, int(sow-today))/7, rate)
	switch {
	case sow-today > spokenAhead:
		p.Urgency = Watch
	case sow-today < limeLead:
		p.Sentence += " Lime wants six months at least: what is spread and worked in now does part of it by then, and the rest later."
	}
	if l.Test.PH < untilledLow && crop == soil.Alfalfa {
		p.Cautions = append(p.Cautions, fmt.Sprintf("Under pH %.1f alfalfa is not seeded without tillage: lime that lies on top does not reach the roots in time.", untilledLow))
	}
}

// limeUntested sends for a soil test before a seeding that is planned.
func limeUntested(s *outlook.Stand, plan *outlook.Planned, l outlook.Limed) *Piece {
	sow := plan.Window.Best
	p := &Piece{
		Decision: "lime", Stand: s, Urgency: Week, Errand: true, Title: "Sample the soil before the seeding of " + monthOf(sow), Measure: "pH and buffer pH, by the laboratory of your state",
		Sentence: fmt.Sprintf("%s is to be seeded about %s, and no soil test of the last %s years says whether the field wants lime, which takes six months to act.", Capital(cropWord(plan.SoilCrop())), Short(sow), Count(outlook.SoilHolds)),
	}
	p.Window = beforeSeeding(s.Date, sow)
	if l.Test != nil {
		p.Grounds = append(p.Grounds, testGround(l.Test))
	}
	p.Grounds = append(p.Grounds, Ground{What: "Lead time", Value: "six months at least", How: "lime acts slowly, and only where it is mixed in", Sources: []source.ID{source.LimeLead}})
	return p
}

// beforeSeeding is until when lime is spread: six months before seeding, or where that is past, at once.
func beforeSeeding(today, sow unit.Day) *Window {
	last, means := sow-limeLead, "six months and more before seeding"
	if last < today {
		last, means = max(today, sow), "before seeding; six months are wanted, so the sooner the better"
	}
	return &Window{Early: today, Middle: today, Late: last, Best: today, Means: means, Firm: true}
}

// lastYears reports whether a stand is old, or too thin to be kept on.
func lastYears(s *outlook.Stand) bool {
	return s.Year >= oldStand || s.Stems != nil && s.Stems.Count.Class == stand.Replace
}

// limeRate says how much lime, or why that cannot be said.
func limeRate(l outlook.Limed, err error, tilled bool) string {
	switch {
	case errors.Is(err, soil.ErrNotLoaded):
		return "How much lime brings it there cannot be said: the guide's table is not in the program; type it in from the print, or follow another guide."
	case err != nil:
		return "How much lime brings it there cannot be said: " + err.Error() + "."
	}
	return fmt.Sprintf("It takes %.1f tons an acre of %s to %.3g in: %s.", float64(l.Tons), l.Basis, float64(l.Depth), l.Split(!tilled))
}

func limeWorth(s *outlook.Stand, o *outlook.Outlook, l outlook.Limed, err error) string {
	worth := "A legume on sour ground nodulates poorly and thins; no yield for a tenth of pH is published here."
	if err != nil {
		return worth
	}
	price, line, ok := o.LimePrice(s)
	if !ok {
		return worth
	}
	return worth + fmt.Sprintf(" It costs about $%.0f an acre where a ton of your lime does as much as a ton of the guide's (%s).", price*float64(l.Tons), line)
}

func limeGrounds(l outlook.Limed, err error, tilled bool) []Ground {
	lead := Ground{What: "Lead time", Value: "six months at least", How: "lime acts slowly, and only where it is mixed in", Sources: []source.ID{source.LimeLead}}
	if err != nil {
		return []Ground{{What: "Rate", Value: "not said", How: err.Error(), Sources: []source.ID{source.LimeLead}}}
	}
	g := Ground{
		What: "Rate", Value: fmt.Sprintf("%.2f tons/ac of %s", float64(l.Tons), l.Basis), How: fmt.Sprintf("%s guide to pH %.1f, %.3g in deep", Capital(string(l.Guide)), l.Liming.Target, float64(l.Depth)), Reckon: limeArguments(l), Sources: limeSources(l.Guide),
	}
	for _, n := range l.Notes {
		g.How += "; " + n
	}
	split := Ground{What: "How it is put on", Value: l.Split(!tilled), How: "guides differ in what they allow at once", Sources: []source.ID{source.LimeSplit, source.LimeMichigan, source.LimeNoTill}}
	return []Ground{g, split, lead}
}

// limeArguments writes the question as the reckoning takes it; empty where typed lines answered it.
func limeArguments(l outlook.Limed) string {
	for _, n := range l.Notes {
		if strings.Contains(n, "typed in") {
			return ""
		}
	}
	args := fmt.Sprintf("lime guide=%s ph=%.4g target=%g", l.Guide, l.Test.PH, l.Liming.Target)
	if l.Test.Buffer != 0 {
		args += fmt.Sprintf(" buffer=%.4g", l.Test.Buffer)
	}
	if l.Test.Acidity >= 0 {
		args += fmt.Sprintf(" acidity=%.4g", l.Test.Acidity)
	}
	if l.Test.CEC != 0 {
		args += fmt.Sprintf(" cec=%.4g", float64(l.Test.CEC))
	}
	return args
}

func limeSources(g soil.LimeGuide) []source.ID {
	return map[soil.LimeGuide][]source.ID{
		soil.LimeOhio: {source.LimeOhio, source.LimeOhioLines}, soil.LimeIowa: {source.LimeIowa}, soil.LimePennState: {source.LimePennState, source.LimePennTurf},
		soil.LimeCarolina: {source.LimeCarolina}, soil.LimeKansas: {source.LimeKansas}, soil.LimeCEC: {source.LimeFromCEC},
	}[g]
}

func targetHow(t soil.Target) string {
	if t.State == "" {
		return "no target of this state is in the program: the least that any guide prints"
	}
	return t.State + "'s guide"
}

// cropWord is a crop as people say it.
func cropWord(c soil.Crop) string {
	if c == soil.RedClover {
		return "red clover"
	}
	return "alfalfa"
}

// monthOf writes a month with its year: August 2026.
func monthOf(d unit.Day) string { return d.Time().Format("January 2006") }

// round1 is a pH as it is printed.
func round1(v float64) float64 { return float64(int(v*10+0.5)) / 10 }
