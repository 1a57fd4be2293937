package store_test

import (
	"bufio"
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"haywarden/book/store"
	"haywarden/book/store/storetest"
	"haywarden/weather"
)

// crashes is how often a process is killed: a few times in each run of the tests, and as often as
// HAYWARDEN_CRASHES says before a release.
func crashes(tb testing.TB) int {
	tb.Helper()
	s := os.Getenv("HAYWARDEN_CRASHES")
	if s == "" {
		return 20
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 {
		tb.Fatalf("HAYWARDEN_CRASHES=%s: want a number of crashes, 1 or more", s)
	}
	return n
}

// acknowledged is what a child said before it died: the last number after each word, -1 where it never
// said the word.
type acknowledged struct{ copied, done int }

// killed runs a child until a moment after its first word, kills it without warning, and returns what it
// had said by then.
func killed(t *testing.T, kind, place string, after time.Duration) acknowledged {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	child := exec.CommandContext(t.Context(), self, place)
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
	err = child.Wait()
	if complaints.Len() > 0 || err == nil || child.ProcessState.Exited() {
		t.Fatalf("the child ended by itself: %v: %s", err, complaints.Bytes())
	}
	return said
}

// What is acknowledged is kept, whatever happens next; what is not is there whole, or not at all.
func TestAcknowledgedChangesOutliveAKill(t *testing.T) {
	// Each kind of work has its place, which all its rounds go on with, and what holds there afterwards.
	kinds := []struct {
		name  string
		place string
		check func(t *testing.T, place string, said acknowledged)
	}{
		{"append", filepath.Join(t.TempDir(), "a.book"), checkAppended},
		{"weather", filepath.Join(t.TempDir(), "a.book"), checkImported},
		{"upgrade", t.TempDir(), checkUpgraded},
		{"create", t.TempDir(), checkCreated},
	}
	firstLayout(t, filepath.Join(kinds[2].place, "old.book"))
	const seed = 20260519
	random := rand.New(rand.NewPCG(seed, 1))
	for round := range crashes(t) {
		kind := kinds[round%len(kinds)]
		after := time.Duration(random.IntN(200_000)) * time.Microsecond
		if !t.Run(fmt.Sprintf("%s, round %d, killed after %s", kind.name, round+1, after), func(t *testing.T) {
			kind.check(t, kind.place, killed(t, kind.name, kind.place, after))
		}) {
			return // the places carry over, and so would the fault
		}
	}
}

func TestAcknowledgedChangesOutliveAKillOnPostgreSQL(t *testing.T) {
	address := storetest.PostgreSQL(t)
	random := rand.New(rand.NewPCG(20260519, 2))
	for range max(3, crashes(t)/10) {
		checkAppended(t, address, killed(t, "append", address, time.Duration(random.IntN(200_000))*time.Microsecond))
	}
}

func checkAppended(t *testing.T, place string, said acknowledged) {
	db := mustOpen(t, place, store.Options{})
	mustCheck(t, db)
	facts, err := db.Facts(t.Context(), store.Filter{})
	if err != nil {
		t.Fatal(err)
	}
	batches := 0
	for ; len(facts) > 0; batches++ {
		want := batchOf(batches)
		got := facts[:min(len(facts), len(want))]
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("batch %d is not whole (-want +got):\n%s", batches, diff)
		}
		facts = facts[len(got):]
	}
	if batches != said.done+1 && batches != said.done+2 { // one may have been under way
		t.Errorf("%d batches are there, %d were acknowledged", batches, said.done+1)
	}
	if n, err := db.Revision(t.Context()); err != nil || n != int64(batches) {
		t.Errorf("revision %d, %v; want %d", n, err, batches)
	}
}

func checkImported(t *testing.T, place string, said acknowledged) {
	db := mustOpen(t, place, store.Options{})
	mustCheck(t, db)
	n, err := db.Revision(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	last := int(n) - 1
	if last != said.done && last != said.done+1 {
		t.Errorf("%d imports are there, %d were acknowledged", last+1, said.done+1)
	}
	for station := range 3 {
		name := fmt.Sprintf("S%d", station)
		records, err := db.Imports(t.Context(), name)
		if err != nil {
			t.Fatal(err)
		}
		if want := (last-station)/3 + 1; last >= station && len(records) != want {
			t.Errorf("%s: %d imports are recorded, want %d", name, len(records), want)
		}
		// The last import, and the one before it by its own time.
		for _, upTo := range []int{last, last - 1} {
			got, err := db.Weather(t.Context(), name, clock().Add(time.Duration(upTo)*time.Second))
			if err != nil {
				t.Fatal(err)
			}
			want := expectedWeather(station, upTo)
			if !slices.EqualFunc(want, got, func(a, b *weather.Block) bool { return a.Equal(b) }) {
				t.Errorf("%s: the weather after import %d is not what the imports up to then make", name, upTo)
			}
		}
	}
}

func checkUpgraded(t *testing.T, dir string, said acknowledged) {
	n, err := nextOf(dir)
	if err != nil {
		t.Fatal(err)
	}
	if n <= said.copied {
		t.Fatalf("%d books are there, %d were copied", n, said.copied+1)
	}
	for i := range said.copied + 1 {
		path := numbered(dir, i)
		checkOneUpgraded(t, path, i <= said.done)
		remove(t, path+"*")
	}
	if n > said.copied+1 {
		remove(t, numbered(dir, said.copied+1)+"*") // cut short by the child's own copying
	}
}

// checkOneUpgraded looks at a book as it was left, and then opens it.
func checkOneUpgraded(t *testing.T, path string, acknowledged bool) {
	was, err := store.SchemaOfFile(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	if was != store.SchemaVersion && (acknowledged || was < 1 || was > store.SchemaVersion) {
		t.Errorf("layout %d; the upgrade was acknowledged: %t", was, acknowledged)
	}
	copies, err := filepath.Glob(path + copyMark + "????????-??????")
	if err != nil {
		t.Fatal(err)
	}
	if was > 1 && len(copies) != 1 {
		t.Errorf("the book is at layout %d, and there are %d copies from before, want 1", was, len(copies))
	}
	for _, c := range copies {
		if err := store.SoundFile(t.Context(), c); err != nil {
			t.Errorf("the copy is not whole: %v", err)
		}
		if v, err := store.SchemaOfFile(t.Context(), c); err != nil || v != 1 {
			t.Errorf("layout of the copy: %d, %v; want 1", v, err)
		}
	}
	// A minute later, so that the next copy has another name than one that was cut short.
	next := options
	next.Now = func() time.Time { return clock().Add(time.Minute) }
	db, err := store.Open(t.Context(), path, next)
	if err != nil {
		t.Fatal(err)
	}
	mustCheck(t, db)
	holdsFirstLayoutsContent(t, db)
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	if parts, err := filepath.Glob(path + "*.part*"); was < store.SchemaVersion && (err != nil || len(parts) > 0) {
		t.Errorf("pieces of copies after the next opening: %q, %v", parts, err)
	}
}

func checkCreated(t *testing.T, dir string, said acknowledged) {
	n, err := nextOf(dir)
	if err != nil {
		t.Fatal(err)
	}
	if n != said.done+1 && n != said.done+2 {
		t.Errorf("%d books are there, %d were acknowledged", n, said.done+1)
	}
	for i := range n {
		db, err := store.Open(t.Context(), numbered(dir, i), store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		mustCheck(t, db)
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}
	remove(t, filepath.Join(dir, "*"))
}

func remove(t *testing.T, pattern string) {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if err := os.Remove(f); err != nil {
			t.Error(err)
		}
	}
}
