package tabular_test

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"haywarden/tabular"
)

const megabyte = 1 << 20

// read reads a whole file: its header, then its rows; a row that is a fault shows its error.
func read(t *testing.T, file string) (*tabular.Reader, [][]string) {
	t.Helper()
	in, err := tabular.Open(strings.NewReader(file), megabyte)
	if err != nil {
		t.Fatal(err)
	}
	rows := [][]string{in.Header.Names()}
	for {
		row, err := in.Next()
		var f *tabular.Fault
		switch {
		case errors.Is(err, io.EOF):
			return in, rows
		case errors.As(err, &f):
			rows = append(rows, []string{f.Error()})
			continue
		case err != nil:
			t.Fatal(err)
		}
		var cells []string
		for i := range rows[0] {
			cells = append(cells, row.Cell(i))
		}
		rows = append(rows, cells)
	}
}

// utf16Text writes text in two bytes a letter, the low byte first.
func utf16Text(s string) string {
	var b strings.Builder
	for _, w := range utf16.Encode([]rune(s)) {
		b.WriteByte(byte(w))
		b.WriteByte(byte(w >> 8))
	}
	return b.String()
}

// swapped exchanges the bytes of each pair.
func swapped(s string) string {
	b := []byte(s)
	for i := 0; i+1 < len(b); i += 2 {
		b[i], b[i+1] = b[i+1], b[i]
	}
	return string(b)
}

func TestFilesOfEveryKindReadAlike(t *testing.T) {
	const file = "farm,field\nHofstätter,Long Meadow\n"
	want := [][]string{{"farm", "field"}, {"Hofstätter", "Long Meadow"}}
	for _, c := range []struct{ name, file, encoding, separator string }{
		{"plain", file, "UTF-8", ","},
		{"with a byte-order mark", "\ufeff" + file, "UTF-8 with a byte-order mark", ","},
		{"Windows-1252", strings.ReplaceAll(file, "ä", "\xe4"), "Windows-1252", ","},
		{"UTF-16 with its mark", "\xff\xfe" + utf16Text(file), "UTF-16", ","},
		{"UTF-16, high byte first", swapped("\xff\xfe" + utf16Text(file)), "UTF-16", ","},
		{"UTF-16 without a mark", utf16Text(file), "UTF-16", ","},
		{"UTF-16 without a mark, high byte first", swapped(utf16Text(file)), "UTF-16", ","},
		{"semicolons", strings.ReplaceAll(file, ",", ";"), "UTF-8", ";"},
		{"tabs", strings.ReplaceAll(file, ",", "\t"), "UTF-8", "\t"},
		{"bars", strings.ReplaceAll(file, ",", "|"), "UTF-8", "|"},
		{"line ends of Windows", strings.ReplaceAll(file, "\n", "\r\n"), "UTF-8", ","},
		{"line ends of old Macintosh files", strings.ReplaceAll(file, "\n", "\r"), "UTF-8", ","},
		{"no line end at the end", strings.TrimSuffix(file, "\n"), "UTF-8", ","},
		{"empty lines", "\n" + strings.ReplaceAll(file, "\n", "\n\n , \n"), "UTF-8", ","},
		{"spaces around", strings.ReplaceAll(file, ",", "  , "), "UTF-8", ","},
		{"quoted", `"farm","field"` + "\n" + `"Hofstätter","Long Meadow"` + "\n", "UTF-8", ","},
	} {
		t.Run(c.name, func(t *testing.T) {
			in, got := read(t, c.file)
			if in.Encoding != c.encoding || string(in.Separator) != c.separator {
				t.Errorf("%s parted by %q, want %s by %q", in.Encoding, in.Separator, c.encoding, c.separator)
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestTheSeparatorIsTheOneThatGivesEvenRows(t *testing.T) {
	for _, c := range []struct {
		name, file string
		want       rune
	}{
		{"decimal commas between semicolons", "a;b;c\n1,5;2,5;3,5\n2,5;3,5;4,5\n", ';'},
		{"semicolons in a note", "a,b\n1,x; y; z\n2,x; y\n", ','},
		{"a comma in a tabbed note", "a\tb\n1\tx, y\n2\tx\n", '\t'},
		{"one column", "farm\nRidge\n", ','},
	} {
		if in, _ := read(t, c.file); in.Separator != c.want {
			t.Errorf("%s: parted by %q, want %q", c.name, in.Separator, c.want)
		}
	}
}

func TestWhatIsNoTableIsRefused(t *testing.T) {
	for _, c := range []struct{ name, file, want string }{
		{"empty", "", "the file is empty"},
		{"empty lines", "\n\n", "the file has no header line"},
		{"a byte-order mark alone", "\ufeff", "the file has no header line"},
		{"an archive", "PK\x03\x04", "the file is no workbook that can be read (zip: not a valid zip file); save the sheet as CSV"},
		{"a control character further down", "a,b\n1,\x1b2\n", "line 2 holds the control character U+001B: this is not a CSV text file"},
		{"neither UTF-8 nor Windows-1252", "farm\nH\x81f\n", "line 2: the file is neither UTF-8 nor Windows-1252; save it again as CSV UTF-8"},
		{"marked as UTF-8 and it is not", "\ufefffarm\nH\xe4f\n", "the file begins with the mark of UTF-8 but is not UTF-8 throughout; save it again as CSV UTF-8"},
		{"UTF-16 cut off", "\xff\xfef\x00a", "the file is UTF-16 but ends in half a letter: it was cut off, fetch it again"},
		{"UTF-16 with half a pair", "\xff\xfe\x00\xd8a\x00", "the file looks like UTF-16 but does not decode; save it again as CSV UTF-8"},
		{"a column twice", "farm,Field Name,acres,field_name\n", "line 1: column field_name stands twice, as number 2 and 4; take one out"},
		{"quotes in the header", "farm,\"field\nRidge,North\n", "line 1: extraneous or missing \" in quoted-field; check the quotes"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := tabular.Open(strings.NewReader(c.file), megabyte)
			var f *tabular.Fault
			if !errors.As(err, &f) || err.Error() != c.want {
				t.Errorf("error %v, want the fault %q", err, c.want)
			}
		})
	}
}

func TestALargeFileIsRefusedAndAReadingErrorIsNoFault(t *testing.T) {
	_, err := tabular.Open(strings.NewReader(strings.Repeat("a", megabyte+1)), megabyte)
	if err == nil || err.Error() != "the file is larger than 1 MB; take out the part you need" {
		t.Errorf("error %v for a large file", err)
	}
	if _, err := tabular.Open(strings.NewReader(strings.Repeat("a", megabyte)), megabyte); err != nil {
		t.Errorf("error %v for a file that just fits", err)
	}
	lost := errors.New("the disk is gone")
	_, err = tabular.Open(iotest.ErrReader(lost), megabyte)
	var f *tabular.Fault
	if !errors.Is(err, lost) || errors.As(err, &f) {
		t.Errorf("error %v, want the one of reading", err)
	}
}

func TestABadRowIsAFaultOfThatRowAlone(t *testing.T) {
	_, got := read(t, "farm,field\nRidge\nRidge,\"No\"rth\nRidge,North,20\nRidge,South\n")
	want := [][]string{
		{"farm", "field"},
		{"line 2: 1 fields, 2 wanted as in the header"},
		{`line 3: extraneous or missing " in quoted-field; check the quotes`},
		{"line 4: 3 fields, 2 wanted as in the header"},
		{"Ridge", "South"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestRowsCountAsASpreadsheetShowsThem(t *testing.T) {
	const file = "farm,\"note\nfor us\"\nA,one\nB,\"two\r\nlines\"\n\nC,\"thr\"ee\nD,four\nE\nF,\"five\nand\nmore\"\nG,six\n"
	in, err := tabular.Open(strings.NewReader(file), megabyte)
	if err != nil {
		t.Fatal(err)
	}
	type place struct{ Line, Row int }
	var got []place
	for {
		row, err := in.Next()
		var f *tabular.Fault
		switch {
		case errors.Is(err, io.EOF):
			want := []place{{3, 2}, {4, 3}, {7, 5}, {8, 6}, {9, 7}, {10, 8}, {13, 9}}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			return
		case errors.As(err, &f):
			got = append(got, place{f.Line, f.Row})
		default:
			got = append(got, place{row.Line, row.Place})
		}
	}
}

func TestAColumnGoesByItsNames(t *testing.T) {
	in, _ := read(t, "Farm,Field Name,Height (cm),bloom %,frame ft²,\n")
	for _, c := range []struct {
		names []string
		want  int
	}{
		{[]string{"farm"}, 0},
		{[]string{"field", "field_name"}, 1},
		{[]string{"height_cm"}, 2},
		{[]string{"bloom_pct"}, 3},
		{[]string{"FRAME-FT2"}, 4},
		{[]string{"county", "parish"}, -1},
		{nil, -1},
	} {
		if got := in.Header.Find(c.names...); got != c.want {
			t.Errorf("%q: column %d, want %d", c.names, got, c.want)
		}
	}
}

func TestALongHeaderIsShortenedInMessages(t *testing.T) {
	in, _ := read(t, strings.Repeat("a,b,", 2)[:3]+"\n")
	if got, want := in.Header.String(), `["a" "b"]`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	in, _ = read(t, "1,2,3,4,5,6,7,8,9,10,11,12,13,14\n")
	if got, want := in.Header.String(), `["1" "2" "3" "4" "5" "6" "7" "8" "9" "10" "11" "12"] and 2 more`; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func isFault(err error) bool {
	var f *tabular.Fault
	return errors.As(err, &f)
}
