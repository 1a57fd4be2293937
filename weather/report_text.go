package weather

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// WriteText writes the report for a person to read.
func (rep Report) WriteText(w io.Writer) error {
	var b strings.Builder
	rep.writeHead(&b)
	if rep.Span != nil {
		rep.writeElements(&b)
		rep.writeDropped(&b)
		rep.writeYears(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (rep Report) writeHead(b *strings.Builder) {
	f, st := rep.File, rep.Station
	fmt.Fprintf(b, "%s\n", strings.TrimRight(st.ID+"  "+st.Name, " "))
	if st.Latitude != 0 || st.Longitude != 0 {
		fmt.Fprintf(b, "  place   %.4f, %.4f, %.0f m\n", st.Latitude, st.Longitude, st.Elevation)
	}
	fmt.Fprintf(b, "  file    %s, %s bytes, %s%s\n", f.Name, grouped(int(f.Size)), f.Format, leading(", ", f.Encoding))
	fmt.Fprintf(b, "  sha256  %s\n", f.SHA256)
	fmt.Fprintf(b, "  lines   %s, %s of this station\n", grouped(f.Lines), grouped(rep.Lines))
	fmt.Fprintf(b, "  units   %s, %s\n", f.Unit, f.UnitHow)
	for _, n := range f.Notes {
		fmt.Fprintf(b, "  note    %s\n", n)
	}
	if st.WholeF {
		b.WriteString("          whole degrees F recovered before any sum or threshold")
		if rep.NotWholeF > 0 {
			fmt.Fprintf(b, "; %s of %s temperatures are not whole and were rounded", grouped(rep.NotWholeF), grouped(rep.Temperatures))
		}
		b.WriteString("\n")
	}
	if s := rep.Span; s != nil {
		fmt.Fprintf(b, "  span    %s to %s, %s days\n", s.First, s.Last, grouped(s.Days))
	} else {
		b.WriteString("  span    nothing that is kept was reported\n")
	}
	if len(rep.Skipped) > 0 {
		names := make([]string, len(rep.Skipped))
		for i, s := range rep.Skipped {
			names[i] = s.Element + " " + grouped(s.Count)
		}
		fmt.Fprintf(b, "  passed over: %s\n", strings.Join(names, ", "))
	}
	if len(rep.ReadAt) > 0 {
		hours := make([]string, len(rep.ReadAt))
		for i, h := range rep.ReadAt {
			hours[i] = fmt.Sprintf("%02d:00 on %s days", h.Hour, grouped(h.Days))
		}
		fmt.Fprintf(b, "  lowest temperature read about: %s\n", strings.Join(hours, ", "))
	}
}

func (rep Report) writeElements(b *strings.Builder) {
	b.WriteString("\nDays by element\n")
	rows := [][]string{{"", "reported", "trace", "presumed 0", "absent", "flagged", "failed", "usable"}}
	for _, e := range rep.Elements {
		rows = append(rows, []string{e.Element, grouped(e.Reported), grouped(e.Trace), grouped(e.Presumed),
			grouped(e.Absent), grouped(total(e.Flagged)), grouped(total(e.Failed)), grouped(e.Usable())})
	}
	writeTable(b, rows)
}

func (rep Report) writeDropped(b *strings.Builder) {
	dropped := false
	say := func(element, rule string, count int) {
		if !dropped {
			dropped = true
			b.WriteString("\nDropped\n")
		}
		fmt.Fprintf(b, "  %s  %s: %s\n", element, rule, grouped(count))
	}
	for _, e := range rep.Elements {
		for _, r := range e.Flagged {
			say(e.Element, "flag "+r.Rule+", "+FlagMeaning(r.Rule[0]), r.Count)
			for _, x := range r.Examples {
				fmt.Fprintf(b, "        %s  %s\n", x.Day, x.Value)
			}
		}
		for _, r := range e.Failed {
			say(e.Element, r.Rule, r.Count)
			for _, x := range r.Examples {
				fmt.Fprintf(b, "        %s  %s: %s\n", x.Day, x.Value, x.Reason)
			}
		}
	}
	if !dropped {
		b.WriteString("\nNothing was dropped.\n")
	}
	rep.writeLook(b)
}

// writeLook lists what was kept and is worth a look at the sheet it came from.
func (rep Report) writeLook(b *strings.Builder) {
	said := false
	for _, e := range rep.Elements {
		for _, r := range e.Look {
			if !said {
				said = true
				b.WriteString("\nKept, worth a look\n")
			}
			fmt.Fprintf(b, "  %s  %s: %s\n", e.Element, r.Rule, grouped(r.Count))
			for _, x := range r.Examples {
				fmt.Fprintf(b, "        %s  %s: %s\n", x.Day, x.Value, x.Reason)
			}
		}
	}
}

// writeYears writes the share of days with a value, years alike joined into one line.
func (rep Report) writeYears(b *strings.Builder) {
	b.WriteString("\nDays with a value, percent of the year\n")
	rows := [][]string{{""}}
	for _, e := range rep.Elements {
		rows[0] = append(rows[0], e.Element)
	}
	for i := 0; i < len(rep.Years); {
		first, row := rep.Years[i].Year, rep.Years[i].percent()
		next := i + 1
		for next < len(rep.Years) && rep.Years[next].Year == first+next-i && slices.Equal(rep.Years[next].percent(), row) {
			next++
		}
		years := strconv.Itoa(first)
		if next-i > 1 {
			years += "-" + strconv.Itoa(rep.Years[next-1].Year)
		}
		rows = append(rows, slices.Concat([]string{years}, row))
		i = next
	}
	writeTable(b, rows)
}

// percent is a row of the table. It rounds down, so that 100 means every day.
func (y YearTally) percent() []string {
	cells := make([]string, len(y.Usable))
	for i, n := range y.Usable {
		cells[i] = strconv.Itoa(100 * n / y.Days)
	}
	return cells
}

// writeTable writes rows with their columns right-justified under each other.
func writeTable(b *strings.Builder, rows [][]string) {
	width := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			width[i] = max(width[i], len(cell))
		}
	}
	for _, row := range rows {
		for i, cell := range row {
			fmt.Fprintf(b, "  %*s", width[i], cell)
		}
		b.WriteString("\n")
	}
}

func total(list []RuleTally) int {
	n := 0
	for _, r := range list {
		n += r.Count
	}
	return n
}

// leading puts a lead before text that is not empty.
func leading(lead, text string) string {
	if text == "" {
		return ""
	}
	return lead + text
}

// grouped writes a count with its thousands set apart.
func grouped(n int) string {
	s := strconv.Itoa(n)
	for at := len(s) - 3; at > 0 && s[at-1] != '-'; at -= 3 {
		s = s[:at] + "," + s[at:]
	}
	return s
}
