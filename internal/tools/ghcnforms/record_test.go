package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/weather"
	"haywarden/weather/ghcn"
)

// The converter must give, byte for byte, the forms in which the Milwaukee record is kept.
func TestMilwaukeeInBothForms(t *testing.T) {
	dir := os.Getenv("HAYWARDEN_DATA")
	if dir == "" {
		t.Skip("HAYWARDEN_DATA is not set: the Milwaukee record (GHCN-Daily USW00014839) is not committed; set it to the folder that holds weather_milwaukee_1971_2020.csv")
	}
	in := filepath.Join(dir, "weather_milwaukee_1971_2020.csv")
	for _, c := range []struct {
		want string
		args []string
	}{
		{"USW00014839.dly", []string{"-form", "fixed"}},
		{"USW00014839_2016_2020.csv", []string{"-form", "by-station", "-from", "2016", "-elements", "TMAX,TMIN,PRCP"}},
	} {
		want, err := os.ReadFile(filepath.Join(dir, c.want))
		if err != nil {
			t.Fatal(err)
		}
		var got bytes.Buffer
		if err := run(append(c.args, "-id", "USW00014839", in), nil, &got); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got.Bytes(), want) {
			t.Errorf("%s: %d bytes written, %d wanted, or they differ", c.want, got.Len(), len(want))
		}
	}
}

const twoMonths = `date,tmax_c,tmin_c,prcp_mm,snow_mm,snwd_mm
2020-02-28,1.1,-2.2,0.0,0,25
2020-02-29,,-17.8,25.4,254,279
2020-03-01,-0.5,-4.4,,,
`

func TestFormsAsTheArchiveDefinesThem(t *testing.T) {
	missing := func(n int) string { return strings.Repeat("-9999   ", n) }
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"fixed width, one line a month and element, missing days and days past the month's end -9999", []string{"-elements", "TMIN,PRCP"},
			"USC00999999202002PRCP" + missing(27) + "    0  W  254  W" + missing(2) + "\n" +
				"USC00999999202002TMIN" + missing(27) + "  -22  W -178  W" + missing(2) + "\n" +
				"USC00999999202003TMIN  -44  W" + missing(30) + "\n"},
		{"by station, one line a day and element, missing days left out", []string{"-form", "by-station", "-elements", "TMAX,SNOW"},
			"USC00999999,20200228,TMAX,11,,,W,2400\nUSC00999999,20200228,SNOW,0,,,W,2400\n" +
				"USC00999999,20200229,SNOW,254,,,W,2400\nUSC00999999,20200301,TMAX,-5,,,W,2400\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got strings.Builder
			if err := run(append(c.args, "-id", "USC00999999"), strings.NewReader(twoMonths), &got); err != nil {
				t.Fatal(err)
			}
			if got.String() != c.want {
				t.Errorf("got\n%s\nwant\n%s", got.String(), c.want)
			}
		})
	}
}

// What is written must come back from the readers as the same days.
func TestBothFormsReadBackAlike(t *testing.T) {
	read := map[string][]weather.Reading{}
	for form, reader := range map[string]func(b *bytes.Buffer) ([]weather.Reading, error){
		"fixed": func(b *bytes.Buffer) ([]weather.Reading, error) {
			return ghcn.FixedWidth(b, "a", unit.DateOf(2026, 1, 1))
		},
		"by-station": func(b *bytes.Buffer) ([]weather.Reading, error) {
			return ghcn.ByStation(b, "a", unit.DateOf(2026, 1, 1))
		},
	} {
		var b bytes.Buffer
		if err := run([]string{"-form", form, "-id", "USC00999999"}, strings.NewReader(twoMonths), &b); err != nil {
			t.Fatal(err)
		}
		r, err := reader(&b)
		if err != nil {
			t.Fatal(err)
		}
		read[form] = r
	}
	a, b := read["fixed"][0].Blocks, read["by-station"][0].Blocks
	if len(a) != 1 || len(b) != 1 || !a[0].Equal(b[0]) {
		t.Fatalf("fixed width and by-station forms of one record differ")
	}
	if v := a[0].On(unit.DateOf(2020, 2, 29)).Value; v != [5]int16{weather.Missing, -178, 254, 254, 279} {
		t.Errorf("29 February 2020 reads %v", v)
	}
}

func TestWhatCannotBeConvertedIsRefused(t *testing.T) {
	for _, c := range []struct{ name, in, args, want string }{
		{"an ID of the wrong length", twoMonths, "-id USC9", "11 letters"},
		{"a form that does not exist", twoMonths, "-id USC00999999 -form xml", "fixed or by-station"},
		{"an element that is not kept", twoMonths, "-id USC00999999 -elements TOBS", "TOBS"},
		{"an element without a column", "date,tmin_c\n2020-01-01,1\n", "-id USC00999999 -elements TMAX", "tmax_c"},
		{"a file without a date", "day,tmin_c\n2020-01-01,1\n", "-id USC00999999", "date"},
		{"a date of another country", "date,tmin_c\n01/02/2020,1\n", "-id USC00999999", "line 2"},
		{"days out of order", "date,tmin_c\n2020-01-02,1\n2020-01-01,1\n", "-id USC00999999", "line 3"},
		{"more decimals than the archive keeps", "date,tmin_c\n2020-01-02,1.25\n", "-id USC00999999", "1 decimals"},
		{"a value that means missing", "date,snwd_mm\n2020-01-02,-9999\n", "-id USC00999999", "line 2"},
		{"an empty file", "", "-id USC00999999", "header"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			err := run(strings.Fields(c.args), strings.NewReader(c.in), &out)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want an error with %q", err, c.want)
			}
		})
	}
}
