package season

import "haywarden/agronomy/regrowth"

// grid is the classes of a state.
type grid struct {
	stepC    float64   // between classes of heat
	heats    int       // classes of heat
	reserves []float64 // rising
	lacks    []float64 // mm, rising
}

const growths = regrowth.Later + 1

func (g *grid) nodes() int { return growths * g.heats * len(g.reserves) * len(g.lacks) }

func (g *grid) node(growth, heat, reserve, lack int) int {
	return ((growth*g.heats+heat)*len(g.reserves)+reserve)*len(g.lacks) + lack
}

// between finds v among rising classes: the lower one and the share of the upper.
func between(classes []float64, v float64) (int, float64) {
	last := len(classes) - 1
	if last == 0 || v <= classes[0] {
		return 0, 0
	}
	for i := 1; i <= last; i++ {
		if v <= classes[i] {
			return i - 1, (v - classes[i-1]) / (classes[i] - classes[i-1])
		}
	}
	return last - 1, 1
}

func (g *grid) heatAt(c float64) (int, float64) {
	at := c / g.stepC
	i := min(int(at), g.heats-2)
	return i, min(1, at-float64(i))
}
