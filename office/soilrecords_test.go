package office_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/book"
	"haywarden/office"
)

const (
	soilHead = "Client,Field ID,Date sampled,Lab No,pH,Sikora buffer,Bray P1 (ppm),K ppm,K method\n"
	soilRow  = "Alder Run,Home Forty,2026-04-02,9,6.1,6.6,18,105,NH4OAc\n"
)

func bringSoil(t testing.TB, o *office.Office, text string, how office.LabImport) (office.SoilBrought, error) {
	return o.BringSoil(t.Context(), ida, strings.NewReader(text), "s.csv", how)
}

func soilOf(t testing.TB, o *office.Office) (all []book.SoilTest) {
	for _, f := range view(t, o, 0).Farms[0].Fields {
		for _, s := range f.SoilTests {
			all = append(all, s.Body)
		}
	}
	return all
}

// TestASoilLaboratorysFormIsConfirmedOnce proves that soil tests come in by the same confirmed form as
// forage, remembered for the laboratory apart from its form of forage.
func TestASoilLaboratorysFormIsConfirmedOnce(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	if _, err := bringLabs(t, o, valleyHead+valleyRow, office.LabImport{Lab: "Valley", Confirm: true}); err != nil {
		t.Fatal(err)
	}
	got, err := bringSoil(t, o, soilHead+soilRow, office.LabImport{Lab: "Valley"})
	if !errors.Is(err, office.ErrUnconfirmed) || got.Proposal == nil || got.Proposal.NoBasis || len(soilOf(t, o)) != 0 {
		t.Fatalf("%+v, %v; want a proposal without a question of basis", got, err)
	}
	got, err = bringSoil(t, o, soilHead+soilRow, office.LabImport{Lab: "Valley", Confirm: true})
	if err != nil || got.Added != 2 || got.Form != "confirmed" {
		t.Fatalf("%+v, %v; want a form and a test", got, err)
	}
	want := []book.SoilTest{{
		Lab: "Valley", Number: "9", PH: 6.1, Buffer: 6.6, BufferBy: book.Sikora,
		P: &book.Extracted{Value: 18, Unit: book.PPM, By: book.BrayP1}, K: &book.Extracted{Value: 105, Unit: book.PPM, By: book.AmmoniumAcetate},
	}}
	if diff := cmp.Diff(want, soilOf(t, o)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got, err = bringSoil(t, o, soilHead+soilRow, office.LabImport{}); err != nil || got.Form != "remembered" || !got.Nothing() {
		t.Errorf("%+v, %v; want the same test to change nothing", got, err)
	}
	got, err = bringSoil(t, o, soilHead+strings.Replace(soilRow, ",105,", ",150,", 1), office.LabImport{})
	if err != nil || got.Changed != 1 || len(soilOf(t, o)) != 1 || soilOf(t, o)[0].K.Value != 150 {
		t.Errorf("%+v, %v; want the corrected test in place of the old", got, err)
	}
	if len(got.Told) != 1 || !strings.Contains(got.Told[0], "it corrects pH 6.1, buffer 6.6 (sikora), P 18 ppm by bray-p1, K 105 ppm by ammonium-acetate") {
		t.Errorf("told %q", got.Told)
	}
}

func TestASoilTestOfNoFieldIsLeftOutOnlyWhereAskedFor(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const own = "farm,field,sampled,ph\nAlder Run,Home Forty,2026-04-02,6.1\nAlder Run,Home Frty,2026-04-02,6.1\nAlder Run,Back Lot,2026-09-02,6.1\n"
	_, err := bringSoil(t, o, own, office.LabImport{})
	for _, want := range []string{"row 3, field: Alder Run has no field called \"Home Frty\"; did you mean Home Forty?", "row 4, sampled: 2026-09-02 is after today"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %s", err, want)
		}
	}
	got, err := bringSoil(t, o, own, office.LabImport{KeepRest: true})
	if err != nil || got.Added != 1 || len(got.LeftOut) != 2 {
		t.Errorf("%+v, %v; want one kept and two left out", got, err)
	}
}

func TestWhatWasSpreadSownAndFoundInTissueComesIn(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	bring := func(do func(o *office.Office) (office.ImportedRecords, error), added, changed, same int) {
		t.Helper()
		got, err := do(o)
		if err != nil || got.Added != added || got.Changed != changed || got.Unchanged != same {
			t.Errorf("%+v, %v; want %d added, %d changed, %d as they were", got, err, added, changed, same)
		}
	}
	spread := func(rate string) func(o *office.Office) (office.ImportedRecords, error) {
		return func(o *office.Office) (office.ImportedRecords, error) {
			return o.ImportApplications(t.Context(), ida, strings.NewReader("farm,field,date,material,rate\nAlder Run,Home Forty,2026-04-10,potash,"+rate+"\n"), "a.csv", false)
		}
	}
	bring(spread("200 lb/ac"), 1, 0, 0)
	bring(spread("200 lb/ac"), 0, 0, 1)
	bring(spread("250 lb/ac"), 0, 1, 0)
	bring(func(o *office.Office) (office.ImportedRecords, error) {
		return o.ImportTissues(t.Context(), ida, strings.NewReader("farm,field,sampled,s\nAlder Run,Home Forty,2026-05-12,0.21\n"), "t.csv", false)
	}, 1, 0, 0)
	bring(func(o *office.Office) (office.ImportedRecords, error) {
		return o.ImportGuides(t.Context(), ida, strings.NewReader("guide,edition,target,a,b,c\nhill,2001,6.5,40,5,1\n"), "g.csv", false)
	}, 1, 0, 0)
	bring(func(o *office.Office) (office.ImportedRecords, error) {
		return o.ImportGuides(t.Context(), ida, strings.NewReader("guide,edition,target,a,b,c\nhill,2001,6.5,40,6,1\n"), "g.csv", false)
	}, 0, 1, 0)
	v := view(t, o, 0)
	home, _ := fieldCalled(v, "Home Forty")
	if len(home.Applications) != 1 || home.Applications[0].Body.Rate != 250 || len(home.Stands[0].Tissue) != 1 || len(v.GuideTables) != 1 {
		t.Errorf("applications %v, tissue %v, tables %v", home.Applications, home.Stands[0].Tissue, v.GuideTables)
	}
	seeded := home.Stands[0].Seeded.String()
	bring(func(o *office.Office) (office.ImportedRecords, error) {
		return o.ImportSown(t.Context(), ida, strings.NewReader("farm,field,seeded,species,rate\nAlder Run,Home Forty,"+seeded+",alfalfa,14\n"), "s.csv", false)
	}, 1, 0, 0)
}

func fieldCalled(v *book.View, name string) (*book.FieldView, bool) {
	for _, f := range v.Farms[0].Fields {
		if f.Name == name {
			return f, true
		}
	}
	return nil, false
}

func TestAGuideThatNoTableGoesByIsNotChosen(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	ask := office.Ask{}
	if _, err := o.ChooseSoilGuides(t.Context(), ida, ask, "", book.SoilGuides{Lime: "ohoi"}); err == nil || !strings.Contains(err.Error(), "accepted ohio, iowa") {
		t.Errorf("error %v", err)
	}
	if _, err := o.ChooseSoilGuides(t.Context(), ida, ask, "", book.SoilGuides{Lime: "iowa", Fertility: "illinois"}); err != nil {
		t.Fatal(err)
	}
	if _, err := o.ChooseSoilGuides(t.Context(), ida, ask, "Alder Run", book.SoilGuides{Lime: "ohio"}); err != nil {
		t.Fatal(err)
	}
	v := view(t, o, 0)
	if got := v.SoilGuidesOf(v.Farms[0]); got != (book.SoilGuides{Lime: "ohio", Fertility: "illinois"}) {
		t.Errorf("%+v", got)
	}
}
