package solve

import "slices"

// ordering is the order in which the columns of a basis are factored: first those that stand alone
// in a row or a row that stands alone in them, which fill nothing in, then the rest by their length.
type ordering struct {
	order    []int
	rowOf    []int // pivot row of the peeled ones
	peeled   int
	rowCount []int
}

func newOrdering(m int, vars []int, col func(int) ([]int, []float64)) *ordering {
	o := &ordering{rowCount: make([]int, m)}
	colCount := make([]int, len(vars))
	for c, v := range vars {
		index, _ := col(v)
		colCount[c] = len(index)
		for _, i := range index {
			o.rowCount[i]++
		}
	}
	start := make([]int, m+1)
	for i, n := range o.rowCount {
		start[i+1] = start[i] + n
	}
	inRow, next := make([]int, start[m]), slices.Clone(start)
	for c, v := range vars {
		index, _ := col(v)
		for _, i := range index {
			inRow[next[i]] = c
			next[i]++
		}
	}
	rowDone, colDone := make([]bool, m), make([]bool, len(vars))
	var loneCols, loneRows []int
	for c, n := range colCount {
		if n == 1 {
			loneCols = append(loneCols, c)
		}
	}
	for i, n := range o.rowCount {
		if n == 1 {
			loneRows = append(loneRows, i)
		}
	}
	peel := func(c, r int) {
		o.order, o.rowOf = append(o.order, c), append(o.rowOf, r)
		colDone[c], rowDone[r] = true, true
		index, _ := col(vars[c])
		for _, i := range index {
			if o.rowCount[i]--; o.rowCount[i] == 1 && !rowDone[i] {
				loneRows = append(loneRows, i)
			}
		}
		for _, d := range inRow[start[r]:start[r+1]] {
			if colCount[d]--; colCount[d] == 1 && !colDone[d] {
				loneCols = append(loneCols, d)
			}
		}
	}
	for len(loneCols)+len(loneRows) > 0 {
		if n := len(loneCols); n > 0 {
			c := loneCols[n-1]
			loneCols = loneCols[:n-1]
			if colDone[c] {
				continue
			}
			index, _ := col(vars[c])
			if at := slices.IndexFunc(index, func(i int) bool { return !rowDone[i] }); at >= 0 {
				peel(c, index[at])
			}
			continue
		}
		n := len(loneRows)
		r := loneRows[n-1]
		loneRows = loneRows[:n-1]
		if rowDone[r] {
			continue
		}
		list := inRow[start[r]:start[r+1]]
		if at := slices.IndexFunc(list, func(c int) bool { return !colDone[c] }); at >= 0 {
			peel(list[at], r)
		}
	}
	o.peeled = len(o.order)
	for c := range vars {
		if !colDone[c] {
			o.order = append(o.order, c)
		}
	}
	rest := o.order[o.peeled:]
	slices.SortStableFunc(rest, func(a, b int) int { return colCount[a] - colCount[b] })
	return o
}
