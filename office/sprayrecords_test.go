package office_test

import (
	"slices"
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/office"
)

func sprays(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	return o.ImportSprays(t.Context(), ida, strings.NewReader(text), "s.csv", dry)
}

const sprayHead = "product,date,phi_days,rei_hours,farm,field,against,cost_ac,crops,label_read\n"

// A product is told once, corrected by a newer row of its day, and a farm's own goes before the book's.
func TestTheNewestLabelOfAProductHolds(t *testing.T) {
	o, _ := newOffice(t, "2026-06-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	brings(t, o, sprays, sprayHead+"Sample,2026-04-02,7,24,,,weevil;leafhopper,14,alfalfa,2026-04-01\n", [3]int{1, 0, 0})
	brings(t, o, sprays, sprayHead+"Sample,2026-04-02,7,24,,,weevil;leafhopper,14,alfalfa,2026-04-01\n", [3]int{0, 0, 1})
	brings(t, o, sprays, sprayHead+"Sample,2026-04-02,10,24,,,weevil;leafhopper,14,alfalfa,2026-04-01\n", [3]int{0, 1, 0})
	brings(t, o, sprays, sprayHead+"sample,2026-05-02,21,48,Alder Run,,leafhopper,,,\n", [3]int{1, 0, 0})
	v := view(t, o, 0)
	for _, f := range v.Farms {
		want := 10.
		if f.Name == "Alder Run" {
			want = 21
		}
		if got := v.SprayProducts(f); len(got) != 1 || got[0].PHIDays != want {
			t.Errorf("%s: %+v, want one with %g days", f.Name, got, want)
		}
	}
}

// What was sprayed keeps everybody out until its days are over, and is told of a field that the book has.
func TestASprayedFieldIsKeptOutOf(t *testing.T) {
	o, _ := newOffice(t, "2026-06-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	brings(t, o, sprays, sprayHead+"Sample,2026-06-12,14,24,Alder Run,Home Forty,,,,\n", [3]int{1, 0, 0})
	brings(t, o, sprays, sprayHead+"Sample,2026-06-12,14,24,Alder Run,Home Forty,,,,\n", [3]int{0, 0, 1})
	r, err := o.Round(t.Context(), ida, office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(r.Pieces, func(p *advice.Piece) bool { return p.Decision == "keep-out" })
	if i != 0 || !strings.Contains(r.Pieces[0].Title, "before 26 June") {
		t.Errorf("kept out at %d of %d, first %q", i, len(r.Pieces), r.Pieces[0].Title)
	}
	if _, err := sprays(o, t, sprayHead+"Sample,2026-06-12,14,24,Alder Run,Nowhere,,,,\n", false); err == nil {
		t.Error("a field that nobody has was sprayed")
	}
}
