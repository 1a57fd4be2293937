package main

import (
	"bufio"
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"haywarden/book/store"
	"haywarden/office"
	"haywarden/weather/csvdaily"
	"haywarden/weather/intake"
)

// crashes is how often a process is killed: a few times in each run of the tests, and as often as
// HAYWARDEN_CRASHES says before a release.
func crashes(t *testing.T) int {
	t.Helper()
	s := os.Getenv("HAYWARDEN_CRASHES")
	if s == "" {
		return 20
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 {
		t.Fatalf("HAYWARDEN_CRASHES=%s: want a number of crashes, 1 or more", s)
	}
	return n
}

// acknowledged is what a child said before it died: the last number after each word, -1 where it never
// said the word.
type acknowledged struct{ copied, done int }

// killed runs a child until a moment after its first word, kills it without warning, and returns what it
// had said by then.
func killed(t *testing.T, kind, dir string, after time.Duration) acknowledged {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	child := exec.CommandContext(t.Context(), self, dir)
	child.Env = append(os.Environ(), childEnv+"="+kind)
	var complaints bytes.Buffer
	child.Stderr = &complaints
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	said := acknowledged{-1, -1}
	lines := bufio.NewScanner(out)
	for first := true; lines.Scan(); first = false {
		if first {
			time.AfterFunc(after, func() {
				if err := child.Process.Kill(); err != nil {
					t.Errorf("kill the child: %v", err)
				}
			})
		}
		word, number, _ := strings.Cut(lines.Text(), " ")
		n, err := strconv.Atoi(number)
		if err != nil {
			t.Fatalf("the child says %q", lines.Text())
		}
		switch word {
		case "copied":
			said.copied = n
		case "done":
			said.done = n
		default:
			t.Fatalf("the child says %q", lines.Text())
		}
	}
	if err := child.Wait(); complaints.Len() > 0 || err == nil || child.ProcessState.Exited() {
		t.Fatalf("the child ended by itself: %v: %s", err, complaints.Bytes())
	}
	return said
}

// What a command said it did is kept, whatever happens next; what it did not come to say is there whole, or
// not at all; and the book opens and is sound.
func TestWhatACommandSaidItDidOutlivesAKill(t *testing.T) {
	bring, upgrade, fresh := t.TempDir(), t.TempDir(), t.TempDir()
	d := &desk{t: t, book: filepath.Join(bring, "a.book")}
	d.must("book", "new")
	d.must("import", "stands", d.file("s.csv", standsHead+"Alder Run,Home Forty,40,alfalfa,2022-04-20,ZZT00000000\n"))
	layOutOlder(t, filepath.Join(upgrade, "old.book"))
	kinds := []struct {
		name, dir string
		check     func(t *testing.T, dir string, said acknowledged)
	}{{"bring", bring, checkBrought}, {"upgrade", upgrade, checkUpgraded}, {"bring", bring, checkBrought}, {"new", fresh, checkMade}}
	const seed = 20260519
	random := rand.New(rand.NewPCG(seed, 3))
	for round := range crashes(t) {
		kind := kinds[round%len(kinds)]
		after := time.Duration(random.IntN(150_000)) * time.Microsecond
		if !t.Run(fmt.Sprintf("%s, round %d, killed after %s", kind.name, round+1, after), func(t *testing.T) {
			kind.check(t, kind.dir, killed(t, kind.name, kind.dir, after))
		}) {
			return // the folders carry over, and so would the fault
		}
	}
}

func checkBrought(t *testing.T, dir string, said acknowledged) {
	d := &desk{t: t, book: filepath.Join(dir, "a.book")}
	d.sound()
	there, err := changesOf(d.book)
	if err != nil {
		t.Fatal(err)
	}
	if there != said.done+1 && there != said.done+2 { // one may have been under way
		t.Fatalf("%d changes are there, %d were acknowledged", there, said.done+1)
	}
	db, err := store.Open(t.Context(), d.book, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	checkWeather(t, db, there)
	checkVisits(t, office.New(db, time.Now, rand.NewChaCha8([32]byte{})), there)
}

// checkWeather demands of both stations the years that the changes so far make, and no other.
func checkWeather(t *testing.T, db *store.DB, there int) {
	t.Helper()
	newest := map[int]int{} // by year, the number of the last file that told it
	for n := 0; n < there; n += 2 {
		first, last := yearsIn(n)
		for y := first; y <= last; y++ {
			newest[y] = n
		}
	}
	told := map[int]map[string][]byte{} // by file, the years of each station
	for _, n := range newest {
		if told[n] != nil {
			continue
		}
		told[n] = map[string][]byte{}
		readings, err := intake.Read(strings.NewReader(weatherFile(n)), "w", unitDay(t, "2026-01-01"), intake.Options{Units: csvdaily.Metric})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range readings {
			for _, b := range r.Blocks {
				told[n][fmt.Sprint(b.Station, b.Year)] = b.Encode()
			}
		}
	}
	for station := range 2 {
		id := fmt.Sprintf("ZZT0000000%d", station)
		blocks, err := db.Weather(t.Context(), id, time.Time{})
		if err != nil {
			t.Fatal(err)
		}
		if len(blocks) != len(newest) {
			t.Errorf("%s: %d years, want %d", id, len(blocks), len(newest))
		}
		for _, b := range blocks {
			if !bytes.Equal(b.Encode(), told[newest[b.Year]][fmt.Sprint(id, b.Year)]) {
				t.Errorf("%s: %d is not as file %d told it", id, b.Year, newest[b.Year])
			}
		}
		if imports, err := db.Imports(t.Context(), id); err != nil || len(imports) != (there+1)/2 {
			t.Errorf("%s: %d imports, %v; want %d", id, len(imports), err, (there+1)/2)
		}
	}
}

// checkVisits demands all visits of each file that was brought, and no other.
func checkVisits(t *testing.T, o *office.Office, there int) {
	t.Helper()
	s, err := o.Stand(t.Context(), adviser(), "Home Forty", office.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	want, got := map[string]int{}, map[string]int{}
	for n := 1; n < there; n += 2 {
		want[fmt.Sprintf("change %d of %d", n, visitsIn(n))] = visitsIn(n)
	}
	for _, v := range s.Stand.Visits {
		got[v.Body.Note]++
	}
	for note, n := range want {
		if got[note] != n {
			t.Errorf("%s: %d visits, want %d", note, got[note], n)
		}
	}
	if len(got) != len(want) {
		t.Errorf("visits of %d files, want %d", len(got), len(want))
	}
}

func checkUpgraded(t *testing.T, dir string, said acknowledged) {
	for i := range said.copied + 1 {
		d := &desk{t: t, book: numbered(dir, i)}
		copies, err := filepath.Glob(d.book + ".before-v*")
		if err != nil {
			t.Fatal(err)
		}
		if i <= said.done && len(copies) == 0 {
			t.Errorf("book %d was upgraded and there is no copy from before", i)
		}
		d.holdsOlder()
		if i == said.copied { // the only one that a kill can have met
			for _, c := range copies {
				if !strings.Contains(c, ".part") {
					(&desk{t: t, book: c}).holdsOlder()
				}
			}
			if left, err := filepath.Glob(d.book + "*.part*"); err != nil || len(left) > 0 {
				t.Errorf("left behind: %q, %v", left, err)
			}
		}
	}
	sweep(t, dir)
}

func checkMade(t *testing.T, dir string, said acknowledged) {
	books, err := filepath.Glob(filepath.Join(dir, "n??????.book"))
	if err != nil {
		t.Fatal(err)
	}
	if len(books) != said.done+1 && len(books) != said.done+2 {
		t.Errorf("%d books are there, %d were acknowledged", len(books), said.done+1)
	}
	for i, b := range books {
		d := &desk{t: t, book: b}
		if out := d.must("book", "show"); !strings.Contains(out, fmt.Sprintf("\nRegion %d, guide of Wisconsin\n", i)) {
			t.Errorf("book %d is %q", i, out)
		}
		d.sound()
	}
	sweep(t, dir)
}

// clear removes the numbered books of a folder.
func sweep(t *testing.T, dir string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "n*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if err := os.Remove(f); err != nil {
			t.Error(err)
		}
	}
}
