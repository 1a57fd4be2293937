package weather

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
)

// MostStations is how many stations one file may hold (choice): files of a whole network are refused
// rather than filling the book with stations nobody asked for.
const MostStations = 100

// FirstYear is the first year believed; the daily archive's oldest record begins in 1763.
const FirstYear = 1763

// Gatherer collects the values of one file, station by station, and its faults. Readers fill it line
// by line; Close checks what was gathered and makes the readings, or refuses the file.
type Gatherer struct {
	Lines   int // lines read so far
	file    string
	today   unit.Day
	records map[string]*Record
	issues  []Issue
	found   int
}

// NewGatherer starts on a file. A value for a day after today refuses it.
func NewGatherer(file string, today unit.Day) *Gatherer {
	return &Gatherer{file: file, today: today, records: map[string]*Record{}}
}

// Today is the day after which nothing can have been observed.
func (g *Gatherer) Today() unit.Day { return g.today }

// Bad notes that a line is wrong.
func (g *Gatherer) Bad(line int, format string, args ...any) {
	g.found++
	if len(g.issues) < MostIssues {
		g.issues = append(g.issues, Issue{Line: line, Reason: fmt.Sprintf(format, args...)})
	}
}

// Station finds the record of a station, begun where it is new; nil where the file holds too many.
func (g *Gatherer) Station(id []byte) *Record {
	if r := g.records[string(id)]; r != nil {
		return r
	}
	if len(g.records) == MostStations {
		return nil
	}
	r := &Record{Station: Station{ID: string(id)}, years: map[int]*Year{}, skipped: map[string]*int{}}
	g.records[r.Station.ID] = r
	return r
}

// Record is what a file holds of one station.
type Record struct {
	Station Station
	Lines   int
	years   map[int]*Year
	last    *Year
	skipped map[string]*int
	readAt  [25]int // how often the lowest temperature was read at each hour, 0 to 24
	totals  map[unit.Day]*rainTotal
	dropped []Rejected
}

// mostSkipped is how many names of elements not kept are told apart.
const mostSkipped = 200

// Skip counts a line or value of an element that is not kept.
func (r *Record) Skip(element []byte) {
	if n := r.skipped[string(element)]; n != nil {
		*n++
		return
	}
	name := string(element)
	if len(r.skipped) >= mostSkipped {
		name = "others"
	}
	if r.skipped[name] == nil {
		r.skipped[name] = new(int)
	}
	*r.skipped[name]++
}

// Year is a year of a record being gathered.
type Year struct {
	block *Block
	rec   *Record
	hours [Rain + 1][]int8 // by element and day: 1 + the hour at which it was read, 0 where that is not told
}

// Year finds the year, begun where it is new.
func (r *Record) Year(year int) *Year {
	if r.last != nil && r.last.block.Year == year {
		return r.last
	}
	y := r.years[year]
	if y == nil {
		y = &Year{block: NewBlock(r.Station.ID, year), rec: r}
		r.years[year] = y
	}
	r.last = y
	return y
}

// Put takes in a value of the year's day i, counted from 0, in the element's unit. The mark is
// Reported, Trace, PresumedZero, or Flagged with the archive's letter. A second, equal report of the
// same day changes nothing; one that differs drops both, since neither is known to be right.
func (y *Year) Put(i int, e Element, v int32, m Mark, flag byte) {
	if m > PresumedZero || !fits(v) || !y.Take(i, e, int16(v), m) {
		y.contest(&y.block.Days[i], i, e, v, m, flag)
	}
}

// Take is [Year.Put] of a value known to be usable, for loops: it takes it in where nothing was
// reported so far, and says whether it did.
func (y *Year) Take(i int, e Element, v int16, m Mark) bool {
	o := &y.block.Days[i]
	if o.Mark[e] != Absent {
		return false
	}
	o.Value[e], o.Mark[e] = v, m
	return true
}

func (y *Year) contest(o *Obs, i int, e Element, v int32, m Mark, flag byte) {
	day := unit.DateOf(y.block.Year, 1, 1) + unit.Day(i)
	if m != Flagged && !fits(v) {
		m = OutOfBounds
	}
	drop := Rejected{Day: day, Element: e, Value: v, Mark: m, Flag: flag}
	old := o.Mark[e]
	switch {
	case old == Absent:
	case old == Duplicate, old == m && (m == Flagged || m == OutOfBounds || int32(o.Value[e]) == v):
		return
	default:
		drop.Mark, drop.Than = Duplicate, v
		drop.Value = NoValue
		if o.Has(e) {
			drop.Value = int32(o.Value[e])
		}
	}
	o.Reject(e, drop.Mark)
	y.rec.dropped = append(y.rec.dropped, drop)
}

// fits reports whether a value can be stored, the mark of a missing one apart.
func fits(v int32) bool { return v == int32(int16(v)) && v != int32(Missing) }

// blocks are the years that hold anything, in order.
func (r *Record) blocks() []*Block {
	var out []*Block
	for _, year := range slices.Sorted(maps.Keys(r.years)) {
		if b := r.years[year].block; !b.empty() {
			out = append(out, b)
		}
	}
	return out
}

// empty reports whether nothing at all was reported in the year.
func (b *Block) empty() bool {
	none := NoObs()
	for i := range b.Days {
		if b.Days[i] != none {
			return false
		}
	}
	return true
}

// Reading is what a file holds of one station: as much of the station as it tells, the years, with
// values that failed a check dropped and marked, and the account of it all.
type Reading struct {
	Station Station
	Blocks  []*Block
	Report  Report

	rec     *Record
	dropped []Rejected
}

// Close checks the values of every station and returns the readings, ordered by station. It refuses
// the file where a line was wrong or where it holds nothing to keep.
func (g *Gatherer) Close(file FileNote) ([]Reading, error) {
	if g.found > 0 {
		return nil, &Refusal{File: g.file, Issues: g.issues, Found: g.found}
	}
	file.Name, file.Lines = g.file, g.Lines
	var out []Reading
	kept := 0
	for _, id := range slices.Sorted(maps.Keys(g.records)) {
		r := g.records[id]
		r.settleTotals()
		blocks := r.blocks()
		kept += len(blocks)
		failed, look := check(r.Station, blocks)
		dropped := append(r.standing(), failed...)
		out = append(out, Reading{Station: r.Station, Blocks: blocks, Report: newReport(file, r, blocks, dropped, look), rec: r, dropped: dropped})
	}
	if kept == 0 {
		codes := make([]string, 0, elements)
		for _, e := range Elements() {
			codes = append(codes, e.Code())
		}
		return nil, Refuse(g.file, "the file holds no value of %s; nothing else is kept", strings.Join(codes, ", "))
	}
	return out, nil
}

// standing are the drops that still stand: a value flagged first and contradicted later counts as a
// duplicate only.
func (r *Record) standing() []Rejected {
	return slices.DeleteFunc(r.dropped, func(d Rejected) bool {
		return r.years[d.Day.Year()].block.On(d.Day).Mark[d.Element] != d.Mark
	})
}
