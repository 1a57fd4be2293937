package chart

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// A LonLat is a place on the earth in degrees, WGS 84.
type LonLat struct{ Lon, Lat float64 }

// A Site is a field with its outline (outer ring first, then holes), or a point when it has none.
type Site struct {
	Name  string
	Rings [][]LonLat
	At    LonLat // used when there are no rings
	Role  Role   // its fill
	Rank  int    // its place in the round; 0 for none. Ranked sites are outlined and numbered
}

// A Map shows sites in a plane touching the earth at their middle, north up, with a scale in miles. A
// name that finds no room inside or beside its site is shortened, then left to the table.
type Map struct {
	Frame
	Sites []Site
	Way   []LonLat // a way past some of them, drawn beneath
}

// The radius of the sphere of the earth's area, m, and a mile, m.
const (
	earth = 6371007.2
	mile  = 1609.344
)

// A plot is a site laid out on the sheet.
type plot struct {
	Site
	rings  [][]Point
	centre Point
	bounds box
	small  bool // too small for an outline: drawn as a mark
}

const mapFoot = 30 // room for scale and arrow

func (m Map) frame() Frame {
	width := m.Width
	if !(width > 0) {
		width = 480
	}
	// As tall as the sites ask for, within reason.
	lo, hi := m.extent()
	w, h := (hi.Lon-lo.Lon)*math.Cos((lo.Lat+hi.Lat)/2*math.Pi/180), hi.Lat-lo.Lat
	share := 0.6
	if w > 0 && finite(h/w) {
		share = held1(h/w, 0.32, 1)
	}
	return m.or(480, math.Round(width*share)+mapFoot)
}

func (m Map) extent() (lo, hi LonLat) {
	lo, hi = LonLat{math.Inf(1), math.Inf(1)}, LonLat{math.Inf(-1), math.Inf(-1)}
	for _, s := range m.Sites {
		for _, p := range s.outer() {
			if finite(p.Lon, p.Lat) {
				lo = LonLat{min(lo.Lon, p.Lon), min(lo.Lat, p.Lat)}
				hi = LonLat{max(hi.Lon, p.Lon), max(hi.Lat, p.Lat)}
			}
		}
	}
	if lo.Lon > hi.Lon {
		return LonLat{}, LonLat{}
	}
	return lo, hi
}

func (s Site) outer() []LonLat {
	if len(s.Rings) > 0 && len(s.Rings[0]) > 2 {
		return s.Rings[0]
	}
	return []LonLat{s.At}
}

// lay projects the sites into the frame and gives the units of the drawing that a metre takes.
func (m Map) lay(f Frame) (plots []plot, way []Point, perMetre float64) {
	lo, hi := m.extent()
	lat0 := (lo.Lat + hi.Lat) / 2
	deg := earth * math.Pi / 180
	east, north := deg*math.Cos(lat0*math.Pi/180), deg
	// A lone point still gets a mile around it.
	w, h := max((hi.Lon-lo.Lon)*east, mile), max((hi.Lat-lo.Lat)*north, mile/2)
	pad := min(36, f.Width/10)
	k := min((f.Width-2*pad)/w, (f.Height-mapFoot-2*pad)/h)
	put := func(p LonLat) Point {
		return Point{
			f.Width/2 + (p.Lon-(lo.Lon+hi.Lon)/2)*east*k,
			(f.Height-mapFoot)/2 - (p.Lat-lat0)*north*k,
		}
	}
	for _, p := range m.Way {
		if finite(p.Lon, p.Lat) {
			way = append(way, put(p))
		}
	}
	for _, s := range m.Sites {
		p := plot{Site: s}
		var rings [][]LonLat
		if len(s.outer()) > 2 {
			rings = s.Rings
		}
		for _, r := range rings {
			ring := make([]Point, 0, len(r))
			for _, q := range r {
				ring = append(ring, put(q))
			}
			if ring = whole(ring); len(ring) > 2 {
				p.rings = append(p.rings, ring)
			}
		}
		if len(p.rings) > 0 {
			p.bounds, p.centre = around(p.rings[0])
		}
		if len(p.rings) == 0 || max(p.bounds.x1-p.bounds.x0, p.bounds.y1-p.bounds.y0) < 10 {
			at := p.centre
			if len(p.rings) == 0 {
				if !finite(s.At.Lon, s.At.Lat) {
					continue
				}
				at = put(s.At)
			}
			p.small, p.centre = true, at
			p.bounds = box{at.X - 6, at.Y - 6, at.X + 6, at.Y + 6}
		}
		plots = append(plots, p)
	}
	return plots, way, k
}

// around gives the bounds and the centroid of a ring.
func around(ring []Point) (box, Point) {
	b := box{ring[0].X, ring[0].Y, ring[0].X, ring[0].Y}
	var area, cx, cy float64
	for i, p := range ring {
		b = box{min(b.x0, p.X), min(b.y0, p.Y), max(b.x1, p.X), max(b.y1, p.Y)}
		q := ring[(i+1)%len(ring)]
		cross := (p.X-ring[0].X)*(q.Y-ring[0].Y) - (q.X-ring[0].X)*(p.Y-ring[0].Y)
		area += cross
		cx += (p.X + q.X - 2*ring[0].X) * cross
		cy += (p.Y + q.Y - 2*ring[0].Y) * cross
	}
	c := Point{ring[0].X + cx/(3*area), ring[0].Y + cy/(3*area)}
	if !finite(c.X, c.Y) || c.X < b.x0 || c.X > b.x1 || c.Y < b.y0 || c.Y > b.y1 {
		c = Point{(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2}
	}
	return b, c
}

// Draw implements [Drawing].
func (m Map) Draw(on Surface) {
	f := m.frame()
	on.Rect(Ground, 0, 0, f.Width, f.Height)
	plots, way, k := m.lay(f)
	if len(way) > 1 {
		on.Line(Paper, Stroke{Width: 4}, way...)
		on.Line(Best, Stroke{Width: 2}, way...)
	}
	// Large fields first, so that a small one within them is seen; ranked ones on top.
	slices.SortStableFunc(plots, func(a, b plot) int {
		return cmp.Or(cmp.Compare(min(a.Rank, 1), min(b.Rank, 1)), -cmp.Compare(a.bounds.x1-a.bounds.x0, b.bounds.x1-b.bounds.x0))
	})
	for _, p := range plots {
		p.draw(on)
	}
	for _, n := range names(plots, box{3, 3, f.Width - 3, f.Height - mapFoot + 4}) {
		on.Text(n.role, n.text)
	}
	drawScale(on, f, k)
	drawNorth(on, Point{f.Width - 20, f.Height - 19})
}

func (p plot) draw(on Surface) {
	if p.small {
		if p.Rank > 0 {
			on.Circle(Paper, p.centre, 7.5, 0)
			on.Circle(Label, p.centre, 6.5, 0)
			on.Circle(p.Role, p.centre, 4.5, 0)
		} else {
			on.Circle(Paper, p.centre, 6, 0)
			on.Circle(p.Role, p.centre, 4.5, 0)
		}
		return
	}
	for i, r := range p.rings {
		role := p.Role
		if i > 0 {
			role = Ground
		}
		on.Area(role, r...)
		edge, width := Paper, 2.0
		if p.Rank > 0 {
			edge, width = Label, 2
		}
		on.Line(edge, Stroke{Width: width}, append(slices.Clone(r), r[0])...)
	}
}

// drawScale draws a bar of a round number of miles at the lower left.
func drawScale(on Surface, f Frame, perMetre float64) {
	lengths := []struct {
		miles float64
		words string
	}{{0.125, "⅛ mile"}, {0.25, "¼ mile"}, {0.5, "½ mile"}, {1, "1 mile"}, {2, "2 miles"}, {5, "5 miles"}, {10, "10 miles"}, {20, "20 miles"}, {50, "50 miles"}, {100, "100 miles"}}
	for _, length := range slices.Backward(lengths) {
		l := length.miles * mile * perMetre
		if l > f.Width*0.3 {
			continue
		}
		x, y := 14.0, f.Height-12
		on.Line(Label, Stroke{Width: 1.5}, Point{x, y - 4}, Point{x, y}, Point{x + l, y}, Point{x + l, y - 4})
		on.Text(Label, Text{At: Point{x + l + 8, y + 2}, Size: textSize, Words: length.words})
		return
	}
}

func drawNorth(on Surface, at Point) {
	on.Area(Label, Point{at.X, at.Y - 7}, Point{at.X + 4.5, at.Y + 5}, Point{at.X, at.Y + 2.5}, Point{at.X - 4.5, at.Y + 5})
	on.Text(Label, Text{At: Point{at.X - 9, at.Y + 5}, Anchor: End, Size: textSize, Words: "N"})
}

// Rows implements [Drawing].
func (m Map) Rows() [][]string {
	rows := [][]string{{"In the round", "Stand", "North", "East"}}
	for _, s := range m.Sites {
		rank := ""
		if s.Rank > 0 {
			rank = strconv.Itoa(s.Rank)
		}
		at := s.At
		if ring := s.outer(); len(ring) > 2 {
			at = LonLat{}
			for _, p := range ring {
				at.Lon += p.Lon / float64(len(ring))
				at.Lat += p.Lat / float64(len(ring))
			}
		}
		rows = append(rows, []string{rank, s.Name, degrees(at.Lat), degrees(at.Lon)})
	}
	return rows
}

func degrees(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) + "°" }
