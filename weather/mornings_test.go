package weather

import (
	"strings"
	"testing"

	"haywarden/agronomy/unit"
)

// reading gathers a few days of June 2023, each with what put does.
func reading(t *testing.T, put func(r *Record)) Reading {
	t.Helper()
	g := NewGatherer("f", unit.DateOf(2026, 1, 1))
	put(g.Station([]byte("CA000000001")))
	out, err := g.Close(FileNote{})
	if err != nil {
		t.Fatal(err)
	}
	return out[0]
}

func june(r Reading, d int) *Obs { return r.on(unit.DateOf(2023, 6, d)) }

func TestMorningReadingsMoveToTheDayBeforeOnlyWhenAsked(t *testing.T) {
	made := func() Reading {
		return reading(t, func(r *Record) {
			y := r.Year(2023)
			at := unit.DateOf(2023, 6, 1).YearDay() - 1
			for i, hour := range []int{18, 7, 7} { // of 1, 2 and 3 June
				y.Put(at+i, TMax, int32(200+10*i), Reported, 0)
				y.Put(at+i, TMin, int32(100+10*i), Reported, 0)
				y.Put(at+i, Rain, int32(i), Reported, 0)
				for _, e := range []Element{TMax, TMin, Rain} {
					y.ReadAt(at+i, e, hour)
				}
			}
		})
	}
	left := made()
	if err := left.Mornings(Morning{}); err != nil || june(left, 2).Value[TMax] != 210 || !strings.Contains(left.Report.File.Notes[0], "4 values of highest temperature and rain were read between 05 and 10 h") {
		t.Errorf("%v, %v, %q", err, june(left, 2), left.Report.File.Notes)
	}
	moved := made()
	if err := moved.Mornings(Morning{Shift: true}); err != nil {
		t.Fatal(err)
	}
	// The reading of the evening of 1 June keeps its place; that of the morning of 2 June has none.
	one, two, three := june(moved, 1), june(moved, 2), june(moved, 3)
	if one.Value[TMax] != 200 || two.Value[TMax] != 220 || two.Mark[TMax] != Shifted || two.Value[Rain] != 2 || three.Has(TMax) || three.Value[TMin] != 120 {
		t.Errorf("%v\n%v\n%v", one, two, three)
	}
	if n := moved.Report.File.Notes[0]; !strings.Contains(n, "2 values") || !strings.Contains(n, "2 were left out") {
		t.Error(n)
	}
	if tally := moved.Report.Elements[TMax]; tally.Shifted != 1 || tally.Usable()+tally.Absent != moved.Report.Span.Days {
		t.Errorf("%+v", tally)
	}
}

func TestAMoveNeedsAnHour(t *testing.T) {
	made := func() Reading {
		return reading(t, func(r *Record) { r.Year(2023).Put(0, TMax, -50, Reported, 0) })
	}
	r := made()
	if err := r.Mornings(Morning{Shift: true}); err == nil || !strings.Contains(err.Error(), "declare the hour") {
		t.Error(err)
	}
	r, hour := made(), 7
	if err := r.Mornings(Morning{Shift: true, ReadAt: &hour}); err != nil {
		t.Fatal(err)
	}
	if len(r.Blocks) != 1 || r.Blocks[0].Year != 2022 || r.Blocks[0].Days[364].Value[TMax] != -50 {
		t.Errorf("1 January is not moved to 31 December: %d years", len(r.Blocks))
	}
}

func TestATotalOfSeveralDaysIsNotSpread(t *testing.T) {
	r := reading(t, func(r *Record) {
		at := unit.DateOf(2023, 6, 1).YearDay() - 1
		r.Year(2023).Put(at, Rain, 10, Reported, 0)
		r.Year(2023).Put(at+7, Rain, 0, Reported, 0)
		r.Total(unit.DateOf(2023, 6, 4), 254)
		r.TotalDays(unit.DateOf(2023, 6, 4), 3)
		r.Total(unit.DateOf(2023, 6, 7), 0)
		r.TotalDays(unit.DateOf(2023, 6, 7), 2)
	})
	for d, want := range map[int]Mark{1: Reported, 2: WetUnknown, 3: WetUnknown, 4: WetUnknown, 5: Absent, 6: PresumedZero, 7: PresumedZero, 8: Reported} {
		if o := june(r, d); o.Mark[Rain] != want || o.Has(Rain) != (want <= PresumedZero && want != Absent) {
			t.Errorf("%d June: %v, want %v", d, o.Mark[Rain], want)
		}
	}
	failed := r.Report.Elements[Rain].Failed
	if len(failed) != 1 || failed[0].Count != 3 || !strings.Contains(failed[0].Examples[0].Reason, "25.4 mm (1.00 in) that fell within 3 days and was read on 2023-06-04") {
		t.Errorf("%+v", failed)
	}
}

func TestAFileIsHeldAgainstTheStoredRecord(t *testing.T) {
	stored := calm("USC00999999", 1991, 2019)
	year := calm("USC00999999", 2020, 2020)[0]
	day := unit.DateOf(2020, 7, 10)
	year.On(day).Value[TMin] = -100
	before := stored[10].Encode()
	r := Reading{Station: Station{ID: "USC00999999"}, Blocks: []*Block{year}, rec: &Record{Station: Station{ID: "USC00999999"}}}
	r.Among(nil)
	if !year.On(day).Has(TMin) {
		t.Fatal("dropped without a record")
	}
	r.Among(stored)
	if o := year.On(day); o.Has(TMin) || o.Mark[TMin] != Gap {
		t.Errorf("%v", o)
	}
	if string(before) != string(stored[10].Encode()) {
		t.Error("the stored record was changed")
	}
	if n := r.Report.File.Notes; len(n) != 1 || !strings.Contains(n[0], "1 of these failed against the 29 years") {
		t.Errorf("%q", n)
	}
}

func TestTheGrossScreenKeepsAndTells(t *testing.T) {
	blocks := calm("CA000000001", 1991, 2020)
	blocks[5].Days[190].Value[Rain] = 2541
	blocks[6].Days[190].Value[Rain] = 2540
	dropped, look := check(Station{ID: "CA000000001"}, blocks)
	if len(dropped) != 0 || len(look) != 1 || look[0].rule != "over 254 mm in a day" || look[0].Day != unit.DateOf(1996, 1, 1)+190 {
		t.Errorf("dropped %v, look %+v", dropped, look)
	}
	count := make([]int32, 400)
	for v := 100; v < 200; v++ {
		count[v] = 10
	}
	s := usualSpan(count, -100) // 0 to 9.9 C, evenly: mean 4.95, sd 2.887
	if s.low != -94 || s.high != 193 {
		t.Errorf("%+v, want -9.4 to 19.3 C", s)
	}
}
