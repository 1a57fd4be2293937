package diagnosis

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/source"
)

// Signs as the sources print them lead to their cause first, or beside what it is mistaken for.
func TestPrintedSignsLeadToTheirCause(t *testing.T) {
	for _, c := range []struct {
		seen Seen
		want string
	}{
		{Seen{"alfalfa", "all over", "leaf", "yellow", "midsummer"}, "Potato leafhopper"},
		{Seen{"alfalfa", "all over", "growing tip", "holes", "spring"}, "Alfalfa weevil"},
		{Seen{"alfalfa", "low ground", "root", "black", "spring"}, "Phytophthora root rot"},
		{Seen{"alfalfa", "new seeding", "seedling", "yellow", "spring"}, "Aphanomyces root rot"},
		{Seen{"alfalfa", "scattered plants", "stem", "black", "midsummer"}, "Anthracnose"},
		{Seen{"alfalfa", "scattered plants", "leaf", "yellow", "fall"}, "Verticillium wilt"},
		{Seen{"red clover", "patches", "stem", "black", "spring"}, "Northern anthracnose"},
		{Seen{"red clover", "scattered plants", "root", "brown spots", "midsummer"}, "Clover root borer"},
		{Seen{"", "low ground", "growing tip", "white", "spring"}, "Spring frost"},
		{Seen{"", "new seeding", "crown", "white", "late winter"}, "Sclerotinia crown rot"},
	} {
		got, err := Rank(c.seen)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(got, func(f Fit) bool { return f.Name == c.want })
		if i < 0 || got[i].Fits < got[0].Fits {
			t.Errorf("%+v: %s comes at %d of %d", c.seen, c.want, i, len(got))
		}
	}
}

func TestTheKeyIsWhole(t *testing.T) {
	answers := map[string][]string{}
	for _, q := range Questions() {
		answers[q.Key] = q.Answers
	}
	names := map[string]bool{}
	for _, c := range Causes() {
		if names[c.Name] {
			t.Errorf("%s stands twice", c.Name)
		}
		names[c.Name] = true
	}
	for _, c := range Causes() {
		if c.Signs == "" || c.Test == "" || c.Then == "" || len(c.Mistaken) == 0 {
			t.Errorf("%s: signs, look-alikes, test and what follows are all wanted", c.Name)
		}
		if _, ok := source.Find(c.Source); !ok {
			t.Errorf("%s: no source is called %q", c.Name, c.Source)
		}
		for key, list := range map[string][]string{"crop": c.Crops, "pattern": c.Patterns, "part": c.Parts, "color": c.Colors, "season": c.Seasons} {
			for _, v := range list {
				if !slices.Contains(answers[key], v) {
					t.Errorf("%s: %s %q is no answer", c.Name, key, v)
				}
			}
			if key != "crop" && len(list) == 0 {
				t.Errorf("%s: no %s", c.Name, key)
			}
		}
		for _, m := range c.Mistaken {
			if !names[m] {
				t.Errorf("%s: mistaken for %q, which is not in the key", c.Name, m)
			}
		}
	}
}

// TestMoreSignsNeverRaiseAMisfit: what fits better stands first, whatever is seen.
func TestWhatFitsBetterStandsFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(key string) string {
			for _, q := range Questions() {
				if q.Key == key {
					return rapid.SampledFrom(append([]string{""}, q.Answers...)).Draw(t, key)
				}
			}
			return ""
		}
		got, err := Rank(Seen{pick("crop"), pick("pattern"), pick("part"), pick("color"), pick("season")})
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range got {
			if i > 0 && f.Fits > got[i-1].Fits || f.Fits == 0 || f.Fits > f.Asked {
				t.Fatalf("%d: %s fits %d of %d", i, f.Name, f.Fits, f.Asked)
			}
		}
	})
}

func TestAWordOutsideTheKeyIsRefused(t *testing.T) {
	if _, err := Rank(Seen{Color: "blue"}); err == nil {
		t.Error("blue was taken")
	}
}

// More weeds of a group never cost less. [source.NewStandWeeds]
func TestMoreWeedsNeverCostLess(t *testing.T) {
	for _, g := range WeedGroups() {
		for i, r := range g.Rows {
			if r.Low > r.High || i > 0 && (r.Low < g.Rows[i-1].Low || r.High < g.Rows[i-1].High || r.From < g.Rows[i-1].To) {
				t.Errorf("%s: row %d, %+v", g.Name, i, r)
			}
		}
	}
}
