package outlook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/stand"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Outlook is everything advice is made from on a date.
type Outlook struct {
	Date   unit.Day
	View   *book.View
	Skies  map[string]*Sky // by [book.FieldView.WeatherKey]
	Stands []*Stand        // every growing stand, by farm and field
	// Stored are stands that grow no more, whose hay is still under watch or whose field is to be sown anew.
	Stored []*Stand
	// Farms is the feed of every farm that told of its herd or its stores, by name; filled in after the
	// stands are built, since what a herd needs is reckoned above this room.
	Farms []*Farm
	// Guide is the state whose published tables are used.
	Guide string
	// Reconciled is the stick held against the laboratory, by farm and cutting, and Shared how far the errors
	// of stick and heat go together.
	Reconciled forage.Reconciled
	Shared     forage.SharedErrors
	// TestsSoil is whether the book holds a soil test of any field: where it holds none, nobody is told that
	// theirs is missing.
	TestsSoil bool
}

const (
	defaultFeedRFV = 150 // milking cows, [source.RuleFirstCut170]
	defaultGuide   = "Wisconsin"
	staleDays      = 4 // a record that ended longer ago than this is said to be old
)

// Build makes the outlook of a view. skies holds each station's record as of the view's date.
func Build(v *book.View, skies map[string]*Sky) (*Outlook, error) {
	o := &Outlook{Date: v.Date, View: v, Skies: skies, Guide: v.Place.Guide}
	if o.Guide == "" {
		o.Guide = defaultGuide
	}
	o.TestsSoil = slices.ContainsFunc(v.Farms, func(f *book.FarmView) bool {
		return slices.ContainsFunc(f.Fields, func(fd *book.FieldView) bool { return len(fd.SoilTests) > 0 })
	})
	for _, sv := range v.Stands() {
		s, err := o.stand(sv)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", sv.Named(), err)
		}
		o.Stands = append(o.Stands, s)
	}
	t, err := o.learn()
	if err != nil {
		return nil, err
	}
	for _, s := range o.Stands {
		if err := s.judgeStanding(t); err != nil {
			return nil, fmt.Errorf("%s: %w", s.Named(), err)
		}
	}
	o.borrow()
	if err := o.findStored(); err != nil {
		return nil, err
	}
	return o, o.planned()
}

// findStored finds the hay of stands that were turned under: it heats whatever became of the field.
func (o *Outlook) findStored() error {
	for _, f := range o.View.Farms {
		for _, fd := range f.Fields {
			for _, sv := range fd.Stands {
				if sv.Growing(o.Date) || len(sv.Stacks) == 0 {
					continue
				}
				s, err := o.stand(sv)
				if err != nil {
					return fmt.Errorf("%s: %w", sv.Named(), err)
				}
				if s.Stack() != nil {
					o.Stored = append(o.Stored, s)
				}
			}
		}
	}
	return nil
}

func (o *Outlook) stand(sv *book.StandView) (*Stand, error) {
	s := &Stand{StandView: sv, Date: o.Date, Year: o.Date.Year() - sv.Seeded.Year()}
	o.findSky(s)
	if d, ok := o.View.Deck(sv.Farm, book.HayBase); ok {
		s.Deck = &d
	}
	s.Lines = o.costLines(sv.Farm)
	target, err := targetOf(sv.Stand)
	if err != nil {
		return nil, err
	}
	s.Target = target
	s.Growth = growthOf(s)
	if err := s.readStems(); err != nil {
		return nil, err
	}
	s.Yield = yieldOf(s)
	s.findFrost()
	if err := s.findWintered(); err != nil {
		return nil, fmt.Errorf("how it wintered: %w", err)
	}
	return s, s.readStick()
}

func (o *Outlook) findSky(s *Stand) {
	id := s.InField.WeatherKey()
	sky := o.Skies[id]
	switch {
	case id == "":
		s.NoSky = "the field has no weather station"
	case sky == nil:
		s.NoSky = fmt.Sprintf("no weather of station %s is in the book", strings.Join(s.InField.WeatherStations(), " or "))
	case !sky.Observed:
		s.NoSky = fmt.Sprintf("station %s has no weather of %d before %s", sky.Station.Name, o.Date.Year(), o.Date)
	default:
		s.Sky = sky
	}
}

// Stale says how many days the stand's weather ends before yesterday, 0 where it is fresh enough.
func (s *Stand) Stale() int {
	if s.Sky == nil {
		return 0
	}
	if gap := int(s.Date - 1 - s.Sky.Through); gap > staleDays {
		return gap
	}
	return 0
}

func targetOf(b book.Stand) (Target, error) {
	t := Target{FeedRFV: b.FeedRFV, Product: b.Product, ProductSaid: b.Product != ""}
	if t.FeedRFV == 0 {
		t.FeedRFV, t.Assumed = defaultFeedRFV, true
	}
	if t.Product == "" {
		t.Product = book.Haylage
	}
	var err error
	if t.Loss, t.LossLow, t.LossHigh, err = forage.HarvestLoss(string(t.Product)); err != nil {
		return Target{}, err
	}
	t.CutRFV = t.FeedRFV + t.Loss
	// Haylage wilts in about a day, baleage in one to two, dry hay in three to five (choice within that).
	t.DryDays = map[book.Product]int{book.Haylage: 1, book.Baleage: 2, book.Hay: 3}[t.Product]
	return t, nil
}

// growthOf counts this year's cuts.
func growthOf(s *Stand) Growth {
	g := Growth{Number: 1, Since: max(marchFirst(s.Date.Year()), s.Seeded)}
	for _, c := range s.Cuts {
		if c.Day.Year() == s.Date.Year() {
			g = Growth{Number: max(g.Number, c.Body.Number) + 1, Since: c.Day, After: true}
		}
	}
	return g
}

// stemWeeks is how long the frames of one count may take: a count that was too uncertain is gone on
// with, not begun anew (choice).
const stemWeeks = 3

// readStems works out the newest stem count of the year, of all frames counted in the three weeks up
// to it and not across a cut, with the newest dig of the year.
func (s *Stand) readStems() error {
	count := &Stems{}
	var perFt2 []float64
	for _, v := range slices.Backward(s.Visits) {
		if v.Day.Year() != s.Date.Year() {
			break
		}
		if count.Roots == nil {
			count.Roots = v.Body.Dig()
		}
		if count.Day != 0 && (count.Day-v.Day > 7*stemWeeks || s.cutBetween(v.Day, count.Day)) {
			continue
		}
		for _, f := range v.Body.Frames {
			if f.Stems != nil {
				perFt2 = append(perFt2, float64(*f.Stems)/f.Ft2)
				count.Day, count.From = max(count.Day, v.Day), v.Day
			}
		}
	}
	if len(perFt2) == 0 {
		return nil
	}
	var err error
	if count.Count, err = stand.AssessStems(perFt2, s.InField.Acres); err != nil {
		return fmt.Errorf("stem count of %s: %w", count.Day, err)
	}
	count.Frames = len(perFt2)
	s.Stems = count
	return nil
}

// cutBetween reports whether the stand was cut from one day on and before another.
func (s *Stand) cutBetween(from, to unit.Day) bool {
	return slices.ContainsFunc(s.Cuts, func(c book.Dated[book.Cut]) bool { return c.Day >= from && c.Day < to })
}

// yieldOf is the stand's yearly and first-cut yield. Where no stems were counted the stand is taken as
// full, and says so.
func yieldOf(s *Stand) Yield {
	y := Yield{DailyGrowth: growthPerDay}
	full := stand.YieldPotential(stand.PublishedStems().Full)
	if s.Stems != nil {
		full, y.StemsKnown = s.Stems.Count.YieldPotential, true
	}
	y.Year = full * stand.YieldByAge(max(1, s.Year))
	if s.Judged() == Clover {
		y.Year = full * cloverShare * stand.CloverByYear(max(1, s.Year))
	}
	y.FirstCut = y.Year * stand.FirstCutShare()
	return y
}

const (
	growthPerDay = 0.05 // tons DM/ac/day near first harvest, [source.GrowthPerDay]
	cloverShare  = 0.85 // red clover against alfalfa (choice)
	topsIn       = 6    // growth from which a spring frost can cost tops, in
	TopsHeat     = 350  // the same by heat where unread, F-days above 41 F (choice)
	lookAfter    = 3    // days after the frost
	heightLasts  = 7    // days for which a height read still says whether there were tops to lose
)

// findFrost finds the newest spring frost that met enough growth to cost tops, before the first cut.
func (s *Stand) findFrost() {
	if s.Sky == nil || s.Growth.Number != 1 || s.SeedingYear() {
		return
	}
	for _, f := range s.Sky.Frosts {
		if f.Day >= s.Growth.Since && s.growthOn(f) {
			s.Frosted = &Frosted{Frost: f, LookFrom: f.Day + lookAfter}
		}
	}
	if s.Frosted == nil {
		return
	}
	for _, v := range s.Visits {
		if v.Day > s.Frosted.Day && v.Body.Tips != "" {
			s.Frosted.Seen, s.Frosted.SeenOn = v.Body.Tips, v.Day
		}
	}
}

// growthOn reports whether the stand had tops to lose on the day of a frost: by the last height read
// before it, carried on by heat, else by heat alone.
func (s *Stand) growthOn(f Frost) bool {
	height := math.NaN()
	for _, v := range s.Visits {
		if v.Day > f.Day || f.Day-v.Day > heightLasts {
			continue
		}
		if tall, ok := Tallest(v.Body); ok {
			since := f.Heat41 - s.Sky.Heat41.On(v.Day)
			height = regrowth.HeightByHeat(regrowth.HeatForHeight(tall) + since)
		}
	}
	if !math.IsNaN(height) {
		return height >= topsIn
	}
	return math.Round(f.Heat41) >= TopsHeat // as shown
}

// Tallest is the height of growth that a visit found, in: the tallest stem of its spots, else what was
// put down for the whole; not ok where it found none.
func Tallest(v book.Visit) (inches float64, ok bool) {
	for _, sp := range v.Spots {
		inches = max(inches, sp.HeightIn)
	}
	if len(v.Spots) == 0 && v.GrowthIn != nil {
		inches = *v.GrowthIn
	}
	return inches, inches > 0
}
