package stand

import "math"

// Action is what the look of a stand speaks for, before money is counted.
type Action string

// The actions, from keeping to turning under.
const (
	Keep                      Action = "keep"
	KeepThenTurn              Action = "keep this year, turn under next year"
	KeepIfNeeded              Action = "keep if the feed is needed: compare the money"
	FirstCutThenTurn          Action = "take the first cut, then turn under"
	FirstCutThenTurnOrThicken Action = "take the first cut, then turn under or interseed"
	TurnUnder                 Action = "turn under"
)

// Verdict is an action with its reasons.
type Verdict struct {
	Action  Action
	Because string // what decided it
	Ask     string // what to look at before acting on it; empty where nothing is missing
}

// rootBand is one column of the matrix: roots rotted or streaked (rated 3 or worse of 5).
type rootBand struct {
	most float64 // share of the roots dug, inclusive
	say  string
}

var rootBands = [...]rootBand{{0.30, "roots sound"}, {0.50, "30-50 % of roots bad"}, {1, "over half of the roots bad"}}

// matrix is by class and root band. Source: [source.StandMatrix], built from [source.StemClasses] and
// [source.RootHealth].
var matrix = map[Class][len(rootBands)]Action{
	Full:     {Keep, KeepThenTurn, FirstCutThenTurn},
	SomeLoss: {KeepIfNeeded, FirstCutThenTurnOrThicken, TurnUnder},
	Replace:  {TurnUnder, TurnUnder, TurnUnder},
}

const (
	grassKeeps = 0.40 // share of grass that is worth keeping by itself (choice)
	youngYears = 1    // a stand that may still fill in, or be thickened without harm (choice)
)

// Matrix says what stems, roots, grass and age speak for. badRoots and grass are shares, 0 to 1; age
// is in years since seeding. NaN is not known: unknown roots are taken as sound and asked for,
// unknown grass and age excuse nothing. It is a first word and no more: where there are prices, money
// decides. Source: [source.StandMatrix].
func Matrix(class Class, badRoots, grass, ageYears float64) Verdict {
	actions, known := matrix[class]
	if !known {
		return Verdict{Ask: "count stems: the stand has no class yet"}
	}
	var ask string
	if math.IsNaN(badRoots) {
		badRoots = 0
		ask = "dig and split 20 to 30 roots: the answer takes them as sound"
	}
	band := len(rootBands) - 1
	for i, b := range rootBands {
		if badRoots <= b.most {
			band = i
			break
		}
	}
	v := Verdict{Action: actions[band], Because: "stems: " + string(class) + "; " + rootBands[band].say, Ask: ask}
	if ask != "" {
		v.Because = "stems: " + string(class) + "; roots not seen"
	}
	if class != Replace || band != 0 {
		return v
	}
	switch {
	case grass >= grassKeeps:
		v.Action, v.Because = KeepIfNeeded, v.Because+"; grass fills the stand"
	case ageYears <= youngYears:
		v.Action, v.Because = KeepIfNeeded, v.Because+"; the stand is young"
	}
	return v
}
