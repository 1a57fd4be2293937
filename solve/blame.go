package solve

import (
	"context"
	"math"
	"slices"
)

// How large a contradiction is still made irreducible by trying each row and column. Choices.
const (
	blameRows    = 60
	blameColumns = 240
)

// blame narrows the rows of the evidence to an irreducible set: each in turn is left out, and stays
// out if the rest still contradict each other (deletion filter, Chinneck and Dravnieks 1991). Then the
// columns whose bounds take part, in the same way.
func (p *Problem) blame(ctx context.Context, ray []float64) Blame {
	in := make([]bool, len(p.rows))
	narrow := func(y []float64) {
		for i := range in {
			in[i] = in[i] && y[i] != 0
		}
	}
	for i := range in {
		in[i] = true
	}
	narrow(ray)
	// Rows that the evidence leaves alone stay as rows without bounds, so that numbers keep.
	without := func(rows, columns []bool) []float64 {
		q := &Problem{sense: 1, rows: slices.Clone(p.rows), columns: slices.Clone(p.columns)}
		for i := range q.rows {
			if !rows[i] {
				q.rows[i].low, q.rows[i].high, q.rows[i].terms = math.Inf(-1), math.Inf(1), nil
			}
		}
		for j := range q.columns {
			q.columns[j].cost = 0
			if !columns[j] {
				q.columns[j].low, q.columns[j].high = math.Inf(-1), math.Inf(1)
			}
		}
		if a := relax(ctx, q, pivotLimit(q, 0)); a.Status == Infeasible {
			return a.Ray
		}
		return nil
	}
	all := make([]bool, len(p.columns))
	for j := range all {
		all[j] = true
	}
	y := ray
	b := Blame{Ample: count(in) > blameRows}
	if !b.Ample {
		for i := range in {
			if !in[i] {
				continue
			}
			in[i] = false
			if rest := without(in, all); rest != nil {
				narrow(rest)
				y = rest
			} else {
				in[i] = true
			}
		}
	}
	bounded := p.leaningOn(y)
	if b.Ample = b.Ample || count(bounded) > blameColumns; !b.Ample {
		for j := range bounded {
			if !bounded[j] {
				continue
			}
			if bounded[j] = false; without(in, bounded) == nil {
				bounded[j] = true
			}
		}
		b.Ample = ctx.Err() != nil
	}
	for i, yes := range in {
		if yes {
			b.Rows = append(b.Rows, Row(i))
		}
	}
	for j, yes := range bounded {
		if yes {
			b.Columns = append(b.Columns, Column(j))
		}
	}
	return b
}

func count(yes []bool) (n int) {
	for _, y := range yes {
		if y {
			n++
		}
	}
	return n
}

// leaningOn tells which columns' bounds the evidence rests on.
func (p *Problem) leaningOn(y []float64) []bool {
	bounded := make([]bool, len(p.columns))
	z, _, err := p.combined(y)
	for j, c := range p.columns {
		bounded[j] = err == nil && (z[j] > 0 && !math.IsInf(c.high, 1) || z[j] < 0 && !math.IsInf(c.low, -1))
	}
	return bounded
}
