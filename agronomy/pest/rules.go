package pest

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/source"
)

// Rule is a guide's own rule for alfalfa weevil in first growth, without a price. A figure of 0 is not
// asked for; where there are two, both must hold. Where a range is printed the lower figure stands.
type Rule struct {
	Guide  string
	Tips   float64 // stems with feeding, %
	Larvae float64 // a stem
	Days   float64 // days to the cut that must still be left
	Source source.ID
}

// Rules lists the guides that print one rule for every height; Ohio and Ontario go by height.
func Rules() []Rule {
	return []Rule{
		{"Illinois", 25, 3, 0, source.WeevilIllinois},
		{"Kentucky", 25, 2, 10, source.WeevilKentucky},
		{"Michigan", 40, 0, 7, source.WeevilTips},
		{"Minnesota", 30, 0, 0, source.WeevilMinnesota},
		{"New York", 40, 0, 7, source.WeevilTips},
		{"North Dakota", 35, 0, 0, source.WeevilDakota},
		{"Wisconsin", 40, 0, 7, source.WeevilTips},
	}
}

// byHeight are the guides that go by height.
var byHeight = []string{"Ohio", "Ontario"}

// Guides lists all guides with a rule.
func Guides() []string {
	names := slices.Clone(byHeight)
	for _, r := range Rules() {
		names = append(names, r.Guide)
	}
	slices.Sort(names)
	return names
}

// Looked is what a walk found. A negative figure was not counted.
type Looked struct{ Tips, Larvae, HeightIn, DaysToCut float64 }

// ByRule says what a guide makes of a walk: act or not, in the guide's own figures, and how it reads.
func ByRule(guide string, l Looked) (act bool, reads string, err error) {
	switch guide {
	case "Ohio":
		at := ohio(l.HeightIn)
		return needs(l.Larvae, at, "larvae a stem", fmt.Sprintf("at %g in: more than %g larvae a stem", l.HeightIn, at), l.HeightIn > shortOhio)
	case "Ontario":
		at := PlainLarvae(l.HeightIn)
		return needs(l.Larvae, at, "larvae a stem", fmt.Sprintf("at %g in: %g larvae a stem that still feed", l.HeightIn, at), false)
	}
	i := slices.IndexFunc(Rules(), func(r Rule) bool { return r.Guide == guide })
	if i < 0 {
		return false, "", fmt.Errorf("guide %q prints no rule that is known here: accepted %s", guide, strings.Join(Guides(), ", "))
	}
	r := Rules()[i]
	var parts []string
	act = true
	for _, p := range []struct {
		seen, at float64
		what     string
	}{{l.Tips, r.Tips, "%% of stems fed on"}, {l.Larvae, r.Larvae, "larvae a stem"}} {
		if p.at == 0 {
			continue
		}
		if p.seen < 0 {
			return false, "", fmt.Errorf("the %s guide asks for %s, which was not counted", guide, strings.ReplaceAll(p.what, "%%", "%"))
		}
		act = act && p.seen >= p.at
		parts = append(parts, fmt.Sprintf("%g "+p.what, p.at))
	}
	reads = strings.Join(parts, " and ")
	if r.Days > 0 {
		act = act && l.DaysToCut > r.Days
		reads += fmt.Sprintf(", more than %g days to the cut", r.Days)
	}
	return act, reads, nil
}

func needs(seen, at float64, what, reads string, over bool) (bool, string, error) {
	if seen < 0 {
		return false, "", fmt.Errorf("this guide asks for %s, which were not counted", what)
	}
	return seen > at || !over && seen >= at, reads, nil
}

const shortOhio = 9 // up to here one larva is enough, in

// ohio is the count by height. Source: [source.WeevilOhio].
func ohio(heightIn float64) float64 {
	switch {
	case heightIn < 12:
		return 1
	case heightIn < 16:
		return 2
	}
	return 4
}

// PlainLarvae is the threshold without a price: larvae a stem by height, those that still feed. Source:
// [source.WeevilOntario].
func PlainLarvae(heightIn float64) float64 {
	switch {
	case heightIn < 12:
		return 1
	case heightIn < 16:
		return 2
	}
	return 3
}
