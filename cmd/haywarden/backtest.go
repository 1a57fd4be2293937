package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"haywarden/agronomy/losses"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/unit"
	"haywarden/season"
	"haywarden/weather"
	"haywarden/weather/intake"
)

func newBacktestCommand(m *Main) *cobra.Command {
	var from, to int
	var lat, skill float64
	var agreement, asJSON bool
	var product string
	var seed uint64
	var prices season.Prices
	c := &cobra.Command{
		Use:   "backtest FILE",
		Short: "Try the cut plan, the trade's rules and the growth model on a station's past years",
		Long: `Cuts a stand through each past year of a station's daily file (in any form that ` + "`haywarden weather\nimport`" + ` takes) by the plan, made from all other years, by the trade's rules, and by whoever had known
the year; and says what each was worth. What a short interval takes out of the stand is part of it.
Without --hay it counts tons and points: a point of RFV on a ton as 0.0074 ton, harvest as nothing.

With --agreement it sets what is published of yields and cutting intervals beside the growth model.`,
		Example: "  haywarden backtest USW00014839.dly --lat 42.955 --hay 176 --point 1.30 --per-cut 45 --per-ton 10\n  haywarden backtest USW00014839.dly --lat 42.955 --agreement",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			model := regrowth.Published()
			record, err := pastRecord(args[0], lat, from, to)
			if err != nil {
				return err
			}
			if agreement {
				years, err := pastYears(&model, args[0], record)
				if err != nil {
					return err
				}
				rows := season.Agreement(&model, years)
				if asJSON {
					return writeJSON(m.Stdout, rows)
				}
				_, err = fmt.Fprint(m.Stdout, agreementText(rows, years))
				return err
			}
			priced := prices.Base > 0
			trial, err := tryPlan(m, &model, record, losses.Product(product), prices, skill, seed)
			if err != nil {
				return err
			}
			if asJSON {
				return writeJSON(m.Stdout, trial)
			}
			_, err = fmt.Fprint(m.Stdout, backtestText(trial, priced))
			return err
		},
	}
	c.Flags().BoolVar(&agreement, "agreement", false, "print the table of published results beside the model's")
	c.Flags().IntVar(&from, "from", 1971, "first year")
	c.Flags().IntVar(&to, "to", 2020, "last year")
	c.Flags().Float64Var(&lat, "lat", 0, "latitude, where the file does not tell it")
	priceFlags(c, &prices, &product)
	c.Flags().Float64Var(&skill, "skill", 0.5, "chance that a day's word on haymaking weather is known rather than drawn: 0 no forecast, 1 a perfect one")
	c.Flags().Uint64Var(&seed, "seed", 1, "seed of what is drawn")
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	return c
}

// tryPlan runs the trial over a record.
func tryPlan(m *Main, model *regrowth.Model, record *weather.Series, product losses.Product, prices season.Prices, skill float64, seed uint64) (*season.Trial, error) {
	if !slices.Contains(losses.Products(), string(product)) {
		return nil, usage("--product %q; accepted: %s", product, strings.Join(losses.Products(), ", "))
	}
	harvest, err := season.NewHarvest(product)
	if err != nil {
		return nil, err
	}
	members, years, err := season.MembersOf(model, record, harvest)
	if err != nil {
		return nil, err
	}
	field, err := usualField(model, prices)
	if err != nil {
		return nil, err
	}
	tell := func(int) {}
	if out, ok := m.Stderr.(*os.File); ok { // only a terminal can take back what was written
		if at, err := out.Stat(); err == nil && at.Mode()&os.ModeCharDevice != 0 {
			tell = func(done int) { fmt.Fprintf(out, "\r%d of %d years", done, len(members)) }
			defer fmt.Fprint(out, "\r\x1b[K")
		}
	}
	return season.Try(field, members, years, season.Options{From: 59}, skill, seed, tell)
}

func backtestText(t *season.Trial, priced bool) string {
	var b strings.Builder
	unit, form := "$/ac", "%.0f"
	if !priced {
		unit, form = "tons", "%.2f"
	}
	fmt.Fprintf(&b, "%s of %d to %d, each planned from the others; words on haymaking weather known %.0f times in 100.\nWorth is %s a year less the harvest and what the stand wears by it.\n\n",
		counted(len(t.Years), "year"), t.Years[0], t.Years[len(t.Years)-1], 100*t.Skill, unit)
	compareText(&b, t.Ways, form)
	b.WriteString("\nworst: mean of the worst fifth of years. tons: DM/ac above the stubble; fed: at the bunk. rained: cuts not made\nin time and clean. roots: reserve in fall, 1 being full. A difference under 5 % or within chance is none.\n")
	return b.String()
}

// priceFlags are what feed brings and costs.
func priceFlags(c *cobra.Command, prices *season.Prices, product *string) {
	f := c.Flags()
	f.StringVar(product, "product", string(losses.Haylage), "what the crop is put up as: "+strings.Join(losses.Products(), ", "))
	f.Float64Var(&prices.Base, "hay", 0, "price of hay at 137.5 RFV, $/ton as fed")
	f.Float64Var(&prices.PerPoint, "point", 0, "price of a point of RFV, $/ton as fed; paid up to 185 RFV")
	f.Float64Var(&prices.PerCut, "per-cut", 0, "cost of harvesting a cut, $/ac")
	f.Float64Var(&prices.PerTon, "per-ton", 0, "cost of hauling and storing, $/ton DM")
}

// usualField is a good young stand on a silt loam, with the fall rest of Wisconsin, 1 September to the
// frost [source.KillingFreeze]. Without a price of hay it counts in tons.
func usualField(model *regrowth.Model, prices season.Prices) (season.Field, error) {
	if !(prices.Base >= 0 && prices.PerCut >= 0 && prices.PerTon >= 0) {
		return season.Field{}, usage("--hay, --per-cut and --per-ton: accepted 0 or more")
	}
	const september, hayRFV, mostRFV = 244, 137.5, 185
	prices.BaseRFV, prices.MostRFV = hayRFV, mostRFV
	if prices.Base == 0 {
		const point, hayDM = 0.0074, 0.88
		prices = season.Prices{Base: hayDM, BaseRFV: hayRFV, PerPoint: point * hayDM, MostRFV: mostRFV}
	}
	f := season.Field{
		Model: model, Soil: model.SoilOf(model.UsualTAWMM), Sort: regrowth.Alfalfa, Yield: 1, Prices: prices,
		Rules: season.Rules{LeastDays: 25, LeastTons: 0.3, RestFrom: september, RestTo: 366},
		Life:  season.Life{ProductionYear: 1, Years: 3, FullTons: 4.5},
	}
	const usualRFV = 150
	f.Life.NetTon = (1-model.UsualLoss)*prices.Ton(usualRFV) - prices.PerTon
	return f, nil
}

// pastMembers are the whole years of a record with what became of a crop mown on each of their days.
func pastMembers(model *regrowth.Model, record *weather.Series, product losses.Product) ([]season.Member, error) {
	if !slices.Contains(losses.Products(), string(product)) {
		return nil, usage("--product %q; accepted: %s", product, strings.Join(losses.Products(), ", "))
	}
	harvest, err := season.NewHarvest(product)
	if err != nil {
		return nil, err
	}
	members, _, err := season.MembersOf(model, record, harvest)
	if err == nil && len(members) < season.LeastYears {
		err = fmt.Errorf("%s with every day's temperatures before this one; want %d at least", counted(len(members), "year"), season.LeastYears)
	}
	return members, err
}

// compareText sets ways of cutting beside the first of them.
func compareText(b *strings.Builder, ways []season.Compared, form string) {
	name := 0
	for _, w := range ways {
		name = max(name, len(w.Name))
	}
	fmt.Fprintf(b, "%-*s  %6s  %6s  %4s  %5s  %5s  %3s  %6s  %5s  against the plan (95 %%)\n", name, "", "worth", "worst", "cuts", "tons", "fed", "RFV", "rained", "roots")
	for i, w := range ways {
		fmt.Fprintf(b, "%-*s  %6s  %6s  %4.1f  %5.2f  %5.2f  %3.0f  %4.0f %%  %5.2f", name, w.Name, fmt.Sprintf(form, w.Worth), fmt.Sprintf(form, w.Worst), w.Cuts, w.Tons, w.Fed, w.RFV, 100*w.Rained, w.Winter)
		if i > 0 {
			said := "no difference"
			if w.Differs {
				said = fmt.Sprintf(form+" ("+form+" to "+form+")", w.Against, w.Low, w.High)
			}
			fmt.Fprintf(b, "  %s", said)
		}
		b.WriteString("\n")
	}
}

// pastRecord reads a station's file.
func pastRecord(name string, lat float64, from, to int) (*weather.Series, error) {
	if from > to {
		return nil, usage("--from %d is after --to %d", from, to)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("read weather: %w", err)
	}
	defer func() { _ = f.Close() }() // it was only read
	readings, err := intake.Read(f, filepath.Base(name), unit.DayOf(time.Now()), intake.Options{})
	if err != nil {
		return nil, err
	}
	if len(readings) != 1 {
		return nil, fmt.Errorf("%s: %s; want a file of one", name, counted(len(readings), "station"))
	}
	r := readings[0]
	if lat != 0 {
		r.Station.Latitude = lat
	}
	if !(r.Station.Latitude > 0 && r.Station.Latitude < 66) {
		return nil, usage("%s does not tell where the station is, or it lies outside 0 to 66 N: give --lat in degrees north", name)
	}
	last := unit.DateOf(to, time.December, 31)
	return weather.NewSeries(r.Station, r.Blocks, last).Between(unit.DateOf(from, time.January, 1), last), nil
}

// pastYears takes the whole years of a record.
func pastYears(model *regrowth.Model, name string, record *weather.Series) ([]season.Year, error) {
	years := season.YearsOf(model, record)
	if len(years) < season.LeastYears {
		return nil, fmt.Errorf("%s: %s with every day's temperatures; want %d at least", name, counted(len(years), "year"), season.LeastYears)
	}
	return years, nil
}

func agreementText(rows []season.Agreed, years []season.Year) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Published results beside the model, %d to %d (%s). Rows marked fit were used to set its\nconstants and are weak evidence.\n\n", years[0].Year, years[len(years)-1].Year, counted(len(years), "year"))
	target, published, model := len("Result"), len("Published"), len("Model")
	for _, r := range rows {
		target, published, model = max(target, len(r.Target)), max(published, len(r.Published)), max(model, len(r.Model))
	}
	fmt.Fprintf(&b, "%-*s  %-*s  %-*s\n", target, "Result", published, "Published", model, "Model")
	met := 0
	for _, r := range rows {
		verdict := "missed"
		if r.Met {
			verdict = "met"
			met++
		}
		if r.Fitted {
			verdict += ", fit"
		}
		fmt.Fprintf(&b, "%-*s  %-*s  %-*s  %s\n", target, r.Target, published, r.Published, model, r.Model, verdict)
	}
	fmt.Fprintf(&b, "\n%d of %d met. Sources of the published rows disagree among themselves: a Kansas trial found 28 days\nbetter than 35, another worse.\n", met, len(rows))
	return b.String()
}
