package tabular

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// workbook makes a workbook with one sheet for each list of rows.
func workbook(t testing.TB, edit func(f *excelize.File), sheets ...[][]any) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, rows := range sheets {
		name := "Sheet1"
		if i > 0 {
			name = "More"
			if _, err := f.NewSheet(name); err != nil {
				t.Fatal(err)
			}
		}
		for j, row := range rows {
			at, err := excelize.CoordinatesToCellName(1, j+1)
			if err != nil {
				t.Fatal(err)
			}
			if err := f.SetSheetRow(name, at, &row); err != nil {
				t.Fatal(err)
			}
		}
	}
	if edit != nil {
		edit(f)
	}
	out, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func styled(t testing.TB, f *excelize.File, cell string, style excelize.Style) {
	t.Helper()
	id, err := f.NewStyle(&style)
	if err == nil {
		err = f.SetCellStyle("Sheet1", cell, cell, id)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func readAll(t testing.TB, raw []byte) (names []string, rows [][]string, err error) {
	t.Helper()
	r, err := Open(bytes.NewReader(raw), 1<<20)
	if err != nil {
		return nil, nil, err
	}
	names = r.Header.Names()
	for {
		row, err := r.Next()
		if errors.Is(err, io.EOF) {
			return names, rows, nil
		}
		if err != nil {
			return names, rows, err
		}
		var cells []string
		for i := range names {
			cells = append(cells, row.Cell(i))
		}
		rows = append(rows, cells)
	}
}

// TestWorkbookCellsSayWhatTheyShow proves that dates, percentages and numbers come as they are meant,
// whatever the number format does to day and month or to decimals.
func TestWorkbookCellsSayWhatTheyShow(t *testing.T) {
	own, land := "dd/mm/yyyy", `[$-409]0.0" days"`
	raw := workbook(t, func(f *excelize.File) {
		styled(t, f, "A3", excelize.Style{NumFmt: 14})
		styled(t, f, "B3", excelize.Style{NumFmt: 10})
		styled(t, f, "C3", excelize.Style{NumFmt: 1}) // shown as 38
		styled(t, f, "D3", excelize.Style{CustomNumFmt: &own})
		styled(t, f, "E3", excelize.Style{CustomNumFmt: &land})
	}, [][]any{{"day", "share", "ndf", "other day", "days", "text"}, {}, {46154, 0.382, 38.2, 46154.5, 2.5, "46154"}, {"", 1, 0.1 + 0.2}})
	names, rows, err := readAll(t, raw)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"day", "share", "ndf", "other day", "days", "text"}, names); diff != "" {
		t.Errorf("headings (-want +got):\n%s", diff)
	}
	// Day 46154 after 30 December 1899 is 12 May 2026.
	if diff := cmp.Diff([][]string{{"2026-05-12", "38.2%", "38.2", "2026-05-12", "2.5", "46154"}, {"", "1", "0.3", "", "", ""}}, rows); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestRowsOfAWorkbookCountAsTheProgramShowsThem(t *testing.T) {
	r, err := Open(bytes.NewReader(workbook(t, nil, [][]any{{"a", "b"}, {"two\nlines", 1}, {}, {"x", 2, "over"}})), 1<<20)
	if err != nil {
		t.Fatal(err)
	}
	if row, err := r.Next(); err != nil || row.Place != 2 {
		t.Errorf("row %d, %v; want 2", row.Place, err)
	}
	var fault *Fault
	if _, err := r.Next(); !errors.As(err, &fault) || fault.Row != 4 || fault.Text != "3 fields, 2 wanted as in the header" {
		t.Errorf("error %v, want one of row 4", err)
	}
}

func TestWorkbooksThatCannotBeReadAreRefused(t *testing.T) {
	for _, c := range []struct {
		name string
		raw  []byte
		want string
	}{
		{"empty", workbook(t, nil, [][]any{}), "the workbook is empty"},
		{"two sheets", workbook(t, nil, [][]any{{"a"}, {1}}, [][]any{{"b"}, {2}}), `2 sheets hold something: ["Sheet1" "More"]; keep the one you mean`},
		{"the old kind", []byte("\xd0\xcf\x11\xe0\xa1\xb1"), "a workbook of the old kind"},
		{"cut off", workbook(t, nil, [][]any{{"a"}, {1}})[:900], "no workbook that can be read"},
	} {
		_, err := Open(bytes.NewReader(c.raw), 1<<20)
		var fault *Fault
		if !errors.As(err, &fault) || !strings.Contains(fault.Text, c.want) {
			t.Errorf("%s: error %v, want the fault %q", c.name, err, c.want)
		}
	}
}

func FuzzWorkbook(f *testing.F) {
	f.Add(workbook(f, nil, [][]any{{"a", "b"}, {1, "x"}}))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		if !isWorkbook(raw) {
			return
		}
		_, _, err := readAll(t, raw)
		var fault *Fault
		if err != nil && !errors.As(err, &fault) {
			t.Errorf("error %v is no fault of the file", err)
		}
	})
}
