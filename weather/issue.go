package weather

import (
	"fmt"
	"strings"
)

// MostIssues is how many reasons a refusal lists; the rest are counted.
const MostIssues = 20

// Issue is one thing wrong with a file.
type Issue struct {
	Line   int    `json:"line"` // counted from 1; 0 where the whole file is meant
	Reason string `json:"reason"`
}

// Refusal says why a file was not taken. One wrong line refuses the whole file: a record with holes
// where lines could not be read would look like a record of a station that did not report, and a half
// imported file is worse than none.
type Refusal struct {
	File   string  `json:"file"`
	Issues []Issue `json:"issues"` // the first of them, by line
	Found  int     `json:"found"`  // how many there are
}

// Error names the file and the first issues, one on a line.
func (r *Refusal) Error() string {
	if r.Found == 1 {
		return "read " + r.File + ": " + r.Issues[0].String() + "; nothing was taken in"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "read %s: %d lines are wrong, nothing was taken in", r.File, r.Found)
	for _, i := range r.Issues {
		b.WriteString("\n  " + i.String())
	}
	if more := r.Found - len(r.Issues); more > 0 {
		fmt.Fprintf(&b, "\n  and %d more", more)
	}
	return b.String()
}

// String writes the issue with its line.
func (i Issue) String() string {
	if i.Line == 0 {
		return i.Reason
	}
	return fmt.Sprintf("line %d: %s", i.Line, i.Reason)
}

// Refuse is a refusal of the whole file for one reason.
func Refuse(file, format string, args ...any) *Refusal {
	return &Refusal{File: file, Issues: []Issue{{Reason: fmt.Sprintf(format, args...)}}, Found: 1}
}
