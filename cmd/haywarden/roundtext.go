package main

import (
	"fmt"
	"io"
	"strings"

	"haywarden/advice"
	"haywarden/outlook"
)

// writeRound prints a round for people: sections in order, one sentence a line, grounds on request.
// What is said of several stands in the same words is said once, and a caution once in full: where it holds
// again the line says so.
func writeRound(w io.Writer, r *advice.Round, grounds bool) {
	warned := map[string]bool{}
	o := r.Outlook
	fmt.Fprintf(w, "%s\n", advice.Weekday(o.Date)+o.Date.Time().Format(" 2006"))
	farms := map[string]bool{}
	for _, s := range o.Stands {
		farms[s.Farm.ID] = true
	}
	fmt.Fprintf(w, "%s, %s", counted(len(farms), "farm"), counted(len(o.Stands), "stand"))
	if n := len(o.Stored); n > 0 {
		fmt.Fprintf(w, ", and hay of %s turned under", counted(n, "stand"))
	}
	fmt.Fprintln(w)
	if len(r.Pieces) == 0 {
		fmt.Fprintln(w, "\nNo stand grows in this book on that day. Bring stands with `haywarden import stands FILE.csv`\nand weather with `haywarden weather import FILE`; `haywarden demo` shows an invented district.")
	}
	for _, u := range advice.Urgencies() {
		lines := r.LinesOf(u)
		feed := r.FeedBy(u)
		if len(lines)+len(feed) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n%s\n%s\n", u.Title(), strings.Repeat("─", len(u.Title())))
		if u == advice.Rest {
			writeResting(w, lines)
			continue
		}
		for _, p := range feed {
			heading(w, p)
			writeBody(w, p, grounds, warned)
		}
		for _, same := range alike(lines, grounds) {
			heading(w, same[0].Piece)
			if more := same[1:]; len(more) > 0 {
				names := make([]string, len(more))
				for i, l := range more {
					names[i] = l.Named()
				}
				wrap(w, "    ", "The same for "+strings.Join(names, "; ")+".")
			}
			writeLine(w, same[0], grounds, warned)
		}
	}
}

// alike gathers lines that say the same of several stands, in the order of the first of each; by what they
// rest on too where that is told.
func alike(lines []advice.Line, grounds bool) [][]advice.Line {
	var out [][]advice.Line
	at := map[string]int{}
	for _, l := range lines {
		var text strings.Builder
		text.WriteString(l.Title + "\n")
		writeLine(&text, l, grounds, map[string]bool{})
		i, seen := at[text.String()]
		if !seen {
			i = len(out)
			at[text.String()] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], l)
	}
	return out
}

// writeLine writes all that is said of a stand beneath its heading.
func writeLine(w io.Writer, l advice.Line, grounds bool, warned map[string]bool) {
	writeBody(w, l.Piece, grounds, warned)
	for _, also := range l.Also {
		if also.Urgency == advice.Watch || also.Urgency == advice.Rest {
			continue // the stand's own text tells it
		}
		wrap(w, "    ", "Also: "+also.Title+". "+also.Sentence)
		writeCautions(w, also, warned)
		if grounds {
			writeGrounds(w, also)
		}
	}
}

func counted(n int, word string) string { return fmt.Sprintf("%d %s", n, advice.Plural(n, word)) }

func writeResting(w io.Writer, lines []advice.Line) {
	for _, p := range lines {
		fmt.Fprintf(w, "  %s: %s\n", p.Stand.Named(), p.Sentence)
	}
}

func heading(w io.Writer, p *advice.Piece) {
	fmt.Fprintf(w, "\n  %s — %s", p.Title, p.Named())
	if s := p.Stand; s != nil {
		fmt.Fprintf(w, ", %s ac, %s", advice.Acres(s.InField.Acres), standKind(s))
	}
	fmt.Fprintln(w)
}

func writePiece(w io.Writer, p *advice.Piece, grounds bool) {
	heading(w, p)
	writeBody(w, p, grounds, map[string]bool{})
}

// writeBody writes a piece beneath its heading.
func writeBody(w io.Writer, p *advice.Piece, grounds bool, warned map[string]bool) {
	wrap(w, "    ", p.Sentence)
	if win := p.Window; win != nil {
		wrap(w, "    ", windowText(win))
	}
	if p.Worth.Text != "" {
		wrap(w, "    ", "Worth: "+p.Worth.Text)
	}
	if d := p.Worth.Dollars; d != nil {
		wrap(w, "    ", dollarLine(d))
	}
	if p.Measure != "" {
		wrap(w, "    ", "Measure next: "+p.Measure+".")
	}
	writeCautions(w, p, warned)
	if grounds {
		writeGrounds(w, p)
	}
}

func writeCautions(w io.Writer, p *advice.Piece, warned map[string]bool) {
	above := false
	for _, c := range p.Cautions {
		if warned[c] {
			above = true
			continue
		}
		warned[c] = true
		wrap(w, "    ", "Caution: "+c)
	}
	if above {
		wrap(w, "    ", "Caution: what is said above of such work holds here too.")
	}
}

func windowText(w *advice.Window) string {
	if w.Firm {
		return fmt.Sprintf("When: %s, best %s (%s)", advice.Span(w.Early, w.Late), advice.Short(w.Best), w.Means)
	}
	text := fmt.Sprintf("Window: %s, best %s; 10, 50 and 90 %% of chances: %s, %s, %s (%s)", advice.Span(w.Early, w.Late), advice.Short(w.Best), advice.Short(w.Early), advice.Short(w.Middle), advice.Short(w.Late), w.Means)
	if w.BestWhy != "" {
		text += "; best day: " + w.BestWhy
	}
	return text
}

func dollarLine(d *advice.Dollars) string {
	if d.NoDifference {
		return fmt.Sprintf("No difference in money against %s by %s.", d.Against, d.Line)
	}
	return fmt.Sprintf("$%.0f an acre against %s, range $%.0f to $%.0f, by %s.", d.Middle, d.Against, d.Low, d.High, d.Line)
}

func writeGrounds(w io.Writer, p *advice.Piece) {
	for _, g := range p.Grounds {
		wrap(w, "      ", fmt.Sprintf("%s: %s — %s.", g.What, g.Value, g.How))
		if len(g.Others) > 0 {
			wrap(w, "        ", "fields: "+strings.Join(g.Others, ", "))
		}
		if g.Reckon != "" {
			fmt.Fprintf(w, "        haywarden reckon %s\n", g.Reckon)
		}
		for _, id := range g.Sources {
			wrap(w, "        ", "source: "+cite(id))
		}
	}
	for _, r := range p.Rules {
		line := fmt.Sprintf("Rule of thumb: %s. Here: %s.", r.Says, r.Here)
		if r.Differs != "" {
			line += " They differ because " + r.Differs + "."
		}
		wrap(w, "      ", line)
		fmt.Fprintf(w, "        %s\n", cite(r.Source))
	}
}

func standKind(s *outlook.Stand) string {
	return advice.Describe(s)
}

// wrap prints text at a readable width with an indent.
func wrap(w io.Writer, indent, text string) {
	const width = 92
	line := indent
	for word := range strings.FieldsSeq(text) {
		if len([]rune(line))+len([]rune(word))+1 > width && strings.TrimSpace(line) != "" {
			fmt.Fprintln(w, line)
			line = indent
		}
		if line != indent {
			line += " "
		}
		line += word
	}
	if strings.TrimSpace(line) != "" {
		fmt.Fprintln(w, line)
	}
}

// writeStand prints one stand with all its advice and grounds.
func writeStand(w io.Writer, s *outlook.Stand, pieces []*advice.Piece) {
	fmt.Fprintf(w, "%s\n%s ac, %s, seeded %s\n", s.Named(), advice.Acres(s.InField.Acres), advice.Describe(s), s.Seeded)
	switch {
	case s.Standing != nil:
		fmt.Fprintf(w, "Standing on %s: RFV %s ± %.0f, NDF %.1f %%, ADF %.1f %% of dry matter\n", s.Date, advice.Points(s.Standing.RFV), s.Standing.SD, s.Standing.NDF, s.Standing.ADF)
	case s.NotStanding != "":
		fmt.Fprintf(w, "Standing RFV not said: %s\n", s.NotStanding)
	}
	for _, r := range s.Readings {
		fmt.Fprintf(w, "  read %s: %d spots, tallest %.1f in, RFV %s ± %.0f%s\n", r.Day, r.Field.N, r.Highest, advice.Points(r.Field.RFV), r.Field.SD, setAside(r.Doubt))
	}
	for _, p := range pieces {
		writePiece(w, p, true)
	}
}

func setAside(doubt string) string {
	if doubt == "" {
		return ""
	}
	return " — set aside: " + doubt
}
