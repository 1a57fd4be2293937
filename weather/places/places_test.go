package places

import (
	"errors"
	"strings"
	"testing"

	"haywarden/weather"
)

const list = "USC00999999  43.0700  -89.4000  262.1 WI HILL FARM                      HCN 99999\n" +
	"USC00999998  43.5000  -89.4000 -999.9 WI CÔTÉ FERME 2 N\n" +
	"CA000000001 -43.0000  179.9000   10.0    FAR OFF                        GSN\n"

const inventory = "USC00999999  43.0700  -89.4000 TMAX 1950 2025\n" +
	"USC00999999  43.0700  -89.4000 TMIN 1951 2024\n" +
	"USC00999998  43.5000  -89.4000 PRCP 1990 2025\n"

func TestTheNearestStationsComeFirst(t *testing.T) {
	all, err := Stations(strings.NewReader(list), "s.txt")
	if err != nil {
		t.Fatal(err)
	}
	near := Nearest(all, 43.4, -89.4, 2, nil)
	if len(near) != 2 || near[0].Name != "CÔTÉ FERME 2 N" || near[0].ElevationKnown || near[1].ID != "USC00999999" || near[1].Elevation != 262.1 || near[1].State != "WI" {
		t.Errorf("%+v", near)
	}
	inv, err := ReadInventory(strings.NewReader(inventory), "i.txt")
	if err != nil || inv["USC00999999"]["TMIN"] != (Years{1951, 2024}) || len(inv["USC00999998"]) != 1 {
		t.Errorf("%v, %v", inv, err)
	}
	with := Nearest(all, 43.4, -89.4, 9, func(p Place) bool { _, ok := inv[p.ID]["TMAX"]; return ok })
	if len(with) != 1 || with[0].ID != "USC00999999" {
		t.Errorf("%+v", with)
	}
}

func TestOtherListsAreRefused(t *testing.T) {
	for name, text := range map[string]string{
		"nothing": "", "a letter": "Dear Sir,\n", "a latitude off the earth": strings.Replace(list, "43.0700", "93.0700", 1),
		"half written": list[:100], "the inventory": inventory, "not UTF-8": strings.Replace(list, "HILL", "H\xff", 1),
	} {
		out, err := Stations(strings.NewReader(text), "s.txt")
		var refused *weather.Refusal
		if !errors.As(err, &refused) || out != nil || !strings.Contains(err.Error(), "s.txt") {
			t.Errorf("%s: %d stations, %v", name, len(out), err)
		}
	}
	for name, text := range map[string]string{"nothing": "", "the list": list, "years turned round": strings.Replace(inventory, "1950 2025", "2025 1950", 1)} {
		if out, err := ReadInventory(strings.NewReader(text), "i.txt"); err == nil || out != nil {
			t.Errorf("%s is taken for an inventory", name)
		}
	}
}

func FuzzLists(f *testing.F) {
	f.Add(list)
	f.Add(inventory)
	f.Fuzz(func(t *testing.T, text string) {
		all, err := Stations(strings.NewReader(text), "s")
		if err == nil {
			for _, n := range Nearest(all, 43, -89, 5, nil) {
				if !(n.Miles >= 0 && n.Miles < 12500) {
					t.Fatalf("%+v", n)
				}
			}
		}
		if _, err := ReadInventory(strings.NewReader(text), "i"); err != nil && err.Error() == "" {
			t.Fatal("a refusal without a reason")
		}
	})
}
