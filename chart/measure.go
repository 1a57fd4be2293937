package chart

import (
	"sort"
	"strings"
)

// Width gives the width of a line of Source Sans 3 (regular, or semi-bold) at a size. Kerning is left
// out: it only narrows. A letter the typeface lacks counts as a full square.
func Width(s string, size float64, bold bool) float64 {
	table := &widthsRegular
	if bold {
		table = &widthsBold
	}
	var sum int
	for _, r := range s {
		sum += advance(table, r)
	}
	return float64(sum) / 1000 * size
}

// A run is the advance widths of consecutive code points in thousandths of the size; 0 stands for a
// letter that the typeface lacks.
type run struct {
	first  rune
	widths []uint16
}

func advance(table *[]run, r rune) int {
	i := sort.Search(len(*table), func(i int) bool { return (*table)[i].first > r }) - 1
	if i >= 0 {
		if k := int(r - (*table)[i].first); k < len((*table)[i].widths) && (*table)[i].widths[k] > 0 {
			return int((*table)[i].widths[k])
		}
	}
	return 1000
}

// Covered reports whether the embedded typeface can write r.
func Covered(r rune) bool {
	i := sort.Search(len(widthsRegular), func(i int) bool { return widthsRegular[i].first > r }) - 1
	if i < 0 {
		return false
	}
	k := int(r - widthsRegular[i].first)
	return k < len(widthsRegular[i].widths) && widthsRegular[i].widths[k] > 0
}

// Shorten cuts s to fit a width, at the end of a word where that keeps two thirds of what fits, and
// marks the cut by "…". It gives "" where not even one letter fits.
func Shorten(s string, size float64, bold bool, room float64) string {
	if Width(s, size, bold) <= room {
		return s
	}
	rs := []rune(s)
	cut := func(n int) string { return strings.TrimRight(string(rs[:n]), " ,·") + "…" }
	n := len(rs) - 1
	for n > 0 && Width(cut(n), size, bold) > room {
		n--
	}
	if n <= 0 {
		return ""
	}
	for m := n; 3*m > 2*n; m-- {
		if rs[m] == ' ' {
			return cut(m)
		}
	}
	return cut(n)
}
