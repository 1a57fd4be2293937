package main

import (
	"strings"
	"testing"
)

func TestStationsNearAPlaceAreListed(t *testing.T) {
	d := newDesk(t)
	stations := d.file("s.txt", "USC00999999  43.0700  -89.4000  262.1 WI HILL FARM\nUSC00999998  43.5000  -89.4000 -999.9 WI CÔTÉ FERME 2 N\n")
	inventory := d.file("i.txt", "USC00999999  43.0700  -89.4000 TMAX 1950 2025\nUSC00999998  43.5000  -89.4000 TOBS 1990 2025\n")
	near := func(args ...string) string {
		out, complaint, code := say(t, args...)
		if code != exitOK {
			t.Fatalf("%v: exit %d: %s", args, code, complaint)
		}
		return out
	}
	refused := func(want int, words []string, args ...string) {
		out, complaint, code := say(t, args...)
		for _, w := range words {
			if code != want || out != "" || !strings.Contains(complaint, w) {
				t.Errorf("%v: exit %d, %q, %q; want exit %d and %q", args, code, out, complaint, want, w)
			}
		}
	}
	out := near("weather", "near", "43.07", "-89.50", "--stations", stations, "--elevation", "800 ft")
	for _, w := range []string{"USC00999999  5.0", "860", "+60", "not known", "CÔTÉ FERME 2 N, WI"} {
		if !strings.Contains(out, w) {
			t.Errorf("%q is not in\n%s", w, out)
		}
	}
	out = near("weather", "near", "43.07,-89.50", "--stations", stations, "--inventory", inventory)
	if !strings.Contains(out, "1950-2025  none  none") || strings.Contains(out, "USC00999998") {
		t.Errorf("with an inventory:\n%s", out)
	}
	if js := near("weather", "near", "43.07", "-89.50", "--stations", stations, "--inventory", inventory, "--json"); !strings.Contains(js, `"first": 1950`) {
		t.Error(js)
	}
	refused(exitUsage, []string{"latitude -90 to 90"}, "weather", "near", "95", "-89.5", "--stations", stations)
	refused(exitUsage, []string{"--stations FILE"}, "weather", "near", "43", "-89.5")
	refused(exitFailure, []string{"i.txt", "columns 32-37"}, "weather", "near", "43", "-89.5", "--stations", inventory)
}

func TestSeveralFilesAreTakenOneByOne(t *testing.T) {
	d := newDesk(t)
	good := d.file("good.csv", "date,tmax_f,rain_in\n2023-06-01,78,T\n")
	bad := d.file("bad.csv", "date,tmax\n2023-06-01,78\n")
	code, out, complaint := d.run("weather", "import", bad, good, "--station", "HILL")
	if code != exitPartial || !strings.Contains(out, "Stored: 1 year new") || !strings.Contains(complaint, "read bad.csv: header: column tmax has no unit declared") {
		t.Errorf("exit %d, %q, %q", code, out, complaint)
	}
	if out := d.must("weather", "show"); !strings.Contains(out, "\nHILL ") {
		t.Errorf("stations: %q", out)
	}
	d.fails(exitFailure, []string{"none of 2 files"}, "weather", "import", bad, bad, "--station", "HILL")
	out = d.must("weather", "import", bad, "--station", "HILL", "--unit", "tmax=F", "--name", "Hügel", "--place", "43.07,-89.40", "--elevation", "860 ft")
	if !strings.Contains(out, "HILL  Hügel\n  place   43.0700, -89.4000, 262 m") {
		t.Error(out)
	}
	hours := "date,temp_f\n"
	for h := range strings.FieldsSeq("00 01 02 03 04 05 06 07 08 09 10 11 12 13 14 15 16 17 18 19 20 21 22 23") {
		hours += "2023-06-01 " + h + ":00,7" + h[1:] + "\n"
	}
	if out := d.must("weather", "import", d.file("h.csv", hours), "--station", "HOURS", "--zone", "America/Chicago"); !strings.Contains(out, "0 of 24 hours had no temperature") {
		t.Error(out)
	}
	for _, flags := range [][]string{{"--zone", "Mars"}, {"--dates", "ymd"}, {"--place", "x"}, {"--elevation", "860"}, {"--read-at", "25"}, {"--station", "a b"}} {
		d.fails(exitUsage, []string{flags[0]}, append([]string{"weather", "import", good}, flags...)...)
	}
	d.fails(exitFailure, []string{"declare the hour"}, "weather", "import", good, "--station", "HILL", "--shift-mornings")
}

func TestAStationsNameAndPlaceAreTakenFromTheArchivesList(t *testing.T) {
	d := newDesk(t)
	list := d.file("ghcnd-stations.txt", "USC00999999  43.0731  -89.4012  263.0 WI SAMPLE RIDGE                             \n")
	d.must("weather", "import", sampleDLY)
	d.must("weather", "import", sampleDLY, "--stations", list)
	out := d.must("weather", "show")
	if !strings.Contains(out, "SAMPLE RIDGE") {
		t.Errorf("after naming the list of stations:\n%s", out)
	}
	other := newDesk(t)
	other.must("weather", "import", sampleDLY, "--place", "43.07,-89.40", "--name", "Sample Ridge", "--elevation", "860 ft")
	if out := other.must("weather", "show", "USC00999999", "--json"); !strings.Contains(out, `"latitude": 43.07`) || !strings.Contains(out, "Sample Ridge") {
		t.Errorf("after naming place and name: %.600s", out)
	}
	other.fails(1, []string{"ghcnd-stations.txt", "line 1"}, "weather", "import", sampleDLY, "--stations", other.file("ghcnd-stations.txt", "not a list\n"))
}
