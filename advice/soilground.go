package advice

import (
	"fmt"
	"strings"

	"haywarden/agronomy/soil"
	"haywarden/agronomy/source"
	"haywarden/outlook"
)

// testGround is a soil test as a figure that advice rests on: values with their extractants, never turned.
func testGround(t *outlook.SoilTested) Ground {
	var said []string
	if t.PH != 0 {
		said = append(said, fmt.Sprintf("pH %.1f", t.PH))
	}
	if t.Buffer != 0 {
		said = append(said, fmt.Sprintf("%s buffer pH %.1f", bufferName(string(t.BufferBy)), t.Buffer))
	}
	if t.P != nil {
		said = append(said, fmt.Sprintf("P %.0f ppm by %s", t.P.PPM(), spelled(string(t.P.By))))
	}
	if t.K != nil {
		said = append(said, fmt.Sprintf("K %.0f ppm by %s", t.K.PPM(), spelled(string(t.K.By))))
	}
	if t.CEC != 0 {
		said = append(said, fmt.Sprintf("exchange capacity %.0f meq/100 g", float64(t.CEC)))
	}
	how := "as the laboratory printed it"
	if t.Lab != "" {
		how = "as " + t.Lab + " printed it"
	}
	if t.DepthIn != 0 {
		how += fmt.Sprintf(", sampled to %g in", t.DepthIn)
	}
	if t.Parts > 1 {
		how += fmt.Sprintf(", the mean of %s parts", Count(t.Parts))
	}
	return Ground{What: fmt.Sprintf("Soil test of %s %d", Short(t.Day), t.Day.Year()), Value: strings.Join(said, ", "), How: how, Sources: []source.ID{source.SoilEvery}}
}

// spelled writes the name of an extractant as it is read.
func spelled(by string) string {
	return strings.NewReplacer("bray-p1", "Bray P1", "mehlich-3-color", "Mehlich 3, read by color", "mehlich-3", "Mehlich 3", "olsen", "Olsen", "ammonium-acetate", "ammonium acetate").Replace(by)
}

// bufferName writes the name of a buffer as it is read.
func bufferName(by string) string {
	if by == "smp" {
		return "SMP"
	}
	return Capital(by)
}

// ledgerGround is what years took and gave, by a printed table, and how far the tests ought to have moved.
func ledgerGround(l soil.Ledger, by soil.Book) Ground {
	g := Ground{
		What: "Taken and given since", Value: fmt.Sprintf("%.0f lb of P2O5 and %.0f of K2O taken an acre, %.0f and %.0f given", l.Removed.P2O5, l.Removed.K2O, l.Given.P2O5, l.Given.K2O),
		How: "recorded cuts by " + tableOf(by) + " or the field's own forage tests, less what was spread", Sources: []source.ID{by.Source, source.RemovalAnalysis},
	}
	if l.MovementUnknown == "" {
		g.Value += fmt.Sprintf("; the tests ought to have moved by %+.0f ppm of P and %+.0f of K", l.MovedP, l.MovedK)
		g.How += ", and what moves a test by the guide; only a new test settles it"
		g.Sources = append(g.Sources, source.SoilIllinois, source.SoilTriStateRest)
	} else {
		g.How += "; how far that moves a test is not said: " + l.MovementUnknown
	}
	return g
}

// removalBook is the printed table that says what a stand's crops take away.
func removalBook(s *outlook.Stand, o *outlook.Outlook) soil.Book {
	t, _ := s.YearTakes(o.GuidesOf(s).Removal)
	return t.Book
}

// tableOf names a printed table of removal as people say it.
func tableOf(b soil.Book) string {
	switch b.Name {
	case "ipni":
		return "the North-Central region's table"
	case "ppi":
		return "the potash institute's table"
	}
	words := strings.Split(b.Name, "-")
	for i, w := range words {
		words[i] = Capital(w)
	}
	return strings.Join(words, " ") + "'s table"
}
