package outlook

import (
	"math"
	"testing"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// twoFields is a farm with two pure stands, each read on a day, and the results that laboratories gave.
func twoFields(t *testing.T, date unit.Day, labs map[string][]book.Dated[book.Lab]) *Outlook {
	t.Helper()
	v := oneStand(date, 26)
	farm := v.Farms[0]
	other := *farm.Fields[0]
	other.ID, other.Name = "d2", "Sixty"
	twin := *other.Stands[0]
	twin.ID, twin.InField = "s2", &other
	other.Stands = []*book.StandView{&twin}
	farm.Fields = append(farm.Fields, &other)
	for _, f := range farm.Fields {
		f.Stands[0].Labs = labs[f.Stands[0].ID]
	}
	o, err := Build(v, map[string]*Sky{"ZZT00000001": NewSky(record(12, 0), date, SkyOptions{})})
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func sampled(id string, day unit.Day, ndf float64) book.Dated[book.Lab] {
	return book.Dated[book.Lab]{ID: id, Day: day, Body: book.Lab{Sample: "standing", NDF: ndf, ADF: forage.AdfForNDF(ndf)}}
}

func TestASampleOfTheStandingCropStandsBesideTheReading(t *testing.T) {
	date := unit.DateOf(2026, 5, 24)
	bare := twoFields(t, date, nil).Stands[0].Standing
	with := twoFields(t, date, map[string][]book.Dated[book.Lab]{"s": {sampled("l1", date-1, bare.NDF-4)}}).Stands[0].Standing
	if with.SDNDF >= bare.SDNDF || with.NDF >= bare.NDF || with.NDF <= bare.NDF-4 {
		t.Errorf("without %.1f ± %.2f, with a result 4 lower %.1f ± %.2f", bare.NDF, bare.SDNDF, with.NDF, with.SDNDF)
	}
	if n := len(with.From); n != len(bare.From)+1 || with.From[n-1].Name != BasisLab || with.From[0].NDF != bare.From[0].NDF {
		t.Errorf("bases %+v: the reading is to stay as it was", with.From)
	}
	if with.Corrected != nil {
		t.Errorf("the result counts twice: %+v", with.Corrected)
	}
}

func TestResultsOfAFarmsCuttingCorrectItsReadingsShrunken(t *testing.T) {
	date := unit.DateOf(2026, 5, 24)
	bare := twoFields(t, date, nil).Stands[0].Standing
	o := twoFields(t, date, map[string][]book.Dated[book.Lab]{"s2": {sampled("l1", date-1, bare.From[0].NDF+3)}})
	s := o.Stands[0].Standing
	if s.Corrected == nil || s.Corrected.N != 1 || math.Abs(s.From[0].NDF-bare.From[0].NDF-s.Corrected.Bias) > 1e-9 {
		t.Fatalf("%+v, reading %.2f, before %.2f", s.Corrected, s.From[0].NDF, bare.From[0].NDF)
	}
	// One sample 3 off: 3/(1 + 2.2²/1.5²) = 0.952, less what the crop grew since the sample. (handworked)
	if b := s.Corrected.Bias; b < 0.5 || b > 1.2 {
		t.Errorf("one sample about 3 off corrects by %.2f, want about 0.95", b)
	}
	if o.Reconciled.Used != 1 || o.Shared.Learned || o.Shared.Corr != stickHeatCorr {
		t.Errorf("%+v, %+v", o.Reconciled, o.Shared)
	}
	far := twoFields(t, date, map[string][]book.Dated[book.Lab]{"s2": {sampled("l1", date-1, bare.From[0].NDF+12)}})
	if c := far.Stands[0].Standing.Corrected; c != nil || len(far.Reconciled.SetAside) != 1 {
		t.Errorf("a result 12 off was averaged in: %+v", c)
	}
}

func TestASampleAloneSaysWhereAStandIs(t *testing.T) {
	date := unit.DateOf(2026, 5, 24)
	v := oneStand(date, 0)
	st := v.Farms[0].Fields[0].Stands[0]
	st.Visits = nil
	st.Labs = []book.Dated[book.Lab]{sampled("l1", date-3, 33), sampled("later", date, 60)}
	o, err := Build(v, map[string]*Sky{"ZZT00000001": NewSky(record(12, 0), date, SkyOptions{})})
	if err != nil {
		t.Fatal(err)
	}
	s := o.Stands[0].Standing
	if s == nil || s.Borrowed || s.NDF < 33 || s.NDF > 37 {
		t.Errorf("%+v: want a little over 33, three days on", s)
	}
}
