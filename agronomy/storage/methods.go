package storage

import (
	_ "embed"
	"fmt"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{
		hayStorageLoss(), siloLoss(), silageLoss(), feedOutLoss(), baleRind(), fieldToBunk(),
		siloTons(), siloLeft(), baleWeight(), packing(), packingPace(), packingWorth(), feedOut(), faceSize(), weeksLeft(),
		baleMoisture(), baleNow(), hayHeat(), siloGas(), lotSample(), coresNeeded(),
	}
}

var (
	percent = unit.Must("%")
	perFoot = unit.Must("lb/ft3")
)

// coefficient is a published number, where it is published and where the model keeps it.
type coefficient struct {
	key    string
	source source.ID
	at     *float64
}

func declare(list []coefficient) (constants []method.Constant) {
	for _, k := range list {
		constants = append(constants, method.Constant{Key: k.key, Value: *k.at, Source: k.source})
	}
	return constants
}

func take(c *method.Call, list []coefficient) {
	for _, k := range list {
		*k.at = c.K(k.key)
	}
}

func ends(name string, id, of source.ID, r *losses.Range) []coefficient {
	return []coefficient{{name, id, &r.Mid}, {name + "_low", of, &r.Low}, {name + "_high", of, &r.High}}
}

func ofHay(k *HayStore) []coefficient {
	list := []coefficient{
		{"inside_intercept", source.HayInside, &k.Intercept},
		{"inside_slope", source.HayInside, &k.Slope},
		{"inside_least", source.HayInside, &k.Least},
		{"inside_low", source.HayEnds, &k.InsideLow},
		{"inside_high", source.HayEnds, &k.InsideHigh},
		{"raised", source.HayOutside, &k.Raised},
	}
	list = append(list, ends("covered", source.HayOutside, source.HayOutsideEnds, &k.Covered)...)
	list = append(list, ends("bare", source.HayOutsideEnds, source.HayOutsideEnds, &k.Bare)...)
	list = append(list, ends("twine", source.HayOutside, source.HayOutsideEnds, &k.Twine)...)
	return append(list, ends("net", source.HayOutside, source.HayOutsideEnds, &k.Net)...)
}

func rangeOutputs(about string) []method.Output {
	return []method.Output{
		{Key: "loss_pct", About: about, Unit: percent, Decimals: 1},
		{Key: "low", About: "the least", Unit: percent, Decimals: 1},
		{Key: "high", About: "the most", Unit: percent, Decimals: 1},
	}
}

func answerRange(c *method.Call, l losses.Loss) {
	pct := l.Share.Percent()
	c.Answer("loss_pct", pct.Mid)
	c.Answer("low", pct.Low)
	c.Answer("high", pct.High)
}

func hayStorageLoss() *method.Method {
	k := PublishedHayStore()
	return &method.Method{
		Name: "hay-storage-loss", Title: "Dry matter that stored hay loses",
		About: "What a storage season takes of hay by its moisture when it was baled, where it lies and what holds the bale. Inside, wetter hay loses more; outside, weather does, most on bare ground. " +
			"The range is wide because seasons, drainage and handling are.",
		Inputs: []method.Input{
			{Key: "moisture", About: "moisture at baling, of fresh weight", Unit: percent, Accepted: method.Range{Low: 5, High: 40}, Tested: method.Range{Low: 11, High: 34}},
			{Key: "place", About: "where it lies", Kind: method.Word, Choices: Places()},
			{Key: "wrap", About: "what holds a round bale; counts outside only", Kind: method.Word, Choices: Wraps(), Default: string(Twine)},
		},
		Outputs:   rangeOutputs("dry matter lost in a season"),
		Constants: declare(ofHay(&k)),
		Sources:   []source.ID{source.HayInside, source.HayOutside, source.HayOutsideEnds, source.HayEnds},
		Example:   "moisture=16 place=outside-ground wrap=net",
		Run: func(c *method.Call) error {
			k := PublishedHayStore()
			take(c, ofHay(&k))
			moisture := c.Num("moisture")
			l, err := k.Loss(moisture, Place(c.Word("place")), Wrap(c.Word("wrap")))
			if err != nil {
				return err
			}
			answerRange(c, l)
			if moisture > PublishedBaling().Inside {
				c.Note("%s", NotInside)
			}
			return nil
		},
	}
}

func ofDensity(k *SilageStore) []coefficient {
	return []coefficient{
		{"bunker_intercept", source.BunkerLine, &k.Intercept},
		{"bunker_slope", source.BunkerLine, &k.Slope},
		{"bunker_loosest", source.BunkerLine, &k.Loosest},
		{"bunker_densest", source.BunkerLine, &k.Densest},
	}
}

func densityInput() method.Input {
	return method.Input{Key: "density", About: "lb of dry matter in a cubic foot", Unit: perFoot, Accepted: method.Range{Low: 2, High: 40}, Tested: method.Range{Low: 10, High: 22}}
}

func siloLoss() *method.Method {
	k := PublishedSilageStore()
	return &method.Method{
		Name: "silo-loss", Title: "Dry matter that a bunker loses, by how well it is packed",
		About:     "What alfalfa in a covered bunker or pile loses in 180 days by its density. Below 10 and above 22 lb the ends of the printed table are held.",
		Inputs:    []method.Input{densityInput()},
		Outputs:   []method.Output{{Key: "loss_pct", About: "dry matter lost", Unit: percent, Decimals: 1}},
		Constants: declare(ofDensity(&k)),
		Sources:   []source.ID{source.BunkerLine},
		Example:   "density=15",
		Run: func(c *method.Call) error {
			k := PublishedSilageStore()
			take(c, ofDensity(&k))
			c.Answer("loss_pct", k.ByDensity(c.Num("density")))
			return nil
		},
	}
}

func silageLoss() *method.Method {
	all := func(k *SilageStore) []coefficient {
		list := append(ofDensity(k), coefficient{"wrapped_at", source.WrappedBales, &k.WrappedAt}, coefficient{"wet_at", source.WetSilage, &k.Wet}, coefficient{"wet_loss", source.WetSilage, &k.WetLoss})
		list = append(list, ends("sealed", source.SiloTypes, source.SiloEnds, &k.Sealed)...)
		list = append(list, ends("bunker", source.SiloTypes, source.SiloEnds, &k.Bunker)...)
		list = append(list, ends("bag", source.SiloTypes, source.SiloEnds, &k.Bag)...)
		list = append(list, ends("stave", source.SiloEnds, source.SiloEnds, &k.Stave)...)
		list = append(list, ends("wrapped_wet", source.WrappedBales, source.SiloEnds, &k.WrappedWet)...)
		return append(list, ends("wrapped_dry", source.WrappedBales, source.SiloEnds, &k.WrappedDry)...)
	}
	k := PublishedSilageStore()
	return &method.Method{
		Name: "silage-loss", Title: "Dry matter that silage loses, by structure",
		About: "What fermenting, seepage and spoilage take of silage between filling and feeding. A bunker or pile of known density goes by silo-loss; above 75 % moisture a fifth or more is lost whatever the structure.",
		Inputs: []method.Input{
			{Key: "structure", About: "what it is stored in; a pile counts as a bunker", Kind: method.Word, Choices: Structures()},
			{Key: "moisture", About: "moisture when it was put in, of fresh weight", Unit: percent, Accepted: method.Range{Low: 25, High: 85}, Tested: method.Range{Low: 30, High: 70}, Default: "62"},
			func() method.Input { in := densityInput(); in.Optional = true; return in }(),
		},
		Outputs:   rangeOutputs("dry matter lost"),
		Constants: declare(all(&k)),
		Sources:   []source.ID{source.SiloTypes, source.WetSilage},
		Example:   "structure=bag moisture=62",
		Run: func(c *method.Call) error {
			k := PublishedSilageStore()
			take(c, all(&k))
			l, err := k.Loss(Structure(c.Word("structure")), c.Num("moisture"), c.Num("density"))
			if err != nil {
				return err
			}
			answerRange(c, l)
			return nil
		},
	}
}

func feedOutLoss() *method.Method {
	all := func(k *FeedOut) []coefficient {
		return []coefficient{
			{"feed_out_turn", source.FeedOutRule, &k.PerTurn},
			{"feed_out_enough", source.FaceRate, &k.Enough},
			{"feed_out_warm", source.FeedOutRule, &k.Warm},
			{"feed_out_most", source.FeedOutRule, &k.Most},
		}
	}
	k := PublishedFeedOut()
	return &method.Method{
		Name: "feed-out-loss", Title: "Spoilage at a face fed too slowly",
		About: "What spoils behind the face of a bunker, pile or bag by how many inches are fed a day. From 12 inches on nothing is added; the rule below that is a choice.",
		Inputs: []method.Input{
			{Key: "rate", About: "inches fed a day", Unit: unit.Must("in/d"), Accepted: method.Range{Low: 0.1, High: 200}, Tested: method.Range{Low: 2, High: 36}},
			{Key: "season", About: "warm weather spoils it faster", Kind: method.Word, Choices: []string{"cool", "warm"}, Default: "cool"},
		},
		Outputs:   rangeOutputs("dry matter lost beside that of storage"),
		Constants: declare(all(&k)),
		Sources:   []source.ID{source.FeedOutRule, source.FaceRate},
		Example:   "rate=6 season=warm",
		Run: func(c *method.Call) error {
			k := PublishedFeedOut()
			take(c, all(&k))
			l, err := k.Loss(c.Num("rate"), c.Word("season") == "warm")
			if err != nil {
				return err
			}
			answerRange(c, l)
			return nil
		},
	}
}

func baleRind() *method.Method {
	return &method.Method{
		Name: "bale-rind", Title: "Share of a round bale in its spoiled rind",
		About: "How much of a round bale a ring of spoiled hay holds: a few inches are a third of the bale.",
		Inputs: []method.Input{
			{Key: "diameter", About: "diameter of the bale", Unit: unit.Must("ft"), Accepted: method.Range{Low: 2, High: 8}},
			{Key: "depth", About: "how deep it is spoiled all round", Unit: unit.Must("in"), Accepted: method.Range{Low: 0, High: 48}},
		},
		Outputs: []method.Output{{Key: "share_pct", About: "of the bale's volume", Unit: percent, Decimals: 1}},
		Sources: []source.ID{source.BaleRind},
		Example: "diameter=5 depth=6",
		Run: func(c *method.Call) error {
			c.Answer("share_pct", 100*Rind(c.Num("diameter"), c.Num("depth")))
			return nil
		},
	}
}

// noteAll leaves the cautions of what was told in the notes and returns the action.
func noteAll(c *method.Call, t Told) string {
	action, cautions := t.Say()
	for _, k := range cautions {
		c.Note("%s", k)
	}
	return action
}

func baleMoisture() *method.Method {
	k := PublishedBaling()
	return &method.Method{
		Name: "bale-moisture", Title: "How wet a bale may be",
		About:     "The most moisture at which hay keeps without a preservative, by package: the lowest of the printed upper limits. Advice stops a point or two lower where tables say so; see bale-now.",
		Inputs:    []method.Input{{Key: "package", About: "how it is baled", Kind: method.Word, Choices: Packages()}},
		Outputs:   []method.Output{{Key: "max_pct", About: "the most moisture, of fresh weight", Unit: percent}},
		Constants: declare(maxima(&k)),
		Sources:   []source.ID{source.BaleLimits, source.BaleLimitsSouth, source.BaleTargets},
		Example:   "package=round",
		Run: func(c *method.Call) error {
			k := PublishedBaling()
			take(c, maxima(&k))
			l, err := k.Of(Package(c.Word("package")))
			if err != nil {
				return err
			}
			c.Answer("max_pct", l.Max)
			c.Note("advice stops at %g %%, where tables differ", l.Target)
			for _, p := range l.Tables {
				s, _ := source.Find(p.Source)
				if p.Low == p.High {
					c.Note("%g %%: %s", p.High, s.Cite)
				} else {
					c.Note("%g to %g %%: %s", p.Low, p.High, s.Cite)
				}
			}
			c.Note("%s", NotInside)
			return nil
		},
	}
}

func maxima(k *Baling) []coefficient {
	return []coefficient{
		{"max_small_square", source.BaleLimits, &k.SmallSquare.Max},
		{"max_round", source.BaleLimits, &k.Round.Max},
		{"max_large_square", source.BaleLimits, &k.LargeSquare.Max},
	}
}

func baleNow() *method.Method {
	all := func(k *Baling) []coefficient {
		return []coefficient{
			{"target_small_square", source.BaleTargets, &k.SmallSquare.Target},
			{"target_round", source.BaleTargets, &k.Round.Target},
			{"target_large_square", source.BaleTargets, &k.LargeSquare.Target},
			{"treated_small_square", source.TreatedLimits, &k.SmallSquare.Treated},
			{"treated_large_square", source.TreatedLimits, &k.LargeSquare.Treated},
		}
	}
	k := PublishedBaling()
	return &method.Method{
		Name: "bale-now", Title: "Bale now, wait, or treat",
		About: "Whether hay of a moisture can be baled. Treat means: wait, or use a preservative as its label says; the rate is for the label and never given here. Go by the wettest windrow.",
		Inputs: []method.Input{
			{Key: "package", About: "how it is baled", Kind: method.Word, Choices: Packages()},
			{Key: "moisture", About: "moisture of the wettest windrow, of fresh weight", Unit: percent, Accepted: method.Range{Low: 5, High: 80}},
		},
		Outputs: []method.Output{
			{Key: "verdict", About: "go, wait or treat"}, {Key: "action", About: "in words"},
			{Key: "limit_pct", About: "moisture at which to go", Unit: percent},
		},
		Constants: declare(all(&k)),
		Sources:   []source.ID{source.BaleLimits, source.BaleLimitsSouth, source.BaleTargets, source.TreatedTrials},
		Example:   "package=large-square moisture=19",
		Run: func(c *method.Call) error {
			k := PublishedBaling()
			take(c, all(&k))
			p := Package(c.Word("package"))
			v, told, err := k.Judge(p, c.Num("moisture"))
			if err != nil {
				return err
			}
			l, err := k.Of(p)
			if err != nil {
				return fmt.Errorf("limits: %w", err)
			}
			c.Answer("verdict", string(v))
			c.Answer("action", noteAll(c, told))
			c.Answer("limit_pct", l.Target)
			return nil
		},
	}
}
