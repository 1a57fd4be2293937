package chart

import (
	"fmt"
	"math"
	"time"
)

func day(m time.Month, d int) Day { return Date(2026, m, d) }

// hump is a growth from one day to another, slow, fast, slow, up to a share of the tallest.
func hump(from, to Day, tall float64) Cycle {
	var c Cycle
	for d := from; d < to; d += 3 {
		t := float64(d-from) / float64(to-from)
		c = append(c, Height{d, tall * (1 - math.Cos(math.Pi*math.Pow(t, 0.85))) / 2})
	}
	return append(c, Height{to, tall})
}

func meadow() Strip {
	return Strip{
		Today: day(5, 19),
		Cycles: []Cycle{
			hump(day(4, 6), day(5, 21), 0.95), hump(day(5, 23), day(6, 20), 0.8),
			hump(day(6, 22), day(7, 24), 0.7), hump(day(7, 26), day(8, 31), 0.6), hump(day(9, 2), day(10, 12), 0.3),
		},
		Windows: []CutWindow{
			{day(5, 19), day(5, 21), day(5, 24), "first cut"}, {day(6, 16), day(6, 20), day(6, 25), "second"},
			{day(7, 19), day(7, 24), day(7, 31), "third"}, {day(8, 27), day(8, 31), day(9, 4), "last"},
		},
		Rest:   Span{day(9, 1), day(10, 12)},
		Frost:  day(10, 14),
		Visits: []Day{day(4, 22), day(5, 2), day(5, 6), day(5, 10), day(5, 13), day(5, 17)},
	}
}

func framed(s Strip, f Frame) Strip { s.Frame = f; return s }

func larger(s Strip, w, h float64) Strip {
	s.Labels = true
	return framed(s, Frame{w, h, "The year of Long Meadow", "First cut about 21 May (19 to 24 May), three more expected; rest from 1 September to 12 October."})
}

func oldStand() Strip {
	return Strip{
		Frame: Frame{Title: "Kiln Forty", Desc: "One cut about 22 May, then corn."},
		Today: day(5, 19), Cycles: []Cycle{hump(day(4, 8), day(5, 22), 0.8)},
		Windows: []CutWindow{{day(5, 19), day(5, 22), day(5, 30), "only cut"}}, Visits: []Day{day(5, 12)},
	}
}

// late is a season seen in August: two cuts are made.
func late() Strip {
	s := meadow()
	s.Frame = Frame{Title: "Below the Elms", Desc: "Two cuts made, the third about 24 July."}
	s.Today = day(7, 12)
	s.Cuts = []Day{day(5, 22), day(6, 21)}
	s.Windows = []CutWindow{{day(7, 18), day(7, 24), day(7, 31), "third"}, {day(8, 25), day(8, 31), day(9, 6), "last"}}
	s.Visits = append(s.Visits, day(6, 14), day(7, 9))
	return s
}

func seeding() Strip {
	return Strip{
		Frame: Frame{Title: "Upper Ley", Desc: "To be seeded in August."}, Today: day(5, 19),
		Cycles: []Cycle{hump(day(8, 10), day(10, 10), 0.45)}, Rest: Span{day(9, 20), day(10, 14)}, Frost: day(10, 14), Visits: []Day{day(4, 3)},
	}
}

func fan(w, h float64) Fan {
	f := Fan{
		Frame: Frame{w, h, "Standing feed value of Long Meadow", "From 232 on 2 May it fell to 180 on 17 May; it passes 170 about 21 May."},
		First: day(4, 30), Last: day(6, 5), Today: day(5, 19), Unit: "RFV",
		Levels: []Level{{170, "cut at 170"}, {150, "150 at the cow"}},
		Dry:    []Span{{day(5, 21), day(5, 23)}},
	}
	for _, r := range [][2]float64{{2, 232}, {6, 215}, {10, 203}, {13, 193}, {17, 180}} {
		f.Readings = append(f.Readings, Reading{day(5, int(r[0])), r[1], r[1] - 14, r[1] + 14})
	}
	for i := range 20 {
		mid, sd := 180-3.6*float64(i)+0.03*float64(i*i), 11+0.5*float64(i)
		f.Ahead = append(f.Ahead, Chance{day(5, 17+i), mid - 1.28*sd, mid - 0.67*sd, mid, mid + 0.67*sd, mid + 1.28*sd})
	}
	return f
}

func clock(w, h float64) Clock {
	c := Clock{
		Frame: Frame{w, h, "Heat above 48 °F since 1 March", "By 19 May 390 degree-days, eight days ahead of the usual season."},
		First: day(3, 1), Last: day(6, 15), Today: day(5, 19), Unit: "degree-days above 48 °F",
		Events: []Event{{day(4, 26), 198, "eggs hatch"}, {day(5, 12), 322, "small larvae"}, {day(5, 25), 444, "worst feeding"}, {day(6, 5), 561, "pupae"}},
	}
	for i := range 107 {
		t := float64(i) / 106
		mid := 660 * math.Pow(t, 2.2)
		c.Past = append(c.Past, Usual{c.First + Day(i), mid * 0.82, mid, mid * 1.2})
		if d := c.First + Day(i); d <= c.Today {
			c.Season = append(c.Season, Sum{d, mid * 1.11})
		}
	}
	return c
}

// field is a four-sided field of about so many miles, turned a little.
func field(name string, lon, lat, miles, turn float64, role Role, rank int) Site {
	var ring []LonLat
	for i := range 4 {
		a := turn + math.Pi/4 + float64(i)*math.Pi/2
		ring = append(ring, LonLat{lon + miles/100*1.25*math.Cos(a), lat + miles/138*math.Sin(a)})
	}
	return Site{Name: name, Rings: [][]LonLat{append(ring, ring[0])}, Role: role, Rank: rank}
}

func district(w float64) Map {
	return Map{
		Frame: Frame{Width: w, Title: "Where the stands lie", Desc: "Two stands to call today lie in the west, beside the river road."},
		Sites: []Site{
			field("Long Meadow", -89.42, 43.31, 0.5, 0.15, Best, 1), field("Kiln Forty", -89.405, 43.312, 0.45, -0.1, Best, 2),
			field("Below the Elms", -89.415, 43.2985, 0.6, 0.05, InWindow, 3), field("Mill Lot", -89.385, 43.31, 0.55, 0.1, Growing, 0),
			field("Upper Ley", -89.369, 43.308, 0.3, 0.2, Growing, 0), field("The Hundred", -89.389, 43.296, 0.65, -0.05, InWindow, 4),
			field("Orchard Piece", -89.372, 43.298, 0.35, 0.1, Growing, 0), field("Saltlick", -89.363, 43.2985, 0.3, 0, Growing, 0),
			{Name: "Home farm", At: LonLat{-89.398, 43.305}, Role: Grown},
		},
	}
}

func bar(early, best, late Day, words string) Window {
	return Window{Frame: Frame{Title: "Window", Desc: words}, First: day(5, 18), Last: day(6, 14), Early: early, Best: best, Late: late, Likely: Span{best - 1, best + 1}, Today: day(5, 19)}
}

// life is a stand from seeding to turn-under: a year weighed in part, potassium drawn down, lime.
func life(w float64) LifeLine {
	on := func(y int, m time.Month, d int) Day { return Date(y, m, d) }
	return LifeLine{
		Frame: Frame{Width: w, Title: "The life of Kiln Forty", Desc: "Six years from seeding; stems fell from 68 to 34 and potassium from 148 to 96 ppm."},
		First: on(2021, 1, 1), Last: on(2026, 12, 31), Today: on(2026, 5, 19),
		Marks: []LifeMark{{on(2021, 4, 27), "seeded"}, {on(2026, 6, 8), "turned under"}},
		Tracks: []LifeTrack{
			{Name: "Yield", Unit: "tons of dry matter an acre", Bars: true, Points: []LifePoint{{on(2022, 7, 1), 5.4, false}, {on(2023, 7, 1), 5.1, true}, {on(2024, 7, 1), 4.4, false}, {on(2025, 7, 1), 3.8, false}}},
			{Name: "Stems", Unit: "a square foot", Target: 40, Points: []LifePoint{{on(2022, 5, 2), 68, false}, {on(2024, 4, 29), 52, false}, {on(2025, 5, 1), 45, false}, {on(2026, 4, 28), 34, false}}},
			{Name: "Potassium", Unit: "ppm by Mehlich 3", Target: 120, Points: []LifePoint{{on(2020, 10, 20), 160, false}, {on(2021, 10, 20), 148, false}, {on(2024, 10, 20), 96, false}, {on(2026, 5, 1), 90, true}}},
			{Name: "Water pH", Points: []LifePoint{{on(2021, 10, 20), 6.8, false}, {on(2024, 10, 20), 6.5, false}}},
		},
	}
}

func stems(w float64) Interval {
	return Interval{
		Frame: Frame{Width: w, Title: "Stems a square foot in Kiln Forty", Desc: "34, between 29 and 39: below 40."},
		Mean:  34, Low: 29, High: 39, Thresholds: []float64{40, 55}, Zones: []string{"turn under", "watch", "keep"},
		Spots: []float64{24, 31, 33, 36, 29, 41, 38, 35, 30, 43}, Unit: "stems a square foot",
	}
}

// record is a record of 35 years with a gap, some filled, and a few values that failed.
func record(w float64) Record {
	r := Record{Frame: Frame{Width: w, Title: "How whole the record is", Desc: "35 years, 98 of 100 days known; the summer of 2001 is missing."}}
	for y := 1992; y <= 2026; y++ {
		var year RecordYear
		year.Year = y
		for m := range year.Months {
			month := RecordMonth{Days: 30, Observed: 1}
			switch {
			case y == 2001 && m >= 5 && m <= 7:
				month.Observed = 0
			case y == 2001 && m == 8:
				month.Observed, month.Filled = 0.4, 0.6
			case (y*12+m)%37 == 0:
				month.Observed, month.Filled, month.Failed = 0.95, 0.05, 1
			case (y*12+m)%53 == 0:
				month.Observed = 0.9
			case y == 2026 && m > 4:
				month = RecordMonth{}
			}
			year.Months[m] = month
		}
		r.Years = append(r.Years, year)
	}
	return r
}

func freezes(w float64) Spreads {
	return Spreads{
		Frame: Frame{Width: w, Title: "First freeze of fall", Desc: "24 °F about 26 October, 8 years in 10 between 11 October and 9 November."},
		First: day(9, 1), Last: day(11, 30), Today: day(9, 20),
		Days: []Spread{
			{"32 °F", day(9, 18), day(9, 30), day(10, 14), day(9, 27), day(10, 3)},
			{"28 °F", day(9, 29), day(10, 13), day(10, 27), day(10, 9), day(10, 16)},
			{"24 °F", day(10, 11), day(10, 26), day(11, 9), day(10, 22), day(10, 30)},
			{"20 °F", day(10, 25), day(11, 15), 0, day(11, 10), day(11, 22)},
		},
	}
}

func losses(w float64) Staircase {
	return Staircase{
		Frame: Frame{Width: w, Title: "Feed value from field to cow", Desc: "176 standing, 150 stored; most is lost in raking."},
		Steps: []Step{{Label: "standing", Value: 176}, {Label: "mown", Value: 174}, {Label: "cured", Value: 168}, {Label: "raked", Value: 160}, {Label: "baled", Value: 154}, {Label: "stored", Value: 150}}, Unit: "RFV",
	}
}

func toBunk(w float64) Staircase {
	return Staircase{
		Frame: Frame{w, 260, "Dry matter from the standing crop to the bunk", "Of 4 tonnes a hectare 2.57 (2.3 to 2.8) are eaten, 64 %; rain takes most."},
		Steps: []Step{
			{"standing", 4, 0, 0}, {"mown", 3.92, 3.72, 3.96}, {"breathed", 3.79, 3.54, 3.87}, {"rained on", 3.43, 3.12, 3.75}, {"raked", 3.26, 2.91, 3.6},
			{"baled", 3.03, 2.68, 3.38}, {"stored", 2.68, 2.36, 3.04}, {"eaten", 2.57, 2.27, 2.92},
		},
		Unit: "t/ha of dry matter", Shares: true,
	}
}

// samples are the drawings of the sample page and of the golden files.
func samples() map[string]Drawing {
	out := map[string]Drawing{
		"strip-1":          framed(meadow(), Frame{Title: "Long Meadow", Desc: "First cut about 21 May."}),
		"strip-2":          oldStand(),
		"strip-3":          late(),
		"strip-4":          seeding(),
		"strip-large":      larger(meadow(), 1184, 150),
		"strip-mid":        larger(meadow(), 660, 150),
		"strip-late":       larger(late(), 1184, 150),
		"strip-narrow":     larger(meadow(), 350, 165),
		"months":           Months{First: day(3, 1), Last: day(11, 30)},
		"window-1":         bar(day(5, 19), day(5, 21), day(5, 24), "19 May to 24 May, best 21 May"),
		"window-2":         bar(day(5, 19), day(5, 22), day(5, 30), "19 May to 30 May, best 22 May"),
		"window-3":         bar(day(5, 15), day(6, 2), day(6, 28), "15 May to 28 June, best 2 June"),
		"fan":              fan(632, 320),
		"fan-narrow":       fan(350, 260),
		"clock":            clock(632, 300),
		"clock-narrow":     clock(350, 260),
		"map":              district(480),
		"map-narrow":       district(350),
		"record":           record(1184),
		"record-narrow":    record(350),
		"spreads":          freezes(480),
		"spreads-narrow":   freezes(350),
		"interval":         stems(480),
		"interval-narrow":  stems(350),
		"life":             life(640),
		"life-narrow":      life(350),
		"staircase":        losses(460),
		"staircase-narrow": losses(350),
		"bunk":             toBunk(632),
		"bunk-narrow":      toBunk(350),
		"chances":          chances(480),
		"chances-narrow":   chances(350),
		"stores":           larders(632),
		"stores-narrow":    larders(350),
		"lasting":          lasting(560),
		"lasting-narrow":   lasting(350),
		"outcomes":         outcomes(480),
		"outcomes-narrow":  outcomes(350),
		"week": Week{
			Frame: Frame{Title: "The week ahead", Desc: "Thursday to Saturday are likely to dry hay."},
			Days: []Forecast{
				{day(5, 19), 72, 51, 0.05, false, 0.4}, {day(5, 20), 75, 52, 0.02, false, 0.3}, {day(5, 21), 77, 54, 0, true, 0.1}, {day(5, 22), 79, 56, 0, true, 0.1},
				{day(5, 23), 80, 58, 0.02, true, 0.2}, {day(5, 24), 74, 57, 0.62, false, 0.8}, {day(5, 25), 68, 50, 0.3, false, 0.6},
			},
		},
	}
	for i, k := range StripKeys() {
		out[fmt.Sprintf("key-strip-%d", i)] = k
	}
	for i, k := range FanKeys() {
		out[fmt.Sprintf("key-fan-%d", i)] = k
	}
	return out
}

// larders are stores of every shape, one fed to its last and one untouched.
func larders(width float64) Stores {
	return Stores{Frame: Frame{Width: width, Title: "In store", Desc: "Seven stores; the third-crop bag lasts two weeks."}, All: []Store{
		{"north tower", TowerStore, 0.3, 0.4, 0.5, "47 of 118 tons", "9 weeks", true}, {"second crop bunker", BunkerStore, 0.22, 0.31, 0.4, "46 of 172 tons", "11 weeks", true},
		{"drive-over pile by the road", PileStore, 0.8, 0.95, 1.1, "95 of 100 tons", "closed", true}, {"third crop bag", BagStore, 0, 0.12, 0.22, "9 of 79 tons", "2 weeks", false},
		{"heifer hay", BaleStore, 0.4, 0.45, 0.5, "24 of 59 tons", "21 weeks", true}, {"rained-on bales", BaleStore, 0.95, 1, 1.05, "18 tons", "nobody eats it", false},
		{"nothing measured", BunkerStore, math.NaN(), math.NaN(), math.NaN(), "", "measure it", false},
	}}
}

// lasting is feed by quality against the day on which the next crop is opened.
func lasting(width float64) Lasting {
	return Lasting{
		Frame: Frame{Width: width, Title: "Feed by quality", Desc: "Good haylage runs out on 30 June, eight days after the next crop is opened; in the low case before."},
		Today: day(5, 19), Until: day(6, 22), UntilSays: "next crop opened",
		All: []Lasts{{"RFQ 140 and over", day(6, 10), day(6, 30), day(7, 24)}, {"RFQ 115 and over", day(5, 19), day(5, 19), day(5, 25)}, {"corn silage", day(9, 14), day(11, 4), Date(2027, 7, 1)}},
	}
}

// outcomes are readings against what had been expected of them, one of them outside.
func outcomes(width float64) Outcomes {
	o := Outcomes{Frame: Frame{Width: width, Title: "Read again", Desc: "Five of six readings fell within what was expected."}, Unit: "RFV"}
	for i, found := range []float64{217, 205, 188, 171, 139, 150} {
		d := day(5, 7+3*(i/2))
		mid := 215 - 11*float64(i)
		o.All = append(o.All, Outcome{Label: "Long Meadow", Day: d, Low: mid - 22, Middle: mid, High: mid + 25, Found: found})
	}
	return o
}

// chances are those of haymaking over ten days, as the page shows them, rain coming on the fourth.
func chances(width float64) Chances {
	c := Chances{Frame: Frame{Width: width, Title: "Hay days ahead", Desc: "Hay mown on Tuesday is made in 78 of 100."}}
	for i := range 10 {
		c.Days = append(c.Days, day(5, 19+i))
	}
	c.Things = []ChanceRow{
		{"Haylage, within 2 days", []float64{0.95, 0.9, 0.62, 0.1, 0.3, 0.7, 0.74, 0.75, 0.8, 1}},
		{"Dry hay, within 4 days", []float64{0.78, 0.55, 0.2, 0, 0.12, 0.4, 0.52, 0.55, 0.6, 0.64}},
	}
	return c
}
