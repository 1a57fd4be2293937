package paper

import (
	"fmt"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/book"
	"haywarden/chart"
	"haywarden/outlook"
)

// FarmLede says in a sentence what a farm has.
func FarmLede(f *book.FarmView, stands []advice.StandAdvice) string {
	acres := 0.0
	for _, s := range stands {
		acres += s.Stand.InField.Acres
	}
	where := ""
	if f.County != "" {
		where = ", " + f.County
	}
	return fmt.Sprintf("%d %s, %.0f acres%s.", len(stands), advice.Plural(len(stands), "stand"), acres, where)
}

// FarmReport is one farm's report as a PDF of one or two pages: what to do first, then each stand with
// its year, its advice and what that rests on. It never holds another farm's data. A farm of many
// stands says less of each, so that two pages do.
func FarmReport(f *book.FarmView, o *outlook.Outlook, stands []advice.StandAdvice, invented bool) ([]byte, error) {
	var s *sheet
	for level := full; level <= bare; level++ {
		var err error
		if s, err = farmSheet(f, o, stands, invented, level); err != nil {
			return nil, err
		}
		if s.doc.PageCount() <= mostPages {
			break
		}
	}
	return s.bytes()
}

const mostPages = 2

// detail is how much a report says of each stand.
type detail int

const (
	full  detail = iota
	brisk        // what advice rests on only for the first piece, the strip lower
	brief        // the first piece of each stand, without what it rests on
	bare         // the year's strip only for stands with something to do this week
)

func farmSheet(f *book.FarmView, o *outlook.Outlook, stands []advice.StandAdvice, invented bool, level detail) (*sheet, error) {
	foot := fmt.Sprintf("Made %s from records and weather through %s. An educational estimate, not a guarantee.", advice.Short(o.Date)+o.Date.Time().Format(" 2006"), throughOf(stands, o))
	if invented {
		foot += " Invented farm."
	}
	s, err := newSheet(f.Name+", "+o.Date.String(), o.Date, foot)
	if err != nil {
		return nil, err
	}
	s.say("Forage report · "+advice.Weekday(o.Date)+o.Date.Time().Format(" 2006"), 10, "", quiet)
	s.head(f.Name, 26)
	s.say(FarmLede(f, stands), bodySize, "", ink)
	s.gap(10)
	if len(stands) == 0 {
		s.say("No stand grows on this farm on this day.", bodySize, "", ink)
	} else {
		s.first(stands)
	}
	for _, sa := range ordered(stands) {
		s.stand(sa, level)
	}
	s.closing(f, stands)
	return s, nil
}

// ordered puts the stands with the most pressing advice first.
func ordered(stands []advice.StandAdvice) []advice.StandAdvice {
	var out []advice.StandAdvice
	for _, u := range advice.Urgencies() {
		for _, s := range stands {
			if s.Pieces[0].Urgency == u {
				out = append(out, s)
			}
		}
	}
	return out
}

// first lists what to do first, a line each.
func (s *sheet) first(stands []advice.StandAdvice) {
	var lines [][2]string
	for _, sa := range ordered(stands) {
		if p := sa.Pieces[0]; p.Urgency <= advice.Week {
			lines = append(lines, [2]string{sa.Stand.InField.Name, p.Title})
		}
	}
	if len(lines) == 0 {
		s.say("Nothing to do this week.", bodySize, "B", ink)
		s.gap(8)
		return
	}
	s.head("First", 14)
	for _, l := range lines {
		s.ink(ink)
		s.doc.SetFont(family, "B", bodySize)
		s.doc.CellFormat(150, lead, clean(chart.Shorten(l[0], bodySize, true, 145)), "", 0, "L", false, 0, "")
		s.doc.SetFont(family, "", bodySize)
		s.doc.CellFormat(wide-150, lead, clean(l[1]), "", 1, "L", false, 0, "")
	}
	s.gap(8)
}

// stand writes one stand: heading, its year, its advice.
func (s *sheet) stand(sa advice.StandAdvice, level detail) {
	st := sa.Stand
	drawn := level < bare || sa.Pieces[0].Urgency <= advice.Week
	height := 128.0
	if level > full {
		height = 100
	}
	room := 70.0
	if drawn {
		room += height * wide / stripWidth
	}
	s.room(room)
	s.rule()
	s.gap(7)
	s.head(st.InField.Name, 15)
	s.say(fmt.Sprintf("%s acres · %s · seeded %s %d", advice.Acres(st.InField.Acres), advice.Describe(st), advice.Short(st.Seeded), st.Seeded.Year()), 9.5, "", quiet)
	if drawn {
		s.gap(4)
		strip := Strip(st, sa.Pieces)
		strip.Labels, strip.Width, strip.Height = true, stripWidth, height
		s.draw(strip, margin, wide)
	}
	s.gap(2)
	for i, p := range sa.Pieces {
		if i > 0 && (p.Urgency > advice.Week || level >= brief) {
			break
		}
		s.piece(p, level == full || level == brisk && i == 0)
	}
	s.gap(3)
}

const stripWidth = 700

func (s *sheet) piece(p *advice.Piece, grounds bool) {
	s.room(46)
	s.say(p.Title, 12, "B", accent)
	s.say(p.Sentence, bodySize, "", ink)
	if p.Worth.Text != "" {
		s.say(p.Worth.Text, 10, "", ink)
	}
	if d := p.Worth.Dollars; d != nil && !d.NoDifference {
		s.say(fmt.Sprintf("$%.0f an acre against %s, range $%.0f to $%.0f, by %s.", d.Middle, d.Against, d.Low, d.High, d.Line), 10, "", ink)
	}
	if p.Measure != "" {
		s.say("Measure next: "+p.Measure+".", 10, "", ink)
	}
	for _, c := range p.Cautions {
		s.say("Caution: "+c, 10, "B", ink)
	}
	if g := restsOn(p); grounds && g != "" {
		s.say(g, 8.5, "", quiet)
	}
	s.gap(4)
}

// restsOn is the shortest honest form of a piece's grounds.
func restsOn(p *advice.Piece) string {
	var parts []string
	for _, g := range p.Grounds {
		if len(parts) < 3 {
			parts = append(parts, g.What+": "+g.Value)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Rests on " + strings.Join(parts, "; ") + "."
}

// closing names whom to call and the sources used.
func (s *sheet) closing(f *book.FarmView, stands []advice.StandAdvice) {
	s.room(70)
	s.rule()
	s.gap(6)
	cited := map[source.ID]bool{}
	var cites []string
	for _, sa := range stands {
		for _, p := range sa.Pieces {
			for _, g := range p.Grounds {
				for _, id := range g.Sources {
					if src, ok := source.Find(id); ok && !cited[id] && src.Grade == source.Published {
						cited[id] = true
						cites = append(cites, src.Cite)
					}
				}
			}
		}
	}
	if len(cites) > 6 {
		cites = append(cites[:6], fmt.Sprintf("and %d more, listed with each answer on the page", len(cites)-6))
	}
	if len(cites) > 0 {
		s.say("Sources: "+strings.Join(cites, "; ")+".", 8, "", quiet)
	}
	if len(f.Contacts) > 0 {
		c := f.Contacts[0].Body
		s.say("For "+c.Name+". Questions: call your forage educator.", 8.5, "", quiet)
	}
}

func throughOf(stands []advice.StandAdvice, o *outlook.Outlook) string {
	for _, s := range stands {
		if s.Stand.Sky != nil {
			return advice.Short(s.Stand.Sky.Through)
		}
	}
	return advice.Short(o.Date - 1)
}
