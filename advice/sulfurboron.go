package advice

import (
	"fmt"
	"strings"

	"haywarden/agronomy/blend"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

const (
	tissueNews = 45 // days for which a low test is this week's business (choice)
	copperLow  = 6  // copper to molybdenum of feed under which cattle may want copper, [source.Molybdenum]
	copperBad  = 2
)

// SulfurBoron says what sulfur and boron a stand wants by its tops, and what they say of molybdenum, which
// nobody is ever told to spread.
func SulfurBoron(s *outlook.Stand, o *outlook.Outlook) *Piece {
	f := s.Tops()
	if f == nil {
		return nil
	}
	if f.Whole {
		if s.Date-f.Day > tissueNews {
			return nil
		}
		return unjudged(s, "sulfur-boron", "whole plants were sampled on "+Short(f.Day)+": the tables of tissue are for the top 4 to 6 inches; sample those at bud")
	}
	sulfur, boron := s.Short()
	copper := copperSays(f)
	if !sulfur && !boron && copper == "" {
		return nil
	}
	p := &Piece{Decision: "sulfur-boron", Stand: s, Urgency: Watch}
	need := map[blend.Nutrient]float64{}
	var titles, says []string
	if sulfur {
		need[blend.S] = outlook.SulfurGiven
		titles = append(titles, "sulfur")
		says = append(says, fmt.Sprintf("its tops hold %.2f %% of sulfur, under %.2f: %d lb of sulfate sulfur an acre pays, however much is wanting", f.Values["s"], soil.SulfurCritical, outlook.SulfurGiven))
	}
	if boron {
		need[blend.B] = outlook.BoronGiven
		titles = append(titles, "boron")
		says = append(says, fmt.Sprintf("its tops hold %.0f ppm of boron, too little by every table: %d lb an acre broadcast with the topdressing", f.Values["b"], outlook.BoronGiven))
		p.Cautions = append(p.Cautions, fmt.Sprintf("Boron: never with or beside the seed, never over %.0f lb an acre a year; corn and small grains that follow are sensitive.", blend.PublishedLimits().Boron))
	}
	if len(titles) > 0 {
		p.Title = "Short of " + strings.Join(titles, " and ") + ": with the next topdressing"
		if s.Date-f.Day <= tissueNews {
			p.Urgency = Week
		}
		p.Sentence = fmt.Sprintf("By the test of %s %s.", Short(f.Day), strings.Join(says, "; "))
	} else {
		p.Title, p.Sentence = "Copper and molybdenum: tell the feeder", fmt.Sprintf("By the test of %s nothing is to be spread.", Short(f.Day))
	}
	if copper != "" {
		p.Cautions = append(p.Cautions, copper)
	}
	p.Worth.Text = tissueWorth(s, o, need)
	p.Measure = "the tops again at bud next year, by the same laboratory"
	p.Grounds = tissueGrounds(s, f)
	return p
}

// copperSays warns of molybdenum that takes copper from cattle.
func copperSays(f *outlook.TissueFound) string {
	cu, ok1 := f.Values["cu"]
	mo, ok2 := f.Values["mo"]
	if !ok1 || !ok2 || mo == 0 || cu/mo >= copperLow {
		return ""
	}
	how := "may"
	if cu/mo < copperBad {
		how = "will"
	}
	return fmt.Sprintf("Copper to molybdenum is %.1f to 1: cattle fed on this alone %s want copper under %d to 1. Ask the nutritionist or veterinarian, and put no molybdenum on, least of all with lime.", cu/mo, how, copperLow)
}

func tissueWorth(s *outlook.Stand, o *outlook.Outlook, need map[blend.Nutrient]float64) string {
	c := o.Cost(s, need)
	if len(c.Lines) == 0 {
		return ""
	}
	return fmt.Sprintf("It costs $%.2f an acre by %s.", c.Acre, strings.Join(c.Lines, " and "))
}

func tissueGrounds(s *outlook.Stand, f *outlook.TissueFound) []Ground {
	how := "top growth"
	if f.Stage != "" {
		how += " at " + strings.ReplaceAll(f.Stage, "-", " ")
	}
	if f.Lab != "" {
		how += ", " + f.Lab
	}
	var all []Ground
	for _, e := range []soil.Element{"s", "b", "cu", "mo"} {
		v, ok := f.Values[e]
		if !ok {
			continue
		}
		g := Ground{What: elementName(e), Value: fmt.Sprintf("%g %s", v, elementUnit(e)), How: how, Sources: []source.ID{source.TissueGeorgia, source.TissueAlberta, source.TissueTriState}}
		if j, ok := f.Of(e); ok {
			g.How += "; enough by " + strings.Join(j.Tables, ", ")
		}
		switch {
		case e == "s":
			g.Sources = append(g.Sources, source.TissueSulfur)
			if n, has := f.Values["n"]; has && v > 0 {
				g.Value += fmt.Sprintf(", nitrogen to sulfur %.1f to 1", n/v)
				g.How += fmt.Sprintf("; over %d to 1 tells want", soil.SulfurRatio)
				g.Sources = append(g.Sources, source.TissueSulfurRatio)
			}
		case e == "b" && s.SoilCrop() == soil.RedClover:
			g.How, g.Sources = how+"; 20 ppm are enough in clover", []source.ID{source.BoronTissue, source.BoronTopdress, source.BoronPlacing}
		case e == "b":
			g.Sources = append(g.Sources, source.BoronTissue, source.BoronTopdress, source.BoronPlacing)
		case e == "mo", e == "cu":
			g.Sources = append(g.Sources, source.Molybdenum)
		}
		all = append(all, g)
	}
	return all
}

func elementName(e soil.Element) string {
	return map[soil.Element]string{"s": "Sulfur", "b": "Boron", "cu": "Copper", "mo": "Molybdenum"}[e]
}

func elementUnit(e soil.Element) string {
	if e.PPM() {
		return "ppm"
	}
	return "%"
}
