package advice

import (
	"fmt"
	"math"
	"strings"

	"haywarden/agronomy/budget"
	"haywarden/agronomy/source"
	"haywarden/agronomy/stand"
	"haywarden/outlook"
)

// KeepMoney is keeping a stand another year against ending it, in dollars an acre. The chain assumed is
// this stand followed by stands like it, on this farm: corn between them would move the best age up a year.
type KeepMoney struct {
	Costs          outlook.Costs
	Lacks          []string // lines that are not entered; with any nothing below is said
	Cuts           int
	Next           float64 // margin of this stand this year, by its stems
	Low, High      float64 // the same at the ends of the count's interval
	Chain          float64 // equal annual sum of a chain of stands, ended at the best age
	BestAge        int     // 1 is the seeding year
	EAE            []float64
	Yields         []float64 // tons DM an acre by age, the seeding year first
	NitrogenWorth  float64   // of the credit, $/ac; 0 where not known
	Credit         stand.Credit
	CreditUnknown  string // why no credit is said
	TonsOfIt       float64
	Verdict        MoneyVerdict
	MatrixVerdict  stand.Verdict
	DecidedByRoots bool // roots are not in the money, so that the matrix decides
}

// MoneyVerdict is what money says.
type MoneyVerdict string

// The verdicts.
const (
	MoneyKeep  MoneyVerdict = "keep"
	MoneyTurn  MoneyVerdict = "turn under"
	MoneyEqual MoneyVerdict = "no difference"
)

const (
	seedingShare = 0.55 // of a full year's yield in the seeding year, [source.SeedingYearYield]
	ladderYears  = 7
	rootsDecide  = 0.5 // share of bad roots over which the matrix goes before the money (choice)
)

// KeepMoneyOf weighs a counted stand; not ok where stems were not counted or it is clover.
func KeepMoneyOf(s *outlook.Stand, guide string) (KeepMoney, bool) {
	if s.Stems == nil || s.Year < 1 || s.Judged() == outlook.Clover {
		return KeepMoney{}, false
	}
	c := s.Stems.Count
	m := KeepMoney{Cuts: s.Cuttings(), TonsOfIt: c.YieldPotential, MatrixVerdict: stand.Matrix(c.Class, badRoots(s), s.Grass(), float64(s.Year))}
	m.DecidedByRoots = badRoots(s) > rootsDecide
	m.Costs, m.Lacks = s.Costs()
	var err error
	if m.Credit, err = stand.NitrogenCredit(guide, s.Ended()); err != nil {
		m.CreditUnknown = err.Error()
	}
	full := stand.YieldPotential(stand.PublishedStems().Full)
	m.Yields = []float64{seedingShare * full}
	for year := 1; year < ladderYears; year++ {
		m.Yields = append(m.Yields, full*stand.YieldByAge(year))
	}
	if len(m.Lacks) > 0 {
		return m, true
	}
	// A cutting costs the same whatever lies: it belongs with what an acre costs, not with the ton.
	fixed := m.Costs.Fixed + float64(m.Cuts)*m.Costs.Cutting
	margin := func(tons float64) float64 { return budget.KeepMargin(tons, 1, m.Costs.Hay, 0, fixed) }
	m.Next, m.Low, m.High = margin(c.YieldPotential), margin(c.YieldPotential), margin(c.YieldPotential)
	if c.Interval.Known() {
		k := stand.PublishedStems()
		m.Low, m.High = margin(k.YieldPotential(max(0, c.Interval.Low))), margin(k.YieldPotential(c.Interval.High))
	}
	salvage := make([]float64, len(m.Yields)) // what ending leaves is left this year or next: in neither sum
	if m.CreditUnknown == "" && !math.IsNaN(m.Costs.Nitrogen) {
		e := budget.Ending{Nitrogen: m.Costs.Nitrogen, Second: budget.HalfAgain}
		m.NitrogenWorth = e.Salvage([]float64{m.Credit.Low}, m.Costs.Rate)[0]
	}
	chain := budget.Stand{Yields: m.Yields, Price: m.Costs.Hay, Fixed: fixed, Establishment: m.Costs.Establishment + 2*m.Costs.Cutting}
	life, err := budget.EqualAnnual(chain.Margins(), salvage, 0, m.Costs.Rate)
	if err != nil {
		m.Lacks = []string{err.Error()}
		return m, true
	}
	m.EAE, m.Chain, m.BestAge = life.EAE, life.EAE[life.Best], life.BestAge()
	switch {
	case m.Low > m.Chain:
		m.Verdict = MoneyKeep
	case m.High < m.Chain:
		m.Verdict = MoneyTurn
	default:
		m.Verdict = MoneyEqual
	}
	return m, true
}

// Decides says in words which of matrix and money decides, and why they differ.
func (m KeepMoney) Decides() string {
	keeps := m.MatrixVerdict.Action == stand.Keep || m.MatrixVerdict.Action == stand.KeepThenTurn
	switch {
	case len(m.Lacks) > 0:
		return "No prices: the look of the stand decides, in tons. Enter " + strings.Join(m.Lacks, ", ") + " to weigh it in dollars."
	case m.DecidedByRoots:
		return "Over half of the roots are bad, which the money does not see: the look decides."
	case m.Verdict == MoneyEqual:
		return "Within the count's error keeping and replacing pay alike: roots, grass and the need of feed decide."
	case keeps != (m.Verdict == MoneyKeep) && m.MatrixVerdict.Action != stand.KeepIfNeeded:
		return fmt.Sprintf("The look says %s, the money %s: money decides, since the look knows no prices.", m.MatrixVerdict.Action, m.Verdict)
	}
	return "The look and the money agree."
}

// Choice is one way to go on with a stand, its numbers beside the others'.
type Choice struct {
	Name    string
	Tons    string // dry matter an acre this year
	Dollars string // margin an acre this year; empty where no price or yield is known
	Say     string
}

// Choices lists the ways to go on: keep, feed the first cut and turn, interseed, turn under.
func (m KeepMoney) Choices(s *outlook.Stand) []Choice {
	first := stand.FirstCutShare() * m.TonsOfIt
	keep := Choice{Name: "Keep", Tons: fmt.Sprintf("%.1f", m.TonsOfIt), Say: fmt.Sprintf("%d cuts, by its stems", m.Cuts)}
	cut := Choice{Name: "First cut, then turn under", Tons: fmt.Sprintf("%.1f, then what is sown", first), Say: "ask about crop insurance before it is cut; then " + sownAfter(s)}
	thick := Choice{Name: "Interseed", Tons: fmt.Sprintf("%.1f and what takes", m.TonsOfIt), Say: "red clover or grass, never alfalfa into alfalfa; no yield of thickened stands is published"}
	turn := Choice{Name: "Turn under", Tons: "corn, or what is sown", Say: m.creditSay()}
	if len(m.Lacks) == 0 {
		keep.Dollars = fmt.Sprintf("%s (%s to %s)", dollar(m.Next), dollar(m.Low), dollar(m.High))
		cut.Dollars = dollar(first*m.Costs.Hay-m.Costs.Cutting) + " of the cut"
		turn.Dollars = fmt.Sprintf("%s a year, new stands ended at age %d", dollar(m.Chain), m.BestAge)
	}
	return []Choice{keep, cut, thick, turn}
}

func sownAfter(s *outlook.Stand) string {
	day := s.Date + 30 // a first cut and the work between (choice)
	names := []string{}
	for _, e := range stand.EmergencyFrom(day, "") {
		if e.Opens(day.Year()) <= day+30 && len(names) < 3 {
			names = append(names, e.Name)
		}
	}
	if len(names) == 0 {
		return "nothing of the list can still be sown"
	}
	return strings.Join(names, ", ")
}

func (m KeepMoney) creditSay() string {
	if m.CreditUnknown != "" {
		return "count plants, and see the state's guide, for the nitrogen it leaves"
	}
	say := fmt.Sprintf("leaves %.0f lb of nitrogen an acre to corn", m.Credit.Low)
	if m.Credit.High > m.Credit.Low {
		say = fmt.Sprintf("leaves %.0f to %.0f lb of nitrogen an acre to corn", m.Credit.Low, m.Credit.High)
	}
	if m.NitrogenWorth > 0 {
		say += ", " + dollar(m.NitrogenWorth) + " over two years"
	}
	return say + "; corn after alfalfa gains 9-18 % beside, not in the dollars"
}

// dollar writes whole dollars an acre.
func dollar(v float64) string {
	if v < 0 {
		return fmt.Sprintf("-$%.0f", -v)
	}
	return fmt.Sprintf("$%.0f", v)
}

// grounds are the figures that the money rests on.
func (m KeepMoney) grounds() []Ground {
	var out []Ground
	if len(m.Lacks) == 0 {
		line := strings.Join(m.Costs.Decks, "; ")
		out = append(out, Ground{
			What: "This year's margin", Value: fmt.Sprintf("%s an acre (%s to %s)", dollar(m.Next), dollar(m.Low), dollar(m.High)),
			How:    fmt.Sprintf("%.2f tons at %s a ton of dry matter, %d cuttings at %s, %s a year; range by the count alone; %s", m.TonsOfIt, dollar(m.Costs.Hay), m.Cuts, dollar(m.Costs.Cutting), dollar(m.Costs.Fixed), line),
			Reckon: fmt.Sprintf("keep-or-turn stems=%.1f price=%.2f harvest_cost=0 fixed_cost=%.2f next_eae=%.2f", m.stems(), m.Costs.Hay, m.Costs.Fixed+float64(m.Cuts)*m.Costs.Cutting, m.Chain), Sources: []source.ID{source.KeepMargin, source.StemYield},
		}, Ground{
			What: "A chain of new stands", Value: fmt.Sprintf("%s an acre a year, each ended at age %d, the seeding year counted", dollar(m.Chain), m.BestAge),
			How: fmt.Sprintf("stands like it one after another, no corn between; what ending leaves is in neither sum; yield ladder %s tons; seeding %s, interest %.1f %%, two cuttings in the seeding year; %s", ladder(m.Yields), dollar(m.Costs.Establishment), 100*m.Costs.Rate, line), Sources: []source.ID{source.EqualAnnual, source.YieldByAge, source.YieldOldAge, source.SeedingYearYield},
		})
	}
	if m.CreditUnknown == "" {
		out = append(out, Ground{What: "Nitrogen it leaves", Value: m.creditSay(), How: strings.TrimPrefix(m.Credit.Note+"; the state's own table", "; "), Sources: []source.ID{m.Credit.Source}})
	}
	return append(out, Ground{What: "Look and money", Value: m.Decides(), How: "where they differ money decides, but for failing roots", Sources: []source.ID{source.KeepMargin, source.StandMatrix}})
}

// stems is the density that gives the tons.
func (m KeepMoney) stems() float64 {
	k := stand.PublishedStems()
	return (m.TonsOfIt - k.Intercept) / k.Slope
}

func ladder(yields []float64) string {
	parts := make([]string, len(yields))
	for i, y := range yields {
		parts[i] = fmt.Sprintf("%.1f", y)
	}
	return strings.Join(parts, ", ")
}
