package weather

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
)

// Format is a form in which weather comes.
type Format string

// The forms told apart.
const (
	FormatUnknown    Format = "unknown"
	FormatFixedWidth Format = "GHCN-Daily fixed width (.dly)"
	FormatByStation  Format = "GHCN-Daily by-station CSV"
	FormatDailyCSV   Format = "daily-summaries CSV"
	FormatGzip       Format = "gzip"
	FormatZip        Format = "zip"
)

// SniffLength is how much of a file's head tells its form.
const SniffLength = 4096

var (
	fixedWidthLine = regexp.MustCompile(`^[A-Z0-9_-]{11}\d{6}[A-Z0-9]{4}[ \d-]{5}`)
	byStationLine  = regexp.MustCompile(`^([A-Z0-9_-]{11},\d{8},[A-Z0-9]{4},-?\d+(,|$)|ID,DATE,ELEMENT,)`)
)

// Sniff tells a file's form from its head, the first SniffLength bytes or all there are. It looks at
// the first line with anything on it; whether the rest is sound is for the reader to say. Of a CSV it
// asks no more than a header with DATE, and STATION or an element: the reader names what is lacking.
func Sniff(head []byte) Format {
	switch {
	case bytes.HasPrefix(head, []byte{0x1f, 0x8b}):
		return FormatGzip
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return FormatZip
	}
	line := firstLine(head)
	switch {
	case fixedWidthLine.MatchString(line):
		return FormatFixedWidth
	case byStationLine.MatchString(line):
		return FormatByStation
	}
	names := strings.FieldsFunc(strings.ToUpper(line), func(r rune) bool { return strings.ContainsRune(`,;|"`+"\t", r) })
	for i, n := range names {
		names[i] = strings.TrimSpace(n)
	}
	known := func(n string) bool { _, ok := ElementOf(n); return ok || n == "STATION" }
	if slices.Contains(names, "DATE") && slices.ContainsFunc(names, known) {
		return FormatDailyCSV
	}
	return FormatUnknown
}

// firstLine is the first line with anything on it, without byte-order marks and, for a first look
// only, without the zero bytes of UTF-16.
func firstLine(head []byte) string {
	for _, mark := range []string{"\xff\xfe", "\xfe\xff", "\xef\xbb\xbf"} {
		head = bytes.TrimPrefix(head, []byte(mark))
	}
	head = bytes.ReplaceAll(head, []byte{0}, nil)
	for line := range bytes.FieldsFuncSeq(head, func(r rune) bool { return r == '\n' || r == '\r' }) {
		if len(bytes.TrimSpace(line)) > 0 {
			return string(line)
		}
	}
	return ""
}
