// Package chart draws: a stand's year as a strip, a window of days, feed value ahead as a fan, losses
// as a staircase, a count against its thresholds, a season's heat against past seasons, days of the year
// with their chances, how whole a record is, the week ahead, and a map.
//
// Each drawing is a plain struct. It lays out one geometry and puts it on a [Surface]; there are two,
// SVG for pages and PDF for paper. A mark carries the part it plays ([Role]), never a colour: the
// style sheet of the page or the palette of the paper gives it one. No mark differs from another by
// colour alone: place, shape or a label tells them apart too.
//
// Text is measured with the widths of the embedded typeface before it is placed, so that no label
// leaves its drawing or lies on another. The same data gives the same bytes.
//
// A drawing can also say what it shows: Rows gives the table that stands beneath it.
package chart

// A Role is the part that a mark plays in a drawing. On a page it is the CSS class "c-" + role.
type Role string

// The roles. Ground is the field a map lies on; Paper is the sheet itself, for gaps and outlines.
const (
	Grown    Role = "grown"   // growth up to today
	Growing  Role = "growing" // growth expected after today
	InWindow Role = "window"  // days in which to act
	Best     Role = "best"    // the best day, the middle estimate
	Rest     Role = "rest"    // rest before frost
	Seen     Role = "seen"    // something observed: a visit, a reading
	Cut      Role = "cut"     // a cut made
	Frost    Role = "frost"   // a killing frost
	Dry      Role = "dry"     // a dry spell
	Rain     Role = "rain"    // rain
	Target   Role = "target"  // a value to reach or stay above
	Today    Role = "today"   // the day the drawing was made for
	Axis     Role = "axis"    // base lines and ticks
	Grid     Role = "grid"    // faint helping lines
	Label    Role = "label"   // text that is read
	Muted    Role = "muted"   // text that helps
	Fan80    Role = "fan80"   // 8 chances in 10
	Fan50    Role = "fan50"   // 1 chance in 2
	Past80   Role = "past80"  // 8 past years in 10
	Ground   Role = "ground"  // what a map lies on
	Paper    Role = "paper"   // the sheet
)

// Roles lists every role once.
var Roles = [...]Role{
	Grown, Growing, InWindow, Best, Rest, Seen, Cut, Frost, Dry, Rain, Target, Today, Axis, Grid, Label,
	Muted, Fan80, Fan50, Past80, Ground, Paper,
}

// A Frame is what every drawing has: its size in its own units (CSS pixels when shown at full size),
// its name, and one sentence that says what is to be seen, for those who cannot see it. A size of
// zero stands for the drawing's usual one.
type Frame struct {
	Width, Height float64
	Title, Desc   string
}

func (f Frame) or(width, height float64) Frame {
	if !(f.Width > 0) {
		f.Width = width
	}
	if !(f.Height > 0) {
		f.Height = height
	}
	return f
}

// A Drawing is one of the drawings of this package.
type Drawing interface {
	// Draw puts the drawing on a surface, in units of its frame, y downwards.
	Draw(Surface)
	// Rows gives what is drawn as a table, headings first.
	Rows() [][]string
	frame() Frame
}

// A Point is a place in a drawing; y grows downwards.
type Point struct{ X, Y float64 }

// A Stroke is how a line is drawn.
type Stroke struct {
	Width  float64
	Dotted bool
}

// An Anchor says which point of a text lies at its place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// A Text is one line of writing with its foot at At.
type Text struct {
	At     Point
	Anchor Anchor
	Size   float64
	Bold   bool
	Halo   bool // keep a rim of paper around the letters
	Words  string
}

// A Surface is what a drawing is put on.
type Surface interface {
	Line(r Role, st Stroke, pts ...Point)
	Area(r Role, pts ...Point)
	Rect(r Role, x, y, width, height float64)
	// Circle is filled, or when hollow filled with paper and edged by a line of the given width.
	Circle(r Role, at Point, radius, hollow float64)
	Text(r Role, t Text)
}

// The two sizes of writing in drawings.
const (
	textSize  = 13.0
	smallSize = 12.0
)
