package reckon

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/method"
)

// TestWhatIsAcceptedIsAnsweredOrRefused proves that inputs inside their accepted ranges, in any
// combination, never bring a method to a number one cannot use: it answers, or says what is wrong.
func TestWhatIsAcceptedIsAnsweredOrRefused(t *testing.T) {
	for _, m := range methods() {
		t.Run(m.Name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				// Lists that belong together mostly have one length; now and then they do not.
				n := rapid.IntRange(1, 4).Draw(t, "n")
				var args []string
				for _, in := range m.Inputs {
					if (in.Optional || in.Default != "") && rapid.Bool().Draw(t, "left out") {
						continue
					}
					args = append(args, in.Key+"="+someOf(t, in, n))
				}
				a, err := Ask(m, args, nil)
				if err != nil {
					if _, ok := errors.AsType[*BadInput](err); !ok {
						t.Fatalf("%s %s: %v", m.Name, strings.Join(args, " "), err)
					}
					return
				}
				if _, err := a.JSON(); err != nil {
					t.Fatalf("%s %s: %v", m.Name, strings.Join(args, " "), err)
				}
			})
		})
	}
}

// someOf writes a value that the input accepts; ends of its range come up often.
func someOf(t *rapid.T, in method.Input, n int) string {
	number := func() string {
		r := in.Accepted
		if r == (method.Range{}) {
			r = method.Range{Low: -1e6, High: 1e6}
		}
		v := rapid.OneOf(rapid.Just(r.Low), rapid.Just(r.High), rapid.Float64Range(r.Low, r.High)).Draw(t, in.Key)
		if rapid.Bool().Draw(t, "whole") && math.Trunc(v) >= r.Low {
			v = math.Trunc(v)
		}
		const hair = 1e-9 // nobody types less and means it
		if math.Abs(v) < hair {
			v = max(r.Low, 0)
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	word := func() string {
		if len(in.Choices) > 0 {
			return rapid.SampledFrom(in.Choices).Draw(t, in.Key)
		}
		return rapid.StringMatching(`[a-cy]`).Draw(t, in.Key)
	}
	repeat := func(times int, one func() string, between string) string {
		items := make([]string, times)
		for i := range items {
			items[i] = one()
		}
		return strings.Join(items, between)
	}
	if rapid.IntRange(0, 9).Draw(t, "odd length") == 0 {
		n++
	}
	switch in.Kind {
	case method.Word:
		return word()
	case method.Words:
		return repeat(n, word, ",")
	case method.Numbers:
		return repeat(n, number, ",")
	case method.Readings:
		return repeat(n, func() string { return number() + ":" + word() }, ",")
	case method.Pairs:
		return repeat(1, func() string { return word() + ":" + number() }, ",")
	case method.Matrix:
		return repeat(n, func() string { return repeat(n, number, ",") }, ";")
	case method.Sheet:
		return "a,b,c,y;" + repeat(rapid.IntRange(1, 12).Draw(t, "rows"), func() string {
			return word() + "," + word() + "," + word() + "," + rapid.SampledFrom([]string{"", "1", "2", "3.5", "4", "7", "1e9"}).Draw(t, "y")
		}, ";")
	case method.Terms:
		return repeat(rapid.IntRange(1, 3).Draw(t, "terms"), func() string { return rapid.SampledFrom([]string{"a", "b", "c", "a:b", "b:c"}).Draw(t, in.Key) }, ",")
	case method.Days:
		return repeat(n, func() string { return strconv.Itoa(rapid.IntRange(1, 366).Draw(t, in.Key)) }, ",")
	case method.Date:
		return "2026-05-19"
	default:
		return number()
	}
}
