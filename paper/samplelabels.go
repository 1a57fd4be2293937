package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// labelYear is for how long a cut may still be sampled from the store, days.
const labelYear = 400

// sampleLot is one lot to be sampled: a cut of a field.
type sampleLot struct {
	stand *book.StandView
	cut   book.Dated[book.Cut]
}

// code names the lot: the end of the stand's id, the cut and the year, so that two fields of a name are
// told apart and a result finds its stand.
func (l sampleLot) code() string {
	id := strings.ReplaceAll(l.stand.ID, "-", "")
	return fmt.Sprintf("%s-%d-%02d", id[max(0, len(id)-6):], l.cut.Body.Number, l.cut.Day.Year()%100)
}

// lotsOf lists the cuts of a farm that may still be in store, newest first.
func lotsOf(f *book.FarmView, date unit.Day) []sampleLot {
	var out []sampleLot
	for _, field := range f.Fields {
		for _, s := range field.Stands {
			for _, c := range s.Cuts {
				if c.Day <= date && date-c.Day <= labelYear {
					out = append(out, sampleLot{s, c})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b sampleLot) int {
		return cmp.Or(-cmp.Compare(a.cut.Day, b.cut.Day), cmp.Compare(a.stand.InField.Name, b.stand.InField.Name))
	})
	return out
}

// The labels of a sheet: two beside each other, four beneath.
const (
	labelColumns = 2
	labelRows    = 4
	labelHigh    = 156.0
	labelGap     = 14.0
	labelTop     = 72.0 // of the first row on a page
)

// SampleLabels is a sheet of labels for bags of samples, one a lot that may still be in store: whose, which
// field, cutting and day, room for the store and the sampler, how to sample it and what to ask the
// laboratory for. Cut them out or put them into the bag.
func SampleLabels(f *book.FarmView, date unit.Day, invented bool) ([]byte, error) {
	foot := "One lot is one field, cutting and stage, baled within 48 hours, at most 200 tons. Never mix lots in a bag."
	if invented {
		foot += " Invented farm."
	}
	s, err := newSheet("Sample labels, "+f.Name+", "+date.String(), date, foot)
	if err != nil {
		return nil, err
	}
	lots := lotsOf(f, date)
	if len(lots) == 0 {
		s.head("Sample labels", 20)
		s.say(fmt.Sprintf("No cut of %s was recorded in the thirteen months before %s: there is no lot to sample.", f.Name, dated(date)), bodySize, "", ink)
		return s.bytes()
	}
	s.say(advice.WhatATestTells(), 8.5, "", quiet)
	s.doc.SetAutoPageBreak(false, 0)
	width := (wide - labelGap) / labelColumns
	for i, l := range lots {
		place := i % (labelColumns * labelRows)
		if place == 0 && i > 0 {
			s.doc.AddPage()
		}
		x := margin + float64(place%labelColumns)*(width+labelGap)
		y := labelTop + float64(place/labelColumns)*(labelHigh+labelGap)
		if err := s.label(f, l, x, y, width); err != nil {
			return nil, err
		}
	}
	return s.bytes()
}

// askFor is what a laboratory is asked for, so that RFV, RFQ and energy can be told from it.
const askFor = "Ask for: dry matter, protein, ADF, NDF (with amylase), NDFD 48 h, lignin, ash and fat; and the basis stated, as fed or dry."

func (s *sheet) label(f *book.FarmView, l sampleLot, x, y, width float64) error {
	stored := storage.BaledHay
	if l.cut.Body.Product == book.Haylage || l.cut.Body.Product == book.Baleage {
		stored = storage.SilageStock
	}
	how, err := storage.ProtocolFor(stored)
	if err != nil {
		return err
	}
	s.doc.SetDrawColor(hair[0], hair[1], hair[2])
	s.doc.SetLineWidth(0.8)
	s.doc.SetDashPattern([]float64{3, 3}, 0)
	s.doc.Rect(x, y, width, labelHigh, "D")
	s.doc.SetDashPattern([]float64{}, 0)
	const pad = 10.0
	at, inner := y+pad, width-2*pad
	write := func(text, face, style string, size, high float64, t tone) {
		s.ink(t)
		s.doc.SetFont(face, style, size)
		s.doc.SetXY(x+pad, at)
		s.doc.MultiCell(inner, high, clean(text), "", "L", false)
		at = s.doc.GetY()
	}
	write(l.stand.InField.Name, serif, "", 14, 17, ink)
	write(fmt.Sprintf("%s · %s cut of %d, %s", f.Name, advice.Ordinal(l.cut.Body.Number), l.cut.Day.Year(), string(l.stand.Crop)), family, "B", 9.5, 12.5, ink)
	product := ""
	if l.cut.Body.Product != "" {
		product = " as " + string(l.cut.Body.Product)
	}
	write(fmt.Sprintf("Cut on %s%s · %.0f ac · lot %s", dated(l.cut.Day), product, l.stand.InField.Acres, l.code()), family, "", 9, 12, ink)
	at += 7
	for _, blank := range []string{"Store", "Sampled on", "By"} {
		s.ink(quiet)
		s.doc.SetFont(family, "", 9)
		s.doc.Text(x+pad, at+9, blank)
		s.doc.Line(x+pad+54, at+10.5, x+width-pad, at+10.5)
		at += 16
	}
	at += 3
	many := fmt.Sprintf("%d %ss", how.Usual, how.What)
	if how.Least < how.Usual {
		many = fmt.Sprintf("%d to %d %ss", how.Least, how.Usual, how.What)
	}
	write(many+" from all over the lot, in one bag, sealed, cool.", family, "", 8, 10, quiet)
	write(askFor, family, "", 8, 10, quiet)
	if stored == storage.SilageStock {
		write("Sample the loader's heap: the face can fall and bury you.", family, "B", 8, 10, ink)
	}
	return nil
}
