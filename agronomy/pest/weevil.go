// Package pest holds when to look for pests, how much to count and when to act.
package pest

// ScoutFrom is the heat, in F-days above 48 F since 1 January, from which a state's guide has alfalfa
// weevil looked for, and ok where the guide states it with its base. Source: [source.WeevilScouting].
func ScoutFrom(state string) (dd48 float64, ok bool) {
	dd48, ok = map[string]float64{
		"Wisconsin": 300, "North Dakota": 300, "Manitoba": 300, "South Dakota": 300,
		"Illinois": 250, "Indiana": 250, "Ohio": 250,
		"Iowa":     250, // north of I-80; 200 south of it
		"New York": 280, "Kentucky": 190, "Pennsylvania": 300,
	}[state]
	return dd48, ok
}

const (
	// PeakFrom and PeakTo bound the heaviest feeding in Wisconsin, F-days above 48 F since 1 January.
	PeakFrom, PeakTo = 600.0, 800.0
	// RecheckDays is the longest time between two walks for weevil.
	RecheckDays = 7
	// TipFeeding is the share of stems with feeding, %, at which the guide acts when the cut is more
	// than a week off.
	TipFeeding = 40.0
	// StemsToLook is how many stems a walk looks at.
	StemsToLook = 50
)
