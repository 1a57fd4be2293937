package solve

// Status says how a search ended.
type Status int

// How a search can end.
const (
	Optimal    Status = iota // X is best; with whole columns, within the gap that was asked for
	Infeasible               // nothing satisfies all rows and bounds
	Unbounded                // the objective can be made as good as one likes
	Stopped                  // the context, the limit of nodes or that of pivots came first; Why says which
)

// String says it in a word.
func (s Status) String() string {
	return [...]string{"optimal", "infeasible", "unbounded", "stopped"}[s]
}

// Answer is what a search found, with its evidence.
type Answer struct {
	Status    Status
	Found     bool      // X satisfies every row and bound
	Objective float64   // of X
	X         []float64 // by column
	Activity  []float64 // of each row at X

	// Prices are the change of the objective as a row's bound moves up by one, Reduced as a column does.
	// With whole columns they are those of the columns fixed at their whole numbers.
	Prices  []float64 // by row
	Reduced []float64 // by column

	// Ray is the evidence of no optimum. Infeasible: a multiplier for each row; the rows so weighted add up
	// to a contradiction with the bounds of the columns (nil where only the search over whole numbers found
	// it). Unbounded: a direction by column in which the objective improves for ever.
	Ray   []float64
	Blame Blame

	Bound  float64 // no answer is better than this
	Gap    float64 // |Objective - Bound| as a part of |Objective|; 0 without whole columns
	Nodes  int     // of branch and bound
	Pivots int     // of the simplex
	Why    error   // of Stopped
}

// Blame names what cannot be had together. Without any one of the rows there would be an answer,
// unless Ample: then the problem was too large to try each, and some of them may be innocent.
type Blame struct {
	Rows    []Row
	Columns []Column // whose bounds take part
	Ample   bool
}

// Value returns what the answer sets the column to.
func (a *Answer) Value(c Column) float64 { return a.X[c] }

// Price returns the change of the objective as the row's bound moves up by one.
func (a *Answer) Price(r Row) float64 { return a.Prices[r] }
