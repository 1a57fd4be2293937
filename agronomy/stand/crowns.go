package stand

import (
	"errors"
	"fmt"
)

// WorstCrown is the highest rating: a dead plant.
const WorstCrown = 5

// CrownWords say what each rating looks like in a root split lengthwise. Source: [source.CrownScale].
func CrownWords() [WorstCrown + 1]string {
	return [...]string{
		"sound: white and firm, shoots all round the crown",
		"slight discolouring at the crown",
		"moderate discolouring",
		"tan crown, brown streaks down the root",
		"large dark rotted areas, few and lopsided shoots: may not last the season",
		"dead",
	}
}

// CrownScale says what ratings mean. Sources: [source.CrownEffective] for Sound and Counts,
// [source.RootHealth] for the flag.
type CrownScale struct {
	Sound  int     // ratings up to this are healthy
	Counts int     // plants rated up to this count as plants
	Bad    int     // ratings from this on are bad
	Flag   float64 // share of bad ones over which the potential is much reduced
}

// PublishedCrowns returns the scale.
func PublishedCrowns() CrownScale { return CrownScale{Sound: 2, Counts: 3, Bad: 3, Flag: 0.30} }

// Crowns is a dig worked out.
type Crowns struct {
	Dug       int
	Health    float64 // % rated sound
	Effective float64 // share of the plants that count
	Bad       int     // rated bad
	Flag      bool    // so many bad that the potential is significantly reduced
}

const mostDug = 500

// Assess judges how many plants had each rating, 0 to 5.
func (k CrownScale) Assess(byRating [WorstCrown + 1]int) (Crowns, error) {
	var c Crowns
	sound, counts := 0, 0
	for rating, n := range byRating {
		if n < 0 || n > mostDug {
			return Crowns{}, fmt.Errorf("%d plants rated %d: accepted 0 to %d", n, rating, mostDug)
		}
		c.Dug += n
		if rating <= k.Sound {
			sound += n
		}
		if rating <= k.Counts {
			counts += n
		}
		if rating >= k.Bad {
			c.Bad += n
		}
	}
	if c.Dug == 0 {
		return Crowns{}, errors.New("no plant is rated: 20 to 30 are wanted, 5 or 6 at each of 4 or 5 places")
	}
	n := float64(c.Dug)
	c.Health, c.Effective = 100*float64(sound)/n, float64(counts)/n
	c.Flag = float64(c.Bad)/n > k.Flag
	return c, nil
}
