package office_test

import (
	"errors"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/exchange"
	"haywarden/office"
)

const (
	valleyHead = "Lab No,Client,Description,Date sampled,Feed type,NDF %DM,ADF %DM,CP %DM,Ash %DM\n"
	valleyRow  = "11,Alder Run,Home Forty,2026-05-12,Legume hay,40,30,20,9\n"
)

func bringLabs(t testing.TB, o *office.Office, text string, how office.LabImport) (office.LabsBrought, error) {
	return o.BringLabs(t.Context(), ida, strings.NewReader(text), "v.csv", how)
}

// results lists the results of the first farm's stands.
func results(t testing.TB, o *office.Office) (all []book.Lab) {
	for _, f := range view(t, o, 0).Farms[0].Fields {
		for _, s := range f.Stands {
			for _, l := range s.Labs {
				all = append(all, l.Body)
			}
		}
	}
	return all
}

// TestALaboratorysFormIsConfirmedOnce proves that a table in a stranger's words is proposed and not
// read, that confirming it is remembered for the laboratory, and that its next tables are read by it.
func TestALaboratorysFormIsConfirmedOnce(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	got, err := bringLabs(t, o, valleyHead+valleyRow, office.LabImport{})
	if !errors.Is(err, office.ErrUnconfirmed) || got.Proposal == nil || got.Proposal.Form.Basis != book.DryBasis {
		t.Fatalf("%+v, %v; want a proposal", got, err)
	}
	if _, err := bringLabs(t, o, valleyHead+valleyRow, office.LabImport{Confirm: true}); !errors.Is(err, office.ErrUnconfirmed) || !strings.Contains(err.Error(), "whose table it is was not said") {
		t.Errorf("confirmed without a name: error %v", err)
	}
	if n := len(results(t, o)) + len(view(t, o, 0).Forms); n != 0 {
		t.Fatalf("%d things were stored before anybody confirmed", n)
	}
	if got, err = bringLabs(t, o, valleyHead+valleyRow, office.LabImport{Lab: "Valley", Confirm: true}); err != nil || got.Added != 2 || got.Form != "confirmed" {
		t.Fatalf("%+v, %v; want a form and a result", got, err)
	}
	want := []book.Lab{{Lab: "Valley", Sample: "hay", Number: "11", NDF: 40, ADF: 30, CP: 20, More: map[string]float64{"ash": 9}}}
	if diff := cmp.Diff(want, results(t, o)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	// The same columns in another order, another row, and a column that says nothing known.
	got, err = bringLabs(t, o, "Remarks,Client,Description,Date sampled,Feed type,ADF %DM,NDF %DM,CP %DM,Ash %DM,Lab No\nwet,Alder Run,Back Lot,2026-05-13,Silage,31,42,19,9,12\n", office.LabImport{})
	if err != nil || got.Added != 1 || got.Form != "remembered" || got.Lab != "Valley" || len(got.Unused) != 1 {
		t.Errorf("%+v, %v; want it read by the form that is remembered", got, err)
	}
	// A column that would say something has to be looked at again.
	_, err = bringLabs(t, o, strings.Replace(valleyHead, "\n", ",NDFD48\n", 1)+strings.Replace(valleyRow, "\n", ",45\n", 1), office.LabImport{})
	if !errors.Is(err, office.ErrUnconfirmed) {
		t.Errorf("a new column: error %v", err)
	}
	got, err = bringLabs(t, o, strings.Replace(valleyHead, "\n", ",NDFD48\n", 1)+strings.Replace(valleyRow, "\n", ",45\n", 1), office.LabImport{Confirm: true})
	if err != nil || got.Changed != 2 {
		t.Errorf("%+v, %v; want the form and the fuller result to take the place of the old", got, err)
	}
	if n := len(view(t, o, 0).Forms); n != 1 {
		t.Errorf("%d forms of one laboratory, want 1", n)
	}
}

func TestAMappingOfAPersonGoesBeforeTheProposed(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const file = "Ground,On,NEL,NDF,ADF\nHome Forty,2026-05-12,0.65,40,30\n"
	how := office.LabImport{
		Lab: "Ridge", Basis: book.DryBasis, Say: map[string]string{"farm": "Alder Run", "sample": "haylage"}, Confirm: true,
		Map: []exchange.Change{{Column: "Ground", Code: "field"}, {Column: "On", Code: "sampled"}, {Column: "NEL", Code: "nel", Unit: "Mcal/lb"}},
	}
	without := how
	without.Basis = ""
	if _, err := bringLabs(t, o, file, without); !errors.Is(err, office.ErrUnconfirmed) || !strings.Contains(err.Error(), "whether shares are of dry matter or as fed") {
		t.Errorf("no basis: error %v", err)
	}
	if _, err := bringLabs(t, o, file, how); err != nil {
		t.Fatal(err)
	}
	// Remembered: what was mapped need not be said again, what was said of all rows does.
	got, err := bringLabs(t, o, strings.ReplaceAll(file, "-12", "-14"), office.LabImport{Say: how.Say})
	if err != nil || got.Added != 1 {
		t.Errorf("%+v, %v", got, err)
	}
	for _, l := range results(t, o) {
		if l.More["nel"] != 1.433 {
			t.Errorf("NEL %g Mcal/kg, want 0.65 Mcal/lb x 2.2046 = 1.433", l.More["nel"])
		}
	}
}

// TestACorrectedResultTakesThePlaceOfTheOld proves which results are one sample: the same number, or
// most values the same where no number tells; and that two samples of a day stay two.
func TestACorrectedResultTakesThePlaceOfTheOld(t *testing.T) {
	const head = "farm,field,sampled,lab,sample,number,adf,ndf,cp\n"
	row := func(number, values string) string {
		return "Alder Run,Home Forty,2026-05-12,Valley,hay," + number + "," + values + "\n"
	}
	for _, c := range []struct {
		name, first, second string
		want                [3]int
		held                int
	}{
		{"by its number, all values other", row("7", "30,40,20"), row("7", "33,44,17"), [3]int{0, 1, 0}, 1},
		{"another number", row("7", "30,40,20"), row("8", "30,40,20"), [3]int{1, 0, 0}, 2},
		{"no number, one value put right", row("", "30,40,20"), row("", "30,41,20"), [3]int{0, 1, 0}, 1},
		{"no number, another sample", row("", "30,40,20"), row("", "33,44,17"), [3]int{1, 0, 0}, 2},
		{"a number given later", row("", "30,40,20"), row("7", "30,40,20"), [3]int{0, 1, 0}, 1},
		{"the same beside another", row("", "30,40,20"), row("", "30,40,20") + row("", "31,40,20"), [3]int{1, 0, 1}, 2},
		{"either of two could be meant", row("", "30,40,20") + row("", "30,42,20"), row("", "30,41,20"), [3]int{1, 0, 0}, 3},
		{"another day", row("", "30,40,20"), strings.ReplaceAll(row("", "30,41,20"), "-12", "-13"), [3]int{1, 0, 0}, 2},
		{"another laboratory", row("", "30,40,20"), strings.ReplaceAll(row("", "30,41,20"), "Valley", "Ridge"), [3]int{1, 0, 0}, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			o, _ := newOffice(t, "2026-05-19 08:00")
			brings(t, o, stands, twoStands, [3]int{6, 0, 0})
			brings(t, o, labs, head+c.first, [3]int{strings.Count(c.first, "\n"), 0, 0})
			brings(t, o, labs, head+c.second, c.want)
			if n := len(results(t, o)); n != c.held {
				t.Errorf("%d results, want %d", n, c.held)
			}
		})
	}
}

func TestBadRowsAreLeftOutOnlyWhereAskedFor(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const file = "farm,field,sampled,sample,adf,ndf,ash\nAlder Run,Home Forty,2026-05-12,hay,30,40,13\nAlder Run,Home Frty,2026-05-12,hay,30,40,13\nAlder Run,Home Forty,2026-05-12,hay,41,40,9\nAlder Run,Home Forty,2026-06-12,hay,30,40,9\n"
	if _, err := bringLabs(t, o, file, office.LabImport{}); err == nil {
		t.Fatal("a file with a bad row was taken")
	}
	got, err := bringLabs(t, o, file, office.LabImport{KeepRest: true})
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range got.LeftOut {
		out = append(out, f.String())
	}
	want := []string{
		`row 4, adf: "41": ADF 41 is not under NDF 40: ADF is a part of NDF, check which is which`,
		`row 3, field: Alder Run has no field called "Home Frty"; did you mean Home Forty?`,
		"row 5, sampled: 2026-06-12 is after today, 2026-05-19",
	}
	if diff := cmp.Diff(want, out); diff != "" || got.Added != 1 {
		t.Errorf("%d added, want 1 (-want +got):\n%s", got.Added, diff)
	}
	if len(got.Warnings) != 1 || got.Warnings[0].String() != "row 2, ash: ash 13 is over 12: soil in the feed" {
		t.Errorf("warnings %+v", got.Warnings)
	}
	if _, err := bringLabs(t, o, "farm,field,sampled,sample,adf,ndf\nAlder Run,Nowhere,2026-05-12,hay,30,40\n", office.LabImport{KeepRest: true}); err == nil {
		t.Error("a file without one good row was taken")
	}
}

func TestAResultIsReadBackInWords(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	const file = "farm,field,sampled,sample,adf,ndf\nAlder Run,Home Forty,2026-05-12,hay,30,40\n"
	if _, err := bringLabs(t, o, file, office.LabImport{}); err != nil {
		t.Fatal(err)
	}
	got, err := bringLabs(t, o, strings.NewReplacer("-12", "-18", "30,40", "31,41").Replace(file), office.LabImport{})
	// RFV 152.40 and 146.91, with standard deviations of 7.25 and 6.9: 1.96 times their root sum of squares is 19.6.
	want := "Alder Run · Home Forty, hay of 2026-05-18: RFV 147, from 133 to 161 with the error of 20 cores or handfuls and one laboratory. The sample before had RFV 152: 5 points of RFV cannot be told apart: from 21 points of RFV on they could."
	if err != nil || len(got.Told) != 1 || got.Told[0] != want {
		t.Errorf("%q, %v\nwant %q", got.Told, err, want)
	}
}

// TestTwoWhoBringOneTableAtOnceBringItOnce proves that nothing is added twice where several import the
// same file at the same time.
func TestTwoWhoBringOneTableAtOnceBringItOnce(t *testing.T) {
	o, _ := newOffice(t, "2026-05-19 08:00")
	brings(t, o, stands, twoStands, [3]int{6, 0, 0})
	var group sync.WaitGroup
	errs := make([]error, 6)
	for i := range errs {
		group.Go(func() {
			_, errs[i] = bringLabs(t, o, "farm,field,sampled,sample,adf,ndf\nAlder Run,Home Forty,2026-05-12,hay,30,40\n", office.LabImport{})
		})
	}
	group.Wait()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
	if n := len(results(t, o)); n != 1 {
		t.Errorf("%d results, want 1", n)
	}
	if s := view(t, o, unit.DateOf(2026, 5, 12)).Stands(); len(s) != 2 {
		t.Errorf("%d stands", len(s))
	}
}
