package tabular

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Header is the names of the columns.
type Header struct {
	names []string
	plain []string // as [Plain] writes them
}

func newHeader(cells []string) (Header, error) {
	h := Header{}
	for i, c := range cells {
		name := strings.TrimSpace(c)
		plain := Plain(name)
		if first := slices.Index(h.plain, plain); first >= 0 && plain != "" {
			return Header{}, fmt.Errorf("column %s stands twice, as number %d and %d; take one out", name, first+1, i+1)
		}
		h.names, h.plain = append(h.names, name), append(h.plain, plain)
	}
	return h, nil
}

// Names lists the columns as the file writes them.
func (h Header) Names() []string { return slices.Clone(h.names) }

// Find gives the column that goes by one of the names, -1 where none does. Letters and digits count,
// capitals do not: "Feed RFV", "feed_rfv" and "feed-rfv" are one name.
func (h Header) Find(names ...string) int {
	for _, n := range names {
		if i := slices.Index(h.plain, Plain(n)); i >= 0 {
			return i
		}
	}
	return -1
}

// String lists the columns, up to a length that fits a message.
func (h Header) String() string {
	const most = 12
	if len(h.names) > most {
		return fmt.Sprintf("%.200q and %d more", h.names[:most], len(h.names)-most)
	}
	return fmt.Sprintf("%.200q", h.names)
}

// Plain leaves letters and digits of a name, in lower case; % counts as pct.
func Plain(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r == '%':
			b.WriteString("pct")
		case r == '²':
			b.WriteByte('2')
		case unicode.IsLetter(r), unicode.IsDigit(r):
			b.WriteRune(r)
		}
	}
	return b.String()
}
