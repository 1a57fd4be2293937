package web

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

const (
	mostHistory = 30 // entries of a stand's history that are listed
	openHistory = 8  // of them, those not folded away; older years are folded from the third on
	fewOlder    = 3
)

// history lists what was seen and done, newest first; what is long past is given apart.
func history(s *outlook.Stand) (recent, earlier []dayView) {
	type entry struct {
		day unit.Day
		say string
	}
	var all []entry
	for _, v := range s.Visits {
		all = append(all, entry{v.Day, visitSay(v.Body)})
	}
	for _, c := range s.Cuts {
		all = append(all, entry{c.Day, cutSay(c.Body)})
	}
	for _, l := range s.Labs {
		sample := l.Body.Sample
		if sample == "standing" {
			sample = "the standing crop"
		}
		all = append(all, entry{l.Day, fmt.Sprintf("Laboratory, %s: NDF %.1f %%, ADF %.1f %% of dry matter", sample, l.Body.NDF, l.Body.ADF)})
	}
	slices.SortStableFunc(all, func(a, b entry) int { return cmp.Compare(b.day, a.day) })
	for i, e := range all[:min(len(all), mostHistory)] {
		d := dayView{e.day.String(), brief(e.day, s.Date), e.say}
		if i < fewOlder || i < openHistory && e.day.Year() == s.Date.Year() {
			recent = append(recent, d)
			continue
		}
		earlier = append(earlier, d)
	}
	if len(earlier) < leastFold {
		return append(recent, earlier...), nil
	}
	return recent, earlier
}

// brief writes a day for a narrow column: with its year where it is not this one.
func brief(d, today unit.Day) string {
	if d.Year() != today.Year() {
		return d.Time().Format("2 Jan 2006")
	}
	return d.Time().Format("2 Jan")
}

func cutSay(c book.Cut) string {
	say := "Cut"
	if c.Number > 0 {
		say = advice.Capital(advice.Ordinal(c.Number)) + " cut"
	}
	if c.Product != "" {
		say += ", " + string(c.Product)
	}
	if c.TonsDM != nil {
		say += fmt.Sprintf(", %.1f tons of dry matter an acre", *c.TonsDM)
	}
	return say
}

// meanHeight is the mean of the spots' tallest stems, in.
func meanHeight(spots []book.Spot) float64 {
	sum := 0.0
	for _, sp := range spots {
		sum += sp.HeightIn
	}
	return sum / float64(len(spots))
}

func visitSay(v book.Visit) string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if n := len(v.Spots); n > 0 {
		add("stick read at %s %s, %.0f in tall, %s", advice.Count(n), advice.Plural(n, "spot"), meanHeight(v.Spots), stages(v.Spots))
	}
	if n := len(v.Frames); n > 0 {
		add("stems counted in %s %s", advice.Count(n), advice.Plural(n, "frame"))
	}
	if v.Roots != nil {
		add("%d roots dug, %d rotted or streaked", v.Roots.Dug, v.Roots.Bad)
	}
	if c := v.Crowns; c != nil {
		r := c.Roots()
		add("%d crowns rated, %d of them 3 or worse of 5", r.Dug, r.Bad)
	}
	if v.Winter != nil {
		add("asked how it goes into winter")
	}
	if v.Harm != nil {
		add("%s", harmSay(*v.Harm))
	}
	if v.Bloom != nil {
		add("%.0f %% of stems in bloom", *v.Bloom)
	}
	if v.GrowthIn != nil {
		add("plants %.0f in tall", *v.GrowthIn)
	}
	if v.Tips != "" {
		add("growing tips %s", v.Tips)
	}
	if v.WeevilTips != nil {
		add("weevil feeding on %.0f %% of tips", *v.WeevilTips)
	}
	for _, p := range v.Pests {
		add("%s", pestsSeen(p))
	}
	if v.WeedsBloom {
		add("weeds in bloom")
	}
	say := "visit"
	if len(parts) > 0 {
		say = strings.Join(parts, "; ")
	}
	say = advice.Capital(say)
	if v.Note != "" {
		say += ". " + v.Note
	}
	return say
}

// pestsSeen says what was counted of a pest: `leafhopper: 45 in 100 sweeps`.
func pestsSeen(p book.Pests) string {
	k, _ := book.PestKindOf(p.Pest)
	var total float64
	for _, n := range p.Counts {
		total += n
	}
	return fmt.Sprintf("%s: %g in %g %s", strings.ReplaceAll(p.Pest, "-", " "), total, p.Size*float64(len(p.Counts)), k.Unit)
}

// harmSay says what a look at a harmed stand found.
func harmSay(h book.Harm) string {
	say := fmt.Sprintf("%s of %s", h.Kind, advice.Short(h.Day))
	if h.Tips != nil {
		say += fmt.Sprintf(", %.0f %% of tips broken", *h.Tips)
	}
	if h.Leaves != nil {
		say += fmt.Sprintf(", %.0f %% of leaves lost", *h.Leaves)
	}
	if h.Lodged {
		say += ", most of it lies"
	}
	if h.Under != nil {
		say += fmt.Sprintf(", %.0f %s under water", *h.Under, advice.Plural(int(*h.Under), "day"))
	}
	return say
}
