package office

import (
	"fmt"
	"math"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

// labGroup is what a table says of samples that could be one: of one stand, day, kind, laboratory and lot.
type labGroup struct {
	stand *book.StandView
	rows  []exchange.LabRow
}

type labGroupKey struct {
	stand, sample, lab, lot string
	day                     unit.Day
}

func keyOf(stand string, day unit.Day, l book.Lab) labGroupKey {
	return labGroupKey{stand, l.Sample, plain(l.Lab), plain(l.Lot), day}
}

// labGroups finds the stand of each row and gathers what the checks warn of.
func (b *batch) labGroups(rows []exchange.LabRow, got *LabsBrought) []*labGroup {
	var groups []*labGroup
	at := map[labGroupKey]*labGroup{}
	for _, row := range rows {
		if !b.past(row.Row, "sampled", row.Day) {
			continue
		}
		s := b.standOn(row.Row, row.Farm, row.Field, row.Day, row.Lab.Sample != "standing")
		if s == nil {
			continue
		}
		for _, flag := range forage.CheckReport(exchange.LabReport(row.Lab), cropKind(s.Crop)) {
			if flag.Level == forage.Warning {
				got.warn(exchange.Fault{Row: row.Row, Field: flag.Field, Text: flag.Text})
			}
		}
		key := keyOf(s.ID, row.Day, row.Lab)
		if at[key] == nil {
			at[key] = &labGroup{stand: s}
			groups = append(groups, at[key])
		}
		at[key].rows = append(at[key].rows, row)
	}
	return groups
}

// warn keeps a warning once, however many rows it is true of.
func (r *LabsBrought) warn(f exchange.Fault) {
	i := slices.IndexFunc(r.Warnings, func(w LabWarning) bool { return w.Field == f.Field && w.Text == f.Text })
	if i >= 0 {
		r.Warnings[i].Rows++
		return
	}
	r.Warnings = append(r.Warnings, LabWarning{f, 1})
}

// cropKind is what the checks call a crop.
func cropKind(c book.Crop) forage.CropKind {
	switch c {
	case book.RedClover:
		return forage.CloverKind
	case book.AlfalfaGrass:
		return forage.MixtureKind
	default:
		return forage.AlfalfaKind
	}
}

// takeLabs adds the results of a group. One that the book holds just so adds nothing. Of the others, one
// with the laboratory's number of an earlier one takes its place; where numbers are not given it is a
// correction if at least half of the values that both hold are the same, and it could correct one
// result only. Else it is another sample.
func (b *batch) takeLabs(g *labGroup, got *LabsBrought) {
	var held []book.Dated[book.Lab] // not yet matched
	for _, l := range g.stand.Labs {
		if keyOf(g.stand.ID, l.Day, l.Body) == keyOf(g.stand.ID, g.rows[0].Day, g.rows[0].Lab) {
			held = append(held, l)
		}
	}
	rest := slices.DeleteFunc(slices.Clone(g.rows), func(row exchange.LabRow) bool {
		i := slices.IndexFunc(held, func(l book.Dated[book.Lab]) bool { return equalJSON(l.Body, row.Lab) })
		if i < 0 {
			return false
		}
		held = slices.Delete(held, i, i+1)
		b.same(book.KindLab)
		return true
	})
	for _, row := range rest {
		e := Entry{Farm: g.stand.Farm.ID, Subject: g.stand.ID, Day: row.Day, Body: row.Lab}
		if i := corrected(row.Lab, held, len(rest)); i >= 0 {
			e.Supersedes = held[i].ID
			got.Told = append(got.Told, toldResult(g.stand, row, &held[i].Body))
			held = slices.Delete(held, i, i+1)
		} else {
			got.Told = append(got.Told, toldResult(g.stand, row, nil))
		}
		b.add(e, e.Supersedes != "")
	}
}

// corrected finds the one result that a new one corrects, -1 where none is sure to be meant.
func corrected(now book.Lab, held []book.Dated[book.Lab], others int) int {
	found := -1
	for i, l := range held {
		numbered := now.Number != "" && l.Body.Number != ""
		switch {
		case numbered && plain(now.Number) == plain(l.Body.Number):
			return i
		case numbered, others > 1, !alike(now, l.Body):
		case found >= 0:
			return -1
		default:
			found = i
		}
	}
	return found
}

// alike reports whether at least half of the values that both results hold are the same.
func alike(a, b book.Lab) bool {
	x, y := exchange.LabReport(a), exchange.LabReport(b)
	both, same := 0, 0
	for code, v := range x {
		w, ok := y[code]
		if !ok {
			continue
		}
		both++
		if math.Abs(v-w) < 1e-9 {
			same++
		}
	}
	return 2*same >= both
}

// toldResult says in words what a result is, and how it stands to the one before it of the stand, or to
// the one it corrects.
func toldResult(s *book.StandView, row exchange.LabRow, was *book.Lab) string {
	k, spread := forage.PublishedFeedValue(), forage.PublishedLabSpread().OfLot(storage.UsualCores)
	rfv, sd := k.Of(row.Lab.ADF, row.Lab.NDF), spread.RFV(row.Lab.ADF, row.Lab.NDF)
	said := fmt.Sprintf("%s, %s of %s: %s", s.Named(), row.Lab.Sample, row.Day, forage.ToldValue(forage.RFVPoints, rfv, sd, storage.UsualCores))
	before := was
	if was != nil {
		said += fmt.Sprintf(" It corrects RFV %d.", forage.Whole(k.Of(was.ADF, was.NDF)))
		return said
	}
	for _, l := range s.Labs {
		if l.Body.Sample == row.Lab.Sample && l.Day <= row.Day && row.Day-l.Day < 366 {
			before = &l.Body
		}
	}
	if before == nil {
		return said
	}
	old := k.Of(before.ADF, before.NDF)
	return said + fmt.Sprintf(" The sample before had RFV %d: ", forage.Whole(old)) + forage.ToldApart(forage.RFVPoints, rfv, old, sd, spread.RFV(before.ADF, before.NDF))
}
