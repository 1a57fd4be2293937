package tabular

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// Bounds of a workbook (choices): a small file may hold a great deal of nothing.
const (
	mostUnzipped = 64 << 20
	mostCells    = 500_000
)

// isWorkbook reports whether a file is a zip or an old workbook, by its first bytes.
func isWorkbook(raw []byte) bool {
	return bytes.HasPrefix(raw, []byte("PK\x03\x04")) || bytes.HasPrefix(raw, []byte("\xd0\xcf\x11\xe0"))
}

// grid hands out the rows of a workbook.
type grid struct {
	rows [][]string
	next int
}

// Read gives the next row.
func (g *grid) Read() ([]string, error) {
	if g.next == len(g.rows) {
		return nil, io.EOF
	}
	g.next++
	return g.rows[g.next-1], nil
}

// fill makes a row as wide as the header: a workbook leaves empty cells at its end out.
func fill(cells []string, width int) []string {
	for len(cells) > width && strings.TrimSpace(cells[len(cells)-1]) == "" {
		cells = cells[:len(cells)-1]
	}
	for len(cells) < width {
		cells = append(cells, "")
	}
	return cells
}

// workbookRows reads the one sheet of a workbook that has rows. Numbers come as they are kept and not as
// they are shown, dates as YYYY-MM-DD and percentages with their sign: what is shown may be rounded, or
// put the month where others have the day.
func workbookRows(raw []byte) (rows [][]string, err error) {
	// The library is not ours: a workbook that it stumbles over is refused as any other bad file.
	defer func() {
		if r := recover(); r != nil {
			rows, err = nil, whole("the workbook cannot be read (%v); save the sheet as CSV", r)
		}
	}()
	if !bytes.HasPrefix(raw, []byte("PK")) {
		return nil, whole("this is a workbook of the old kind, or one locked with a password; save it as .xlsx or CSV")
	}
	f, err := excelize.OpenReader(bytes.NewReader(raw), excelize.Options{UnzipSizeLimit: mostUnzipped, UnzipXMLSizeLimit: mostUnzipped, RawCellValue: true})
	if err != nil {
		return nil, whole("the file is no workbook that can be read (%v); save the sheet as CSV", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	var found []string
	for _, sheet := range f.GetSheetList() {
		got, err := sheetRows(f, sheet)
		var fault *Fault
		switch {
		case errors.As(err, &fault):
			return nil, err
		case err != nil:
			return nil, whole("sheet %s cannot be read (%v); save it as CSV", sheet, err)
		case len(got) > 0:
			rows, found = got, append(found, sheet)
		}
	}
	switch len(found) {
	case 0:
		return nil, whole("the workbook is empty")
	case 1:
		return rows, nil
	}
	return nil, whole("%d sheets hold something: %.200q; keep the one you mean and take the others out", len(found), found)
}

func sheetRows(f *excelize.File, sheet string) (rows [][]string, err error) {
	in, err := f.Rows(sheet)
	if err != nil {
		return nil, err
	}
	defer func() { _ = in.Close() }() // see above
	shown := map[int]shape{}          // by style
	cells, some := 0, false
	for in.Next() {
		row, err := in.Columns()
		if err != nil {
			return nil, err
		}
		if cells += len(row) + 1; cells > mostCells {
			return nil, whole("sheet %s has more than %d cells; take out the part you need", sheet, mostCells)
		}
		for i, text := range row {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				continue
			}
			if row[i], err = cellText(f, sheet, i+1, len(rows)+1, text, v, shown); err != nil {
				return nil, err
			}
		}
		some = some || !blank(row)
		rows = append(rows, row)
	}
	if err := in.Error(); err != nil || !some {
		return nil, err
	}
	return rows, nil
}

// shape is how a number is shown, as far as it changes what it says.
type shape int

const (
	asNumber shape = iota
	asDate
	asPercent
)

// cellText writes a number as what its cell shows it to be. A cell that holds text stays as it is.
func cellText(f *excelize.File, sheet string, column, row int, text string, v float64, known map[int]shape) (string, error) {
	at, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return "", err
	}
	kind, err := f.GetCellType(sheet, at)
	if err != nil {
		return "", err
	}
	if kind != excelize.CellTypeUnset && kind != excelize.CellTypeNumber && kind != excelize.CellTypeFormula {
		return text, nil
	}
	id, err := f.GetCellStyle(sheet, at)
	if err != nil {
		return "", err
	}
	as, seen := known[id]
	if !seen {
		style, err := f.GetStyle(id)
		if err != nil {
			return "", err
		}
		as = shapeOf(style)
		known[id] = as
	}
	switch as {
	case asDate:
		return dateText(v, f)
	case asPercent:
		return plainNumber(v*100) + "%", nil
	default:
		return plainNumber(v), nil
	}
}

// shapeOf reads a style's number format: those of the standard by number, others by their letters.
func shapeOf(s *excelize.Style) shape {
	if s.CustomNumFmt == nil {
		switch n := s.NumFmt; {
		case n == 9 || n == 10:
			return asPercent
		case n >= 14 && n <= 22, n >= 27 && n <= 36, n >= 50 && n <= 58:
			return asDate
		}
		return asNumber
	}
	var letters strings.Builder
	quoted := false
	for _, r := range strings.ToLower(*s.CustomNumFmt) {
		switch {
		case r == '"':
			quoted = !quoted
		case r == '[':
			quoted = true // a colour or a country
		case r == ']':
			quoted = false
		case !quoted:
			letters.WriteRune(r)
		}
	}
	switch code := letters.String(); {
	case strings.Contains(code, "%"):
		return asPercent
	case strings.ContainsAny(code, "yd"):
		return asDate
	}
	return asNumber
}

func dateText(v float64, f *excelize.File) (string, error) {
	from1904 := false
	if p, err := f.GetWorkbookProps(); err == nil && p.Date1904 != nil {
		from1904 = *p.Date1904
	}
	t, err := excelize.ExcelDateToTime(v, from1904)
	if err != nil {
		return "", fmt.Errorf("%g is shown as a date: %w", v, err)
	}
	return t.Format(time.DateOnly), nil
}

// plainNumber writes a number without what its binary form adds behind the twelfth digit.
func plainNumber(v float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 11, 64), 64)
	if err != nil || math.IsInf(short, 0) {
		short = v
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}
