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
	FormatPlainCSV   Format = "plain daily CSV"
	FormatGridded    Format = "gridded single-pixel CSV"
	FormatHourly     Format = "hourly CSV"
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
// the first lines with anything on them; whether the rest is sound is for the reader to say. Of a table it
// asks no more than a header with a date and something that is kept: the reader names what is lacking.
func Sniff(head []byte) Format {
	switch {
	case bytes.HasPrefix(head, []byte{0x1f, 0x8b}):
		return FormatGzip
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return FormatZip
	}
	lines := firstLines(head)
	line := lines[0]
	switch {
	case slices.ContainsFunc(lines, YearAndDay):
		return FormatGridded
	case fixedWidthLine.MatchString(line):
		return FormatFixedWidth
	case byStationLine.MatchString(line):
		return FormatByStation
	}
	return sniffTable(lines)
}

// yearAndDay begins the header of a gridded series after lines of free text.
var yearAndDay = regexp.MustCompile(`(?i)^"?year"?[,;\t] ?"?yday"?[,;\t]`)

// YearAndDay reports whether a line is the header of a gridded series with years of 365 days.
func YearAndDay(line string) bool { return yearAndDay.MatchString(strings.TrimSpace(line)) }

// clock matches a time of day within a stamp; midnight, which spreadsheet programs add to dates, tells
// nothing.
var (
	clock    = regexp.MustCompile(`\d[T ]\d{1,2}:\d{2}`)
	midnight = regexp.MustCompile(`[T ]0?0:00(:00(\.0+)?)?Z?["']?([,;|\t]|$)`)
)

// sniffTable tells the tables apart by their header, and hours from days by the stamps below it.
func sniffTable(lines []string) Format {
	for len(lines) > 1 && strings.HasPrefix(strings.TrimSpace(lines[0]), "#") {
		lines = lines[1:]
	}
	names := strings.FieldsFunc(lines[0], func(r rune) bool { return strings.ContainsRune(`,;|`+"\t", r) })
	has, declared, pixel := map[Quantity]bool{}, false, false
	for i, n := range names {
		names[i] = strings.ToUpper(strings.Trim(n, ` "`))
		h := ParseHeading(strings.Trim(n, ` "`))
		_, daily := h.Quantity.Element()
		has[h.Quantity] = true
		declared = declared || daily && h.Measure != NoMeasure
		pixel = pixel || strings.HasPrefix(names[i], "TMMX") || strings.HasPrefix(names[i], "TMMN")
	}
	day := has[DateQ] || has[YearQ] && (has[YearDayQ] || has[MonthQ])
	daily := has[HighQ] || has[LowQ] || has[RainQ] || has[SnowQ] || has[DepthQ]
	timed := has[HourQ] || slices.ContainsFunc(lines[1:], func(l string) bool { return clock.MatchString(l) && !midnight.MatchString(l) })
	switch {
	case slices.Contains(names, "STATION") && slices.Contains(names, "DATE") && !declared && !timed:
		return FormatDailyCSV
	case day && pixel:
		return FormatGridded
	case day && timed && (has[TemperatureQ] || has[RainQ]) && !has[HighQ] && !has[LowQ]:
		return FormatHourly
	case day && daily:
		return FormatPlainCSV
	}
	return FormatUnknown
}

// firstLines are the first lines with anything on them, at least one, without byte-order marks and, for
// a first look only, without the zero bytes of UTF-16.
func firstLines(head []byte) []string {
	const most = 40
	for _, mark := range []string{"\xff\xfe", "\xfe\xff", "\xef\xbb\xbf"} {
		head = bytes.TrimPrefix(head, []byte(mark))
	}
	head = bytes.ReplaceAll(head, []byte{0}, nil)
	var out []string
	for line := range bytes.FieldsFuncSeq(head, func(r rune) bool { return r == '\n' || r == '\r' }) {
		if len(bytes.TrimSpace(line)) > 0 && len(out) < most {
			out = append(out, string(line))
		}
	}
	return append(out, "")
}
