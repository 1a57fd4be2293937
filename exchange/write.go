package exchange

import (
	"fmt"
	"io"
	"strconv"

	"haywarden/book"
	"haywarden/tabular"
)

// WriteStands writes stands as [ReadStands] reads them.
func WriteStands(w io.Writer, rows []StandRow) error {
	out := newTable(w, standColumns)
	for _, r := range rows {
		out.text("farm", r.Farm.Name)
		out.text("county", r.Farm.County)
		out.text("field", r.Field.Name)
		out.number("acres", &r.Field.Acres)
		if r.Field.Latitude != 0 || r.Field.Longitude != 0 {
			out.number("latitude", &r.Field.Latitude)
			out.number("longitude", &r.Field.Longitude)
		}
		out.text("station", r.Field.Station)
		out.text("crop", string(r.Stand.Crop))
		out.text("seeded", r.Stand.Seeded.String())
		if r.Stand.TurnedUnder != nil {
			out.text("turned_under", r.Stand.TurnedUnder.String())
		}
		if r.Says.Grass {
			out.number("grass_share", &r.Stand.GrassShare)
		}
		out.text("variety", r.Stand.Variety)
		out.text("product", string(r.Stand.Product))
		if r.Stand.FeedRFV != 0 {
			out.number("feed_rfv", &r.Stand.FeedRFV)
		}
		if r.Says.Hairy {
			out.text("hopper_resistant", map[bool]string{true: "yes", false: "no"}[r.Stand.Hairy])
		}
		if r.Says.Sentinel {
			out.text("sentinel", map[bool]string{true: "yes", false: "no"}[r.Stand.Sentinel])
		}
		out.text("contact", r.Contact.Name)
		out.text("phone", r.Contact.Phone)
		out.end()
	}
	return out.close("stands")
}

// WriteVisits writes visits as [ReadVisits] reads them: a row for each spot and frame, with what is
// said of the whole field in the first.
func WriteVisits(w io.Writer, rows []VisitRow) error {
	out := newTable(w, visitColumns)
	for _, r := range rows {
		v := r.Visit
		for i := range max(len(v.Spots), len(v.Frames), len(samplesOf(v)), 1) {
			out.text("farm", r.Farm)
			out.text("field", r.Field)
			out.text("date", r.Day.String())
			out.text("observer", r.Observer)
			if i < len(v.Spots) {
				out.number("height_in", &v.Spots[i].HeightIn)
				out.text("stage", string(v.Spots[i].Stage))
			}
			if i < len(v.Frames) {
				out.count("stems", v.Frames[i].Stems)
				out.count("plants", v.Frames[i].Plants)
				out.number("frame_ft2", &v.Frames[i].Ft2)
			}
			if all := samplesOf(v); i < len(all) {
				out.text("pest", all[i].Pest)
				out.number("pest_count", &all[i].Counts[0])
				out.number("pest_size", &all[i].Size)
			}
			if i == 0 {
				out.field(v)
			}
			out.end()
		}
	}
	return out.close("visits")
}

// field writes what a visit says of the whole field.
func (t *table) field(v book.Visit) {
	if v.Roots != nil {
		t.count("roots_dug", &v.Roots.Dug)
		t.count("roots_bad", &v.Roots.Bad)
	}
	if v.Crowns != nil {
		t.text("crown_ratings", crownText(*v.Crowns))
	}
	if w := v.Winter; w != nil {
		t.text("hardiness", w.Hardiness)
		t.text("resistance", w.Resistance)
		t.text("drainage", w.Drainage)
		t.text("fall_moisture", w.Moisture)
		t.yes("stubble_6in", w.Stubble)
	}
	if h := v.Harm; h != nil {
		t.text("harm", string(h.Kind))
		t.text("harm_day", h.Day.String())
		t.number("tips_broken_pct", h.Tips)
		t.number("leaves_lost_pct", h.Leaves)
		t.number("under_water_days", h.Under)
		t.number("silt_in", h.Silt)
		t.yes("roots_soft", h.Soft)
		t.yes("crowns_see_sun", h.Crowns)
		if h.Lodged {
			t.yes("lodged", &h.Lodged)
		}
	}
	t.number("bloom_pct", v.Bloom)
	t.number("growth_in", v.GrowthIn)
	t.number("grass_share", v.Grass)
	t.text("tips", string(v.Tips))
	t.number("weevil_tips_pct", v.WeevilTips)
	if v.WeedsBloom {
		t.text("weeds_in_bloom", "yes")
	}
	t.text("note", v.Note)
}

// samplesOf parts a visit's pests into single samples.
func samplesOf(v book.Visit) (out []book.Pests) {
	for _, p := range v.Pests {
		for i := range p.Counts {
			out = append(out, book.Pests{Pest: p.Pest, Counts: p.Counts[i : i+1], Size: p.Size})
		}
	}
	return out
}

// table writes a form. The first error is kept; what comes after it is not written.
type table struct {
	out   *tabular.Writer
	at    map[string]int
	cells []string
	err   error
}

func newTable(w io.Writer, columns []Column) *table {
	t := &table{out: tabular.NewWriter(w), at: map[string]int{}, cells: make([]string, len(columns))}
	for i, c := range columns {
		t.at[c.Name], t.cells[i] = i, c.Name
	}
	t.end()
	return t
}

func (t *table) text(col, text string) { t.cells[t.at[col]] = tabular.Safe(text) }

func (t *table) number(col string, v *float64) {
	if v != nil {
		t.cells[t.at[col]] = tabular.Float(*v)
	}
}

func (t *table) count(col string, n *int) {
	if n != nil {
		t.cells[t.at[col]] = strconv.Itoa(*n)
	}
}

// end ends a row.
func (t *table) end() {
	if t.err == nil {
		t.err = t.out.Row(t.cells...)
	}
	clear(t.cells)
}

func (t *table) close(what string) error {
	err := t.out.Close()
	if t.err != nil {
		err = t.err
	}
	if err != nil {
		return fmt.Errorf("write %s: %w", what, err)
	}
	return nil
}

// yes writes an answer, nothing where there is none.
func (t *table) yes(col string, v *bool) {
	switch {
	case v == nil:
	case *v:
		t.text(col, "yes")
	default:
		t.text(col, "no")
	}
}
