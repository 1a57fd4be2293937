package office_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/office"
)

const soilBook = "farm,field,sampled,lab,depth,ph,buffer-sikora,p-mehlich3 ppm,k-mehlich3 ppm,cec\n" +
	"Alder Run,Home Forty,2022-04-02,Valley,8,6.6,6.8,22,150,12\n" +
	"Alder Run,Home Forty,2026-04-02,Valley,8,6.1,6.5,22,90,12\n"

// TestAFieldsSoilIsSaidByTheGuidesChosen proves that a field's soil is told with what the chosen guides give,
// and that a guide whose table is not in the program says so instead.
func TestAFieldsSoilIsSaidByTheGuidesChosen(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	s, err := o.Soil(t.Context(), ida, "Alder Run/Home Forty", office.Ask{})
	if err != nil || len(s.Values) != 0 || s.Lime.Why != "no soil pH is in the book" || s.Ledger != nil || s.Without == "" {
		t.Fatalf("%+v, %v; want a field without a test that says so", s, err)
	}
	if _, err := bringSoil(t, o, soilBook, office.LabImport{}); err != nil {
		t.Fatal(err)
	}
	if s, err = o.Soil(t.Context(), ida, "Home Forty", office.Ask{}); err != nil || !strings.Contains(s.Lime.Why, "not in the program") {
		t.Errorf("by Wisconsin's guide: %+v, %v", s.Lime, err)
	}
	if _, err := o.ChooseSoilGuides(t.Context(), ida, office.Ask{}, "", soilGuidesOfOhio); err != nil {
		t.Fatal(err)
	}
	if s, err = o.Soil(t.Context(), ida, "Home Forty", office.Ask{}); err != nil {
		t.Fatal(err)
	}
	// Tri-State 1995: 71.4 - 1.03 x 65 = 4.45 tons for a depth of 8 in.
	if !strings.HasPrefix(s.Lime.Says, "4.5 tons an acre of ground limestone of neutralizing value 90 %") && !strings.HasPrefix(s.Lime.Says, "4.4 tons") {
		t.Errorf("lime: %+v", s.Lime)
	}
	classes := map[string]string{}
	for _, v := range s.Values {
		classes[v.Code] = v.Class + "; " + v.Moved
	}
	for code, want := range map[string]string{"k": "under the critical level (Tri-State 2020); down from 150 in 2022", "p": "under the critical level (Tri-State 2020); no difference since 2022 that tests could tell", "ph": "; down from 6.6 in 2022"} {
		if classes[code] != want {
			t.Errorf("%s: %q, want %q", code, classes[code], want)
		}
	}
	if len(s.Tests) != 2 || s.Tests[0].Test.PH != 6.1 {
		t.Errorf("tests %+v, want the newest first", s.Tests)
	}
	if _, err := o.Soil(t.Context(), ida, "Orchard", office.Ask{}); !errors.Is(err, office.ErrNotFound) {
		t.Errorf("error %v, want one that nothing was found", err)
	}
}

// TestWhatWasSpreadIsHeldAgainstWhatCutsTook proves the balance of a year: a weighed cut of 2 tons by the
// Tri-State table takes 24 lb of P2O5 and 98 of K2O, and 200 lb of muriate bring 120 of K2O.
func TestWhatWasSpreadIsHeldAgainstWhatCutsTook(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	v := view(t, o, 0)
	home, _ := fieldCalled(v, "Home Forty")
	tons := 2.0
	if _, err := o.Record(t.Context(), ida, office.Entry{Farm: home.Farm.ID, Subject: home.Stands[0].ID, Day: unit.DateOf(2026, time.May, 15), Body: cutOf(tons)}); err != nil {
		t.Fatal(err)
	}
	if _, err := o.ImportApplications(t.Context(), ida, strings.NewReader("farm,field,date,material,rate\nAlder Run,Home Forty,2026-05-17,potash,200 lb/ac\n"), "a.csv", false); err != nil {
		t.Fatal(err)
	}
	if _, err := o.ChooseSoilGuides(t.Context(), ida, office.Ask{}, "", soilGuidesOfOhio); err != nil {
		t.Fatal(err)
	}
	s, err := o.Soil(t.Context(), ida, "Home Forty", office.Ask{})
	if err != nil || s.Ledger == nil || len(s.Ledger.Years) != 1 {
		t.Fatalf("%+v, %v; want a ledger of one year", s, err)
	}
	y := s.Ledger.Years[0]
	if y.Year != 2026 || y.TakenP2O5 != 24 || y.TakenK2O != 98 || y.GivenK2O != 120 || y.BalanceK2O != 22 {
		t.Errorf("%+v", y)
	}
	if len(s.Spread) != 1 || office.SpreadBrought(s.Spread[0]) != "0 P2O5, 120 K2O" {
		t.Errorf("%+v", s.Spread)
	}
}

var soilGuidesOfOhio = book.SoilGuides{Lime: "ohio", Fertility: "tri-state-2020", Removal: "tri-state-2020"}

func cutOf(tons float64) book.Cut { return book.Cut{Number: 1, Product: book.Haylage, TonsDM: &tons} }
