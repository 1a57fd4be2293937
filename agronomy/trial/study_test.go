package trial

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// study makes a study of rows written `A,site,year,block,yield,rating`; a point is a value not told.
func study(t testing.TB, text string) Study {
	t.Helper()
	s := Study{Traits: []string{"yield", "rating"}}
	for i, line := range strings.Fields(text) {
		c := strings.Split(line, ",")
		r := Record{Row: i + 2, Entry: c[0], Place: c[1], Year: c[2], Block: c[3], Values: []float64{math.NaN(), math.NaN()}}
		for j := range r.Values {
			if 4+j < len(c) && c[4+j] != "." {
				if _, err := fmt.Sscan(c[4+j], &r.Values[j]); err != nil {
					t.Fatal(err)
				}
			}
		}
		s.Records = append(s.Records, r)
	}
	return s
}

const blocksOfOne = "A,X,1,1,4.1,3 B,X,1,1,4.6,2 C,X,1,1,4.3,1 A,X,1,2,4.5,3 B,X,1,2,4.9,2 C,X,1,2,4.2,1 A,X,1,3,4.4,3 B,X,1,3,5.2,2 C,X,1,3,4.7,1"

func TestAStudyIsAnsweredOrRefusedByTheShapeOfItsTable(t *testing.T) {
	ask := Question{Trait: "yield", Level: 0.05}
	for name, c := range map[string]struct{ rows, want string }{
		"one mean an entry in one environment": {"A,X,1,,4.1 B,X,1,,4.6 C,X,1,,4.3", "one value of each entry in one environment"},
		"a plot entered twice in its block":    {blocksOfOne + " A,X,1,1,4.1", "rows 2 and 11 are both"},
		"a plot entered twice without blocks":  {"A,X,1,,4.1 B,X,1,,4.6 A,X,1,,4.1", "rows 2 and 4 are alike"},
		"a constant column":                    {"A,X,1,1,4 B,X,1,1,4 A,X,1,2,4 B,X,1,2,4", "nothing differs"},
		"nothing measured":                     {"A,X,1,1,. B,X,1,1,.", "no number in any row"},
		"one entry":                            {"A,X,1,1,4 A,X,1,2,5", "2 at least"},
	} {
		if _, err := study(t, c.rows).Analyse(ask); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want %q", name, err, c.want)
		}
	}
	for name, rows := range map[string]string{
		"blocks of one environment":  blocksOfOne,
		"a lost plot":                strings.Replace(blocksOfOne, "B,X,1,2,4.9,2", "B,X,1,2,.,2", 1),
		"plots without blocks":       "A,X,1,,4.1 B,X,1,,4.6 A,X,1,,4.3 B,X,1,,4.9",
		"a missing cell":             "A,X,1,,4.1 B,X,1,,4.6 C,X,1,,4.0 A,Y,1,,5.1 B,Y,1,,5.5 A,Z,1,,3.1 B,Z,1,,3.9 C,Z,1,,3.3",
		"entries that do not differ": "A,X,1,1,3.0 A,X,1,2,5.0 B,X,1,1,4.9 B,X,1,2,3.3 C,X,1,1,3.4 C,X,1,2,4.8",
	} {
		a, err := study(t, rows).Analyse(ask)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		sum := 0.0
		for _, e := range a.Entries {
			sum += e.Best
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%s: chances of being best add up to %g", name, sum)
		}
	}
}

func TestEntriesThatDoNotDifferAreSaidNotTo(t *testing.T) {
	a, err := study(t, "A,X,1,1,3.0 A,X,1,2,5.0 B,X,1,1,4.9 B,X,1,2,3.3 C,X,1,1,3.4 C,X,1,2,4.8").Analyse(Question{Trait: "yield", Level: 0.05})
	if err != nil {
		t.Fatal(err)
	}
	if a.Sure() || a.Fit.Components[0].Variance != 0 || !strings.Contains(strings.Join(a.Notes, " "), "does not pass") {
		t.Errorf("%v %v", a.Fit.Components, a.Notes)
	}
	for _, e := range a.Entries {
		if e.Shrunken != a.Entries[0].Shrunken {
			t.Errorf("%s has a mean of its own", e.Entry)
		}
	}
}

func drawnStudy(t *rapid.T) Study {
	s := Study{Traits: []string{"yield", "rating"}}
	n, envs := rapid.IntRange(3, 8).Draw(t, "entries"), rapid.IntRange(3, 7).Draw(t, "environments")
	for i := range n {
		rating := float64(rapid.IntRange(1, 6).Draw(t, "rating"))
		for j := range envs {
			v := 4 + 0.3*float64(i) + 0.5*float64(j) + rapid.Float64Range(-1, 1).Draw(t, "error")
			s.Records = append(s.Records, Record{Row: len(s.Records) + 2, Entry: string(rune('A' + i)), Place: fmt.Sprint(j), Year: "1", Values: []float64{v, rating}})
		}
	}
	return s
}

func TestShrunkenMeansAreNoFurtherApartThanTheMeans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, err := drawnStudy(t).Analyse(Question{Trait: "yield", Level: 0.1, Seed: 3})
		if err != nil {
			t.Fatal(err)
		}
		var mean float64
		for _, e := range a.Entries {
			mean += e.Mean / float64(len(a.Entries))
		}
		for _, e := range a.Entries {
			if math.Abs(e.Shrunken-mean) > math.Abs(e.Mean-mean)*(1+1e-6)+1e-7 {
				t.Fatalf("%s: mean %g, shrunken %g, about %g", e.Entry, e.Mean, e.Shrunken, mean)
			}
		}
	})
}

func TestAShortlistKeepsTheLimitsAndItsChances(t *testing.T) {
	no := math.NaN()
	rapid.Check(t, func(t *rapid.T) {
		s := drawnStudy(t)
		most := float64(rapid.IntRange(1, 6).Draw(t, "most"))
		c := Choice{
			Wanted: []Wanted{{"yield", 1, false, no, no}, {"rating", rapid.Float64Range(0, 2).Draw(t, "weight"), true, most, no}},
			Check:  "A", Keep: 10, Level: 0.1, Seed: 5, Seeds: Cost{Yield: "yield", Hay: 150, Rate: 15, Years: 3},
		}
		list, err := s.Shorten(c)
		if err != nil && strings.Contains(err.Error(), "tell every value exactly") {
			return // drawn so that no error is left over: refused, as it should be
		}
		if err != nil {
			t.Fatal(err)
		}
		if list.Entries+len(list.LeftOut) != len(s.entries()) {
			t.Fatalf("%d listed and %d out of %d", list.Entries, len(list.LeftOut), len(s.entries()))
		}
		sum := 0.0
		for i, l := range list.Listed {
			sum += l.Best
			if l.Values[1] > most || i > 0 && l.Index > list.Listed[i-1].Index+1e-12 || l.Entry != "A" && !(l.Beats >= 0 && l.Beats <= 1) {
				t.Fatalf("%+v with at most %g", l, most)
			}
			if g := l.Gain; g != nil && (g.Low > g.Middle || g.High < g.Middle || g.NoDifference != (g.Low <= 0 && g.High >= 0)) {
				t.Fatalf("%+v", g)
			}
		}
		if list.Entries > 0 && math.Abs(sum-1) > 1e-6 {
			t.Fatalf("chances add up to %g", sum)
		}
	})
}

func TestAShortlistRefusesWhatItCannotWeigh(t *testing.T) {
	no := math.NaN()
	s := study(t, blocksOfOne)
	for want, c := range map[string]Choice{
		"no trait is weighted":        {Keep: 1, Level: 0.05},
		"no trait is called":          {Wanted: []Wanted{{"fibre", 1, false, no, no}}, Keep: 1, Level: 0.05},
		"all weights are 0":           {Wanted: []Wanted{{"yield", 0, false, no, no}}, Keep: 1, Level: 0.05},
		"weight -1":                   {Wanted: []Wanted{{"yield", -1, false, no, no}}, Keep: 1, Level: 0.05},
		"check \"Z\" is no entry":     {Wanted: []Wanted{{"yield", 1, false, no, no}}, Keep: 1, Level: 0.05, Check: "Z"},
		"seed is set against yield":   {Wanted: []Wanted{{"yield", 1, false, no, no}}, Keep: 1, Level: 0.05, Check: "A", Seeds: Cost{Yield: "rating", Hay: 1, Rate: 1, Years: 1}},
		"hay 100 $/ton, rate 0 lb/ac": {Wanted: []Wanted{{"yield", 1, false, no, no}}, Keep: 1, Level: 0.05, Check: "A", Seeds: Cost{Yield: "yield", Hay: 100, Years: 1}},
	} {
		if _, err := s.Shorten(c); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; want %q", err, want)
		}
	}
	list, err := s.Shorten(Choice{Wanted: []Wanted{{"yield", 1, false, no, no}, {"rating", 0, true, 0, no}}, Keep: 3, Level: 0.05})
	if err != nil || len(list.Listed) != 0 || len(list.LeftOut) != 3 || len(list.Notes) == 0 {
		t.Errorf("limits that nothing passes: %+v, %v", list, err)
	}
}

// The seed's price is set against the yield's: an entry whose seed costs 1 $/lb more at 15 lb pays 15 $ more.
func TestTheSeedsPriceComesOffItsGain(t *testing.T) {
	no := math.NaN()
	c := Choice{Wanted: []Wanted{{"yield", 1, false, no, no}}, Check: "A", Keep: 3, Level: 0.05, Seeds: Cost{Yield: "yield", Hay: 100, Rate: 15, Years: 4}}
	free, err := study(t, blocksOfOne).Shorten(c)
	if err != nil {
		t.Fatal(err)
	}
	c.Seeds.Price = "rating"
	paid, err := study(t, blocksOfOne).Shorten(c)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range paid.Listed {
		if l.Entry == "A" {
			continue
		}
		more := -15.0 // B's seed is 1 $/lb cheaper than the check's, C's 2
		if l.Entry == "C" {
			more = -30
		}
		if g := l.Gain; g == nil || g.SeedMore != more || math.Abs(g.Middle-(free.Listed[i].Gain.Middle-more)) > 1e-9 {
			t.Errorf("%s: %+v beside %+v", l.Entry, g, free.Listed[i].Gain)
		}
	}
}
