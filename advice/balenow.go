package advice

import (
	"fmt"
	"math"
	"strings"
	"time"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

const (
	likely   = 0.7 // a chance from which hay is counted on, as for [curing.Go]
	lookDays = 6   // ahead for the day on which it is fit
)

// BaleNow says bale now or wait of hay that was mown and, as far as the book knows, lies on the ground.
func BaleNow(s *outlook.Stand, _ *outlook.Outlook) *Piece {
	mown, ok := s.LyingHay()
	if !ok || s.Sky == nil {
		return nil
	}
	pack, assumedPack := s.BalesAs()
	limits, err := storage.PublishedBaling().Of(storage.Package(pack))
	if err != nil {
		return unjudged(s, "bale-now", err.Error())
	}
	lying, ok := s.Sky.Lies(mown, curing.Product(pack).Target())
	if !ok {
		p := unjudged(s, "bale-now", fmt.Sprintf("hay was mown on %s and the weather since is not all known: test its moisture before baling", Short(mown)))
		p.Cautions = []string{machinery}
		p.warn(storage.KeepLooking, storage.ProbeRight, storage.CallFirst, storage.NeverAlone)
		return p
	}
	now := math.Round(float64(lying.Now))
	words := strings.ReplaceAll(pack, "-", " ") + " bales"
	p := &Piece{Decision: "bale-now", Stand: s, Urgency: Today, Measure: "the moisture of the wettest windrow, before the baler goes in", Cautions: []string{machinery}}
	today := lying.By(24)
	fit := -1
	for d := range lookDays {
		if fit < 0 && lying.By(float64(24*(d+1))) >= 0.5 {
			fit = d
		}
	}
	switch {
	case today >= likely:
		p.Title = fmt.Sprintf("Bale today, once it tests %.0f %%", limits.Target)
	case fit == 0:
		p.Title = "Bale today or wait: too near to call"
	case fit > 0:
		p.Title = "Wait with baling: fit " + When(s.Date, s.Date+unit.Day(fit))
	default:
		p.Title = "Wait with baling, or wrap it: no dry spell in sight"
	}
	rain := "without rain so far"
	if lying.RainMM >= 0.5 {
		rain = fmt.Sprintf("after %.0f mm of rain", lying.RainMM)
	}
	p.Sentence = fmt.Sprintf("Mown on %s, by the curing model at about %.0f %% moisture as the day begins, %s; %s that it is fit for %s, %.0f %%, today and %s by tomorrow night.",
		Short(mown), now, rain, Odds(today), words, limits.Target, Odds(lying.By(48)))
	if _, told, err := storage.PublishedBaling().Judge(storage.Package(pack), min(80, max(5, now))); err == nil {
		p.tell(told)
	}
	p.warn(storage.LabelRules, storage.ToxicSmoke, storage.KeepLooking, storage.ProbeRight, storage.CallFirst, storage.NeverAlone)
	p.Worth.Text = fmt.Sprintf("Nothing here tells hay moisture better than within a fifth of it: a probe or an oven decides%s.", assumedPackage(assumedPack))
	if s.Date >= unit.DateOf(s.Date.Year(), time.August, 15) {
		p.Worth.Text += " From mid August on nights are long and dewy, and the model may still have hay dry too soon: go by the test alone."
	}
	p.Grounds = []Ground{{
		What: "Swath", Value: fmt.Sprintf("about %.0f %% this morning, %.1f mm of rain on it", now, lying.RainMM),
		How:     fmt.Sprintf("hourly drying since the cut through the weather of station %s: %g t/ha, conditioned, over 70 %% of the ground, mown at 10:00 and not turned (assumed)", s.Sky.Station.Name, float64(outlook.SwathYieldTHa)),
		Sources: []source.ID{source.DryingRate, source.DryingDensity, source.CuringCrop},
	}, {
		What: "Fit", Value: fmt.Sprintf("%s today, %s by tomorrow, %s by the third day", Odds(today), Odds(lying.By(48)), Odds(lying.By(72))),
		How: "the same through " + s.Sky.Follows() + "; taken up between 11:00 and 20:00 by the sun", Sources: aheadSources(s.Sky, source.DryingRate),
	}, {
		What: "Limit", Value: fmt.Sprintf("%.0f %% for %s%s", limits.Target, words, assumedPackage(assumedPack)),
		How: "the lowest of the tables in print", Sources: []source.ID{source.BaleLimits, source.BaleLimitsSouth, source.BaleTargets},
	}}
	return p
}

func assumedPackage(yes bool) string {
	if yes {
		return " (round bales assumed: no stack and no baler is in the book)"
	}
	return ""
}
