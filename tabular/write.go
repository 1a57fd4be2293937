package tabular

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Writer writes a file of comma-separated values that [Reader] reads back as it was.
type Writer struct{ out *csv.Writer }

// NewWriter writes to w.
func NewWriter(w io.Writer) *Writer { return &Writer{csv.NewWriter(w)} }

// Row writes a row. Text goes through [Safe] first; numbers do not, as a minus sign makes no formula
// of a plain number.
func (w *Writer) Row(cells ...string) error { return w.out.Write(cells) }

// Close writes what is still held back.
func (w *Writer) Close() error {
	w.out.Flush()
	return w.out.Error()
}

// Safe makes text that a spreadsheet program would take for a formula, since it begins with = + - or @,
// into one that it shows as it is: with an apostrophe before it, which [Row.Cell] takes off again.
func Safe(text string) string {
	text = strings.TrimSpace(text)
	if formula(text) {
		return "'" + text
	}
	return text
}

// bare undoes Safe.
func bare(text string) string {
	if rest, ok := strings.CutPrefix(text, "'"); ok && formula(rest) {
		return rest
	}
	return text
}

// formula reports whether text is taken for a formula, or would be once apostrophes are taken off it.
// The wide forms of the four characters count, since some programs narrow them.
func formula(text string) bool {
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, "'"))
	return strings.ContainsRune("=+-@＝＋－＠", first)
}

// Float writes a number in the fewest digits that are read back as the same.
func Float(v float64) string {
	if v == 0 {
		return "0" // minus zero has a sign otherwise
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
