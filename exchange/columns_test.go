package exchange_test

import (
	"cmp"
	"strings"
	"testing"

	"haywarden/exchange"
	"haywarden/tabular"
)

// forms are the columns of each table, and its reader.
var forms = map[string]struct {
	columns []exchange.Column
	read    func(text string) (exchange.File, error)
}{
	"stands": {exchange.StandColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadStands(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"visits": {exchange.VisitColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadVisits(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"prices": {exchange.PriceColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadPrices(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"herds": {exchange.HerdColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadHerds(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"machines": {exchange.MachineColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadMachines(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"stacks": {exchange.StackColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadStacks(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"applications": {exchange.SpreadColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadSpreads(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"sown": {exchange.SownColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadSown(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"feed": {exchange.FeedLotColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadFeedLots(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
	"labs": {exchange.LabColumns(), func(s string) (exchange.File, error) {
		t, err := exchange.ReadLabs(strings.NewReader(s), "f.csv")
		return t.File, err
	}},
}

func TestNoNameStandsForTwoColumns(t *testing.T) {
	for form, f := range forms {
		seen := map[string]string{}
		for _, c := range f.columns {
			for _, n := range append([]string{c.Name}, c.Also...) {
				if other, twice := seen[tabular.Plain(n)]; twice {
					t.Errorf("%s: %q stands for %s and for %s", form, n, other, c.Name)
				}
				seen[tabular.Plain(n)] = c.Name
			}
		}
	}
}

// filled are cells that each form accepts under its needed columns.
var filled = map[string]string{
	"package": "round", "lot": "bag 1", "store": "bag",
	"farm": "A", "field": "B", "acres": "9", "crop": "alfalfa", "seeded": "2024-05-01", "date": "2026-05-01", "deck": "D", "line": "hay-base", "unit": "$/ton", "value": "180",
	"group": "pen 2", "kind": "heifer", "head": "40", "weight": "900 lb", "forage_share": "85%", "machine": "mower", "width": "12", "machines kind": "rake",
	"sampled": "2026-05-12", "sample": "hay", "adf": "30", "ndf": "40", "note": "x",
	"material": "mop", "rate": "12", "applications rate": "250 lb/ac", "applications unit": "lb/ac", "species": "alfalfa",
}

// fill is what a form accepts under a column.
func fill(form, column string) string { return cmp.Or(filled[form+" "+column], filled[column]) }

func TestEveryNameOfAColumnIsTaken(t *testing.T) {
	for form, f := range forms {
		for _, c := range f.columns {
			for _, n := range append([]string{c.Name}, c.Also...) {
				heads, cells := []string{strings.ToUpper(n)}, []string{fill(form, c.Name)}
				for _, other := range f.columns {
					if other.Name != c.Name && (other.Needed || other.Name == "note") {
						heads, cells = append(heads, other.Name), append(cells, fill(form, other.Name))
					}
				}
				got, err := f.read(strings.Join(heads, ";") + "\n" + strings.Join(cells, ";") + "\n")
				if err != nil || len(got.Unused) > 0 {
					t.Errorf("%s: %s under %q: unused %q, %v", form, c.Name, n, got.Unused, err)
				}
			}
		}
	}
}
