package tabular

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Row is one row of a file.
type Row struct {
	Line  int // of the text, counted from 1
	Place int // as a spreadsheet program counts, where a cell of several lines is one row
	cells []string
	sep   rune
}

// Cell is the text of a column without spaces around it and with plain line ends; empty for a column
// that is not there, -1. The mark before what [Safe] made safe is taken off.
func (w Row) Cell(i int) string {
	if i < 0 {
		return ""
	}
	s := strings.TrimSpace(w.cells[i])
	if strings.Contains(s, "\r") {
		s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	}
	return bare(s)
}

// thousands matches a number whose comma may part thousands as well as decimals.
var thousands = regexp.MustCompile(`^[+-]?[1-9]\d{0,2},\d{3}$`)

// Number reads a plain decimal number, written in a cell of the row. A decimal comma counts only where
// the fields are not parted by commas themselves; where they are parted by tabs or bars, one before
// three digits is refused, since it may as well part thousands.
func (w Row) Number(s string) (float64, error) {
	if strings.Contains(s, ",") {
		switch {
		case w.sep == ',':
			return 0, fmt.Errorf("%q is not a number; a decimal comma is read only where fields are parted by ; or a tab", s)
		case w.sep != ';' && thousands.MatchString(s):
			return 0, fmt.Errorf("%q may be %s or %s; write which", s, strings.Replace(s, ",", "", 1), strings.Replace(s, ",", ".", 1))
		case strings.Count(s, ",") == 1 && !strings.Contains(s, "."):
			s = strings.Replace(s, ",", ".", 1)
		}
	}
	for i, c := range []byte(s) {
		if (c < '0' || c > '9') && c != '.' && (i > 0 || c != '-' && c != '+') {
			return 0, fmt.Errorf("%q is not a number", s)
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case errors.Is(err, strconv.ErrRange):
		return 0, fmt.Errorf("%q is too large a number", s)
	case err != nil:
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return v, nil
}

// CutUnit parts a number from a unit that was written after it: "71 cm" is "71" and "cm".
func CutUnit(s string) (number, unit string) {
	i := strings.IndexFunc(s, func(r rune) bool { return (r < '0' || r > '9') && !strings.ContainsRune("+-.,", r) })
	if i < 0 {
		return s, ""
	}
	return strings.TrimSpace(s[:i]), strings.TrimSpace(s[i:])
}
