package advice

import (
	"math"
	"slices"

	"haywarden/outlook"
)

// Stop is a field on a way, with what is to be looked at there.
type Stop struct {
	Stand  *outlook.Stand
	Pieces []*Piece
	Miles  float64 // from the stop before, in a straight line
}

// Route is the shortest way past the fields that want a look this week.
type Route struct {
	Stops []Stop
	Miles float64 // in all, in straight lines: roads are longer
	Lost  []Stop  // fields whose place is not known
}

// exactStops is up to how many fields the way is the shortest there is; past it, it is one that no turning
// round of a stretch makes shorter.
const exactStops = 12

// Route lays the errands of today and this week out as one way, begun and ended where it is shortest.
func (r *Round) Route() Route {
	var out Route
	at := map[*outlook.Stand]int{}
	var stops []Stop
	for _, p := range r.Pieces {
		if !p.Errand || p.Urgency > Week {
			continue
		}
		i, known := at[p.Stand]
		if !known {
			i = len(stops)
			at[p.Stand] = i
			stops = append(stops, Stop{Stand: p.Stand})
		}
		stops[i].Pieces = append(stops[i].Pieces, p)
	}
	var placed []Stop
	for _, s := range stops {
		if s.Stand.Placed() {
			placed = append(placed, s)
		} else {
			out.Lost = append(out.Lost, s)
		}
	}
	order := shortestWay(len(placed), func(i, j int) float64 { return placed[i].Stand.MilesTo(placed[j].Stand) })
	for k, i := range order {
		s := placed[i]
		if k > 0 {
			s.Miles = placed[order[k-1]].Stand.MilesTo(s.Stand)
		}
		out.Stops = append(out.Stops, s)
		out.Miles += s.Miles
	}
	return out
}

// shortestWay orders n places on one way past all of them, free to begin and end anywhere.
func shortestWay(n int, miles func(i, j int) float64) []int {
	if n == 0 {
		return nil
	}
	d := make([][]float64, n)
	for i := range d {
		d[i] = make([]float64, n)
		for j := range d[i] {
			d[i][j] = miles(i, j)
		}
	}
	if n <= exactStops {
		return exactWay(d)
	}
	return untangled(nearestWay(d), d)
}

// exactWay finds the shortest way by the best way past every set of places that ends at each of them.
func exactWay(d [][]float64) []int {
	n := len(d)
	best := make([][]float64, 1<<n)
	from := make([][]int8, 1<<n)
	for set := range best {
		best[set], from[set] = slices.Repeat([]float64{math.Inf(1)}, n), slices.Repeat([]int8{-1}, n)
		for end := range n {
			rest := set &^ (1 << end)
			switch {
			case set&(1<<end) == 0:
				continue
			case rest == 0:
				best[set][end] = 0
				continue
			}
			for before := range n {
				if rest&(1<<before) == 0 {
					continue
				}
				if v := best[rest][before] + d[before][end]; v < best[set][end] {
					best[set][end], from[set][end] = v, int8(before)
				}
			}
		}
	}
	all := 1<<n - 1
	end := 0
	for i := range n {
		if best[all][i] < best[all][end] {
			end = i
		}
	}
	var way []int
	for set := all; end >= 0; {
		way = append(way, end)
		before := int(from[set][end])
		set &^= 1 << end
		end = before
	}
	slices.Reverse(way)
	return way
}

// nearestWay goes from each place to the nearest not yet seen, and keeps the shortest of such ways.
func nearestWay(d [][]float64) []int {
	var best []int
	shortest := math.Inf(1)
	for first := range d {
		seen := make([]bool, len(d))
		way, length, at := []int{first}, 0.0, first
		seen[first] = true
		for len(way) < len(d) {
			next := -1
			for j := range d {
				if !seen[j] && (next < 0 || d[at][j] < d[at][next]) {
					next = j
				}
			}
			length += d[at][next]
			seen[next], at = true, next
			way = append(way, next)
		}
		if length < shortest {
			best, shortest = way, length
		}
	}
	return best
}

// untangled turns stretches of a way round while that makes it shorter.
func untangled(way []int, d [][]float64) []int {
	n := len(way)
	leg := func(i, j int) float64 {
		if i < 0 || j >= n {
			return 0 // before the first and after the last
		}
		return d[way[i]][way[j]]
	}
	const least = 1e-9
	for better := true; better; {
		better = false
		for i := range n {
			for j := i + 1; j < n; j++ {
				before := leg(i-1, i) + leg(j, j+1)
				after := 0.0
				if i > 0 {
					after += d[way[i-1]][way[j]]
				}
				if j+1 < n {
					after += d[way[i]][way[j+1]]
				}
				if after < before-least {
					slices.Reverse(way[i : j+1])
					better = true
				}
			}
		}
	}
	return way
}
