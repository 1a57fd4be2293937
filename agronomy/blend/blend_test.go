package blend

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

func material(t testing.TB, id string) Material {
	t.Helper()
	all := PublishedMaterials()
	i := slices.IndexFunc(all, func(m Material) bool { return m.ID == id })
	if i < 0 {
		t.Fatalf("no material %s", id)
	}
	return all[i]
}

// invented prices of the worked example, $/ton.
func offers(t testing.TB) (list []Offer) {
	for _, o := range []struct {
		id    string
		price unit.DollarTon
	}{{"map", 760}, {"tsp", 690}, {"mop", 480}, {"kmag", 520}, {"as", 420}, {"gyp", 110}, {"b14", 1400}} {
		list = append(list, Offer{material(t, o.id), o.price, 100})
	}
	return list
}

func field(acres unit.Acre) Field {
	return Field{Name: "home", Acres: acres, Need: map[Nutrient]float64{P2O5: 60, K2O: 250, S: 25, B: 2}, NMost: math.Inf(1)}
}

func TestAMixIsToldInWords(t *testing.T) {
	f := field(40)
	f.NMost = 10
	m, err := Cheapest(f, offers(t), PublishedLimits())
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"one more lb of phosphate costs $0.75", "one more lb of potash costs $0.40", "one more lb of sulfur costs $0.32",
		"one more lb of boron costs $4.90", "one more lb of nitrogen allowed saves $0.091",
	}
	if diff := cmp.Diff(want, m.Words()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	f = Field{Acres: 1, Need: map[Nutrient]float64{Mg: 20, S: 25, K2O: 330}, NMost: math.Inf(1)}
	if m, err = Cheapest(f, offers(t), PublishedLimits()); err != nil {
		t.Fatal(err)
	}
	if !slices.Contains(m.Words(), "sulfur comes along with the rest: 40 lb/ac, and a lb more costs nothing") {
		t.Errorf("words %q", m.Words())
	}
}

func TestWhatCanHarmIsSaidWithTheMix(t *testing.T) {
	for _, tc := range []struct {
		name  string
		need  map[Nutrient]float64
		offer string
		want  []string
	}{
		{"a little potash", map[Nutrient]float64{K2O: 200}, "mop", nil},
		{"much potash", map[Nutrient]float64{K2O: 250}, "mop", []string{"over 200 lb a year split it"}},
		{"very much potash", map[Nutrient]float64{K2O: 310}, "mop", []string{"over 200 lb a year split it", "over 300 lb of potash a year is unusual"}},
		{"boron", map[Nutrient]float64{B: 2}, "b20", []string{"never with the seed"}},
		{"elemental sulfur", map[Nutrient]float64{S: 25}, "es", []string{"months of warm moist soil"}},
		{"ammonium sulfate", map[Nutrient]float64{S: 25}, "as", []string{"gains nothing from the nitrogen"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			f := Field{Acres: 1, Need: tc.need, NMost: math.Inf(1)}
			m, err := Cheapest(f, []Offer{{material(t, tc.offer), 500, 100}}, PublishedLimits())
			if err != nil {
				t.Fatal(err)
			}
			said := m.Cautions(PublishedLimits())
			if len(said) != len(tc.want) {
				t.Fatalf("said %q, want %q", said, tc.want)
			}
			for i, w := range tc.want {
				if !strings.Contains(said[i], w) {
					t.Errorf("said %q, want %q in it", said[i], w)
				}
			}
		})
	}
}

func TestWhatCannotBeMixedIsRefusedWithTheReason(t *testing.T) {
	for want, change := range map[string]func(f *Field, o *[]Offer){
		"need of boron 5 lb/ac: accepted 0 to 4":                            func(f *Field, _ *[]Offer) { f.Need[B] = 5 },
		"need of magnesium 9 lb/ac: no product in prices carries magnesium": func(f *Field, o *[]Offer) { f.Need[Mg] = 9; *o = slices.Delete(*o, 3, 4) },
		"meets the need of phosphate and the limit of nitrogen together":    func(f *Field, o *[]Offer) { f.NMost = 5; *o = slices.Delete(*o, 1, 2) },
		"prices: map stands twice":                                          func(_ *Field, o *[]Offer) { *o = append(*o, (*o)[0]) },
		"prices: map 0 $/ton: want a price over 0":                          func(_ *Field, o *[]Offer) { (*o)[0].PerTon = 0 },
		"acres 0: want an area over 0":                                      func(f *Field, _ *[]Offer) { f.Acres = 0 },
		"n_max NaN lb/ac: accepted 0 and over":                              func(f *Field, _ *[]Offer) { f.NMost = math.NaN() },
		"need of potash -1 lb/ac: accepted 0 and over":                      func(f *Field, _ *[]Offer) { f.Need[K2O] = -1 },
		"nothing is needed":                                                 func(f *Field, _ *[]Offer) { f.Need = nil },
		`need of "n": accepted p2o5, k2o, s, mg and b`:                      func(f *Field, _ *[]Offer) { f.Need[N] = 3 },
	} {
		f, o := field(40), offers(t)
		change(&f, &o)
		_, err := Cheapest(f, o, PublishedLimits())
		if err == nil || !strings.Contains(err.Error(), want) || !strings.HasPrefix(err.Error(), "field home: ") && !strings.HasPrefix(err.Error(), "prices: ") {
			t.Errorf("error %v, want one saying %q", err, want)
		}
		if _, again := Ordered(t.Context(), []Field{f}, o, PublishedLimits()); again == nil || again.Error() != err.Error() {
			t.Errorf("an order says %v, a mix %v", again, err)
		}
	}
	o := offers(t)
	o[0].Step = 0
	if _, err := Ordered(t.Context(), []Field{field(1)}, o, PublishedLimits()); err == nil || !strings.Contains(err.Error(), "map is delivered in steps of 0 lb") {
		t.Errorf("a step of nothing: %v", err)
	}
	if _, err := Ordered(t.Context(), nil, o, PublishedLimits()); err == nil {
		t.Error("an order for no field is made")
	}
}

// TestAnOrderInBagsCostsWhatTheBestOfAllBagsDoes tries every number of bags of a small order.
func TestAnOrderInBagsCostsWhatTheBestOfAllBagsDoes(t *testing.T) {
	f := Field{Name: "north", Acres: 7, Need: map[Nutrient]float64{P2O5: 30, K2O: 40, S: 20}, NMost: math.Inf(1)}
	list := []Offer{{material(t, "map"), 760, 500}, {material(t, "tsp"), 640, 200}, {material(t, "kmag"), 520, 500}, {material(t, "mop"), 480, 50}, {material(t, "gyp"), 110, 1000}}
	best := math.Inf(1)
	var n [5]int
	for n[0] = range 2 {
		for n[1] = range 4 {
			for n[2] = range 4 {
				for n[3] = range 12 {
					for n[4] = range 3 {
						cost, has := 0., map[Nutrient]float64{}
						for i, o := range list {
							cost += float64(n[i]) * o.Step * float64(o.PerTon) / 2000
							for _, c := range o.Material.Contents {
								has[c.Nutrient] += float64(n[i]) * o.Step * c.Share
							}
						}
						if has[P2O5] >= 30*7-1e-9 && has[K2O] >= 40*7-1e-9 && has[S] >= 20*7-1e-9 {
							best = min(best, cost)
						}
					}
				}
			}
		}
	}
	o, err := Ordered(t.Context(), []Field{f}, list, PublishedLimits())
	if err != nil {
		t.Fatal(err)
	}
	if o.Cost < best*(1-1e-9) || o.Cost > best*(1+orderGap) || math.Abs(o.Rounding-(o.Cost-o.Exact)) > 1e-9 {
		t.Errorf("%.4f $ with %.4f $ of rounding; the best of all bags is %.4f $", o.Cost, o.Rounding, best)
	}
}

// TestAnOrderForSeveralFieldsMeetsEachAndRoundsOnce: bought together, fields share what is rounded up.
func TestAnOrderForSeveralFieldsMeetsEachAndRoundsOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapidOffers(t)
		var fields []Field
		exact, apart := 0., 0.
		for i := range rapid.IntRange(1, 3).Draw(t, "fields") {
			f := Field{Name: fmt.Sprint("f", i), Acres: unit.Acre(rapid.IntRange(3, 80).Draw(t, "acres")), NMost: 40, Need: map[Nutrient]float64{
				P2O5: float64(rapid.IntRange(0, 60).Draw(t, "p")), K2O: float64(rapid.IntRange(1, 250).Draw(t, "k")), B: float64(rapid.IntRange(0, 4).Draw(t, "b")),
			}}
			m, err := Cheapest(f, list, PublishedLimits())
			if err != nil {
				t.Fatal(err)
			}
			exact += float64(m.CostAcre) * float64(f.Acres)
			one, err := Ordered(context.Background(), []Field{f}, list, PublishedLimits())
			if err != nil {
				t.Fatal(err)
			}
			apart += one.Cost
			fields = append(fields, f)
		}
		o, err := Ordered(context.Background(), fields, list, PublishedLimits())
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(o.Exact-exact) > 1e-6*exact || o.Cost < exact*(1-1e-9) || o.Cost > apart*(1+2*orderGap) {
			t.Fatalf("together %g, exact %g, one by one %g", o.Cost, exact, apart)
		}
		spread := map[string]float64{}
		for k, f := range fields {
			has := map[Nutrient]float64{}
			for _, p := range o.Spread[k] {
				spread[p.Material.ID] += p.PerAcre * float64(f.Acres)
				for _, c := range p.Material.Contents {
					has[c.Nutrient] += p.PerAcre * c.Share
				}
			}
			for n, v := range f.Need {
				if has[n] < v-1e-4 {
					t.Fatalf("field %s gets %g lb/ac of %s, needs %g", f.Name, has[n], n, v)
				}
			}
			if has[N] > f.NMost+1e-4 || has[B] > PublishedLimits().Boron+1e-4 {
				t.Fatalf("field %s gets %g lb/ac of nitrogen, %g of boron", f.Name, has[N], has[B])
			}
		}
		cost := 0.
		for _, l := range o.Lines {
			cost += l.Cost
			if spread[l.Material.ID] > l.Pounds+1e-3 {
				t.Fatalf("%g lb of %s are spread and %g bought", spread[l.Material.ID], l.Material.ID, l.Pounds)
			}
			delete(spread, l.Material.ID)
		}
		if math.Abs(cost-o.Cost) > 1e-6*cost || len(spread) > 0 {
			t.Fatalf("lines cost %g of %g; %v are spread and not bought", cost, o.Cost, spread)
		}
	})
}

func rapidOffers(t *rapid.T) (list []Offer) {
	for _, m := range PublishedMaterials() {
		if slices.Contains([]string{"map", "tsp", "mop", "sop", "b14"}, m.ID) {
			list = append(list, Offer{m, unit.DollarTon(rapid.IntRange(300, 1500).Draw(t, "price")), float64(rapid.SampledFrom([]int{50, 100, 2000}).Draw(t, "step"))})
		}
	}
	return list
}

// TestAShadowPriceIsWhatAPoundMoreCosts asks for a hundredth of a pound more of each need.
func TestAShadowPriceIsWhatAPoundMoreCosts(t *testing.T) {
	f := field(1)
	f.NMost = 10
	m, err := Cheapest(f, offers(t), PublishedLimits())
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []Nutrient{P2O5, K2O, S, B, N} {
		const more = 0.01
		g := field(1)
		if g.NMost = 10; n == N {
			g.NMost += more
		} else {
			g.Need[n] += more
		}
		dear, err := Cheapest(g, offers(t), PublishedLimits())
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(dear.CostAcre-m.CostAcre) / more; math.Abs(got-m.Shadow[n]) > 1e-6 {
			t.Errorf("a pound of %s costs %g, its shadow price is %g", n, got, m.Shadow[n])
		}
	}
}

func BenchmarkOrderForThirtyFields(b *testing.B) {
	var fields []Field
	for i := range 30 {
		f := field(unit.Acre(10 + 3*i))
		f.Need[K2O] -= float64(5 * i)
		f.NMost = 12
		fields = append(fields, f)
	}
	for b.Loop() {
		if _, err := Ordered(b.Context(), fields, offers(b), PublishedLimits()); err != nil {
			b.Fatal(err)
		}
	}
}
