package allot

import (
	"context"
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method { return []*method.Method{allocate()} }

var (
	lotColumns   = []string{"lot", "tons", "rfq", "ndf", "value", "sell"}
	groupColumns = []string{"group", "tons", "rfq_min", "ndf_max", "buy", "buy_ndf"}
)

// worthTo begins the name of a column that says what a ton of a lot is worth fed to a group.
const worthTo = "worth_"

func allocate() *method.Method {
	return &method.Method{
		Name: "allocate", Title: "Which feed to which animals",
		About: "The cheapest way to share lots among groups, what to buy, and what one more ton of each is worth. lots has the columns lot, tons, rfq, ndf and value, what a ton would bring unfed (or sell: what is left is sold, and the cost is net of it; or worth_GROUP, what a ton is worth fed to a group). " +
			"groups has group, tons, rfq_min, ndf_max, buy, the price delivered (empty: none can be had), and buy_ndf. Without any price the least tons are bought. Often several plans cost the same: the one told wastes the least quality.",
		Inputs: []method.Input{
			{Key: "lots", About: "feed in store, tons of dry matter after what it still loses", Kind: method.Sheet},
			{Key: "groups", About: "what eats, tons of dry matter", Kind: method.Sheet},
			{Key: "rule", About: "each lot reaches the group's RFQ, or the blend keeps under its NDF", Kind: method.Word, Choices: []string{string(ByFloor), string(ByBlend)}, Default: string(ByFloor)},
			{Key: "whole", About: "each lot to one group only", Kind: method.Word, Choices: []string{"yes", "no"}, Default: "no"},
		},
		Outputs: []method.Output{
			{Key: "cost", About: "of what is fed and bought; without prices the tons bought", Unit: unit.Must("$")},
			{Key: "shares", About: "tons of each lot to each group", Unit: unit.Must("ton"), Decimals: 1},
			{Key: "shadow", About: "of a lot what one more ton saves, of a group what one more ton costs, of ndf of a group what one point more saves", When: "with lots split", Decimals: 2},
			{Key: "gaps", About: "tons short in quantity and in quality", Unit: unit.Must("ton"), Decimals: 1},
		},
		Sources: []source.ID{source.Allocation},
		Example: "lots=lot,tons,rfq,ndf,value;first,120,172,37,205;second,180,165,38,200;rained,100,105,52,95 groups=group,tons,rfq_min,ndf_max,buy,buy_ndf;cows,220,155,39,260,36;heifers,130,115,48,160,46 rule=floor",
		Run:     run,
	}
}

func run(c *method.Call) error {
	a := Ask{Rule: Rule(c.Word("rule")), Whole: c.Word("whole") == "yes", Tons: true}
	groups, err := read("groups", c.Sheet("groups"), groupColumns, false)
	if err != nil {
		return err
	}
	for _, r := range groups {
		a.Groups = append(a.Groups, Group{Name: r.name, Tons: r.must("tons"), Floor: r.of("rfq_min"), Ceiling: r.of("ndf_max"), Buy: r.of("buy"), BuyNDF: r.of("buy_ndf")})
		a.Tons = a.Tons && !r.has("buy")
	}
	lots, err := read("lots", c.Sheet("lots"), lotColumns, true)
	if err != nil {
		return err
	}
	for _, r := range lots {
		l := Lot{Name: r.name, Tons: r.must("tons"), RFQ: r.of("rfq"), NDF: r.of("ndf")}
		switch {
		case r.has("value") && r.has("sell"):
			return fmt.Errorf("lots: lot %s has a value and a price to sell at: give one of the two columns, value for feed that is kept, sell for what is sold", r.name)
		case r.has("sell"):
			l.Value, a.Sold, a.Tons = r.of("sell"), true, false
		case r.has("value"):
			l.Value, a.Tons = r.of("value"), false
		}
		for _, g := range a.Groups {
			if r.has(worthTo + g.Name) {
				if l.Worth == nil {
					l.Worth = map[string]float64{}
				}
				l.Worth[g.Name], a.Tons = r.of(worthTo+g.Name), false
			}
		}
		a.Lots = append(a.Lots, l)
	}
	p, err := Share(context.Background(), a)
	if err != nil {
		return err
	}
	answer(c, p)
	return nil
}

func answer(c *method.Call, p *Plan) {
	if c.Answer("cost", p.Cost); p.Ask.Tons {
		c.AnswerIn("cost", p.Cost, unit.Must("ton"))
	}
	grid := method.Grid{}
	for _, g := range p.Ask.Groups {
		grid.Columns = append(grid.Columns, g.Name)
	}
	grid.Columns = append(grid.Columns, Left)
	for i, l := range p.Ask.Lots {
		grid.Rows = append(grid.Rows, method.Line{Name: l.Name, Values: append(slices.Clone(p.Fed[i]), p.Over[i])})
	}
	grid.Rows = append(grid.Rows, method.Line{Name: Bought, Values: append(slices.Clone(p.Purchase), math.NaN())})
	c.Answer("shares", grid)
	if !p.Ask.Whole {
		var shadow []method.Pair
		for i, l := range p.Ask.Lots {
			shadow = append(shadow, method.Pair{Name: l.Name, Value: p.Saves[i]})
		}
		for j, g := range p.Ask.Groups {
			shadow = append(shadow, method.Pair{Name: g.Name, Value: p.Needs[j]})
			if p.Ask.Rule == ByBlend && known(g.Ceiling) {
				shadow = append(shadow, method.Pair{Name: "ndf of " + g.Name, Value: p.Points[j]})
			}
		}
		c.Answer("shadow", shadow)
	}
	c.Answer("gaps", []method.Pair{{Name: "quantity", Value: p.Gaps.Quantity}, {Name: "quality", Value: p.Gaps.Quality}})
	for _, w := range p.Words() {
		c.Note("%s", w)
	}
	if worth := p.stockValue(); worth > 0 && !p.Ask.Sold {
		c.Note("were all lots sold at their values they would bring %s: net of that the plan comes to %s", p.Money(worth), p.Money(p.Cost-worth))
	}
	if p.Ask.Whole {
		c.Note("within %.1f %% of the best plan of whole lots", 100*p.near)
	}
}

// stockValue is what all lots would bring unfed.
func (p *Plan) stockValue() (sum float64) {
	for _, l := range p.Ask.Lots {
		sum += l.Tons * l.Value
	}
	return sum
}

// row is a row of a sheet with its numbers by column; an empty cell has none.
type row struct {
	name    string
	numbers map[string]float64
}

func (r row) has(column string) bool { _, ok := r.numbers[column]; return ok }

// of is a number, NaN where there is none.
func (r row) of(column string) float64 {
	if v, ok := r.numbers[column]; ok {
		return v
	}
	return math.NaN()
}

// must is a number that read has made sure of.
func (r row) must(column string) float64 { return r.numbers[column] }

// read takes a sheet whose first column is a name and whose others are numbers; tons is wanted.
func read(what string, t *method.Table, columns []string, worth bool) ([]row, error) {
	for _, h := range t.Header {
		if !slices.Contains(columns, h) && !(worth && strings.HasPrefix(h, worthTo)) {
			return nil, fmt.Errorf("%s: column %q is not known; accepted: %s", what, h, strings.Join(columns, ", "))
		}
	}
	for _, want := range columns[:2] {
		if !slices.Contains(t.Header, want) {
			return nil, fmt.Errorf("%s: column %s is missing; accepted: %s", what, want, strings.Join(columns, ", "))
		}
	}
	rows := make([]row, len(t.Rows))
	for i, cells := range t.Rows {
		rows[i].numbers = map[string]float64{}
		for j, cell := range cells {
			switch h := t.Header[j]; {
			case h == columns[0]:
				rows[i].name = cell
			case cell != "":
				v, err := strconv.ParseFloat(cell, 64)
				if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
					return nil, fmt.Errorf("%s: row %d, column %s: %q is not a number", what, i+1, h, cell)
				}
				rows[i].numbers[h] = v
			}
		}
		if rows[i].name == "" || !rows[i].has("tons") {
			return nil, fmt.Errorf("%s: row %d: want a %s and its tons", what, i+1, columns[0])
		}
		if strings.ContainsAny(rows[i].name, ":=@.") {
			return nil, fmt.Errorf("%s: row %d: %s %q holds one of : = @ . , which part inputs", what, i+1, columns[0], rows[i].name)
		}
	}
	return rows, nil
}
