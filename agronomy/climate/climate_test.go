package climate

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.10g, want %.10g within %g", what, got, want, tolerance)
	}
}

func TestMemberKeepsItsWayWhileItFollowsTheForecast(t *testing.T) {
	near(t, "member", MemberTemperature(28, 30, 24, 2, 4), 31, 1e-12)
	near(t, "rain two days on", PublishedLead().BlendRain(0.6, 0.31, 3), 0.542, 1e-12)
	near(t, "rain six days on", PublishedLead().BlendRain(0.1, 0.31, 7), 0.226, 1e-12)
	if w := PublishedLead().RainWeight(8); w != 0 {
		t.Errorf("a forecast eight days ahead still weighs %g", w)
	}
}

func TestResidualStepGivesThePrintedAnswer(t *testing.T) {
	got := PublishedResiduals().Step([3]float64{1, 0.5, -0.2}, [3]float64{0.3, -0.4, 1.1})
	for i, want := range []float64{0.8447, 0.3586, 1.0938} {
		near(t, "residual "+strconv.Itoa(i), got[i], want, 5e-5)
	}
}

// The slopes, counts and scores were computed in R 4.2.2 from the USDA-NASS hay yields of 1950-2011.
func TestTrendOfHayYieldsEqualsR(t *testing.T) {
	folder := os.Getenv("HAYWARDEN_DATA")
	if folder == "" {
		t.Skip("HAYWARDEN_DATA is not set: the published hay yields are not here")
	}
	f, err := os.Open(filepath.Join(folder, "agridat_nass_hay_midwest.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for state, want := range map[string]Trend{
		"Minnesota": {Slope: 0.0185419657, S: 997, Z: 6.05127403},
		"Iowa":      {Slope: 0.02769182342, S: 1088, Z: 6.60370460},
	} {
		var years, yields []float64
		for _, r := range rows[1:] {
			y, _ := strconv.ParseFloat(r[0], 64)
			v, err := strconv.ParseFloat(r[3], 64)
			if r[1] == state && y >= 1950 && y <= 2011 && err == nil {
				years = append(years, y)
				yields = append(yields, v)
			}
		}
		got := FitTrend(years, yields)
		near(t, state+" S", got.S, want.S, 0)
		near(t, state+" Z", got.Z, want.Z, 1e-7)
		t.Logf("%s: Theil-Sen slope %.6f, least-squares slope in R %.6f", state, got.Slope, want.Slope)
		near(t, state+" slope", got.Slope, want.Slope, 0.004)
	}
}

func TestScoreOfAnEnsemble(t *testing.T) {
	near(t, "one value", CRPS([]float64{3}, nil, 5), 2, 1e-12)
	// Two values 0 and 2, what came 1: mean distance 1, less half the mean mutual distance 1.
	near(t, "two values", CRPS([]float64{0, 2}, nil, 1), 0.5, 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.Float64Range(-50, 50), 1, 30).Draw(t, "values")
		came := rapid.Float64Range(-60, 60).Draw(t, "came")
		var to, between float64
		for _, a := range v {
			to += math.Abs(a-came) / float64(len(v))
			for _, b := range v {
				between += math.Abs(a-b) / float64(len(v)*len(v))
			}
		}
		if got, want := CRPS(v, nil, came), to-between/2; math.Abs(got-want) > 1e-9 {
			t.Fatalf("CRPS %g, by its definition %g", got, want)
		}
	})
}

func TestHarmonicsFollowWhatTheyWereMadeFrom(t *testing.T) {
	truth := Harmonics{Mean: 8, Cos: []float64{-12, 1}, Sin: []float64{-4, 0.5}}
	var day, value []float64
	for d := 1.0; d <= 366; d++ {
		day = append(day, d)
		value = append(value, truth.At(d))
	}
	value[40] = math.NaN()
	fit := FitHarmonics(day, value, 2)
	for _, d := range []float64{1, 100, 200, 366} {
		near(t, "day", fit.At(d), truth.At(d), 1e-9)
	}
	if got := FitHarmonics(day[:3], value[:3], 2); !math.IsNaN(got.Mean) {
		t.Errorf("three days made a course: %v", got)
	}
}

func TestLikenessLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "years")
		rows := make([][]float64, n)
		for i := range rows {
			rows[i] = []float64{rapid.Float64Range(-300, 300).Draw(t, "heat"), rapid.Float64Range(-100, 200).Draw(t, "rain")}
		}
		w := LikenessWide(rows, []float64{0, 0}, []float64{40, 30})
		var sum float64
		for _, v := range w {
			sum += v
		}
		if math.Abs(sum-1) > 1e-9 || EffectiveSize(w) > float64(n)+1e-9 {
			t.Fatalf("weights %v add up to %g, effective %g of %d", w, sum, EffectiveSize(w), n)
		}
	})
}
