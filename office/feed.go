package office

import (
	"cmp"
	"context"
	"math"
	"slices"

	"haywarden/agronomy/allot"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/husbandry"
	"haywarden/outlook"
)

// FarmFeed is a farm's feed as a file and as pages show it.
type FarmFeed struct {
	Feed    *outlook.Farm `json:"-"`
	Region  string        `json:"-"`
	Farm    string        `json:"farm"`
	Date    unit.Day      `json:"date"`
	None    string        `json:"none,omitempty"`
	Next    unit.Day      `json:"next_crop,omitzero"`
	Opens   unit.Day      `json:"next_opened,omitzero"`
	Why     string        `json:"next_crop_by,omitempty"`
	Lots    []LotFile     `json:"lots"`
	Need    []EaterFile   `json:"groups"`
	Classes []ClassFile   `json:"by_quality"`
	Corn    *ClassFile    `json:"corn_silage,omitempty"`
	Shared  *FeedPlan     `json:"allocation,omitempty"`
	NoPlan  string        `json:"no_allocation,omitempty"`
	Prices  []string      `json:"prices,omitempty"`
	Lacks   []string      `json:"lacks,omitempty"`
	Caution []string      `json:"cautions,omitempty"`
}

// LotFile is a lot in a file. What is not known is left out.
type LotFile struct {
	Name      string     `json:"lot"`
	Forage    string     `json:"forage"`
	Store     string     `json:"store"`
	Filled    unit.Day   `json:"filled"`
	Tons      [3]float64 `json:"tons_low_mid_high"`
	Put       float64    `json:"tons_put_in"`
	How       string     `json:"known_by"`
	Loss      float64    `json:"loss_to_come"`
	RFQ       *float64   `json:"rfq,omitempty"`
	NDF       *float64   `json:"ndf,omitempty"`
	From      string     `json:"quality_from,omitempty"`
	LbDay     float64    `json:"fed_lb_day,omitempty"`
	Group     string     `json:"fed_to,omitempty"`
	Weeks     *float64   `json:"weeks_left,omitempty"`
	RunsOut   unit.Day   `json:"runs_out,omitzero"`
	Opens     unit.Day   `json:"opens,omitzero"`
	Inches    float64    `json:"inches_a_day,omitempty"`
	Face      string     `json:"face,omitempty"`
	Unmatched string     `json:"wrong_for_group,omitempty"`
	Worth     *float64   `json:"saves_more_per_ton,omitempty"`
}

// EaterFile is a group in a file.
type EaterFile struct {
	Name  string   `json:"group"`
	Floor *float64 `json:"rfq_min,omitempty"`
	LbDay float64  `json:"hay_crop_lb_day"`
}

// ClassFile is need against supply of a quality.
type ClassFile struct {
	Name    string     `json:"quality"`
	Groups  []string   `json:"groups"`
	LbDay   float64    `json:"need_lb_day"`
	Supply  [3]float64 `json:"supply_tons_low_mid_high"`
	Days    [3]float64 `json:"days_low_mid_high"`
	RunsOut unit.Day   `json:"runs_out"`
	LowOut  unit.Day   `json:"runs_out_low_case"`
	Gap     float64    `json:"gap_tons"`
	Worth   *float64   `json:"worth_of_one_more_ton,omitempty"` // $/ton, or tons spared where no price is entered
}

// FeedPlan is who eats what.
type FeedPlan struct {
	Rule     string             `json:"rule"`
	Whole    bool               `json:"whole_lots,omitempty"`
	Priced   bool               `json:"priced"`
	Cost     float64            `json:"cost"` // $; tons bought where no prices were entered
	Rows     []FeedPlanRow      `json:"feed"`
	Buy      map[string]float64 `json:"buy_tons,omitempty"`
	Quantity float64            `json:"gap_quantity_tons"`
	Quality  float64            `json:"gap_quality_tons"`
	Words    []string           `json:"says"`
	Plan     *allot.Plan        `json:"-"`
}

// FeedPlanRow is some of a lot to a group.
type FeedPlanRow struct {
	Lot   string  `json:"lot"`
	Group string  `json:"group"`
	Tons  float64 `json:"tons"`
}

// Feed works out a farm's feed: what is in store and how long it lasts, by quality and by lot, and who
// eats what until the next crop is opened.
func (o *Office) Feed(ctx context.Context, actor Actor, farm string, ask Ask) (*FarmFeed, error) {
	out, f, err := o.feedOf(ctx, actor, farm, ask)
	if err != nil {
		return nil, err
	}
	return feedFile(out, f), nil
}

func (o *Office) feedOf(ctx context.Context, actor Actor, farm string, ask Ask) (*outlook.Outlook, *outlook.Farm, error) {
	if err := may(actor, actRead); err != nil {
		return nil, nil, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return nil, nil, err
	}
	v, err := farmIn(out.View, farm)
	if err != nil {
		return nil, nil, err
	}
	f, err := husbandry.FeedOf(ctx, out, v)
	return out, f, err
}

// Allocate shares a farm's hay crop by a rule of the asker's.
func (o *Office) Allocate(ctx context.Context, actor Actor, farm, rule string, whole bool, ask Ask) (*FarmFeed, error) {
	out, f, err := o.feedOf(ctx, actor, farm, ask)
	if err != nil {
		return nil, err
	}
	a := feedFile(out, f)
	if len(f.Groups) == 0 {
		return a, nil
	}
	plan, err := husbandry.Allocate(ctx, out.View, f, allot.Rule(rule), whole)
	if err != nil {
		return nil, &BadEntry{Field: "allocate", Text: err.Error()}
	}
	a.Shared, a.NoPlan = planFile(plan), ""
	return a, nil
}

func feedFile(out *outlook.Outlook, f *outlook.Farm) *FarmFeed {
	a := &FarmFeed{
		Feed: f, Region: out.View.Place.Region, Farm: f.Name, Date: out.Date, None: f.None, Next: f.NextCrop, Opens: f.Opens, Why: f.Why,
		NoPlan: f.NoPlan, Prices: f.Prices, Lacks: f.Lacks, Lots: []LotFile{}, Need: []EaterFile{}, Classes: []ClassFile{}, Caution: f.Cautions(),
	}
	if f.None != "" {
		a.Next, a.Opens, a.Why = 0, 0, ""
	}
	for _, l := range f.Lots {
		x := LotFile{
			Name: l.Name, Forage: l.Forage, Store: l.Store, Filled: l.Filled, Tons: three(l.Tons), Put: hundredth(l.Put.Mid), How: l.How, Loss: hundredth(l.Loss),
			RFQ: maybe(l.RFQ), NDF: maybe(l.NDF), From: l.From, LbDay: l.LbDay, Group: l.Group, Weeks: maybe(l.Weeks), RunsOut: l.RunsOut, Opens: l.Opens, Inches: hundredth(l.Inches), Face: l.FaceSays, Unmatched: l.Unmatched,
		}
		if p := f.Plan; p != nil && p.Saves != nil {
			if i := slices.IndexFunc(p.Ask.Lots, func(y allot.Lot) bool { return y.Name == l.Name }); i >= 0 {
				x.Worth = maybe(p.Saves[i])
			}
		}
		a.Lots = append(a.Lots, x)
	}
	for _, g := range f.Groups {
		a.Need = append(a.Need, EaterFile{g.Name, maybe(g.Floor), hundredth(g.LbDay)})
	}
	for _, c := range f.Classes {
		a.Classes = append(a.Classes, classFile(f, c))
	}
	if f.Corn != nil {
		c := classFile(f, *f.Corn)
		c.Worth = nil
		a.Corn = &c
	}
	if f.Plan != nil {
		a.Shared = planFile(f.Plan)
	}
	return a
}

func classFile(f *outlook.Farm, c outlook.FeedClass) ClassFile {
	x := ClassFile{Name: c.Name, Groups: c.Groups, LbDay: hundredth(c.LbDay), Supply: three(c.Supply), Days: three(c.Days), RunsOut: c.RunsOut, LowOut: c.LowOut, Gap: hundredth(c.Gap)}
	if worth, ok := f.TonWorth(c.Floor); ok {
		x.Worth = maybe(worth)
	}
	return x
}

func planFile(p *allot.Plan) *FeedPlan {
	s := &FeedPlan{Rule: string(p.Ask.Rule), Whole: p.Ask.Whole, Priced: !p.Ask.Tons, Cost: hundredth(p.Cost), Rows: []FeedPlanRow{}, Buy: map[string]float64{}, Quantity: hundredth(p.Gaps.Quantity), Quality: hundredth(p.Gaps.Quality), Words: p.Words(), Plan: p}
	for i, l := range p.Ask.Lots {
		for j, g := range p.Ask.Groups {
			if v := hundredth(p.Fed[i][j]); v > 0 {
				s.Rows = append(s.Rows, FeedPlanRow{l.Name, g.Name, v})
			}
		}
		if v := hundredth(p.Over[i]); v > 0 {
			s.Rows = append(s.Rows, FeedPlanRow{l.Name, allot.Left, v})
		}
	}
	for j, g := range p.Ask.Groups {
		if v := hundredth(p.Purchase[j]); v > 0 {
			s.Buy[g.Name] = v
		}
	}
	return s
}

func hundredth(v float64) float64 { return math.Round(v*100) / 100 }

func three(r losses.Range) [3]float64 {
	return [3]float64{hundredth(r.Low), hundredth(r.Mid), hundredth(r.High)}
}

// maybe is a number in a file, nil where it is not known.
func maybe(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = hundredth(v)
	return &v
}

// SetLotFed says how much of a lot is fed a day from the day of the ask on.
func (o *Office) SetLotFed(ctx context.Context, actor Actor, ask Ask, farm, lot string, b book.LotFed) (Saved, error) {
	f, l, err := o.lotOf(ctx, actor, &ask, farm, lot)
	if err != nil {
		return Saved{}, err
	}
	return tell(ctx, o, actor, ask, f.ID, l.ID, b, l.Fed)
}

// SetLotLeft says what was found left of a lot on the day of the ask.
func (o *Office) SetLotLeft(ctx context.Context, actor Actor, ask Ask, farm, lot string, b book.LotLeft) (Saved, error) {
	f, l, err := o.lotOf(ctx, actor, &ask, farm, lot)
	if err != nil {
		return Saved{}, err
	}
	return tell(ctx, o, actor, ask, f.ID, l.ID, b, l.Left)
}

func (o *Office) lotOf(ctx context.Context, actor Actor, ask *Ask, farm, lot string) (*book.FarmView, *book.LotView, error) {
	_, f, err := o.change(ctx, actor, ask, farm)
	if err != nil {
		return nil, nil, err
	}
	i := slices.IndexFunc(f.Lots, func(l *book.LotView) bool { return l.ID == lot || plain(l.Name) == plain(lot) })
	if i < 0 {
		return nil, nil, &BadEntry{Field: "lot", Text: f.Name + " has no lot called " + cmp.Or(lot, "nothing")}
	}
	return f, f.Lots[i], nil
}
