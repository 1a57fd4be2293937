package reckon

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

// readValue reads the text of one input by its kind, in unit u, and holds it to the accepted range.
func readValue(text string, in method.Input, u unit.Unit) (any, error) {
	if text == "" {
		return nil, errors.New("nothing is given")
	}
	switch in.Kind {
	case method.Number:
		return readNumber(text, in, u)
	case method.Numbers:
		return eachItem(text, func(s string) (float64, error) { return readNumber(s, in, u) })
	case method.Word:
		return readWord(text, in.Choices)
	case method.Readings:
		return eachItem(text, func(s string) (method.Reading, error) { return readReading(s, in, u) })
	case method.Days:
		return eachItem(text, func(s string) (float64, error) { return readDayNumber(s, in) })
	case method.Date:
		return unit.ParseDay(text)
	case method.Words:
		return eachItem(text, func(s string) (string, error) { return readListedWord(s, in.Choices) })
	case method.Pairs:
		return readPairs(text, in, u)
	case method.Matrix:
		return readMatrix(text, in, u)
	case method.Sheet:
		return readSheet(text)
	case method.Terms:
		return eachItem(text, readTerm)
	}
	return nil, fmt.Errorf("input kind %d cannot be read", in.Kind)
}

// eachItem reads a comma-separated list; an error names the item by its place.
func eachItem[T any](text string, read func(string) (T, error)) ([]T, error) {
	parts := strings.Split(text, ",")
	items := make([]T, 0, len(parts))
	for i, part := range parts {
		part = strings.TrimSpace(part)
		if part == "" {
			return nil, fmt.Errorf("item %d is empty", i+1)
		}
		v, err := read(part)
		if err != nil {
			return nil, fmt.Errorf("item %d: %w", i+1, err)
		}
		items = append(items, v)
	}
	return items, nil
}

func readNumber(text string, in method.Input, u unit.Unit) (float64, error) {
	v, err := unit.Parse(text, u)
	if err != nil {
		return 0, err
	}
	if !rangeIn(in.Accepted, in, u).Holds(v) {
		return 0, fmt.Errorf("%s is outside the accepted range", say(v, u))
	}
	return v, nil
}

func readWord(text string, choices []string) (string, error) {
	if len(choices) == 0 {
		return text, nil
	}
	i := slices.IndexFunc(choices, func(c string) bool { return strings.EqualFold(c, text) })
	if i < 0 {
		return "", fmt.Errorf("not one of the choices%s", didYouMean(text, choices))
	}
	return choices[i], nil
}

func readReading(text string, in method.Input, u unit.Unit) (method.Reading, error) {
	height, stage, ok := strings.Cut(text, ":")
	if !ok {
		return method.Reading{}, fmt.Errorf("%q is not written height:stage", text)
	}
	h, err := readNumber(strings.TrimSpace(height), in, u)
	if err != nil {
		return method.Reading{}, err
	}
	word, err := readWord(strings.TrimSpace(stage), in.Choices)
	if err != nil {
		return method.Reading{}, fmt.Errorf("stage %q: %w", stage, err)
	}
	return method.Reading{Height: h, Stage: word}, nil
}

// readDayNumber reads a day of the year, or `none` for a year without the event, which sorts after
// every day.
func readDayNumber(text string, in method.Input) (float64, error) {
	if strings.EqualFold(text, "none") {
		return math.Inf(1), nil
	}
	v, err := strconv.Atoi(text)
	if err != nil {
		return 0, fmt.Errorf("%q is not a whole day of the year", text)
	}
	if !dayRange(in).Holds(float64(v)) {
		return 0, fmt.Errorf("%d is outside the accepted range", v)
	}
	return float64(v), nil
}

func dayRange(in method.Input) method.Range {
	if in.Accepted == (method.Range{}) {
		return method.Range{Low: 1, High: 366}
	}
	return in.Accepted
}

// rangeIn gives a declared range in the unit that the user chose. A range that is left out stays
// left out.
func rangeIn(r method.Range, in method.Input, u unit.Unit) method.Range {
	from := declared(in.Unit)
	if r == (method.Range{}) || from.Dimension != u.Dimension {
		return r
	}
	low, _ := unit.Convert(r.Low, from, u)
	high, _ := unit.Convert(r.High, from, u)
	return method.Range{Low: low, High: high}
}

// untested returns a note where a value lies outside the range in which the method was tested.
func untested(g Given) string {
	if g.Input.Tested == (method.Range{}) {
		return ""
	}
	r := rangeIn(g.Input.Tested, g.Input, g.Unit)
	var out []float64
	numbers := numbersOf(g.Value)
	for _, v := range numbers {
		if !r.Holds(v) && !math.IsInf(v, 1) {
			out = append(out, v)
		}
	}
	switch {
	case len(out) == 0:
		return ""
	case len(numbers) == 1:
		return fmt.Sprintf("%s %s lies outside %s, where this was tested", g.Input.Key, say(out[0], g.Unit), sayRange(r, g.Unit))
	}
	return fmt.Sprintf("%s: %d of %d values lie outside %s, where this was tested", g.Input.Key, len(out), len(numbers), sayRange(r, g.Unit))
}

func numbersOf(value any) []float64 {
	switch v := value.(type) {
	case float64:
		return []float64{v}
	case []float64:
		return v
	case []method.Reading:
		hs := make([]float64, len(v))
		for i, r := range v {
			hs[i] = r.Height
		}
		return hs
	case []method.Pair:
		ns := make([]float64, len(v))
		for i, p := range v {
			ns[i] = p.Value
		}
		return ns
	case [][]float64:
		return slices.Concat(v...)
	}
	return nil
}

// accepted says in words what an input takes.
func accepted(in method.Input, u unit.Unit) string {
	r := rangeIn(in.Accepted, in, u)
	switch in.Kind {
	case method.Number:
		return "a number" + clause(r, u)
	case method.Numbers:
		return "comma-separated numbers" + clause(r, u)
	case method.Word:
		if len(in.Choices) == 0 {
			return "a word"
		}
		return "one of " + strings.Join(in.Choices, ", ")
	case method.Readings:
		return "comma-separated height:stage, height" + clause(r, u) + ", stage one of " + strings.Join(in.Choices, ", ")
	case method.Days:
		return "comma-separated days of the year" + clause(dayRange(in), unit.None) + ", or none"
	case method.Date:
		return "a date YYYY-MM-DD"
	case method.Words:
		if len(in.Choices) == 0 {
			return "comma-separated words"
		}
		return "comma-separated words, each one of " + strings.Join(in.Choices, ", ")
	case method.Pairs:
		text := "comma-separated name:number, number" + clause(r, u)
		if len(in.Choices) > 0 {
			text += ", name one of " + strings.Join(in.Choices, ", ")
		}
		return text
	case method.Matrix:
		return "rows apart by semicolons, comma-separated numbers" + clause(r, u) + " in each"
	case method.Sheet:
		return "a CSV file with a header, or its rows apart by semicolons"
	case method.Terms:
		return "comma-separated columns, a:b for the crossing of two"
	}
	return "nothing"
}

func clause(r method.Range, u unit.Unit) string {
	switch {
	case r != method.Range{}:
		return " " + sayRange(r, u)
	case u.Symbol != "":
		return " in " + u.Symbol
	}
	return ""
}

func sayRange(r method.Range, u unit.Unit) string {
	return strings.TrimSpace(plain(r.Low) + " to " + plain(r.High) + " " + u.Symbol)
}

func say(v float64, u unit.Unit) string { return strings.TrimSpace(plain(v) + " " + u.Symbol) }

// plain writes a number in the fewest digits a person would write, at most six behind the first.
func plain(v float64) string {
	if a := math.Abs(v); a >= 1e5 && a < 1e15 {
		return strconv.FormatFloat(math.Round(v), 'f', 0, 64)
	}
	return strconv.FormatFloat(v, 'g', 6, 64)
}
