package trial

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

// plots are the rows of a sheet that have a value in the response.
type plots struct {
	table  *method.Table
	values []float64
	rows   []int // of each plot, counted from 1 as the reader does
	lost   int
}

// notHarvested are the ways in which an empty cell is written.
var notHarvested = []string{"", "NA", "na", "."}

// readPlots takes the response; rows without one are plots that were lost.
func readPlots(t *method.Table, response string) (*plots, error) {
	j, err := columnOf(t, response)
	if err != nil {
		return nil, err
	}
	p := &plots{table: t}
	for i, row := range t.Rows {
		if slices.Contains(notHarvested, row[j]) {
			p.lost++
			continue
		}
		v, err := unit.Parse(row[j], unit.None)
		if err != nil {
			return nil, fmt.Errorf("row %d, column %s: %q; give a number, or leave the cell empty where the plot was lost", i+1, response, row[j])
		}
		p.values = append(p.values, v)
		p.rows = append(p.rows, i+1)
	}
	if len(p.values) == 0 {
		return nil, fmt.Errorf("column %s has no number in %d rows: give one for each plot that was harvested", response, len(t.Rows))
	}
	return p, nil
}

func columnOf(t *method.Table, name string) (int, error) {
	j := slices.Index(t.Header, name)
	if j < 0 {
		return 0, fmt.Errorf("no column is headed %s, found %s", name, strings.Join(t.Header, ", "))
	}
	return j, nil
}

// factor groups the plots by a column, or by the crossing of several, a:b.
func (p *plots) factor(term string) (Factor, error) {
	var f Factor
	for n, name := range strings.Split(term, ":") {
		j, err := columnOf(p.table, name)
		if err != nil {
			return Factor{}, err
		}
		words := make([]string, len(p.rows))
		for i, row := range p.rows {
			if words[i] = p.table.Rows[row-1][j]; words[i] == "" {
				return Factor{}, fmt.Errorf("row %d, column %s is empty: say which %s the plot belongs to", row, name, name)
			}
		}
		one := NewFactor(name, words)
		if n == 0 {
			f = one
			continue
		}
		f = Cross(f, one)
	}
	return f, nil
}

func (p *plots) factors(terms []string) ([]Factor, error) {
	var list []Factor
	for _, term := range terms {
		f, err := p.factor(term)
		if err != nil {
			return nil, err
		}
		list = append(list, f)
	}
	return list, nil
}

// note tells how many rows were left out.
func (p *plots) note(c *method.Call) {
	if p.lost > 0 {
		c.Note("%d of %d rows have no value and are taken as lost plots", p.lost, len(p.table.Rows))
	}
}

// enteredTwice names the first two rows that are alike in all that is used.
func (p *plots) enteredTwice(factors []Factor) (first, second int, found bool) {
	seen := map[string]int{}
	for i, v := range p.values {
		words := []string{strconv.FormatFloat(v, 'g', -1, 64)}
		for _, f := range factors {
			words = append(words, strconv.Itoa(f.At[i]))
		}
		key := strings.Join(words, ",")
		if at, ok := seen[key]; ok {
			return at, p.rows[i], true
		}
		seen[key] = p.rows[i]
	}
	return 0, 0, false
}
