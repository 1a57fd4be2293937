package chart

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A recorder keeps what is drawn on it.
type recorder struct {
	texts  []Text
	points []Point
	roles  map[Role]bool
}

func (r *recorder) see(role Role, pts ...Point) {
	if r.roles == nil {
		r.roles = map[Role]bool{}
	}
	r.roles[role] = true
	r.points = append(r.points, whole(pts)...)
}

func (r *recorder) Line(role Role, _ Stroke, pts ...Point) { r.see(role, pts...) }
func (r *recorder) Area(role Role, pts ...Point)           { r.see(role, pts...) }
func (r *recorder) Rect(role Role, x, y, w, h float64) {
	if w > 0 && h > 0 {
		r.see(role, Point{x, y}, Point{x + w, y + h})
	}
}

func (r *recorder) Circle(role Role, at Point, radius, _ float64) {
	r.see(role, Point{at.X - radius, at.Y - radius}, Point{at.X + radius, at.Y + radius})
}

func (r *recorder) Text(role Role, t Text) {
	if t.Words != "" {
		r.see(role)
		r.texts = append(r.texts, t)
	}
}

// faults lists marks and words outside the frame and words that lie on each other.
func faults(d Drawing) []string {
	var r recorder
	d.Draw(&r)
	f := d.frame()
	const slack = 0.51 // half a unit: what rounding of a drawing's edge may cost
	sheet := box{-slack, -slack, f.Width + slack, f.Height + slack}
	var out []string
	for _, p := range r.points {
		if !(box{p.X, p.Y, p.X, p.Y}).within(sheet) {
			out = append(out, fmt.Sprintf("a mark at %.1f, %.1f is outside %g x %g", p.X, p.Y, f.Width, f.Height))
		}
	}
	for i, t := range r.texts {
		b := t.room()
		if !b.within(sheet) {
			out = append(out, fmt.Sprintf("%q at %.1f to %.1f, %.1f to %.1f is outside %g x %g", t.Words, b.x0, b.x1, b.y0, b.y1, f.Width, f.Height))
		}
		for _, o := range r.texts[:i] {
			// Line boxes may touch: ascenders of one line and descenders of another.
			if b.grown(-1.5).hits(o.room().grown(-1.5)) {
				out = append(out, fmt.Sprintf("%q lies on %q", t.Words, o.Words))
			}
		}
	}
	return out
}

func TestNoWordsLeaveTheSampleDrawingsOrLieOnEachOther(t *testing.T) {
	for name, d := range samples() {
		for _, f := range faults(d) {
			t.Errorf("%s: %s", name, f)
		}
	}
}

func anyDay(t *rapid.T, name string) Day {
	return rapid.Custom(func(t *rapid.T) Day {
		if rapid.IntRange(0, 9).Draw(t, "none") == 0 {
			return 0
		}
		return Date(2026, 1, 1) + Day(rapid.IntRange(-100, 500).Draw(t, "day"))
	}).Draw(t, name)
}

func anyDays(t *rapid.T, name string) []Day {
	out := make([]Day, rapid.IntRange(0, 8).Draw(t, name))
	for i := range out {
		out[i] = anyDay(t, name)
	}
	return out
}

// anyValue is a number as records may hold it, now and then missing or absurd.
func anyValue(t *rapid.T, name string) float64 {
	switch rapid.IntRange(0, 15).Draw(t, name+" kind") {
	case 0:
		return math.NaN()
	case 1:
		return rapid.SampledFrom([]float64{math.Inf(1), math.Inf(-1), 0, 1e9, -1e6, 1e-9}).Draw(t, name)
	}
	return math.Round(rapid.Float64Range(0, 1500).Draw(t, name)*10) / 10
}

var anyName = rapid.OneOf(
	rapid.SampledFrom([]string{"", "Long Meadow", "A", "Below the Elms by the Old Creamery Road", "Ünter<&>\"'", "牧草地", "x\x00\x1by"}),
	rapid.String(),
)

// anyDrawing makes a drawing of any kind from any records.
func anyDrawing(t *rapid.T) Drawing {
	name := func(s string) string { return anyName.Draw(t, s) }
	f := Frame{Width: float64(rapid.SampledFrom([]int{350, 480, 640, 1100}).Draw(t, "width")), Title: name("title"), Desc: name("desc")}
	first := Date(2026, 1, 1) + Day(rapid.IntRange(0, 200).Draw(t, "first"))
	last := first + Day(rapid.IntRange(0, 400).Draw(t, "length"))
	v := func(s string) float64 { return anyValue(t, s) }
	many := func(s string) int { return rapid.IntRange(0, 9).Draw(t, s) }
	switch rapid.IntRange(0, 12).Draw(t, "kind") {
	case 0:
		s := Strip{Frame: f, Today: anyDay(t, "today"), Frost: anyDay(t, "frost"), Rest: Span{anyDay(t, "from"), anyDay(t, "to")}, Visits: anyDays(t, "visits"), Cuts: anyDays(t, "cuts"), Labels: rapid.Bool().Draw(t, "labels"), Months: rapid.Bool().Draw(t, "months")}
		if rapid.Bool().Draw(t, "span") {
			s.First, s.Last = first, last
		}
		for range many("cycles") {
			var c Cycle
			d := first
			for range many("heights") {
				d += Day(rapid.IntRange(1, 40).Draw(t, "step"))
				c = append(c, Height{d, v("height") / 1000})
			}
			s.Cycles = append(s.Cycles, c)
		}
		for range many("windows") {
			s.Windows = append(s.Windows, CutWindow{anyDay(t, "early"), anyDay(t, "best"), anyDay(t, "late"), name("label")})
		}
		return s
	case 1:
		return Window{Frame: Frame{Title: f.Title}, First: first, Last: last, Early: anyDay(t, "early"), Best: anyDay(t, "best"), Late: anyDay(t, "late"), Likely: Span{anyDay(t, "from"), anyDay(t, "to")}, Today: anyDay(t, "today")}
	case 2:
		d := Fan{Frame: f, First: first, Last: last, Today: anyDay(t, "today"), Unit: name("unit")}
		for range many("readings") {
			d.Readings = append(d.Readings, Reading{anyDay(t, "day"), v("value"), v("low"), v("high")})
		}
		for i := range many("ahead") {
			m := v("mid")
			d.Ahead = append(d.Ahead, Chance{first + Day(i), m - 20, m - 10, m, m + 10, m + 20})
		}
		for range rapid.IntRange(0, 4).Draw(t, "levels") {
			d.Levels = append(d.Levels, Level{v("level"), name("level name")})
		}
		for range many("dry") {
			d.Dry = append(d.Dry, Span{anyDay(t, "from"), anyDay(t, "to")})
		}
		return d
	case 3:
		d := Staircase{Frame: f, Unit: name("unit"), Shares: rapid.Bool().Draw(t, "shares")}
		for range many("steps") {
			d.Steps = append(d.Steps, Step{name("step"), v("value"), v("low"), v("high")})
		}
		return d
	case 10:
		d := LifeLine{Frame: f, First: first, Last: first + Day(rapid.IntRange(0, 4000).Draw(t, "years")), Today: anyDay(t, "today")}
		for range many("marks") {
			d.Marks = append(d.Marks, LifeMark{anyDay(t, "mark"), name("mark name")})
		}
		for range rapid.IntRange(0, 5).Draw(t, "tracks") {
			tr := LifeTrack{Name: name("track"), Unit: name("unit"), Bars: rapid.Bool().Draw(t, "bars"), Target: v("target")}
			for range many("points") {
				tr.Points = append(tr.Points, LifePoint{first + Day(rapid.IntRange(0, 4000).Draw(t, "on")), v("value"), rapid.Bool().Draw(t, "guessed")})
			}
			d.Tracks = append(d.Tracks, tr)
		}
		return d
	case 4:
		d := Interval{Frame: f, Mean: v("mean"), Low: v("low"), High: v("high"), Unit: name("unit")}
		for i := range rapid.IntRange(0, 3).Draw(t, "thresholds") {
			d.Thresholds = append(d.Thresholds, float64(30+15*i))
		}
		for range many("zones") {
			d.Zones = append(d.Zones, name("zone"))
		}
		for range many("spots") {
			d.Spots = append(d.Spots, v("spot"))
		}
		return d
	case 5:
		d := Clock{Frame: f, First: first, Last: last, Today: anyDay(t, "today"), Unit: name("unit")}
		for i := range many("past") {
			m := v("usual")
			d.Past = append(d.Past, Usual{first + Day(i), m * 0.8, m, m * 1.2})
			d.Season = append(d.Season, Sum{first + Day(i), v("sum")})
		}
		for range many("events") {
			d.Events = append(d.Events, Event{anyDay(t, "day"), v("sum"), name("event")})
		}
		return d
	case 6:
		d := Map{Frame: f}
		for range many("sites") {
			lon, lat := rapid.Float64Range(-90, -89).Draw(t, "lon"), rapid.Float64Range(43, 44).Draw(t, "lat")
			if rapid.Bool().Draw(t, "point") {
				d.Sites = append(d.Sites, Site{Name: name("site"), At: LonLat{lon, lat}, Role: Grown, Rank: many("rank")})
			} else {
				d.Sites = append(d.Sites, field(name("site"), lon, lat, rapid.Float64Range(0.05, 30).Draw(t, "miles"), 0.3, Best, many("rank")))
			}
		}
		return d
	case 7:
		d := Record{Frame: f}
		for i := range rapid.IntRange(0, 160).Draw(t, "years") {
			y := RecordYear{Year: 1870 + i}
			for m := range y.Months {
				y.Months[m] = RecordMonth{Days: rapid.IntRange(0, 31).Draw(t, "days"), Observed: v("observed") / 1500, Filled: v("filled") / 1500, Failed: many("failed")}
			}
			d.Years = append(d.Years, y)
		}
		return d
	case 8:
		d := Spreads{Frame: f, First: first, Last: last, Today: anyDay(t, "today")}
		for range many("rows") {
			d.Days = append(d.Days, Spread{name("label"), anyDay(t, "early"), anyDay(t, "middle"), anyDay(t, "late"), anyDay(t, "low"), anyDay(t, "high")})
		}
		return d
	}
	if rapid.Bool().Draw(t, "stores") {
		d := Stores{Frame: f}
		for range many("stores") {
			d.All = append(d.All, Store{name("store"), StoreShape(rapid.SampledFrom([]string{"tower", "bunker", "pile", "bag", "bales", ""}).Draw(t, "shape")), v("low") / 1500, v("full") / 1500, v("high") / 1500, name("amount"), name("says"), rapid.Bool().Draw(t, "good")})
		}
		return d
	}
	if rapid.Bool().Draw(t, "lasting") {
		d := Lasting{Frame: f, Today: anyDay(t, "today"), Until: anyDay(t, "until"), UntilSays: name("until")}
		for range many("lasts") {
			d.All = append(d.All, Lasts{name("label"), anyDay(t, "low"), anyDay(t, "middle"), anyDay(t, "high")})
		}
		return d
	}
	d := Week{Frame: Frame{Title: f.Title}}
	for i := range rapid.IntRange(0, 7).Draw(t, "days") {
		d.Days = append(d.Days, Forecast{first + Day(i), rapid.Float64Range(-40, 120).Draw(t, "high"), v("low") / 20, v("rain") / 1000, rapid.Bool().Draw(t, "dry"), v("chance") / 1500})
	}
	return d
}

func TestAnyRecordsStayWithinTheDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrawing(t)
		for _, f := range faults(d) {
			t.Errorf("%T: %s", d, f)
		}
		d.Rows()
	})
}

func TestAnyDrawingIsWellFormedAndTheSameTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrawing(t)
		out := SVG(d)
		if out != SVG(d) {
			t.Error("drawn twice, it differs")
		}
		dec := xml.NewDecoder(strings.NewReader(out))
		for {
			tok, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%v in %s", err, out)
			}
			start, _ := tok.(xml.StartElement)
			for _, a := range start.Attr {
				if strings.Contains(a.Value, "NaN") && a.Name.Local != "aria-label" || strings.Contains(a.Value, "Inf") && a.Name.Local != "aria-label" {
					t.Errorf("<%s %s=%q>", start.Name.Local, a.Name.Local, a.Value)
				}
				if a.Name.Local == "style" {
					t.Error("an inline style: the content policy forbids it")
				}
			}
		}
	})
}

func TestRowsHaveOneWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrawing(t)
		rows := d.Rows()
		for _, r := range rows {
			if len(r) != len(rows[0]) {
				t.Errorf("%T: row %q beside headings %q", d, r, rows[0])
			}
		}
	})
}
