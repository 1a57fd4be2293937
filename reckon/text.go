package reckon

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// wide is the width that text for people keeps to.
const wide = 100

// Text sets the answer for people: what was asked, what came out, and what it rests on.
func (a *Answer) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n\n", a.Method.Title, a.Method.Name)
	var asked, answered []line
	for _, g := range a.Given {
		about := g.Input.About
		if g.ByDefault {
			about += " (default used)"
		}
		asked = append(asked, line{g.Input.Key, sayGiven(g), g.Unit.Symbol, about})
	}
	for _, o := range a.Outputs {
		answered = append(answered, line{o.Output.Key, sayAnswered(o), o.Unit.Symbol, o.Output.About})
	}
	b.WriteString("Asked\n")
	align(&b, asked)
	b.WriteString("\nAnswer\n")
	align(&b, answered)
	for _, o := range a.Outputs {
		if g, ok := o.Value.(method.Grid); ok {
			alignGrid(&b, o.Output.Key, g)
		}
	}
	if len(a.Notes) > 0 {
		b.WriteString("\nNotes\n")
		for _, n := range a.Notes {
			wrap(&b, "  - ", "    ", n)
		}
	}
	b.WriteString("\nSources\n")
	citeAll(&b, a.Sources)
	return b.String()
}

func citeAll(b *strings.Builder, sources []source.Source) {
	for _, s := range sources {
		wrap(b, "  - ", "    ", cite(s))
	}
}

func cite(s source.Source) string { return fmt.Sprintf("%s [%s]", s.Cite, s.Grade) }

// sayGiven writes an input in as many digits as were given; of a long list, which the asker has at
// hand, only its ends and its length.
func sayGiven(g Given) string {
	switch v := g.Value.(type) {
	case float64:
		return plain(v)
	case []float64:
		return ends(v, func(v float64) string {
			if math.IsInf(v, 1) {
				return "none"
			}
			return plain(v)
		})
	case []method.Reading:
		return ends(v, sayReading)
	case []string:
		return ends(v, func(s string) string { return s })
	case []method.Pair:
		return ends(v, sayPair)
	case [][]float64:
		rows := make([]string, len(v))
		for i := range v {
			rows[i] = ends(v[i], plain)
		}
		return strings.Join(rows, "; ")
	case *method.Table:
		return fmt.Sprintf("%d rows of %s", len(v.Rows), strings.Join(v.Header, ", "))
	case unit.Day:
		return v.String()
	}
	return fmt.Sprint(g.Value)
}

func sayReading(r method.Reading) string { return plain(r.Height) + ":" + r.Stage }

func sayPair(p method.Pair) string { return p.Name + ":" + plain(p.Value) }

// sayAnswered writes an output rounded to its declared decimals.
func sayAnswered(o Answered) string {
	number := func(v float64) string {
		if math.IsInf(v, 1) {
			return o.Output.Never
		}
		return Rounded(v, o.Output.Decimals)
	}
	switch v := o.Value.(type) {
	case float64:
		return number(v)
	case []float64:
		return joined(v, number)
	case []string:
		return strings.Join(v, ", ")
	case []method.Pair:
		return joined(v, func(p method.Pair) string { return p.Name + " " + number(p.Value) })
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case method.Grid:
		return "below"
	}
	return fmt.Sprint(o.Value)
}

func ends[T any](items []T, say func(T) string) string {
	const longest, first = 16, 6
	if len(items) <= longest {
		return joined(items, say)
	}
	return fmt.Sprintf("%s, ... %s (%d values)", joined(items[:first], say), say(items[len(items)-1]), len(items))
}

func joined[T any](items []T, say func(T) string) string {
	said := make([]string, len(items))
	for i, item := range items {
		said[i] = say(item)
	}
	return strings.Join(said, ", ")
}

// Rounded writes v with so many decimals, halves up, as the trade prints its indices.
func Rounded(v float64, decimals int) string {
	p := math.Pow10(decimals)
	if r := math.Floor(v*p+0.5) / p; math.Abs(v*p) < 1e15 {
		v = r + 0 // never -0
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// line is a row of key, value, unit and remark.
type line struct{ key, value, unit, about string }

// align writes rows in columns: numbers flush right against their unit, words flush left. A value too
// long for a column, a list, gets lines of its own below the remark.
func align(b *strings.Builder, lines []line) {
	const longest = 24
	var key, value, unit int
	for _, l := range lines {
		key = max(key, utf8.RuneCountInString(l.key))
		unit = max(unit, utf8.RuneCountInString(l.unit))
		if n := utf8.RuneCountInString(l.value); n <= longest {
			value = max(value, n)
		}
	}
	for _, l := range lines {
		v := l.value
		long := utf8.RuneCountInString(v) > longest
		if long {
			v = ""
		}
		if v != "" && strings.ContainsRune("-.0123456789", rune(v[0])) {
			v = pad(value, v) + v
		} else {
			v += pad(value, v)
		}
		head := "  " + l.key + pad(key, l.key) + "  " + v + " " + l.unit + pad(unit, l.unit) + "  "
		wrap(b, head, strings.Repeat(" ", utf8.RuneCountInString(head)), l.about)
		if long {
			wrap(b, "      ", "      ", l.value)
		}
	}
}

func pad(width int, s string) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
}

// wrap writes text in lines no wider than a page, the first after head, the others after indent.
func wrap(b *strings.Builder, head, indent, text string) {
	at := head
	for word := range strings.FieldsSeq(text) {
		if at != head && at != indent && utf8.RuneCountInString(at)+utf8.RuneCountInString(word) > wide {
			b.WriteString(strings.TrimRight(at, " ") + "\n")
			at = indent
		}
		at += word + " "
	}
	b.WriteString(strings.TrimRight(at, " ") + "\n")
}
