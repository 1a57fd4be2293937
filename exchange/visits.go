package exchange

import (
	"io"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/tabular"
)

// Visits is a table of visits.
type Visits struct {
	File
	Visits []VisitRow
}

// VisitRow is one visit, gathered from the rows of its farm, field, day and observer.
type VisitRow struct {
	Row      int // the first of them
	Farm     string
	Field    string
	Day      unit.Day
	Observer string // empty: whoever brings the table
	Visit    book.Visit
}

// visitColumns are the columns of a table of visits, in the order in which they are written.
var visitColumns = []Column{
	{Name: "farm", Also: []string{"farm name", "operation"}, Needed: true},
	{Name: "field", Also: []string{"field name"}, Needed: true},
	{Name: "date", Also: []string{"day", "visit date", "date of visit", "visited"}, Needed: true},
	{Name: "observer", Also: []string{"by", "seen by", "scout", "read by", "author"}},
	{Name: "height_in", Also: []string{"height", "height inches", "tallest stem"}, in: []spelling{{"cm", []string{"height cm"}}}, check: "height"},
	{Name: "stage", Also: []string{"maturity", "stage of the most mature stem"}},
	{Name: "stems", Also: []string{"stem count", "stems counted"}},
	{Name: "plants", Also: []string{"plant count", "plants counted"}},
	{Name: "frame_ft2", Also: []string{"frame", "frame size", "frame sq ft", "frame square feet"}, in: []spelling{{"m2", []string{"frame m2"}}}, check: "size"},
	{Name: "roots_dug", Also: []string{"roots split", "dug"}},
	{Name: "roots_bad", Also: []string{"bad roots", "roots rotted"}},
	{Name: "crown_ratings", Also: []string{"crowns", "ratings", "plants rated 0 to 5"}, check: "crowns"},
	{Name: "hardiness", Also: []string{"winter hardiness"}, check: "hardiness"},
	{Name: "resistance", Also: []string{"disease resistance"}, check: "resistance"},
	{Name: "drainage", Also: []string{"soil drainage"}, check: "drainage"},
	{Name: "fall_moisture", Also: []string{"fall soil moisture"}, check: "fall moisture"},
	{Name: "stubble_6in", Also: []string{"stubble left", "over 6 in stubble"}},
	{Name: "harm", Also: []string{"damage"}, check: "harm"},
	{Name: "harm_day", Also: []string{"damage date", "storm"}},
	{Name: "tips_broken_pct", Also: []string{"tips broken", "terminal buds hurt"}, check: "tips broken"},
	{Name: "leaves_lost_pct", Also: []string{"leaves lost", "defoliation"}, check: "leaves lost"},
	{Name: "lodged", Also: []string{"lies"}},
	{Name: "under_water_days", Also: []string{"days under water"}, check: "days under water"},
	{Name: "silt_in", Also: []string{"silt inches"}, check: "silt"},
	{Name: "roots_soft", Also: []string{"soft roots"}},
	{Name: "crowns_see_sun", Also: []string{"sun on crowns"}},
	{Name: "bloom_pct", Also: []string{"bloom", "bloom percent"}, check: "bloom"},
	{Name: "growth_in", Also: []string{"growth", "growth height", "growth inches"}, in: []spelling{{"cm", []string{"growth cm"}}}, check: "growth"},
	{Name: "grass_share", Also: []string{"grass", "share of grass"}, in: []spelling{{"%", []string{"grass pct", "grass percent", "pct grass"}}}},
	{Name: "tips", Also: []string{"growing tips"}, check: "growing tips"},
	{Name: "weevil_tips_pct", Also: []string{"weevil tips", "weevil pct", "weevil tip feeding", "tips fed on by weevil"}, check: "tips fed on by weevil"},
	{Name: "pest", Also: []string{"insect", "pest counted"}},
	{Name: "pest_count", Also: []string{"counted", "larvae", "hoppers"}},
	{Name: "pest_size", Also: []string{"sample", "sweeps", "stems shaken"}},
	{Name: "weeds_in_bloom", Also: []string{"weeds bloom"}},
	{Name: "note", Also: []string{"notes", "comment", "comments", "remarks"}},
}

// VisitColumns lists the columns of a table of visits.
func VisitColumns() []Column { return slices.Clone(visitColumns) }

var stages = []call[book.Stage]{
	{book.Vegetative, []string{"v", "veg", "late vegetative"}},
	{book.Bud, []string{"b", "buds", "early bud", "late bud"}},
	{book.Flower, []string{"f", "fl", "flowering", "bloom", "early flower", "late flower", "early bloom", "open flower"}},
}

var tipsSeen = []call[book.Tips]{
	{book.TipsSound, []string{"ok", "alive", "unhurt"}},
	{book.TipsKilled, []string{"dead"}},
}

// usualFrame is the size of a frame, in square feet, where none is given: 17 by 17 in.
// [source.StemProtocol]
const usualFrame = 2

// visiting is a visit while its rows are gathered; said holds the row that said a thing first.
type visiting struct {
	VisitRow
	said map[string]int
}

// ReadVisits reads a table of visits, a row a stick spot or a counted frame, or both: farm, field and
// date are needed. Rows of one farm, field, date and observer are one visit; what is said of the whole
// field (bloom, roots, growing tips ...) may stand in any of its rows. Heights are inches unless they
// carry cm or stand under height_cm.
func ReadVisits(r io.Reader, name string) (Visits, error) {
	s, err := open(r, name, visitColumns)
	if err != nil {
		return Visits{}, err
	}
	var order []*visiting
	at := map[string]*visiting{}
	for {
		more, err := s.next()
		if err != nil {
			return Visits{}, err
		}
		if !more {
			break
		}
		found := len(s.list)
		v := &visiting{VisitRow: VisitRow{Row: s.row.Place, Farm: s.name("farm"), Field: s.name("field"), Observer: s.text("observer")}, said: map[string]int{}}
		v.Day, _ = s.date("date", true)
		if len(s.list) == found {
			key := strings.Join([]string{tabular.Plain(v.Farm), tabular.Plain(v.Field), v.Day.String(), tabular.Plain(v.Observer)}, " / ")
			if at[key] == nil {
				at[key] = v
				order = append(order, v)
			}
			v = at[key]
		}
		s.seen(v)
	}
	out := Visits{File: s.file}
	for _, v := range order {
		out.Visits = append(out.Visits, v.VisitRow)
	}
	return out, nil
}

// seen lays what the row says into its visit.
func (s *sheet) seen(v *visiting) {
	found := len(s.list)
	var row book.Visit // what this row says, to be checked by itself
	s.spot(&row)
	s.frame(&row)
	s.roots(v, &row)
	s.survival(v, &row)
	once(s, v, "bloom_pct", s.quantity("bloom_pct", "%"), &row.Bloom, &v.Visit.Bloom)
	once(s, v, "growth_in", s.quantity("growth_in", "in"), &row.GrowthIn, &v.Visit.GrowthIn)
	once(s, v, "grass_share", s.share("grass_share"), &row.Grass, &v.Visit.Grass)
	once(s, v, "weevil_tips_pct", s.quantity("weevil_tips_pct", "%"), &row.WeevilTips, &v.Visit.WeevilTips)
	s.pestSample(v, &row)
	if w := s.yes("weeds_in_bloom"); w != nil {
		row.WeedsBloom = *w
		v.Visit.WeedsBloom = v.Visit.WeedsBloom || *w
	}
	if t := oneOf(s, "tips", tipsSeen, false); t != "" {
		var old *book.Tips
		if v.Visit.Tips != "" {
			old = &v.Visit.Tips
		}
		once(s, v, "tips", &t, new(*book.Tips), &old)
		row.Tips, v.Visit.Tips = t, *old
	}
	row.Note = s.raw("note")
	s.accept(row.Check())
	if len(s.list) == found && len(row.Spots)+len(row.Frames) == 0 && row.Roots == nil && row.Crowns == nil && row.Winter == nil && row.Harm == nil && row.Bloom == nil &&
		row.GrowthIn == nil && row.Grass == nil && row.WeevilTips == nil && len(row.Pests) == 0 && s.raw("weeds_in_bloom") == "" && row.Tips == "" && row.Note == "" {
		s.Add(s.row.Place, "", "the row says nothing that was seen: fill in a height and stage, a count, or a note")
	}
	v.Visit.Spots = append(v.Visit.Spots, row.Spots...)
	v.Visit.Frames = append(v.Visit.Frames, row.Frames...)
	if n := row.Note; n != "" && v.said["note: "+n] == 0 {
		v.said["note: "+n] = s.row.Place
		v.Visit.Note = strings.TrimPrefix(v.Visit.Note+"; "+n, "; ")
	}
}

// spot reads a stick reading.
func (s *sheet) spot(row *book.Visit) {
	height, stage := s.quantity("height_in", "in"), oneOf(s, "stage", stages, false)
	switch {
	case height != nil && stage != "":
		row.Spots = []book.Spot{{HeightIn: *height, Stage: stage}}
	case height != nil && s.raw("stage") == "":
		s.fault("stage", "is empty beside a height; accepted vegetative, bud, flower (height of growth without a stage is growth_in)")
	case stage != "" && s.raw("height_in") == "":
		s.fault("height_in", "is empty beside a stage; the height of the tallest stem is wanted, 4 to 60 in")
	}
}

// frame reads a counted frame. A size alone, as a form may have it printed, is none.
func (s *sheet) frame(row *book.Visit) {
	stems, plants, size := s.count("stems"), s.count("plants"), s.quantity("frame_ft2", "ft2")
	if stems != nil || plants != nil {
		row.Frames = []book.Frame{{Stems: stems, Plants: plants, Ft2: or(size, usualFrame)}}
	}
}

// pestSample reads one sample of a pest: of one pest and size all rows of a visit are its samples.
func (s *sheet) pestSample(v *visiting, row *book.Visit) {
	name, size := oneOf(s, "pest", pestNames(), false), s.quantity("pest_size", "")
	n := s.quantity("pest_count", "")
	switch {
	case name == "" && n == nil || s.raw("pest") != "" && name == "":
		return
	case name == "":
		s.fault("pest", "is empty beside pest_count; which pest?")
		return
	case n == nil:
		if s.raw("pest_count") == "" {
			s.fault("pest_count", "is empty beside pest; how many in the sample, 0 for none?")
		}
		return
	}
	one := book.Pests{Pest: name, Counts: []float64{*n}, Size: or(size, 1)}
	row.Pests = []book.Pests{one}
	for i, p := range v.Visit.Pests {
		if p.Pest == one.Pest && p.Size == one.Size {
			v.Visit.Pests[i].Counts = append(p.Counts, *n)
			return
		}
	}
	v.Visit.Pests = append(v.Visit.Pests, one)
}

// pestNames are the pests as people write them.
func pestNames() []call[string] {
	also := map[string][]string{"weevil": {"alfalfa weevil", "weevil larvae"}, "leafhopper": {"potato leafhopper", "plh", "hopper", "hoppers"}, "plant-bug": {"lygus", "tarnished plant bug"}}
	var out []call[string]
	for _, k := range book.PestKinds() {
		out = append(out, call[string]{k.Name, append([]string{strings.ReplaceAll(k.Name, "-", " ")}, also[k.Name]...)})
	}
	return out
}

// roots reads a dig. It is the visit's sum, so a second one may as well be a part: that is asked.
func (s *sheet) roots(v *visiting, row *book.Visit) {
	dug, bad := s.count("roots_dug"), s.count("roots_bad")
	switch {
	case dug != nil && bad != nil:
		row.Roots = &book.Roots{Dug: *dug, Bad: *bad}
		if first := v.said["roots_dug"]; first != 0 {
			s.fault("roots_dug", "row %d of the same visit has roots already; give the sum of all digs once", first)
			return
		}
		v.said["roots_dug"], v.Visit.Roots = s.row.Place, row.Roots
	case dug != nil && s.raw("roots_bad") == "":
		s.fault("roots_bad", "is empty beside roots_dug; how many were rotted or streaked, 0 for none?")
	case bad != nil && s.raw("roots_dug") == "":
		s.fault("roots_dug", "is empty beside roots_bad; how many were split?")
	}
}

// once lays into a visit what is said of the whole field; a row that says otherwise is a fault.
func once[T comparable](s *sheet, v *visiting, col string, given *T, row, visit **T) {
	if given == nil {
		return
	}
	*row = given
	switch {
	case *visit == nil:
		*visit, v.said[col] = given, s.row.Place
	case **visit != *given:
		s.fault(col, "row %d of the same visit says %v; give one value for the field", v.said[col], **visit)
	}
}
