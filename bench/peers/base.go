package main

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"
)

// The files of the record of USW00014839.
const (
	recordFile = "weather_milwaukee_1971_2020.csv"
	dlyFile    = "USW00014839.dly"
	csvFile    = "USW00014839_2016_2020.csv"
)

// The years and the place of the kernels.
const (
	firstYear, lastYear = 1991, 2020
	years               = lastYear - firstYear + 1
	fields              = 1000
	latitude            = 42.955
)

// base is the weather of the kernels, by day.
type base struct {
	text                           string // as the peers read it
	year, doy                      []int
	maxF, minF, maxC, minC, rainMM []float64
}

func readBase(path string) (*base, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // it was only read
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", path, err)
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	columns := []string{"tmax_f", "tmin_f", "tmax_c", "tmin_c", "prcp_mm"}
	for _, c := range append(slices.Clone(columns), "date") {
		if _, ok := at[c]; !ok {
			return nil, fmt.Errorf("read %s: there is no column %s", path, c)
		}
	}
	b := &base{}
	to := []*[]float64{&b.maxF, &b.minF, &b.maxC, &b.minC, &b.rainMM}
	var text strings.Builder
	text.WriteString("year,doy," + strings.Join(columns, ",") + "\n")
	for i, row := range rows[1:] {
		day, err := time.Parse(time.DateOnly, row[at["date"]])
		if err != nil {
			return nil, fmt.Errorf("read %s: row %d: %w", path, i+2, err)
		}
		if day.Year() < firstYear || day.Year() > lastYear {
			continue
		}
		b.year, b.doy = append(b.year, day.Year()), append(b.doy, day.YearDay())
		fmt.Fprintf(&text, "%d,%d", day.Year(), day.YearDay())
		for k, c := range columns {
			v, err := strconv.ParseFloat(row[at[c]], 64)
			if err != nil {
				return nil, fmt.Errorf("read %s: row %d, %s: %w", path, i+2, c, err)
			}
			*to[k] = append(*to[k], v)
			text.WriteString("," + row[at[c]])
		}
		text.WriteByte('\n')
	}
	b.text = text.String()
	return b, nil
}
