package advice

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// staleLook is after how many days a stock wants a look again (choice: stocks are taken three or four
// times a year).
const staleLook = 90

// RunOut says which quality of feed runs out before the next crop is opened, and tells a lack of tons from
// a lack of quality.
func RunOut(f *outlook.Farm) *Piece {
	classes := f.Classes
	if f.Corn != nil {
		classes = append(slices.Clip(classes), *f.Corn)
	}
	var first *outlook.FeedClass
	for i := range classes {
		if c := &classes[i]; c.Short(f.Opens) && (first == nil || c.LowOut < first.LowOut) {
			first = c
		}
	}
	if first == nil {
		return nil
	}
	p := &Piece{Decision: "run-out", Feed: f, Urgency: nearing(f.Date, first.LowOut)}
	what := first.Name
	if strings.HasPrefix(what, "RFQ") {
		what = "hay crop of " + what
	}
	opened := fmt.Sprintf("the next crop is opened about %s", Short(f.Opens))
	if first.Name == classes[len(classes)-1].Name && f.Corn != nil {
		opened = fmt.Sprintf("it is to last until %s", Short(f.Opens))
	}
	switch {
	case first.Supply.High < 1:
		p.Title = "None in store that is known: " + what
		p.Sentence = fmt.Sprintf("Nothing in store is known to be %s, and %s of it are wanted for %s until the next crop is opened about %s.", what, shortTons(first.Gap), andList(first.Groups), Short(f.Opens))
		p.Worth.Text = shortTons(first.Gap) + " short"
	case first.Gap > 0:
		p.Title = fmt.Sprintf("Runs out %s: %s", Short(first.RunsOut), what)
		low := ""
		if first.LowOut != first.RunsOut {
			low = ", in the low case until " + Short(first.LowOut)
		}
		p.Sentence = fmt.Sprintf("%s lasts until %s%s; %s: %s short for %s.", Capital(what), Short(first.RunsOut), low, opened, shortTons(first.Gap), andList(first.Groups))
		p.Worth.Text = shortTons(first.Gap) + " short"
	default:
		p.Title = fmt.Sprintf("May run out %s: %s", Short(first.LowOut), what)
		p.Urgency = Watch
		p.Sentence = fmt.Sprintf("%s lasts until %s; if it is as little as the measure leaves open, only until %s, and %s.", Capital(what), Short(first.RunsOut), Short(first.LowOut), opened)
	}
	if f.Plan != nil {
		switch g := f.Plan.Gaps; {
		case g.Quality > 0 && g.Quantity > 0:
			p.Sentence += fmt.Sprintf(" The farm is short of tons (%s) and of quality (%s).", shortTons(g.Quantity), shortTons(g.Quality))
		case g.Quality > 0:
			p.Sentence += " There are tons enough on the farm; it is the quality that lacks."
		case g.Quantity > 0:
			p.Sentence += " Quality there is; it is tons that lack."
		}
	}
	p.Window = &Window{Early: first.LowOut, Middle: first.RunsOut, Late: max(first.RunsOut, first.LowOut), Best: first.LowOut, Means: "running out, from the low case to the middle", Firm: true}
	for _, l := range f.Lots {
		looked := l.Filled
		if n := len(l.Left); n > 0 {
			looked = l.Left[n-1].Day
		}
		if l.LbDay > 0 && f.Date-looked > staleLook {
			p.Measure = fmt.Sprintf("what is left of %s: it was last looked at on %s", l.Name, Short(looked))
		}
	}
	p.Grounds = []Ground{
		{
			What: "In store", Value: fmt.Sprintf("%.0f tons to be eaten, %.0f to %.0f as measured", first.Supply.Mid, first.Supply.Low, first.Supply.High),
			How: "each lot as it was last measured, less what was fed since and what the store still takes", Sources: []source.ID{source.WeeksLeft, source.LowCase},
		},
		{
			What: "Need", Value: fmt.Sprintf("%.0f lb of dry matter a day for %s", first.LbDay, andList(first.Groups)),
			How: "intake of each group by its share of this forage, feeding losses in it", Reckon: fmt.Sprintf("weeks-left tons=%.2f loss=0 lb_day=%.1f", first.Supply.Mid, first.LbDay), Sources: []source.ID{source.HerdNeed, source.WeeksLeft},
		},
		{What: "Next crop", Value: fmt.Sprintf("in store about %s, opened three weeks later", Short(f.NextCrop)), How: f.Why, Sources: []source.ID{source.FermentTime}},
	}
	return p
}

// andList writes names as a sentence does.
func andList(names []string) string {
	switch n := len(names); n {
	case 0:
		return "nobody"
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}
