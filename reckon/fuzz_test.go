package reckon

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

// FuzzAsk proves that no argument brings a method down: a question is either answered in sound JSON,
// the same each time, or refused in one line as bad input.
func FuzzAsk(f *testing.F) {
	all := methods()
	for i, m := range all {
		f.Add(uint(i), m.Example)
	}
	f.Add(uint(0), "adf=1e999 ndf=0x10")
	f.Add(uint(0), "adf=30% ndf=40kg scheme=")
	f.Add(uint(0), "=@ @ @@ key=@")
	f.Fuzz(func(t *testing.T, which uint, text string) {
		m := all[which%uint(len(all))]
		args := strings.Fields(text)
		a, err := Ask(m, args, nil)
		if err != nil {
			if _, ok := errors.AsType[*BadInput](err); !ok {
				t.Fatalf("%s %s: %v", m.Name, text, err)
			}
			if strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("%s %s: more than a line: %q", m.Name, text, err)
			}
			return
		}
		first, err := a.JSON()
		if err != nil || !json.Valid(first) {
			t.Fatalf("%s %s: JSON %s: %v", m.Name, text, first, err)
		}
		again, err := Ask(m, args, nil)
		if err != nil {
			t.Fatalf("%s %s: answered once and then %v", m.Name, text, err)
		}
		if second, _ := again.JSON(); !bytes.Equal(first, second) {
			t.Fatalf("%s %s: two answers:\n%s%s", m.Name, text, first, second)
		}
		if a.Text() == "" {
			t.Fatalf("%s %s: no text", m.Name, text)
		}
	})
}
