package ghcn

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

// The line of the readme, on an invented station. [source.GHCNDaily]
func TestALineOfTheByStationForm(t *testing.T) {
	r := one(t, ByStation, "a.csv", []byte("USC00999999,20230601,TMIN,122,,,7,0700\nUSC00999999,20230601,PRCP,0,T,,7,\nUSC00999999,20230602,TMIN,-9999,,,,\nUSC00999999,20230603,TMIN,-39,,G,7,\n"))
	b := r.Blocks[0]
	o := b.On(unit.DateOf(2023, 6, 1))
	if o.Value[weather.TMin] != 122 || o.Value[weather.Rain] != 0 || o.Mark[weather.Rain] != weather.Trace {
		t.Errorf("1 June reads %+v", o)
	}
	if *b.On(unit.DateOf(2023, 6, 2)) != weather.NoObs() {
		t.Errorf("a missing day reads %+v", b.On(unit.DateOf(2023, 6, 2)))
	}
	if m := b.On(unit.DateOf(2023, 6, 3)).Mark[weather.TMin]; m != weather.Flagged {
		t.Errorf("a flagged value is marked %v", m)
	}
	if d := cmp.Diff([]weather.HourTally{{Hour: 7, Days: 1}}, r.Report.ReadAt); d != "" {
		t.Error(d)
	}
}

func TestMalformedRowsRefuseTheFile(t *testing.T) {
	good := "USC00999999,20230601,TMIN,122,,,7,0700\n"
	for _, c := range []struct{ name, row, want string }{
		{"too few fields", "USC00999999,20230601,TMIN\n", "line 2: 3 fields, 8 wanted"},
		{"too many fields", "USC00999999,20230601,TMIN,1,,,7,0700,x\n", "line 2: 9 fields, 8 wanted"},
		{"a short ID", "USC0099,20230601,TMIN,1,,,7,\n", "11 wanted"},
		{"an ID of other letters", "USC009999é,20230601,TMIN,1,,,7,\n", "not made of letters"},
		{"a date with dashes", "USC00999999,2023-06-01,TMIN,1,,,7,\n", "YYYYMMDD wanted"},
		{"31 June", "USC00999999,20230631,TMIN,1,,,7,\n", "there is no such day"},
		{"29 February of a common year", "USC00999999,20230229,TMIN,1,,,7,\n", "there is no such day"},
		{"month 0", "USC00999999,20230001,TMIN,1,,,7,\n", "there is no such day"},
		{"a year before all records", "USC00999999,17620101,TMIN,1,,,7,\n", "accepted from 1763"},
		{"a day after today", "USC00999999,20261102,TMIN,1,,,7,\n", "after today, 2026-11-01"},
		{"an element of other letters", "USC00999999,20230601,T-IN,1,,,7,\n", `element "T-IN"`},
		{"no value", "USC00999999,20230601,TMIN,,,,7,\n", `value "" is not a whole number`},
		{"a decimal value", "USC00999999,20230601,TMIN,1.5,,,7,\n", "is not a whole number"},
		{"a flag of two letters", "USC00999999,20230601,TMIN,1,,XX,7,\n", "single letter"},
		{"hour 25", "USC00999999,20230601,TMIN,1,,,7,2500\n", "0000 to 2400"},
		{"minute 60", "USC00999999,20230601,TMIN,1,,,7,0760\n", "0000 to 2400"},
		{"a file cut off", "USC00999999,20230601,TMI", "cut off"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := ByStation(strings.NewReader(good+c.row), "a.csv", today)
			var refused *weather.Refusal
			if !errors.As(err, &refused) || r != nil {
				t.Fatalf("got %d readings and %v, want a refusal", len(r), err)
			}
			if !strings.Contains(err.Error(), "a.csv") || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %q, want the file's name and %q", err, c.want)
			}
		})
	}
}

func TestHoursOfObservationRoundToTheNearest(t *testing.T) {
	for in, want := range map[string]int{"": -1, "0000": 0, "0029": 0, "0030": 1, "0700": 7, "1730": 18, "2359": 24, "2400": 24} {
		if got, ok := hourOf([]byte(in)); !ok || got != want {
			t.Errorf("%q: %d, %v; want %d", in, got, ok, want)
		}
	}
}
