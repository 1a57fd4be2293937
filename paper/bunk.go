package paper

import (
	"fmt"

	"haywarden/advice"
	"haywarden/chart"
	"haywarden/outlook"
)

// Bunk is a crop on its way from the field to the bunk: what each step leaves of the product wanted, and
// the products beside each other, both for mowing on the best day.
type Bunk struct {
	Stairs chart.Staircase
	Short  chart.Staircase // the same in four steps, where there is no room for all
	Rows   [][]string      // a heading and a row a product
	Say    string
}

// FieldToBunk is the way of the coming cut; not ok where no cut judged by feed value is near.
func FieldToBunk(s *outlook.Stand, pieces []*advice.Piece) (Bunk, bool) {
	mown, ok := advice.MowingDay(pieces)
	if !ok {
		return Bunk{}, false
	}
	brought := s.Wanted(s.BroughtOn(mown))
	if len(brought) == 0 {
		return Bunk{}, false
	}
	c, ok := s.Way(brought[0].Product).Chain(int(mown - s.Date))
	if !ok {
		return Bunk{}, false
	}
	b := Bunk{Stairs: chart.Staircase{Unit: "tons of dry matter an acre", Shares: true, Steps: []chart.Step{{Label: "standing", Value: c.Standing.DM}}}}
	b.Stairs.Title = fmt.Sprintf("From field to bunk as %s, mown on %s without rain", brought[0].Product, advice.Short(mown))
	b.Stairs.Desc = fmt.Sprintf("Of %.2f tons standing %.2f are fed.", c.Standing.DM, c.Left().DM)
	b.Short = b.Stairs
	b.Short.Steps = b.Stairs.Steps[:1:1]
	for i, step := range c.Steps {
		at := chart.Step{Label: step.Name, Value: step.After.DM, Low: step.Left.Low, High: step.Left.High}
		b.Stairs.Steps = append(b.Stairs.Steps, at)
		switch {
		case i+1 < len(c.Steps) && c.Steps[i+1].Name == "storage":
			at.Label = "brought in"
		case step.Name == "storage":
			at.Label = "stored"
		case i == len(c.Steps)-1:
			at.Label = "fed"
		default:
			continue
		}
		b.Short.Steps = append(b.Short.Steps, at)
	}
	b.Rows = [][]string{{"As", "Tons DM/ac fed", "RFV at the bunk", "Made without harmful rain"}}
	for _, w := range brought {
		tons := s.Yield.FirstCut
		b.Rows = append(b.Rows, []string{
			advice.Capital(string(w.Product)), fmt.Sprintf("%.2f (%.2f–%.2f)", tons*w.Kept.Middle, tons*w.Kept.Low, tons*w.Kept.High),
			fmt.Sprintf("%s (%s–%s)", advice.Points(w.RFV.Middle), advice.Points(w.RFV.Low), advice.Points(w.RFV.High)),
			fmt.Sprintf("%s within %d days", advice.Odds(w.Clean), w.Within),
		})
	}
	b.Say = fmt.Sprintf("Mown on %s: tons of dry matter an acre and feed value at the bunk, 8 chances in 10 between the ends, through each way the weather may go; clean is made without harmful rain. A swath of 4 t/ha over 70 %% of the ground, conditioned; haylage in a bunker, wrapped bales, hay in round bales inside (assumed).", advice.Weekday(mown))
	return b, true
}

// stairs draws what each step from field to bunk leaves.
func (s *sheet) stairs(b Bunk) {
	const width, height = 620, 130
	b.Stairs.Width, b.Stairs.Height = width, height
	s.room(height*wide/width + 20)
	s.say(b.Stairs.Title+". "+b.Stairs.Desc, 9.5, "B", quiet)
	s.draw(b.Stairs, margin, wide)
	s.gap(4)
}

// bunk sets the products beside each other at the bunk.
func (s *sheet) bunk(b Bunk) {
	s.room(float64(len(b.Rows)) * 13)
	for i, row := range b.Rows {
		style, t := "", ink
		if i == 0 {
			style, t = "B", quiet
		}
		s.ink(t)
		s.doc.SetFont(family, style, 9.5)
		for k, cell := range row {
			width := wide / 4
			end := 0
			if k == len(row)-1 {
				end = 1
			}
			s.doc.CellFormat(width, 13, clean(cell), "", end, "L", false, 0, "")
		}
	}
	s.gap(4)
}
