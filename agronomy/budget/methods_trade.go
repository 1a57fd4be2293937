package budget

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

func standingHay() *method.Method {
	return &method.Method{
		Name: "standing-hay", Title: "What an uncut crop is worth, by cost",
		About:   "What the hay will sell for, less what is lost and what the buyer spends on harvest. See standing-share for the rule of halves.",
		Inputs:  []method.Input{yield("standing yield, dry matter"), price("price", "price of hay, a ton of dry matter"), share("loss", "share lost in harvest"), cost("harvest", "cost of harvest")},
		Outputs: []method.Output{out("value_ac", "an acre of the crop", perAcre, 2)},
		Sources: []source.ID{source.StandingCost},
		Example: "yield=1.6 price=200 loss=0.1 harvest=70",
		Run: func(c *method.Call) error {
			v := Standing(c.Num("yield"), c.Num("price"), c.Num("loss"), c.Num("harvest"))
			c.Answer("value_ac", v)
			if v < 0 {
				c.Note("harvest costs more than the crop brings: it is worth nothing uncut")
			}
			return nil
		},
	}
}

func standingShare() *method.Method {
	var constants []method.Constant
	for _, s := range PublishedCutShares() {
		id := source.CutSharesUW
		if s.By == "hoards" {
			id = source.CutSharesHoard
		}
		for i, v := range s.Shares {
			constants = append(constants, constant(fmt.Sprintf("cut_%d_of_%d", i+1, len(s.Shares)), v, "", id))
		}
	}
	// A key is declared once in a method, and both tables name their cuts alike.
	for i := range constants {
		if constants[i].Source == source.CutSharesHoard {
			constants[i].Key += "_hoards"
		}
	}
	return &method.Method{
		Name: "standing-share", Title: "What an uncut crop is worth, by the rule of halves",
		About: "Half of the hay's price for the crop, half for harvest, loss and risk; for the year, or for one of 3 or 4 cuts by its share of the year.",
		Inputs: []method.Input{
			yield("the year's yield, dry matter"), price("price", "price of hay, a ton of dry matter"),
			byDefault(share("share", "share of the price that is the crop's"), "0.5"),
			{Key: "cuts", About: "cuts a year", Accepted: method.Range{Low: 3, High: 4}, Optional: true},
			{Key: "cut", About: "which cut; left out, the whole year", Accepted: method.Range{Low: 1, High: 4}, Optional: true},
			{Key: "by", About: "whose shares of the cuts", Kind: method.Word, Choices: []string{"wisconsin", "hoards"}, Default: "wisconsin"},
		},
		Outputs: []method.Output{
			out("value_ac", "an acre of the crop", perAcre, 2),
			when(out("cut_share", "share of the year in the cut", unit.None, 2), "with cut"),
		},
		Constants: constants,
		Sources:   []source.ID{source.StandingHalf, source.CutSharesUW, source.CutSharesHoard},
		Example:   "yield=4 price=180 cuts=4 cut=1",
		Run: func(c *method.Call) error {
			if c.Given("cuts") != c.Given("cut") {
				return fmt.Errorf("cuts and cut belong together: give both, or neither for the whole year; accepted cuts 3 or 4, cut 1 to cuts")
			}
			part := 1.
			if c.Given("cut") {
				cuts, err := whole(c, "cuts")
				if err != nil {
					return err
				}
				cut, err := whole(c, "cut")
				if err != nil {
					return err
				}
				table := PublishedCutShares()
				for i, s := range table {
					for j := range s.Shares {
						name := fmt.Sprintf("cut_%d_of_%d", j+1, len(s.Shares))
						if s.By == "hoards" {
							name += "_hoards"
						}
						table[i].Shares[j] = c.K(name)
					}
				}
				if part, err = ShareOf(table, c.Word("by"), cuts, cut); err != nil {
					return err
				}
				c.Answer("cut_share", part)
			}
			c.Answer("value_ac", StandingShare(c.Num("yield"), c.Num("price"), c.Num("share"))*part)
			return nil
		},
	}
}

// answerBargain answers two walk-away prices and what lies between.
func answerBargain(c *method.Call, b Bargain, most, least string) error {
	c.Answer(most, b.Most)
	c.Answer(least, b.Least)
	told, err := risk.Tell(risk.Estimate{Value: b.Most, Error: c.Num("error")}, risk.Estimate{Value: b.Least, Error: c.Num("error")}, 0)
	if err != nil {
		return err
	}
	switch {
	case told.Told == risk.NoDifference && told.Error > 0:
		c.Answer("verdict", "too close to call")
	case b.Room():
		c.Answer("verdict", "there is room")
	default:
		c.Answer("verdict", "no price suits both")
	}
	if b.Room() {
		c.Answer("middle", b.Middle())
	}
	return nil
}

func within(of string, u unit.Unit) method.Input {
	return method.Input{Key: "error", About: "error of each side's " + of + ", a standard deviation", Unit: u, Accepted: method.Range{Low: 0, High: 1000}, Default: "0"}
}

func hayBid() *method.Method {
	const room = "with room between them"
	return &method.Method{
		Name: "hay-bid", Title: "Bid and walk-away prices for hay",
		About: "The most that the buyer can pay at the seller's farm, from what a ton eaten is worth to him; the least that the seller can take, from his other outlet; and the middle, where one may start. Money already spent on the hay is in neither.",
		Inputs: []method.Input{
			price("worth", "worth of a ton of dry matter eaten, to the buyer"),
			{Key: "dm", About: "dry matter of the hay, 0 to 1", Accepted: method.Range{Low: 0.2, High: 1}},
			share("loss", "share lost between delivery and mouth"),
			tonCost("freight", "to the buyer, a ton as fed"), tonCost("other", "what another would pay the seller, a ton as fed"),
			byDefault(tonCost("hauling", "to that other buyer, a ton as fed"), "0"), byDefault(tonCost("cost", "still to spend before this sale, a ton as fed"), "0"),
			within("price", perTon),
		},
		Outputs: []method.Output{
			out("buyer_most", "the buyer walks away above", perTon, 2), out("seller_least", "the seller walks away below", perTon, 2),
			when(out("middle", "halfway", perTon, 2), room), out("verdict", "whether there is room", unit.None, 0),
		},
		Sources: []source.ID{source.Bargain, source.NoDifference},
		Example: "worth=240 dm=0.88 loss=0.08 freight=20 other=165 hauling=10",
		Run: func(c *method.Call) error {
			h := HayTrade{c.Num("worth"), c.Num("dm"), c.Num("loss"), c.Num("freight"), c.Num("other"), c.Num("hauling"), c.Num("cost")}
			return answerBargain(c, h.Prices(), "buyer_most", "seller_least")
		},
	}
}

func landRent() *method.Method {
	return &method.Method{
		Name: "land-rent", Title: "Rent for hay land",
		About: "The most rent that the crop leaves after all other costs, the tenant's time and machines in them, and the least that the owner can take.",
		Inputs: []method.Input{
			yield("yield, dry matter, harvested"), price("price", "price of hay, a ton of dry matter"), cost("costs", "the tenant's costs but land"),
			cost("owner", "the owner's own costs: tax, upkeep"), byDefault(cost("other", "the best other rent"), "0"), within("rent", perAcre),
		},
		Outputs: []method.Output{
			out("tenant_most", "the tenant walks away above", perAcre, 2), out("owner_least", "the owner walks away below", perAcre, 2),
			when(out("middle", "halfway", perAcre, 2), "with room between them"), out("verdict", "whether there is room", unit.None, 0),
		},
		Sources: []source.ID{source.Bargain, source.NoDifference},
		Example: "yield=4.5 price=190 costs=629 owner=60 other=180",
		Run: func(c *method.Call) error {
			r := Rent{c.Num("yield"), c.Num("price"), c.Num("costs"), c.Num("owner"), c.Num("other")}
			return answerBargain(c, r.Prices(), "tenant_most", "owner_least")
		},
	}
}

func cropShare() *method.Method {
	pairs := func(key, who string) method.Input {
		in := cost(key, "what the "+who+" puts in, named: land:200,seed:40")
		in.Kind = method.Pairs
		return in
	}
	return &method.Method{
		Name: "crop-share", Title: "How to part a crop by what each puts in",
		About:  "The crop is parted as the costs are: who bears 60 % of them gets 60 % of the hay. Put a fair price on land, time and machines on both sides.",
		Inputs: []method.Input{pairs("owner", "owner"), pairs("tenant", "tenant"), yield("yield, dry matter, harvested"), price("price", "price of hay, a ton of dry matter")},
		Outputs: []method.Output{
			out("owner_share", "the owner's share of the crop", unit.None, 3), out("owner_tons", "the owner's hay, dry matter", tonsAc, 2),
			out("owner_net", "what it leaves him over what he put in", perAcre, 2), out("tenant_net", "what the rest leaves the tenant", perAcre, 2),
		},
		Sources: []source.ID{source.CropShare},
		Example: "owner=land:200,lime:12 tenant=seed:35,fertiliser:165,harvest:220,storage:54 yield=4.5 price=190",
		Run: func(c *method.Call) error {
			owner, tenant := sum(c.Pairs("owner")), sum(c.Pairs("tenant"))
			if owner+tenant == 0 {
				return fmt.Errorf("owner and tenant put in nothing: accepted 0 to 20000 $/ac in each line, and one over 0")
			}
			part := Shared(owner, tenant)
			value := c.Num("yield") * c.Num("price")
			c.Answer("owner_share", part)
			c.Answer("owner_tons", part*c.Num("yield"))
			c.Answer("owner_net", part*value-owner)
			c.Answer("tenant_net", (1-part)*value-tenant)
			return nil
		},
	}
}

func sum(pairs []method.Pair) (total float64) {
	for _, p := range pairs {
		total += p.Value
	}
	return total
}
