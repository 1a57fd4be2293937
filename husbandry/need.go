package husbandry

import (
	"fmt"
	"math"

	"haywarden/agronomy/herd"
	"haywarden/agronomy/source"
	"haywarden/book"
)

// Intake is what an animal eats by one equation.
type Intake struct {
	By string  `json:"by"` // edition 2001, edition 2021, by fibre, weighed
	Lb float64 `json:"lb_day"`
}

// GroupNeed is what one group of animals needs.
type GroupNeed struct {
	Name     string   `json:"name"`
	Kind     string   `json:"kind"`
	Head     int      `json:"head"`
	Intakes  []Intake `json:"intakes"`
	IntakeLb float64  `json:"intake_lb_day"` // the one gone by
	By       string   `json:"by"`
	Low      float64  `json:"intake_low_lb"`
	High     float64  `json:"intake_high_lb"`
	NEL      float64  `json:"nel_mcal_day,omitempty"` // 0: not reckoned for this kind
	NELOther float64  `json:"nel_other_edition,omitempty"`
	Forage   float64  `json:"forage_lb_day"` // a head
	Tons     float64  `json:"forage_tons_year"`
	Legume   float64  `json:"legume_tons_year"`
	Silage   float64  `json:"silage_tons_year"`
	Target   string   `json:"target"`
	Wanted   string   `json:"wanted"` // forage quality in words
	Flags    []string `json:"flags,omitempty"`
}

// QualityNeed is what of a quality a year takes.
type QualityNeed struct {
	Target string  `json:"target"`
	Wanted string  `json:"wanted"`
	Forage float64 `json:"forage_tons"`
	Legume float64 `json:"legume_tons"`
}

// CropNeed is what of one forage is to be grown.
type CropNeed struct {
	Forage string  `json:"forage"`
	Fed    float64 `json:"fed_tons"`
	Stored float64 `json:"stored_tons"`
	Acres  float64 `json:"acres"` // 0: no yield is known, Why says so
	Yield  float64 `json:"yield_tons_acre"`
	Have   float64 `json:"acres_growing,omitempty"`
	Why    string  `json:"why"`
}

// Need is a herd's need.
type Need struct {
	Farm    string        `json:"farm"`
	Told    string        `json:"told,omitempty"` // the day the herd was told
	Edition string        `json:"edition"`
	Table   string        `json:"quality_table"`
	None    string        `json:"none,omitempty"` // why nothing can be said
	Head    int           `json:"head"`
	Groups  []GroupNeed   `json:"groups,omitempty"`
	Forage  float64       `json:"forage_tons"`
	Low     float64       `json:"forage_tons_low"`
	High    float64       `json:"forage_tons_high"`
	Quality []QualityNeed `json:"by_quality,omitempty"`
	Crops   []CropNeed    `json:"crops,omitempty"`
	Notes   []string      `json:"notes,omitempty"`
	Sources []source.ID   `json:"sources"`
}

// Growing is the legume that a farm has in the ground.
type Growing struct {
	Acres float64
	Tons  float64 // dry matter a year, of all of them
}

// What a plan loses where a farm has not told its own: 15 % between field and store, 10 % between store
// and mouth ([source.PlanLosses]).
const planField, planStore = 0.15, 0.10

// What is taken for animals of which it was not told: [source.UsualCow], and for the rest our choices.
const (
	usualProtein, usualLactose, usualCondition = 3.1, 4.85, 3
	usualPregnant                              = 250 // days, the middle of a dry time (choice)
	usualMatureKg                              = 700 // (choice)
	nearCalving                                = 259 // days pregnant from which the fit of 2003 holds
	daysAYear                                  = 365
)

// NeedOf reckons a farm's herd on the view's date.
func NeedOf(v *book.View, f *book.FarmView, growing Growing) (Need, error) {
	table, tableName := targets(v)
	n := Need{Farm: f.Name, Table: tableName, Edition: string(herd.Edition2021), Sources: []source.ID{
		source.NRC2001Intake, source.NASEM2021Cow, source.NRC2001Dry, source.NASEM2021Dry, source.NASEM2021Heifer, source.HeiferFibre, source.NASEM2021Energy, source.NRC2001Energy,
		source.ForageFloor, source.ForageShares, source.HerdNeed, source.PlanLosses, source.UsualCow,
	}}
	told, ok := f.Herd()
	if !ok {
		n.None = "No herd was told of this farm: enter its groups, or bring them with `haywarden import herd FILE.csv`."
		return n, nil
	}
	n.Told = told.Day.String()
	if told.Body.Edition != "" {
		n.Edition = told.Body.Edition
	}
	var groups []herd.Group
	parts := forageParts(told.Body)
	var lower, higher float64
	for _, g := range told.Body.Groups {
		gn := groupNeed(g, herd.Edition(n.Edition), table)
		n.Head += g.Head
		n.Groups = append(n.Groups, gn)
		share := float64(g.Head) * g.ForageShare * daysAYear / poundsATon
		lower, higher = lower+share*gn.Low, higher+share*gn.High
		groups = append(groups, herd.Group{Name: g.Name, Head: float64(g.Head), IntakeLb: gn.IntakeLb, ForageShare: g.ForageShare, Parts: partsOf(g, parts)})
		n.addQuality(gn)
	}
	if n.Head == 0 {
		n.None = fmt.Sprintf("The herd told on %s has no animals, so it needs no forage.", n.Told)
		n.Groups, n.Quality = nil, nil
		return n, nil
	}
	n.Low, n.High = round(lower), round(higher)
	if err := n.crops(groups, parts, growing); err != nil {
		return Need{}, fmt.Errorf("need of %s: %w", f.Name, err)
	}
	return n, nil
}

func (n *Need) addQuality(g GroupNeed) {
	for i := range n.Quality {
		if n.Quality[i].Target == g.Target {
			n.Quality[i].Forage += g.Tons
			n.Quality[i].Legume += g.Legume
			return
		}
	}
	n.Quality = append(n.Quality, QualityNeed{g.Target, g.Wanted, g.Tons, g.Legume})
}

// forageParts are the forages to reckon with: those told, legume always.
func forageParts(h book.Herd) []book.ForageCrop {
	parts := []book.ForageCrop{{Forage: "legume", Field: planField, Storage: planStore}}
	for _, c := range h.Crops {
		if c.Forage == "legume" {
			parts[0] = c
		} else {
			parts = append(parts, c)
		}
	}
	return parts
}

func partsOf(g book.Group, parts []book.ForageCrop) []float64 {
	out := make([]float64, len(parts))
	for i, p := range parts {
		out[i] = map[string]float64{"legume": g.LegumeShare, "corn silage": g.SilageShare, "other": max(0, 1-g.LegumeShare-g.SilageShare)}[p.Forage]
	}
	return out
}

// crops reckons tons and acres of each forage.
func (n *Need) crops(groups []herd.Group, parts []book.ForageCrop, growing Growing) error {
	forages := make([]herd.Forage, len(parts))
	yields := make([]float64, len(parts))
	for i, c := range parts {
		yields[i] = c.Yield
		if c.Yield == 0 && c.Forage == "legume" && growing.Acres > 0 {
			yields[i] = growing.Tons / growing.Acres
		}
		y := yields[i]
		if !(y > 0) {
			y = 1 // tons are right without it; acres are left out below
		}
		forages[i] = herd.Forage{Name: c.Forage, Yield: y, Losses: herd.Losses{Field: c.Field, Storage: c.Storage, Feeding: c.Feeding}, Reserve: c.Reserve}
	}
	need, err := herd.Year(groups, forages)
	if err != nil {
		return err
	}
	n.Forage = round(need.Forage)
	for i, t := range need.Forages {
		c := parts[i]
		crop := CropNeed{Forage: c.Forage, Fed: round(t.Fed), Stored: round(t.Stored), Acres: round(t.Acres), Yield: round(yields[i])}
		crop.Why = fmt.Sprintf("%.0f %% lost in the field, %.0f in store, %.0f at feeding, %.0f %% kept over", 100*c.Field, 100*c.Storage, 100*c.Feeding, 100*c.Reserve)
		if c.Forage == "legume" {
			crop.Have = growing.Acres
		}
		switch {
		case !(yields[i] > 0):
			crop.Acres = 0
			crop.Why += "; no yield is told, so no acres"
		case c.Yield == 0:
			crop.Why += "; yield as the book judges the stands by age and stems"
		}
		n.Crops = append(n.Crops, crop)
	}
	return nil
}

// groupNeed reckons a group by both editions.
func groupNeed(g book.Group, edition herd.Edition, table herd.Targets) GroupNeed {
	n := GroupNeed{Name: g.Name, Kind: string(g.Kind), Head: g.Head}
	n.Intakes = intakes(g)
	n.Low, n.High = math.Inf(1), math.Inf(-1)
	for _, x := range n.Intakes {
		n.Low, n.High = min(n.Low, x.Lb), max(n.High, x.Lb)
		if n.By == "" || x.By == "edition "+string(edition) {
			n.IntakeLb, n.By = x.Lb, x.By
		}
	}
	if g.IntakeLb > 0 {
		n.IntakeLb, n.By, n.Low, n.High = g.IntakeLb, "weighed at the bunk", g.IntakeLb, g.IntakeLb
	}
	n.Forage = round(n.IntakeLb * g.ForageShare)
	n.Tons = round(float64(g.Head) * n.IntakeLb * g.ForageShare * daysAYear / poundsATon)
	n.Legume, n.Silage = round(n.Tons*g.LegumeShare), round(n.Tons*g.SilageShare)
	if g.Kind == book.Lactating {
		n.NEL, n.NELOther = round(energy(g, edition)), round(energy(g, edition.Other()))
		n.flag(g)
	}
	n.Target = g.Target
	if n.Target == "" {
		n.Target = usualTarget(g)
	}
	if t, err := table.For(n.Target); err == nil {
		n.Wanted = wanted(t)
	} else {
		n.Wanted = "this table has no line for it"
	}
	return n
}

// flag says what the diet breaks and where it holds more forage than a cow can eat.
func (n *GroupNeed) flag(g book.Group) {
	if g.ForageNDF == 0 {
		n.Flags = append(n.Flags, "fibre cannot be judged: the NDF of its forage was not told")
		return
	}
	diet := -1.
	if g.DietNDF > 0 {
		diet = g.DietNDF
	}
	n.Flags = append(n.Flags, herd.PublishedDietLimits().Flags(g.ForageShare, herd.ForageNDF(g.ForageShare, g.ForageNDF), diet)...)
	low, high := herd.ForageLimit(g.WeightLb, g.ForageNDF, 0.9), herd.ForageLimit(g.WeightLb, g.ForageNDF, 1.2)
	if n.Forage > low {
		n.Flags = append(n.Flags, fmt.Sprintf("%.0f lb of forage a day: forage fibre fills a cow of this weight at %.0f (usual) to %.0f lb (upper limit)", n.Forage, low, high))
	}
}

// intakes are what a head eats by the equations that can be asked, lb of dry matter a day.
func intakes(g book.Group) []Intake {
	var all []Intake
	add := func(by string, kg float64) { all = append(all, Intake{by, round(kg / kgPound)}) }
	kg := g.WeightLb * kgPound
	switch g.Kind {
	case book.Lactating:
		if g.MilkLb > 0 && g.Fat > 0 && g.DaysInMilk > 0 {
			m := g.MilkLb * kgPound
			add("edition 2001", herd.PublishedCow2001().Intake(kg, herd.PublishedFCM().Of(m, g.Fat), g.DaysInMilk/7))
			add("edition 2021", herd.PublishedCow2021().Intake(kg, m*milkEnergy(g, herd.Edition2021), 1, usualCondition, g.DaysInMilk))
		}
	case book.DryCows:
		days := g.DaysPregnant
		if days == 0 {
			days = usualPregnant
		}
		fit := herd.Fit2001
		if days >= nearCalving {
			fit = herd.Fit2003
		}
		add("edition 2001", herd.PublishedDries(fit).Cow.Intake(kg, days))
		if g.DietNDF > 0 {
			k := herd.PublishedDry2021()
			add("edition 2021", k.Intake(kg, k.WeekOf(days), g.DietNDF))
		}
	case book.Heifer:
		mature := g.MatureLb * kgPound
		if mature == 0 {
			mature = usualMatureKg
		}
		add("edition 2021", herd.PublishedHeifer2021().Intake(kg, mature))
		if g.DietNDF > 0 {
			add("by fibre", herd.PublishedHeiferFibre().Intake(kg, g.DietNDF))
		}
	}
	if len(all) == 0 {
		all = append(all, Intake{"weighed", g.IntakeLb})
	}
	return all
}

func milkEnergy(g book.Group, e herd.Edition) float64 {
	protein := g.Protein
	if protein == 0 {
		protein = usualProtein
	}
	return herd.PublishedMilk(e).Energy(g.Fat, protein, usualLactose)
}

// energy is Mcal NEL a head and day, for upkeep and milk.
func energy(g book.Group, e herd.Edition) float64 {
	own := herd.PublishedMaintenance(e).Energy(g.WeightLb * kgPound)
	perKg := milkEnergy(g, e)
	if e == herd.Edition2001 && g.Protein == 0 {
		perKg = herd.PublishedFatMilk().Energy(g.Fat)
	}
	return own + g.MilkLb*kgPound*perKg
}

const (
	earlyDays  = 105  // days in milk up to which a group is judged as high and early cows (choice: cows in their last 200 of 305)
	calfLb     = 400  // about 6 months (choice)
	youngLb    = 750  // about 12 months (choice)
	breedingLb = 1050 // about 18 months (choice)
)

// usualTarget is the line of the quality table by what a group is.
func usualTarget(g book.Group) string {
	switch {
	case g.Kind == book.DryCows:
		return herd.OlderAnimals
	case g.Kind == book.Lactating && g.DaysInMilk > earlyDays:
		return herd.LateCows
	case g.Kind == book.Lactating:
		return herd.EarlyCows
	case g.WeightLb < calfLb:
		return herd.YoungCalves
	case g.WeightLb < youngLb:
		return herd.Heifers
	case g.WeightLb < breedingLb:
		return herd.BreedingHeifers
	}
	return herd.OlderAnimals
}

// targets is the book's table of quality targets.
func targets(v *book.View) (herd.Targets, string) {
	q := book.Quality{Base: "wisconsin"}
	if v.Place.Guide == "Minnesota" {
		q.Base = "minnesota"
	}
	name := q.Base
	if len(v.Quality) > 0 {
		q = v.Quality[len(v.Quality)-1].Body
		name = q.Base
		if len(q.Rows) > 0 {
			name += ", with rows of the book's own"
		}
	}
	table := herd.WisconsinTargets()
	if q.Base == "minnesota" {
		table = herd.MinnesotaTargets()
	}
	for _, r := range q.Rows {
		open := math.NaN()
		t := herd.Target{Group: r.Group, CP: herd.Band{Low: open, High: open}, NDF: herd.Band{Low: open, High: open}, NDFD: herd.Band{Low: open, High: open}, RFQ: herd.Band{Low: open, High: open}, Fat: open}
		at := -1
		for i := range table {
			if table[i].Group == r.Group {
				t, at = table[i], i
			}
		}
		for _, x := range []struct {
			from *float64
			to   *float64
		}{{r.RFQLow, &t.RFQ.Low}, {r.RFQHigh, &t.RFQ.High}, {r.Fat, &t.Fat}} {
			if x.from != nil {
				*x.to = *x.from
			}
		}
		if at < 0 {
			table = append(table, t)
		} else {
			table[at] = t
		}
	}
	return table, name
}

// Table lists the book's quality targets for a page.
func Table(v *book.View) (rows []QualityNeed, name string) {
	table, name := targets(v)
	for _, t := range table {
		rows = append(rows, QualityNeed{Target: t.Group, Wanted: wanted(t)})
	}
	return rows, name
}

// wanted says a target in words.
func wanted(t herd.Target) string {
	said := "no band named"
	low, high := !math.IsNaN(t.RFQ.Low), !math.IsNaN(t.RFQ.High)
	switch {
	case low && high:
		said = fmt.Sprintf("RFQ %.0f to %.0f", t.RFQ.Low, t.RFQ.High)
	case low:
		said = fmt.Sprintf("RFQ %.0f and over", t.RFQ.Low)
	case high:
		said = fmt.Sprintf("RFQ up to %.0f", t.RFQ.High)
	}
	if !math.IsNaN(t.Fat) {
		said += fmt.Sprintf("; over %.0f they get fat on it", t.Fat)
	}
	return said
}
