package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func weatherOf(tb testing.TB) (b *base, dir string) {
	tb.Helper()
	dir = os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		tb.Skip("HAYWARDEN_DATA is not set: the Milwaukee record (GHCN-Daily USW00014839) is not committed; set it to the folder that holds " + recordFile)
	}
	b, err := readBase(filepath.Join(dir, recordFile))
	if err != nil {
		tb.Fatal(err)
	}
	return b, dir
}

// Sums as computed in C, NumPy, numba, R and Octave. [source.BucketCheck]
func TestThousandFieldsAgreeWithOtherLanguages(t *testing.T) {
	b, dir := weatherOf(t)
	var h heats
	h.count(b)
	times := []timing{{what: "A", who: us, sums: h.sums()}, {what: "B", who: us, sums: drink(b).sums()}, {what: "S", who: us, sums: newSeasonBase(b).grow()}}
	for what, name := range map[string]string{"dly": dlyFile, "csv": csvFile} {
		sums, err := readStation(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		times = append(times, timing{what: what, who: us, sums: sums})
	}
	for _, wrong := range differing(times) {
		t.Error(wrong)
	}
}

func TestASumThatDiffersIsFound(t *testing.T) {
	for _, s := range subjects() {
		for i := range s.sums {
			off := append([]float64{}, s.sums...)
			off[i] *= 1 + 1e-10
			if got := differing([]timing{{s.what, cName, 1, s.sums}, {s.what, "R", 1, off}}); len(got) != 1 || !strings.Contains(got[0], "R finds") {
				t.Errorf("%s, sum %d off by 1e-10: found %q", s.what, i, got)
			}
		}
		if got := differing([]timing{{s.what, "R", 1, s.sums[1:]}}); len(got) != 1 {
			t.Errorf("%s with a sum missing: found %q", s.what, got)
		}
	}
}

func TestAKernelThatIsTooSlowIsFoundAndMayDoBetter(t *testing.T) {
	times := []timing{{"A", us, 1.6, nil}, {"B", us, 1.8, nil}, {"A", "C, cc -O3", 1, nil}, {"B", "C, cc -O3", 1, nil}, {"dly", us, 9, nil}}
	if got := slow(times); len(got) != 1 || !strings.Contains(got[0], "water") || !strings.Contains(got[0], "1.80 times") {
		t.Errorf("found %q", got)
	}
	if got := slow(faster(times, []timing{{"B", us, 1.65, nil}, {"A", us, 2, nil}})); len(got) != 0 {
		t.Errorf("after a faster run: found %q", got)
	}
}

func TestWhatAPeerPrintsIsRead(t *testing.T) {
	got, err := parse("A\tC, cc -O3\t0.5\t1\t2.5\nB\tC, cc -O3\t0.25\t3\n")
	if err != nil {
		t.Fatal(err)
	}
	want := []timing{{"A", "C, cc -O3", 0.5, []float64{1, 2.5}}, {"B", "C, cc -O3", 0.25, []float64{3}}}
	if d := cmp.Diff(want, got, cmp.AllowUnexported(timing{})); d != "" {
		t.Error(d)
	}
	for _, bad := range []string{"", "A\tR\t0.5\n", "A\tR\tfast\t1\n", "error: no such file\n"} {
		if got, err := parse(bad); err == nil {
			t.Errorf("%q reads %v", bad, got)
		}
	}
}

func TestTheTableSetsEverybodyBesideUs(t *testing.T) {
	var w strings.Builder
	table(&w, []timing{{"A", us, 0.1, nil}, {"A", "R 4", 0.25, nil}, {"B", "R 4", 1, nil}})
	want := "degree-days, 1000 fields, 30 years               best, ms  times as long\n" +
		"  Haywarden                                        100.00           1.00\n" +
		"  R 4                                              250.00           2.50\n\n"
	if d := cmp.Diff(want, w.String()); d != "" {
		t.Error(d)
	}
}

func TestAPeerThatIsNotInstalledIsNamed(t *testing.T) {
	p := peer{name: "Abacus", program: "kernels.py", tools: []string{"no-such-abacus", "nor-this"}}
	times, why, err := p.run(t.Context(), t.TempDir())
	if err != nil || times != nil || why != "no-such-abacus or nor-this is not installed" {
		t.Errorf("%v, %q, %v", times, why, err)
	}
}

func TestTheCompiledKernelsAgree(t *testing.T) {
	b, _ := weatherOf(t)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "base.csv"), []byte(b.text), 0o600); err != nil {
		t.Fatal(err)
	}
	times, why, err := peers()[0].run(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if why != "" {
		t.Skip("no C compiler: " + why)
	}
	if len(times) != 2 {
		t.Errorf("%d kernels timed, want 2", len(times))
	}
	for _, wrong := range differing(times) {
		t.Error(wrong)
	}
}

func BenchmarkHeat(b *testing.B) {
	days, _ := weatherOf(b)
	var h heats
	b.ReportAllocs()
	least := 0.
	for b.Loop() {
		if s := best(1, func() { h.count(days) }); least == 0 || s < least {
			least = s
		}
	}
	perDay(b, days, least)
}

func BenchmarkWater(b *testing.B) {
	days, _ := weatherOf(b)
	b.ReportAllocs()
	least := 0.
	for b.Loop() {
		if s := best(1, func() { drink(days) }); least == 0 || s < least {
			least = s
		}
	}
	perDay(b, days, least)
}

// perDay reports the best run, by which other languages are timed; the mean holds whatever else the
// machine did.
func perDay(b *testing.B, days *base, seconds float64) {
	b.ReportMetric(1e3*seconds, "best-ms")
	b.ReportMetric(1e9*seconds/float64(fields*len(days.year)), "best-ns/field-day")
}
