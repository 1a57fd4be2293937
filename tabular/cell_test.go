package tabular_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/tabular"
)

// rowOf is a row of a file whose fields are parted so.
func rowOf(t *testing.T, sep string) tabular.Row {
	t.Helper()
	in, err := tabular.Open(strings.NewReader("a"+sep+"b\n1"+sep+"2\n"), megabyte)
	if err != nil {
		t.Fatal(err)
	}
	row, err := in.Next()
	if err != nil {
		t.Fatal(err)
	}
	return row
}

func TestANumberIsReadInOneWayOnly(t *testing.T) {
	for _, c := range []struct {
		sep, written string
		want         float64
		err          string
	}{
		{",", "12.5", 12.5, ""},
		{",", "-0.25", -0.25, ""},
		{",", "+3", 3, ""},
		{",", ".5", 0.5, ""},
		{",", "12,5", 0, `"12,5" is not a number; a decimal comma is read only where fields are parted by ; or a tab`},
		{";", "12,5", 12.5, ""},
		{";", "1,200", 1.2, ""},
		{"\t", "12,5", 12.5, ""},
		{"\t", "0,125", 0.125, ""},
		{"\t", "43,1397", 43.1397, ""},
		{"\t", "1,200", 0, `"1,200" may be 1200 or 1.200; write which`},
		{"|", "-89,412", 0, `"-89,412" may be -89412 or -89.412; write which`},
		{";", "1.200,5", 0, `"1.200,5" is not a number`},
		{";", "1,2,3", 0, `"1,2,3" is not a number`},
		{",", "", 0, `"" is not a number`},
		{",", "-", 0, `"-" is not a number`},
		{",", "1-2", 0, `"1-2" is not a number`},
		{",", "1e3", 0, `"1e3" is not a number`},
		{",", "0x1f", 0, `"0x1f" is not a number`},
		{",", "1_000", 0, `"1_000" is not a number`},
		{",", "NaN", 0, `"NaN" is not a number`},
		{",", "Inf", 0, `"Inf" is not a number`},
		{",", strings.Repeat("9", 400), 0, `"` + strings.Repeat("9", 400) + `" is too large a number`},
	} {
		got, err := rowOf(t, c.sep).Number(c.written)
		if c.err == "" && (err != nil || got != c.want) || c.err != "" && (err == nil || err.Error() != c.err) {
			t.Errorf("%q parted by %q: %g, %v; want %g, %s", c.written, c.sep, got, err, c.want, c.err)
		}
	}
}

func TestAUnitIsCutFromItsNumber(t *testing.T) {
	for _, c := range [][3]string{
		{"71cm", "71", "cm"}, {"71 cm", "71", "cm"}, {"28", "28", ""}, {"-3.5 %", "-3.5", "%"}, {"71,5cm", "71,5", "cm"},
		{"tall", "", "tall"}, {"", "", ""}, {`28"`, "28", `"`},
	} {
		if number, unit := tabular.CutUnit(c[0]); number != c[1] || unit != c[2] {
			t.Errorf("%q: %q and %q, want %q and %q", c[0], number, unit, c[1], c[2])
		}
	}
}

func TestADateIsReadInOneWayOnly(t *testing.T) {
	const wanted = "a date written YYYY-MM-DD wanted"
	for _, c := range []struct{ written, want, err string }{
		{"2024-05-03", "2024-05-03", ""},
		{"2024-5-3", "2024-05-03", ""},
		{"2024/05/03", "2024-05-03", ""},
		{"20240503", "2024-05-03", ""},
		{"2024-05-03 00:00:00", "2024-05-03", ""},
		{"2024-05-03T00:00:00.000Z", "2024-05-03", ""},
		{"2024-02-29", "2024-02-29", ""},
		{"3 May 2024", "2024-05-03", ""},
		{"3-may-2024", "2024-05-03", ""},
		{"3. May 2024", "2024-05-03", ""},
		{"May 3, 2024", "2024-05-03", ""},
		{"May 3rd, 2024", "2024-05-03", ""},
		{"Sept. 21 2024", "2024-09-21", ""},
		{"4/23/2024", "2024-04-23", ""},
		{"23/4/2024", "2024-04-23", ""},
		{"23.4.2024", "2024-04-23", ""},
		{"4/4/2024", "2024-04-04", ""},
		{"3/4/2024", "", "2024-03-04 or 2024-04-03? write the date so"},
		{"03.04.2024", "", "2024-03-04 or 2024-04-03? write the date so"},
		{"4/23/24", "", wanted + ", since day and month cannot be told apart otherwise"},
		{"23/23/2024", "", "there is no such day"},
		{"31/31/2024", "", "there is no such day"},
		{"2024-13-01", "", "there is no such day"},
		{"2023-02-29", "", "there is no such day"},
		{"2024-04-31", "", "there is no such day"},
		{"2024-00-10", "", "there is no such day"},
		{"31 April 2024", "", "there is no such day"},
		{"3 Mai 2024", "", `no month is called "Mai"; ` + wanted},
		{"2024-05-03 14:30", "", wanted + ", since day and month cannot be told apart otherwise"},
		{"2024-05/03", "", wanted},
		{"45415", "", wanted},
		{"last May", "", wanted},
		{"", "", wanted},
	} {
		d, err := tabular.Date(c.written)
		if c.err == "" && (err != nil || d.Format("2006-01-02") != c.want) || c.err != "" && (err == nil || err.Error() != c.err) {
			t.Errorf("%q: %v, %v; want %s, %s", c.written, d, err, c.want, c.err)
		}
	}
}

func TestADateByYearTakesNoOtherForm(t *testing.T) {
	for _, written := range []string{"4/23/2024", "23.4.2024", "3 May 2024", "2024-05-03 00:00:00"} {
		if d, err := tabular.DateByYear(written); err == nil {
			t.Errorf("%q: read as %v", written, d)
		}
	}
	if d, err := tabular.DateByYear("2024-05-03"); err != nil || d.Unix() != 1714694400 {
		t.Errorf("%v, %v; want midnight UTC of 3 May 2024", d, err)
	}
}

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	// Text as cells give it: no spaces around it, plain line ends, no control characters.
	text := rapid.OneOf(
		rapid.StringMatching(`['=+@\-a1 "]{0,6}`),
		rapid.StringMatching(`[=+@-]{0,2}[ -~äé€＝\n]{0,20}`),
	).Filter(func(s string) bool { return s == strings.TrimSpace(s) })
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(2, 5).Draw(t, "width")
		rows := rapid.SliceOfN(rapid.SliceOfN(text, width, width), 1, 8).Draw(t, "rows")
		var file strings.Builder
		w := tabular.NewWriter(&file)
		names := []string{"a", "b", "c", "d", "e"}[:width]
		if err := w.Row(names...); err != nil {
			t.Fatal(err)
		}
		var want [][]string
		for _, cells := range rows {
			safe := make([]string, width)
			for i, c := range cells {
				safe[i] = tabular.Safe(c)
			}
			if err := w.Row(safe...); err != nil {
				t.Fatal(err)
			}
			if strings.Join(cells, "") != "" { // an empty row says nothing
				want = append(want, cells)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		in, err := tabular.Open(strings.NewReader(file.String()), megabyte)
		if err != nil {
			t.Fatalf("%v in:\n%s", err, file.String())
		}
		if in.Separator != ',' {
			t.Fatalf("parted by %q", in.Separator)
		}
		for _, cells := range want {
			row, err := in.Next()
			if err != nil {
				t.Fatalf("%v in:\n%s", err, file.String())
			}
			for i, c := range cells {
				if got := row.Cell(i); got != c {
					t.Fatalf("cell %q came back as %q", c, got)
				}
			}
		}
		if row, err := in.Next(); err == nil {
			t.Fatalf("one row too many at line %d", row.Line)
		}
	})
}

func TestNoWrittenTextIsAFormula(t *testing.T) {
	for _, c := range [][2]string{
		{"=1+1", "'=1+1"}, {"+1 608 555 0100", "'+1 608 555 0100"}, {"-5", "'-5"}, {"@here", "'@here"}, {"＝1+1", "'＝1+1"},
		{" =1+1", "'=1+1"}, {"'=1+1", "''=1+1"}, {"'tis", "'tis"}, {"Ridge", "Ridge"}, {"", ""},
	} {
		if got := tabular.Safe(c[0]); got != c[1] {
			t.Errorf("%q: written %q, want %q", c[0], got, c[1])
		}
	}
}

func TestFloatKeepsEveryDigitAndNoMore(t *testing.T) {
	for v, want := range map[float64]string{0.1: "0.1", -89.4: "-89.4", 1e6: "1000000", 27.952755905511811: "27.95275590551181"} {
		if got := tabular.Float(v); got != want {
			t.Errorf("%g: %s, want %s", v, got, want)
		}
	}
	if tabular.Float(math.Copysign(0, -1)) != "0" {
		t.Error("minus zero is written with its sign")
	}
}

func FuzzReader(f *testing.F) {
	for _, s := range []string{
		"farm,field\nRidge,North\n", "\ufefffarm;field\r\nRidge;\"No\nrth\"\r\n", "\xff\xfef\x00,\x00a\x00\n\x001\x00,\x002\x00",
		"a\tb\r1\t1,200\r", "a|b\n'=1|+2\n", "H\xe4f,x\n\"\n", "a,b\n\"x", "a,b\n3/4/2024,3 May 2024\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		in, err := tabular.Open(strings.NewReader(string(raw)), megabyte)
		if err != nil {
			return
		}
		last := 0
		for {
			row, err := in.Next()
			if err != nil && !isFault(err) {
				return
			}
			if err != nil {
				continue
			}
			if row.Line <= last || row.Place > row.Line || row.Place < 1 {
				t.Fatalf("line %d, row %d after line %d", row.Line, row.Place, last)
			}
			last = row.Line
			for i := range in.Header.Names() {
				cell := row.Cell(i)
				if v, err := row.Number(cell); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
					t.Fatalf("%q is read as %g", cell, v)
				}
				if d, err := tabular.Date(cell); err == nil && (d.Year() < 0 || d.Year() > 9999) {
					t.Fatalf("%q is read as %v", cell, d)
				}
				if safe := tabular.Safe(cell); safe != "" && strings.ContainsRune("=+-@", rune(safe[0])) {
					t.Fatalf("%q is written as a formula", cell)
				}
			}
		}
	})
}
