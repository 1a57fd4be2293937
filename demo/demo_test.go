package demo

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/book"
	"haywarden/weather"
)

var update = flag.Bool("update", false, "write the golden file anew")

func made(t testing.TB, seed uint64) District {
	t.Helper()
	d, err := Make(seed)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// bytesOf are all bytes of a district.
func bytesOf(t *testing.T, d District) []byte {
	t.Helper()
	out, err := json.Marshal(struct {
		Place    book.Place
		Stations []weather.Station
		Facts    []book.Fact
	}{d.Place, d.Stations, d.Facts})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range d.Weather {
		out = fmt.Appendf(out, "%s %d %s", w.Block.Station, w.Block.Year, w.Received.Format(time.RFC3339))
		out = append(out, w.Block.Encode()...)
	}
	return out
}

func TestSameSeedGivesSameBytes(t *testing.T) {
	one, two := bytesOf(t, made(t, Seed)), bytesOf(t, made(t, Seed))
	if string(one) != string(two) {
		t.Fatal("two districts of one seed differ")
	}
	if string(one) == string(bytesOf(t, made(t, Seed+1))) {
		t.Fatal("another seed gives the same district")
	}
	sum := sha256.Sum256(one)
	got := hex.EncodeToString(sum[:]) + "\n"
	golden := filepath.Join("testdata", "district.sha256")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if runtime.GOARCH != "amd64" {
		return // other processors may fuse a product and a sum, and round a last digit otherwise
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the district is not the one committed: %s; run the test with -update if that is meant", got)
	}
}

func TestEveryFactPassesTheDoorOfTheBook(t *testing.T) {
	for _, seed := range seeds {
		d := made(t, seed)
		byID := map[string]book.Fact{}
		for i, f := range d.Facts {
			if err := f.Valid(unit.DayOf(f.Received)); err != nil {
				t.Errorf("seed %d: %v", seed, err)
			}
			if _, twice := byID[f.ID]; twice {
				t.Errorf("seed %d: id %s is used twice", seed, f.ID)
			}
			byID[f.ID] = f
			if i > 0 && f.Received.Before(d.Facts[i-1].Received) {
				t.Errorf("seed %d: fact %d was received before the one ahead of it", seed, i)
			}
			if f.Day.Year() > 2026 || f.Received.Year() > 2027 {
				t.Errorf("seed %d: a record of %s received %s lies beyond the story", seed, f.Day, f.Received)
			}
			if f.Supersedes == "" {
				continue
			}
			old, ok := byID[f.Supersedes]
			if !ok {
				t.Errorf("seed %d: fact %s corrects one that was not received before it", seed, f.ID)
			} else if err := f.Corrects(old); err != nil {
				t.Errorf("seed %d: %v", seed, err)
			}
		}
	}
}

func TestTheBookCanBeReadOnEverySeventhDay(t *testing.T) {
	d := made(t, Seed)
	far := unit.DateOf(2030, time.January, 1).Time()
	for date := unit.DateOf(2025, time.January, 1); date <= unit.DateOf(2027, time.December, 31); date += 7 {
		for _, known := range []time.Time{date.Time().Add(breakfast), far} {
			v, err := book.Project(d.Facts, date, known)
			if err != nil {
				t.Fatalf("%s, as known %s: %v", date, known, err)
			}
			if n := len(v.Stands()); len(v.Farms) != 12 || len(v.Stations) != 3 || n < 41 || n > 46 {
				t.Errorf("%s: %d farms, %d stations, %d stands growing", date, len(v.Farms), len(v.Stations), n)
			}
		}
	}
}

// view is the book of the demo's own seed on a day, all received.
func view(t *testing.T, d District, date unit.Day) *book.View {
	t.Helper()
	v, err := book.Project(d.Facts, date, unit.DateOf(2030, time.January, 1).Time())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestTheDistrictHasItsFarmsStandsAndKinds(t *testing.T) {
	d := made(t, Seed)
	v := view(t, d, springMark)
	if n := len(v.Stands()); n != 46 {
		t.Errorf("%d stands grow on %s, want 46", n, springMark)
	}
	crops, ages := map[book.Crop]int{}, map[int]int{}
	for _, s := range v.Stands() {
		crops[s.Crop]++
		ages[2026-s.Seeded.Year()]++
		if s.FeedRFV == 0 || s.Product == "" || s.Variety == "" {
			t.Errorf("%s: feed RFV %g, product %q, variety %q", s.Named(), s.FeedRFV, s.Product, s.Variety)
		}
	}
	want := map[book.Crop]int{book.Alfalfa: 26, book.ReducedLignin: 5, book.RedClover: 5, book.AlfalfaGrass: 10}
	if diff := cmp.Diff(want, crops); diff != "" {
		t.Errorf("stands by crop (-want +got):\n%s", diff)
	}
	for age := range 7 {
		if ages[age] == 0 {
			t.Errorf("no stand seeded %d years ago", age)
		}
	}
	kinds := map[book.Kind]int{}
	for _, f := range d.Facts {
		kinds[f.Kind]++
	}
	wantKinds := map[book.Kind]int{
		book.KindFarm: 12, book.KindContact: 17, book.KindConsent: 60, book.KindField: 47, book.KindStand: 53,
		book.KindStation: 3, book.KindPrices: 4, book.KindHerd: 3, book.KindMachines: 2, book.KindCaution: 2, book.KindSoilTest: 51, book.KindTissue: 3, book.KindApplication: 6, book.KindSeeding: 1, book.KindSoilGuides: 4, book.KindCall: 11, book.KindEvent: 2, book.KindPlace: 1,
	}
	for k, n := range wantKinds {
		if kinds[k] != n {
			t.Errorf("%d facts of kind %s, want %d", kinds[k], k, n)
		}
	}
	for k, least := range map[book.Kind]int{book.KindVisit: 120, book.KindCut: 250, book.KindLab: 40} {
		if kinds[k] < least {
			t.Errorf("%d facts of kind %s, want %d at least", kinds[k], k, least)
		}
	}
}

func TestFieldsLieApartAroundTheirStation(t *testing.T) {
	d := made(t, Seed)
	v := view(t, d, springMark)
	var fields []*book.FieldView
	for _, f := range v.Farms {
		fields = append(fields, f.Fields...)
	}
	for i, a := range fields {
		k := slices.IndexFunc(d.Stations, func(s weather.Station) bool { return s.ID == a.Station })
		if k < 0 {
			t.Fatalf("%s: station %s is not in the book", a.Name, a.Station)
		}
		if s := d.Stations[k]; distance(a.Latitude, a.Longitude, s.Latitude, s.Longitude) > 12 {
			t.Errorf("%s lies more than 12 miles from %s", a.Name, s.Name)
		}
		for _, b := range fields[i+1:] {
			if miles := distance(a.Latitude, a.Longitude, b.Latitude, b.Longitude); miles < 0.2 {
				t.Errorf("%s and %s lie %.2f miles apart", a.Name, b.Name, miles)
			}
		}
	}
}

func BenchmarkMake(b *testing.B) {
	for b.Loop() {
		made(b, Seed)
	}
}
