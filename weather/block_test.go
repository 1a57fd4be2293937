package weather

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

func drawBlock(t *rapid.T) *Block {
	b := NewBlock("USC00999999", rapid.IntRange(1763, 2100).Draw(t, "year"))
	for range rapid.IntRange(0, 50).Draw(t, "n") {
		o := &b.Days[rapid.IntRange(0, len(b.Days)-1).Draw(t, "day")]
		e := Element(rapid.IntRange(0, int(elements)-1).Draw(t, "element"))
		o.Value[e] = rapid.Int16().Draw(t, "value")
		o.Mark[e] = Mark(rapid.IntRange(0, int(marks)-1).Draw(t, "mark"))
	}
	return b
}

func TestABlockComesBackAsItWasStored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		data := b.Encode()
		back, err := DecodeBlock(b.Station, b.Year, data)
		if err != nil {
			t.Fatal(err)
		}
		if !b.Equal(back) || !bytes.Equal(data, back.Encode()) {
			t.Fatal("it does not")
		}
	})
}

func TestADamagedBlockIsRefused(t *testing.T) {
	good := NewBlock("USC00999999", 2023).Encode()
	for name, damage := range map[string]func(b []byte) []byte{
		"cut off":              func(b []byte) []byte { return b[:len(b)-1] },
		"of another version":   func(b []byte) []byte { b[0] = 99; return b },
		"of another length":    func(b []byte) []byte { b[1]++; return b },
		"with an unknown mark": func(b []byte) []byte { b[len(b)-1] = byte(marks); return b },
		"empty":                func([]byte) []byte { return nil },
	} {
		if _, err := DecodeBlock("USC00999999", 2023, damage(bytes.Clone(good))); err == nil {
			t.Errorf("a block %s is taken", name)
		}
	}
	if _, err := DecodeBlock("USC00999999", 2024, good); err == nil {
		t.Error("a common year is taken for a leap year")
	}
}

func FuzzDecodeBlock(f *testing.F) {
	f.Add(2023, NewBlock("USC00999999", 2023).Encode())
	f.Add(2024, []byte{1, 110, 1})
	f.Fuzz(func(t *testing.T, year int, data []byte) {
		if year < FirstYear || year > 3000 {
			return
		}
		b, err := DecodeBlock("USC00999999", year, data)
		if err != nil {
			return
		}
		if !bytes.Equal(b.Encode(), data) {
			t.Fatal("a block that was read does not write the same bytes")
		}
	})
}

func TestEveryNameIsSaid(t *testing.T) {
	seen := map[string]bool{}
	for m := range marks {
		if seen[m.String()] || m.String() == "" {
			t.Errorf("mark %d is called %q", m, m)
		}
		seen[m.String()] = true
	}
	for _, e := range Elements() {
		back, ok := ElementOf(e.Code())
		if !ok || back != e || e.String() == "" {
			t.Errorf("element %d: %q, %q", e, e.Code(), e)
		}
	}
	for letter := byte('A'); letter <= 'Z'; letter++ {
		if FlagMeaning(letter) == "" {
			t.Errorf("flag %c means nothing", letter)
		}
	}
}

func TestValuesAreWrittenInBothSystems(t *testing.T) {
	for _, c := range []struct {
		e    Element
		v    int32
		want string
	}{
		{TMin, -178, "-17.8 C (0 F)"}, {TMax, -1, "-0.1 C (32 F)"}, {Rain, 254, "25.4 mm (1.00 in)"},
		{Snow, 25, "25 mm (1.0 in)"}, {Depth, 50000, "50000 mm (1968.5 in)"}, {TMax, NoValue, "a value that failed"},
	} {
		if got := c.e.Written(c.v); got != c.want {
			t.Errorf("%v %d: %q, want %q", c.e, c.v, got, c.want)
		}
	}
}

func TestMonthsLieWhereTheCalendarPutsThem(t *testing.T) {
	for _, year := range []int{1900, 2000, 2023, 2024} {
		for d := unit.DateOf(year, 1, 1); d.Year() == year; d++ {
			_, m, dd := d.Date()
			if MonthStart(year, m)+dd != d.YearDay() || dd > DaysInMonth(year, m) {
				t.Fatalf("%s: month starts at %d, has %d days", d, MonthStart(year, m), DaysInMonth(year, m))
			}
		}
	}
}

// Two reports of the same day, in every combination.
func TestTwoReportsOfOneDay(t *testing.T) {
	type report struct {
		v int32
		m Mark
	}
	for _, c := range []struct {
		name string
		in   []report
		want Mark
	}{
		{"equal", []report{{10, Reported}, {10, Reported}}, Reported},
		{"unequal", []report{{10, Reported}, {11, Reported}}, Duplicate},
		{"measured and trace", []report{{0, Reported}, {0, Trace}}, Duplicate},
		{"sound and flagged", []report{{10, Reported}, {10, Flagged}}, Duplicate},
		{"flagged and sound", []report{{10, Flagged}, {10, Reported}}, Duplicate},
		{"flagged twice", []report{{10, Flagged}, {12, Flagged}}, Flagged},
		{"beyond what can be stored, twice", []report{{40000, Reported}, {40000, Reported}}, OutOfBounds},
		{"flagged and beyond what can be stored", []report{{40000, Flagged}}, Flagged},
		{"three times, the last like the first", []report{{10, Reported}, {11, Reported}, {10, Reported}}, Duplicate},
	} {
		g := NewGatherer("f", unit.DateOf(2026, 1, 1))
		y := g.Station([]byte("CA000000001")).Year(2023)
		y.Put(5, TMax, 200, Reported, 0)
		for _, r := range c.in {
			y.Put(3, Rain, r.v, r.m, 'I')
		}
		out, err := g.Close(FileNote{})
		if err != nil {
			t.Fatal(err)
		}
		o := out[0].Blocks[0].Days[3]
		if o.Mark[Rain] != c.want || o.Has(Rain) != (c.want == Reported) {
			t.Errorf("%s: %d marked %v, want %v", c.name, o.Value[Rain], o.Mark[Rain], c.want)
		}
		tally := out[0].Report.Elements[Rain]
		if n := total(tally.Flagged) + total(tally.Failed); (n == 1) != (c.want != Reported) || n > 1 {
			t.Errorf("%s: %d drops counted", c.name, n)
		}
	}
}

func TestReportsAreTheSameEveryTime(t *testing.T) {
	var first Report
	for range 5 {
		g := NewGatherer("f", unit.DateOf(2026, 1, 1))
		r := g.Station([]byte("CA000000001"))
		for _, e := range []string{"WT01", "TOBS", "AWND", "EVAP"} {
			r.Skip([]byte(e))
		}
		for i := range 300 {
			r.Year(2023-i%7).Put(i, TMax, int32(i%50), Mark(int(Flagged)*(i%2)), byte('A'+i%5))
		}
		out, err := g.Close(FileNote{})
		if err != nil {
			t.Fatal(err)
		}
		if first.Elements == nil {
			first = out[0].Report
		}
		if d := cmp.Diff(first, out[0].Report); d != "" {
			t.Fatal(d)
		}
	}
}
