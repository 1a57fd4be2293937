package weather

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// calm makes years of an invented station whose weather goes through the seasons with scatter from day
// to day, and in which no check finds anything.
func calm(id string, first, last int) []*Block {
	state := uint64(88172645463325252)
	scatter := func(within int) int16 { // xorshift; the same numbers on every machine
		state ^= state << 13
		state ^= state >> 7
		state ^= state << 17
		return int16(state%uint64(2*within+1)) - int16(within)
	}
	var out []*Block
	for y := first; y <= last; y++ {
		b := NewBlock(id, y)
		for i := range b.Days {
			season := int16(math.Round(-150 * math.Cos(2*math.Pi*float64(i-20)/365)))
			o := &b.Days[i]
			o.Mark = [elements]Mark{}
			o.Value[TMax] = 130 + season + scatter(70)
			o.Value[TMin] = o.Value[TMax] - 110 + scatter(30)
			o.Value[Rain] = max(0, scatter(60))
			o.Value[Snow], o.Value[Depth] = 0, 0
		}
		out = append(out, b)
	}
	return out
}

func TestACalmRecordKeepsAllItsValues(t *testing.T) {
	blocks := calm("USC00999999", 1991, 2020)
	if out := Quality(Station{ID: "USC00999999"}, blocks); len(out) > 0 {
		t.Errorf("dropped %d values, first %+v", len(out), out[0])
	}
}

// planted is a record with one thing wrong.
type planted struct {
	name  string
	plant func(r *record)
	want  []string // "date element mark", in order
}

type record struct {
	t      *testing.T
	blocks []*Block
}

func (r *record) at(date string) *Obs {
	d, err := unit.ParseDay(date)
	if err != nil {
		r.t.Fatal(err)
	}
	return r.blocks[d.Year()-r.blocks[0].Year].On(d)
}

// run sets an element on days in a row.
func (r *record) run(date string, n int, e Element, v func(i int) int16) {
	d, err := unit.ParseDay(date)
	if err != nil {
		r.t.Fatal(err)
	}
	for i := range n {
		r.at((d + unit.Day(i)).String()).Value[e] = v(i)
	}
}

func said(out []Rejected) (s []string) {
	for _, r := range out {
		s = append(s, r.Day.String()+" "+r.Element.Code()+" "+r.Mark.String())
	}
	return s
}

func equal(v int16) func(int) int16 { return func(int) int16 { return v } }

func TestEachCheckDropsWhatItShouldAndNothingElse(t *testing.T) {
	for _, p := range []planted{
		{"too hot for the Midwest", func(r *record) { r.at("2001-07-10").Value[TMax] = 481 },
			[]string{"2001-07-10 TMAX out of bounds"}},
		{"colder than the Midwest", func(r *record) { r.at("2001-01-10").Value[TMin] = -451 },
			[]string{"2001-01-10 TMIN out of bounds"}},
		{"rain beyond 400 mm, and below nothing", func(r *record) { r.at("2001-06-10").Value[Rain], r.at("2001-06-12").Value[Rain] = 4001, -1 },
			[]string{"2001-06-10 PRCP out of bounds", "2001-06-12 PRCP out of bounds"}},
		{"rain of just 400 mm", func(r *record) { r.at("2001-06-10").Value[Rain] = 4000 }, nil},
		{"snow of less than nothing", func(r *record) { r.at("2001-01-10").Value[Snow], r.at("2001-01-10").Value[Depth] = -1, -1 },
			[]string{"2001-01-10 SNOW out of bounds", "2001-01-10 SNWD out of bounds"}},
		{"both temperatures 0 F", func(r *record) { r.at("2001-01-10").Value[TMax], r.at("2001-01-10").Value[TMin] = -178, -178 },
			[]string{"2001-01-10 TMAX naught", "2001-01-10 TMIN naught"}},
		{"highest below lowest", func(r *record) { r.at("2001-05-10").Value[TMax], r.at("2001-05-10").Value[TMin] = 149, 150 },
			[]string{"2001-05-10 TMAX inconsistent", "2001-05-10 TMIN inconsistent"}},
		{"highest equal to lowest", func(r *record) { r.at("2001-05-10").Value[TMax], r.at("2001-05-10").Value[TMin] = 150, 150 }, nil},
		{"14 equal values", func(r *record) { r.run("2001-05-01", 14, TMax, equal(211)) }, nil},
		{"15 equal values over a missing day", func(r *record) {
			r.run("2001-05-01", 16, TMax, equal(211))
			r.at("2001-05-05").Reject(TMax, Absent)
			r.run("2001-05-01", 16, TMin, func(i int) int16 { return 100 + int16(i%3) })
		}, []string{
			"2001-05-01 TMAX streak", "2001-05-02 TMAX streak", "2001-05-03 TMAX streak", "2001-05-04 TMAX streak",
			"2001-05-06 TMAX streak", "2001-05-07 TMAX streak", "2001-05-08 TMAX streak", "2001-05-09 TMAX streak",
			"2001-05-10 TMAX streak", "2001-05-11 TMAX streak", "2001-05-12 TMAX streak", "2001-05-13 TMAX streak",
			"2001-05-14 TMAX streak", "2001-05-15 TMAX streak", "2001-05-16 TMAX streak",
		}},
		// In a record of one value a month far from the season's, the gap check speaks before the others.
		{"6 standard deviations and 10 C from all", func(r *record) { r.at("2001-07-10").Value[TMin] = -100 },
			[]string{"2001-07-10 TMIN gap"}},
		{"6 standard deviations, with company", func(r *record) {
			r.at("2001-07-10").Value[TMin], r.at("2011-07-25").Value[TMin] = -140, -130
		}, []string{"2001-07-10 TMIN outlier", "2011-07-25 TMIN outlier"}},
		{"25 C up and back", func(r *record) {
			r.run("2001-04-10", 3, TMax, func(i int) int16 { return [3]int16{0, 250, 0}[i] })
			r.run("2001-04-10", 3, TMin, equal(-20))
		}, []string{"2001-04-11 TMAX spike"}},
		{"25 C up and stays", func(r *record) {
			r.run("2001-04-10", 3, TMax, func(i int) int16 { return [3]int16{0, 250, 200}[i] })
			r.run("2001-04-10", 3, TMin, equal(-20))
		}, nil},
		{"one of a spike's neighbours missing", func(r *record) {
			r.run("2001-04-10", 3, TMax, func(i int) int16 { return [3]int16{0, 250, 0}[i] })
			r.run("2001-04-10", 3, TMin, equal(-20))
			r.at("2001-04-12").Reject(TMax, Absent)
		}, nil},
	} {
		t.Run(p.name, func(t *testing.T) {
			r := &record{t, calm("USC00999999", 1991, 2020)}
			p.plant(r)
			before := clone(r.blocks)
			out := Quality(Station{ID: "USC00999999"}, r.blocks)
			if d := cmp.Diff(p.want, said(out)); d != "" {
				t.Error(d)
			}
			for _, x := range out {
				if o := r.at(x.Day.String()); o.Has(x.Element) || o.Mark[x.Element] != x.Mark {
					t.Errorf("%s %v is still %v, marked %v", x.Day, x.Element, o.Value[x.Element], o.Mark[x.Element])
				}
			}
			if n := changed(before, r.blocks); n != len(p.want) {
				t.Errorf("%d values changed, %d said", n, len(p.want))
			}
		})
	}
}

func clone(blocks []*Block) []*Block {
	out := make([]*Block, len(blocks))
	for i, b := range blocks {
		out[i] = &Block{Station: b.Station, Year: b.Year, Days: slices.Clone(b.Days)}
	}
	return out
}

func changed(a, b []*Block) (n int) {
	for i := range a {
		for k := range a[i].Days {
			for e := range elements {
				if a[i].Days[k].Value[e] != b[i].Days[k].Value[e] {
					n++
				}
			}
		}
	}
	return n
}

// A month copied from another drops both, element by element; which is the right one nobody knows.
func TestACopiedMonthDropsBoth(t *testing.T) {
	blocks := calm("USC00999999", 1991, 2020)
	from, to := unit.DateOf(1998, 5, 1), unit.DateOf(2004, 5, 1)
	for i := range unit.Day(31) {
		a, b := blocks[1998-1991].On(from+i), blocks[2004-1991].On(to+i)
		b.Value[TMax], b.Value[TMin] = a.Value[TMax], a.Value[TMin]
	}
	out := Quality(Station{ID: "USC00999999"}, blocks)
	if len(out) != 4*31 {
		t.Fatalf("%d values dropped, want %d", len(out), 4*31)
	}
	for _, r := range out {
		if r.Mark != Duplicate || !r.Copied {
			t.Fatalf("%+v", r)
		}
	}
	if why := out[0].Reason(); why != "the month's values are those of May 2004" {
		t.Error(why)
	}
	// Dry months are all alike and mean nothing; wet ones are told apart.
	blocks = calm("USC00999999", 1991, 1995)
	for _, year := range []int{1992, 1994} {
		for i := range unit.Day(31) {
			blocks[year-1991].On(unit.DateOf(year, 8, 1) + i).Value[Rain] = 0
		}
	}
	if out := Quality(Station{ID: "USC00999999"}, blocks); len(out) > 0 {
		t.Errorf("two dry months: %v", said(out)[0])
	}
	for i := range unit.Day(5) {
		for _, year := range []int{1992, 1994} {
			blocks[year-1991].On(unit.DateOf(year, 8, 3) + 4*i).Value[Rain] = int16(20 + i)
		}
	}
	if out := Quality(Station{ID: "USC00999999"}, blocks); len(out) != 62 {
		t.Errorf("two equal wet months: %d values dropped, want 62", len(out))
	}
}

// -17.8 C on both is a missing day in the United States only.
func TestNaughtIsAmerican(t *testing.T) {
	blocks := calm("CA000000001", 1991, 2020)
	o := blocks[10].On(unit.DateOf(2001, 1, 10))
	o.Value[TMax], o.Value[TMin] = -178, -178
	if out := Quality(Station{ID: "CA000000001"}, blocks); len(out) > 0 {
		t.Errorf("%v", said(out))
	}
}

// Checks that hold a value against the station's own climate keep silent until there are ten years.
func TestShortRecordsAreNotHeldAgainstThemselves(t *testing.T) {
	for _, c := range []struct {
		last int
		want []string
	}{{1995, nil}, {2003, []string{"1993-07-10 TMIN gap"}}} {
		blocks := calm("USC00999999", 1991, c.last)
		blocks[2].On(unit.DateOf(1993, 7, 10)).Value[TMin] = -100
		for d := unit.DateOf(1993, 7, 9); d <= unit.DateOf(1993, 7, 11); d += 2 {
			blocks[2].On(d).Reject(TMin, Absent) // so that it is no spike
		}
		out := slices.DeleteFunc(Quality(Station{ID: "USC00999999"}, blocks), func(r Rejected) bool { return r.Element != TMin })
		if c.last == 1995 {
			// 5 years hold 155 values of July but only 75 near the day.
			out = slices.DeleteFunc(out, func(r Rejected) bool { return r.Mark == Gap })
		}
		if d := cmp.Diff(c.want, said(out)); d != "" {
			t.Errorf("1991-%d: %s", c.last, d)
		}
	}
}

// The outlier check against its definition: mean and standard deviation of all other values of the 15
// days around the day of the year.
func TestOutliersAreWhatTheirDefinitionSays(t *testing.T) {
	blocks := calm("CA000000001", 1991, 2004)
	for i := range blocks { // from 20 to 33 C off, up and down in turn, 25 days apart
		off := int16(200+10*i) * int16(1-2*(i%2))
		blocks[i].Days[10+25*i].Value[TMin] += off
	}
	c := newControl(clone(blocks))
	c.outliers(TMin)
	var want []string
	for bi, b := range blocks {
		for i, o := range b.Days {
			var others []float64
			for bk, other := range blocks {
				for k, x := range other.Days {
					away := (slot(other, k) - slot(b, i) + 366) % 366
					if (away <= 7 || away >= 359) && (bk != bi || k != i) {
						others = append(others, float64(x.Value[TMin]))
					}
				}
			}
			var mean, squares float64
			for _, v := range others {
				mean += v / float64(len(others))
			}
			for _, v := range others {
				squares += (v - mean) * (v - mean)
			}
			if sd := math.Sqrt(squares / float64(len(others)-1)); math.Abs(float64(o.Value[TMin])-mean) >= 6*max(10, sd) {
				want = append(want, (unit.DateOf(b.Year, 1, 1)+unit.Day(i)).String()+" TMIN outlier")
			}
		}
	}
	if len(want) < 3 || len(want) > 11 {
		t.Fatalf("%d of 14 planted values lie out: the check should meet both", len(want))
	}
	got := said(c.out)
	slices.Sort(got)
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// slot is the day of a year of 366 days.
func slot(b *Block, i int) int {
	if len(b.Days) == 365 && i >= 59 {
		return i + 1
	}
	return i
}

func TestQualityKeepsItsWordOnAnyRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		blocks := calm("USC00999999", 1996, 1996+rapid.IntRange(0, 12).Draw(t, "years"))
		if len(blocks) > 2 && rapid.Bool().Draw(t, "hole") {
			blocks = slices.Delete(blocks, 1, 2)
		}
		for range rapid.IntRange(0, 40).Draw(t, "faults") {
			b := blocks[rapid.IntRange(0, len(blocks)-1).Draw(t, "block")]
			o := &b.Days[rapid.IntRange(0, len(b.Days)-1).Draw(t, "day")]
			e := Element(rapid.IntRange(0, int(elements)-1).Draw(t, "element"))
			if rapid.Bool().Draw(t, "missing") {
				o.Reject(e, Absent)
			} else {
				o.Value[e], o.Mark[e] = rapid.Int16Min(Missing+1).Draw(t, "value"), Reported
			}
		}
		before := clone(blocks)
		out := Quality(Station{ID: "USC00999999"}, blocks)
		if n := changed(before, blocks); n != len(out) {
			t.Fatalf("%d values changed, %d said", n, len(out))
		}
		for i, r := range out {
			if i > 0 && (out[i-1].Day > r.Day || out[i-1].Day == r.Day && out[i-1].Element >= r.Element) {
				t.Fatalf("%v before %v", out[i-1], r)
			}
			if r.Reason() == "" || r.Mark < Flagged {
				t.Fatalf("%+v is not explained", r)
			}
		}
		for _, b := range blocks {
			for _, o := range b.Days {
				for _, e := range Elements() {
					if low, high := bounds(e); o.Has(e) && (o.Value[e] < low || o.Value[e] > high) {
						t.Fatalf("%v of %d is left", e, o.Value[e])
					}
				}
				if o.Has(TMax) && o.Has(TMin) && o.Value[TMax] < o.Value[TMin] {
					t.Fatalf("%v is left", o)
				}
			}
		}
	})
}
