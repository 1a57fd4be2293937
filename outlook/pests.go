package outlook

import (
	"math"
	"slices"

	"haywarden/agronomy/count"
	"haywarden/agronomy/pest"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Scouted is the newest count of a pest in the growth that stands.
type Scouted struct {
	Pest     string
	Day      unit.Day
	Observer string
	Samples  int
	Size     float64 // of a sample: stems, sweeps
	Unit     string
	Mean     float64 // a stem, a sweep, a square foot
	SD       float64 // between samples, of the same; NaN of one sample
	Low      float64 // 95 % interval of the mean
	High     float64
	Growth   float64 // height of growth that day, in; NaN where neither read nor to be told
	Guessed  bool    // the height was told by heat or days, not read
	Bloom    bool    // crop or weeds were seen in bloom
	spread   count.Interval
	alone    count.Rate
}

// Scouted finds the newest count of a pest in this growth; nil where there is none.
func (s *Stand) Scouted(name string) *Scouted {
	for _, v := range slices.Backward(s.Visits) {
		if !s.Growth.Holds(v.Day) {
			break
		}
		for _, p := range v.Body.Pests {
			if p.Pest == name {
				return s.scouted(v, p)
			}
		}
	}
	return nil
}

// inBloom is the share of stems in bloom, %, from which bees come and nothing is sprayed (choice: any).
const inBloom = 0

func (s *Stand) scouted(v book.Dated[book.Visit], p book.Pests) *Scouted {
	k, _ := book.PestKindOf(p.Pest)
	out := &Scouted{Pest: p.Pest, Day: v.Day, Observer: v.Author, Samples: len(p.Counts), Size: p.Size, Unit: k.Unit}
	out.Bloom = v.Body.WeedsBloom || v.Body.Bloom != nil && *v.Body.Bloom > inBloom
	for _, sp := range v.Body.Spots {
		out.Bloom = out.Bloom || sp.Stage == book.Flower
	}
	per := make([]float64, len(p.Counts))
	for i, n := range p.Counts {
		per[i] = n / p.Size
	}
	// Checked when they were recorded: finite, whole and not below 0.
	out.spread, _ = count.Means(per)
	out.alone, _ = count.Totals(p.Counts)
	out.Mean, out.SD = out.spread.Mean, out.spread.SD
	if out.spread.Known() && out.SD > 0 {
		out.Low, out.High = max(0, out.spread.Low), out.spread.High
	} else {
		out.Low, out.High = out.alone.Low/p.Size, out.alone.High/p.Size
	}
	var read bool
	if out.Growth, read = Tallest(v.Body); !read {
		out.Growth, out.Guessed = s.heightOn(v.Day), true
	}
	return out
}

const (
	inchADay    = 1.0 // growth after a cut (choice)
	tallestGrow = 36.0
)

// heightOn is how tall a growth is taken to stand where nobody read it, in: first growth by heat, later
// ones an inch a day; NaN where neither can be told.
func (s *Stand) heightOn(d unit.Day) float64 {
	switch {
	case s.Growth.After:
		return min(tallestGrow, max(1, inchADay*float64(d-s.Growth.Since)))
	case s.Sky != nil && !s.SeedingYear():
		return max(1, regrowth.HeightByHeat(s.Sky.Heat41.On(d-1)))
	}
	return math.NaN()
}

// ChanceOver is the chance that the field is over a threshold of the pest, by the spread of the samples;
// of one sample, or of samples all alike, by chance alone, which is the least that it can be.
func (c *Scouted) ChanceOver(threshold float64) float64 {
	if c.spread.Known() && c.SD > 0 {
		return 1 - c.spread.ChanceBelow(threshold)
	}
	return 1 - c.alone.ChanceBelow(threshold*c.Size)
}

// Sure is the chance from which a count is taken to be over a threshold; as far from it, under (choice).
const Sure = 0.8

// Stands says where a count stands against a threshold, its own spread weighed.
func (c *Scouted) Stands(threshold float64) pest.Verdict {
	switch p := c.ChanceOver(threshold); {
	case p >= Sure:
		return pest.Over
	case p <= 1-Sure:
		return pest.Under
	}
	return pest.Near
}

// HopperSeason is when leafhoppers are looked for in the growth that stands: from the window in which
// they arrive, and a week after the last cut. Not ok out of season and in growth that they seldom harm:
// red clover, which is hairy, and the first growth of an old stand.
func (s *Stand) HopperSeason(guide string) (from unit.Day, arrives [2]unit.Day, of string, ok bool) {
	if s.Judged() == Clover || s.Growth.Number < 2 && !s.SeedingYear() {
		return 0, arrives, "", false
	}
	early, late, of := pest.ArrivalIn(guide, s.Date.Year())
	from = early
	if s.Growth.After {
		from = max(from, s.Growth.Since+pest.HopperFirstLook)
	}
	return from, [2]unit.Day{early, late}, of, s.Date.Month() <= pest.HopperLast
}

// Reentry is a spraying that still keeps the mower, animals or people out.
type Reentry struct {
	book.Dated[book.Sprayed]
	CutFrom unit.Day // first day on which it may be cut, grazed or fed
}

// Sprayed finds the spraying that keeps the stand from being cut for longest; nil where none does.
func (s *Stand) SprayedStill() *Reentry {
	var out *Reentry
	for _, d := range s.Sprayed {
		from := d.Day + unit.Day(math.Ceil(d.Body.PHIDays))
		if from > s.Date && (out == nil || from > out.CutFrom) {
			out = &Reentry{d, from}
		}
	}
	return out
}

// PestLoss is what a pest takes and what stands against it: made for the cut plan, which may be made with
// and without a treatment, and for the decisions.
type PestLoss struct {
	Scouted *Scouted
	pest.Chosen
	PerDay       float64            // tons/ac lost each day until the cut, taken evenly (choice)
	Chance       float64            // that the field is over the threshold
	Product      *book.SprayProduct // of the user's own list; nil where none is entered against it
	BlockedUntil unit.Day           // a spray today would keep the mower out until then; 0 without a product
	Money        pest.Money
	Line         string // price lines that the threshold rests on; empty where it knows no price
}

// Pest weighs a count of weevil or leafhopper for a cut planned on a day; not ok where none was made in
// this growth or its height cannot be told.
func (o *Outlook) Pest(s *Stand, which pest.Pest, cut unit.Day) (PestLoss, bool) {
	seen := s.Scouted(string(which))
	if seen == nil || math.IsNaN(seen.Growth) {
		return PestLoss{}, false
	}
	out := PestLoss{Scouted: seen}
	days := float64(max(0, cut-s.Date))
	out.Product = o.productAgainst(s, string(which))
	c := pest.Case{
		Pest: which, Count: seen.Mean, HeightIn: max(1, seen.Growth), DaysToCut: days, Bloom: seen.Bloom,
		Stand: pest.Stand{Resistant: s.Hairy, SeedingYear: s.SeedingYear()},
	}
	if p := out.Product; p != nil {
		c.PHI, c.Confirmed = p.PHIDays, p.Confirmed(s.Crop, s.Date)
		out.BlockedUntil = s.Date + unit.Day(math.Ceil(p.PHIDays))
	}
	out.Money, out.Line = o.pestMoney(s, out.Product)
	c.Money = out.Money
	w := pest.PublishedWeights()
	at, _, _ := w.Threshold(c)
	out.Chance = seen.ChanceOver(at)
	c.Standing = seen.Stands(at)
	got, err := w.Choose(c)
	if err != nil {
		return PestLoss{}, false // a count beyond what the tables speak of
	}
	out.Chosen = got
	if days > 0 {
		out.PerDay = got.Loss / days
	}
	return out, true
}

// productAgainst is the entry that blocks least: one whose label was read this year for the crop, then
// the fewest days to harvest. It is no choice of a product.
func (o *Outlook) productAgainst(s *Stand, name string) *book.SprayProduct {
	var best *book.SprayProduct
	for _, p := range o.View.SprayProducts(s.Farm) {
		if !slices.Contains(p.Against, name) {
			continue
		}
		read := p.Confirmed(s.Crop, s.Date)
		if best == nil || read && !best.Confirmed(s.Crop, s.Date) || read == best.Confirmed(s.Crop, s.Date) && p.PHIDays < best.PHIDays {
			best = &p
		}
	}
	return best
}

// pestMoney is the worth of hay and the cost of a treatment: the product's own, else the deck's.
func (o *Outlook) pestMoney(s *Stand, p *book.SprayProduct) (pest.Money, string) {
	hay, ok := o.View.Price(s.Farm, book.HayBase)
	if !ok {
		return pest.Money{}, ""
	}
	if p != nil && p.Cost > 0 {
		return pest.Money{Hay: hay.Value, Cost: p.Cost}, hay.Deck + ", " + hay.Name + "; cost as entered with the product"
	}
	cost, ok := o.View.Price(s.Farm, book.Spray)
	if !ok {
		return pest.Money{}, ""
	}
	return pest.Money{Hay: hay.Value, Cost: cost.Value}, hay.Deck + ", " + hay.Name + "; " + cost.Deck + ", " + cost.Name
}

// WeevilSeen is the most of weevil that was seen in a year: 0 where none was, or none was looked for.
type WeevilSeen struct {
	Tips, Larvae     float64 // % of stems fed on; larvae a stem
	TipsOn, LarvaeOn unit.Day
}

// WeevilSeen gathers what visits of this year found of weevil.
func (s *Stand) WeevilSeen() (w WeevilSeen) {
	for _, v := range s.Visits {
		if v.Day.Year() != s.Date.Year() {
			continue
		}
		if t := v.Body.WeevilTips; t != nil && *t >= w.Tips {
			w.Tips, w.TipsOn = *t, v.Day
		}
		for _, p := range v.Body.Pests {
			if n := s.scouted(v, p).Mean; p.Pest == string(pest.AlfalfaWeevil) && n >= w.Larvae {
				w.Larvae, w.LarvaeOn = n, v.Day
			}
		}
	}
	return w
}
