package paper

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
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
// stands says less of each, so that two pages do; where nothing is due one page is tried for.
func FarmReport(f *book.FarmView, o *outlook.Outlook, stands []advice.StandAdvice, invented bool) ([]byte, error) {
	var s *sheet
	fits := func(pages int, level detail, more beside) (bool, error) {
		var err error
		if s, err = farmSheet(f, o, stands, invented, level, more); err != nil {
			return false, err
		}
		return s.doc.PageCount() <= pages, nil
	}
	// The lives of stands first, as many as two pages hold beside all else.
	for lives := min(len(stands), mostLives); lives > 0; lives-- {
		if ok, err := fits(mostPages, full, beside{true, lives}); err != nil {
			return nil, err
		} else if ok {
			return s.bytes()
		}
	}
	most := []int{mostPages}
	if len(pressing(stands)) == 0 {
		most = []int{1, mostPages}
	}
	for _, pages := range most {
		for level := full; level <= least; level++ {
			for _, soil := range []bool{true, false} {
				if ok, err := fits(pages, level, beside{soil: soil}); err != nil {
					return nil, err
				} else if ok {
					return s.bytes()
				}
			}
		}
	}
	return s.bytes()
}

// beside is what a report says of stands where it costs nothing else: a line of the soil under each, and the
// lives of the first so many.
type beside struct {
	soil  bool
	lives int
}

const mostLives = 4 // drawn in a report (choice)

const mostPages = 2

// detail is how much a report says of each stand.
type detail int

const (
	full  detail = iota
	brisk        // what advice rests on only for the first piece, the strip lower
	brief        // the first piece of each stand and what can hurt someone, without what it rests on
	plain        // the same without the picture of the way to the bunk
	bare         // the year in small for stands with nothing to do this week
	least        // the year in small for all, and each caution once: the first piece it goes with has it
)

func farmSheet(f *book.FarmView, o *outlook.Outlook, stands []advice.StandAdvice, invented bool, level detail, more beside) (*sheet, error) {
	foot := fmt.Sprintf("Made %s from records and weather through %s. An educational estimate, not a guarantee.", dated(o.Date), throughOf(stands, o))
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
	s.gap(8)
	if len(stands) == 0 {
		s.say("No stand grows on this farm on this day.", bodySize, "", ink)
		s.gap(8)
	} else {
		s.first(stands)
		s.key(chart.StripKeys())
	}
	if level == least {
		s.warned = map[string]bool{}
	}
	for i, sa := range Ordered(stands) {
		s.stand(sa, level, more.soil, i < more.lives)
	}
	s.closing(f, stands)
	return s, nil
}

// dated writes a day with its year.
func dated(d unit.Day) string { return advice.Short(d) + d.Time().Format(" 2006") }

// Ordered puts the stands with the most pressing advice first.
func Ordered(stands []advice.StandAdvice) []advice.StandAdvice {
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

// pressing are the stands with something to do this week, most pressing first.
func pressing(stands []advice.StandAdvice) []advice.StandAdvice {
	var out []advice.StandAdvice
	for _, sa := range Ordered(stands) {
		if sa.Pieces[0].Urgency <= advice.Week {
			out = append(out, sa)
		}
	}
	return out
}

// first lists what to do first, a line each.
func (s *sheet) first(stands []advice.StandAdvice) {
	due := pressing(stands)
	if len(due) == 0 {
		s.say("Nothing to do this week.", bodySize, "B", ink)
		s.gap(6)
		return
	}
	s.head("First", 14)
	for _, sa := range due {
		s.ink(ink)
		s.doc.SetFont(family, "B", bodySize)
		s.doc.CellFormat(nameWide, lead, clean(chart.Shorten(sa.Stand.InField.Name, bodySize, true, nameWide-8)), "", 0, "L", false, 0, "")
		s.doc.SetFont(family, "", bodySize)
		s.doc.CellFormat(wide-nameWide, lead, clean(sa.Pieces[0].Title), "", 1, "L", false, 0, "")
	}
	s.gap(6)
}

const nameWide = 150 // of the names in a list, points

// stand writes one stand: heading, its year, its advice.
func (s *sheet) stand(sa advice.StandAdvice, level detail, soil, lived bool) {
	st := sa.Stand
	strip := Strip(st, sa.Pieces)
	strip.Width = stripWidth
	switch {
	case level == bare && sa.Pieces[0].Urgency > advice.Week, level == least:
		strip.Months, strip.Height = true, 56 // the year in small, without its dates
	case level > full:
		strip.Labels, strip.Height = true, 100
	default:
		strip.Labels, strip.Height = true, 128
	}
	s.room(70 + strip.Height*wide/stripWidth)
	s.rule()
	s.gap(7)
	s.head(st.InField.Name, 15)
	what := fmt.Sprintf("%s acres · %s", advice.Acres(st.InField.Acres), advice.Describe(st))
	if st.Seeded <= st.Date {
		what += " · seeded " + dated(st.Seeded)
	}
	s.say(what, 9.5, "", quiet)
	s.gap(4)
	s.draw(strip, margin, wide)
	s.gap(2)
	printed := 0
	for i, p := range sa.Pieces {
		if i > 0 && p.Urgency > advice.Safety && (p.Urgency > advice.Week || level >= brief) {
			break
		}
		s.piece(p, level <= full || level == brisk && i == 0)
		printed++
	}
	if b, ok := FieldToBunk(st, sa.Pieces); ok && level <= plain {
		// One picture tells the way of a farm's crops: that of its most pressing cut.
		if !s.pictured && level <= brief {
			s.stairs(b)
			s.pictured = true
		}
		s.bunk(b)
		s.warnings(sa.Pieces[printed:])
	}
	s.ground(st, soil, lived)
	s.gap(3)
}

const stripWidth = 700

// ground says the soil under a stand, and draws its life where there is room for all that is known.
func (s *sheet) ground(st *outlook.Stand, soil, lived bool) {
	if line, ok := SoilLine(st); ok && soil {
		s.say(line, 8.5, "", quiet)
	}
	life, ok := Life(st)
	if !ok || !lived || len(life.Tracks) < fewestTracks {
		return
	}
	life.Width = stripWidth
	height := (30 + 52*float64(len(life.Tracks))) // flatter than on a page
	life.Height = height
	s.room(height * wide / stripWidth)
	s.draw(life, margin, wide)
}

// fewestTracks is how many things must be followed for a life to be drawn on paper (choice).
const fewestTracks = 3

func (s *sheet) piece(p *advice.Piece, grounds bool) {
	s.room(46)
	s.titled(p.Title, windowSay(p))
	s.say(p.Sentence, bodySize, "", ink)
	if p.Worth.Text != "" {
		s.say(p.Worth.Text, 10, "", ink)
	}
	switch d := p.Worth.Dollars; {
	case d == nil:
	case d.NoDifference:
		s.say(fmt.Sprintf("No difference in money against %s, by %s.", d.Against, d.Line), 10, "", ink)
	default:
		s.say(fmt.Sprintf("$%.0f an acre ($%.0f to $%.0f) against %s, by %s.", d.Middle, d.Low, d.High, d.Against, d.Short), 10, "", ink)
	}
	if grounds && p.Urgency <= advice.Week {
		s.choices(p.Choices)
	}
	if p.Measure != "" {
		s.say("Measure next: "+p.Measure+".", 10, "", ink)
	}
	above := false
	for _, c := range p.Cautions {
		if s.warned[c] {
			above = true
			continue
		}
		if s.warned != nil {
			s.warned[c] = true
		}
		s.say("Caution: "+c, 10, "B", ink)
	}
	if above {
		s.say("Caution: what is said above of such work holds here too.", 10, "B", ink)
	}
	if g := restsOn(p); grounds && g != "" && p.Urgency < advice.Rest {
		s.say(g, 8.5, "", quiet)
	}
	s.gap(4)
}

// warnings prints what goes with taking a crop up and storing it, where that advice itself is not printed.
func (s *sheet) warnings(left []*advice.Piece) {
	for _, p := range left {
		if p.Decision == "harvest-way" && len(p.Cautions) > 0 {
			s.say("Caution: "+strings.Join(p.Cautions, " "), 8.5, "B", ink)
			s.gap(3)
		}
	}
}

// choices sets the ways to go on with a stand side by side, in a line.
func (s *sheet) choices(all []advice.Choice) {
	var parts []string
	for _, c := range all {
		part := c.Name + " " + c.Tons
		if c.Dollars != "" {
			part += ", " + c.Dollars
		}
		parts = append(parts, part)
	}
	if len(parts) > 0 {
		s.say("Tons and dollars an acre: "+strings.Join(parts, "; ")+".", 9.5, "", ink)
	}
}

// titled writes a title with the days it is for at the right.
func (s *sheet) titled(title, days string) {
	s.ink(ink)
	s.doc.SetFont(family, "", 10)
	right := s.doc.GetStringWidth(clean(days)) + 4
	s.ink(accent)
	s.doc.SetFont(family, "B", 12)
	if s.doc.GetStringWidth(clean(title)) > wide-right-10 {
		// No room beside it: the days stand beneath.
		s.say(title, 12, "B", accent)
		s.say(days, 10, "", ink)
		return
	}
	s.doc.CellFormat(wide-right, 12*lead/bodySize, clean(title), "", 0, "L", false, 0, "")
	s.ink(ink)
	s.doc.SetFont(family, "", 10)
	s.doc.CellFormat(right, 12*lead/bodySize, clean(days), "", 1, "R", false, 0, "")
}

// windowSay says when to act, with the chances where they are chances.
func windowSay(p *advice.Piece) string {
	w := p.Window
	if w == nil {
		return ""
	}
	span := advice.Span(w.Early, w.Late)
	switch {
	case w.Firm, w.Late < p.Stand.Date:
		return span
	case w.Best == p.Stand.Date:
		return span + ", 8 chances in 10; best today"
	}
	return span + ", 8 chances in 10; best " + advice.Short(w.Best)
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

// closing names the sources and prices used, and whom to call.
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
	if len(cites) > mostCites {
		cites = append(cites[:mostCites], fmt.Sprintf("and %d more, listed with each answer on the page", len(cites)-mostCites))
	}
	if len(cites) > 0 {
		s.say("Sources: "+strings.Join(cites, "; ")+".", 8, "", quiet)
	}
	if lines := priceLines(stands); len(lines) > 0 {
		s.say("Prices: "+strings.Join(lines, "; ")+".", 8, "", quiet)
	}
	ask := "Questions, or a field that looks different from this: call your forage educator before you act."
	if len(f.Contacts) > 0 {
		ask = "For " + f.Contacts[0].Body.Name + ". " + ask
	}
	s.say(ask, 9.5, "B", ink)
}

const mostCites = 6

// priceLines names each price line that an amount rests on, once.
func priceLines(stands []advice.StandAdvice) []string {
	var lines []string
	for _, sa := range stands {
		for _, p := range sa.Pieces {
			if d := p.Worth.Dollars; d != nil && !slices.Contains(lines, d.Line) {
				lines = append(lines, d.Line)
			}
		}
	}
	return lines
}

func throughOf(stands []advice.StandAdvice, o *outlook.Outlook) string {
	for _, s := range stands {
		if s.Stand.Sky != nil {
			return advice.Short(s.Stand.Sky.Through)
		}
	}
	return advice.Short(o.Date - 1)
}
