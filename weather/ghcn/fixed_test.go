package ghcn

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// The columns as the readme gives them, on an invented station: missing, failed, trace, presumed zero
// and two 12-hour totals. [source.GHCNDaily]
func TestColumnsOfALineOfTheReadme(t *testing.T) {
	file := "USC00999999202306TMIN  122  7  -22  7-9999      61 I7" + strings.Repeat("  100  7", 26) + "-9999   \n" +
		"USC00999999202306PRCP    0T 7  254  7    0P 7   13B 7" + strings.Repeat("    0  7", 26) + "-9999   \n"
	r := one(t, FixedWidth, "a.dly", []byte(file))
	b := r.Blocks[0]
	type want struct {
		value int16
		mark  weather.Mark
	}
	for _, c := range []struct {
		day int
		e   weather.Element
		want
	}{
		{1, weather.TMin, want{122, weather.Reported}},
		{2, weather.TMin, want{-22, weather.Reported}},
		{3, weather.TMin, want{weather.Missing, weather.Absent}},
		{4, weather.TMin, want{weather.Missing, weather.Flagged}},
		{1, weather.Rain, want{0, weather.Trace}},
		{2, weather.Rain, want{254, weather.Reported}},
		{3, weather.Rain, want{0, weather.PresumedZero}},
		{4, weather.Rain, want{13, weather.Reported}},
		{30, weather.Rain, want{0, weather.Reported}},
		{1, weather.TMax, want{weather.Missing, weather.Absent}},
	} {
		o := b.On(unit.DateOf(2023, 6, c.day))
		if got := (want{o.Value[c.e], o.Mark[c.e]}); got != c.want {
			t.Errorf("%v on 2023-06-%02d: %v, want %v", c.e, c.day, got, c.want)
		}
	}
	if o := b.On(unit.DateOf(2023, 7, 1)); *o != weather.NoObs() {
		t.Errorf("day 31 of June became %v of July", o)
	}
	// The 26 equal values that end the line are what a stuck instrument leaves.
	if n := r.Report.Elements[weather.TMin].Failed[0]; n.Rule != "streak" || n.Count != 26 {
		t.Errorf("streak of %+v, want 26", n)
	}
	if !r.Station.WholeF {
		t.Error("a US station in tenths C does not read whole degrees F")
	}
}

func TestFiveColumnNumbers(t *testing.T) {
	form := regexp.MustCompile(`^ *-?[0-9]+$`)
	check := func(s string) error {
		got, ok := number([]byte(s))
		want, err := strconv.Atoi(strings.TrimLeft(s, " "))
		if valid := err == nil && form.MatchString(s); ok != valid || ok && int(got) != want {
			return fmt.Errorf("%q reads %d, %v; want %d, %v", s, got, ok, want, valid)
		}
		return nil
	}
	for v := -9999; v <= 99999; v++ {
		if err := check(fmt.Sprintf("%5d", v)); err != nil {
			t.Fatal(err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		letters := rapid.OneOf(rapid.SampledFrom([]byte(" -0123456789+.")), rapid.Byte())
		if err := check(string(rapid.SliceOfN(letters, 5, 5).Draw(t, "columns"))); err != nil {
			t.Fatal(err)
		}
	})
}

// line makes a line of full width with one value on the first day.
func line(prefix, day1 string) string {
	return prefix + day1 + strings.Repeat("-9999   ", 30) + "\n"
}

func TestMalformedLinesRefuseTheFile(t *testing.T) {
	good := line("USC00999999202306TMIN", "  122  7")
	for _, c := range []struct{ name, file, want string }{
		{"a short line", good + "USC00999999202306\n", "line 2: 17 columns, at least 21"},
		{"a line too long", good + strings.TrimSuffix(good, "\n") + "x\n", "line 2: 270 columns, at most 269"},
		{"an ID with a blank", line("USC0099 999202306TMIN", "  122  7"), "line 1: column 8: station ID"},
		{"letters for a year", line("USC0099999920x306TMIN", "  122  7"), `line 1: columns 12-15: year "20x3"`},
		{"a year before all records", line("USC00999999112306TMIN", "  122  7"), "accepted 1763 to 2026"},
		{"a year to come", line("USC00999999202706TMIN", "  122  7"), "accepted 1763 to 2026"},
		{"month 13", line("USC00999999202313TMIN", "  122  7"), `month "13", accepted 01 to 12`},
		{"month 0", line("USC00999999202300TMIN", "  122  7"), `month "00", accepted 01 to 12`},
		{"an element of small letters", line("USC00999999202306tmin", "  122  7"), `element "tmin"`},
		{"a value with a letter", line("USC00999999202306TMIN", "  1x2  7"), `line 1: day 1: "  1x2" is not a whole number`},
		{"a value left-justified", line("USC00999999202306TMIN", "122    7"), `"122  " is not a whole number`},
		{"a plus sign", line("USC00999999202306TMIN", " +122  7"), "is not a whole number"},
		{"a decimal point", line("USC00999999202306TMIN", " 12.2  7"), "is not a whole number"},
		{"a flag that is no letter", line("USC00999999202306TMIN", "  122 \x017"), "flags"},
		{"a value on 31 June", "USC00999999202306TMIN" + strings.Repeat("-9999   ", 30) + "  122  7\n", "day 31: value 122, but the month has 30 days"},
		{"a value after today", "USC00999999202611TMIN" + strings.Repeat("  122  7", 2) + strings.Repeat("-9999   ", 29) + "\n", "day 2: 2026-11-02 is after today, 2026-11-01"},
		{"a file cut off inside a value", good + good[:96] + "\n", "line 2: the line ends inside the value of day 10"},
		{"a file cut off between values", good + strings.TrimSuffix(good[:21+8*9], "   "), "line 2: the file ends in the middle of the line, after day 9"},
		{"another kind of file", strings.Repeat("x", 1<<17), "line 1 is longer than 65536 bytes"},
		{"nothing", "", "the file holds no value of TMAX, TMIN, PRCP, SNOW, SNWD"},
		{"elements that are not kept only", line("USC00999999202306TOBS", "  122  7"), "the file holds no value of TMAX"},
		{"missing values only", line("USC00999999202306TMIN", "-9999   "), "the file holds no value of TMAX"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := FixedWidth(strings.NewReader(c.file), "a.dly", today)
			var refused *weather.Refusal
			if !errors.As(err, &refused) || r != nil {
				t.Fatalf("got %d readings and %v, want a refusal", len(r), err)
			}
			if !strings.Contains(err.Error(), "a.dly") || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %q, want the file's name and %q", err, c.want)
			}
		})
	}
}

func TestTheFirstTwentyReasonsAreListed(t *testing.T) {
	file := strings.Repeat(line("USC00999999202306TMIN", "  1x2  7"), 50)
	_, err := FixedWidth(strings.NewReader(file), "a.dly", today)
	var refused *weather.Refusal
	if !errors.As(err, &refused) {
		t.Fatal(err)
	}
	if len(refused.Issues) != weather.MostIssues || refused.Found != 50 || refused.Issues[19].Line != 20 {
		t.Errorf("%d issues of %d, the last on line %d; want 20 of 50, line 20", len(refused.Issues), refused.Found, refused.Issues[19].Line)
	}
	for _, want := range []string{"50 lines are wrong", "\n  line 20:", "\n  and 30 more"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not in %q", want, err)
		}
	}
}

func TestAFailingDiskIsNoFaultOfTheFile(t *testing.T) {
	broken := io.MultiReader(strings.NewReader(line("USC00999999202306TMIN", "  122  7")), iotest.ErrReader(errors.New("disk on fire")))
	for name, read := range map[string]reader{"fixed width": FixedWidth, "by station": ByStation} {
		_, err := read(broken, "a.dly", today)
		var refused *weather.Refusal
		if err == nil || errors.As(err, &refused) || !strings.Contains(err.Error(), "disk on fire") {
			t.Errorf("%s: %v", name, err)
		}
		broken = iotest.ErrReader(errors.New("disk on fire"))
	}
}

func TestEachStationOfAFileGetsItsOwnReading(t *testing.T) {
	file := line("USC00999999202306TMIN", "  122  7") + line("CA000000001202306TMIN", "  100  7") + line("USC00999999202306TMAX", "  222  7")
	r, err := FixedWidth(strings.NewReader(file), "two.dly", today)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, x := range r {
		got = append(got, fmt.Sprint(x.Station.ID, " ", x.Station.WholeF, " ", x.Report.Lines, " ", x.Blocks[0].On(unit.DateOf(2023, 6, 1)).Value[weather.TMin]))
	}
	if d := cmp.Diff([]string{"CA000000001 false 1 100", "USC00999999 true 2 122"}, got); d != "" {
		t.Error(d)
	}
	var many strings.Builder
	for i := range weather.MostStations + 1 {
		many.WriteString(line(fmt.Sprintf("USC%08d202306TMIN", i), "  122  7"))
	}
	if _, err := FixedWidth(strings.NewReader(many.String()), "network.dly", today); err == nil || !strings.Contains(err.Error(), "line 101: station USC00000100 is one too many") {
		t.Errorf("a network's file: %v", err)
	}
}

// The same month twice: equal values count once, differing ones are both dropped.
func TestAMonthGivenTwice(t *testing.T) {
	a := "USC00999999202306TMIN  122  7  -22  7  100 I7" + strings.Repeat("-9999   ", 28) + "\n"
	b := "USC00999999202306TMIN  122  7  -28  7  100  7   50  7" + strings.Repeat("-9999   ", 27) + "\n"
	r := one(t, FixedWidth, "a.dly", []byte(a+b))
	var got []string
	for d := 1; d <= 4; d++ {
		o := r.Blocks[0].On(unit.DateOf(2023, 6, d))
		got = append(got, fmt.Sprint(o.Value[weather.TMin], " ", o.Mark[weather.TMin]))
	}
	if d := cmp.Diff([]string{"122 reported", "-32768 duplicate", "-32768 duplicate", "50 reported"}, got); d != "" {
		t.Error(d)
	}
	tally := r.Report.Elements[weather.TMin]
	if len(tally.Flagged) != 0 || tally.Failed[0].Count != 2 || tally.Reported != 2 {
		t.Errorf("tally %+v", tally)
	}
	if why := tally.Failed[0].Examples[0].Reason; why != "reported twice for this day, also as -2.8 C (27 F)" {
		t.Errorf("reason %q", why)
	}
}
