package exchange_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/book"
	"haywarden/exchange"
)

func TestAHerdIsReadAsFarmsWriteIt(t *testing.T) {
	const file = "Farm,Date,Pen,Animals,Head,Weight,Milk kg,Fat,DIM,Forage,Legume pct,Corn silage,Yield,Storage loss pct,Target\n" +
		"Alder Run,2026-05-01,High,Cows,80,680 kg,40.82,3.8%,120,50%,45,0.5,,,early-cows\n" +
		"alder run,1 May 2026,Dry,dry cows,15,1600,,,,0.85,25%,,,,\n" +
		"Alder Run,2026-05-01,alfalfa,forage,,,,,,,,,4.5 tons/ac,12,\n"
	got, err := exchange.ReadHerds(strings.NewReader(file), "h.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := []exchange.HerdRow{{Row: 2, Farm: "Alder Run", Day: day(t, "2026-05-01"), Herd: book.Herd{
		Groups: []book.Group{
			{Name: "High", Kind: book.Lactating, Head: 80, WeightLb: 1499.14, MilkLb: 89.99, Fat: 3.8, DaysInMilk: 120, ForageShare: 0.5, LegumeShare: 0.45, SilageShare: 0.5, Target: "early-cows"},
			{Name: "Dry", Kind: book.DryCows, Head: 15, WeightLb: 1600, ForageShare: 0.85, LegumeShare: 0.25},
		},
		Crops: []book.ForageCrop{{Forage: "legume", Yield: 4.5, Storage: 0.12}},
	}}}
	if diff := cmp.Diff(want, got.Herds); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestBadHerdsAreRefusedWithRowColumnAndRange(t *testing.T) {
	const head = "farm,group,kind,head,weight,milk,fat,days_in_milk,forage_share,legume_share\n"
	refused(t, func(file string) error {
		_, err := exchange.ReadHerds(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"header alone", head, []string{"the file has a header and no rows"}},
		{"half an animal", head + "A,high,cows,80.5,1500,90,3.8,120,0.5,0.4\n", []string{`row 2, head: "80.5": a whole number wanted`}},
		{"a calf's weight", head + "A,high,cows,80,15,90,3.8,120,0.5,0.4\n", []string{`row 2, weight: "15": accepted 80 to 2600 lb`}},
		{"no milk of cows in milk", head + "A,high,cows,80,1500,,3.8,120,0.5,0.4\n", []string{`row 2, milk: milk is missing: a lactating group wants it, 1 to 200 lb a head and day`}},
		{"animals of no kind", head + "A,high,goats,80,1500,,,,0.5,0.4\n", []string{`row 2, kind: "goats": accepted lactating, dry, heifer, forage`}},
		{"a share over the whole", head + "A,high,heifers,80,900,,,,1.5,0.4\n", []string{`row 2, forage_share: "1.5": accepted 0 to 1, or 0% to 100% with the sign`}},
		{"a group twice", head + "A,one,heifers,80,900,,,,0.8,0.4\na,One,heifers,80,900,,,,0.8,0.4\n", []string{`row 3, group: "One": the herd has it in row 2; take one out`}},
		{"a forage of no name", head + "A,oats,forage,,,,,,,\n", []string{`row 2, group: "oats": a row of kind forage names legume, corn silage or other here`}},
		{"empty cells", head + "A,,heifers,,,,,,,\n", []string{"4 things are wrong, nothing was taken in", "row 2, group: is empty; each row says it", "row 2, head: is empty; 0 to 100000 animals wanted", "row 2, weight: is empty; a group wants it", "row 2, forage_share: is empty; a group wants it"}},
	})
}

func TestMachinesCrewAndBusyDaysAreOneList(t *testing.T) {
	const file = "farm,machine,kind,width,efficiency,price,salvage,years,hours_year,power,crew_hours,from,to\n" +
		"Alder Run,green mower,disc mower,12,85%,45000,13500,8,120,120,,,\n" +
		"Alder Run,rake,rake,6 m,,,,,,,,,\n" +
		"Alder Run,crew,crew,,,,,,,,9,,\n" +
		"Alder Run,corn planting,busy,,,,,,,,,2026-05-05,2026-05-16\n" +
		"Fox Hill,baler,round-baler,8,,,,,,,,,\n"
	got, err := exchange.ReadMachines(strings.NewReader(file), "m.csv")
	if err != nil {
		t.Fatal(err)
	}
	want := []exchange.MachineRow{
		{Row: 2, Farm: "Alder Run", Kit: book.Machines{
			Machines: []book.Machine{
				{Name: "green mower", Kind: "rotary-mower-conditioner", WidthFt: 12, Efficiency: 0.85, Price: 45000, Salvage: 13500, Years: 8, HoursYear: 120, PowerHP: 120},
				{Name: "rake", Kind: "rake", WidthFt: 19.69},
			},
			CrewHours: 9, Busy: []book.Busy{{What: "corn planting", From: day(t, "2026-05-05"), To: day(t, "2026-05-16")}},
		}},
		{Row: 6, Farm: "Fox Hill", Kit: book.Machines{Machines: []book.Machine{{Name: "baler", Kind: "round-baler", WidthFt: 8}}}},
	}
	if diff := cmp.Diff(want, got.Farms); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestBadMachinesAreRefusedWithRowColumnAndRange(t *testing.T) {
	const head = "farm,machine,kind,width,speed,price,salvage,crew_hours,from,to\n"
	refused(t, func(file string) error {
		_, err := exchange.ReadMachines(strings.NewReader(file), "f.csv")
		return err
	}, []refusal{
		{"header alone", head, []string{"the file has a header and no rows"}},
		{"too wide", head + "A,m,rake,400,,,,,,\n", []string{`row 2, width: "400": accepted 0.5 to 100 ft`}},
		{"no width", head + "A,m,rake,,,,,,,\n", []string{"row 2, width: is empty; 0.5 to 100 ft wanted"}},
		{"of no kind", head + "A,m,rakes,9,,,,,,\n", []string{`row 2, kind: "rakes": accepted ` + strings.Join(book.MachineKinds(), ", ") + `, crew, busy; did you mean rake?`}},
		{"worth more at the end", head + "A,m,rake,9,,5000,9000,,,\n", []string{`row 2, salvage: "9000": salvage 9000 is over the price: accepted 0 to 5000 $`}},
		{"a day of 30 hours", head + "A,c,crew,,,,,30,,\n", []string{`row 2, crew_hours: "30": accepted 0.5 to 24 hours a day`}},
		{"two crews", head + "A,c,crew,,,,,8,,\nA,d,crew,,,,,9,,\n", []string{`row 3, crew_hours: "9": the farm has a crew in another row; take one out`}},
		{"busy backwards", head + "A,corn,busy,,,,,,2026-05-09,2026-05-01\n", []string{`row 2, to: "2026-05-01": to 2026-05-01 is before from 2026-05-09`}},
		{"a machine twice", head + "A,m,rake,9,,,,,,\nA,M,rake,9,,,,,,\n", []string{`row 3, machine: "M": the farm has it in row 2; take one out`}},
	})
}

func FuzzReadHerds(f *testing.F) {
	f.Add([]byte("farm,group,kind,head,weight,milk,fat,days_in_milk,forage_share\nA,h,cows,8,680 kg,90,3.8,120,50%\nA,legume,forage,,,,,,\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadHerds(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, h := range got.Herds {
			if err := h.Herd.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

func FuzzReadMachines(f *testing.F) {
	f.Add([]byte("farm,machine,kind,width,efficiency,crew_hours,from,to\nA,m,rake,9,80%,,,\nA,c,crew,,,8,,\nA,corn,busy,,,,2026-05-01,2026-05-09\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadMachines(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, m := range got.Farms {
			if err := m.Kit.Check(); err != nil {
				t.Errorf("took what the book refuses: %v", err)
			}
		}
	})
}

func TestFeedInStoreIsReadByWhatARowSays(t *testing.T) {
	head := "farm,lot,date,store,fields,cutting,width_m,length,wall,density kg m3,density_by,bales,bale_weight,weighed,rfq,left_tons,left_bales,removed,fed,group\n"
	got, err := exchange.ReadFeedLots(strings.NewReader(head+
		"A,bunk,2026-06-02,bunker,Home; Back,1,12,30 m,8,240,packing,,,,150,,,,,\n"+
		"A,hay,2026-06-12,barn,,,,,,,,80,500 kg,yes,,,,,,\n"+
		"A,bunk,2026-07-01,,,,,,,,,,,,,,,12,900 lb/day,cows\n"), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	bunk, hay, look := got.Rows[0], got.Rows[1], got.Rows[2]
	if s := bunk.Put.Size; s.Width != 39.37 || s.Length != 98.43 || s.Density != 14.98 || s.By != "packing" || bunk.Put.Forage != "legume" || len(bunk.Fields) != 2 || bunk.Fields[1] != "Back" {
		t.Errorf("bunker %+v from %q", *bunk.Put.Size, bunk.Fields)
	}
	if b := hay.Put.Bales; hay.Put.Store != "inside" || b.WeighLb != 1102.31 || !b.Weighed {
		t.Errorf("hay %+v of %+v", *hay.Put, *b)
	}
	if look.Put != nil || *look.Left.Removed != 12 || look.Fed.LbDay != 900 || look.Fed.Group != "cows" {
		t.Errorf("look %+v", look)
	}
	for row, want := range map[string]string{
		"A,x,2026-06-02,silo,,,,,,,,,,,,,,,,\n":       "store",
		"A,x,2026-06-02,,,,,,,,,,,,,,,,,\n":           "nothing is left or fed",
		"A,x,2026-06-02,bag,,,,,,,,80,,,,,,,,\n":      "bales",
		"A,x,2026-06-02,bag,,,,,,,,,,,900,,,,,\n":     "rfq",
		"A,x,2026-06-02,,,,,,,,,,,,,3,4,,,\n":         "one way",
		"A,x,2026-06-02,,,,,,,,,,,,,,,,-4,\n":         "fed",
		"A,x,2026-06-02,bag,,,,,,9000,,,,,,,,,,\n":    "density",
		",x,2026-06-02,bag,,,,,,,,,,,,,,,,\n":         "farm",
		"A,,2026-06-02,bag,,,,,,,,,,,,,,,,\n":         "lot",
		"A,x,2 June,bag,,,,,,,,,,,,,,,,\n":            "date",
		"A,x,2026-06-02,bag,,,,,,,guessed,,,,,,,,,\n": "density_by",
		"A,x,2026-06-02,inside,,,,40,,,,,,,,,,,,\n":   "holds bales",
	} {
		if _, err := exchange.ReadFeedLots(strings.NewReader(head+row), "f.csv"); err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "row 2") {
			t.Errorf("%q: %v, want row 2 and %q", row, err, want)
		}
	}
}

func FuzzReadFeedLots(f *testing.F) {
	f.Add([]byte("farm,lot,date,store,length,diameter,density,bales,bale_weight,left_tons,removed,fed,group\nA,x,2026-06-01,bag,150,9,12.5,,,,,,\nA,x,2026-06-09,,,,,,,,20,900,cows\nA,h,2026-06-01,barn,,,,80,500 kg,,,,\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := exchange.ReadFeedLots(strings.NewReader(string(data)), "f.csv")
		if err != nil {
			sound(t, err)
			return
		}
		for _, r := range got.Rows {
			if r.Put == nil && r.Left == nil && r.Fed == nil {
				t.Errorf("row %d says nothing and was taken", r.Row)
			}
			for _, b := range []book.Body{r.Put, r.Left, r.Fed} {
				if b == (*book.FeedLot)(nil) || b == (*book.LotLeft)(nil) || b == (*book.LotFed)(nil) {
					continue
				}
				if err := b.Check(); err != nil {
					t.Errorf("took what the book refuses: %v", err)
				}
			}
		}
	})
}
