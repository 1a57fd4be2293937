package outlook

import (
	"math"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/stick"
	"haywarden/agronomy/unit"
)

// Ahead is where the standing quality goes from this morning: one path for each past year and each of
// nine equally likely errors of today's estimate.
type Ahead struct {
	from    unit.Day
	sky     *Sky
	members []*Member
	paths   [][]float64 // RFV by day from the date, a row a path
	back    [][]float64 // RFV by day before the date, index 1 is yesterday; a row an error
}

// ErrorSteps is how many equally likely values stand for the error of today's estimate.
const ErrorSteps = 9

const (
	daysAhead = 45
	daysBack  = 30
)

// standardNormal holds the middles of nine equally likely slices of the standard normal.
var standardNormal = func() [ErrorSteps]float64 {
	var z [ErrorSteps]float64
	for i := range z {
		z[i] = math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/ErrorSteps-1)
	}
	return z
}()

// Ahead projects the stand's quality through the past years. It is nil where the stand has no standing
// quality or no past year to follow.
func (s *Stand) Ahead() *Ahead {
	if s.Standing == nil || s.Sky == nil || len(s.Sky.Members) == 0 {
		return nil
	}
	a := &Ahead{from: s.Date, sky: s.Sky, members: s.Sky.Members}
	a.paths = make([][]float64, 0, ErrorSteps*len(a.members))
	k := forage.PublishedFeedValue()
	rates := forage.DailyRates(s.Standing.Season)
	shrink := s.shrink()
	for i, z := range standardNormal {
		ndf0 := s.Standing.NDF + z*shrink*s.Standing.SDNDF
		adf0 := s.Standing.ADF + z*shrink*s.Standing.SDADF
		for j, m := range s.Sky.Members {
			a.paths = append(a.paths, path(k, rates.Times(rateError(rates, i, j)), ndf0, adf0, m.scale))
		}
		a.back = append(a.back, s.pathBack(k, rates, ndf0, adf0))
	}
	return a
}

// shrink is by how much the errors of NDF and ADF are shrunk where they err together, so that RFV spreads
// as its joint error says.
func (s *Stand) shrink() float64 {
	byADF, byNDF := forage.PublishedFeedValue().Slopes(s.Standing.ADF, s.Standing.NDF)
	return s.Standing.SD / (math.Abs(byADF)*s.Standing.SDADF + math.Abs(byNDF)*s.Standing.SDNDF)
}

// rateError is the share by which a path's daily rate departs from the one in print. The errors of
// today's estimate and of the rate are paired so that over nine members each value of the one meets each
// of the other once.
func rateError(rates forage.Rates, step, member int) float64 {
	return max(leastRate, 1+standardNormal[(step+member)%ErrorSteps]*rateSD/rates.NDF)
}

// leastRate is the least share of the rate in print at which a crop is taken to age (choice).
const leastRate = 0.25

// path follows a growth through days whose warmth makes it age faster or slower, by scale.
func path(k forage.FeedValue, rates forage.Rates, ndf, adf float64, scale []float64) []float64 {
	rfv := make([]float64, min(daysAhead, len(scale)))
	for i := range rfv {
		rfv[i] = k.Of(adf, ndf)
		ndf += rates.NDF * scale[i]
		adf += rates.ADF * scale[i]
	}
	return rfv
}

// pathBack follows the same rates back through the days observed.
func (s *Stand) pathBack(k forage.FeedValue, rates forage.Rates, ndf, adf float64) []float64 {
	rfv := make([]float64, daysBack+1)
	for i := range rfv {
		rfv[i] = k.Of(adf, ndf)
		scale := 1.0
		if t, ok := s.meanOn(s.Date - unit.Day(i) - 1); ok {
			scale = forage.RateScale(t)
		}
		ndf -= rates.NDF * scale
		adf -= rates.ADF * scale
	}
	return rfv
}

// weight is a path's share of all.
func (a *Ahead) weight(path int) float64 { return a.member(path).Weight / ErrorSteps }

func (a *Ahead) member(path int) *Member { return a.members[path%len(a.members)] }

// Reaches gives the days on which standing RFV has come down to a value.
func (a *Ahead) Reaches(rfv float64) Days {
	out := Days{make([]chanced, 0, len(a.paths))}
	for i, p := range a.paths {
		out.Add(a.reach(p, a.back[i/len(a.members)], rfv), a.weight(i))
	}
	out.Sort()
	return out
}

func (a *Ahead) reach(p, back []float64, rfv float64) float64 {
	if p[0] <= rfv {
		for i, v := range back {
			if v > rfv {
				return float64(a.from) - float64(i) + 1
			}
		}
		return float64(a.from) - daysBack
	}
	for i, v := range p {
		if v <= rfv {
			return float64(a.from) + float64(i)
		}
	}
	return math.Inf(1)
}

// Band returns the 10, 25, 50, 75 and 90 % of standing RFV on the ith day from the date.
func (a *Ahead) Band(i int) (q [5]float64, ok bool) {
	at := make(Sample, 0, len(a.paths))
	for j, p := range a.paths {
		if i < len(p) {
			at.Add(p[i], a.weight(j))
		}
	}
	if len(at) == 0 {
		return q, false
	}
	copy(q[:], at.Quantiles(0.1, 0.25, 0.5, 0.75, 0.9))
	return q, true
}

// reachPoints is how near the target a cut must fall to be called in reach.
const reachPoints = 10

// Fit is the share of paths on which the ith day from the date opens n dry days in a row while
// standing RFV lies within ten points of the target.
func (a *Ahead) Fit(i, n int, target float64) float64 {
	var hits float64
	around := a.sky.around(i)
	for j, p := range a.paths {
		if i >= len(p) || math.Abs(p[i]-target) > reachPoints {
			continue
		}
		dry, _ := a.member(j).dryNear(i, n, around)
		hits += a.weight(j) * dry
	}
	return hits
}

// BestDay is the day with the greatest Fit between two days, and that share.
func (a *Ahead) BestDay(from, to unit.Day, n int, target float64) (unit.Day, float64) {
	best, share := from, -1.0
	for d := max(from, a.from); d <= to; d++ {
		if f := a.Fit(int(d-a.from), n, target); f > share {
			best, share = d, f
		}
	}
	return best, max(0, share)
}

// Loss is what standing RFV falls between two days counted from the date: 10, 50 and 90 %.
func (a *Ahead) Loss(from, to int) (low, middle, high float64, ok bool) {
	return a.LossOf(from, to, func(rfv float64) float64 { return rfv })
}

// LossOf is what the worth of the standing crop falls between two days counted from the date, by a
// measure of its RFV: 10, 50 and 90 %.
func (a *Ahead) LossOf(from, to int, worth func(rfv float64) float64) (low, middle, high float64, ok bool) {
	falls := make(Sample, 0, len(a.paths))
	for j, p := range a.paths {
		if from >= 0 && to < len(p) {
			falls.Add(worth(p[from])-worth(p[to]), a.weight(j))
		}
	}
	if len(falls) == 0 {
		return 0, 0, 0, false
	}
	q := falls.Quantiles(0.1, 0.5, 0.9)
	return q[0], q[1], q[2], true
}

// Narrowed is the width in days of the 10-90 % window as it stands and as it would be after a stick
// reading of five spots today; not ok where there is no window.
func (s *Stand) Narrowed() (now, then int, ok bool) {
	a := s.Ahead()
	if a == nil {
		return 0, 0, false
	}
	w, ok1 := a.Reaches(s.Target.CutRFV).Window()
	read := *s
	st := *s.Standing
	sd := math.Hypot(spotNDF, stick.Published().SDNDF)
	for _, b := range st.From {
		if b.Name == BasisHeat {
			sds := []float64{sd, b.SD}
			if _, joint, err := forage.Combine([]float64{st.NDF, b.NDF}, sds, sharedError(sds, st.Shared.Corr)); err == nil {
				sd = joint
			}
		}
	}
	if sd >= st.SDNDF {
		return 0, 0, false
	}
	st.SD *= sd / st.SDNDF
	st.SDADF *= sd / st.SDNDF
	st.SDNDF = sd
	read.Standing = &st
	v, ok2 := read.Ahead().Reaches(s.Target.CutRFV).Window()
	return int(w.Late - w.Early), int(v.Late - v.Early), ok1 && ok2
}

// spotNDF is the standard error of the mean NDF of five spots, as in the published five-spot example.
const spotNDF = 0.75
