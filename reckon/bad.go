package reckon

import (
	"fmt"
	"strings"
)

// BadInput is an error of the asker: what was given cannot be reckoned with. Its text is one line
// that names the key, what was given and what is accepted.
type BadInput struct {
	Method string // name of the method asked; empty where none was found
	Key    string // the input at fault; empty where it is no single one
	Text   string
}

// Error says it in one line.
func (e *BadInput) Error() string {
	text := strings.Join(strings.Fields(e.Text), " ")
	if e.Method == "" {
		return text
	}
	return e.Method + ": " + text
}

// didYouMean suggests the nearest of the known words, as a clause to append; it stays silent where
// none is near.
func didYouMean(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return fmt.Sprintf(" (did you mean %s?)", near)
	}
	return ""
}

// Nearest returns the known word that a slip of the fingers would most easily turn into word, empty
// where none is near.
func Nearest(word string, known []string) string {
	word = strings.ToLower(word)
	best, least := "", 1+max(1, len(word)/3)
	for _, k := range known {
		d := distance(word, strings.ToLower(k))
		if len(word) >= 3 && strings.HasPrefix(k, word) {
			d = min(d, 1)
		}
		if d < least {
			best, least = k, d
		}
	}
	return best
}

// distance counts the letters to insert, drop, change or swap with a neighbour to turn a into b.
func distance(a, b string) int {
	var before []int // the row before last
	last := make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range len(a) {
		row := make([]int, len(b)+1)
		row[0] = i + 1
		for j := range len(b) {
			change := last[j]
			if a[i] != b[j] {
				change++
			}
			row[j+1] = min(change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
