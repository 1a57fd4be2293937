package exchange_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
)

func TestSpraysAreReadAsTheirLabelsSay(t *testing.T) {
	got, err := exchange.ReadSprays(strings.NewReader("product,date,phi_days,rei_hours,farm,field,against,cost_ac,crops,label_read,by\n"+
		"Label A,2026-04-02,7,24,,,weevil; leafhopper,14,alfalfa;red clover,2026-04-01,\n"+
		"Label A,2026-05-20,7,24,Oak Farm,North,,,,,J. Doe\n"), "sprays.csv")
	if err != nil {
		t.Fatal(err)
	}
	read := unit.DateOf(2026, 4, 1)
	want := []exchange.SprayRow{
		{Row: 2, Day: unit.DateOf(2026, 4, 2), Product: &book.SprayProduct{Name: "Label A", Against: []string{"weevil", "leafhopper"}, PHIDays: 7, REIHours: 24, Cost: 14, Crops: []book.Crop{book.Alfalfa, book.RedClover}, LabelRead: &read}},
		{Row: 3, Farm: "Oak Farm", Field: "North", Day: unit.DateOf(2026, 5, 20), Sprayed: &book.Sprayed{Product: "Label A", PHIDays: 7, REIHours: 24, By: "J. Doe"}},
	}
	if diff := cmp.Diff(want, got.Sprays); diff != "" {
		t.Error(diff)
	}
}

func TestASprayWithoutItsLabelIsRefused(t *testing.T) {
	for _, c := range []struct{ row, want string }{
		{"Label A,2026-04-02,,24,,,weevil,,,,", "phi_days"},
		{"Label A,2026-04-02,7,,,,weevil,,,,", "rei_hours"},
		{"Label A,2026-04-02,7,24,,,moth,,,,", "against"},
		{"Label A,2026-04-02,7,24,,,,,,,", "against"},
		{"Label A,2026-04-02,700,24,,,weevil,,,,", "0 to 365"},
		{"Label A,2026-04-02,7,24,,,weevil,,alfalfa,,", "label_read"},
		{"Label A,2026-04-02,7,24,,,weevil,,alfalfa,2026-05-01,", "after the row's date"},
		{"Label A,2026-04-02,7,24,,North,,,,,", "whose field"},
	} {
		_, err := exchange.ReadSprays(strings.NewReader("product,date,phi_days,rei_hours,farm,field,against,cost_ac,crops,label_read,by\n"+c.row+"\n"), "s.csv")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q in it", c.row, err, c.want)
		}
	}
}

func FuzzReadSprays(f *testing.F) {
	f.Add([]byte("product,date,phi_days,rei_hours,against\nA,2026-04-02,7,24,weevil\n"))
	f.Add([]byte("product,date,phi_days,rei_hours,farm,field\nA,2026-04-02,7,24,B,C\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadSprays(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			return
		}
		for _, r := range got.Sprays {
			if (r.Product == nil) == (r.Sprayed == nil) {
				t.Fatalf("row %d is neither or both", r.Row)
			}
		}
	})
}
