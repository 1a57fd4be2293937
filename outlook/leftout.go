package outlook

import "math"

// LeftOut is a stand that was read, and what it would have been judged to be without its reading, from
// the other read stands and heat alone.
type LeftOut struct {
	Stand  *Stand
	Read   Standing // from its own reading
	Judged Standing // from the others
}

// Off is how far the judgement lay from the reading, % NDF: above 0 where it was too high.
func (l LeftOut) Off() float64 { return l.Judged.NDF - l.Read.NDF }

// Inside reports whether the reading fell within 8 chances in 10 of the judgement. The reading's own
// spots err too, and that is allowed for; the method's error is common to both.
func (l LeftOut) Inside() bool {
	r, _ := l.Stand.LastReading()
	return math.Abs(l.Off()) <= eightInTen*math.Hypot(l.Judged.SDNDF, r.Field.SpotSENDF)
}

// eightInTen is how many standard deviations hold 8 chances in 10.
const eightInTen = 1.2816

// LeaveOut judges each stand that lends its reading as if it had none, from the others: the error of what
// is said of stands that nobody read. Nothing where there are too few.
func (o *Outlook) LeaveOut() []LeftOut {
	all := o.lenders()
	if len(all) <= leastLenders {
		return nil
	}
	var out []LeftOut
	for i, s := range all {
		others := make([]*Stand, 0, len(all)-1)
		others = append(append(others, all[:i]...), all[i+1:]...)
		blind := *s
		blind.Readings, blind.Standing = nil, nil
		blind.borrowFrom(others, betweenFields(others), o.Shared)
		if blind.Standing != nil {
			out = append(out, LeftOut{Stand: s, Read: *s.Standing, Judged: *blind.Standing})
		}
	}
	return out
}

// Pooling is how well read stands were judged from each other.
type Pooling struct {
	Stands  int     `json:"stands"`
	Bias    float64 `json:"bias_ndf"`    // mean of judged less read, % NDF
	RMSE    float64 `json:"rmse_ndf"`    // % NDF
	Claimed float64 `json:"claimed_ndf"` // root mean square of the standard deviations that were claimed, % NDF
	Inside  int     `json:"inside"`      // of the readings within 8 chances in 10
}

// Pool sums left-out stands up.
func Pool(all []LeftOut) Pooling {
	p := Pooling{Stands: len(all)}
	n := float64(max(1, len(all)))
	for _, l := range all {
		p.Bias += l.Off() / n
		p.RMSE += l.Off() * l.Off() / n
		p.Claimed += l.Judged.SDNDF * l.Judged.SDNDF / n
		if l.Inside() {
			p.Inside++
		}
	}
	p.RMSE, p.Claimed = math.Sqrt(p.RMSE), math.Sqrt(p.Claimed)
	return p
}
