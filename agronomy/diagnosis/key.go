// Package diagnosis leads from what is seen in a stand to what may have done it: causes in the order in
// which they fit, what each is mistaken for, and the look that tells them apart. It never names one
// cause alone: a plant in a laboratory decides where money hangs on it.
package diagnosis

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/source"
)

// Seen is what was seen, each one of the words of its list; an empty one was not looked at.
type Seen struct{ Crop, Pattern, Part, Color, Season string }

// Question is one thing to look at, with the answers it takes.
type Question struct {
	Key, Ask string
	Answers  []string
}

// Questions lists what is asked, in the order in which it is seen from the gate to the root.
func Questions() []Question {
	return []Question{
		{"crop", "What grows there?", []string{"alfalfa", "red clover"}},
		{"season", "When?", []string{"late winter", "spring", "early summer", "midsummer", "fall"}},
		{"pattern", "Where in the field?", []string{"all over", "patches", "low ground", "edges", "scattered plants", "new seeding"}},
		{"part", "Which part of the plant?", []string{"leaf", "growing tip", "stem", "root", "crown", "seedling", "whole plant"}},
		{"color", "What does it look like?", []string{"yellow", "brown spots", "black", "white", "red or purple", "holes", "wilted", "stunted"}},
	}
}

// Cause is something that harms a stand.
type Cause struct {
	Name, Kind string
	Crops      []string // none: either
	Patterns   []string
	Parts      []string
	Colors     []string
	Seasons    []string
	Signs      string   // how it looks close up
	Mistaken   []string // names of other causes
	Test       string   // the look that tells it from them
	Then       string   // what follows; spraying is a matter of counts and labels, never of a look
	Source     source.ID
}

// Fit is a cause with how many of the things seen it fits.
type Fit struct {
	Cause
	Fits, Asked int
}

// least is the share of things seen that a cause must fit to be shown (choice).
const least = 0.5

// Rank gives the causes that fit what was seen, best first; of those that fit alike the commoner first,
// as they stand in the list. A cause of another crop is left out.
func Rank(seen Seen) ([]Fit, error) {
	if err := seen.check(); err != nil {
		return nil, err
	}
	var out []Fit
	for _, c := range Causes() {
		if seen.Crop != "" && len(c.Crops) > 0 && !slices.Contains(c.Crops, seen.Crop) {
			continue
		}
		f := Fit{Cause: c}
		for _, q := range []struct {
			saw string
			has []string
		}{{seen.Pattern, c.Patterns}, {seen.Part, c.Parts}, {seen.Color, c.Colors}, {seen.Season, c.Seasons}} {
			if q.saw == "" {
				continue
			}
			f.Asked++
			if slices.Contains(q.has, q.saw) {
				f.Fits++
			}
		}
		if f.Asked > 0 && float64(f.Fits) > least*float64(f.Asked) || f.Asked > 0 && f.Fits == f.Asked {
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b Fit) int { return b.Fits - a.Fits })
	return out, nil
}

func (s Seen) check() error {
	said := map[string]string{"crop": s.Crop, "pattern": s.Pattern, "part": s.Part, "color": s.Color, "season": s.Season}
	for _, q := range Questions() {
		if v := said[q.Key]; v != "" && !slices.Contains(q.Answers, v) {
			return fmt.Errorf("%s %q: accepted %s", q.Key, v, strings.Join(q.Answers, ", "))
		}
	}
	return nil
}
