package advice

import (
	"fmt"

	"haywarden/agronomy/source"
	"haywarden/agronomy/stand"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	hailWait    = 4  // days after hail that lodged the crop before it is cut
	cutTall     = 12 // in of growth from which a crop is within two weeks of its cut
	tipsMany    = 50 // % of tips broken from which the growth is done
	tipsLate    = 25 // the same at late bud, by the careful source
	tipsAlways  = 67 // % from which it is cut whatever its height, by one source
	hailPerLeaf = 35 // lb of dry matter an acre for each % of leaves lost
	cloverLeaf  = 23 // the same of later red clover
	pondGrowing = 3  // days that growing alfalfa stands under water
	pondDormant = 7  // days that dormant alfalfa does
	siltMost    = 3  // in of silt that it grows through
	dryTall     = 10 // in from which drought-stressed alfalfa is worth a cut
	poundsTon   = 2000
)

// OtherHarm says what hail, standing water or drought that somebody looked at means: what to look at and
// when, what the growth gives, and what becomes of the plan.
func OtherHarm(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	h := s.Harmed()
	if h == nil || s.SeedingYear() && h.Kind == outlook.Drought {
		return nil
	}
	p := &Piece{Decision: "other-harm", Stand: s, Urgency: Week}
	switch h.Kind {
	case outlook.Hail:
		hailed(p, s, h)
	case outlook.Ponding:
		ponded(p, s, h)
	case outlook.Drought:
		dried(p, s, h)
	}
	p.Grounds = append(p.Grounds, Ground{What: "Seen", Value: fmt.Sprintf("%s of %s, looked at on %s", h.Kind, Short(h.Day), Short(h.SeenOn)), How: "by eye", Sources: harmSources(h)})
	return p
}

func harmSources(h *outlook.Harmed) []source.ID {
	switch h.Kind {
	case outlook.Hail:
		return []source.ID{source.HailCut, source.HailNebraska}
	case outlook.Ponding:
		return []source.ID{source.PondingDays, source.PondingDormant}
	case outlook.Drought:
	}
	return []source.ID{source.DroughtCut}
}

// hailed follows the terminal buds: a stem whose tip is gone is done.
func hailed(p *Piece, s *outlook.Stand, h *outlook.Harmed) {
	height, _, read := standingHeight(s)
	if h.Leaves != nil && *h.Leaves > 0 {
		per, kind := float64(hailPerLeaf), "alfalfa"
		if s.Judged() == outlook.Clover && s.Growth.Number > 1 {
			per, kind = cloverLeaf, "later red clover"
		}
		lost := per * *h.Leaves / poundsTon
		p.Worth.Text = fmt.Sprintf("About %.1f tons of dry matter an acre lost with the leaves, less on a small crop.", lost)
		p.Grounds = append(p.Grounds, Ground{What: "Yield lost to hail", Value: fmt.Sprintf("%.2f tons/ac", lost), How: fmt.Sprintf("%.0f lb for each of %.0f %% of leaves, %s within two weeks of the cut", per, *h.Leaves, kind), Sources: []source.ID{source.HailLoss}})
	}
	if s.SeedingYear() {
		p.Title = "Hail: count plants that live"
		p.Sentence = "Seedlings under 3-4 in have no crown yet and die with their tips. Keep the seeding where 25 plants a square foot or more are left; under a year old it may be thickened with alfalfa."
		p.Measure = "living plants in 5 frames of 2 square feet"
		return
	}
	if h.Tips == nil {
		p.Title, p.Errand = "Hail: look at the tips of 50 stems", true
		p.Sentence = "A stem whose top bud is broken grows no more. The share of such stems decides whether the crop is cut now or left."
		p.Measure = "stems with the top bud broken or bruised, of 50"
		return
	}
	near := read != "" && height >= cutTall
	tips := *h.Tips
	switch {
	case near && h.Lodged:
		p.Title = "Hail, lodged: cut from " + Short(h.Day+hailWait)
		p.Window = &Window{Early: h.Day + hailWait, Middle: h.Day + hailWait, Late: h.Day + hailWait + 7, Best: max(s.Date, h.Day+hailWait), Means: "four days after the storm", Firm: true}
		p.Sentence = "It lies and was within two weeks of its cut: wait four days from the storm, then cut against the way it leans; soil in it harms silage."
	case near && tips > tipsMany:
		p.Title, p.Urgency = "Hail: cut now", Today
		p.Sentence = fmt.Sprintf("%.0f %% of the tips are broken: what grows from here are new shoots that belong to the next cutting.", tips)
	case near && tips > tipsLate:
		p.Title, p.Urgency = "Hail: sources differ; cut at late bud, else at its time", Watch
		p.Sentence = fmt.Sprintf("%.0f %% of the tips are broken: Wisconsin waits for the usual time under half, Nebraska cuts at once at late bud over a quarter. Yield falls, whole stems grow on.", tips)
	case near:
		p.Title, p.Urgency = "Hail: cut at its time", Watch
		p.Sentence = fmt.Sprintf("%.0f %% of the tips are broken, under half: the others grow on. Expect less yield.", tips)
	case tips >= tipsAlways:
		p.Title, p.Urgency = "Hail on short growth: sources differ", Watch
		p.Sentence = fmt.Sprintf("%.0f %% of the tips are broken on growth of under 12 in: Wisconsin lets it regrow, Nebraska would cut or shred it so that the crown shoots. The next cut is later by what it had grown.", tips)
	default:
		p.Title, p.Urgency = "Hail on short growth: let it regrow", Watch
		p.Sentence = "More than two weeks from its cut it grows again from new shoots: judge the next cut by height and stage, not by heat or days."
	}
	p.Measure = "height of the new shoots in ten days"
}

// ponded follows the days under water, by whether the crop was growing.
func ponded(p *Piece, s *outlook.Stand, h *outlook.Harmed) {
	dormant := s.Growth.Number == 1 && heatKnown(s) && s.Sky.Heat41.On(h.Day) < countHeat
	limit, how := pondGrowing, "growing"
	if dormant {
		limit, how = pondDormant, "dormant"
	}
	p.Title, p.Errand = "Water stood: dig roots", true
	p.Measure = "20 roots split, a week after the water left: soft, brown or foul ones will not live"
	look := h.Day + unit.Day(limit) + 7
	p.Window = &Window{Early: look, Middle: look, Late: look + 7, Best: max(s.Date, look), Means: "damage shows in the roots", Firm: true}
	switch {
	case h.Silt != nil && *h.Silt > siltMost:
		p.Title = "Silt: plan to seed anew"
		p.Sentence = fmt.Sprintf("%.0f in of silt lie on it; alfalfa grows through 2-3. Level it and sow something else this year.", *h.Silt)
	case h.Soft != nil && *h.Soft:
		p.Title, p.Errand = "Drowned: sow something else", false
		p.Sentence = "Roots are soft or foul and will not live. Sow a warm-season annual where they died, and alfalfa only after another crop; keep off the wet ground until it bears."
	case h.Under == nil:
		p.Sentence = fmt.Sprintf("How long water stood decides: %s alfalfa bears about %d days, less in heat and in still water.", how, limit)
	case *h.Under > float64(limit):
		p.Sentence = fmt.Sprintf("%.0f days under water; %s alfalfa bears about %d, less in heat and in still water. Dig before the next cut is planned, and let it reach bloom before it is cut.", *h.Under, how, limit)
	default:
		p.Urgency = Watch
		p.Sentence = fmt.Sprintf("%.0f days under water, and %s alfalfa bears about %d: it should live. Dig a few roots where water stood longest; expect slower growth.", *h.Under, how, limit)
	}
	p.Worth.Text = "What drowned yields nothing more this year."
}

// dried follows height: short growth under the sun is left to itself.
func dried(p *Piece, s *outlook.Stand, h *outlook.Harmed) {
	height, _, read := standingHeight(s)
	p.Urgency = Watch
	p.Measure = "height and bloom in ten days"
	first := stand.FirstCutShare()
	switch {
	case read == "":
		p.Title, p.Errand, p.Urgency = "Drought: measure its height", true, Week
		p.Sentence = "Over 10 in at half to full bloom it is worth a cut; shorter it is left, and regrows through what stands once rain comes."
		p.Measure = "height and share of stems in bloom"
	case height <= dryTall || h.Crowns != nil && *h.Crowns:
		p.Title = "Drought: leave it uncut"
		p.Sentence = fmt.Sprintf("%.0f in tall, and the crowns see the sun: cutting brings no regrowth. It keeps its quality, and new shoots come through it after rain.", height)
	default:
		p.Title = "Drought: cut at half to full bloom where it pays"
		p.Sentence = fmt.Sprintf("%.0f in tall: cut it at half to full bloom if the yield pays for the cutting. Roots are full; heat and days say nothing of its quality now, and mixtures may hold nitrate.", height)
		p.Cautions = append(p.Cautions, "Drought can fill grasses and weeds in the stand with nitrate: have such forage tested before it is fed, and ask a veterinarian or nutritionist how to feed it.")
	}
	p.Worth.Text = fmt.Sprintf("A first cut carries about %.0f %% of the year's yield; what drought takes of a later one is not made up.", 100*first)
}
