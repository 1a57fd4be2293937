package pest

import (
	"fmt"
	"slices"

	"haywarden/agronomy/source"
)

// Minor is the printed limit of a pest that is seldom worth treating.
type Minor struct {
	Name   string // as users write it
	Unit   string // what is counted, per what
	Short  float64
	Mid    float64 // 10 to 20 in
	Tall   float64 // over 20 in; of most pests all three are equal
	Says   string  // what else goes with it
	Source source.ID
}

// Minors lists them. Aphids on seedlings have limits of their own.
func Minors() []Minor {
	same := func(name, unit string, at float64, says string, from source.ID) Minor {
		return Minor{name, unit, at, at, at, says, from}
	}
	const stem = "a stem"
	return []Minor{
		{"pea-aphid", stem, 40, 75, 100, "count lady beetles too: many of them do the work", source.AphidLimits},
		{"blue-aphid", stem, 10, 30, 50, "injects a toxin: stunts more than the pea aphid", source.AphidLimits},
		{"spotted-aphid", stem, 10, 30, 100, "drops from the leaf at a touch: shake gently over paper", source.AphidLimits},
		{"cowpea-aphid", stem, 40, 75, 100, "California sees no threshold for it", source.AphidLimits},
		same("pea-aphid-seedling", stem, 5, "seedlings bear few", source.AphidLimits),
		same("blue-aphid-seedling", stem, 1, "seedlings bear few", source.AphidLimits),
		same("spotted-aphid-seedling", stem, 1, "seedlings bear few", source.AphidLimits),
		same("cowpea-aphid-seedling", stem, 5, "seedlings bear few", source.AphidLimits),
		same("spittlebug", "nymphs a stem", 1, "worst in red clover and new stands in spring; cutting ends it", source.MinorLimits),
		same("plant-bug", "adults and nymphs a sweep", 5, "of hay; seed crops bear fewer", source.MinorLimits),
		same("grasshopper-field", "a square yard", 8, "treat edges where they come from", source.MinorLimits),
		same("grasshopper-margin", "a square yard", 20, "on the margin, before they move in", source.MinorLimits),
		same("cutworm", "larvae a square foot", 2, "look at dusk, under windrow strips and in stubble", source.CutwormLimits),
		same("blotch-leafminer", "% of leaflets", 30, "treating seldom pays: it looks worse than it is", source.LeafminerLimits),
		same("fall-armyworm", "larvae a square foot", 2, "sources do not agree; small larvae only", source.ArmywormLimits),
		same("armyworm", "larvae a square foot", 4, "larvae over 1 in have done their feeding", source.ArmywormLimits),
		same("weevil-stubble", "larvae a square foot", StubbleLarvae, "after the first cut; large larvae will pupate and are left", source.StubbleLarvae),
	}
}

// MinorNames lists the pests as users write them.
func MinorNames() []string {
	var names []string
	for _, m := range Minors() {
		names = append(names, m.Name)
	}
	return names
}

// FindMinor finds a pest by its name.
func FindMinor(name string) (Minor, error) {
	all := Minors()
	if i := slices.IndexFunc(all, func(m Minor) bool { return m.Name == name }); i >= 0 {
		return all[i], nil
	}
	return Minor{}, fmt.Errorf("no limit of a pest called %q", name)
}

// Threshold is the limit at a height, in.
func (m Minor) Threshold(heightIn float64) float64 {
	switch {
	case heightIn < 10:
		return m.Short
	case heightIn <= 20:
		return m.Mid
	}
	return m.Tall
}

// nearShare is the share of a threshold from which a count is looked at again in a few days (choice;
// an Ohio example looks again at 7 where 8 would treat).
const nearShare = 0.75

// Judge says what a count means against its threshold: over it, near it or under.
func Judge(count, threshold float64) Verdict {
	switch {
	case shown(count) >= shown(threshold):
		return Over
	case shown(count) >= shown(nearShare*threshold):
		return Near
	}
	return Under
}

// Verdict is where a count stands.
type Verdict string

// The verdicts.
const (
	Over  Verdict = "over"
	Near  Verdict = "near"
	Under Verdict = "under"
)
