package husbandry

import (
	"fmt"
	"strings"

	"haywarden/agronomy/blend"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// NeedOfField is what a stand's field is to be given in a year: by its guide and its soil test, else by
// removal, which keeps the test where it stands; less what was spread since last year's last cut. Sulfur and
// boron only where tissue says that they are short.
func NeedOfField(o *outlook.Outlook, s *outlook.Stand) FieldNeed {
	n := FieldNeed{Field: s.InField.Name, Acres: s.InField.Acres, Need: map[blend.Nutrient]float64{}}
	takes, ok := s.YearTakes(o.GuidesOf(s).Removal)
	if !ok {
		n.Lacks = append(n.Lacks, "a yield of the year")
		return n
	}
	f, err := o.Fertility(s)
	if err == nil {
		n.Need[blend.P2O5], n.Need[blend.K2O] = float64(f.P2O5), float64(f.K2O)
		n.From = append(n.From, fmt.Sprintf("soil test of %s by the guide of %s for %.1f tons of dry matter", f.Test.Day, whose(string(f.Guide)), float64(takes.Tons)))
	} else {
		n.Need[blend.P2O5], n.Need[blend.K2O] = takes.Removed.P2O5, takes.Removed.K2O
		how := "by " + whose(takes.Book.Name) + "'s table"
		if takes.Own > 0 {
			how = "by the field's own forage tests"
		}
		n.From = append(n.From, fmt.Sprintf("what %.1f tons of dry matter take away, %s", float64(takes.Tons), how))
		n.Lacks = append(n.Lacks, "what the guide gives: "+err.Error())
		n.lessAmple(s.SoilFound(), s.Date)
	}
	if most := blend.PublishedLimits().K2O; n.Need[blend.K2O] > most {
		n.Need[blend.K2O] = most
		n.From = append(n.From, fmt.Sprintf("potash held to %.0f lb a year: more is taken up and not paid for", most))
	}
	sulfur, boron := s.Short()
	if sulfur {
		n.Need[blend.S] = outlook.SulfurGiven
		n.From = append(n.From, "sulfur by the tops")
	}
	if boron {
		n.Need[blend.B] = outlook.BoronGiven
		n.From = append(n.From, "boron by the tops")
	}
	n.lessSpread(s.SpreadBetween(s.SeasonFrom(), s.Date))
	return n
}

// lessAmple asks for none of what a test that holds shows in plenty.
func (n *FieldNeed) lessAmple(t *outlook.SoilTested, today unit.Day) {
	if t == nil || t.Old(today) {
		return
	}
	phosphate, potash := t.Ample()
	if phosphate {
		n.Need[blend.P2O5] = 0
		n.From = append(n.From, fmt.Sprintf("no phosphate: over %.0f ppm of P by Mehlich 3 is ample", float64(soil.PublishedEnough().P)))
	}
	if potash {
		n.Need[blend.K2O] = 0
		n.From = append(n.From, fmt.Sprintf("no potash: over %.0f ppm of K by acetate little more is gained", float64(soil.PublishedEnough().K)))
	}
}

// leastSpread is the phosphate or potash under which nobody drives out, lb an acre (choice).
const leastSpread = 20

// lessSpread takes off what the field got already.
func (n *FieldNeed) lessSpread(got outlook.SpreadOn) {
	for _, x := range []struct {
		k blend.Nutrient
		v float64
	}{{blend.P2O5, got.Given.P2O5}, {blend.K2O, got.Given.K2O}} {
		left := round(max(0, n.Need[x.k]-x.v))
		if left > 0 && left < leastSpread {
			n.From = append(n.From, fmt.Sprintf("%.0f lb of %s are too little to drive out for", left, x.k.Word()))
			left = 0
		}
		n.Need[x.k] = left
	}
	if got.Times > 0 {
		n.From = append(n.From, fmt.Sprintf("less what was spread since last year's last cut, phosphate %.0f lb and potash %.0f lb", got.Given.P2O5, got.Given.K2O))
	}
	for _, u := range got.Unknown {
		n.Lacks = append(n.Lacks, "what was spread: "+u)
	}
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
