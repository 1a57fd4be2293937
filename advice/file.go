package advice

import (
	"math"
	"time"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// The shapes below are a round as a file: what `--json` prints. Numbers are rounded to a thousandth,
// far below what is shown, so that the same inputs give the same bytes.

// RoundFile is a round.
type RoundFile struct {
	Date   unit.Day    `json:"date"`
	Known  time.Time   `json:"known,omitzero"` // as asked; absent: all that was known
	Region string      `json:"region"`
	Guide  string      `json:"guide"`
	Stands int         `json:"stands"`
	Pieces []PieceFile `json:"pieces"`
	Feed   []PieceFile `json:"feed,omitempty"` // of feed in store: no field and no stand
}

// PieceFile is one piece of advice.
type PieceFile struct {
	Rank      int          `json:"rank"`
	Decision  string       `json:"decision"`
	Urgency   string       `json:"urgency"`
	Farm      string       `json:"farm"`
	Field     string       `json:"field,omitempty"`
	Stand     string       `json:"stand,omitempty"`
	Acres     float64      `json:"acres"`
	Title     string       `json:"title"`
	Sentence  string       `json:"sentence"`
	Window    *WindowFile  `json:"window,omitempty"`
	Worth     string       `json:"worth,omitempty"`
	Dollars   *DollarsFile `json:"dollars,omitempty"`
	Measure   string       `json:"measure_next,omitempty"`
	LossShare float64      `json:"yearly_value_lost_per_day"`
	Grounds   []GroundFile `json:"grounds"`
	Rules     []RuleFile   `json:"rules_of_thumb,omitempty"`
	Cautions  []string     `json:"cautions,omitempty"`
}

// WindowFile is a window.
type WindowFile struct {
	Early  unit.Day `json:"p10"`
	Middle unit.Day `json:"p50"`
	Late   unit.Day `json:"p90"`
	Best   unit.Day `json:"best"`
	Means  string   `json:"means"`
}

// DollarsFile is a worth in money.
type DollarsFile struct {
	Low          float64 `json:"low_per_acre"`
	Middle       float64 `json:"middle_per_acre"`
	High         float64 `json:"high_per_acre"`
	Against      string  `json:"against"`
	Line         string  `json:"price_line"`
	NoDifference bool    `json:"no_difference"`
}

// GroundFile is a figure that advice rests on.
type GroundFile struct {
	What    string      `json:"what"`
	Value   string      `json:"value"`
	How     string      `json:"how"`
	Reckon  string      `json:"reckon,omitempty"`
	Sources []source.ID `json:"sources"`
	Others  []string    `json:"other_fields,omitempty"`
}

// RuleFile is a rule of thumb beside the method's answer.
type RuleFile struct {
	Says    string    `json:"says"`
	Here    string    `json:"here"`
	Differs string    `json:"why_it_differs,omitempty"`
	Source  source.ID `json:"source"`
}

// File makes the round's file.
func (r *Round) File() RoundFile {
	o := r.Outlook
	f := RoundFile{Date: o.Date, Known: o.View.Known, Region: o.View.Place.Region, Guide: o.Guide, Stands: len(o.Stands), Pieces: []PieceFile{}}
	for i, p := range r.Pieces {
		f.Pieces = append(f.Pieces, p.File(i+1))
	}
	for i, p := range r.Feed {
		f.Feed = append(f.Feed, p.File(i+1))
	}
	return f
}

// File makes a piece's file.
func (p *Piece) File(rank int) PieceFile {
	f := PieceFile{
		Rank: rank, Decision: p.Decision, Urgency: p.Urgency.Key(),
		Title: p.Title, Sentence: p.Sentence, Worth: p.Worth.Text, Measure: p.Measure,
		LossShare: shownLoss(p), Grounds: []GroundFile{}, Cautions: p.Cautions,
	}
	if s := p.Stand; s != nil {
		f.Farm, f.Field, f.Stand, f.Acres = s.Farm.Name, s.InField.Name, s.ID, s.InField.Acres
	} else {
		f.Farm = p.Feed.Name
	}
	if w := p.Window; w != nil {
		f.Window = &WindowFile{w.Early, w.Middle, w.Late, w.Best, w.Means}
	}
	if d := p.Worth.Dollars; d != nil {
		f.Dollars = &DollarsFile{thousandth(d.Low), thousandth(d.Middle), thousandth(d.High), d.Against, d.Line, d.NoDifference}
	}
	for _, g := range p.Grounds {
		f.Grounds = append(f.Grounds, GroundFile(g))
	}
	for _, r := range p.Rules {
		f.Rules = append(f.Rules, RuleFile(r))
	}
	return f
}

// StandFile is one stand with its advice.
type StandFile struct {
	Date     unit.Day      `json:"date"`
	Farm     string        `json:"farm"`
	Field    string        `json:"field"`
	Stand    string        `json:"stand"`
	Crop     string        `json:"crop"`
	Seeded   unit.Day      `json:"seeded"`
	Year     int           `json:"production_year"`
	Acres    float64       `json:"acres"`
	Standing *StandingFile `json:"standing,omitempty"`
	WhyNot   string        `json:"no_standing_because,omitempty"`
	Pieces   []PieceFile   `json:"pieces"`
}

// StandingFile is the quality standing this morning.
type StandingFile struct {
	RFV float64 `json:"rfv"`
	SD  float64 `json:"sd_rfv"`
	NDF float64 `json:"ndf"`
	ADF float64 `json:"adf"`
}

// FileStand makes a stand's file.
func FileStand(s *outlook.Stand, pieces []*Piece) StandFile {
	f := StandFile{
		Date: s.Date, Farm: s.Farm.Name, Field: s.InField.Name, Stand: s.ID, Crop: string(s.Crop), Seeded: s.Seeded,
		Year: s.Year, Acres: s.InField.Acres, WhyNot: s.NotStanding, Pieces: []PieceFile{},
	}
	if st := s.Standing; st != nil {
		f.Standing = &StandingFile{thousandth(st.RFV), thousandth(st.SD), thousandth(st.NDF), thousandth(st.ADF)}
	}
	for i, p := range pieces {
		f.Pieces = append(f.Pieces, p.File(i+1))
	}
	return f
}

func thousandth(v float64) float64 { return math.Round(v*1000) / 1000 }
