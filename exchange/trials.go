package exchange

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"haywarden/tabular"
)

// Trial is a table of variety trials: plots, or means of an entry in a place and year.
type Trial struct {
	File
	Called  TrialColumns // the columns as they were found
	Traits  []string     // columns of numbers that are not names, in the file's order
	Rows    []TrialRow
	spoiled map[string]string // columns with numbers and other things, by plain name
}

// TrialColumns says which column holds what; an empty one is looked for by its usual names.
type TrialColumns struct{ Entry, Place, Year, Block string }

// TrialRow is one row, with nil where a trait has no value.
type TrialRow struct {
	Row                       int
	Entry, Place, Year, Block string
	Values                    []*float64
}

// trialNames are the usual names of the columns.
var trialNames = [4][]string{
	{"entry", "variety", "cultivar", "entries", "gen", "genotype", "hybrid", "name", "variety name"},
	{"environment", "env", "location", "site", "place", "loc", "trial", "station", "town"},
	{"year", "harvest year", "crop year", "season"},
	{"block", "rep", "replicate", "replication", "blk"},
}

// TrialNames lists the usual names of the columns: of entries, places, years and blocks.
func TrialNames() [4][]string { return trialNames }

// noValue are the ways in which a plot without a value is written.
var noValue = []string{"", "na", "n/a", ".", "-", "--", "nan"}

// ReadTrial reads a table of trials with any columns: one of entries is needed, those of place, year and
// block are taken where they are there. Every other column whose cells are numbers or empty is a trait.
func ReadTrial(r io.Reader, name string, called TrialColumns) (Trial, error) {
	s, err := openBare(r, name, nil)
	if err != nil {
		return Trial{}, err
	}
	header := s.in.Header.Names()
	var at [4]int
	used := map[int]bool{}
	for i, want := range []*string{&called.Entry, &called.Place, &called.Year, &called.Block} {
		at[i] = -1
		if *want != "" {
			if at[i] = s.in.Header.Find(*want); at[i] < 0 {
				s.Add(1, "", "no column %s; the columns are %s", *want, s.in.Header)
				continue
			}
		} else {
			at[i] = s.in.Header.Find(trialNames[i]...)
		}
		if at[i] < 0 {
			continue
		}
		if used[at[i]] {
			s.Add(1, header[at[i]], "is asked to say two things: entries, places, years and blocks want a column each")
		}
		used[at[i]] = true
		*want = header[at[i]]
	}
	if at[0] < 0 && s.Err() == nil {
		s.Add(1, "", "no column says which entry a row is of (%s); name it, the columns are %s", strings.Join(trialNames[0][:4], ", "), s.in.Header)
	}
	if err := s.Err(); err != nil {
		return Trial{}, err
	}
	t := Trial{Called: called, spoiled: map[string]string{}}
	var cells [][]string
	var parse []tabular.Row
	for {
		more, err := s.next()
		if err != nil {
			return Trial{}, err
		}
		if !more {
			break
		}
		row := TrialRow{Row: s.row.Place}
		for i, into := range []*string{&row.Entry, &row.Place, &row.Year, &row.Block} {
			*into = strings.Join(strings.Fields(s.row.Cell(at[i])), " ")
			if at[i] >= 0 && *into == "" {
				s.Add(row.Row, header[at[i]], "is empty: each row says its %s, or the column is taken out", []string{"entry", "place", "year", "block"}[i])
			}
		}
		line := make([]string, len(header))
		for i := range header {
			line[i] = s.row.Cell(i)
		}
		cells, parse = append(cells, line), append(parse, s.row)
		t.Rows = append(t.Rows, row)
	}
	if err := s.Err(); err != nil {
		return Trial{}, err
	}
	for i, column := range header {
		if used[i] || column == "" {
			continue
		}
		t.trait(i, column, cells, parse)
	}
	t.File = s.file
	for i, column := range header {
		if !used[i] && column != "" && !slices.Contains(t.Traits, column) {
			t.Unused = append(t.Unused, header[i])
		}
	}
	if len(t.Traits) == 0 {
		s.Add(1, "", "no column holds what was measured: one of numbers wanted beside the names; the columns are %s", s.in.Header)
	}
	return t, s.Err()
}

// trait takes a column of numbers; one that has other things too is kept in mind.
func (t *Trial) trait(i int, column string, cells [][]string, parse []tabular.Row) {
	values := make([]*float64, len(cells))
	some, bad := false, ""
	for n, line := range cells {
		text := strings.TrimSpace(strings.TrimSuffix(line[i], "%"))
		if slices.Contains(noValue, strings.ToLower(text)) {
			continue
		}
		v, err := parse[n].Number(text)
		if err != nil {
			if bad == "" {
				bad = fmt.Sprintf("row %d, column %s: %s; a number wanted, or an empty cell where there is none", parse[n].Place, column, err)
			}
			continue
		}
		some, values[n] = true, &v
	}
	switch {
	case bad != "" && some:
		t.spoiled[tabular.Plain(column)] = bad
	case some:
		t.Traits = append(t.Traits, column)
		for n := range t.Rows {
			t.Rows[n].Values = append(t.Rows[n].Values, values[n])
		}
	}
}

// Trait finds a trait by its name as people write it, and says what is wrong with a column that is none.
func (t Trial) Trait(name string) (string, error) {
	for _, trait := range t.Traits {
		if tabular.Plain(trait) == tabular.Plain(name) {
			return trait, nil
		}
	}
	if why := t.spoiled[tabular.Plain(name)]; why != "" {
		return "", fmt.Errorf("%s: %s", t.Name, why)
	}
	return "", fmt.Errorf("%s: no column %s of numbers; those are %s", t.Name, strconv.Quote(name), strings.Join(t.Traits, ", "))
}
