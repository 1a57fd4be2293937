package chart

// A Shape is how a mark looks in a key.
type Shape int

// The shapes of keys.
const (
	Patch Shape = iota
	Upright
	Foot
	Dot
	Ring
	Slash
	Star
	Dots
	Stroked
)

// A Key is the small drawing beside a word of a legend.
type Key struct {
	Frame
	Role  Role
	Shape Shape
	Words string // what stands beside it
}

// StripKeys is the legend of a strip.
func StripKeys() []Key {
	return []Key{
		{Role: Grown, Words: "grown"}, {Role: Growing, Words: "expected"},
		{Role: InWindow, Shape: Upright, Words: "window, best day"}, {Role: Rest, Shape: Foot, Words: "rest before frost"},
		{Role: Seen, Shape: Dot, Words: "visit"}, {Role: Cut, Shape: Slash, Words: "cut"},
		{Role: Frost, Shape: Star, Words: "frost"}, {Role: Today, Shape: Dots, Words: "today"},
	}
}

// FanKeys is the legend of a fan.
func FanKeys() []Key {
	return []Key{
		{Role: Grown, Shape: Ring, Words: "read, with error"}, {Role: Best, Shape: Stroked, Words: "expected"},
		{Role: Fan50, Words: "1 chance in 2"}, {Role: Fan80, Words: "8 in 10"},
	}
}

func (k Key) frame() Frame { return k.or(16, 14) }

// Draw implements [Drawing].
func (k Key) Draw(on Surface) {
	f := k.frame()
	x, y := f.Width/2, f.Height/2
	switch k.Shape {
	case Patch:
		on.Rect(k.Role, 0, 2, f.Width, f.Height-4)
	case Upright:
		on.Rect(k.Role, 1, 0, f.Width-2, f.Height)
		on.Rect(Best, x-1.5, 0, 3, f.Height)
	case Foot:
		on.Rect(k.Role, 0, f.Height-6, f.Width, 4)
	case Dot:
		on.Circle(k.Role, Point{x, y}, 3, 0)
	case Ring:
		on.Line(k.Role, Stroke{Width: 2}, Point{0, y}, Point{f.Width, y})
		on.Circle(k.Role, Point{x, y}, 4, 2)
	case Slash:
		on.Line(k.Role, Stroke{Width: 2}, Point{x - 3, y + 5}, Point{x + 3, y - 5})
	case Star:
		star(on, k.Role, Point{x, y}, 5)
	case Dots:
		on.Line(k.Role, Stroke{Width: 1.5, Dotted: true}, Point{x, 0}, Point{x, f.Height})
	case Stroked:
		on.Line(k.Role, Stroke{Width: 2.5}, Point{0, y}, Point{f.Width, y})
	}
}

// Rows implements [Drawing].
func (k Key) Rows() [][]string { return [][]string{{"Key"}, {k.Words}} }
