package reckon

import (
	"errors"
	"io"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// sample takes an input of every kind and answers with what the run hook leaves.
func sample(run func(*method.Call) error) *method.Method {
	return &method.Method{
		Name: "sample", Title: "Sample", About: "For tests.",
		Inputs: []method.Input{
			{Key: "height", About: "height", Unit: unit.Must("in"), Accepted: method.Range{Low: 2, High: 60}, Tested: method.Range{Low: 16, High: 40}},
			{Key: "counts", About: "counts", Kind: method.Numbers, Accepted: method.Range{Low: 0, High: 200}, Tested: method.Range{Low: 1, High: 100}, Optional: true},
			{Key: "scheme", About: "scheme", Kind: method.Word, Choices: []string{"usda", "task-force"}, Default: "usda"},
			{Key: "readings", About: "readings", Kind: method.Readings, Unit: unit.Must("in"), Choices: []string{"bud", "flower"}, Accepted: method.Range{Low: 2, High: 60}, Optional: true},
			{Key: "days", About: "days", Kind: method.Days, Optional: true},
			{Key: "cut_on", About: "a date", Kind: method.Date, Optional: true},
			{Key: "degrees", About: "unit of tmin", Kind: method.Word, Choices: []string{"F", "C"}, Default: "F"},
			{Key: "tmin", About: "temperatures", Kind: method.Numbers, Unit: unit.Must("F"), UnitFrom: "degrees", Accepted: method.Range{Low: -40, High: 140}, Optional: true},
			{Key: "group", About: "names", Kind: method.Words, Optional: true},
			{Key: "side", About: "known names", Kind: method.Words, Choices: []string{"left", "right"}, Optional: true},
			{Key: "need", About: "named numbers", Kind: method.Pairs, Unit: unit.Must("lb/ac"), Accepted: method.Range{Low: 0, High: 500}, Optional: true},
			{Key: "sieve", About: "known named numbers", Kind: method.Pairs, Choices: []string{"8", "60"}, Optional: true},
			{Key: "table", About: "a matrix", Kind: method.Matrix, Accepted: method.Range{Low: -9, High: 9}, Tested: method.Range{Low: 0, High: 9}, Optional: true},
		},
		Outputs: []method.Output{{Key: "out", About: "what comes out", Decimals: 1}},
		Sources: []source.ID{source.RFVFormula},
		Example: "height=27",
		Run:     run,
	}
}

func TestParseReadsEveryKind(t *testing.T) {
	inf := math.Inf(1)
	day := unit.DateOf(2026, 5, 19)
	files := opener(map[string]string{
		"stand.csv": "\ufeffdate, counts ,tmin\n2026-05-01,3,40\n2026-05-02, 5,41.5\n",
		"one.csv":   "stems\n7\n8\n",
		"named.csv": "group,counts\nhigh cows,3\ndry,5\n",
		"need.csv":  "nutrient,amount\np2o5,60\nk2o,250\n",
		"table.csv": "a,b\n1,2\n3,4\n5,6\n",
	})
	for _, tc := range []struct {
		name  string
		args  string
		want  map[string]any
		notes int
	}{
		{"a plain number and the defaults", "height=27", map[string]any{"height": 27., "scheme": "usda", "degrees": "F"}, 0},
		{"a number in its own unit", "height=71.12cm", map[string]any{"height": 28., "scheme": "usda", "degrees": "F"}, 0},
		{"a number outside the tested range, with a note", "height=50", map[string]any{"height": 50., "scheme": "usda", "degrees": "F"}, 1},
		{"a list", "height=27 counts=1,2.5,3e1", map[string]any{"height": 27., "counts": []float64{1, 2.5, 30}, "scheme": "usda", "degrees": "F"}, 0},
		{"one note for all of a list outside the tested range", "height=27 counts=0,2,150", map[string]any{"height": 27., "counts": []float64{0, 2, 150}, "scheme": "usda", "degrees": "F"}, 1},
		{"a word in any case", "height=27 scheme=Task-Force", map[string]any{"height": 27., "scheme": "task-force", "degrees": "F"}, 0},
		{"readings, each in its own unit", "height=27 readings=25.4cm:bud,30:FLOWER", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "readings": []method.Reading{{Height: 10, Stage: "bud"}, {Height: 30, Stage: "flower"}}}, 0},
		{"days, with years without the event", "height=27 days=120,none,366", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "days": []float64{120, inf, 366}}, 0},
		{"a date", "height=27 cut_on=2026-05-19", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "cut_on": day}, 0},
		{"temperatures in the unit that a later word names, each free to differ", "height=27 tmin=10,50F degrees=C", map[string]any{"height": 27., "scheme": "usda", "degrees": "C", "tmin": []float64{10, 10}}, 0},
		{"a list from a column of a file", "height=27 counts=@stand.csv", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "counts": []float64{3, 5}}, 0},
		{"a list from the only column of a file", "height=27 counts=@one.csv", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "counts": []float64{7, 8}}, 0},
		{"words of one's own", "height=27 group=High,dry", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "group": []string{"High", "dry"}}, 0},
		{"words of a known few", "height=27 side=LEFT,right,left", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "side": []string{"left", "right", "left"}}, 0},
		{"named numbers, each in its own unit", "height=27 need=k2o:250,p2o5:0.05tons/ac", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "need": []method.Pair{{Name: "k2o", Value: 250}, {Name: "p2o5", Value: 100}}}, 0},
		{"known named numbers", "height=27 sieve=60:30,8:95", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "sieve": []method.Pair{{Name: "60", Value: 30}, {Name: "8", Value: 95}}}, 0},
		{"a matrix by rows, with one note for what is outside the tested range", "height=27 table=1,2;3,-4", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "table": [][]float64{{1, 2}, {3, -4}}}, 1},
		{"words and numbers from one file", "height=27 @named.csv", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "group": []string{"high cows", "dry"}, "counts": []float64{3, 5}}, 0},
		{"named numbers from a file", "height=27 need=@need.csv", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "need": []method.Pair{{Name: "p2o5", Value: 60}, {Name: "k2o", Value: 250}}}, 0},
		{"a matrix from a file", "height=27 table=@table.csv", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "table": [][]float64{{1, 2}, {3, 4}, {5, 6}}}, 0},
		{"every list a file heads, and a note of what it left", "height=27 @stand.csv", map[string]any{"height": 27., "scheme": "usda", "degrees": "F", "counts": []float64{3, 5}, "tmin": []float64{40, 41.5}}, 1},
	} {
		t.Run(tc.name, func(t *testing.T) {
			q, err := Parse(sample(nil), strings.Fields(tc.args), files)
			if err != nil {
				t.Fatal(err)
			}
			got := map[string]any{}
			for _, g := range q.Given {
				got[g.Input.Key] = g.Value
			}
			if diff := cmp.Diff(tc.want, got, cmp.Transformer("nearly", func(v float64) float64 { return math.Round(v*1e9) / 1e9 })); diff != "" {
				t.Errorf("inputs (-want +got):\n%s", diff)
			}
			if len(q.Notes) != tc.notes {
				t.Errorf("notes %q, want %d", q.Notes, tc.notes)
			}
		})
	}
}

// TestBadInputIsToldInOneLine proves that an error names the key, what was given and what is
// accepted, so that a user can mend it without reading further.
func TestBadInputIsToldInOneLine(t *testing.T) {
	files := opener(map[string]string{
		"gap.csv": "counts\n3\n\"\"\n", "other.csv": "a,b\n1,2\n", "ragged.csv": "counts,b\n1\n", "bare.csv": "counts\n", "comma.csv": "counts\n\"1,5\"\n",
	})
	for _, tc := range []struct{ name, args, want string }{
		{"missing", "", "sample: height is missing; accepted: a number 2 to 60 in"},
		{"unknown key near a known one", "heigth=27", `sample: heigth: unknown key in "heigth=27" (did you mean height?); accepted keys: height, counts, scheme, readings, days, cut_on, degrees, tmin, group, side, need, sieve, table`},
		{"unknown key near none", "zzz=1", `sample: zzz: unknown key in "zzz=1"; accepted keys: height, counts, scheme, readings, days, cut_on, degrees, tmin, group, side, need, sieve, table`},
		{"no equals sign", "27", `sample: "27" is not written key=value; accepted keys: height, counts, scheme, readings, days, cut_on, degrees, tmin, group, side, need, sieve, table`},
		{"twice", "height=27 height=28", "sample: height is given twice; give it once"},
		{"nothing after the equals sign", "height=", "sample: height=: nothing is given; accepted: a number 2 to 60 in"},
		{"not a number", "height=tall", `sample: height=tall: "tall" is not a number; accepted: a number 2 to 60 in`},
		{"not a finite number", "height=NaN", `sample: height=NaN: "NaN" is not a number; accepted: a number 2 to 60 in`},
		{"a thousands comma", "height=1,400", `sample: height=1,400: "1,400": no unit is written ",400"; accepted: a number 2 to 60 in`},
		{"outside the accepted range", "height=61", "sample: height=61: 61 in is outside the accepted range; accepted: a number 2 to 60 in"},
		{"outside after conversion", "height=2m", "sample: height=2m: 78.7402 in is outside the accepted range; accepted: a number 2 to 60 in"},
		{"a unit of another kind", "height=3kg", "sample: height=3kg: kg measures mass, and length (in) is wanted; accepted: a number 2 to 60 in"},
		{"a unit on a plain number", "height=27 counts=3kg", "sample: counts=3kg: item 1: kg measures mass, and a number without a unit is wanted; accepted: comma-separated numbers 0 to 200"},
		{"an unknown unit", "height=3cubits", `sample: height=3cubits: "3cubits": no unit is written "cubits"; accepted: a number 2 to 60 in`},
		{"an item of a list", "height=27 counts=1,x,3", `sample: counts=1,x,3: item 2: "x" is not a number; accepted: comma-separated numbers 0 to 200`},
		{"an empty item", "height=27 counts=1,,3", "sample: counts=1,,3: item 2 is empty; accepted: comma-separated numbers 0 to 200"},
		{"a word that is no choice", "height=27 scheme=usad", "sample: scheme=usad: not one of the choices (did you mean usda?); accepted: one of usda, task-force"},
		{"a reading without a stage", "height=27 readings=27", `sample: readings=27: item 1: "27" is not written height:stage; accepted: comma-separated height:stage, height 2 to 60 in, stage one of bud, flower`},
		{"a reading at an unknown stage", "height=27 readings=27:bid", `sample: readings=27:bid: item 1: stage "bid": not one of the choices (did you mean bud?); accepted: comma-separated height:stage, height 2 to 60 in, stage one of bud, flower`},
		{"a day no year has", "height=27 days=367", "sample: days=367: item 1: 367 is outside the accepted range; accepted: comma-separated days of the year 1 to 366, or none"},
		{"half a day", "height=27 days=12.5", `sample: days=12.5: item 1: "12.5" is not a whole day of the year; accepted: comma-separated days of the year 1 to 366, or none`},
		{"no date", "height=27 cut_on=19.5.26", `sample: cut_on=19.5.26: date "19.5.26": want a calendar date written YYYY-MM-DD, such as 2026-05-19; accepted: a date YYYY-MM-DD`},
		{"a range said in the unit asked for", "height=27 degrees=C tmin=100", "sample: tmin=100: item 1: 100 C is outside the accepted range; accepted: comma-separated numbers -40 to 60 C"},
		{"a file for a number", "height=@gap.csv", "sample: height=@gap.csv: a file can only stand for a list; accepted: a number 2 to 60 in"},
		{"a gap in a file", "height=27 counts=@gap.csv", `sample: @gap.csv: row 2, column counts: ""; accepted: one value in every row`},
		{"two values in a cell", "height=27 counts=@comma.csv", `sample: @comma.csv: row 1, column counts: "1,5"; accepted: one value in every row`},
		{"a file without the column", "height=27 counts=@other.csv", "sample: counts=@other.csv: no column is headed counts, found a, b"},
		{"a file without any list", "height=27 @other.csv", "sample: @other.csv: no column is a list of this reckoning, found a, b; accepted columns: counts, readings, days, tmin, group, side"},
		{"rows of unequal length", "height=27 @ragged.csv", "sample: @ragged.csv: line 2: wrong number of fields; accepted: a CSV file with a header and equally long rows"},
		{"a header alone", "height=27 @bare.csv", "sample: @bare.csv: 1 rows; accepted: a CSV file with a header and at least one row"},
		{"a word with a mark in it", "height=27 group=a:b", `sample: group=a:b: item 1: "a:b" holds one of : ; = @, which part inputs; accepted: comma-separated words`},
		{"a word that is none of the known", "height=27 side=left,rihgt", `sample: side=left,rihgt: item 2: "rihgt": not one of the choices (did you mean right?); accepted: comma-separated words, each one of left, right`},
		{"a named number without a name", "height=27 need=60", `sample: need=60: item 1: "60" is not written name:number; accepted: comma-separated name:number, number 0 to 500 lb/ac`},
		{"a name given twice", "height=27 need=k2o:1,k2o:2", "sample: need=k2o:1,k2o:2: item 2: k2o is given twice; accepted: comma-separated name:number, number 0 to 500 lb/ac"},
		{"a named number outside the accepted range", "height=27 need=k2o:-1", "sample: need=k2o:-1: item 1: k2o: -1 lb/ac is outside the accepted range; accepted: comma-separated name:number, number 0 to 500 lb/ac"},
		{"a name that is none of the known", "height=27 sieve=9:30", `sample: sieve=9:30: item 1: "9": not one of the choices (did you mean 8?); accepted: comma-separated name:number, number, name one of 8, 60`},
		{"rows of a matrix of unequal length", "height=27 table=1,2;3", "sample: table=1,2;3: row 2 has 1 numbers and row 1 has 2; accepted: rows apart by semicolons, comma-separated numbers -9 to 9 in each"},
		{"a word in a matrix", "height=27 table=1,2;3,x", `sample: table=1,2;3,x: row 2: item 2: "x" is not a number; accepted: rows apart by semicolons, comma-separated numbers -9 to 9 in each`},
		{"an empty row", "height=27 table=1,2;", "sample: table=1,2;: row 2: item 1 is empty; accepted: rows apart by semicolons, comma-separated numbers -9 to 9 in each"},
		{"a file of pairs with a column too few", "height=27 need=@gap.csv", "sample: need=@gap.csv: 1 columns, found counts; accepted: two, the name and its number"},
		{"a cell of a matrix that would shift the rest", "height=27 table=@comma.csv", `sample: table=@comma.csv: row 1, column counts: "1,5"; accepted: one value in every row`},
		{"a long list is cut short", "height=27 counts=1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,17,x", `sample: counts=1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,1...: item 18: "x" is not a number; accepted: comma-separated numbers 0 to 200`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := Parse(sample(nil), strings.Fields(tc.args), files)
			if _, ok := errors.AsType[*BadInput](err); !ok {
				t.Fatalf("error %v, want a *BadInput", err)
			}
			if diff := cmp.Diff(tc.want, err.Error()); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestAFileThatCannotBeReadIsNoBadInput(t *testing.T) {
	_, err := Parse(sample(nil), []string{"height=27", "@none.csv"}, opener(nil))
	var bad *BadInput
	if !errors.Is(err, fs.ErrNotExist) || errors.As(err, &bad) {
		t.Errorf("error %v, want a missing file that is no *BadInput", err)
	}
	if _, err := Parse(sample(nil), []string{"height=27", "@any.csv"}, nil); !errors.As(err, &bad) {
		t.Errorf("error %v, want a *BadInput where files cannot be read", err)
	}
}

// TestUnitsConvertBothWays proves that a height means the same whatever unit it is written in.
func TestUnitsConvertBothWays(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		inches := rapid.Float64Range(3, 59).Draw(rt, "inches")
		symbol := rapid.SampledFrom([]string{"mm", "cm", "m", "in", "ft"}).Draw(rt, "unit")
		there, err := unit.Convert(inches, unit.Must("in"), unit.Must(symbol))
		if err != nil {
			rt.Fatal(err)
		}
		q, err := Parse(sample(nil), []string{"height=" + formatted(there) + symbol}, nil)
		if err != nil {
			rt.Fatal(err)
		}
		if got, _ := q.Given[0].Value.(float64); math.Abs(got-inches) > 1e-9 {
			rt.Errorf("%g in written in %s is read as %g in", inches, symbol, got)
		}
	})
}

func TestNearestFindsASlipAndNothingElse(t *testing.T) {
	known := []string{"adf", "ndf", "scheme", "harvest_days"}
	for word, want := range map[string]string{
		"nfd": "ndf", "ADF": "adf", "sheme": "scheme", "harvest": "harvest_days", "harvst_day": "harvest_days", "price": "", "x": "",
	} {
		if got := Nearest(word, known); got != want {
			t.Errorf("nearest to %s is %q, want %q", word, got, want)
		}
	}
}

func opener(files map[string]string) Opener {
	disk := fstest.MapFS{}
	for name, text := range files {
		disk[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return func(name string) (io.ReadCloser, error) { return disk.Open(name) }
}
