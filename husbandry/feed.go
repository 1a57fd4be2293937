package husbandry

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/source"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/outlook"
)

// Feed works out the feed of every farm that told of its herd or of a store.
func Feed(ctx context.Context, o *outlook.Outlook) ([]*outlook.Farm, error) {
	var farms []*outlook.Farm
	for _, f := range o.View.Farms {
		if len(f.Lots) == 0 {
			continue
		}
		made, err := feedOf(ctx, o.View, f)
		if err != nil {
			return nil, fmt.Errorf("feed of %s: %w", f.Name, err)
		}
		farms = append(farms, made)
	}
	return farms, nil
}

// FeedOf works out the feed of one farm, whatever it told.
func FeedOf(ctx context.Context, o *outlook.Outlook, f *book.FarmView) (*outlook.Farm, error) {
	if made := o.FeedOf(f.ID); made != nil {
		return made, nil
	}
	return feedOf(ctx, o.View, f)
}

func feedOf(ctx context.Context, v *book.View, f *book.FarmView) (*outlook.Farm, error) {
	out := &outlook.Farm{FarmView: f, Date: v.Date, Sources: []source.ID{
		source.WeeksLeft, source.LowCase, source.Allocation, source.BunkerLine, source.SiloTypes, source.HayOutside, source.TowerDensity, source.FaceRate, source.FermentTime,
	}}
	for _, l := range f.Lots {
		lot, err := lotOf(v.Date, f, l)
		if err != nil {
			return nil, fmt.Errorf("lot %s: %w", l.Name, err)
		}
		if lot.Tons.High > emptyTons || lot.Put.Mid == 0 {
			out.Lots = append(out.Lots, lot)
		}
	}
	slices.SortStableFunc(out.Lots, func(a, b *outlook.FeedLot) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Filled, b.Filled))
	})
	out.NextCrop, out.Why = nextCrop(f, v.Date)
	out.Opens = storage.Opens(out.NextCrop)
	for _, l := range out.Lots {
		if l.Put.Mid == 0 {
			out.Lacks = append(out.Lacks, "what is in "+l.Name+": its size and density, its bales and their weight, or its tons")
		}
		if math.IsNaN(l.RFQ) && l.Forage == legumeForage {
			out.Lacks = append(out.Lacks, "a test of "+l.Name+": without one it goes to no group that asks for a quality")
		}
	}
	told, ok := f.Herd()
	switch {
	case len(f.Lots) == 0 && !ok:
		out.None = "Nothing in store and no herd was told of this farm: bring a table of each (haywarden import feed FILE.csv, haywarden import herd FILE.csv)."
		return out, nil
	case !ok:
		out.NoPlan = "No herd was told of this farm, so that nothing is known to eat it: bring its groups with `haywarden import herd FILE.csv`."
		return out, nil
	}
	return out, fillNeed(ctx, v, f, told.Body, out)
}

const noStores = "No feed in store was told of this farm: bring its lots with `haywarden import feed FILE.csv`."

const (
	emptyTons    = 0.05 // less than that is swept up (choice)
	legumeForage = "legume"
	cornForage   = "corn silage"
)

// fillNeed reckons what eats the feed and shares it.
func fillNeed(ctx context.Context, v *book.View, f *book.FarmView, told book.Herd, out *outlook.Farm) error {
	need, err := NeedOf(v, f, Growing{})
	if err != nil {
		return err
	}
	if need.None != "" {
		out.NoPlan = need.None
		return nil
	}
	table, _ := targets(v)
	wastes := map[string]float64{}
	for _, c := range told.Crops {
		wastes[c.Forage] = c.Feeding
	}
	corn := &outlook.FeedClass{Name: cornForage, Floor: math.NaN()}
	for _, g := range need.Groups {
		e := outlook.Eaters{Name: g.Name, Target: g.Target, Floor: math.NaN(), Fat: math.NaN(), Ceiling: math.NaN(), LbDay: g.Legume * poundsATon / daysAYear / (1 - wastes[legumeForage])}
		if t, err := table.For(g.Target); err == nil {
			e.Floor, e.Fat, e.Ceiling = t.RFQ.Low, t.Fat, t.NDF.High
		}
		if i := slices.IndexFunc(told.Groups, func(x book.Group) bool { return x.Name == g.Name }); i >= 0 && math.IsNaN(e.Ceiling) {
			e.Ceiling = orNaN(told.Groups[i].ForageNDF)
		}
		if e.LbDay > 0 {
			out.Groups = append(out.Groups, e)
		}
		if lb := g.Silage * poundsATon / daysAYear / (1 - wastes[cornForage]); lb > 0 {
			corn.LbDay += lb
			corn.Groups = append(corn.Groups, g.Name)
		}
	}
	if len(f.Lots) == 0 {
		out.NoPlan = noStores
		return nil
	}
	slices.SortStableFunc(out.Groups, func(a, b outlook.Eaters) int { return cmp.Compare(asked(b.Floor), asked(a.Floor)) })
	if corn.LbDay > 0 && slices.ContainsFunc(out.Lots, func(l *outlook.FeedLot) bool { return l.Forage == cornForage }) {
		supply(corn, out, cornForage)
		out.Corn = corn
	} else if corn.LbDay > 0 {
		out.Lacks = append(out.Lacks, "the corn silage in store: the herd eats it, and none is entered")
	}
	for _, g := range out.Groups {
		if n := len(out.Classes); n == 0 || asked(out.Classes[n-1].Floor) != asked(g.Floor) {
			out.Classes = append(out.Classes, outlook.FeedClass{Name: className(g.Floor), Floor: g.Floor})
		}
	}
	for i := range out.Classes {
		c := &out.Classes[i]
		for _, g := range out.Groups {
			if asked(g.Floor) >= asked(c.Floor) {
				c.LbDay += g.LbDay
				c.Groups = append(c.Groups, g.Name)
			}
		}
		supply(c, out, legumeForage)
	}
	for _, l := range out.Lots {
		match(l, out.Groups)
	}
	if len(out.Groups) == 0 {
		out.NoPlan = "No group of the herd was told to eat legume forage."
		return nil
	}
	return share(ctx, v, out)
}

// asked is a floor for comparing; no floor is the lowest.
func asked(floor float64) float64 {
	if math.IsNaN(floor) {
		return 0
	}
	return floor
}

func className(floor float64) string {
	if math.IsNaN(floor) {
		return "any hay crop"
	}
	return fmt.Sprintf("RFQ %.0f and over", floor)
}

// supply fills in what there is of a quality and how long it lasts.
func supply(c *outlook.FeedClass, out *outlook.Farm, forage string) {
	for _, l := range out.Lots {
		if l.Forage != forage || !math.IsNaN(c.Floor) && (math.IsNaN(l.RFQ) || math.Round(l.RFQ) < math.Round(c.Floor)) {
			continue
		}
		left := 1 - l.Loss
		c.Supply = losses.Range{Low: c.Supply.Low + left*l.Tons.Low, Mid: c.Supply.Mid + left*l.Tons.Mid, High: c.Supply.High + left*l.Tons.High}
	}
	days := func(tons float64) float64 { return tons * poundsATon / c.LbDay }
	c.Days = losses.Range{Low: days(c.Supply.Low), Mid: days(c.Supply.Mid), High: days(c.Supply.High)}
	c.RunsOut, c.LowOut = after(out.Date, c.Days.Mid), after(out.Date, c.Days.Low)
	c.Gap = round(max(0, float64(out.Opens-out.Date)*c.LbDay/poundsATon-c.Supply.Mid))
}

// farAhead keeps a stock that outlasts everybody from running past the calendar, days (choice).
const farAhead = 3650

func after(date unit.Day, days float64) unit.Day {
	return date + unit.Day(math.Floor(min(days, farAhead)))
}

// nextCrop is the day on which the farm's next crop is expected in store: in summer some weeks after its
// last cut, else by its first cuts in the book.
func nextCrop(f *book.FarmView, date unit.Day) (unit.Day, string) {
	var first []int
	var last unit.Day
	for _, fd := range f.Fields {
		for _, s := range fd.Stands {
			for _, c := range s.Cuts {
				if last = max(last, c.Day); c.Body.Number == 1 {
					first = append(first, c.Day.YearDay())
				}
			}
		}
	}
	usual, why := unit.DateOf(date.Year(), usualMonth, usualDay), "first cuts of a usual year; none of this farm's is in the book"
	if len(first) > 0 {
		slices.Sort(first)
		usual = unit.DateOf(date.Year(), time.January, 1) + unit.Day(first[len(first)/2]-1)
		why = fmt.Sprintf("the middle of its %d first cuts in the book", len(first))
	}
	switch {
	case date < usual && last.Year() < date.Year():
		return usual, why
	case last.Year() == date.Year() && last+betweenCuts < unit.DateOf(date.Year(), time.September, lastSummer):
		return max(date, last+betweenCuts), fmt.Sprintf("%d days after its last cut, on %s", betweenCuts, last)
	}
	next := unit.DateOf(date.Year()+1, time.January, 1) + unit.Day(usual.YearDay()-1)
	if date < usual {
		next = usual
	}
	return next, why
}

// When a crop comes in where the book does not say (choices): first cut on 1 June, later ones 30 days
// apart until mid-September.
const (
	usualMonth, usualDay = time.June, 1
	betweenCuts          = 30
	lastSummer           = 15
)
