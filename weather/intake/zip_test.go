package intake

import (
	"archive/zip"
	"bytes"
	"errors"
	"strings"
	"testing"

	"haywarden/weather"
)

// zipped packs files, given as name and content in turn.
func zipped(tb testing.TB, files ...string) []byte {
	tb.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for i := 0; i < len(files); i += 2 {
		f, err := w.Create(files[i])
		if err != nil {
			tb.Fatal(err)
		}
		if _, err := f.Write([]byte(files[i+1])); err != nil {
			tb.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

const plainCSV = "# station: HILL\ndate,tmax_f\n2023-06-01,78\n"

func TestAllWeatherInAZipFileIsRead(t *testing.T) {
	dly := string(file(t, "ghcn", "testdata", "sample.dly"))
	data := zipped(t, "a/sample.dly", dly, "b.csv", plainCSV, "readme.txt", "Dear Sir,\n", "__MACOSX/._b.csv", "\x00", ".DS_Store", "\x00")
	r, err := Read(bytes.NewReader(data), "all.zip", today, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r) != 2 || r[0].Station.ID != "USC00999999" || r[1].Station.ID != "HILL" {
		t.Fatalf("%d readings", len(r))
	}
	f := r[1].Report.File
	if f.Name != "all.zip: b.csv" || f.Format != "plain daily CSV, zip" || f.Size != int64(len(data)) || !strings.Contains(strings.Join(f.Notes, "\n"), "passed over in the zip file: readme.txt") {
		t.Errorf("%+v", f)
	}
}

func TestAZipFileIsTakenWholeOrNotAtAll(t *testing.T) {
	good := zipped(t, "b.csv", plainCSV)
	damaged := bytes.Clone(good)
	damaged[len("PK")+40] ^= 0xff
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"cut off":             {good[:len(good)-10], "damaged or cut off"},
		"damaged":             {damaged, "all.zip"},
		"no weather":          {zipped(t, "readme.txt", "Dear Sir,\n"), "holds no weather file"},
		"nothing":             {zipped(t), "the form of the file is not known"},
		"one file wrong":      {zipped(t, "a.csv", plainCSV, "b.csv", "cow,milk\n1,2\n"), "all.zip: b.csv: the form of the file is not known"},
		"one line wrong":      {zipped(t, "a.csv", plainCSV, "b.csv", "# station: B\ndate,tmax_f\nx,1\n"), "all.zip: b.csv: line 3"},
		"a station twice":     {zipped(t, "a.csv", plainCSV, "b.csv", plainCSV), "stands in two of its files, a.csv and b.csv"},
		"a zip in a zip":      {zipped(t, "a.zip", string(good)), "packed twice"},
		"an empty file in it": {zipped(t, "a.csv", ""), "the file is empty"},
	} {
		r, err := Read(bytes.NewReader(c.data), "all.zip", today, Options{})
		var refused *weather.Refusal
		if !errors.As(err, &refused) || r != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %d readings and %v, want %q", name, len(r), err, c.want)
		}
	}
}

func TestAZipFileThatUnpacksWithoutEndIsRefused(t *testing.T) {
	left := int64(100)
	data := zipped(t, "a.csv", plainCSV, "b.csv", "# station: B\n"+strings.Repeat("# x\n", 500)+"date,tmax_f\n2023-06-01,78\n")
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := inside(archive.File[0], "bomb.zip", &left, today, Options{}); err != nil {
		t.Fatal(err)
	}
	if _, _, err := inside(archive.File[1], "bomb.zip", &left, today, Options{}); err == nil || !strings.Contains(err.Error(), "larger than") {
		t.Errorf("%v: what was unpacked before counts too", err)
	}
}
