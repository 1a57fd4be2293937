package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"time"
)

// column is an element of the archive and the column it is read from.
type column struct {
	element, name string
	scale         float64 // to the archive's unit: tenths of a degree C and of a mm, mm of snow
}

var columns = []column{
	{"TMAX", "tmax_c", 10}, {"TMIN", "tmin_c", 10}, {"PRCP", "prcp_mm", 10}, {"SNOW", "snow_mm", 1}, {"SNWD", "snwd_mm", 1},
}

// record is what was read: by element, in the order wanted, and by day.
type record struct {
	elements []string
	days     []day
}

// day holds a day's values by element; what is missing is not there.
type day struct {
	date   time.Time
	values map[string]int
}

// read reads a daily CSV from a year on. Without elements it takes all columns there are.
func read(in io.Reader, elements []string, from int) (*record, error) {
	rows := csv.NewReader(in)
	header, err := rows.Read()
	if err != nil {
		return nil, fmt.Errorf("read the header: %w", err)
	}
	r := &record{elements: elements}
	if elements == nil {
		for _, c := range columns {
			if slices.Contains(header, c.name) {
				r.elements = append(r.elements, c.element)
			}
		}
	}
	var wanted []column
	for _, e := range r.elements {
		i := slices.IndexFunc(columns, func(c column) bool { return c.element == e })
		if i < 0 {
			return nil, fmt.Errorf("element %q: TMAX, TMIN, PRCP, SNOW or SNWD wanted", e)
		}
		if !slices.Contains(header, columns[i].name) {
			return nil, fmt.Errorf("element %s: the file has no column %s", e, columns[i].name)
		}
		wanted = append(wanted, columns[i])
	}
	dateAt := slices.Index(header, "date")
	if dateAt < 0 || len(wanted) == 0 {
		return nil, fmt.Errorf("the columns are %q; date and one of tmax_c, tmin_c, prcp_mm, snow_mm, snwd_mm wanted", header)
	}
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return r, nil
		}
		if err != nil {
			return nil, err
		}
		line, _ := rows.FieldPos(0)
		d := day{values: map[string]int{}}
		if d.date, err = time.Parse(time.DateOnly, row[dateAt]); err != nil {
			return nil, fmt.Errorf("line %d: date %q: YYYY-MM-DD wanted", line, row[dateAt])
		}
		if n := len(r.days); n > 0 && !d.date.After(r.days[n-1].date) {
			return nil, fmt.Errorf("line %d: %s does not follow the day before it", line, row[dateAt])
		}
		for _, c := range wanted {
			written := row[slices.Index(header, c.name)]
			if written == "" {
				continue
			}
			v, err := strconv.ParseFloat(written, 64)
			whole := math.Round(v * c.scale)
			if err != nil || math.Abs(v*c.scale-whole) > 1e-6 || whole <= -9999 || whole > 99999 {
				return nil, fmt.Errorf("line %d: %s %q: a number of at most %d decimals that fits five columns wanted", line, c.name, written, int(math.Log10(c.scale)))
			}
			d.values[c.element] = int(whole)
		}
		if d.date.Year() >= from {
			r.days = append(r.days, d)
		}
	}
}

// source is the flag that says where a value is from; W is the archive's letter for airport records.
const source = "W"

// writeFixed writes one line for each month and element that has a value, elements by name.
func (r *record) writeFixed(w *bytes.Buffer, id string) {
	type month struct {
		year int
		m    time.Month
	}
	byMonth := map[month][]day{}
	for _, d := range r.days {
		k := month{d.date.Year(), d.date.Month()}
		byMonth[k] = append(byMonth[k], d)
	}
	months := slices.SortedFunc(maps.Keys(byMonth), func(a, b month) int { return 12*(a.year-b.year) + int(a.m-b.m) })
	for _, k := range months {
		for _, e := range slices.Sorted(slices.Values(r.elements)) {
			var value [32]string
			some := false
			for _, d := range byMonth[k] {
				if v, ok := d.values[e]; ok {
					value[d.date.Day()], some = fmt.Sprintf("%5d  %s", v, source), true
				}
			}
			if !some {
				continue
			}
			fmt.Fprintf(w, "%s%04d%02d%s", id, k.year, k.m, e)
			for _, v := range value[1:] {
				if v == "" {
					v = "-9999   "
				}
				w.WriteString(v)
			}
			w.WriteByte('\n')
		}
	}
}

// writeByStation writes one line for each day and element that has a value, read at midnight.
func (r *record) writeByStation(w *bytes.Buffer, id string) {
	for _, d := range r.days {
		for _, e := range r.elements {
			if v, ok := d.values[e]; ok {
				fmt.Fprintf(w, "%s,%s,%s,%d,,,%s,2400\n", id, d.date.Format("20060102"), e, v, source)
			}
		}
	}
}
