package office_test

import (
	"slices"
	"strings"
	"testing"

	"haywarden/advice"
	"haywarden/office"
)

func stacks(o *office.Office, t testing.TB, text string, dry bool) (office.ImportedRecords, error) {
	return o.ImportStacks(t.Context(), ida, strings.NewReader(text), "k.csv", dry)
}

const stackHead = "farm,field,date,package,moisture,place,core_f,stack\n"

// Hay heats whatever became of its field: a stack of a stand that was turned under, and whose field was
// sown anew, is read and warned of as any other.
func TestHotHayIsWarnedOfThoughItsStandIsGone(t *testing.T) {
	o, _ := newOffice(t, "2026-08-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	brings(t, o, stacks, stackHead+"Alder Run,Home Forty,2026-07-20,round,23,inside,,\n", [3]int{1, 0, 0})
	brings(t, o, stands, "farm,field,acres,crop,seeded,turned_under\nAlder Run,Home Forty,40,alfalfa,2022-04-20,2026-08-01\nAlder Run,Home Forty,40,red clover,2026-08-10,\n", [3]int{1, 1, 2})
	watch := func() advice.Urgency {
		t.Helper()
		r, err := o.Round(t.Context(), ida, office.Ask{})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(r.Pieces, func(p *advice.Piece) bool { return p.Decision == "hot-stack" })
		if i < 0 {
			t.Fatal("nobody watches the stack")
		}
		if s := r.Pieces[i].Stand; s.TurnedUnder == nil {
			t.Errorf("the stack is told of the stand seeded on %s", s.Seeded)
		}
		return r.Pieces[i].Urgency
	}
	if u := watch(); u != advice.Today {
		t.Errorf("damp and never read: %s", u.Key())
	}
	brings(t, o, stacks, stackHead+"Alder Run,Home Forty,2026-08-18,,,,162,\n", [3]int{1, 0, 0})
	if u := watch(); u != advice.Safety {
		t.Errorf("162 F in the core: %s", u.Key())
	}
	id := ""
	for _, s := range view(t, o, 0).Farms[0].Fields {
		for _, st := range s.Stands {
			if st.TurnedUnder != nil {
				id = st.ID
			}
		}
	}
	got, err := o.Stand(t.Context(), ida, id, office.Ask{})
	if err != nil || len(got.Pieces) != 1 || got.Pieces[0].Urgency != advice.Safety {
		t.Errorf("the stand that is gone, asked by itself: %+v, %v", got, err)
	}
	farm, err := o.Farm(t.Context(), ida, "Alder Run", office.Ask{})
	if err != nil || !slices.ContainsFunc(farm.Stands, func(s advice.StandAdvice) bool { return s.Stand.ID == id }) {
		t.Errorf("the farm's page leaves the stack out: %v", err)
	}
}

func TestAReadingIsOfTheStackItNames(t *testing.T) {
	o, _ := newOffice(t, "2026-07-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	brings(t, o, stacks, stackHead+"Alder Run,Home Forty,2026-06-04,round,19,inside,,\nAlder Run,Home Forty,2026-07-14,round,17,inside,,\nAlder Run,Home Forty,2026-07-18,,,,151,2026-06-04\nAlder Run,Home Forty,2026-07-18,,,,88,\n", [3]int{4, 0, 0})
	got, err := o.Stand(t.Context(), ida, "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	k := got.Stand.Stack()
	if k == nil || k.CoreF != 151 || k.Baled.String() != "2026-06-04" {
		t.Errorf("%+v, want the older stack at 151 F", k)
	}
	for _, c := range []struct{ row, want string }{
		{"Alder Run,Home Forty,2026-07-18,,,,151,2026-06-05\n", "2026-06-05: no stack of Home Forty was baled on that day; baled were 2026-06-04, 2026-07-14"},
		{"Alder Run,Back Lot,2026-07-18,,,,151,\n", "no stack of Back Lot of Alder Run is in the book by 2026-07-18; put it up first"},
		{"Alder Run,Home Forty,2026-05-18,,,,151,\n", "no stack of Home Forty of Alder Run is in the book by 2026-05-18"},
		{"Alder Run,Home Forty,2026-06-18,,,,151,2026-07-14\n", "was baled after it was read"},
	} {
		if _, err := stacks(o, t, stackHead+c.row, false); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.row, err, c.want)
		}
	}
}
