package intake

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/unit"
	"haywarden/weather"
)

var today = unit.DateOf(2026, 11, 1)

func file(tb testing.TB, path ...string) []byte {
	tb.Helper()
	b, err := os.ReadFile(filepath.Join(append([]string{".."}, path...)...))
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

func pack(tb testing.TB, b []byte) []byte {
	tb.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	if _, err := w.Write(b); err != nil {
		tb.Fatal(err)
	}
	if err := w.Close(); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

func TestEveryFormIsReadPackedOrNot(t *testing.T) {
	for _, c := range []struct {
		data   []byte
		format weather.Format
	}{
		{file(t, "ghcn", "testdata", "sample.dly"), weather.FormatFixedWidth},
		{file(t, "ghcn", "testdata", "sample_by_station.csv"), weather.FormatByStation},
		{file(t, "csvdaily", "testdata", "attributes.csv"), weather.FormatDailyCSV},
		{file(t, "csvdaily", "testdata", "utf16_tabs.csv"), weather.FormatDailyCSV},
	} {
		plain, err := Read(bytes.NewReader(c.data), "f", today, Options{})
		if err != nil {
			t.Fatal(err)
		}
		packedBytes := pack(t, c.data)
		packed, err := Read(iotest.OneByteReader(bytes.NewReader(packedBytes)), "f", today, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(plain[0].Blocks, packed[0].Blocks); d != "" {
			t.Errorf("%s: packed and plain differ:\n%s", c.format, d)
		}
		for _, x := range []struct {
			note   weather.FileNote
			bytes  []byte
			format string
		}{
			{plain[0].Report.File, c.data, string(c.format)},
			{packed[0].Report.File, packedBytes, string(c.format) + ", gzip"},
		} {
			sum := sha256.Sum256(x.bytes)
			if x.note.Size != int64(len(x.bytes)) || x.note.SHA256 != hex.EncodeToString(sum[:]) || x.note.Format != x.format {
				t.Errorf("%s: %d bytes, sum %.8s, called %q", x.format, x.note.Size, x.note.SHA256, x.note.Format)
			}
		}
	}
}

func TestWhatCannotBeReadIsRefused(t *testing.T) {
	dly := file(t, "ghcn", "testdata", "sample.dly")
	packed := pack(t, dly)
	damaged := bytes.Clone(packed)
	damaged[len(damaged)-6] ^= 0xff // in the sum at the end
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"an empty file", nil, "the file is empty"},
		{"an empty file, packed", pack(t, nil), "the file is empty"},
		{"a letter", []byte("Dear Sir,\n"), "the form of the file is not known. Read are: GHCN-Daily fixed width"},
		{"not zip after all", []byte("PK\x03\x04...."), "the zip file is damaged or cut off"},
		{"packed twice", pack(t, packed), "packed twice"},
		{"not gzip after all", []byte("\x1f\x8bnot at all"), "cannot be unpacked"},
		{"a packed file cut off", packed[:len(packed)/2], "cut off"},
		{"a packed file damaged at the end", damaged, "damaged"},
		{"a packed file with a wrong line", pack(t, append(bytes.Clone(dly), "rubbish\n"...)), "line 94: 7 columns"},
		{"a packed file with something behind it", append(bytes.Clone(packed), "and something else"...), "damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Read(bytes.NewReader(c.data), "brought.gz", today, Options{})
			var refused *weather.Refusal
			if !errors.As(err, &refused) || r != nil {
				t.Fatalf("%d readings and %v, want a refusal", len(r), err)
			}
			if !strings.Contains(err.Error(), "brought.gz") || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%q, want the file's name and %q", err, c.want)
			}
		})
	}
}

func TestAFailingDiskIsNoFaultOfTheFile(t *testing.T) {
	for _, data := range [][]byte{nil, pack(t, file(t, "ghcn", "testdata", "sample.dly"))[:600]} {
		in := iotest.TimeoutReader(iotest.OneByteReader(bytes.NewReader(append(data, bytes.Repeat([]byte{0}, 10)...))))
		_, err := Read(in, "f", today, Options{})
		var refused *weather.Refusal
		if err == nil || errors.As(err, &refused) || !errors.Is(err, iotest.ErrTimeout) {
			t.Errorf("%v, want the time-out itself", err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(file(f, "ghcn", "testdata", "sample.dly")[:2000])
	f.Add(pack(f, file(f, "csvdaily", "testdata", "semicolons_bom.csv")))
	f.Add(pack(f, file(f, "ghcn", "testdata", "sample_by_station.csv")[:2000]))
	f.Add(zipped(f, "b.csv", plainCSV, "readme.txt", "x"))
	f.Fuzz(func(t *testing.T, data []byte) {
		readings, err := Read(bytes.NewReader(data), "f", today, Options{})
		var refused *weather.Refusal
		if err != nil && (!errors.As(err, &refused) || readings != nil) {
			t.Fatalf("%d readings with %v", len(readings), err)
		}
	})
}

func TestAFileThatUnpacksWithoutEndIsRefused(t *testing.T) {
	left := int64(8)
	c := &capped{r: strings.NewReader("0123456789"), left: &left, name: "bomb.gz"}
	b := make([]byte, 6)
	if n, err := c.Read(b); n != 6 || err != nil {
		t.Fatal(n, err)
	}
	if n, err := c.Read(b); n != 0 || err == nil || !strings.Contains(err.Error(), "bomb.gz") {
		t.Errorf("%d bytes more, %v", n, err)
	}
}
