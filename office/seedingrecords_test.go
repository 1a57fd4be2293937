package office_test

import (
	"strings"
	"testing"

	"haywarden/agronomy/seeding"
	"haywarden/book"
	"haywarden/office"
)

const seedHead = "farm,field,date,season,year,crop,species,variety,pure_lb,purity,germination,hard,price,bag,ordered\n"

func seedings(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	t.Helper()
	return o.ImportSeedings(t.Context(), ida, strings.NewReader(text), "seedings.csv", dry)
}

func TestAPlannedSeedingIsTakenInOnceAndChangedWhole(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	two := seedHead + "Alder Run,Home Forty,2026-04-01,late summer,2026,alfalfa-grass,alfalfa,Aster,12,99%,86%,5%,5.6,50,\n" +
		"Alder Run,Home Forty,2026-04-01,late-summer,2026,alfalfa-grass,orchardgrass,,3,,,,,,\n"
	brings(t, o, seedings, two, [3]int{1, 0, 0})
	brings(t, o, seedings, two, [3]int{0, 0, 1})
	brings(t, o, seedings, strings.ReplaceAll(strings.ReplaceAll(two, ",50,\n", ",50,yes\n"), ",,,,,,\n", ",,,,,,yes\n"), [3]int{0, 1, 0})
	v, err := o.View(t.Context(), ida, office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	var got []book.Dated[book.SeedingPlan]
	for _, f := range v.Farms[0].Fields {
		got = append(got, f.Planned...)
	}
	if len(got) != 1 || !got[0].Body.Ordered || len(got[0].Body.Offers) != 2 || *got[0].Body.Offers[0].Germination != 0.86 {
		t.Errorf("%+v", got)
	}
}

func TestAPlannedSeedingThatCannotBeSaysWhy(t *testing.T) {
	o, _ := newOffice(t, "2026-06-10 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	for row, want := range map[string]string{
		"Alder Run,Nowhere,2026-04-01,spring,2027,alfalfa,alfalfa,,15,,,,,,\n":                                                                                            "has no field called",
		"Elder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,15,,,,,,\n":                                                                                         "no farm is called",
		"Alder Run,Home Forty,2026-07-01,spring,2027,alfalfa,alfalfa,,15,,,,,,\n":                                                                                         "is after today",
		"Alder Run,Home Forty,2026-04-01,autumn,2027,alfalfa,alfalfa,,15,,,,,,\n":                                                                                         "accepted spring, late-summer",
		"Alder Run,Home Forty,2026-04-01,spring,2027,alfalfa,kale,,15,,,,,,\n":                                                                                            "accepted alfalfa, red-clover",
		"Alder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,150,,,,,,\n":                                                                                        "accepted 0.1 to 100",
		"Alder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,,,,,,,\n":                                                                                           "is empty; pounds of pure live seed",
		"Alder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,15,0.99,0.95,0.2,,,\n":                                                                              "over 1 together",
		"Alder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,15,0.99,0.9,,,,\nAlder Run,Home Forty,2026-04-01,spring,2027,red clover,alfalfa,,15,0.99,0.9,,,,\n": "told otherwise in row 2",
		"Alder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,15,0.99,0.9,,,,\nAlder Run,Home Forty,2026-04-01,spring,2027,alfalfa,alfalfa,,12,0.99,0.9,,,,\n":    "lots of one species are for one rate",
	} {
		if _, err := seedings(o, t, seedHead+row, false); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", row, err, want)
		}
	}
}

func TestEverySpeciesThatCanBePlannedCanBeReckoned(t *testing.T) {
	for _, s := range book.SeedSpecies() {
		if _, err := seeding.SpeciesNamed(s); err != nil {
			t.Error(err)
		}
	}
	if got, want := len(book.SeedSpecies()), len(seeding.PublishedSpecies()); got != want {
		t.Errorf("%d species can be planned, %d reckoned", got, want)
	}
}
