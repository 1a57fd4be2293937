package book_test

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"pgregory.net/rapid"

	"haywarden/agronomy/unit"
	"haywarden/book"
)

func TestNewIDMatchesThePublishedExample(t *testing.T) {
	// RFC 9562 appendix A.6: 2022-02-22 14:22:22 -05:00, rand_a CC3, rand_b 18C4DC0C0C07398F.
	at := time.Date(2022, 2, 22, 14, 22, 22, 0, time.FixedZone("", -5*3600))
	random := []byte{0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f}
	got, err := book.NewID(at, bytes.NewReader(random))
	if err != nil {
		t.Fatal(err)
	}
	if want := "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"; got != want {
		t.Errorf("id %s, want %s", got, want)
	}
}

func TestIDsMadeLaterSortLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		source := rand.NewChaCha8([32]byte{byte(rapid.IntRange(0, 255).Draw(t, "seed"))})
		ms := rapid.Int64Range(0, 1<<47).Draw(t, "ms")
		later := ms + rapid.Int64Range(1, 1<<40).Draw(t, "later by")
		a, err := book.NewID(time.UnixMilli(ms), source)
		if err != nil {
			t.Fatal(err)
		}
		b, err := book.NewID(time.UnixMilli(later), source)
		if err != nil {
			t.Fatal(err)
		}
		if a >= b {
			t.Fatalf("%s made before %s sorts after it", a, b)
		}
	})
}

func TestNewIDSaysThatRandomnessFailed(t *testing.T) {
	broken := errors.New("no entropy")
	if _, err := book.NewID(time.UnixMilli(0), iotest.ErrReader(broken)); !errors.Is(err, broken) {
		t.Errorf("error %v, want one that wraps %v", err, broken)
	}
}

func TestFactsTakeOnlyWrittenOutUUIDs(t *testing.T) {
	for _, id := range []string{
		"", "1", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f0",
		"017F22E2-79B0-7CC3-98C4-DC0C0C07398F", "017f22e279b07cc398c4dc0c0c07398f0000", "017f22e2-79b0-7cc3-98c4-dc0c0c07398g",
		"{17f22e2-79b0-7cc3-98c4-dc0c0c07398}",
	} {
		_, err := book.New(id, "", "farm-1", unit.DateOf(2026, 5, 1), "ada", book.Farm{Name: "Ridge"})
		if err == nil || !strings.Contains(err.Error(), "not a UUID") {
			t.Errorf("id %q: error %v, want one that says it is not a UUID", id, err)
		}
	}
}
