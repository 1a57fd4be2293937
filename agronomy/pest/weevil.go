// Package pest holds when to look for pests, how much to count and when to act.
package pest

import "slices"

// Start is the heat from which a state has alfalfa weevil looked for.
type Start struct {
	State string
	DD48  float64 // F-days above 48 F since 1 January
}

// WeevilStarts lists the published starts whose base is stated, by state or province. Where a range is
// printed its early end is taken. Source: [source.WeevilScouting].
func WeevilStarts() []Start {
	return []Start{
		{"Illinois", 250}, {"Indiana", 250},
		{"Iowa", 250}, // north of Interstate 80; 200 south of it
		{"Kentucky", 190}, {"Manitoba", 300}, {"New York", 280}, {"North Dakota", 300}, {"Ohio", 250},
		{"Pennsylvania", 300}, {"South Dakota", 300}, {"Wisconsin", 300},
	}
}

// ScoutFrom is the heat, in F-days above 48 F since 1 January, from which a state's guide has alfalfa
// weevil looked for; not ok where no guide with its base is known.
func ScoutFrom(state string) (dd48 float64, ok bool) {
	starts := WeevilStarts()
	i := slices.IndexFunc(starts, func(s Start) bool { return s.State == state })
	if i < 0 {
		return 0, false
	}
	return starts[i].DD48, true
}

const (
	// PeakFrom and PeakTo bound the heaviest feeding in Wisconsin, F-days above 48 F since 1 January.
	// Ohio prints 325 to 575. Source: [source.WeevilScouting].
	PeakFrom, PeakTo = 600.0, 800.0
	// RecheckDays is the longest time between two walks for weevil. Source: [source.WeevilTips].
	RecheckDays = 7
	// TipFeeding is the share of stems with feeding, %, at which the guide acts when the cut is more
	// than a week off. Source: [source.WeevilTips].
	TipFeeding = 40.0
	// StemsToLook is how many stems a walk looks at. Source: [source.WeevilTips].
	StemsToLook = 50
)
