package book

import (
	"errors"
	"fmt"
	"slices"
)

// Check implements [Body].
func (b Farm) Check() error {
	return errors.Join(named("farm name", b.Name), position(b.Latitude, b.Longitude))
}

// Check implements [Body].
func (b Contact) Check() error { return named("contact name", b.Name) }

// Check implements [Body].
func (b Consent) Check() error {
	return oneOf("use", b.Use, []string{"service", "aggregate", "bulletin", "research", "contact"})
}

// Check implements [Body].
func (b Field) Check() error {
	return errors.Join(named("field name", b.Name), within("acres", b.Acres, 0.1, 2000, "acres"), position(b.Latitude, b.Longitude))
}

// Check implements [Body].
func (b Stand) Check() error {
	errs := []error{named("field", b.Field), oneOf("crop", b.Crop, Crops()), within("grass share", b.GrassShare, 0, 1, "(a share of the dry matter)")}
	if b.Product != "" {
		errs = append(errs, oneOf("product", b.Product, Products()))
	}
	if b.FeedRFV != 0 {
		errs = append(errs, within("RFV wanted when fed", b.FeedRFV, 80, 220, "points"))
	}
	if b.Seeded < EarliestSeeding {
		errs = append(errs, fmt.Errorf("seeded %s: accepted from %s", b.Seeded, EarliestSeeding))
	}
	if b.TurnedUnder != nil && *b.TurnedUnder < b.Seeded {
		errs = append(errs, fmt.Errorf("turned under %s, before it was seeded on %s", *b.TurnedUnder, b.Seeded))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b Visit) Check() error {
	var errs []error
	for i, s := range b.Spots {
		at := fmt.Sprintf("spot %d ", i+1)
		errs = append(errs, within(at+"height", s.HeightIn, 4, 60, "inches"), oneOf(at+"stage", s.Stage, Stages()))
	}
	for i, f := range b.Frames {
		at := fmt.Sprintf("frame %d ", i+1)
		errs = append(errs, within(at+"size", f.Ft2, 0.25, 20, "square feet"))
		if f.Stems == nil && f.Plants == nil {
			errs = append(errs, fmt.Errorf("%shas neither stems nor plants", at))
		}
		if f.Stems != nil && f.Ft2 > 0 {
			errs = append(errs, within(at+"stems a square foot", float64(*f.Stems)/f.Ft2, 0, 200, ""))
		}
		if f.Plants != nil && f.Ft2 > 0 {
			errs = append(errs, within(at+"plants a square foot", float64(*f.Plants)/f.Ft2, 0, 200, ""))
		}
	}
	if r := b.Roots; r != nil && (r.Dug < 1 || r.Dug > 500 || r.Bad < 0 || r.Bad > r.Dug) {
		errs = append(errs, fmt.Errorf("roots: %d bad of %d dug; accepted 1 to 500 dug and no more bad than dug", r.Bad, r.Dug))
	}
	if b.Crowns != nil {
		errs = append(errs, b.Crowns.check())
	}
	if b.Winter != nil {
		errs = append(errs, b.Winter.check())
	}
	if b.Harm != nil {
		errs = append(errs, b.Harm.check())
	}
	if b.GrowthIn != nil {
		errs = append(errs, within("growth", *b.GrowthIn, 0, 60, "inches"))
	}
	if b.Bloom != nil {
		errs = append(errs, within("bloom", *b.Bloom, 0, 100, "% of stems"))
	}
	if b.Grass != nil {
		errs = append(errs, within("grass share", *b.Grass, 0, 1, "(a share of the dry matter)"))
	}
	if b.Tips != "" {
		errs = append(errs, oneOf("growing tips", b.Tips, []Tips{TipsSound, TipsKilled}))
	}
	if b.WeevilTips != nil {
		errs = append(errs, within("tips fed on by weevil", *b.WeevilTips, 0, 100, "% of stems"))
	}
	for _, p := range b.Pests {
		errs = append(errs, p.check())
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b Cut) Check() error {
	errs := []error{within("cut number", float64(b.Number), 1, 9, "")}
	if b.Product != "" {
		errs = append(errs, oneOf("product", b.Product, Products()))
	}
	if b.TonsDM != nil {
		errs = append(errs, within("yield", *b.TonsDM, 0, 8, "tons of dry matter an acre in one cut"))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b Station) Check() error {
	return errors.Join(named("station id", b.ID), named("station name", b.Name), position(b.Latitude, b.Longitude))
}

// mostLocal is how far a field may lie from its stations, F (choice): the coldest hollows are some 15 F
// colder on a clear night, and a mean over all nights is less.
const mostLocal = 15

// Check implements [Body].
func (b FieldWeather) Check() error {
	errs := []error{
		within("difference of the highest temperature", b.MaxF, -mostLocal, mostLocal, "F"),
		within("difference of the lowest temperature", b.MinF, -mostLocal, mostLocal, "F"),
		within("days of readings", float64(b.Days), 0, 100000, ""),
	}
	for i, id := range b.Stations {
		errs = append(errs, named("station", id))
		if slices.Contains(b.Stations[:i], id) {
			errs = append(errs, fmt.Errorf("station %s is given twice", id))
		}
	}
	if b.Height != nil {
		errs = append(errs, within("height above the sea", *b.Height, -100, 4500, "m"))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b Prices) Check() error {
	errs := []error{named("price deck name", b.Name)}
	if len(b.Lines) == 0 {
		errs = append(errs, errors.New("a price deck without a line"))
	}
	for _, l := range b.Lines {
		errs = append(errs, named("price name", l.Name), within(l.Name, l.Value, 0, 100000, l.Unit))
	}
	return errors.Join(errs...)
}

// Check implements [Body].
func (b Call) Check() error { return named("what was said", b.Said) }

// Check implements [Body].
func (b Event) Check() error {
	return errors.Join(named("title", b.Title), within("people", float64(b.People), 0, 100000, ""))
}

// Check implements [Body].
func (b Advice) Check() error {
	return errors.Join(named("decision", b.Decision), named("sentence", b.Sentence), named("made from", b.MadeFrom))
}

// Check implements [Body].
func (b Outcome) Check() error {
	return errors.Join(named("advice", b.Advice), oneOf("taken", b.Taken, []string{"yes", "no", "partly"}))
}

// Check implements [Body].
func (b Place) Check() error { return errors.Join(named("region", b.Region), named("guide", b.Guide)) }

// Check implements [Body].
func (b Withdrawn) Check() error { return named("why", b.Why) }
