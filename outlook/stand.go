package outlook

import (
	"slices"
	"time"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/stand"
	"haywarden/agronomy/stick"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Stand is what is known of one stand on a date. It is built once and not changed afterwards.
type Stand struct {
	*book.StandView
	Date   unit.Day
	Sky    *Sky   // nil where the stand has no usable weather; NoSky says why
	NoSky  string // plain words
	Deck   *book.Deck
	Target Target
	Year   int // production year: 0 in the year of seeding, 1 in the next
	Growth Growth
	// Readings are the stick readings of this growth, oldest first. Only pure alfalfa has them.
	Readings []Reading
	Standing *Standing // quality standing today; nil where it cannot be said, NotStanding says why
	// NotStanding is the plain reason for a nil Standing.
	NotStanding string
	Stems       *Stems // newest stem count of this year; nil where none
	Frosted     *Frosted
	Wintered    *Wintered // nil for clover, for this year's seedings, and in fall
	Yield       Yield
	// Plans are the seedings planned for the field that are still ahead; told with its newest stand.
	Plans []Planned
	Lines map[string]book.Priced // what keeping or ending it costs, each line in the deck that holds for it
}

// Kind groups stands that are judged alike.
type Kind int

// The kinds of stand.
const (
	PureAlfalfa Kind = iota
	Mixture          // over 10 % grass: the stick's table does not hold
	Clover
)

// grassLimit is the share of grass from which a stand is judged as a mixture.
const grassLimit = 0.10

// Judged says as what the stand is judged.
func (s *Stand) Judged() Kind {
	switch {
	case s.Crop == book.RedClover:
		return Clover
	case s.Crop == book.AlfalfaGrass || s.Grass() > grassLimit:
		return Mixture
	}
	return PureAlfalfa
}

// ReducedLignin reports whether the variety was bred for less lignin, which RFV cannot see.
func (s *Stand) ReducedLignin() bool { return s.Crop == book.ReducedLignin }

// Grass is the share of grass in the dry matter: as last seen, else as the stand was entered.
func (s *Stand) Grass() float64 {
	for _, v := range slices.Backward(s.Visits) {
		if g := v.Body.Grass; g != nil {
			return *g
		}
	}
	return s.GrassShare
}

// SeedingYear reports whether the stand was seeded this year.
func (s *Stand) SeedingYear() bool { return s.Year == 0 }

// Target is the quality wanted and what is lost on the way to it.
type Target struct {
	FeedRFV     float64 // wanted when fed
	Assumed     bool    // no target was entered: the default is used
	Product     book.Product
	ProductSaid bool    // the product was entered, not assumed
	Loss        float64 // RFV points from standing crop to feed
	LossLow     float64
	LossHigh    float64
	CutRFV      float64 // standing RFV to cut at: FeedRFV + Loss
	DryDays     int     // dry days in a row the product wants
}

// Growth is the growth that stands in the field.
type Growth struct {
	Number int      // 1 is the year's first
	Since  unit.Day // last cut, seeding, or 1 March
	After  bool     // Since is a cut
}

// Days is how long the growth has stood.
func (g Growth) Days(today unit.Day) int { return int(today - g.Since) }

// Holds reports whether what was seen on a day was seen of this growth. On the day of a cut it was still
// the old one.
func (g Growth) Holds(d unit.Day) bool { return d > g.Since || d == g.Since && !g.After }

// Reading is one stick reading worked out.
type Reading struct {
	Day      unit.Day
	Observer string
	Field    stick.Field
	Spots    []book.Spot
	Highest  float64 // mean of the spots' tallest stems, in
	Doubt    string  // why the reading looks wrong; empty where it does not
}

// Basis says what an estimate of standing quality rests on.
type Basis struct {
	Name string // stick, heat, neighbours
	Day  unit.Day
	NDF  float64
	SD   float64
	N    int // spots or fields
}

// Standing is the quality of the standing crop this morning.
type Standing struct {
	NDF, ADF     float64
	SDNDF, SDADF float64
	RFV, SD      float64
	From         []Basis
	Season       forage.Season
	HeatAgrees   bool                // heat and stick lie within twice their joint spread, or only one is there
	Shared       forage.SharedErrors // correlation of the errors of stick and heat
	Corrected    *forage.Correction  // what laboratory results of the farm's cutting added to the stick; nil where none
	Borrowed     bool                // no reading here: from neighbouring fields or heat alone
}

// Stems is a stem count worked out.
type Stems struct {
	From, Day unit.Day // first and last day of the count
	Count     stand.StemCount
	Frames    int
	Roots     *book.Roots // newest dig of the year, nil where none
}

// Frosted is a spring frost that hit the stand's tops.
type Frosted struct {
	Frost
	LookFrom unit.Day // third day after
	Seen     book.Tips
	SeenOn   unit.Day
}

// Lifted reports whether a look at the growing tips has found them sound.
func (f *Frosted) Lifted() bool { return f == nil || f.Seen == book.TipsSound }

// Yield is what the stand can give.
type Yield struct {
	Year        float64 // tons DM an acre a year, from stems and age
	FirstCut    float64 // of it in the first cut
	StemsKnown  bool
	DailyGrowth float64 // tons DM an acre a day near first harvest
}

// marchFirst is where first growth is counted from.
func marchFirst(year int) unit.Day { return unit.DateOf(year, time.March, 1) }
