package losses

// Line is a table read on straight lines between its points, which stand in rising order of X, and
// held at its ends.
type Line []struct{ X, Y float64 }

// At reads the table.
func (l Line) At(x float64) float64 {
	if x <= l[0].X {
		return l[0].Y
	}
	for i := 1; i < len(l); i++ {
		if a, b := l[i-1], l[i]; x <= b.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return l[len(l)-1].Y
}
