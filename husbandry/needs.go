package husbandry

import (
	"fmt"
	"strings"

	"haywarden/agronomy/blend"
	"haywarden/outlook"
)

// NeedOfField is what a stand's field is to be given in a year by removal: what keeps its soil test where
// it stands.
func NeedOfField(s *outlook.Stand, guide string) FieldNeed {
	n := FieldNeed{Field: s.InField.Name, Acres: s.InField.Acres, Need: map[blend.Nutrient]float64{}}
	t, ok := s.YearTakes(guide)
	if !ok {
		n.Lacks = append(n.Lacks, "a yield of the year")
		return n
	}
	n.Need[blend.P2O5], n.Need[blend.K2O] = round(t.Removed.P2O5), round(t.Removed.K2O)
	from := fmt.Sprintf("what %.1f tons of dry matter take away, by %s's table", float64(t.Tons), whose(t.Book.Name))
	if t.Own > 0 {
		from = fmt.Sprintf("what %.1f tons of dry matter take away, by the field's own forage tests", float64(t.Tons))
	}
	n.From = append(n.From, from)
	if most := blend.PublishedLimits().K2O; n.Need[blend.K2O] > most {
		n.Need[blend.K2O] = most
		n.From = append(n.From, fmt.Sprintf("potash held to %.0f lb a year: more is taken up and not paid for", most))
	}
	return n
}

// whose is the name of a table as people say it.
func whose(name string) string {
	if name == "ipni" || name == "ppi" {
		return strings.ToUpper(name)
	}
	words := strings.Split(name, "-")
	for i, w := range words {
		words[i] = strings.ToUpper(w[:1]) + w[1:]
	}
	return strings.Join(words, " ")
}
