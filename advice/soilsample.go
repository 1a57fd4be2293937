package advice

import (
	"fmt"
	"time"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// A field is sampled again from its third year on, in its fourth at the latest ([source.SoilEvery]), in
// spring before growth or from late summer until the ground freezes (choice).
const sampleFrom = 3

// SoilSample says that a field's soil is to be sampled: its test is three years old, or there is none where
// others of the book have one.
func SoilSample(s *outlook.Stand, o *outlook.Outlook) *Piece {
	last, open := samplingSeason(s.Date)
	if !open || !o.TestsSoil {
		return nil
	}
	p := &Piece{Decision: "soil-sample", Stand: s, Urgency: Watch, Errand: true, Title: "Sample the soil"}
	t := s.SoilFound()
	switch {
	case t == nil:
		p.Sentence = "No soil test of this field is in the book: what it wants of lime and potash nobody knows."
	case s.Date < yearsOn(t.Day, sampleFrom):
		return nil
	default:
		age := "three years old and falls due"
		if t.Old(s.Date) {
			age = fmt.Sprintf("over %s years old: it says nothing of today", Count(outlook.SoilHolds))
		}
		p.Sentence = fmt.Sprintf("The soil test of %s %d is %s.", Short(t.Day), t.Day.Year(), age)
		p.Grounds = append(p.Grounds, testGround(t))
		if l, ok := o.Ledger(s, t.Day); ok {
			p.Sentence += fmt.Sprintf(" The cuts since then that are in the book took %.0f lb of potash an acre, and %.0f were given back.", l.Removed.K2O, l.Given.K2O)
			p.Grounds = append(p.Grounds, ledgerGround(l, removalBook(s, o)))
		}
	}
	p.Window = &Window{Early: s.Date, Middle: s.Date, Late: last, Best: s.Date, Means: "ground open, at the season of the test before", Firm: true}
	p.Measure = "pH, buffer pH, phosphorus, potassium and exchange capacity, of each part of the field that differs, to the depth of the laboratory's guide"
	p.Worth.Text = "Lime and potash of the next years rest on it."
	p.Grounds = append(p.Grounds, Ground{
		What: "How often", Value: "every 3 to 4 years", How: "the same season each time, by the same laboratory", Sources: []source.ID{source.SoilEvery},
	})
	return p
}

// samplingSeason is the last day of the season for sampling that a day lies in; not open outside.
func samplingSeason(d unit.Day) (last unit.Day, open bool) {
	for _, season := range [][2]unit.Day{
		{unit.DateOf(d.Year(), time.March, 20), unit.DateOf(d.Year(), time.April, 30)},
		{unit.DateOf(d.Year(), time.August, 20), unit.DateOf(d.Year(), time.November, 15)},
	} {
		if season[0] <= d && d <= season[1] {
			return season[1], true
		}
	}
	return 0, false
}

// yearsOn is a day so many years later.
func yearsOn(d unit.Day, years int) unit.Day {
	t := d.Time()
	return unit.DayOf(t.AddDate(years, 0, 0))
}
