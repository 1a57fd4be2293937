package chart

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestDrawingsAreTheSameBytesAsTheGoldenFiles(t *testing.T) {
	for name, d := range samples() {
		t.Run(name, func(t *testing.T) {
			got := strings.ReplaceAll(SVG(d), "><", ">\n<") + "\n"
			file := filepath.Join("testdata", name+".svg")
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("look at the new drawing, then run with -update (-want +got):\n%s", diff)
			}
		})
	}
}

func BenchmarkStrip(b *testing.B) {
	s := meadow()
	for b.Loop() {
		SVG(s)
	}
}
