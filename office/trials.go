package office

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strings"

	"haywarden/advice"
	"haywarden/agronomy/source"
	"haywarden/agronomy/trial"
	"haywarden/exchange"
)

// TrialAsk is what is asked of one trait of a table of trials.
type TrialAsk struct {
	Columns exchange.TrialColumns
	Trait   string // empty: the table's first
	Level   float64
	Check   string
	Lower   bool
	Seed    uint64
}

// ReadTrial reads a table of trials for the doors below. Nothing of it is kept.
func ReadTrial(actor Actor, r io.Reader, name string, called exchange.TrialColumns) (exchange.Trial, error) {
	if err := may(actor, actRead); err != nil {
		return exchange.Trial{}, err
	}
	return exchange.ReadTrial(r, name, called)
}

func studyOf(t exchange.Trial) trial.Study {
	s := trial.Study{Traits: t.Traits}
	for _, r := range t.Rows {
		rec := trial.Record{Row: r.Row, Entry: r.Entry, Place: r.Place, Year: r.Year, Block: r.Block}
		for _, v := range r.Values {
			if v == nil {
				rec.Values = append(rec.Values, math.NaN())
				continue
			}
			rec.Values = append(rec.Values, *v)
		}
		s.Records = append(s.Records, rec)
	}
	return s
}

// AnalyseTrial works out one trait of a table of trials.
func AnalyseTrial(actor Actor, t exchange.Trial, ask TrialAsk) (*TrialSheet, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	trait, err := t.Trait(cmp.Or(ask.Trait, t.Traits[0]))
	if err != nil {
		return nil, err
	}
	a, err := studyOf(t).Analyse(trial.Question{Trait: trait, Level: ask.Level, Check: ask.Check, Lower: ask.Lower, Seed: ask.Seed})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", t.Name, err)
	}
	s := &TrialSheet{
		Title:   fmt.Sprintf("%s in %s", trait, t.Name),
		Says:    analysisSays(a, ask.Lower),
		Notes:   a.Notes,
		Sources: []source.ID{source.BlocksAnova, source.EntryF, source.MixedModel, source.BestOfShrunken},
	}
	s.Tables = append(s.Tables, entriesTable(a))
	if a.Anova != nil {
		s.Tables = append(s.Tables, anovaTable(a), lsdTable(a))
	}
	s.Tables = append(s.Tables, varianceTable(a))
	if st := stabilityTable(a); len(st.Rows) > 0 {
		s.Tables = append(s.Tables, st)
		s.Sources = append(s.Sources, source.JointRegression, source.Ecovalence, source.StabilityVar, source.SuperiorityMean)
	}
	if a.Lost > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("%d of %d rows have no %s and are taken as lost", a.Lost, a.Lost+a.Plots, trait))
	}
	return s, nil
}

func analysisSays(a *trial.Analysis, lower bool) string {
	b := a.Entries[0]
	most := "highest"
	if lower {
		most = "lowest"
	}
	say := fmt.Sprintf("%d entries in %d %s, %d values. %s has the %s shrunken mean, %.4g; the chance that it is the best of all is %s",
		len(a.Entries), len(a.Environments), advice.Plural(len(a.Environments), "environment"), a.Plots, b.Entry, most, b.Shrunken, advice.Odds(b.Best))
	if !math.IsNaN(b.Beats) {
		say += fmt.Sprintf(", that it beats %s %s", a.Check, advice.Odds(b.Beats))
	}
	if a.Fit.Components[0].Variance == 0 {
		return fmt.Sprintf("%d entries in %d %s, %d values: no difference between entries that these trials can see.", len(a.Entries), len(a.Environments), advice.Plural(len(a.Environments), "environment"), a.Plots)
	}
	return say + "."
}

func entriesTable(a *trial.Analysis) TrialTable {
	t := TrialTable{Key: "entries", Title: "Entries", Columns: []TrialColumn{
		{Key: "entry", Title: "Entry"}, {Key: "environments", Title: "Environments"}, {Key: "mean", Title: "Mean", Decimals: 3}, {Key: "shrunken", Title: "Shrunken mean", Decimals: 3},
		{Key: "se", Title: "±", Decimals: 3}, {Key: "best", Title: "Best of all", Chance: true},
	}}
	if a.Check != "" {
		t.Columns = append(t.Columns, TrialColumn{Key: "beats_check", Title: "Beats " + a.Check, Chance: true})
	}
	for _, e := range a.Entries {
		row := []any{e.Entry, e.Environments, e.Mean, e.Shrunken, e.SE, e.Best}
		if a.Check != "" {
			row = append(row, e.Beats)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func anovaTable(a *trial.Analysis) TrialTable {
	t := TrialTable{Key: "anova", Title: "Analysis of variance, " + a.Of, Columns: []TrialColumn{
		{Key: "source", Title: "Source"}, {Key: "df", Title: "df"}, {Key: "ss", Title: "Sum of squares", Decimals: -6}, {Key: "ms", Title: "Mean square", Decimals: -6},
		{Key: "f", Title: "F", Decimals: 3}, {Key: "p", Title: "p", Decimals: 4},
	}}
	for _, l := range a.Anova.Lines {
		t.Rows = append(t.Rows, []any{l.Source, l.DF, l.Squares, l.Mean(), l.F, l.P})
	}
	return t
}

func lsdTable(a *trial.Analysis) TrialTable {
	t := TrialTable{Key: "lsd", Title: fmt.Sprintf("Least difference that counts, at %g", a.Level), Columns: []TrialColumn{
		{Key: "between", Title: "Between"}, {Key: "sed", Title: "SED", Decimals: -4}, {Key: "df", Title: "df", Decimals: -4}, {Key: "lsd", Title: "LSD", Decimals: -4}, {Key: "cv", Title: "CV", Unit: "%", Decimals: 1},
	}}
	cv := math.NaN()
	if len(a.Anova.CV) > 0 {
		cv = a.Anova.CV[0]
	}
	for _, d := range a.Anova.Differences {
		lsd := d.LSD
		if !a.Sure() {
			lsd = math.NaN()
		}
		t.Rows = append(t.Rows, []any{d.Between, d.SED, d.DF, lsd, cv})
	}
	return t
}

func varianceTable(a *trial.Analysis) TrialTable {
	t := TrialTable{Key: "variances", Title: "What differed, by REML", Columns: []TrialColumn{
		{Key: "term", Title: "Term"}, {Key: "levels", Title: "Levels"}, {Key: "variance", Title: "Variance", Decimals: -5}, {Key: "share", Title: "Share", Unit: "%", Decimals: 0},
	}}
	all := a.Fit.Residual
	for _, c := range a.Fit.Components {
		all += c.Variance
	}
	for _, c := range a.Fit.Components {
		t.Rows = append(t.Rows, []any{c.Term, c.Levels, c.Variance, 100 * c.Variance / all})
	}
	t.Rows = append(t.Rows, []any{"residual", a.Plots, a.Fit.Residual, 100 * a.Fit.Residual / all})
	return t
}

func stabilityTable(a *trial.Analysis) TrialTable {
	t := TrialTable{Key: "stability", Title: "Stability over environments", Columns: []TrialColumn{
		{Key: "entry", Title: "Entry"}, {Key: "slope", Title: "Slope", Decimals: 2}, {Key: "slope_se", Title: "±", Decimals: 2}, {Key: "deviation", Title: "About the line", Decimals: -4},
		{Key: "wricke", Title: "Share of interaction", Decimals: -4}, {Key: "shukla", Title: "Own variance", Decimals: -4}, {Key: "superiority", Title: "From the best", Decimals: -4},
	}}
	for _, e := range a.Entries {
		if s := e.Stable; s != nil {
			t.Rows = append(t.Rows, []any{e.Entry, s.Slope, s.SlopeSE, s.Deviation, s.Wricke, s.Shukla, s.Superiority})
		}
	}
	return t.told()
}

// TrialChoice asks for a shortlist of a table: traits as written `yield=1` or `winter=0.5:lower`, limits as
// `winter<=3`.
type TrialChoice struct {
	Columns exchange.TrialColumns
	Weights []string
	Limits  []string
	Check   string
	Keep    int
	Level   float64
	Seed    uint64
	Price   string  // column of seed prices, $/lb
	Hay     float64 // $/ton; 0 where none is told
	Rate    float64 // lb of seed an acre
	Years   float64
}

// ShortenTrial ranks the entries of a table for a site, with the doubt that is left.
func ShortenTrial(actor Actor, t exchange.Trial, ask TrialChoice) (*TrialSheet, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	wanted, err := wantedOf(t, ask)
	if err != nil {
		return nil, err
	}
	c := trial.Choice{Wanted: wanted, Check: ask.Check, Keep: ask.Keep, Level: ask.Level, Seed: ask.Seed}
	if ask.Hay > 0 {
		c.Seeds = trial.Cost{Yield: wanted[0].Trait, Hay: ask.Hay, Rate: ask.Rate, Years: ask.Years}
		if ask.Price != "" {
			if c.Seeds.Price, err = t.Trait(ask.Price); err != nil {
				return nil, err
			}
		}
	}
	list, err := studyOf(t).Shorten(c)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", t.Name, err)
	}
	return shortSheet(t, list, ask), nil
}

var errNoWeight = errors.New("no trait is weighted: give one at least, as yield=1")

// wantedOf reads weights and limits; a limit on a trait without a weight only filters.
func wantedOf(t exchange.Trial, ask TrialChoice) ([]trial.Wanted, error) {
	if len(ask.Weights) == 0 {
		return nil, errNoWeight
	}
	var list []trial.Wanted
	place := map[string]int{}
	at := func(name string) (int, error) {
		trait, err := t.Trait(strings.TrimSpace(name))
		if err != nil {
			return 0, err
		}
		if _, ok := place[trait]; !ok {
			place[trait] = len(list)
			list = append(list, trial.Wanted{Trait: trait, Most: math.NaN(), Least: math.NaN()})
		}
		return place[trait], nil
	}
	for _, w := range ask.Weights {
		name, rest, ok := strings.Cut(w, "=")
		value, way, _ := strings.Cut(rest, ":")
		var v float64
		_, err := fmt.Sscan(value, &v)
		if way = strings.TrimSpace(way); !ok || err != nil || way != "" && way != "lower" && way != "higher" {
			return nil, fmt.Errorf("weight %q: write it as yield=1, and as winter=0.5:lower where low values are better", w)
		}
		i, err := at(name)
		if err != nil {
			return nil, err
		}
		list[i].Weight, list[i].Lower = v, way == "lower"
	}
	for _, l := range ask.Limits {
		sign := "<="
		name, rest, ok := strings.Cut(l, sign)
		if !ok {
			sign = ">="
			name, rest, ok = strings.Cut(l, sign)
		}
		var v float64
		if _, err := fmt.Sscan(rest, &v); !ok || err != nil {
			return nil, fmt.Errorf("limit %q: write it as winter<=3 or index>=27", l)
		}
		i, err := at(name)
		if err != nil {
			return nil, err
		}
		if sign == "<=" {
			list[i].Most = v
		} else {
			list[i].Least = v
		}
	}
	return list, nil
}

func shortSheet(t exchange.Trial, list *trial.Shortlist, ask TrialChoice) *TrialSheet {
	s := &TrialSheet{
		Title: "Shortlist from " + t.Name, Notes: list.Notes,
		Sources: []source.ID{source.MixedModel, source.BaseIndex, source.BestOfShrunken},
	}
	s.Says = fmt.Sprintf("%d of %d entries pass the limits.", list.Entries, list.Entries+len(list.LeftOut))
	table := TrialTable{Key: "shortlist", Title: "Shortlist", Columns: []TrialColumn{{Key: "entry", Title: "Entry"}, {Key: "index", Title: "Index", Decimals: 2}}}
	for _, trait := range list.Traits {
		table.Columns = append(table.Columns, TrialColumn{Key: trait, Title: trait, Decimals: 2})
	}
	table.Columns = append(table.Columns, TrialColumn{Key: "best", Title: "Best of all", Chance: true})
	if ask.Check != "" {
		table.Columns = append(table.Columns, TrialColumn{Key: "beats_check", Title: "Beats " + ask.Check, Chance: true})
	}
	gain := TrialTable{Key: "gain", Title: "Seed against yield, dollars an acre over " + fmt.Sprintf("%g", ask.Years) + " years beside " + ask.Check, Columns: []TrialColumn{
		{Key: "entry", Title: "Entry"}, {Key: "seed_more", Title: "Seed costs more", Unit: "$/ac", Decimals: 0}, {Key: "gain", Title: "Gain", Unit: "$/ac", Decimals: 0},
		{Key: "low", Title: "Low", Unit: "$/ac", Decimals: 0}, {Key: "high", Title: "High", Unit: "$/ac", Decimals: 0}, {Key: "verdict", Title: "Says"},
	}}
	for _, l := range list.Listed {
		row := []any{l.Entry, l.Index}
		for _, v := range l.Values {
			row = append(row, v)
		}
		row = append(row, l.Best)
		if ask.Check != "" {
			row = append(row, l.Beats)
		}
		table.Rows = append(table.Rows, row)
		if g := l.Gain; g != nil {
			says := "worth its seed"
			switch {
			case g.NoDifference:
				says = "no difference"
			case g.Middle < 0:
				says = "costs more than it brings"
			}
			gain.Rows = append(gain.Rows, []any{l.Entry, g.SeedMore, g.Middle, g.Low, g.High, says})
		}
	}
	if len(table.Rows) > 0 {
		s.Tables = append(s.Tables, table)
		first := list.Listed[0]
		s.Says += fmt.Sprintf(" %s stands first; the chance that it is the best of them is %s.", first.Entry, advice.Odds(first.Best))
		if !math.IsNaN(first.Beats) {
			s.Says += fmt.Sprintf(" That it beats %s: %s.", ask.Check, advice.Odds(first.Beats))
		}
	}
	if len(gain.Rows) > 0 {
		s.Tables = append(s.Tables, gain)
	}
	if len(list.LeftOut) > 0 {
		out := TrialTable{Key: "left_out", Title: "Left out by the limits", Columns: []TrialColumn{{Key: "entry", Title: "Entry"}, {Key: "why", Title: "Why"}}}
		for _, o := range list.LeftOut {
			out.Rows = append(out.Rows, []any{o.Entry, o.Why})
		}
		s.Tables = append(s.Tables, out)
	}
	for _, a := range list.Analyses {
		for _, n := range a.Notes {
			s.Notes = append(s.Notes, a.Trait+": "+n)
		}
		if n := len(a.Environments); n < 3 {
			s.Notes = append(s.Notes, fmt.Sprintf("%s rests on %d %s: judge a variety on two or three years of data", a.Trait, n, advice.Plural(n, "environment")))
		}
	}
	s.Notes = append(s.Notes, "values are shrunken means where there are several of an entry; the index counts them in standard deviations of the entries")
	return s
}

// TrialGoal asks for the plan of a trial.
type TrialGoal struct {
	Entries    []string
	CV         float64 // % of a plot's error
	Difference float64 // % worth seeing
	Level      float64
	Power      float64
	Blocks     int // 0: as many as the goal wants
	Seed       uint64
}

// DesignTrial lays out randomised blocks, enough for the difference worth seeing. The same seed gives the same
// plan.
func DesignTrial(actor Actor, g TrialGoal) (*TrialSheet, error) {
	if err := may(actor, actRead); err != nil {
		return nil, err
	}
	goal := trial.Goal{Entries: len(g.Entries), CV: g.CV, Difference: g.Difference, Level: g.Level, Power: g.Power}
	want, err := trial.Replicates(goal)
	blocks := g.Blocks
	s := &TrialSheet{Title: "Plan of a trial", Sources: []source.ID{source.ReplicatesPower}}
	switch {
	case err != nil && blocks == 0:
		return nil, err
	case err != nil:
		s.Notes = append(s.Notes, err.Error())
	case blocks == 0:
		blocks = want
	}
	if blocks < 2 {
		return nil, fmt.Errorf("blocks %d: give 2 at least, or none to have them reckoned", blocks)
	}
	plan, err := trial.Layout(g.Entries, blocks, rand.New(rand.NewPCG(g.Seed, 0)))
	if err != nil {
		return nil, err
	}
	s.Says = fmt.Sprintf("%d entries in %d blocks, %d plots, drawn from seed %d. A difference of %g %% of the mean is seen with a chance of %s, where plots err by %g %%.",
		len(g.Entries), blocks, blocks*len(g.Entries), g.Seed, g.Difference, advice.Odds(trial.PowerOf(goal, blocks)), g.CV)
	if err == nil && want > blocks {
		s.Notes = append(s.Notes, fmt.Sprintf("%d blocks would show it with a chance of %s", want, advice.Odds(trial.PowerOf(goal, want))))
	}
	t := TrialTable{Key: "plan", Title: "Plots as walked", Columns: []TrialColumn{{Key: "plot", Title: "Plot"}, {Key: "block", Title: "Block"}, {Key: "entry", Title: "Entry"}}}
	for b, row := range plan {
		for i, e := range row {
			t.Rows = append(t.Rows, []any{100*(b+1) + i + 1, b + 1, e})
		}
	}
	s.Tables = append(s.Tables, t)
	return s, nil
}
