package main

import (
	"path/filepath"
	"strings"
	"testing"

	"haywarden/book/store/storetest"
)

// One setting takes the book from a file to a database: the same records give the same bytes.
func TestOneSettingTakesTheBookToPostgreSQL(t *testing.T) {
	address, file := storetest.PostgreSQL(t), filepath.Join(t.TempDir(), "larkmoor.book")
	for _, place := range []string{file, address} {
		_, done, err := makeDemo(t.Context(), place, demoDay)
		if err != nil {
			t.Fatal(err)
		}
		if err := done(); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("HAYWARDEN_BOOK", file)
	stations, _, _ := say(t, "weather", "show")
	station, _, _ := strings.Cut(stations, " ")
	for _, command := range []string{
		"round --json --date 2026-05-19", "round --json --date 2026-09-08 --known 2026-09-01", "weather show --json " + station,
	} {
		answers := map[string]string{}
		for _, place := range []string{file, address} {
			t.Setenv("HAYWARDEN_BOOK", place)
			out, complaint, code := say(t, strings.Fields(command)...)
			if code != exitOK {
				t.Fatalf("%s in %s: exit %d: %s", command, place, code, complaint)
			}
			answers[place] = out
		}
		if answers[file] != answers[address] || len(answers[file]) < 1000 {
			t.Errorf("%s: %d bytes from SQLite and %d from PostgreSQL, or other bytes", command, len(answers[file]), len(answers[address]))
		}
	}
}

func TestADatabaseIsABookLikeAnyOther(t *testing.T) {
	address := storetest.PostgreSQL(t)
	t.Setenv("HAYWARDEN_BOOK", address)
	must := func(args ...string) string {
		t.Helper()
		out, complaint, code := say(t, args...)
		if code != exitOK {
			t.Fatalf("%v: exit %d: %s", args, code, complaint)
		}
		return out
	}
	if _, complaint, code := say(t, "round"); code != exitFailure || !strings.Contains(complaint, "`haywarden book new`") {
		t.Errorf("without a book: exit %d, %q", code, complaint)
	}
	must("book", "new", "--region", "Test counties")
	if _, complaint, code := say(t, "book", "new"); code != exitFailure || !strings.Contains(complaint, "something here already") {
		t.Errorf("a second time: exit %d, %q", code, complaint)
	}
	d := &desk{t: t}
	stands := d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,USC00999999\n")
	for _, w := range []string{"3 added", "Nothing changed"} {
		if out := must("import", "stands", stands); !strings.Contains(out, w) {
			t.Errorf("the stands: %q, want %q", out, w)
		}
	}
	for _, w := range []string{"Stored: ", "Nothing changed"} {
		if out := must("weather", "import", sampleDLY); !strings.Contains(out, w) {
			t.Errorf("the weather: %q, want %q", out, w)
		}
	}
	before := must("book", "show")
	if _, complaint, code := say(t, "weather", "import", d.file("bad.csv", dailyHead+"ZZT00000001,T,2099-07-01,0.0,20.0,10.0\n"), "--units", "metric"); code != exitFailure || !strings.Contains(complaint, "line 2") {
		t.Errorf("a bad file: exit %d, %q", code, complaint)
	}
	if after := must("book", "show"); after != before || !strings.Contains(after, "1 farm, 1 stand growing, 1 station with weather") {
		t.Errorf("the book before %q and after %q", before, after)
	}
}
