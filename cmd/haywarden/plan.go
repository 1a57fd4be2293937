package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/unit"
	"haywarden/season"
	"haywarden/weather"
)

// planAhead is on how many evenings from the date on a cut is tried.
const planAhead = 10

// planned is what a plan says on a date.
type planned struct {
	Date    unit.Day          `json:"date"`
	Stage   float64           `json:"stage"`
	Height  float64           `json:"height_cm"`
	Tons    float64           `json:"tons"` // DM/ac above the stubble
	RFV     float64           `json:"rfv"`
	Reserve float64           `json:"reserve"`
	Good    season.Choice     `json:"good"` // where good haymaking weather is told
	Poor    season.Choice     `json:"poor"`
	Next    [3]unit.Day       `json:"next"` // 10, 50 and 90 % of the members' next cut under the plan
	Days    []season.Compared `json:"days"` // the next cut on each evening ahead, the plan after it
	Ways    []season.Compared `json:"ways"` // the plan and the trade's rules from here on
}

func newPlanCommand(m *Main) *cobra.Command {
	var lat, skill, reserve, yield, taw float64
	var date, product, caution string
	var cuts []string
	var seed uint64
	var asJSON bool
	var prices season.Prices
	c := &cobra.Command{
		Use:   "plan FILE",
		Short: "When to cut a stand of alfalfa next, and what waiting is worth",
		Long: `Grows a stand through this year's days of a station's daily file, and plans its cuts from a date on over
the ways the station's past years went on: what cutting and waiting are worth this evening, the next cut on
each evening ahead, and the plan beside the trade's rules. Nothing after the date is used.
Without --hay it counts tons and points: a point of RFV on a ton as 0.0074 ton, harvest as nothing.`,
		Example: "  haywarden plan USW00014839.dly --lat 42.955 --date 2020-05-25 --hay 176 --point 1.30 --per-cut 45\n  haywarden plan USW00014839.dly --lat 42.955 --date 2020-07-01 --cut 2020-05-28",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			on, err := unit.ParseDay(date)
			if err != nil {
				return usage("--date: %v", err)
			}
			var cut []unit.Day
			for _, w := range cuts {
				d, err := unit.ParseDay(w)
				if err != nil {
					return usage("--cut: %v", err)
				}
				cut = append(cut, d)
			}
			weight, err := risk.ChosenTaste().Weight(risk.Caution(caution))
			if err != nil {
				return usage("--caution: %v", err)
			}
			if !(reserve >= 0 && reserve <= 1 && skill >= 0 && skill <= 1 && taw >= 20 && taw <= 1000) {
				return usage("--reserve and --skill: accepted 0 to 1; --taw: 20 to 1000 mm")
			}
			record, err := pastRecord(args[0], lat, weather.FirstYear, on.Year())
			if err != nil {
				return err
			}
			model := regrowth.Published()
			field, err := usualField(&model, prices)
			if err != nil {
				return err
			}
			field.Yield, field.Soil = yield, model.SoilOf(taw)
			p, err := planOn(&model, record.Until(on-1), on, field, cut, reserve, losses.Product(product), season.Options{Caution: weight}, skill, seed)
			if err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, p)
			}
			_, err = fmt.Fprint(m.Stdout, planText(p, prices.Base > 0))
			return err
		},
	}
	c.Flags().StringVar(&date, "date", "", "the day to plan on, YYYY-MM-DD")
	c.Flags().StringSliceVar(&cuts, "cut", nil, "a day on which it was cut this year; may be repeated")
	c.Flags().Float64Var(&reserve, "reserve", 0.85, "reserve in the roots after the winter, 1 being full")
	c.Flags().Float64Var(&yield, "yield", 1, "yield of the stand beside a good full one: stems, age and farm")
	c.Flags().Float64Var(&taw, "taw", 200, "water that the root zone holds, mm")
	c.Flags().StringVar(&caution, "caution", string(risk.ByAverage), "how careful: "+cautionWords())
	c.Flags().Float64Var(&lat, "lat", 0, "latitude, where the file does not tell it")
	c.Flags().Float64Var(&skill, "skill", 0.5, "chance that a day's word on haymaking weather is known rather than drawn")
	c.Flags().Uint64Var(&seed, "seed", 1, "seed of what is drawn")
	priceFlags(c, &prices, &product)
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

func cautionWords() string {
	var words []string
	for _, w := range risk.Cautions() {
		words = append(words, string(w))
	}
	return strings.Join(words, ", ")
}

func planOn(model *regrowth.Model, record *weather.Series, on unit.Day, raw season.Field, cuts []unit.Day, reserve float64, product losses.Product, o season.Options, skill float64, seed uint64) (*planned, error) {
	start, lived, err := season.Grown(model, raw.Soil, record, on, cuts, reserve)
	if err != nil {
		return nil, err
	}
	past, err := pastMembers(model, record.Until(unit.DateOf(on.Year()-1, time.December, 31)), product)
	if err != nil {
		return nil, err
	}
	season.Tell(past, skill, rand.New(rand.NewPCG(seed, 0)))
	members := season.Joined(past, lived)
	f, err := season.NewField(raw, season.Mean(past))
	if err != nil {
		return nil, err
	}
	o.From = max(0, start.Day-1)
	plan, err := season.Make(f, members, o)
	if err != nil {
		return nil, err
	}
	crop := start.Crop
	now := f.Reckon(&crop, o.From, season.Plain(model))
	p := &planned{Date: on, Stage: model.StageOf(&crop), Height: crop.Height, Tons: now.Standing, RFV: now.RFV, Reserve: crop.Reserve}
	p.Good, p.Poor = plan.Weigh(o.From, &crop, season.Good), plan.Weigh(o.From, &crop, season.Poor)
	january := unit.DateOf(on.Year(), time.January, 1)
	var next []int
	for i := range members {
		if s := f.Simulate(start, &members[i], plan); len(s.Cuts) > 0 {
			next = append(next, s.Cuts[0].Day)
		}
	}
	if n := len(next); n > 0 {
		slices.Sort(next)
		p.Next = [3]unit.Day{january + unit.Day(next[n/10]), january + unit.Day(next[n/2]), january + unit.Day(next[n-1-n/10])}
	}
	ways := []season.Way{{Name: "the plan", Cutter: season.Same(plan)}}
	days := slices.Clone(ways)
	for d := start.Day; d < start.Day+planAhead; d++ {
		days = append(days, season.Way{Name: (january + unit.Day(d)).String(), Cutter: season.Same(season.Once{Day: d, Then: plan, Was: start.LastCut})})
	}
	p.Days = season.Compare(f, start, members, days)
	p.Ways = season.Compare(f, start, members, append(ways, season.TradeRules(f)...))
	return p, nil
}

func planText(p *planned, priced bool) string {
	unit, form := "$/ac", "%.0f"
	if !priced {
		unit, form = "tons", "%.2f"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s: stage %.1f, %.0f cm, %.2f tons DM/ac above the stubble, %.0f RFV, roots %.2f of full.\n\n", p.Date, p.Stage, p.Height, p.Tons, p.RFV, p.Reserve)
	say := func(word string, c season.Choice) {
		what := "wait"
		if c.Cut > c.Wait {
			what = "cut"
		}
		fmt.Fprintf(&b, "%s weather told: %s. Cut "+form+", wait "+form+" %s to the end of the stand.\n", word, what, c.Cut, c.Wait, unit)
	}
	say("Good", p.Good)
	say("Poor", p.Poor)
	if p.Next[1] != 0 {
		fmt.Fprintf(&b, "The plan's next cut: %s (1 year in 10 by %s, 9 in 10 by %s).\n", p.Next[1], p.Next[0], p.Next[2])
	}
	b.WriteString("\nNext cut on, the plan after it\n")
	compareText(&b, p.Days, form)
	b.WriteString("\nFrom here on by\n")
	compareText(&b, p.Ways, form)
	fmt.Fprintf(&b, "\nWorth is %s of this year from here on, less the harvest and what the stand wears by it. worst: mean of the worst\nfifth of years. A difference under 5 %% or within chance is none.\n", unit)
	return b.String()
}
