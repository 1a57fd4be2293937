// Package advice holds the decisions, one file each. A decision is a pure function of outlook values:
// whether it applies, the window, what acting is worth, one plain sentence, what it rests on and the
// cautions that go with it.
package advice

import (
	"slices"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// Urgency is where in the round a piece of advice stands.
type Urgency int

// The urgencies, first in the round first.
const (
	Safety   Urgency = iota // what can hurt someone or spoil feed
	Today                   // call today
	Week                    // this week
	Watch                   // coming, nothing to do yet
	Unjudged                // cannot be judged, and why
	Rest                    // nothing due
)

// Title is the heading of the urgency in a round.
func (u Urgency) Title() string {
	return [...]string{"Safety first", "Call today", "This week", "Watch", "Cannot be judged", "Nothing due"}[u]
}

// Key is the urgency in a file.
func (u Urgency) Key() string {
	return [...]string{"safety", "today", "week", "watch", "unjudged", "rest"}[u]
}

// Piece is one piece of advice for one stand.
type Piece struct {
	Decision string         // key of the decision: `first-cut`
	Stand    *outlook.Stand // nil where the piece is of a farm's feed
	Feed     *outlook.Farm  // whose feed it is of; nil where it is of a stand
	Urgency  Urgency
	Title    string // what to do, in a few words
	Sentence string // why, in one plain sentence
	Window   *Window
	Worth    Worth
	Measure  string // what to measure next; empty where nothing would help
	Grounds  []Ground
	Rules    []Rule
	Cautions []string
	Choices  []Choice // ways to go on, side by side; most decisions have none
	// LossShare is the part of the stand's yearly value that a day of waiting loses; orders the round.
	LossShare float64
	// Errand marks a piece that sends someone to look; within an urgency it follows what acts.
	Errand bool
}

// Window is when to act: 10, 50 and 90 % dates of the event, and the best day within.
type Window struct {
	Early, Middle, Late unit.Day
	Best                unit.Day
	BestWhy             string // what speaks for the best day; empty where it is the middle
	Means               string // what the chances are chances of
	Firm                bool   // the days are set, not chances: a reading falls due
}

// Worth is what acting in the window gains against waiting.
type Worth struct {
	Text    string // in tons and points, plain
	Dollars *Dollars
}

// Dollars is a worth in money, with the price line it rests on.
type Dollars struct {
	Low, Middle, High float64 // $/ac
	Against           string  // waiting until ...
	Line              string  // deck, its date and the line
	Short             string  // the same without the date, where room is short
	NoDifference      bool    // the range spans nothing
}

// Ground is one figure that the advice rests on.
type Ground struct {
	What    string
	Value   string
	How     string // method in words
	Reckon  string // arguments that reproduce it with `haywarden reckon`; empty where there is none
	Sources []source.ID
	// Others names fields of other farms that the figure also rests on: for the adviser's own eyes,
	// never on a page or paper made for one farm.
	Others []string
}

// Rule is a rule of thumb beside the method's answer.
type Rule struct {
	Says    string // the rule
	Here    string // what it says for this stand
	Differs string // why the answers differ; empty where they agree
	Source  source.ID
}

// Date is the day on which the piece holds.
func (p *Piece) Date() unit.Day {
	if p.Stand == nil {
		return p.Feed.Date
	}
	return p.Stand.Date
}

// Named says whose the piece is: the farm and its field, or the farm's feed.
func (p *Piece) Named() string {
	if p.Stand == nil {
		return p.Feed.Name + " · feed in store"
	}
	return p.Stand.Named()
}

// Closing is the last day of the window, far off where there is none.
func (p *Piece) Closing() unit.Day {
	if p.Window == nil {
		return 1 << 30
	}
	return p.Window.Late
}

// Cuts reports whether a decision is about when to cut the growth that stands.
func Cuts(decision string) bool {
	switch decision {
	case "first-cut", "later-cut", "clover-cut":
		return true
	}
	return false
}

// CautionsOf gathers the cautions of pieces, each once: whoever shows a piece, be it by its title alone,
// shows these beside it.
func CautionsOf(pieces ...*Piece) []string {
	var out []string
	for _, p := range pieces {
		for _, c := range p.Cautions {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}
