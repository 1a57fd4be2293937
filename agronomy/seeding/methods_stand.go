package seeding

import (
	"errors"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

var errOneGoal = errors.New("give one of goal (live seeds a square foot) and pls_lb (pounds of pure live seed an acre), and not both")

func lastDay() *method.Method {
	return &method.Method{
		Name: "seeding-last-day", Title: "Last day to sow before winter",
		About: "The day that leaves so many weeks of growth after emergence before a killing frost. Eight weeks is the default; printed advice runs from six to ten.",
		Inputs: []method.Input{
			{Key: "frost", About: "day of the killing frost, 24 F, at the chance you choose", Kind: method.Date},
			{Key: "weeks", About: "growth wanted after emergence, in weeks", Accepted: method.Range{Low: 1, High: 20}, Tested: method.Range{Low: 6, High: 10}, Default: "8"},
			{Key: "emergence_days", About: "days from sowing to emergence", Unit: unit.Must("days"), Accepted: method.Range{Low: 1, High: 60}, Tested: method.Range{Low: 4, High: 21}, Default: "10"},
		},
		Outputs: []method.Output{{Key: "date", About: "last day to sow"}},
		Sources: []source.ID{source.LastSeeding},
		Example: "frost=2026-10-05",
		Run: func(c *method.Call) error {
			c.Answer("date", LastDay(c.Day("frost"), c.Num("weeks"), c.Num("emergence_days")))
			return nil
		},
	}
}

func survival() *method.Method {
	k := PublishedSurvival()
	perFt2 := unit.Must("/ft2")
	return &method.Method{
		Name: "seedling-survival", Title: "Plants from live seeds",
		About:  "How many alfalfa plants a square foot to expect at emergence and in two springs. A usual course, not a forecast: count the stand.",
		Inputs: []method.Input{{Key: "live_seeds_ft2", About: "live seeds laid down", Unit: perFt2, Accepted: method.Range{Low: 0, High: 1000}, Tested: method.Range{Low: 20, High: 120}}},
		Outputs: []method.Output{
			{Key: "emerged", About: "seedlings 3-4 weeks after sowing", Unit: perFt2, Decimals: 1},
			{Key: "spring1", About: "plants in the first spring", Unit: perFt2, Decimals: 1},
			{Key: "spring2", About: "plants a year later", Unit: perFt2, Decimals: 1},
		},
		Constants: []method.Constant{
			{Key: "emerge", Value: float64(k.Emerge), Source: source.SeedlingSurvival},
			{Key: "first_winter", Value: float64(k.FirstWinter), Source: source.SeedlingSurvival},
			{Key: "second_year", Value: float64(k.SecondYear), Source: source.SeedlingSurvival},
			{Key: "most", Value: float64(k.Most), Unit: "plants/ft2", Source: source.SeedlingCap},
		},
		Sources: []source.ID{source.SeedlingSurvival, source.SeedlingCap},
		Example: "live_seeds_ft2=60",
		Run: func(c *method.Call) error {
			p := Survival{
				Emerge: unit.Share(c.K("emerge")), FirstWinter: unit.Share(c.K("first_winter")),
				SecondYear: unit.Share(c.K("second_year")), Most: unit.PerFt2(c.K("most")),
			}.From(unit.PerFt2(c.Num("live_seeds_ft2")))
			c.Answer("emerged", float64(p.Emerged))
			c.Answer("spring1", float64(p.Spring1))
			c.Answer("spring2", float64(p.Spring2))
			c.Note("the second-year share is disputed: the source's counts give 0.34, its text 0.60 to 0.70")
			return nil
		},
	}
}

func reseeding() *method.Method {
	words := func(w [3]string) []string { return w[:] }
	top, res, soil, till := Topgrowths(), Resistances(), Soils(), Tillages()
	return &method.Method{
		Name: "reseeding-risk", Title: "Risk of sowing alfalfa after alfalfa",
		About: "Points and class of the risk that old alfalfa harms new. The weights are recalled and not read; a stand of a year or more wants another crop first, whatever the points.",
		Inputs: []method.Input{
			{Key: "topgrowth", About: "growth left on or worked into the field", Kind: method.Word, Choices: words(top)},
			{Key: "resistance", About: "disease resistance of the variety to be sown", Kind: method.Word, Choices: words(res)},
			{Key: "rain", About: "rain and irrigation before reseeding", Unit: unit.Must("in"), Accepted: method.Range{Low: 0, High: 100}},
			{Key: "soil", About: "soil", Kind: method.Word, Choices: words(soil)},
			{Key: "tillage", About: "tillage before reseeding", Kind: method.Word, Choices: words(till)},
			{Key: "age", About: "age of the old stand", Unit: unit.Must("yr"), Accepted: method.Range{Low: 0, High: 50}},
			{Key: "delay", About: "time from its death to the seeding", Unit: unit.Must("months"), Accepted: method.Range{Low: 0, High: 240}},
		},
		Outputs: []method.Output{
			{Key: "points", About: "points, 0 to 51", Decimals: 1},
			{Key: "class", About: "what they mean"},
		},
		Constants: scoreConstants(),
		Sources:   []source.ID{source.ReseedingScore, source.ReseedingBetween, source.ReseedingGap},
		Example:   "topgrowth=under-1-ton resistance=moderate rain=1.5 soil=loamy tillage=chisel age=4 delay=6",
		Run: func(c *method.Call) error {
			r, err := scoreOf(c).Of(Old{
				Topgrowth: c.Word("topgrowth"), Resistance: c.Word("resistance"), Rain: c.Num("rain"), Soil: c.Word("soil"),
				Tillage: c.Word("tillage"), Age: c.Num("age"), Delay: c.Num("delay"),
			})
			if err != nil {
				return err
			}
			c.Answer("points", r.Points)
			c.Answer("class", r.Class)
			c.Note("weights of the score are from memory")
			if r.AnotherCrop {
				c.Note("the old stand is a year or older and gone for less than 12 months: grow another crop first")
			}
			return nil
		},
	}
}

// scoreKeys ties each constant of the score to its place.
func scoreKeys(s *Score) []struct {
	key string
	at  *float64
} {
	type place = struct {
		key string
		at  *float64
	}
	var list []place
	for _, q := range []struct {
		words  [3]string
		key    string
		points *[3]float64
	}{
		{Topgrowths(), "topgrowth", &s.Topgrowth},
		{Resistances(), "resistance", &s.Resistance},
		{[3]string{"over-2-in", "1-2-in", "under-1-in"}, "rain", &s.Rain},
		{Soils(), "soil", &s.Soil},
		{Tillages(), "tillage", &s.Tillage},
	} {
		for i, w := range q.words {
			list = append(list, place{q.key + "-" + w, &q.points[i]})
		}
	}
	return append(list,
		place{"age-1-2", &s.Middle}, place{"age-over-2", &s.Aged},
		place{"delay-6-months", &s.HalfYear}, place{"delay-2-4-weeks", &s.FewWeeks}, place{"delay-none", &s.NoDelay})
}

func scoreConstants() []method.Constant {
	s := PublishedScore()
	var list []method.Constant
	for _, p := range scoreKeys(&s) {
		list = append(list, method.Constant{Key: p.key, Value: *p.at, Source: source.ReseedingScore})
	}
	return list
}

func scoreOf(c *method.Call) Score {
	s := PublishedScore()
	for _, p := range scoreKeys(&s) {
		*p.at = c.K(p.key)
	}
	return s
}

func diseaseIndex() *method.Method {
	ratings := []string{"HR", "R", "MR", "LR", "S"}
	k := PublishedDiseasePoints()
	m := &method.Method{
		Name: "disease-index", Title: "Disease resistance index of a variety",
		About:   "Points over six diseases: bacterial, Fusarium and Verticillium wilt, anthracnose, Phytophthora and Aphanomyces (race 1) root rot, in this order. Seed lists that count five or seven diseases have another maximum.",
		Inputs:  []method.Input{{Key: "ratings", About: "six ratings, S for a disease not tested", Kind: method.Words, Choices: ratings}},
		Outputs: []method.Output{{Key: "points", About: "points"}, {Key: "of", About: "the most that six can have"}},
		Sources: []source.ID{source.DiseaseIndex},
		Example: "ratings=HR,HR,R,HR,MR,R",
		Run: func(c *method.Call) error {
			points := DiseasePoints{}
			for _, r := range ratings {
				points[Rating(r)] = c.K(r)
			}
			var given []Rating
			for _, r := range c.Words("ratings") {
				given = append(given, Rating(r))
			}
			got, most, err := points.Index(given)
			if err != nil {
				return err
			}
			c.Answer("points", got)
			c.Answer("of", most)
			return nil
		},
	}
	for _, r := range ratings {
		m.Constants = append(m.Constants, method.Constant{Key: r, Value: k[Rating(r)], Source: source.DiseaseIndex})
	}
	return m
}
