package outlook

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"haywarden/agronomy/seeding"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Planned is a seeding that is still ahead, with when it may be sown and what stood there before.
type Planned struct {
	Plan  book.Dated[book.SeedingPlan]
	Acres float64
	// Window is when to sow: by the station's own freezes where FromFreezes, else by the calendar.
	Window      seeding.Window
	FromFreezes bool
	// Freeze and Tenth are, for late summer, the middle date of the killing freeze and the date by which it has
	// come in one year of ten; for spring Freeze is the date after which 26 F comes in one year of ten.
	Freeze, Tenth unit.Day
	Calendar      seeding.Calendar
	Before        seeding.AlfalfaBefore
}

// SowsAlfalfa reports whether the plan sows alfalfa.
func (p *Planned) SowsAlfalfa() bool {
	for _, o := range p.Plan.Body.Offers {
		if o.Species == "alfalfa" {
			return true
		}
	}
	return false
}

// Spring reports whether the seed goes into the ground in spring.
func (p *Planned) Spring() bool { return p.Plan.Body.Season == book.SpringSeeding }

// OrderBy is the day by which the plan's seed is ordered.
func (p *Planned) OrderBy() unit.Day { return p.Window.Early - orderAhead }

const (
	orderAhead    = 42 // days before sowing by which seed is ordered, [source.SeedOrder]
	emergenceDays = 10 // from sowing to emergence: the usual figure of the last day to sow (choice)
	openAfter     = 14 // days after its window in which a plan is still told (choice)
)

// plansOf lists the plans of a field that are still ahead: the newest of each season and year, not yet sown and
// not past.
func (o *Outlook) plansOf(f *book.FieldView) []Planned {
	type when struct {
		year   int
		season string
	}
	newest := map[when]int{}
	for i, s := range f.Planned {
		newest[when{s.Body.Year, s.Body.Season}] = i
	}
	var out []Planned
	for i, s := range f.Planned {
		if newest[when{s.Body.Year, s.Body.Season}] != i || sown(f, s.Body) {
			continue
		}
		p := Planned{Plan: s, Acres: s.Body.Acres, Calendar: seeding.CalendarOf(o.Guide)}
		if p.Acres == 0 {
			p.Acres = f.Acres
		}
		p.window(o.Skies[f.WeatherKey()])
		if o.Date > p.Window.Late+openAfter {
			continue
		}
		p.Before = alfalfaBefore(f, s.Body, o.Date, p.Window.Best)
		out = append(out, p)
	}
	return out
}

// sown reports whether the book holds a stand that came of the plan.
func sown(f *book.FieldView, b book.SeedingPlan) bool {
	from, to := unit.DateOf(b.Year, time.January, 1), unit.DateOf(b.Year, time.June, 30)
	if b.Season == book.LateSummerSeeding {
		from, to = to+1, unit.DateOf(b.Year, time.December, 31)
	}
	for _, s := range f.Stands {
		if s.Seeded >= from && s.Seeded <= to {
			return true
		}
	}
	return false
}

// window sets when the plan may be sown.
func (p *Planned) window(sky *Sky) {
	year, c := p.Plan.Body.Year, p.Calendar
	if p.Spring() {
		p.Window = seeding.Window{Early: c.SpringFrom.In(year), Best: c.SpringFrom.In(year), Late: c.SpringTo.In(year)}
		if sky == nil {
			return
		}
		if last, ok := sky.Spring26.On(0.9, year); ok {
			if first := seeding.Spring(last, emergenceDays); first < p.Window.Late {
				p.FromFreezes, p.Freeze = true, last
				p.Window.Early, p.Window.Best = first, first
			}
		}
		return
	}
	p.Window = seeding.Window{Early: c.LateFrom.In(year), Best: c.LateFrom.In(year), Late: c.LateTo.In(year)}
	if sky == nil {
		return
	}
	middle, ok1 := sky.Fall24.On(0.5, year)
	tenth, ok2 := sky.Fall24.On(0.1, year)
	if !ok1 || !ok2 {
		return
	}
	if w, ok := seeding.PublishedGrowing().LateSummer(middle, tenth, emergenceDays); ok {
		p.Window, p.FromFreezes, p.Freeze, p.Tenth = w, true, middle, tenth
	}
}

const daysYear, daysMonth = 365.25, 365.25 / 12

// alfalfaBefore is the alfalfa that stood in the field last. One that still grows and is not sown into is taken
// to be killed now.
func alfalfaBefore(f *book.FieldView, b book.SeedingPlan, today, sow unit.Day) seeding.AlfalfaBefore {
	var out seeding.AlfalfaBefore
	latest := unit.Day(math.MinInt32)
	for _, s := range f.Stands {
		if s.Crop == book.RedClover || s.Seeded > today {
			continue
		}
		end, growing := today, true
		if s.TurnedUnder != nil && *s.TurnedUnder <= today {
			end, growing = *s.TurnedUnder, false
		}
		if end < latest {
			continue
		}
		latest = end
		out = seeding.AlfalfaBefore{
			Stood: true, Standing: growing && b.Into,
			Age: float64(end-s.Seeded) / daysYear, Gone: max(0, float64(sow-end)) / daysMonth,
		}
	}
	return out
}

// planned tells the plans of each field with its newest stand, and lists in Stored those stands that grow no
// more, as a field without a stand of its own has nobody else to tell them.
func (o *Outlook) planned() error {
	host := map[*book.FieldView]*Stand{}
	for _, list := range [][]*Stand{o.Stored, o.Stands} {
		for _, s := range list {
			if h := host[s.InField]; h == nil || h.Seeded <= s.Seeded {
				host[s.InField] = s
			}
		}
	}
	for _, f := range o.View.Farms {
		for _, fd := range f.Fields {
			if len(fd.Planned) == 0 {
				continue
			}
			plans := o.plansOf(fd)
			if len(plans) == 0 {
				continue
			}
			s := host[fd]
			if s == nil {
				var err error
				if s, err = o.bare(fd, plans[0]); err != nil {
					return err
				}
				o.Stored = append(o.Stored, s)
			}
			s.Plans = plans
		}
	}
	return nil
}

// bare is the field itself where no stand grows in it or is stored from it: its last stand, or one that is
// only planned.
func (o *Outlook) bare(f *book.FieldView, p Planned) (*Stand, error) {
	for _, s := range slices.Backward(f.Stands) {
		if s.Seeded <= o.Date {
			return o.stand(s)
		}
	}
	return o.stand(&book.StandView{
		ID: f.ID, Stand: book.Stand{Field: f.ID, Crop: p.Plan.Body.Crop, Seeded: p.Window.Best}, Farm: f.Farm, InField: f,
	})
}

// SeedLot is the lot of a species that the plan is to be sown with: the one whose live seed costs least where
// several compete.
type SeedLot struct {
	Offer  book.SeedOffer
	Pure   float64        // lb of pure live seed for the field
	Bought seeding.Bought // meaningless where the tag is not Known
	Known  bool
	Others []string // the lots side by side, in words; none where there is one
}

// Named is the lot as people call it.
func (l SeedLot) Named() string {
	name := strings.ReplaceAll(l.Offer.Species, "-", " ")
	if l.Offer.Variety != "" {
		name += " " + l.Offer.Variety
	}
	return name
}

// Reckon writes the lot as the reckoning takes it.
func (l SeedLot) Reckon(acres float64) string {
	lot := l.Bought.Lot
	var text strings.Builder
	fmt.Fprintf(&text, "seed-lots species=%s goal=%.4f acres=%g purity=%g germination=%g", l.Offer.Species, l.live(), acres, float64(lot.Purity), float64(lot.Germination))
	for _, v := range []struct {
		key   string
		value float64
	}{{"hard", float64(lot.Hard)}, {"coating", float64(lot.Coating)}, {"seeds_per_lb", l.Offer.SeedsPerLb}, {"price", l.Offer.PriceLb}, {"bag", l.Offer.BagLb}} {
		if v.value > 0 {
			fmt.Fprintf(&text, " %s=%g", v.key, v.value)
		}
	}
	return text.String()
}

// live is the goal in live seeds a square foot; 0 for a species that is not known.
func (l SeedLot) live() float64 {
	known, err := seeding.SpeciesNamed(l.Offer.Species)
	if err != nil {
		return 0
	}
	return l.Offer.PureLb * float64(known.SeedsPerLb) / sqFeetAcre
}

const sqFeetAcre = 43560

// usualBag is a bag of forage seed where none is told, lb.
const usualBag = 50

// Seed chooses a lot for each species of the plan.
func (p *Planned) Seed() []SeedLot {
	var order []string
	by := map[string][]book.SeedOffer{}
	for _, o := range p.Plan.Body.Offers {
		if by[o.Species] == nil {
			order = append(order, o.Species)
		}
		by[o.Species] = append(by[o.Species], o)
	}
	var out []SeedLot
	for _, species := range order {
		out = append(out, p.choose(species, by[species]))
	}
	return out
}

func (p *Planned) choose(species string, offers []book.SeedOffer) SeedLot {
	l := SeedLot{Offer: offers[0], Pure: offers[0].PureLb * p.Acres}
	known, err := seeding.SpeciesNamed(species)
	if err != nil {
		return l
	}
	var tagged []seeding.Offer
	var told []book.SeedOffer
	for _, o := range offers {
		if o.Tagged() {
			tagged = append(tagged, offerOf(o, known))
			told = append(told, o)
		}
	}
	// Pounds of pure live seed are live seeds by the species' usual count, the same for all lots.
	goal := unit.PerFt2(l.live())
	list, err := seeding.Buy(seeding.Need{Live: goal, Acres: p.Acres}, tagged)
	if err != nil || len(list) == 0 {
		return l
	}
	best := 0
	for i, b := range list {
		if b.Million < list[best].Million || math.IsNaN(list[best].Million) && !math.IsNaN(b.Million) {
			best = i
		}
		if len(list) > 1 {
			l.Others = append(l.Others, lotSaid(b, told[i]))
		}
	}
	l.Offer, l.Bought, l.Known = told[best], list[best], true
	return l
}

func lotSaid(b seeding.Bought, o book.SeedOffer) string {
	name := o.Variety
	if name == "" {
		name = "a lot"
	}
	if math.IsNaN(b.Million) {
		return fmt.Sprintf("%s %.0f lb, no price", name, b.Pounds)
	}
	return fmt.Sprintf("%s %.0f lb, $%.2f a million live seeds", name, b.Pounds, b.Million)
}

func offerOf(o book.SeedOffer, known seeding.Species) seeding.Offer {
	lot := seeding.Lot{SeedsPerLb: known.SeedsPerLb, Purity: unit.Share(*o.Purity), Germination: unit.Share(*o.Germination), HardCounts: 1}
	if o.SeedsPerLb > 0 {
		lot.SeedsPerLb = unit.SeedsPound(o.SeedsPerLb)
	}
	if o.Hard != nil {
		lot.Hard = unit.Share(*o.Hard)
	}
	if o.Coating != nil {
		lot.Coating = unit.Share(*o.Coating)
	}
	bag := o.BagLb
	if bag == 0 {
		bag = usualBag
	}
	return seeding.Offer{Name: o.Variety, Lot: lot, Price: o.PriceLb, BagLb: bag}
}

// LivePlanned is how many live alfalfa seeds a square foot are to be sown; 0 where none are.
func (p *Planned) LivePlanned() float64 {
	for _, o := range p.Plan.Body.Offers {
		if o.Species == "alfalfa" {
			return SeedLot{Offer: o}.live()
		}
	}
	return 0
}
