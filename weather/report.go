package weather

import (
	"cmp"
	"maps"
	"slices"

	"haywarden/agronomy/unit"
)

// MostExamples is how many values are shown for each thing that was dropped.
const MostExamples = 3

// Report is the account of what a file holds of one station and of what was done to it. It is a
// function of the file, of what was declared of it and of the record it was held against: the same of
// these give the same report.
type Report struct {
	File    FileNote `json:"file"`
	Station Station  `json:"station"`
	Lines   int      `json:"lines"` // lines of the file that are about this station
	Span    *Span    `json:"span,omitempty"`
	// NotWholeF counts the temperatures that are no whole degree F, where the station's observers are
	// taken to read whole degrees: these are rounded. Temperatures counts all of them.
	NotWholeF    int         `json:"not_whole_f"`
	Temperatures int         `json:"temperatures"`
	Elements     []Tally     `json:"elements"`
	Skipped      []Skipped   `json:"skipped,omitempty"`
	Years        []YearTally `json:"years"`
	ReadAt       []HourTally `json:"read_at,omitempty"`
}

// Span runs from the first to the last day on which anything was reported.
type Span struct {
	First unit.Day `json:"first"`
	Last  unit.Day `json:"last"`
	Days  int      `json:"days"`
}

// Tally counts what became of the days of the span for one element. All counts together are the days.
type Tally struct {
	Element  string      `json:"element"`
	Reported int         `json:"reported"`
	Trace    int         `json:"trace"`
	Presumed int         `json:"presumed_zero"`
	Shifted  int         `json:"shifted,omitempty"` // moved to the day before
	Absent   int         `json:"absent"`
	Flagged  []RuleTally `json:"flagged,omitempty"` // by the archive, by letter
	Failed   []RuleTally `json:"failed,omitempty"`  // by our own checks, by rule
	Look     []RuleTally `json:"look,omitempty"`    // kept, but worth a look at the sheet
}

// Usable is the number of days with a value to compute with.
func (t Tally) Usable() int { return t.Reported + t.Trace + t.Presumed + t.Shifted }

// RuleTally counts the values that one flag or rule dropped.
type RuleTally struct {
	Rule     string    `json:"rule"`
	Count    int       `json:"count"`
	Examples []Example `json:"examples"` // the first MostExamples
}

// Example is one dropped value.
type Example struct {
	Day    unit.Day `json:"date"`
	Value  string   `json:"value"`
	Reason string   `json:"reason"`
}

// Skipped counts what was passed over: lines of an element that is not kept, or values of a column.
type Skipped struct {
	Element string `json:"element"`
	Count   int    `json:"count"`
}

// YearTally is how complete one calendar year is.
type YearTally struct {
	Year   int   `json:"year"`
	Days   int   `json:"days"`
	Usable []int `json:"usable"` // days with a value, by element in the order of Elements
}

// HourTally counts the days whose lowest temperature was read at an hour. A morning reading belongs to
// that morning, while the highest temperature and the rain are mostly of the day before.
type HourTally struct {
	Hour int `json:"hour"`
	Days int `json:"days"`
}

func newReport(file FileNote, r *Record, blocks []*Block, dropped []Rejected, look []doubt) Report {
	rep := Report{File: file, Station: r.Station, Lines: r.Lines}
	for e := range elements {
		rep.Elements = append(rep.Elements, Tally{Element: e.Code()})
	}
	rep.count(blocks)
	rep.explain(dropped)
	for _, d := range look {
		add(&rep.Elements[d.Element].Look, d.rule, Example{d.Day, d.Element.Written(d.Value), d.reason})
	}
	for _, name := range slices.Sorted(maps.Keys(r.skipped)) {
		rep.Skipped = append(rep.Skipped, Skipped{name, *r.skipped[name]})
	}
	for hour, days := range r.readAt {
		if days > 0 {
			rep.ReadAt = append(rep.ReadAt, HourTally{hour, days})
		}
	}
	return rep
}

// count goes over all days once.
func (rep *Report) count(blocks []*Block) {
	var mark [elements][marks]int
	absent := NoObs().Mark
	for _, b := range blocks {
		var year [elements][marks]int
		first, last, whole := -1, -1, 0
		for i := range b.Days {
			o := &b.Days[i]
			if o.Mark == absent {
				continue
			}
			if first < 0 {
				first = i
			}
			last = i
			if o.Mark == ([elements]Mark{}) { // all reported
				whole++
			} else {
				for e, m := range o.Mark {
					year[e][m]++
				}
			}
			rep.countWhole(o)
		}
		start := unit.DateOf(b.Year, 1, 1)
		if rep.Span == nil {
			rep.Span = &Span{First: start + unit.Day(first)}
		}
		rep.Span.Last = start + unit.Day(last)
		usable := make([]int, elements)
		for e := range year {
			year[e][Reported] += whole
			for m, n := range year[e] {
				mark[e][m] += n
				if m := Mark(m); m != Absent && m < Flagged {
					usable[e] += n
				}
			}
		}
		rep.Years = append(rep.Years, YearTally{b.Year, len(b.Days), usable})
	}
	if rep.Span == nil {
		return
	}
	rep.Span.Days = int(rep.Span.Last-rep.Span.First) + 1
	for e := range mark {
		t := &rep.Elements[e]
		t.Reported, t.Trace, t.Presumed = mark[e][Reported], mark[e][Trace], mark[e][PresumedZero]
		t.Shifted = mark[e][Shifted]
		t.Absent = rep.Span.Days
		for m, n := range mark[e] {
			if Mark(m) != Absent {
				t.Absent -= n
			}
		}
	}
}

func (rep *Report) countWhole(o *Obs) {
	for _, e := range [2]Element{TMax, TMin} {
		if v := o.Value[e]; v != Missing {
			rep.Temperatures++
			if rep.Station.WholeF && !isWholeF(v) {
				rep.NotWholeF++
			}
		}
	}
}

// explain groups what was dropped by flag and by rule, in the order of days.
func (rep *Report) explain(dropped []Rejected) {
	slices.SortFunc(dropped, func(a, b Rejected) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Element, b.Element))
	})
	for _, d := range dropped {
		t := &rep.Elements[d.Element]
		list, name := &t.Failed, d.Mark.String()
		if d.Mark == Flagged {
			list, name = &t.Flagged, string(rune(d.Flag))
		}
		add(list, name, Example{d.Day, d.Element.Written(d.Value), d.Reason()})
	}
}

// add counts a value under a rule.
func add(list *[]RuleTally, name string, x Example) {
	at, found := slices.BinarySearchFunc(*list, name, func(r RuleTally, name string) int { return cmp.Compare(r.Rule, name) })
	if !found {
		*list = slices.Insert(*list, at, RuleTally{Rule: name})
	}
	rule := &(*list)[at]
	rule.Count++
	if len(rule.Examples) < MostExamples {
		rule.Examples = append(rule.Examples, x)
	}
}
