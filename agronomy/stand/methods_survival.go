package stand

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func plantConstants() []method.Constant {
	var out []method.Constant
	for i, l := range PublishedPlants() {
		year := string(rune('0' + i))
		wanted, reseed := source.PlantsIllinois, source.PlantsIowa
		if i == 0 || i == len(PublishedPlants())-1 {
			wanted = source.PlantsSeeding
		}
		if i == 0 {
			reseed = source.PlantsSeeding
		}
		out = append(out,
			method.Constant{Key: "wanted_" + year, Value: l.Wanted, Unit: "plants/ft2", Source: wanted},
			method.Constant{Key: "reseed_" + year, Value: l.Reseed, Unit: "plants/ft2", Source: reseed})
	}
	for i := range out {
		if out[i].Value < 10 {
			out[i].Exempt = "judged as shown, to a tenth of a plant: 1 % lies within it"
		}
	}
	return out
}

func plantScaleOf(c *method.Call) PlantScale {
	k := PublishedPlants()
	for i := range k {
		year := string(rune('0' + i))
		k[i].Wanted, k[i].Reseed = c.K("wanted_"+year), c.K("reseed_"+year)
	}
	return k
}

func plantCount() *method.Method {
	perFt2 := unit.Must("/ft2")
	return &method.Method{
		Name: "plant-count", Title: "Plant count of a stand",
		About: "Plants (crowns) counted in frames, against what is wanted at the stand's age. For stands under a year old; in older ones plants make up for each other and stems tell more. Counts that scatter as chance does have an exact interval.",
		Inputs: []method.Input{
			{Key: "counts", About: "plants counted in each frame, whole", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 2000}},
			{Key: "frame", About: "size of the frame; a 17 in square or a 19 in ring is 2 ft2", Unit: unit.Must("ft2"), Accepted: method.Range{Low: 0.25, High: 20}, Tested: method.Range{Low: 1, High: 4}, Default: "2"},
			{Key: "age", About: "production year: 1 in the year after seeding, 0 in the fall of the seeding year", Accepted: method.Range{Low: 0, High: mostYear}},
		},
		Outputs: []method.Output{
			{Key: "mean", About: "plants a square foot", Unit: perFt2, Decimals: 1},
			{Key: "lo95", About: "low end of the 95 % interval", Unit: perFt2, Decimals: 1},
			{Key: "hi95", About: "high end", Unit: perFt2, Decimals: 1},
			{Key: "class", About: "what the density means at this age"},
		},
		Constants: plantConstants(),
		Sources:   []source.ID{source.PlantsIllinois, source.PlantsIowa, source.PlantsSeeding, source.PoissonRate, source.StudentT, source.SampleSize},
		Example:   "counts=3,5,2,4,6,1,4,3,2,5 frame=1 age=3",
		Run: func(c *method.Call) error {
			age := c.Num("age")
			if age != math.Floor(age) {
				return errors.New("age: a production year is a whole number, 0 to 20")
			}
			p, err := plantScaleOf(c).AssessPlants(c.List("counts"), c.Num("frame"), int(age))
			if err != nil {
				return err
			}
			c.Answer("mean", p.Mean)
			c.Answer("lo95", p.Low)
			c.Answer("hi95", p.High)
			c.Answer("class", string(p.Class))
			over := ""
			if p.Limits.Over {
				over = "more than "
			}
			c.Note("at this age %s%g plants are wanted, and under %g reseeding is considered", over, p.Limits.Wanted, p.Limits.Reseed)
			if !math.IsNaN(p.ChanceBelow) {
				c.Note("the chance that the field is under that is %.2f", p.ChanceBelow)
			}
			if p.More > 0 {
				c.Note("throw %d more for an interval of 15 %% either way", p.More)
			}
			if !p.Exact {
				c.Note("the counts differ by more than chance: Student's t is used, not the exact interval")
			}
			if age >= 1 {
				c.Note("in a stand this old plants make up for each other: count stems too, they tell more of yield")
			}
			return nil
		},
	}
}

func crownRating() *method.Method {
	k := PublishedCrowns()
	const whole = "a whole rating: 1 % does not move it"
	words := CrownWords()
	return &method.Method{
		Name: "crown-rating", Title: "Crown and root rating of a stand",
		About: "From plants dug, split lengthwise and rated 0 to 5: the share that is sound, and the share that counts when plants are counted. 0 " + strings.Join(append([]string{words[0]}, "1 "+words[1], "2 "+words[2], "3 "+words[3], "4 "+words[4], "5 "+words[5]), "; ") + ".",
		Inputs: []method.Input{
			{Key: "counts", About: "plants at rating 0, 1, 2, 3, 4 and 5", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: mostDug}},
		},
		Outputs: []method.Output{
			{Key: "health_pct", About: "share of the plants rated 2 or less", Unit: unit.Must("%"), Decimals: 0},
			{Key: "effective_share", About: "share of the plants that count, rated 3 or less", Decimals: 2},
			{Key: "flag", About: "over 30 % rated 3 or worse: the potential is significantly reduced"},
		},
		Constants: []method.Constant{
			{Key: "sound", Value: float64(k.Sound), Source: source.CrownEffective, Exempt: whole},
			{Key: "counts", Value: float64(k.Counts), Source: source.CrownEffective, Exempt: whole},
			{Key: "bad", Value: float64(k.Bad), Source: source.RootHealth, Exempt: whole},
			{Key: "flag", Value: k.Flag, Source: source.RootHealth},
		},
		Sources: []source.ID{source.CrownScale, source.CrownEffective, source.RootHealth},
		Example: "counts=6,5,4,3,1,1",
		Run: func(c *method.Call) error {
			var by [WorstCrown + 1]int
			given := c.List("counts")
			if len(given) != len(by) {
				return errors.New("counts: six numbers are wanted, the plants at rating 0, 1, 2, 3, 4 and 5; put 0 where there were none")
			}
			for i, v := range given {
				if v != math.Floor(v) {
					return errors.New("counts: plants are whole; accepted 0 to 500")
				}
				by[i] = int(v)
			}
			a, err := CrownScale{int(c.K("sound")), int(c.K("counts")), int(c.K("bad")), c.K("flag")}.Assess(by)
			if err != nil {
				return err
			}
			c.Answer("health_pct", a.Health)
			c.Answer("effective_share", a.Effective)
			c.Answer("flag", a.Flag)
			c.Note("the words of ratings 1 to 3 are from memory")
			if a.Dug < 20 {
				c.Note("%d plants were dug; 20 to 30 are wanted, 5 or 6 at each of 4 or 5 places", a.Dug)
			}
			return nil
		},
	}
}

// keyOfPoint writes a key of [WinterPoints] as a constant's key.
func keyOfPoint(key string) string { return strings.ReplaceAll(key, "-", "_") }

func winterConstants() []method.Constant {
	points := RecalledWinterPoints()
	var out []method.Constant
	for _, key := range slices.Sorted(maps.Keys(points)) {
		k := method.Constant{Key: keyOfPoint(key), Value: points[key], Source: source.WinterPoints}
		if k.Value == 0 {
			k.Exempt = "a point of 0: 1 % of it is 0"
		}
		out = append(out, k)
	}
	return out
}

func winterPointsOf(c *method.Call) WinterPoints {
	p := RecalledWinterPoints()
	for key := range p {
		p[key] = c.K(keyOfPoint(key))
	}
	return p
}

// winterInputs are the questions; optional ones may stay unanswered.
func winterInputs(optional bool) []method.Input {
	word := func(key, about string, choices ...string) method.Input {
		return method.Input{Key: key, About: about, Kind: method.Word, Choices: choices}
	}
	all := []method.Input{
		{Key: AskAge, About: "years since seeding", Unit: unit.Must("yr"), Accepted: method.Range{Low: 0, High: 30}},
		word(AskHardiness, "winter hardiness of the variety; very is a winter-survival score of 2 or less", hardinesses...),
		word(AskResistance, "how many of the root and crown diseases the variety resists", resistances...),
		{Key: AskPotassium, About: "exchangeable potassium", Unit: unit.Must("ppm"), Accepted: method.Range{Low: 0, High: 1000}},
		word(AskDrainage, "how the soil drains", drainages...),
		word(AskMoisture, "how wet the soil was in fall and winter", moistures...),
		{Key: "interval", About: "days between cuts", Unit: unit.Must("days"), Accepted: method.Range{Low: 0, High: 200}},
		{Key: "last_cut", About: "day of the last cut before the winter", Kind: method.Date},
		word(AskStubble, "more than 6 in of stubble left at the last cut", "yes", "no"),
	}
	for i := range all {
		all[i].Optional = optional
	}
	return all
}

func winterOf(c *method.Call) Winter {
	number := func(key string) float64 {
		if !c.Given(key) {
			return math.NaN()
		}
		return c.Num(key)
	}
	w := Winter{
		Age: number(AskAge), Hardiness: c.Word(AskHardiness), Resistance: c.Word(AskResistance), SoilK: number(AskPotassium), Drainage: c.Word(AskDrainage),
		Moisture: c.Word(AskMoisture), Interval: number("interval"), LastCut: c.Day("last_cut"),
	}
	if c.Given(AskStubble) {
		yes := c.Word(AskStubble) == "yes"
		w.Stubble = &yes
	}
	return w
}

func winterInjury() *method.Method {
	return &method.Method{
		Name: "winter-injury", Title: "Risk of winter injury by eight questions",
		About:  "Points for what makes a stand tender in winter, and the class of their sum. The questions are published; the points are recalled and not read: winter-points takes your own. It says how tender a stand is, not how hard the winter was.",
		Inputs: winterInputs(false),
		Outputs: []method.Output{
			{Key: "points", About: "sum of the points", Decimals: 0},
			{Key: "class", About: "risk of winter injury"},
		},
		Constants: winterConstants(),
		Sources:   []source.ID{source.WinterPoints, source.WinterQuestions},
		Example:   "age=2 hardiness=hardy resistance=moderate soil_k=130 drainage=medium moisture=medium interval=32 last_cut=2025-08-28 stubble=yes",
		Run: func(c *method.Call) error {
			r, err := winterPointsOf(c).Assess(winterOf(c))
			if err != nil {
				return err
			}
			c.Answer("points", r.Low)
			c.Answer("class", string(r.LowClass))
			c.Note("the points are from memory: looked for in print and not found")
			if c.Word(AskMoisture) == "wet" {
				c.Note("a wet fall is recalled as 3 to 5 points; 5 is taken")
			}
			return nil
		},
	}
}

func winterPoints() *method.Method {
	keys := slices.Sorted(maps.Keys(RecalledWinterPoints()))
	return &method.Method{
		Name: "winter-points", Title: "Risk of winter injury, where answers are missing",
		About:  "As winter-injury, with questions left open and with points of your own: points=moisture-wet:3. The answer is the range that is left, and the question that would narrow it most.",
		Inputs: append(winterInputs(true), method.Input{Key: "points", About: "points of your own, by answer", Kind: method.Pairs, Choices: keys, Accepted: method.Range{Low: 0, High: 20}, Optional: true}),
		Outputs: []method.Output{
			{Key: "low", About: "least points by what is known", Decimals: 0}, {Key: "high", About: "most points", Decimals: 0},
			{Key: "class_low", About: "class of the least"}, {Key: "class_high", About: "class of the most"},
			{Key: "ask", About: "question that leaves most open", When: "where one is open"},
		},
		Constants: winterConstants(),
		Sources:   []source.ID{source.WinterPoints, source.WinterQuestions},
		Example:   "age=2 interval=32 last_cut=2025-08-28",
		Run: func(c *method.Call) error {
			p := winterPointsOf(c)
			for _, own := range c.Pairs("points") {
				p[own.Name] = own.Value
			}
			r, err := p.Assess(winterOf(c))
			if err != nil {
				return err
			}
			c.Answer("low", r.Low)
			c.Answer("high", r.High)
			c.Answer("class_low", string(r.LowClass))
			c.Answer("class_high", string(r.HighClass))
			if ask := r.Widest(); ask != "" {
				c.Answer("ask", ask)
			}
			if len(c.Pairs("points")) == 0 {
				c.Note("the points are from memory: looked for in print and not found")
			}
			return nil
		},
	}
}

func nitrogenCredit() *method.Method {
	lb := unit.Must("lb/ac")
	return &method.Method{
		Name: "nitrogen-credit", Title: "Nitrogen a stand leaves to the corn after it",
		About: "By the table of one state: they differ by up to twice, so that another's is never taken and no mean is made. How dense the stand was is a poor predictor, and young stands leave less than tables say: test where it matters.",
		Inputs: []method.Input{
			{Key: "state", About: "state whose table is used", Kind: method.Word, Choices: CreditStates()},
			{Key: "plants", About: "alfalfa plants a square foot when it was ended", Unit: unit.Must("/ft2"), Accepted: method.Range{Low: 0, High: 100}, Optional: true},
			{Key: "texture", About: "soil", Kind: method.Word, Choices: []string{"medium", "fine", "sandy"}, Default: "medium"},
			{Key: "regrowth", About: "height of the fall's regrowth", Unit: unit.Must("in"), Accepted: method.Range{Low: 0, High: 40}, Optional: true},
			{Key: "year", About: "crop after the stand, first or second", Kind: method.Word, Choices: []string{"1", "2"}, Default: "1"},
		},
		Outputs: []method.Output{{Key: "lb_ac", About: "nitrogen credit; the low end where the state prints a range", Unit: lb, Decimals: 0}},
		Sources: []source.ID{source.CreditWisconsin, source.CreditWisMemory, source.CreditIllinois, source.CreditIllMemory, source.CreditMinnesota, source.CreditNebraska, source.CreditPenn, source.CreditRanges},
		Example: "state=Wisconsin plants=4.5 texture=medium regrowth=10",
		Run: func(c *method.Call) error {
			number := func(key string) float64 {
				if !c.Given(key) {
					return math.NaN()
				}
				return c.Num(key)
			}
			n, err := NitrogenCredit(c.Word("state"), Ended{
				Plants: number("plants"), Share: math.NaN(), Regrown: number("regrowth"),
				Sandy: c.Word("texture") == "sandy", Second: c.Word("year") == "2",
			})
			if err != nil {
				return err
			}
			c.Answer("lb_ac", n.Low)
			if n.High > n.Low {
				c.Note("%g to %g lb are printed", n.Low, n.High)
			}
			if n.Note != "" {
				c.Note("%s", n.Note)
			}
			if s, ok := source.Find(n.Source); ok {
				c.Note("%s: %s", s.Grade, s.Cite)
			}
			return nil
		},
	}
}

func emergencyForage() *method.Method {
	var feeds []string
	for _, f := range Feeds() {
		feeds = append(feeds, string(f))
	}
	return &method.Method{
		Name: "emergency-forage", Title: "What can still be sown where a stand was lost",
		About: "Annual forages that can be sown from a day on in the Upper Midwest, those whose time ends first at the head. A state's own guide goes before it; ask about crop insurance before a stand is cut or ended.",
		Inputs: []method.Input{
			{Key: "date", About: "day on which it could be sown", Kind: method.Date},
			{Key: "feed", About: "how it is to be fed", Kind: method.Word, Choices: feeds, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "forages", About: "what can be sown"},
			{Key: "until", About: "last days to sow them"},
			{Key: "days", About: "days to the first cut or grazing, 0 where none are printed", Unit: unit.Must("days"), Decimals: 0},
		},
		Sources: []source.ID{source.EmergencyWinter, source.EmergencyForages, source.EmergencyMillet},
		Example: "date=2026-05-20 feed=silage",
		Run: func(c *method.Call) error {
			day := c.Day("date")
			names, until, days := []string{}, []string{}, []float64{}
			seen := map[string]bool{}
			for _, e := range EmergencyFrom(day, Feed(c.Word("feed"))) {
				names, until, days = append(names, e.Name), append(until, e.Until(day.Year()).String()), append(days, float64(e.Days))
				if e.Danger != "" && !seen[e.Danger] {
					seen[e.Danger] = true
					c.Note("%s: %s", e.Name, e.Danger)
				}
			}
			if len(names) == 0 {
				c.Note("nothing in the list can still be sown: a winter cereal in September is the next, ask the state's guide")
			}
			c.Answer("forages", names)
			c.Answer("until", until)
			c.Answer("days", days)
			return nil
		},
	}
}

func cloverYear() *method.Method {
	return &method.Method{
		Name: "clover-life", Title: "What red clover yields by its year",
		About:   "The share of its best year that a red clover stand gives in a production year. It lives two to three years, newer types a fourth; there is no published guide by density. A reading of ours of its published life.",
		Inputs:  []method.Input{{Key: "age", About: "production year, 1 in the year after seeding", Accepted: method.Range{Low: 1, High: mostYear}, Tested: method.Range{Low: 1, High: 3}}},
		Outputs: []method.Output{{Key: "share", About: "of its best year's yield", Decimals: 2}},
		Sources: []source.ID{source.CloverAge},
		Example: "age=2",
		Run: func(c *method.Call) error {
			if c.Num("age") != math.Floor(c.Num("age")) {
				return errors.New("age: a production year is a whole number, 1 to 20")
			}
			c.Answer("share", CloverByYear(int(c.Num("age"))))
			return nil
		},
	}
}
