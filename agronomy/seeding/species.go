package seeding

import (
	"cmp"
	"fmt"
	"slices"
)

// Site is what is asked of a field before its species is chosen.
type Site struct {
	Drainage string  // well, somewhat-poor or poor
	PH       float64 // of the topsoil
	Years    float64 // wanted of the stand, after the year of seeding
	Eats     string  // dairy, beef, horses or sale
	Grazed   bool
}

// Drainages are the words for drainage, best first.
func Drainages() [3]string { return [3]string{"well", "somewhat-poor", "poor"} }

// Eaters are the words for who eats it.
func Eaters() [4]string { return [4]string{"dairy", "beef", "horses", "sale"} }

// Limits are the bounds of the choice. Sources: [source.SpeciesFit], [source.SpeciesAcid].
type Limits struct {
	AlfalfaPH, CloverPH, GrassPH float64
	AlfalfaYears, CloverYears    float64
}

// PublishedLimits returns the printed bounds.
func PublishedLimits() Limits {
	return Limits{AlfalfaPH: 6.5, CloverPH: 6.0, GrassPH: 5.5, AlfalfaYears: 5, CloverYears: 2}
}

// Fit is how one choice suits a field.
type Fit struct {
	Choice  string   // alfalfa, red clover, grass, alfalfa with grass, red clover with grass
	For     []string // reasons
	Against []string // what speaks against it but does not forbid it
	Never   []string // what forbids it; such a choice stands last
}

// Choose ranks the choices for a site: what is forbidden last, then by how much speaks against, then for.
// Equal choices keep the order of the list, which has what lasts longest first.
func (l Limits) Choose(s Site) ([]Fit, error) {
	drains, eats := Drainages(), Eaters()
	switch {
	case !slices.Contains(drains[:], s.Drainage):
		return nil, fmt.Errorf("drainage %q: accepted: %v", s.Drainage, drains)
	case !slices.Contains(eats[:], s.Eats):
		return nil, fmt.Errorf("eats %q: accepted: %v", s.Eats, eats)
	case !(s.PH >= 3.5 && s.PH <= 9.5):
		return nil, fmt.Errorf("ph %g: accepted 3.5 to 9.5", s.PH)
	case !(s.Years >= 0.5 && s.Years <= 30):
		return nil, fmt.Errorf("years %g: accepted 0.5 to 30", s.Years)
	}
	list := []Fit{l.alfalfa(s, false), l.alfalfa(s, true), l.clover(s, false), l.clover(s, true), l.grass(s)}
	slices.SortStableFunc(list, func(a, b Fit) int {
		return cmp.Or(cmp.Compare(len(a.Never), len(b.Never)), cmp.Compare(len(a.Against), len(b.Against)), -cmp.Compare(len(a.For), len(b.For)))
	})
	return list, nil
}

func (l Limits) alfalfa(s Site, grass bool) Fit {
	f := Fit{Choice: "alfalfa"}
	if grass {
		f.Choice = "alfalfa with grass"
	}
	f.acid(s, l.AlfalfaPH)
	switch s.Drainage {
	case "poor":
		f.Never = append(f.Never, "alfalfa does not live in poorly drained ground")
	case "somewhat-poor":
		f.Against = append(f.Against, "roots rot where water stands: only varieties highly resistant to Phytophthora and Aphanomyces")
		if grass {
			f.For = append(f.For, "the grass fills where alfalfa drowns and heaves")
		}
	default:
		f.For = append(f.For, "the ground drains as alfalfa wants")
	}
	f.lasts(s, l.AlfalfaYears)
	f.eaten(s, grass, "alfalfa")
	return f
}

func (l Limits) clover(s Site, grass bool) Fit {
	f := Fit{Choice: "red clover"}
	if grass {
		f.Choice = "red clover with grass"
	}
	f.acid(s, l.CloverPH)
	switch s.Drainage {
	case "poor":
		f.Against = append(f.Against, "red clover is thin in poorly drained ground")
	case "somewhat-poor":
		f.For = append(f.For, "red clover stands wetter ground than alfalfa")
	}
	f.lasts(s, l.CloverYears)
	f.eaten(s, grass, "red clover")
	if s.Eats == "horses" {
		f.Against = append(f.Against, "horses slobber on red clover when it has black patch")
	}
	if s.Eats == "sale" {
		f.Against = append(f.Against, "red clover dries slowly and dark: hard to sell as hay")
	}
	return f
}

func (l Limits) grass(s Site) Fit {
	f := Fit{Choice: "grass"}
	f.acid(s, l.GrassPH)
	if s.Drainage != "well" {
		f.For = append(f.For, "some grasses live in wet ground: reed canarygrass, tall fescue, timothy")
	}
	f.For = append(f.For, "a good grass sod outlasts any legume")
	f.Against = append(f.Against, "grass alone must be fed all its nitrogen")
	if s.Eats == "dairy" {
		f.Against = append(f.Against, "milking cows eat less of it and get less protein")
	}
	return f
}

func (f *Fit) acid(s Site, least float64) {
	if s.PH >= least {
		f.For = append(f.For, fmt.Sprintf("pH %g is enough (%.1f)", s.PH, least))
		return
	}
	f.Never = append(f.Never, fmt.Sprintf("pH %g is under %.1f: lime first and wait until it has worked", s.PH, least))
}

func (f *Fit) lasts(s Site, years float64) {
	if s.Years <= years {
		f.For = append(f.For, fmt.Sprintf("it lasts the years wanted (%g)", s.Years))
		return
	}
	f.Against = append(f.Against, fmt.Sprintf("%g years are wanted and it lasts about %g", s.Years, years))
}

func (f *Fit) eaten(s Site, grass bool, legume string) {
	switch {
	case s.Eats == "dairy" && !grass:
		f.For = append(f.For, legume+" alone is feed for milking cows")
	case s.Eats == "dairy":
		f.Against = append(f.Against, "grass must be cut early to be feed for milking cows")
	case grass:
		f.For = append(f.For, "a mixture dries faster and feeds "+eaterWord(s.Eats)+" well")
	case s.Eats != "sale":
		f.Against = append(f.Against, legume+" alone is richer than "+eaterWord(s.Eats)+" need")
	}
	if s.Grazed && !grass {
		f.Against = append(f.Against, "grazed alone it bloats cattle: at least half grass is safer, and never turn hungry cattle into it")
	}
}

func eaterWord(eats string) string {
	switch eats {
	case "beef":
		return "beef cattle"
	case "sale":
		return "most buyers' stock"
	}
	return eats
}
