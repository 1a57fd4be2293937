package season

import (
	"cmp"
	"math"
	"slices"
)

// Way is a way of cutting that is compared with others.
type Way struct {
	Name   string
	Cutter func(member int) Cutter // perfect foresight cuts each member's year its own way
}

// Same is one cutter for all members.
func Same(c Cutter) func(int) Cutter { return func(int) Cutter { return c } }

// Compared is what a way of cutting comes to over the members, beside the first of them.
type Compared struct {
	Name    string  `json:"name"`
	Worth   float64 `json:"worth"` // $/ac a year, less the harvest and the stand's wear
	Worst   float64 `json:"worst"` // mean of the worst fifth of years
	Cuts    float64 `json:"cuts"`
	Tons    float64 `json:"tons"`    // DM/ac, standing
	Fed     float64 `json:"fed"`     // DM/ac at the bunk
	RFV     float64 `json:"rfv"`     // standing, mean of cuts
	Rained  float64 `json:"rained"`  // share of cuts not made in time and clean
	Winter  float64 `json:"winter"`  // reserve in fall
	Wear    float64 `json:"wear"`    // $/ac of Worth
	Against float64 `json:"against"` // worth less the first way's, paired by year
	Low     float64 `json:"low"`     // 95 % interval of it
	High    float64 `json:"high"`
	Differs bool    `json:"differs"` // it is more than chance and the model's error
}

// ModelError is the share of a season's worth within which two ways are no different, whatever the
// years say: systems of cutting are only known to 5 % against each other. [source.GrowthField]
const ModelError = 0.05

// Compare simulates each way over all members from one start.
func Compare(f *Field, from Start, members []Member, ways []Way) []Compared {
	out := make([]Compared, len(ways))
	worth := make([][]float64, len(ways))
	for w, way := range ways {
		r := &out[w]
		r.Name = way.Name
		worth[w] = make([]float64, len(members))
		for i := range members {
			m := &members[i]
			s := f.Simulate(from, m, way.Cutter(i))
			worth[w][i] = s.Worth
			r.Worth += m.Weight * s.Worth
			r.Winter += m.Weight * s.Winter
			r.Wear += m.Weight * s.Wear
			for _, c := range s.Cuts {
				r.Cuts += m.Weight
				r.Tons += m.Weight * c.Standing
				r.Fed += m.Weight * c.Fed
				r.RFV += m.Weight * c.RFV
				if !c.Clean {
					r.Rained += m.Weight
				}
			}
		}
		if r.Cuts > 0 {
			r.RFV, r.Rained = r.RFV/r.Cuts, r.Rained/r.Cuts
		}
		r.Worst = worstFifth(worth[w], members)
		r.Against, r.Low, r.High = paired(worth[w], worth[0], members)
		most := ModelError * math.Max(math.Abs(out[0].Worth), math.Abs(r.Worth))
		r.Differs = (r.Low > 0 || r.High < 0) && math.Abs(r.Against) > most
	}
	return out
}

// paired is the mean difference with its 95 % interval by the members' effective number.
func paired(a, b []float64, members []Member) (mean, low, high float64) {
	var sq, weights float64
	for i, m := range members {
		mean += m.Weight * (a[i] - b[i])
		weights += m.Weight * m.Weight
	}
	for i, m := range members {
		d := a[i] - b[i] - mean
		sq += m.Weight * d * d
	}
	const z = 1.96
	n := 1 / weights
	if n <= 1 {
		return mean, math.Inf(-1), math.Inf(1)
	}
	half := z * math.Sqrt(sq/(n-1))
	return mean, mean - half, mean + half
}

func worstFifth(worth []float64, members []Member) float64 {
	const tail = 0.2
	order := make([]int, len(worth))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(worth[i], worth[j]) })
	left, sum := tail, 0.0
	for _, i := range order {
		part := min(left, members[i].Weight)
		sum += part * worth[i]
		left -= part
	}
	return sum / (tail - max(0, left))
}
