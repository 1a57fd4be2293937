package storage

import (
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var (
	feet      = unit.Must("ft")
	cubicFeet = unit.Must("ft3")
	tons      = unit.Must("ton")
	byDay     = unit.Must("lb/day")
	inchesDay = unit.Must("in/d")
	anHour    = unit.Must("tons/h")
)

func feetInput(key, about string, most float64) method.Input {
	return method.Input{Key: key, About: about, Unit: feet, Accepted: method.Range{Low: 0, High: most}, Optional: true}
}

// bagDensity is taken for a bag of which nothing is known, lb/ft3 ([source.BagDensity]).
const bagDensity = 12.5

func siloTons() *method.Method {
	towers := func(t *Towers) []coefficient {
		return []coefficient{
			{"tower_top", source.TowerDensity, &t.Haylage.Top}, {"tower_per_foot", source.TowerDensity, &t.Haylage.PerFoot},
		}
	}
	k := PublishedTowers()
	return &method.Method{
		Name: "silo-tons", Title: "Dry matter in a silo, pile or bag",
		About: "What a silo holds by its size and density. A tower of haylage has its density by its settled depth where none is given; a bunker, pile or bag wants one: from cores, from packing, or 12.5 of a usual bag. A volume by tape with a density not measured is good to a tenth or a fifth, not better.",
		Inputs: []method.Input{
			{Key: "shape", About: "form of the store", Kind: method.Word, Choices: shapeWords()},
			feetInput("diameter", "across, of a tower or bag", 100), feetInput("height", "settled depth, of a tower", 150),
			feetInput("width", "of a bunker", mostFeet), feetInput("length", "of a bunker or pile; of a bag where it is full", mostFeet),
			feetInput("wall", "depth at the wall, of a bunker", 60), feetInput("crown", "depth in the middle, of a bunker; left out: level", 60), feetInput("ramp", "length of the sloping front, of a bunker", mostFeet),
			{Key: "area1", About: "cross-section at one end, of a pile: half of top and base times height", Unit: unit.Must("ft2"), Accepted: method.Range{Low: 0, High: 50000}, Optional: true},
			{Key: "area2", About: "cross-section at the other end", Unit: unit.Must("ft2"), Accepted: method.Range{Low: 0, High: 50000}, Optional: true},
			func() method.Input { in := densityInput(); in.Optional = true; return in }(),
		},
		Outputs: []method.Output{
			{Key: "tons_dm", About: "dry matter", Unit: tons, Decimals: 1},
			{Key: "density", About: "lb of dry matter in a cubic foot", Unit: perFoot, Decimals: 1},
			{Key: "volume_ft3", About: "volume", Unit: cubicFeet},
		},
		Constants: declare(towers(&k)),
		Sources:   []source.ID{source.TowerDensity, source.SiloGeometry, source.BagDensity, source.DensityGoal},
		Example:   "shape=bunker width=40 length=100 wall=10 crown=12 ramp=20 density=15",
		Run: func(c *method.Call) error {
			k := PublishedTowers()
			take(c, towers(&k))
			b := bodyOf(c)
			volume, err := b.Volume()
			if err != nil {
				return err
			}
			density := c.Num("density")
			if !c.Given("density") {
				switch b.Shape {
				case TowerShape:
					density = k.Haylage.Mean(b.Height)
				case BagShape:
					density = bagDensity
					c.Note("density of a usual bag, from memory; weigh a bag's loads or take cores")
				default:
					return errDensity(b.Shape)
				}
			}
			c.Answer("tons_dm", volume*density/poundsATon)
			c.Answer("density", density)
			c.Answer("volume_ft3", volume)
			if b.Shape == TowerShape {
				c.Note("%s", MeasureOutside)
				c.Note("%s", GasKills)
			}
			return nil
		},
	}
}

func shapeWords() (words []string) {
	for _, s := range Shapes() {
		words = append(words, string(s))
	}
	return words
}

func bodyOf(c *method.Call) Body {
	return Body{
		Shape: Shape(c.Word("shape")), Diameter: c.Num("diameter"), Height: c.Num("height"), Width: c.Num("width"), Length: c.Num("length"),
		Wall: c.Num("wall"), Crown: c.Num("crown"), Ramp: c.Num("ramp"), Area1: c.Num("area1"), Area2: c.Num("area2"),
	}
}

func siloLeft() *method.Method {
	all := func(t *Towers) []coefficient {
		return []coefficient{
			{"tower_top", source.TowerDensity, &t.Haylage.Top}, {"tower_per_foot", source.TowerDensity, &t.Haylage.PerFoot},
			{"corn_top", source.TowerDensity, &t.CornSilage.Top}, {"corn_per_foot", source.TowerDensity, &t.CornSilage.PerFoot},
		}
	}
	k := PublishedTowers()
	return &method.Method{
		Name: "silo-left", Title: "Dry matter left in a tower",
		About: "What a tower of haylage or corn silage holds after some feet were fed off the top. The bottom is packed by what lay over it, so that half the depth holds more than half the feed.",
		Inputs: []method.Input{
			{Key: "fill", About: "what is in it", Kind: method.Word, Choices: Fills(), Default: string(HaylageFill)},
			{Key: "diameter", About: "across", Unit: feet, Accepted: method.Range{Low: 4, High: 100}, Tested: method.Range{Low: 10, High: 30}},
			{Key: "height", About: "settled depth when it was full", Unit: feet, Accepted: method.Range{Low: 4, High: 150}, Tested: method.Range{Low: 20, High: 90}},
			{Key: "removed", About: "fed off the top", Unit: feet, Accepted: method.Range{Low: 0, High: 150}, Default: "0"},
		},
		Outputs: []method.Output{
			{Key: "tons_dm", About: "dry matter left", Unit: tons, Decimals: 1}, {Key: "full", About: "dry matter when it was full", Unit: tons, Decimals: 1},
			{Key: "density", About: "mean density when it was full, lb of dry matter in a cubic foot", Unit: perFoot, Decimals: 1},
		},
		Constants: declare(all(&k)),
		Sources:   []source.ID{source.TowerDensity, source.TowerLeft, source.SiloGas},
		Example:   "diameter=20 height=60 removed=25",
		Run: func(c *method.Call) error {
			k := PublishedTowers()
			take(c, all(&k))
			b := Body{Shape: TowerShape, Diameter: c.Num("diameter"), Height: c.Num("height"), Removed: c.Num("removed")}
			if _, err := b.Volume(); err != nil {
				return err
			}
			line := k.Of(Fill(c.Word("fill")))
			c.Answer("tons_dm", line.Tons(b))
			b.Removed = 0
			c.Answer("full", line.Tons(b))
			c.Answer("density", line.Mean(b.Height))
			c.Note("%s", MeasureOutside)
			c.Note("%s", GasKills)
			return nil
		},
	}
}

func baleWeight() *method.Method {
	return &method.Method{
		Name: "bale-weight", Title: "What a bale weighs by its size",
		About: "Volume and weight of a bale by its size and density, and of so many of them the dry matter. Guesses miss by 100 lb: weigh three bales or more of a lot and use their mean.",
		Inputs: []method.Input{
			{Key: "package", About: "round, or square of either size", Kind: method.Word, Choices: []string{"round", "square"}},
			{Key: "diameter", About: "of a round bale", Unit: feet, Accepted: method.Range{Low: 0.5, High: 10}, Optional: true},
			{Key: "width", About: "of the bale", Unit: feet, Accepted: method.Range{Low: 0.5, High: 10}},
			{Key: "height", About: "of a square bale", Unit: feet, Accepted: method.Range{Low: 0.5, High: 10}, Optional: true},
			{Key: "length", About: "of a square bale", Unit: feet, Accepted: method.Range{Low: 0.5, High: 12}, Optional: true},
			{Key: "density", About: "lb as fed in a cubic foot: dry round bales 9 to 11, large square 12 to 16", Unit: perFoot, Accepted: method.Range{Low: 2, High: 60}, Tested: method.Range{Low: 6, High: 40}},
			{Key: "moisture", About: "of fresh weight", Unit: percent, Accepted: method.Range{Low: 3, High: 80}, Default: "14"},
			{Key: "bales", About: "how many", Accepted: method.Range{Low: 1, High: 100000}, Default: "1"},
		},
		Outputs: []method.Output{
			{Key: "volume_ft3", About: "volume of a bale", Unit: cubicFeet, Decimals: 2}, {Key: "weight", About: "of a bale as it is", Unit: unit.Must("lb")},
			{Key: "dm", About: "dry matter of a bale", Unit: unit.Must("lb")}, {Key: "tons_dm", About: "dry matter of all", Unit: tons, Decimals: 1},
		},
		Sources: []source.ID{source.SiloGeometry, source.BaleDensity, source.BaleGuess},
		Example: "package=round diameter=5 width=5 density=10 moisture=14 bales=80",
		Run: func(c *method.Call) error {
			volume := RoundBale(c.Num("diameter"), c.Num("width"))
			wanted := []string{"diameter"}
			if c.Word("package") == "square" {
				volume, wanted = SquareBale(c.Num("width"), c.Num("height"), c.Num("length")), []string{"height", "length"}
			}
			for _, key := range wanted {
				if !c.Given(key) {
					return errBale(c.Word("package"), key)
				}
			}
			weight := volume * c.Num("density")
			dm := weight * (1 - c.Num("moisture")/100)
			c.Answer("volume_ft3", volume)
			c.Answer("weight", weight)
			c.Answer("dm", dm)
			c.Answer("tons_dm", dm*c.Num("bales")/poundsATon)
			c.Note("weights reckoned from a table's density run high: people overestimate it, take 10 %% off or weigh three bales")
			return nil
		},
	}
}

func ofPacking(k *Packing) []coefficient {
	return []coefficient{
		{"packing_loose", source.PackingLine, &k.Loose}, {"packing_per_factor", source.PackingLine, &k.PerFactor},
		{"packing_shallow", source.PackingLine, &k.Shallow}, {"packing_per_depth", source.PackingLine, &k.PerDepth},
	}
}

func crewInputs() []method.Input {
	return []method.Input{
		{Key: "weight", About: "mean weight of the packing tractors", Unit: unit.Must("lb"), Accepted: method.Range{Low: 1000, High: 150000}, Tested: method.Range{Low: 10000, High: 60000}},
		{Key: "layer", About: "thickness spread before it is packed", Unit: unit.Must("in"), Accepted: method.Range{Low: 1, High: 48}, Tested: method.Range{Low: 4, High: 12}},
		{Key: "tractors", About: "packing all the time; one that packs half the time counts half", Accepted: method.Range{Low: 0.1, High: 20}},
		{Key: "dm", About: "dry matter of the crop, a share", Accepted: method.Range{Low: 0.15, High: 0.75}, Tested: method.Range{Low: 0.25, High: 0.5}},
		{Key: "depth", About: "mean depth of silage", Unit: feet, Accepted: method.Range{Low: 1, High: 60}, Tested: method.Range{Low: 4, High: 30}},
	}
}

func crewOf(c *method.Call) Crew {
	return Crew{Weight: c.Num("weight"), Layer: c.Num("layer"), Tractors: c.Num("tractors"), DM: c.Num("dm"), Rate: c.Num("rate"), Depth: c.Num("depth")}
}

// thickLayer is the most that is spread before it is packed, in ([source.DensityGoal]); LeastDensity is
// the least density to pack to and GoalDensity the goal.
const (
	thickLayer   = 6
	LeastDensity = 14
	GoalDensity  = 16
)

func packing() *method.Method {
	k := PublishedPacking()
	return &method.Method{
		Name: "packing", Title: "Density of a bunker or pile by how it is packed",
		About:  "What packing tractors, layer, delivery, dry matter and depth make of a bunker or pile. Good to 20 % either way at best: over many silos the packing factor explained a fifth of what differed. A core goes before it.",
		Inputs: append(crewInputs(), method.Input{Key: "rate", About: "delivered, as fed", Unit: anHour, Accepted: method.Range{Low: 1, High: 1000}, Tested: method.Range{Low: 10, High: 250}}),
		Outputs: []method.Output{
			{Key: "factor", About: "packing factor", Decimals: 1}, {Key: "density", About: "lb of dry matter in a cubic foot", Unit: perFoot, Decimals: 1},
		},
		Constants: declare(ofPacking(&k)),
		Sources:   []source.ID{source.PackingForm, source.PackingLine, source.PackingTrust, source.DensityGoal, source.BunkerSafety},
		Example:   "weight=32000 layer=6 tractors=1.5 dm=0.42 rate=45 depth=14",
		Run: func(c *method.Call) error {
			k := PublishedPacking()
			take(c, ofPacking(&k))
			crew := crewOf(c)
			got, err := k.Density(crew)
			if err != nil {
				return err
			}
			c.Answer("factor", crew.Factor())
			c.Answer("density", got.Mid)
			c.Note("%.1f to %.1f lb/ft3; the coefficients are recalled", got.Low, got.High)
			if got.Mid < LeastDensity {
				c.Note("under %d lb/ft3, the least to pack to; packing-pace says how fast may be delivered", LeastDensity)
			}
			if crew.Layer > thickLayer {
				c.Note("layers over %d in do not pack through", thickLayer)
			}
			c.Note("%s", SteepRolls)
			return nil
		},
	}
}

func packingPace() *method.Method {
	k := PublishedPacking()
	return &method.Method{
		Name: "packing-pace", Title: "How fast a crew may deliver to a bunker",
		About:  "The delivery at which the packing tractors still reach a density, by the packing factor, and beside it by the rule of their weight. Deliver slower, add weight or spread thinner: the layer counts by its square.",
		Inputs: append(crewInputs(), method.Input{Key: "goal", About: "density to reach, lb of dry matter in a cubic foot: 14 at least, 16 to 18 as the goal", Unit: perFoot, Accepted: method.Range{Low: 4, High: 40}, Tested: method.Range{Low: 10, High: 22}, Default: "14"}),
		Outputs: []method.Output{
			{Key: "rate", About: "by the packing factor, as fed", Unit: anHour, Never: "any"},
			{Key: "by_weight", About: "by the rule of weight, as fed", Unit: anHour},
		},
		Constants: append(declare(ofPacking(&k)), method.Constant{Key: "pounds_an_hour", Value: poundsAnHour, Unit: "lb", Source: source.PackingRule}),
		Sources:   []source.ID{source.PackingForm, source.PackingLine, source.PackingTrust, source.PackingRule, source.DensityGoal, source.BunkerSafety},
		Example:   "weight=28000 layer=6 tractors=1 dm=0.35 depth=10 goal=14",
		Run: func(c *method.Call) error {
			k := PublishedPacking()
			take(c, ofPacking(&k))
			p, err := k.Pace(crewOf(c), c.Num("goal"), c.K("pounds_an_hour"))
			if err != nil {
				return err
			}
			c.Answer("rate", p.ByFactor)
			c.Answer("by_weight", p.ByWeight)
			c.Note("the prediction is good to 20 %% of the density at best: go by the slower of the two and take cores")
			c.Note("%s", SteepRolls)
			return nil
		},
	}
}

func packingWorth() *method.Method {
	k := PublishedSilageStore()
	return &method.Method{
		Name: "packing-worth", Title: "What a pound of density is worth",
		About: "What one more pound of dry matter a cubic foot saves of a bunker's loss. Beside it stands the room saved: the same feed takes less of the bunker.",
		Inputs: []method.Input{
			{Key: "tons", About: "dry matter put in", Unit: tons, Accepted: method.Range{Low: 1, High: 100000}},
			densityInput(),
			{Key: "price", About: "worth of a ton of dry matter in store", Unit: unit.Must("$/ton"), Accepted: method.Range{Low: 0, High: 2000}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "tons_saved", About: "dry matter saved by a pound more", Unit: tons, Decimals: 2},
			{Key: "room_pct", About: "of the volume saved", Unit: percent, Decimals: 1},
			{Key: "worth", About: "of what is saved", Unit: unit.Must("$"), When: "with price"},
		},
		Constants: declare(ofDensity(&k)),
		Sources:   []source.ID{source.BunkerLine, source.DensityGoal},
		Example:   "tons=500 density=13 price=180",
		Run: func(c *method.Call) error {
			k := PublishedSilageStore()
			take(c, ofDensity(&k))
			density := c.Num("density")
			saved := k.PoundWorth(c.Num("tons"), density)
			c.Answer("tons_saved", saved)
			c.Answer("room_pct", 100/(density+1))
			if c.Given("price") {
				c.Answer("worth", saved*c.Num("price"))
			}
			return nil
		},
	}
}

func lbDay() method.Input {
	return method.Input{Key: "lb_day", About: "dry matter fed a day", Unit: byDay, Accepted: method.Range{Low: 1, High: 1e6}}
}

func feedOut() *method.Method {
	return &method.Method{
		Name: "feed-out", Title: "How fast a face is fed",
		About: "Inches a day off the face of a bunker, pile, bag or tower. Air reaches 2 to 3 ft behind it; 12 in a day keeps ahead of that. feed-out-loss says what slower costs.",
		Inputs: []method.Input{
			lbDay(),
			{Key: "face", About: "area fed from", Unit: unit.Must("ft2"), Accepted: method.Range{Low: 1, High: 50000}},
			densityInput(),
		},
		Outputs: []method.Output{{Key: "inches_day", About: "off the whole face", Unit: inchesDay, Decimals: 1}, {Key: "verdict", About: "whether it keeps ahead of spoilage in a bunker, pile or bag"}},
		Sources: []source.ID{source.FaceArithmetic, source.FaceRate, source.FaceFloor, source.FaceMiddle},
		Example: "lb_day=1500 face=100 density=15",
		Run: func(c *method.Call) error {
			got, err := FaceInches(c.Num("lb_day"), c.Num("face"), c.Num("density"))
			if err != nil {
				return err
			}
			rules := PublishedFaceRules()
			c.Answer("inches_day", got)
			c.Answer("verdict", rules.Horizontal.Judge(got, false))
			c.Note("off a tower's top %g in a day in winter and %g in summer are enough", rules.Tower.Floor, rules.Tower.Enough)
			c.Note("%s", FaceCanCollapse)
			return nil
		},
	}
}

func faceSize() *method.Method {
	return &method.Method{
		Name: "face-size", Title: "Largest face that is fed fast enough",
		About:   "The face to build or to open for so much feed a day: a larger one spoils.",
		Inputs:  []method.Input{lbDay(), densityInput(), {Key: "rate", About: "inches to feed a day", Unit: inchesDay, Accepted: method.Range{Low: 0.5, High: 60}, Default: "12"}},
		Outputs: []method.Output{{Key: "face", About: "at most", Unit: unit.Must("ft2"), Decimals: 1}},
		Sources: []source.ID{source.FaceArithmetic, source.FaceRate},
		Example: "lb_day=4000 density=15",
		Run: func(c *method.Call) error {
			c.Answer("face", FaceMost(c.Num("lb_day"), c.Num("density"), c.Num("rate")))
			return nil
		},
	}
}

func weeksLeft() *method.Method {
	return &method.Method{
		Name: "weeks-left", Title: "How long feed in store lasts",
		About: "Weeks and days that a stock of dry matter lasts, what is still to be lost taken off. A note gives the low case: 10 % less for silage by volume, 5 % for weighed bales.",
		Inputs: []method.Input{
			{Key: "tons", About: "dry matter in store", Unit: tons, Accepted: method.Range{Low: 0, High: 1e6}},
			{Key: "loss", About: "share of it still to be lost", Accepted: method.Range{Low: 0, High: 0.95}, Tested: method.Range{Low: 0, High: 0.4}},
			lbDay(),
		},
		Outputs: []method.Output{{Key: "weeks", About: "it lasts", Unit: unit.Must("weeks"), Decimals: 1}, {Key: "days", About: "it lasts", Unit: unit.Must("days")}},
		Sources: []source.ID{source.WeeksLeft, source.LowCase},
		Example: "tons=300 loss=0.12 lb_day=3200",
		Run: func(c *method.Call) error {
			w, err := Weeks(c.Num("tons"), c.Num("loss"), c.Num("lb_day"))
			if err != nil {
				return err
			}
			c.Answer("weeks", w)
			c.Answer("days", 7*w)
			c.Note("low case %.1f weeks by volume, %.1f if the bales were weighed", w*(1-LowByVolume), w*(1-LowWeighed))
			return nil
		},
	}
}
