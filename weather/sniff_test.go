package weather

import (
	"os"
	"strings"
	"testing"
)

func TestFormsAreToldByTheirHead(t *testing.T) {
	read := func(name string) string {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(b[:min(len(b), SniffLength)])
	}
	for _, c := range []struct {
		name, head string
		want       Format
	}{
		{"fixed width", read("ghcn/testdata/sample.dly"), FormatFixedWidth},
		{"one value of fixed width", "USC00999999202306TMIN  122  7", FormatFixedWidth},
		{"fixed width after empty lines", "\r\n\r\nUSC00999999202306TMIN-9999   ", FormatFixedWidth},
		{"by station", read("ghcn/testdata/sample_by_station.csv"), FormatByStation},
		{"by station with a header", "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG\nUSC00999999,20230601,TMIN,122,,,7,", FormatByStation},
		{"by station, cut to four fields", "USC00999999,20230601,TMIN,122", FormatByStation},
		{"quoted daily CSV", read("csvdaily/testdata/metric.csv"), FormatDailyCSV},
		{"semicolons", read("csvdaily/testdata/semicolons_bom.csv"), FormatDailyCSV},
		{"UTF-16", read("csvdaily/testdata/utf16_tabs.csv"), FormatDailyCSV},
		{"the look-alike, which the reader refuses by name", read("csvdaily/testdata/summary_of_the_day.csv"), FormatDailyCSV},
		{"a header without station", "date,tmax\n", FormatPlainCSV},
		{"units in the header", "Station;Date;Tmax (°C);Rain (mm)\n", FormatPlainCSV},
		{"comments above the header", "# station: X\n# units: tmax=F\nday,high\n", FormatPlainCSV},
		{"year, month and day", "year,month,day,tmax_f\n2023,1,1,40\n", FormatPlainCSV},
		{"a pixel after free text", "Latitude: 43.10  Longitude: -89.40\nTile: 11565\nyear,yday,dayl (s),prcp (mm/day),tmax (deg c)\n", FormatGridded},
		{"a pixel with dates", "date,tmmx (K),tmmn (K),pr (mm)\n", FormatGridded},
		{"hours", "date,pressure,temperature,wind\n2010-01-01T01:00:00,1016.6,4.0,3.8\n", FormatHourly},
		{"hours from midnight on", "station,valid,temp_f\nX,2023-01-01 00:00,1\nX,2023-01-01 00:53,1\n", FormatHourly},
		{"hours in a column", "date,hour,temp_f\n", FormatHourly},
		{"days with a midnight that says nothing", "date,tmax_f\n2023-01-01 00:00:00,1\n", FormatPlainCSV},
		{"gzip", "\x1f\x8b\x08\x00", FormatGzip},
		{"zip", "PK\x03\x04", FormatZip},
		{"nothing", "", FormatUnknown},
		{"blank lines", "\n \n", FormatUnknown},
		{"a letter", "Dear Sir,\nplease find my weather", FormatUnknown},
		{"a table of something else", "field,acres,seeded\n1,20,2021\n", FormatUnknown},
		{"a date and something else", "date,acres\n", FormatUnknown},
		{"a picture", "\x89PNG\r\n\x1a\n", FormatUnknown},
	} {
		if got := Sniff([]byte(c.head)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func TestARefusalNamesFileAndLines(t *testing.T) {
	one := Refuse("a.csv", "no column %s", "DATE")
	if got := one.Error(); got != "read a.csv: no column DATE; nothing was taken in" {
		t.Error(got)
	}
	many := &Refusal{File: "a.csv", Issues: []Issue{{3, "x"}, {5, "y"}}, Found: 7}
	want := "read a.csv: 7 lines are wrong, nothing was taken in\n  line 3: x\n  line 5: y\n  and 5 more"
	if got := many.Error(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if strings.Contains(many.Issues[0].String(), "0") {
		t.Error(many.Issues[0])
	}
}
