package outlook

import (
	"math"
	"slices"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// StandingCP is the protein that a standing crop is taken at, % of dry matter: the book holds none of
// it (choice).
const StandingCP = 20

// Band is the 10, 50 and 90 % of a figure.
type Band struct{ Low, Middle, High float64 }

// Way is one product on its way from the standing crop to the bunk.
type Way struct {
	Product book.Product
	stand   *Stand
}

// Ways are the products in the order of [book.Products], each stored as is most usual: haylage in a
// bunker, hay under a roof, wrapped bales, all fed at a bunk. Nothing where the standing quality is
// not known, or the weather ahead.
func (s *Stand) Ways() []*Way {
	if s.Standing == nil || s.Sky == nil || len(s.Sky.Members) == 0 {
		return nil
	}
	var out []*Way
	for _, p := range book.Products() {
		if _, err := chainOf(p, s.standingFeed(), s.cutTHa(), 0); err != nil {
			return nil // a crop that no chain holds for is not judged by one
		}
		out = append(out, &Way{Product: p, stand: s})
	}
	return out
}

// Way is the way of one product; nil where there is none.
func (s *Stand) Way(p book.Product) *Way {
	for _, w := range s.Ways() {
		if w.Product == p {
			return w
		}
	}
	return nil
}

func (s *Stand) standingFeed() losses.Feed {
	return losses.Feed{DM: 1, Composition: losses.Composition{NDF: s.Standing.NDF, ADF: s.Standing.ADF, CP: StandingCP}}
}

// cutTHa is the dry matter of the cut, t/ha, held to what the rake's table was made for.
func (s *Stand) cutTHa() float64 {
	const tonsAcre = 2.24170 // t/ha of a short ton an acre
	return min(max(s.Yield.FirstCut*tonsAcre, 1), 8)
}

// chainOf is the way of a product without rain, of which the crop breathes so much away (0: not known).
func chainOf(p book.Product, standing losses.Feed, yield, breathed float64) (losses.Chain, error) {
	moisture := float64(CuredAs(p).Moisture())
	h := losses.Harvest{As: losses.Product(p), Moisture: moisture, Breathed: breathed, YieldTHa: yield, Crop: losses.Alfalfa}
	k := storage.Keeping{Wrap: storage.Net, Feeder: storage.FeedBunk}
	switch p {
	case book.Hay:
		h.By, k.Store = losses.Round, string(storage.Inside)
	case book.Baleage:
		h.By, k.Store = losses.Round, string(storage.WrappedBale)
	default:
		k.Store = string(storage.Bunker)
	}
	c, err := losses.Published().Bring(standing, h)
	if err != nil {
		return losses.Chain{}, err
	}
	return storage.Published().ToBunk(c, h.As, moisture, k)
}

// Brought is what a product mown on a day comes to.
type Brought struct {
	Product  book.Product
	Day      unit.Day // mown
	RFV      Band     // at the bunk
	Kept     Band     // dry matter fed, a share of the standing crop's
	NDF, ADF float64  // at the bunk, % of dry matter, means
	CP       float64
	Within   int     // days allowed, the day of mowing being the first
	Clean    float64 // chance that it is made within them without harmful rain
	Hours    float64 // mean from mowing to made, among those
	Rained   float64 // chance of any rain on the swath
	RainMM   float64 // mean of it where there is some
	RainPct  float64 // moisture at which it falls, % of fresh weight, where there is some

	Dry losses.Chain // the way without rain, of a share of 1 of today's standing crop

	paths []fed
}

// fed is one path's feed at the bunk.
type fed struct {
	rfv, kept, weight float64
	path              int
}

// On mows on the ith day from the date. Each path of the standing quality meets the weather of its own
// past year, so that a warm spell both ages and dries the crop. Not ok where a member's days end.
func (w *Way) On(i int) (Brought, bool) {
	s := w.stand
	cures := s.Sky.Cures(i, w.Product, Wide)
	if len(cures) == 0 {
		return Brought{}, false
	}
	b := Brought{Product: w.Product, Day: s.Date + unit.Day(i), Within: MadeWithin(w.Product)}
	b.Clean, b.Hours = s.Sky.CleanChance(i, w.Product, Wide)
	var err error
	if b.Dry, err = chainOf(w.Product, s.standingFeed(), s.cutTHa(), breathedDry(cures)); err != nil {
		return Brought{}, false
	}
	lies := make([]*carrying, len(cures))
	var all, rained float64
	for m, c := range cures {
		if !c.Known {
			continue
		}
		all += c.Weight
		lying := losses.Lying{Breathed: c.Breathed}
		if c.RainMM > 0 {
			moisture := 100 * c.RainDB / (1 + c.RainDB)
			rained += c.Weight
			b.RainMM += c.Weight * c.RainMM
			b.RainPct += c.Weight * moisture
			if lying.Rain, err = losses.Published().Rain.Loss(c.RainMM, moisture, losses.Alfalfa); err != nil {
				return Brought{}, false
			}
		}
		if lies[m], err = b.carrying(s.Standing, lying); err != nil {
			return Brought{}, false // a crop run out of what forage can be
		}
	}
	if all == 0 {
		return Brought{}, false
	}
	b.Rained, b.RainMM, b.RainPct = rained/all, b.RainMM/rained, b.RainPct/rained
	k := forage.PublishedFeedValue()
	room := ErrorSteps * len(cures)
	b.paths = make([]fed, 0, room)
	rfv, kept := make(Sample, 0, room), make(Sample, 0, room)
	var sum float64
	s.eachFibre(i, func(path, member int, standing losses.Composition, weight float64) {
		if !cures[member].Known {
			return
		}
		f := lies[member].of(standing)
		v := k.Of(f.ADF, f.NDF)
		b.paths = append(b.paths, fed{v, f.DM, weight, path})
		rfv.Add(v, weight)
		kept.Add(f.DM, weight)
		sum += weight
		b.NDF += weight * f.NDF
		b.ADF += weight * f.ADF
		b.CP += weight * f.CP
	})
	if len(b.paths) == 0 {
		return Brought{}, false
	}
	b.RFV, b.Kept = bandOf(rfv), bandOf(kept)
	b.NDF, b.ADF, b.CP = b.NDF/sum, b.ADF/sum, b.CP/sum
	return b, true
}

// carrying is what a way does to any standing crop near today's. Each loss takes shares of what stands,
// so that the masses fed follow those standing in straight lines: three crops tell of all.
type carrying struct {
	ndf, adf         float64 // of the crop at which it was taken
	at, byNDF, byADF [4]float64
}

func (b *Brought) carrying(standing *Standing, lying losses.Lying) (*carrying, error) {
	c := &carrying{ndf: standing.NDF, adf: standing.ADF}
	var err error
	masses := func(ndf, adf float64) (m [4]float64) {
		if err != nil {
			return m
		}
		var f losses.Feed
		f, err = b.Dry.Carry(losses.Feed{DM: 1, Composition: losses.Composition{NDF: ndf, ADF: adf, CP: StandingCP}}, lying)
		return [4]float64{f.DM, f.DM * f.NDF, f.DM * f.ADF, f.DM * f.CP}
	}
	c.at = masses(c.ndf, c.adf)
	c.byNDF, c.byADF = masses(c.ndf+1, c.adf), masses(c.ndf, c.adf+1)
	for i, v := range c.at {
		c.byNDF[i] -= v
		c.byADF[i] -= v
	}
	return c, err
}

func (c *carrying) of(standing losses.Composition) losses.Feed {
	n, a := standing.NDF-c.ndf, standing.ADF-c.adf
	m := c.at
	for i := range m {
		m[i] += n*c.byNDF[i] + a*c.byADF[i]
	}
	return losses.Feed{DM: m[0], Composition: losses.Composition{NDF: m[1] / m[0], ADF: m[2] / m[0], CP: m[3] / m[0]}}
}

// breathedDry is the mean share breathed away where no rain falls, else over all weathers; 0 where none is
// known.
func breathedDry(cures []Cured) float64 {
	var dry, all, ofDry, ofAll float64
	for _, c := range cures {
		if !c.Known {
			continue
		}
		all += c.Weight
		ofAll += c.Weight * c.Breathed
		if !(c.RainMM > 0) {
			dry += c.Weight
			ofDry += c.Weight * c.Breathed
		}
	}
	switch {
	case dry > 0:
		return ofDry / dry
	case all > 0:
		return ofAll / all
	}
	return 0
}

func bandOf(s Sample) Band {
	q := s.Quantiles(0.1, 0.5, 0.9)
	return Band{q[0], q[1], q[2]}
}

// eachFibre gives the fibre standing on the ith day from the date on each path, as [Stand.Ahead] runs
// them.
func (s *Stand) eachFibre(i int, do func(path, member int, c losses.Composition, weight float64)) {
	rates := forage.DailyRates(s.Standing.Season)
	shrink := s.shrink()
	for e, z := range standardNormal {
		ndf0, adf0 := s.Standing.NDF+z*shrink*s.Standing.SDNDF, s.Standing.ADF+z*shrink*s.Standing.SDADF
		for m, member := range s.Sky.Members {
			if i >= len(member.scale) {
				continue
			}
			r := rates.Times(rateError(rates, e, m))
			c := losses.Composition{NDF: ndf0, ADF: adf0, CP: StandingCP}
			for _, scale := range member.scale[:i] {
				c.NDF += r.NDF * scale
				c.ADF += r.ADF * scale
			}
			do(e*len(s.Sky.Members)+m, m, c, member.Weight/ErrorSteps)
		}
	}
}

// Worth is the mean and the standard deviation over the paths of a measure of what is fed: its share of
// the standing dry matter and its feed value.
func (b Brought) Worth(of func(kept, rfv float64) float64) (mean, sd float64) {
	mean, sd, _ = b.Against(b, of)
	return mean, sd
}

// Against gives mean and standard deviation of a measure, and its correlation with that of another
// product over the same paths: both age in the same field and lie under the same rain.
func (b Brought) Against(o Brought, of func(kept, rfv float64) float64) (mean, sd, corr float64) {
	var n, sa, sb, saa, sbb, sab float64
	for i, j := 0, 0; i < len(b.paths) && j < len(o.paths); {
		p, q := b.paths[i], o.paths[j]
		switch {
		case p.path < q.path:
			i++
			continue
		case p.path > q.path:
			j++
			continue
		}
		x, y := of(p.kept, p.rfv), of(q.kept, q.rfv)
		n += p.weight
		sa += p.weight * x
		sb += p.weight * y
		saa += p.weight * x * x
		sbb += p.weight * y * y
		sab += p.weight * x * y
		i++
		j++
	}
	if n == 0 {
		return math.NaN(), math.NaN(), 0
	}
	mean = sa / n
	va, vb := max(0, saa/n-mean*mean), max(0, sbb/n-(sb/n)*(sb/n))
	if va > 0 && vb > 0 {
		corr = min(1, max(-1, (sab/n-mean*sb/n)/math.Sqrt(va*vb)))
	}
	return mean, math.Sqrt(va), corr
}

// Chain is the way of a crop mown on the ith day, with the middle of what stands then and no rain: the
// picture of what machines, store and feeding take.
func (w *Way) Chain(i int) (losses.Chain, bool) {
	var ndf, adf Sample
	w.stand.eachFibre(i, func(_, _ int, c losses.Composition, weight float64) {
		ndf.Add(c.NDF, weight)
		adf.Add(c.ADF, weight)
	})
	if len(ndf) == 0 {
		return losses.Chain{}, false
	}
	feed := losses.Feed{DM: w.stand.Yield.FirstCut, Composition: losses.Composition{NDF: ndf.Quantiles(0.5)[0], ADF: adf.Quantiles(0.5)[0], CP: StandingCP}}
	c, err := chainOf(w.Product, feed, w.stand.cutTHa(), breathedDry(w.stand.Sky.Cures(i, w.Product, Wide)))
	return c, err == nil
}

// Wanted puts the product that the stand's crop is usually taken as first.
func (s *Stand) Wanted(all []Brought) []Brought {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(a, b Brought) int {
		switch {
		case a.Product == s.Target.Product && b.Product != a.Product:
			return -1
		case b.Product == s.Target.Product && a.Product != b.Product:
			return 1
		}
		return 0
	})
	return out
}

// BroughtOn is every product mown on a day, beside each other; nothing where any cannot be said.
func (s *Stand) BroughtOn(d unit.Day) []Brought {
	if s.Sky == nil || s.Sky.Cures(int(d-s.Date), s.Target.Product, Wide) == nil {
		return nil
	}
	var out []Brought
	for _, w := range s.Ways() {
		b, ok := w.On(int(d - s.Date))
		if !ok {
			return nil
		}
		out = append(out, b)
	}
	return out
}
