// Package solve answers linear programmes, with whole-number columns where they are asked for: the
// least (or most) of a cost over columns with bounds, under rows with bounds. Each answer carries its
// own evidence: shadow prices and reduced costs with an optimum, multipliers of the rows that
// contradict each other with "infeasible" (and their names), a direction with "unbounded". [Check]
// verifies the evidence against the problem as it was stated and knows nothing of how it was found.
//
// The method is the revised simplex with bounds on every variable. Row i gets a logical variable that
// holds minus its activity, so that every basis is square. A dual simplex (steepest edge, bound
// flipping, two-pass ratio test with shifted costs; Koberstein 2005, Maros 2003) makes the basis
// feasible: costs that stand in its way are shifted to zero meanwhile, since feasibility does not
// depend on them. A primal simplex (devex, two-pass ratio test after Harris 1973) then finishes with
// the true costs, and tells an unbounded problem. The basis is kept as sparse LU factors with
// threshold pivoting and product-form updates, made anew after [refactorAfter] of them.
//
// Long runs of steps that gain nothing are broken by moving the costs by a millionth (dual) and by
// Bland's rule (primal), which cannot cycle; a limit on the pivots stops whatever numbers may do.
//
// Whole numbers are found by branch and bound, best bound first, each node followed down to a leaf and
// warm-started by the dual simplex. A context stops any of it at any time; the best answer so far and
// its bound are kept.
//
// The columns and rows are scaled by powers of two, which rounds nothing. Tolerances, on the scaled
// problem: 1e-9 of a bound (at least 1e-9) for feasibility, 1e-9 of the largest number that a reduced cost
// is made of for optimality, 1e-6 from a whole number. They are choices. Coefficients from a hundredth to a
// hundred mixed at random keep evidence that holds in the problem's own terms; where they differ by a million
// it may not, and an end that the numbers do not bear out is told as stopped.
package solve

// What the numbers are trusted to. All are choices, on the scaled problem.
const (
	feasible   = 1e-9  // a bound may be missed by so much of itself, and at least by so much
	optimal    = 1e-9  // a reduced cost may have the wrong sign by so much of what it is made of
	nearly     = 1e-6  // and by so much where the numbers allow no better
	wholeness  = 1e-6  // a whole number may be missed by so much
	least      = 1e-6  // costs are told apart down to so much of the largest
	holds      = 1e-7  // a direction must hold to so much in the terms of the problem
	tinyPivot  = 1e-9  // entries below are not pivoted on
	smallPivot = 1e-7  // pivots below make the factors anew first
	zero       = 1e-14 // smaller results of a subtraction are nothing

	refactorAfter = 64 // product-form updates before the factors are made anew
	rounds        = 25 // turns of dual and primal simplex before the numbers are called hopeless
)
