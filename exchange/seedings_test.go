package exchange

import (
	"strings"
	"testing"
)

func FuzzReadSeedings(f *testing.F) {
	f.Add("farm,field,year,season,crop,species,pure_lb,purity,germination\nA,B,2026,spring,alfalfa,alfalfa,14,99%,0.9\n")
	f.Add("farm;field;year;season;crop;species;pure_lb\nA;B;2026;late summer;mix;timothy;2,5\nA;B;2026;summer;mix;alfalfa;12\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ReadSeedings(strings.NewReader(text), "f.csv")
		if err != nil {
			return
		}
		for _, p := range got.Plans {
			if err := p.Plan.Check(); err != nil {
				t.Fatalf("taken, and yet %v", err)
			}
		}
	})
}
