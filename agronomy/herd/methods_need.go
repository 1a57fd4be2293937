package herd

import (
	"fmt"
	"math"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func forageLimit() *method.Method {
	return &method.Method{
		Name: "forage-limit", Title: "Most forage a cow can eat",
		About: "How much forage fills a cow, from the share of her weight that she can take as forage fibre. " +
			"Sources disagree on the share: 0.9 % is usual, 1.1-1.2 called an upper limit, 1.3-1.8 seen in high-forage and grazing herds.",
		Inputs: []method.Input{
			weight("weight of the cow", 100, 300),
			{Key: "ndf", About: "NDF of the forage", Unit: percent, Accepted: method.Range{Low: 20, High: 80}, Tested: method.Range{Low: 30, High: 70}},
			{Key: "share", About: "forage fibre a day, of her weight", Unit: percent, Accepted: method.Range{Low: 0.3, High: 2.5}, Tested: method.Range{Low: 0.75, High: 1.8}},
		},
		Outputs: []method.Output{
			{Key: "kg_day", About: "forage dry matter a day", Unit: kgDay, Decimals: 1},
			{Key: "lb_day", About: "the same in pounds", Unit: unit.Must("lb/day"), Decimals: 1},
		},
		Sources: []source.ID{source.ForageFibre},
		Example: "weight=1500lb ndf=60 share=1.2",
		Run: func(c *method.Call) error {
			kg := ForageLimit(c.Num("weight"), c.Num("ndf"), c.Num("share"))
			c.Answer("kg_day", kg)
			c.Answer("lb_day", kg/kgAPound)
			return nil
		},
	}
}

func dietFibre() *method.Method {
	k := PublishedDietLimits()
	return &method.Method{
		Name: "diet-fibre", Title: "Whether a milking diet has its fibre",
		About: "The share of forage in a milking diet and the fibre that comes from it, against published limits: too little sours the rumen, too much forage costs milk. A check and no ration.",
		Inputs: []method.Input{
			{Key: "forage_share", About: "share of forage in the diet's dry matter", Accepted: shareOf1},
			{Key: "forage_ndf", About: "NDF of the forage", Unit: percent, Accepted: method.Range{Low: 20, High: 80}, Tested: method.Range{Low: 30, High: 70}},
			{Key: "diet_ndf", About: "NDF of the whole diet", Unit: percent, Accepted: method.Range{Low: 10, High: 80}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "ndf_from_forage", About: "fibre from forage, of the diet", Unit: percent, Decimals: 1},
			{Key: "flags", About: "limits that it breaks"},
		},
		Constants: []method.Constant{
			constant("forage_ndf_low", k.ForageNDFLow, source.ForageFloor), constant("forage_ndf_safe", k.ForageNDFSafe, source.ForageFloor),
			constant("diet_ndf", k.NDF, source.ForageShares), constant("forage_low", k.ForageLow, source.ForageShares), constant("forage_high", k.ForageHigh, source.ForageShares),
		},
		Sources: []source.ID{source.ForageFloor, source.ForageShares},
		Example: "forage_share=0.55 forage_ndf=42 diet_ndf=31",
		Run: func(c *method.Call) error {
			k := DietLimits{c.K("forage_ndf_low"), c.K("forage_ndf_safe"), c.K("diet_ndf"), c.K("forage_low"), c.K("forage_high")}
			dietNDF := -1.
			if c.Given("diet_ndf") {
				dietNDF = c.Num("diet_ndf")
			}
			from := ForageNDF(c.Num("forage_share"), c.Num("forage_ndf"))
			if dietNDF >= 0 && dietNDF < from {
				return fmt.Errorf("diet_ndf %g is under the %.1f %% that comes from forage alone: accepted from that on", dietNDF, from)
			}
			c.Answer("ndf_from_forage", from)
			c.Answer("flags", k.Flags(c.Num("forage_share"), from, dietNDF))
			return nil
		},
	}
}

// groupInputs are the columns of a table of groups.
func groupInputs() []method.Input {
	return []method.Input{
		{Key: "group", About: "name of each group", Kind: method.Words},
		{Key: "head", About: "animals in each", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: mostHead}},
		{Key: "dmi_lb", About: "dry matter a head and day", Kind: method.Numbers, Unit: unit.Must("lb/day"), Accepted: method.Range{Low: 0, High: mostIntake}, Tested: method.Range{Low: 0, High: 75}},
		{Key: "forage_share", About: "share of forage in it", Kind: method.Numbers, Accepted: shareOf1},
	}
}

func groupsOf(c *method.Call) ([]Group, error) {
	names, head, dmi, share := c.Words("group"), c.List("head"), c.List("dmi_lb"), c.List("forage_share")
	if len(head) != len(names) || len(dmi) != len(names) || len(share) != len(names) {
		return nil, fmt.Errorf("%d groups, %d head, %d dmi_lb and %d forage_share: want one of each for every group", len(names), len(head), len(dmi), len(share))
	}
	groups := make([]Group, len(names))
	for i, name := range names {
		groups[i] = Group{Name: name, Head: head[i], IntakeLb: dmi[i], ForageShare: share[i]}
	}
	return groups, nil
}

func loss(key, about string) method.Input {
	return method.Input{Key: key, About: about, Accepted: method.Range{Low: 0, High: 0.9}, Tested: method.Range{Low: 0, High: 0.4}}
}

func lossList(key, about string) method.Input {
	in := loss(key, about+"; one number stands for all")
	in.Kind = method.Numbers
	return in
}

func herdNeed() *method.Method {
	tons := unit.Must("tons/yr")
	return &method.Method{
		Name: "herd-need", Title: "Forage a herd needs in a year",
		About: "Tons of forage and of legume forage that all groups eat in a year, and the acres of legume that grow it. Give the groups as lists, or @groups.csv with columns group, head, dmi_lb, forage_share, legume_share. " +
			"Plans take about 0.15 lost between field and store and 0.10 between store and mouth.",
		Inputs: append(groupInputs(),
			method.Input{Key: "legume_share", About: "share of legume in the forage", Kind: method.Numbers, Accepted: shareOf1},
			loss("storage_loss", "share lost in store"), loss("feeding_loss", "share lost at feeding"), loss("field_loss", "share of the standing crop lost in harvest"),
			method.Input{Key: "yield", About: "standing yield of legume a year, dry matter", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.1, High: mostOfYield}, Tested: method.Range{Low: 1, High: 9}},
			method.Input{Key: "reserve", About: "kept over the year's need, as a share of it", Accepted: method.Range{Low: 0, High: 2}, Default: "0"}),
		Outputs: []method.Output{
			{Key: "forage", About: "forage eaten, dry matter", Unit: tons, Decimals: 1},
			{Key: "legume", About: "of it legume", Unit: tons, Decimals: 1},
			{Key: "acres", About: "acres of legume", Unit: unit.Must("ac"), Decimals: 1},
		},
		Sources: []source.ID{source.HerdNeed},
		Example: "group=high,low,dry head=50,35,15 dmi_lb=61.9,51.97,31.17 forage_share=0.5,0.58,0.85 legume_share=0.45,0.45,0.25 storage_loss=0.12 feeding_loss=0.05 field_loss=0.15 yield=5",
		Run: func(c *method.Call) error {
			groups, err := groupsOf(c)
			if err != nil {
				return err
			}
			legume := c.List("legume_share")
			if len(legume) != len(groups) {
				return fmt.Errorf("%d legume_share for %d groups: want one for every group", len(legume), len(groups))
			}
			for i := range groups {
				groups[i].Parts = legume[i : i+1]
			}
			n, err := Year(groups, []Forage{{
				Name: "legume", Yield: c.Num("yield"), Reserve: c.Num("reserve"),
				Losses: Losses{Field: c.Num("field_loss"), Storage: c.Num("storage_loss"), Feeding: c.Num("feeding_loss")},
			}})
			if err != nil {
				return err
			}
			c.Answer("forage", n.Forage)
			c.Answer("legume", n.Forages[0].Fed)
			c.Answer("acres", n.Forages[0].Acres)
			return nil
		},
	}
}

func foragePlan() *method.Method {
	tons := unit.Must("tons/yr")
	return &method.Method{
		Name: "forage-plan", Title: "Tons and acres of each forage",
		About: "As herd-need, for every forage that is grown: how much each group's forage is made up of each, and its own yield, losses and reserve. parts has a row for each group and a number for each forage.",
		Inputs: append(groupInputs(),
			method.Input{Key: "forages", About: "forages grown", Kind: method.Words},
			method.Input{Key: "parts", About: "share of each forage in the forage of each group", Kind: method.Matrix, Accepted: shareOf1},
			method.Input{Key: "yields", About: "standing yield of each forage, dry matter", Kind: method.Numbers, Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.1, High: mostOfYield}, Tested: method.Range{Low: 1, High: 12}},
			lossList("field_loss", "share of the standing crop lost in harvest"), lossList("storage_loss", "share lost in store"), lossList("feeding_loss", "share lost at feeding"),
			method.Input{Key: "reserve", About: "kept over the year's need, as a share of it; one number stands for all", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 2}, Default: "0"}),
		Outputs: []method.Output{
			{Key: "forage", About: "all forage eaten, dry matter", Unit: tons, Decimals: 1},
			{Key: "fed", About: "eaten of each forage", Unit: tons, Decimals: 1},
			{Key: "stored", About: "put into store of each", Unit: tons, Decimals: 1},
			{Key: "standing", About: "standing crop of each", Unit: tons, Decimals: 1},
			{Key: "acres", About: "acres of each", Unit: unit.Must("ac"), Decimals: 1},
		},
		Sources: []source.ID{source.HerdNeed},
		Example: "group=cows,young head=100,100 dmi_lb=54,17 forage_share=0.55,0.8 forages=haylage,corn-silage parts=0.45,0.55;0.6,0.4 yields=5,7.5 field_loss=0.15,0.05 storage_loss=0.12 feeding_loss=0.05 reserve=0.1",
		Run:     runForagePlan,
	}
}

func runForagePlan(c *method.Call) error {
	groups, err := groupsOf(c)
	if err != nil {
		return err
	}
	names, rows := c.Words("forages"), c.Rows("parts")
	if len(rows) != len(groups) || len(rows[0]) != len(names) {
		return fmt.Errorf("parts has %d rows of %d: want %d rows, one for each group, of %d, one for each forage", len(rows), len(rows[0]), len(groups), len(names))
	}
	for i := range groups {
		groups[i].Parts = rows[i]
	}
	lists := map[string][]float64{}
	for _, key := range []string{"yields", "field_loss", "storage_loss", "feeding_loss", "reserve"} {
		v := c.List(key)
		if len(v) != len(names) && (len(v) != 1 || key == "yields") {
			return fmt.Errorf("%d %s for %d forages: want one for each", len(v), key, len(names))
		}
		lists[key] = v
	}
	at := func(key string, i int) float64 { return lists[key][min(i, len(lists[key])-1)] }
	forages := make([]Forage, len(names))
	for i, name := range names {
		forages[i] = Forage{name, at("yields", i), Losses{at("field_loss", i), at("storage_loss", i), at("feeding_loss", i)}, at("reserve", i)}
	}
	n, err := Year(groups, forages)
	if err != nil {
		return err
	}
	c.Answer("forage", n.Forage)
	for key, of := range map[string]func(Tons) float64{
		"fed": func(t Tons) float64 { return t.Fed }, "stored": func(t Tons) float64 { return t.Stored },
		"standing": func(t Tons) float64 { return t.Cut }, "acres": func(t Tons) float64 { return t.Acres },
	} {
		list := make([]float64, len(n.Forages))
		for i, t := range n.Forages {
			list[i] = of(t)
		}
		c.Answer(key, list)
	}
	return nil
}

func qualityTarget() *method.Method {
	const printed = "where the table names it"
	return &method.Method{
		Name: "quality-target", Title: "Forage quality for a group of animals",
		About: "The forage quality that a group wants, by state. The Minnesota table is 10-25 points stricter than the Wisconsin bands; choose one and keep to it. Better than wanted is waste, and makes heifers and dry cows fat.",
		Inputs: []method.Input{
			{Key: "group", About: "group of animals", Kind: method.Word, Choices: Groups()},
			{Key: "table", About: "whose table", Kind: method.Word, Choices: []string{"minnesota", "wisconsin"}, Default: "minnesota"},
			{Key: "rfq", About: "a forage to judge by", Accepted: method.Range{Low: 40, High: 350}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "rfq_low", About: "relative forage quality from", When: printed}, {Key: "rfq_high", About: "to", When: printed},
			{Key: "cp_low", About: "crude protein from", Unit: percent, When: printed}, {Key: "cp_high", About: "to", Unit: percent, When: printed},
			{Key: "ndf_low", About: "NDF from", Unit: percent, When: printed}, {Key: "ndf_high", About: "to", Unit: percent, When: printed},
			{Key: "ndfd_low", About: "digestibility of NDF from", Unit: percent, When: printed}, {Key: "ndfd_high", About: "to", Unit: percent, When: printed},
			{Key: "verdict", About: "how the forage suits", When: "with rfq"},
		},
		Sources: []source.ID{source.QualityMinnesota, source.QualityBands, source.TooGood},
		Example: "group=early-cows rfq=158",
		Run: func(c *method.Call) error {
			targets := MinnesotaTargets()
			if c.Word("table") == "wisconsin" {
				targets = WisconsinTargets()
				c.Note("the Wisconsin bands are from memory")
			}
			t, err := targets.For(c.Word("group"))
			if err != nil {
				return err
			}
			for key, b := range map[string]Band{"rfq": t.RFQ, "cp": t.CP, "ndf": t.NDF, "ndfd": t.NDFD} {
				for end, v := range map[string]float64{"_low": b.Low, "_high": b.High} {
					if !math.IsNaN(v) {
						c.Answer(key+end, v)
					}
				}
			}
			if c.Given("rfq") {
				c.Answer("verdict", string(t.Judge(c.Num("rfq"))))
			}
			return nil
		},
	}
}
