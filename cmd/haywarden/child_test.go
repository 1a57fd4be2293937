package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"haywarden/agronomy/unit"
	"haywarden/book/store"
)

// childEnv turns this test into a process of another kind: the program itself, or one that gives it
// command after command until it is killed.
const childEnv = "HAYWARDEN_COMMAND_CHILD"

func TestMain(m *testing.M) {
	kind := os.Getenv(childEnv)
	switch kind {
	case "":
		os.Exit(m.Run())
	case "program":
		main()
	}
	work, ok := children[kind]
	if !ok {
		fmt.Fprintf(os.Stderr, "no child of kind %q\n", kind)
		os.Exit(2)
	}
	if err := work(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(1) // by itself none ends
}

// children give commands for ever, and print a line after each that ended well.
var children = map[string]func(dir string) error{"bring": bringForEver, "upgrade": upgradeForEver, "new": newForEver}

// command runs the program on a book within the child.
func command(book string, args ...string) error {
	var complaint strings.Builder
	m := &Main{Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: &complaint}
	if code := m.Run(context.Background(), append(args, "--book", book)); code != exitOK {
		return fmt.Errorf("%v: exit %d: %s", args, code, complaint.String())
	}
	return nil
}

// bringForEver brings weather and visits in turn to the book in a folder, a change of the book each. It
// goes on where the book stands.
func bringForEver(dir string) error {
	book := filepath.Join(dir, "a.book")
	done, err := changesOf(book)
	if err != nil {
		return err
	}
	file := filepath.Join(dir, "next.csv")
	for n := done; ; n++ {
		args := []string{"weather", "import", file, "--units", "metric"}
		text := weatherFile(n)
		if n%2 == 1 {
			args, text = []string{"import", "visits", file}, visitsFile(n)
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			return err
		}
		if err := command(book, args...); err != nil {
			return err
		}
		fmt.Println("done", n)
	}
}

// changesOf counts the changes that came after the making of the book and its stand.
func changesOf(book string) (int, error) {
	db, err := store.Open(context.Background(), book, store.Options{})
	if err != nil {
		return 0, err
	}
	defer db.Close()
	n, err := db.Revision(context.Background())
	return int(n) - 2, err
}

// yearsIn are the three years that the weather file of a number tells.
func yearsIn(n int) (first, last int) {
	first = 1990 + n%10*3
	return first, first + 2
}

// weatherFile makes a file of three whole years of two stations. Nothing but the number decides what is in
// it, and what two numbers say of a year differs.
func weatherFile(n int) string {
	first, last := yearsIn(n)
	var b strings.Builder
	b.WriteString(dailyHead)
	for station := range 2 {
		for d := unit.DateOf(first, 1, 1); d <= unit.DateOf(last, 12, 31); d++ {
			// Scattered, so that no month is like another, which would be taken for a copy.
			scatter := (uint32(d)*8 + uint32(n*2+station)<<20) * 2654435761
			scatter = (scatter ^ scatter>>15) * 2246822519
			scatter ^= scatter >> 13
			mean := 8 + 14*math.Sin(2*math.Pi*float64(d.YearDay()-111)/365) + float64(scatter%41)/10
			fmt.Fprintf(&b, "ZZT0000000%d,T,%s,%d.0,%.1f,%.1f\n", station, d, scatter>>6%5, mean+6, mean-5)
		}
	}
	return b.String()
}

// visitsIn is how many visits the file of a number tells.
func visitsIn(n int) int { return 1 + n%7 }

func visitsFile(n int) string {
	var b strings.Builder
	b.WriteString("farm,field,date,note\n")
	for i := range visitsIn(n) {
		fmt.Fprintf(&b, "Alder Run,Home Forty,%s,change %d of %d\n", unit.DateOf(2025, 5, 1)+unit.Day(i), n, visitsIn(n))
	}
	return b.String()
}

// upgradeForEver takes one copy after another of the old book in a folder, and looks at it.
func upgradeForEver(dir string) error {
	old, err := os.ReadFile(filepath.Join(dir, "old.book"))
	if err != nil {
		return err
	}
	for n := 0; ; n++ {
		if err := os.WriteFile(numbered(dir, n), old, 0o600); err != nil {
			return err
		}
		fmt.Println("copied", n)
		if err := command(numbered(dir, n), "book", "show"); err != nil {
			return err
		}
		fmt.Println("done", n)
	}
}

func newForEver(dir string) error {
	for n := 0; ; n++ {
		if err := command(numbered(dir, n), "book", "new", "--region", fmt.Sprintf("Region %d", n)); err != nil {
			return err
		}
		fmt.Println("done", n)
	}
}

func numbered(dir string, n int) string { return filepath.Join(dir, fmt.Sprintf("n%06d.book", n)) }
