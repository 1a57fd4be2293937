package seeding

import (
	"fmt"
	"strconv"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func seedLots() *method.Method {
	list := func(key, about string, accepted method.Range, optional bool) method.Input {
		return method.Input{Key: key, About: about + ", one for each lot", Kind: method.Numbers, Accepted: accepted, Optional: optional}
	}
	return &method.Method{
		Name: "seed-lots", Title: "Competing lots of seed side by side",
		About: "What lots with different tags take and cost for one goal of live seeds: bagged seed an acre, whole bags, dollars a million live seeds. Lots within 3 % of each other are no different; price says nothing of the variety.",
		Inputs: []method.Input{
			speciesInput(),
			{Key: "goal", About: "live seeds wanted", Unit: unit.Must("/ft2"), Accepted: method.Range{Low: 1, High: 500}, Tested: method.Range{Low: 20, High: 120}, Default: "70"},
			{Key: "acres", About: "size of the field", Unit: unit.Must("ac"), Accepted: method.Range{Low: 0.1, High: 5000}, Default: "1"},
			list("purity", "purity of the tag, coat left out", some, false),
			list("germination", "germination of the tag without hard seed", share, false),
			list("hard", "hard seed of the tag; none where left out", share, true),
			list("coating", "coat by weight, only where purity is that of bare seed; none where left out", coat, true),
			list("seeds_per_lb", "the lot's own count of bare seed; the species' usual one where left out", method.Range{Low: 10000, High: 5e6}, true),
			list("price", "price of bagged seed, $/lb", method.Range{Low: 0.01, High: 100}, true),
			list("bag", "pounds in a bag; 50 where left out", method.Range{Low: 1, High: 2500}, true),
		},
		Outputs: []method.Output{
			{Key: "lots", About: "of each lot its pure live seed, rate (lb/ac), pounds and bags for the field, and with a price dollars a million live seeds and of the whole bags"},
			{Key: "cheapest", About: "lots whose live seed costs least, those no different among them", When: "with prices"},
		},
		Constants: lotConstants(),
		Sources:   []source.ID{source.PureLiveSeed, source.SeedsPerPound, source.CoatedSeed, source.HardSeed, source.SeedLotsApart},
		Example:   "goal=60 acres=20 purity=0.99,0.66 germination=0.9,0.9 price=5.5,3.9",
		Run:       runLots,
	}
}

// bagLb is a common bag of forage seed, lb.
const bagLb = 50

func runLots(c *method.Call) error {
	n := len(c.List("purity"))
	at := func(key string, i int, other float64) (float64, error) {
		v := c.List(key)
		switch {
		case len(v) == 0:
			return other, nil
		case len(v) != n:
			return 0, fmt.Errorf("%s: %d given for %d lots; give one for each", key, len(v), n)
		}
		return v[i], nil
	}
	var offers []Offer
	for i := range n {
		var v [7]float64
		for j, k := range []struct {
			key   string
			other float64
		}{{"germination", 0}, {"hard", 0}, {"coating", 0}, {"seeds_per_lb", c.K(c.Word("species"))}, {"price", 0}, {"bag", bagLb}} {
			var err error
			if v[j], err = at(k.key, i, k.other); err != nil {
				return err
			}
		}
		lot := Lot{SeedsPerLb: unit.SeedsPound(v[3]), Purity: unit.Share(c.List("purity")[i]), Germination: unit.Share(v[0]), Hard: unit.Share(v[1]), Coating: unit.Share(v[2]), HardCounts: unit.Share(c.K("hard_counts"))}
		if lot.CoatTwice() {
			c.Note("lot %d: purity %g leaves no room for a coat of %g: a coated tag's purity already leaves the coat out", i+1, lot.Purity, lot.Coating)
		}
		offers = append(offers, Offer{strconv.Itoa(i + 1), lot, v[4], v[5]})
	}
	list, err := Buy(Need{unit.PerFt2(c.Num("goal")), c.Num("acres")}, offers)
	if err != nil {
		return err
	}
	g := method.Grid{Columns: []string{"pls", "lb_ac", "lb", "bags", "per_million", "cost"}}
	for _, b := range list {
		g.Rows = append(g.Rows, method.Line{Name: b.Name, Values: []float64{float64(b.PureLive), float64(b.Rate), b.Pounds, float64(b.Bags), b.Million, b.Cost}})
	}
	c.Answer("lots", g)
	var names []string
	for _, b := range Cheapest(list) {
		names = append(names, b.Name)
	}
	if len(names) > 0 {
		c.Answer("cheapest", "lot "+strings.Join(names, ", "))
	}
	return nil
}

func seedDepth() *method.Method {
	soils, seasons := Soils(), Seasons()
	d := PublishedDepths()
	return &method.Method{
		Name: "seed-depth", Title: "How deep to set small seed",
		About: "Depth for alfalfa, clovers and small grasses by soil, and within it by season. A firm seedbed matters as much: a footprint sinks half an inch or less.",
		Inputs: []method.Input{
			{Key: "soil", About: "soil", Kind: method.Word, Choices: soils[:], Default: soils[1]},
			{Key: "season", About: "when it is sown", Kind: method.Word, Choices: seasons[:], Default: seasons[0]},
		},
		Outputs: []method.Output{
			{Key: "low", About: "from", Unit: unit.Must("in"), Decimals: 3},
			{Key: "high", About: "to", Unit: unit.Must("in"), Decimals: 3},
		},
		Constants: []method.Constant{
			{Key: "sand_low", Value: d.Sand.Low, Unit: "in", Source: source.SeedDepth}, {Key: "sand_high", Value: d.Sand.High, Unit: "in", Source: source.SeedDepth},
			{Key: "other_low", Value: d.Rest.Low, Unit: "in", Source: source.SeedDepth}, {Key: "other_high", Value: d.Rest.High, Unit: "in", Source: source.SeedDepth},
		},
		Sources: []source.ID{source.SeedDepth, source.SeedDepthSeason},
		Example: "soil=loamy season=spring",
		Run: func(c *method.Call) error {
			got, err := Depths{Depth{c.K("sand_low"), c.K("sand_high")}, Depth{c.K("other_low"), c.K("other_high")}}.For(c.Word("soil"), c.Word("season"))
			if err != nil {
				return err
			}
			c.Answer("low", got.Low)
			c.Answer("high", got.High)
			return nil
		},
	}
}

func emergence() *method.Method {
	heat := PublishedHeat()
	m := &method.Method{
		Name: "seedling-emergence", Title: "Days to emergence",
		About: "Days from seeding until half of the seedlings are up, where the ground is moist. Dry ground waits for rain.",
		Inputs: []method.Input{
			{Key: "species", About: "what is sown", Kind: method.Word, Default: "alfalfa"},
			{Key: "tmean", About: "mean temperature of the days after seeding", Unit: unit.Must("C"), Accepted: method.Range{Low: 0.5, High: 40}, Tested: method.Range{Low: 5, High: 20}},
		},
		Outputs: []method.Output{{Key: "days", About: "to half emergence", Unit: unit.Must("days"), Decimals: 1}},
		Sources: []source.ID{source.EmergenceHeat, source.AlfalfaEmergence},
		Example: "species=red-clover tmean=15",
		Run: func(c *method.Call) error {
			species := c.Word("species")
			days, err := Heat{species: c.K(species)}.Days(species, c.Num("tmean"))
			if err != nil {
				return err
			}
			c.Answer("days", days)
			return nil
		},
	}
	for _, s := range PublishedSpecies() {
		sum, ok := heat[s.Name]
		if !ok {
			continue
		}
		from := source.EmergenceHeat
		if s.Name == "alfalfa" {
			from = source.AlfalfaEmergence
		}
		m.Inputs[0].Choices = append(m.Inputs[0].Choices, s.Name)
		m.Constants = append(m.Constants, method.Constant{Key: s.Name, Value: sum, Unit: "C-days", Source: from})
	}
	return m
}

func lateWindow() *method.Method {
	g := PublishedGrowing()
	return &method.Method{
		Name: "seeding-window", Title: "When to sow in late summer",
		About: "From the killing freeze (24 F) of a station: its middle date, and the date by which it has come in one year of ten. Ten to six weeks of growth after emergence.",
		Inputs: []method.Input{
			{Key: "frost", About: "middle date of the killing freeze", Kind: method.Date},
			{Key: "early_frost", About: "date by which it has come in one year of ten", Kind: method.Date},
			{Key: "emergence_days", About: "days from sowing to emergence", Unit: unit.Must("days"), Accepted: method.Range{Low: 1, High: 60}, Tested: method.Range{Low: 4, High: 21}, Default: "7"},
		},
		Outputs: []method.Output{{Key: "from", About: "first day"}, {Key: "best", About: "best day"}, {Key: "to", About: "last day"}},
		Constants: []method.Constant{
			{Key: "most", Value: g.Most, Unit: "weeks", Source: source.LastSeeding}, {Key: "usual", Value: g.Usual, Unit: "weeks", Source: source.LastSeeding},
			{Key: "least", Value: g.Least, Unit: "weeks", Source: source.LastSeeding},
		},
		Sources: []source.ID{source.LastSeeding, source.SeedingCalendar},
		Example: "frost=2026-10-20 early_frost=2026-10-05",
		Run: func(c *method.Call) error {
			w, ok := Growing{c.K("most"), c.K("usual"), c.K("least")}.LateSummer(c.Day("frost"), c.Day("early_frost"), c.Num("emergence_days"))
			if c.Day("early_frost") > c.Day("frost") {
				return fmt.Errorf("early_frost %s is after frost %s: give the date by which it has come in one year of ten", c.Day("early_frost"), c.Day("frost"))
			}
			if !ok {
				return fmt.Errorf("early_frost %s: no day leaves both ten weeks before the middle freeze and six before the early one; sow in spring", c.Day("early_frost"))
			}
			c.Answer("from", w.Early)
			c.Answer("best", w.Best)
			c.Answer("to", w.Late)
			return nil
		},
	}
}

func oldGround() *method.Method {
	return &method.Method{
		Name: "autotoxic-ground", Title: "Ground within reach of old alfalfa plants",
		About: "The share of the ground that lies so near to some old alfalfa plant that a new one is killed or stunted, plants standing at random. Why alfalfa is not thickened with alfalfa.",
		Inputs: []method.Input{
			{Key: "plants", About: "old plants left", Unit: unit.Must("/ft2"), Accepted: method.Range{Low: 0, High: 100}, Tested: method.Range{Low: 0.1, High: 10}},
			{Key: "radius", About: "reach of a plant, cm; 20 to 25 are published", Accepted: method.Range{Low: 1, High: 200}, Tested: method.Range{Low: 20, High: 41}, Default: "20"},
		},
		Outputs: []method.Output{{Key: "share", About: "of the ground within reach, 0 to 1", Decimals: 3}},
		Sources: []source.ID{source.OldPlantZone},
		Example: "plants=1",
		Run: func(c *method.Call) error {
			c.Answer("share", Poisoned(c.Num("plants"), c.Num("radius")))
			return nil
		},
	}
}

func speciesChoice() *method.Method {
	l := PublishedLimits()
	drains, eats := Drainages(), Eaters()
	return &method.Method{
		Name: "species-choice", Title: "Alfalfa, red clover, grass or a mixture",
		About: "What suits a field by its drainage, pH, the years wanted and who eats it, with what speaks for and against each. Reasons, not points: a farm may have better ones.",
		Inputs: []method.Input{
			{Key: "drainage", About: "drainage of the field", Kind: method.Word, Choices: drains[:]},
			{Key: "ph", About: "pH of the topsoil", Accepted: method.Range{Low: 3.5, High: 9.5}, Tested: method.Range{Low: 5, High: 8}},
			{Key: "years", About: "wanted of the stand after the year of seeding", Unit: unit.Must("yr"), Accepted: method.Range{Low: 0.5, High: 30}, Tested: method.Range{Low: 1, High: 8}, Default: "4"},
			{Key: "eats", About: "who eats it", Kind: method.Word, Choices: eats[:], Default: eats[0]},
			{Key: "grazed", About: "whether it is grazed", Kind: method.Word, Choices: []string{"no", "yes"}, Default: "no"},
		},
		Outputs: []method.Output{{Key: "first", About: "what suits best"}, {Key: "ranked", About: "all choices, best first, with reasons for (+), against (-) and what forbids (x)"}},
		Constants: []method.Constant{
			{Key: "alfalfa_ph", Value: l.AlfalfaPH, Source: source.SpeciesAcid}, {Key: "clover_ph", Value: l.CloverPH, Source: source.SpeciesAcid}, {Key: "grass_ph", Value: l.GrassPH, Source: source.SpeciesAcid},
			{Key: "alfalfa_years", Value: l.AlfalfaYears, Unit: "yr", Source: source.SpeciesFit}, {Key: "clover_years", Value: l.CloverYears, Unit: "yr", Source: source.SpeciesFit},
		},
		Sources: []source.ID{source.SpeciesFit, source.SpeciesAcid},
		Example: "drainage=somewhat-poor ph=6.2 years=2 eats=beef",
		Run: func(c *method.Call) error {
			list, err := Limits{c.K("alfalfa_ph"), c.K("clover_ph"), c.K("grass_ph"), c.K("alfalfa_years"), c.K("clover_years")}.Choose(Site{
				Drainage: c.Word("drainage"), PH: c.Num("ph"), Years: c.Num("years"), Eats: c.Word("eats"), Grazed: c.Word("grazed") == "yes",
			})
			if err != nil {
				return err
			}
			var all []string
			for _, f := range list {
				all = append(all, f.Told())
			}
			first := list[0].Choice
			if len(list[0].Never) > 0 {
				first = "none until the ground is mended"
			}
			c.Answer("first", first)
			c.Answer("ranked", strings.Join(all, " | "))
			return nil
		},
	}
}

// Told is a fit in one line.
func (f Fit) Told() string {
	var b strings.Builder
	b.WriteString(f.Choice)
	for _, part := range []struct {
		sign  string
		words []string
	}{{" x ", f.Never}, {" - ", f.Against}, {" + ", f.For}} {
		for _, w := range part.words {
			b.WriteString(part.sign + w)
		}
	}
	return b.String()
}

func dormancy() *method.Method {
	return &method.Method{
		Name: "dormancy-rating", Title: "Fall dormancy from plots",
		About: "The dormancy of a variety from its height about 25 days after a cut in early September, read on the line through check varieties of known class in the same trial.",
		Inputs: []method.Input{
			{Key: "heights", About: "of the checks, in", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 60}},
			{Key: "classes", About: "of the checks, as many", Kind: method.Numbers, Accepted: method.Range{Low: 1, High: 11}},
			{Key: "height", About: "of the variety", Unit: unit.Must("in"), Accepted: method.Range{Low: 0, High: 60}, Tested: method.Range{Low: 2, High: 30}},
		},
		Outputs: []method.Output{
			{Key: "rating", About: "fall dormancy, 1 most dormant to 11", Decimals: 2}, {Key: "class", About: "as a class"},
			{Key: "intercept", About: "of the line", Decimals: 6}, {Key: "slope", About: "classes an inch", Decimals: 6},
		},
		Sources: []source.ID{source.DormancyChecks},
		Example: "heights=3.1,9.2,16.8 classes=1,4,8 height=9",
		Run: func(c *method.Call) error {
			d, err := DormancyLine(c.List("heights"), c.List("classes"))
			if err != nil {
				return err
			}
			c.Answer("rating", d.Rating(c.Num("height")))
			c.Answer("class", float64(d.Class(c.Num("height"))))
			c.Answer("intercept", d.Intercept)
			c.Answer("slope", d.Slope)
			return nil
		},
	}
}
