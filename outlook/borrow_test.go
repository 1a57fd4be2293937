package outlook

import (
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

// county is a farm each for readings of given heights, read the day before, and one that was not read.
func county(date unit.Day, heights []float64, east []float64) *book.View {
	v := &book.View{Date: date}
	for i := range len(heights) + 1 {
		h := 0.0
		if i < len(heights) {
			h = heights[i]
		}
		f := oneStand(date, h).Farms[0]
		f.Name = string(rune('A' + i))
		f.Fields[0].Latitude, f.Fields[0].Longitude = 43, -89
		if i < len(heights) {
			f.Fields[0].Longitude += east[i]
		}
		v.Farms = append(v.Farms, f)
	}
	return v
}

func TestBorrowingIsLessSureThanReading(t *testing.T) {
	date := unit.DateOf(2026, 5, 28)
	skies := map[string]*Sky{"ZZT00000001": NewSky(record(12, 0), date, SkyOptions{})}
	rapid.Check(t, func(t *rapid.T) {
		heights := rapid.SliceOfN(rapid.Float64Range(16, 40), 2, 14).Draw(t, "heights")
		east := rapid.SliceOfN(rapid.Float64Range(0, 1), len(heights), len(heights)).Draw(t, "east")
		o, err := Build(county(date, heights, east), skies)
		if err != nil {
			t.Fatal(err)
		}
		unread := o.Stands[len(heights)]
		st := unread.Standing
		if st == nil || !st.Borrowed || st.From[0].Name != BasisNeighbours {
			t.Fatalf("not borrowed: %+v", st)
		}
		b := st.From[0]
		if b.N != min(len(heights), mostLenders) || len(o.Lent(unread)) != b.N {
			t.Fatalf("%d fields of %d, %d named", b.N, len(heights), len(o.Lent(unread)))
		}
		if b.SD < leastSpread || st.SDNDF < leastSpread {
			t.Fatalf("± %.2f NDF borrowed, ± %.2f with heat, where fields differ by %.1f at least", b.SD, st.SDNDF, leastSpread)
		}
		low, high := o.Stands[0].Standing.From[0].NDF, o.Stands[0].Standing.From[0].NDF
		for _, s := range o.Stands[:len(heights)] {
			own := s.Standing
			if own.SDNDF >= st.SDNDF || own.SD >= st.SD && own.RFV <= st.RFV {
				t.Fatalf("read ± %.2f NDF, borrowed ± %.2f", own.SDNDF, st.SDNDF)
			}
			low, high = min(low, own.From[0].NDF), max(high, own.From[0].NDF)
		}
		if b.NDF < low-1e-9 || b.NDF > high+1e-9 {
			t.Fatalf("NDF %.2f borrowed from fields of %.2f to %.2f at one station", b.NDF, low, high)
		}
	})
}

func TestFieldsThatDifferMoreLendLess(t *testing.T) {
	date := unit.DateOf(2026, 5, 28)
	skies := map[string]*Sky{"ZZT00000001": NewSky(record(12, 0), date, SkyOptions{})}
	spread := func(heights ...float64) float64 {
		o, err := Build(county(date, heights, make([]float64, len(heights))), skies)
		if err != nil {
			t.Fatal(err)
		}
		return o.Stands[len(heights)].Standing.From[0].SD
	}
	if alike, apart := spread(25, 26, 27, 26), spread(12, 36, 14, 38); alike >= apart {
		t.Errorf("± %.2f from fields alike, ± %.2f from fields apart", alike, apart)
	}
}

func TestHeatBetweenStationsShiftsWhatIsLent(t *testing.T) {
	date := unit.DateOf(2026, 5, 28)
	cool, warm := record(12, 0), record(12, 0)
	for d := unit.DateOf(2026, 3, 1); d < date; d++ {
		i, _ := warm.Index(d)
		for _, x := range [][]float64{warm.TMaxF, warm.TMinF} {
			x[i] += 1
		}
	}
	ndf := func(unread string) float64 {
		v := county(date, []float64{25, 26, 27}, []float64{0, 0, 0})
		v.Farms[3].Fields[0].Station = unread
		o, err := Build(v, map[string]*Sky{"ZZT00000001": NewSky(cool, date, SkyOptions{}), "warm": NewSky(warm, date, SkyOptions{})})
		if err != nil {
			t.Fatal(err)
		}
		return o.Stands[3].Standing.From[0].NDF
	}
	if a, b := ndf("ZZT00000001"), ndf("warm"); b <= a {
		t.Errorf("NDF %.2f at the lenders' station, %.2f at a warmer one", a, b)
	}
}

func TestWhoLends(t *testing.T) {
	date := unit.DateOf(2026, 5, 28)
	skies := map[string]*Sky{"ZZT00000001": NewSky(record(12, 0), date, SkyOptions{})}
	grass := 0.5
	for name, change := range map[string]func(*book.StandView){
		"grass": func(s *book.StandView) {
			s.Visits = append(s.Visits, book.Dated[book.Visit]{Day: date, Body: book.Visit{Grass: &grass}})
		},
		"red clover":         func(s *book.StandView) { s.Crop = book.RedClover },
		"second cut":         func(s *book.StandView) { s.Cuts = []book.Dated[book.Cut]{{Day: date - 5, Body: book.Cut{Number: 1}}} },
		"seeded this year":   func(s *book.StandView) { s.Seeded = unit.DateOf(2026, 4, 10) },
		"read nine days ago": func(s *book.StandView) { s.Visits[0].Day = date - 9 },
	} {
		v := county(date, []float64{25, 26, 27, 28}, make([]float64, 4))
		change(v.Farms[0].Fields[0].Stands[0])
		o, err := Build(v, skies)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range o.Lent(o.Stands[4]) {
			if l == o.Stands[0] {
				t.Errorf("%s: lends to pure alfalfa in first growth", name)
			}
		}
		if n := o.Stands[4].Standing.From[0].N; n != 3 {
			t.Errorf("%s: %d fields lend, want 3", name, n)
		}
	}
}
