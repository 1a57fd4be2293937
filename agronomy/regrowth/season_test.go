package regrowth

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
)

// milwaukeeDays reads one year of the published record.
func milwaukeeDays(t *testing.T, m *Model, year int) []Day {
	t.Helper()
	const file = "weather_milwaukee_1971_2020.csv"
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the Milwaukee record (GHCN-Daily USW00014839) is not committed; set it to the folder that holds " + file)
	}
	f, err := os.Open(filepath.Join(dir, file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	place := m.NewPlace(42.955, false)
	var days []Day
	for _, r := range all[1:] {
		d, err := unit.ParseDay(r[0])
		if err != nil {
			t.Fatal(err)
		}
		if d.Year() == year {
			days = append(days, place.Day(d.YearDay(), number(r[1]), number(r[2]), number(r[5])))
		}
	}
	return days
}

// A wet and a dry year of Milwaukee with their cuts, as worked out beside the program. [source.GrowthCheck]
func TestRealYearsGiveTheCutsWorkedOutBesideTheProgram(t *testing.T) {
	m := Published()
	for _, c := range []struct {
		year int
		cuts []int
		kg   []float64
	}{
		{1988, []int{150, 183, 215, 248}, []float64{4102.8, 947.7, 479.0, 1132.0}},
		{1988, []int{156, 198, 243}, []float64{4547.7, 720.6, 1378.5}},
		{1993, []int{154, 187, 219, 252}, []float64{3806.1, 3131.4, 3093.8, 1939.4}},
		{1993, []int{163, 205, 250}, []float64{4721.2, 3737.4, 2560.4}},
	} {
		days := milwaukeeDays(t, &m, c.year)
		soil := m.SoilOf(m.UsualTAWMM)
		crop := m.Start(First, 1, 0)
		spring, fall, next := m.Spring(days), Fall(days, killC), 0
		for i := range days {
			if i < spring || i >= fall {
				m.Rest(&crop, &soil, &days[i])
				continue
			}
			m.Grow(&crop, &soil, &days[i])
			if next < len(c.cuts) && i+1 == c.cuts[next] {
				if got := m.Cut(&crop) * (1 - m.UsualLoss); math.Abs(got-c.kg[next]) > 0.06 {
					t.Errorf("%d, cut on day %d: %.1f kg/ha, want %.1f", c.year, i+1, got, c.kg[next])
				}
				next++
			}
		}
	}
}

// drawn is a season of any weather, with the days on which it is cut.
type drawn struct {
	days []Day
	ks   []float64
	cut  []bool
	crop Crop
}

func drawSeason(t *rapid.T, m *Model) drawn {
	n := rapid.IntRange(1, 220).Draw(t, "days")
	place := m.NewPlace(rapid.Float64Range(30, 55).Draw(t, "lat"), false)
	first := rapid.IntRange(60, 140).Draw(t, "first")
	every := rapid.IntRange(15, 60).Draw(t, "interval")
	d := drawn{crop: m.Start(rapid.IntRange(Seedling, Later).Draw(t, "growth"), rapid.Float64Range(0, 1).Draw(t, "reserve"), 0)}
	base, swing := rapid.Float64Range(-5, 32).Draw(t, "mean"), rapid.SliceOfN(rapid.Float64Range(-12, 12), 7, 7).Draw(t, "swing")
	stress := rapid.SliceOfN(rapid.Float64Range(0, 1), 5, 5).Draw(t, "ks")
	rain := rapid.SliceOfN(rapid.Float64Range(0, 60), 4, 4).Draw(t, "rain")
	for i := range n {
		mean, half := base+swing[i%7], 1+math.Abs(swing[(i+3)%7])
		d.days = append(d.days, place.Day(first+i, mean+half, mean-half, rain[i%4]*float64(i%5/4)))
		d.ks = append(d.ks, stress[i%5])
		d.cut = append(d.cut, i > 0 && i%every == 0)
	}
	return d
}

func TestReserveStaysBetweenEmptyAndFullAndMassIsNeverLessThanNothing(t *testing.T) {
	m := Published()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeason(t, &m)
		soil := m.SoilOf(rapid.Float64Range(20, 400).Draw(t, "taw"))
		c := s.crop
		for i := range s.days {
			added := m.Grow(&c, &soil, &s.days[i])
			if !(c.Reserve >= 0 && c.Reserve <= 1 && added >= 0 && c.KgHa >= 0 && c.FieldKg >= 0 && c.FieldKg <= c.KgHa+1e-9 &&
				c.LAI > 0 && c.LAI <= m.LeafCap && c.Height >= 0 && c.Height <= m.HeightTopCM && c.LacksMM >= 0 && c.LacksMM <= soil.TAWmm && c.Ks >= 0 && c.Ks <= 1) {
				t.Fatalf("day %d: %+v after %+v", i, c, s.days[i])
			}
			if stage := m.StageOf(&c); !(stage >= 0 && stage <= m.StageEnd) {
				t.Fatalf("day %d: stage %g", i, stage)
			}
			if s.cut[i] {
				if kg := m.Cut(&c); !(kg >= 0) || c.KgHa != 0 || c.FieldKg != 0 {
					t.Fatalf("day %d: cut %g left %+v", i, kg, c)
				}
			}
		}
	})
}

func TestMoreWaterStressNeverGainsGrowthHeightLeavesOrReserve(t *testing.T) {
	m := Published()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeason(t, &m)
		harder := rapid.SliceOfN(rapid.Float64Range(0, 1), len(s.days), len(s.days)).Draw(t, "harder")
		easy, hard := s.crop, s.crop
		const slip = 1e-9
		for i := range s.days {
			m.GrowUnder(&easy, &s.days[i], s.ks[i])
			m.GrowUnder(&hard, &s.days[i], s.ks[i]*harder[i])
			if hard.KgHa > easy.KgHa*(1+slip)+slip || hard.Height > easy.Height+slip || hard.LAI > easy.LAI+slip || hard.Reserve > easy.Reserve+slip {
				t.Fatalf("day %d: under more stress %+v, under less %+v", i, hard, easy)
			}
			if s.cut[i] {
				m.Cut(&easy)
				m.Cut(&hard)
			}
		}
	})
}

func TestTabledLightIsTheExponentialToTheLastDigits(t *testing.T) {
	var d decay
	d.fill()
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, 12).Draw(t, "x")
		if got, want := d.at(x), math.Exp(-x); math.Abs(got-want) > 1e-14 {
			t.Fatalf("exp(-%g): %g, want %g", x, got, want)
		}
	})
	if !math.IsNaN(d.at(math.NaN())) {
		t.Error("of no number it is one")
	}
}

func TestADayTriedOnACropGainsWhatItWouldGrow(t *testing.T) {
	m := Published()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeason(t, &m)
		c := s.crop
		for i := range s.days {
			was, tried := c, m.TryOn(&c)
			gain := tried.Gain(&s.days[i], s.ks[i])
			m.GrowUnder(&c, &s.days[i], s.ks[i])
			if out := was.LAI > m.LeafStart; out && math.Abs(was.FieldKg+gain-c.FieldKg) > 1e-6 {
				t.Fatalf("day %d: %g of %+v, grown to %g", i, gain, was, c.FieldKg)
			}
		}
	})
}

func TestAFullerReserveNeverGrowsLess(t *testing.T) {
	m := Published()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSeason(t, &m)
		full := m.Start(s.crop.Growth, rapid.Float64Range(s.crop.Reserve, 1).Draw(t, "fuller"), 0)
		for i := range s.days {
			m.GrowUnder(&s.crop, &s.days[i], s.ks[i])
			m.GrowUnder(&full, &s.days[i], s.ks[i])
		}
		if s.crop.KgHa > full.KgHa*(1+1e-9)+1e-9 || s.crop.Reserve > full.Reserve+1e-9 {
			t.Fatalf("from %g: %+v; from %g: %+v", s.crop.FromR, s.crop, full.FromR, full)
		}
	})
}

// The yield looks at the soil, the light and the stand, never at which cut of the year it is: two
// growths of one kind under the same weather yield the same.
func TestTheNumberOfTheCutDoesNotOccur(t *testing.T) {
	m := Published()
	d := m.day(20, 20, m.ShootsSummer)
	grown := func(before int) float64 {
		c := m.Start(First, 1, 0)
		for range before {
			m.Cut(&c)
		}
		c = m.Start(c.Growth, 1, 0)
		for range 30 {
			m.GrowUnder(&c, &d, 1)
		}
		return m.Cut(&c)
	}
	if a, b := grown(2), grown(5); a != b || a <= 0 {
		t.Errorf("the third growth gives %g kg/ha and the sixth %g", a, b)
	}
}

// A stage of the scale of Ben-Younes 1992 for seedlings, S = 12.734 log10(heat above 4.6 C) - 33.114.
// [source.GrowthStage]
func TestStageIsThePublishedLineForSeedlings(t *testing.T) {
	m := Published()
	for heat, want := range map[float64]float64{400: 0.02, 600: 2.26, 800: 3.85, 924: 4.65, 1000: 5.09} {
		if got := m.Stage(heat / m.Blooms[Seedling].CDays); math.Abs(got-want) > 0.0051 || math.Abs(got-(12.734*math.Log10(heat)-33.114)) > 0.001 {
			t.Errorf("%g C-days: stage %.3f, want %g", heat, got, want)
		}
	}
	if m.Stage(0) != 0 || m.Stage(100) != 9 {
		t.Errorf("stage %g without heat, %g after much", m.Stage(0), m.Stage(100))
	}
}

// The published pieces one by one: leaf heat, growth by temperature, shares by day length, light by
// leaf area. [source.GrowthLight], [source.GrowthLeafT]
func TestThePiecesAreAsPublished(t *testing.T) {
	m := Published()
	near := func(what string, got, want, tol float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s: %g, want %g", what, got, want)
		}
	}
	for _, c := range [][2]float64{{0, 0}, {5, 2.8}, {10, 6.3}, {15, 9.8}, {20, 14.8}, {25, 19.8}, {32, 24.8}} {
		near("leaf heat", m.leafHeat(c[0]), c[1], 1e-9)
	}
	for _, c := range [][2]float64{{-3, 0}, {3, 0.35}, {6, 0.60}, {10, 0.9333}, {15, 1.35}, {18, 1.6}, {25, 1.6}, {28, 1.28}, {34, 0.64}, {45, 0}} {
		near("growth a MJ", m.rue(c[0]), c[1], 5e-5)
	}
	for _, c := range [][2]float64{{11.9, 0.90}, {12.6, 0.785}, {13.5, 0.67}} {
		near("shoots in spring", m.shoots(c[0], true), c[1], 1e-9)
	}
	for _, c := range [][2]float64{{15, 0.67}, {13, 0.5633}, {12.5, 0.4567}, {11.8, 0.35}} {
		near("shoots in fall", m.shoots(c[0], false), c[1], 5e-5)
	}
	for _, c := range [][2]float64{{0.05, 0.0454}, {0.5, 0.3719}, {1, 0.6054}, {2, 0.8443}, {3, 0.9386}, {5, 0.9904}} {
		near("light caught", m.Cover(&Crop{LAI: c[0]}), c[1], 5e-5)
	}
	for _, c := range [][2]float64{{0, 32}, {2, 28.41}, {3, 23.88}, {4, 20.49}, {5, 18.24}, {6, 17.13}, {8, 17.0}} {
		near("protein", m.CP(c[0]), c[1], 0.0051)
	}
}

// BenchmarkSeason is one stand through 210 days of growth with water and four cuts: 8 microseconds is
// the most it may take, and nothing is allocated.
func BenchmarkSeason(b *testing.B) {
	m := Published()
	place, soil := m.NewPlace(43.1, false), m.SoilOf(m.UsualTAWMM)
	var days []Day
	for j := 90; j < 300; j++ {
		mean := 8.5 + 14.3*math.Sin(2*math.Pi*float64(j-107)/365)
		days = append(days, place.Day(j, mean+5.5, mean-5.5, 3))
	}
	b.ReportAllocs()
	var sum float64
	for b.Loop() {
		c := m.Start(First, 1, 0)
		for i := range days {
			m.Grow(&c, &soil, &days[i])
			if i == 56 || i == 89 || i == 121 || i == 154 {
				sum += m.Cut(&c)
			}
		}
	}
	if !(sum > 0) {
		b.Fatal("nothing grew")
	}
}
