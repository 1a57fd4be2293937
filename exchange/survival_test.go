package exchange_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/book"
	"haywarden/exchange"
)

func TestCrownsWinterAndHarmAreReadAndWrittenAlike(t *testing.T) {
	const file = "farm,field,date,crown ratings,hardiness,resistance,drainage,fall moisture,stubble left,harm,harm day,tips broken,leaves lost,lodged,days under water,silt_in,roots soft,crowns_see_sun\n" +
		"Alder Run,Home Forty,2025-10-14,6/5/4/3/1/1,very hardy,some,well drained,wet,no,,,,,,,,,\n" +
		"Alder Run,Home Forty,2026-07-10,,,,,,,hail,2026-07-08,60 %,30,yes,,,,\n" +
		"Alder Run,Home Forty,2026-07-20,,,,,,,standing water,2026-07-15,,,,5,2,no,\n" +
		"Alder Run,Home Forty,2026-08-20,,,,,,,drought,2026-08-01,,,,,,,yes\n"
	got, err := exchange.ReadVisits(strings.NewReader(file), "v.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := []book.Visit{
		{Crowns: &book.Crowns{6, 5, 4, 3, 1, 1}, Winter: &book.WinterSeen{Hardiness: "very", Resistance: "moderate", Drainage: "good", Moisture: "wet", Stubble: new(false)}},
		{Harm: &book.Harm{Kind: book.Hail, Day: day(t, "2026-07-08"), Tips: new(60.), Leaves: new(30.), Lodged: true}},
		{Harm: &book.Harm{Kind: book.Ponding, Day: day(t, "2026-07-15"), Under: new(5.), Silt: new(2.), Soft: new(false)}},
		{Harm: &book.Harm{Kind: book.Drought, Day: day(t, "2026-08-01"), Crowns: new(true)}},
	}
	for i, w := range want {
		if diff := cmp.Diff(w, got.Visits[i].Visit); diff != "" {
			t.Errorf("visit %d (-want +got):\n%s", i, diff)
		}
	}
	if r := want[0].Dig(); r.Dug != 20 || r.Bad != 5 {
		t.Errorf("the dig of the ratings: %+v", r)
	}
	var out bytes.Buffer
	if err := exchange.WriteVisits(&out, got.Visits); err != nil {
		t.Fatal(err)
	}
	again, err := exchange.ReadVisits(&out, "v.csv")
	if err != nil {
		t.Fatal(err)
	}
	for i := range want {
		if diff := cmp.Diff(want[i], again.Visits[i].Visit); diff != "" {
			t.Errorf("written and read again, visit %d (-want +got):\n%s", i, diff)
		}
	}
}

func TestBadCrownsAndHarmAreRefused(t *testing.T) {
	for name, c := range map[string]struct{ head, row, want string }{
		"five ratings":          {"crown_ratings", "6/5/4/3/1", "six numbers wanted"},
		"a rating of nothing":   {"crown_ratings", "0/0/0/0/0/0", "accepted 1 to 500"},
		"no number":             {"crown_ratings", "6/5/4/3/1/x", "accepted 0 to 500"},
		"a word of no list":     {"drainage", "swampy", "poor, medium, good"},
		"harm without its day":  {"harm", "hail", "harm_day"},
		"harm without its kind": {"tips_broken_pct", "50", "accepted hail, ponding, drought"},
		"more than all tips":    {"harm,harm_day,tips_broken_pct", "hail,2026-07-08,140", "accepted 0 to 100"},
	} {
		_, err := exchange.ReadVisits(strings.NewReader("farm,field,date,"+c.head+"\nAlder Run,Home Forty,2026-07-10,"+c.row+"\n"), "v.csv")
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "row 2") {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
