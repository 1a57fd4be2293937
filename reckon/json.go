package reckon

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

// answerJSON is the shape that scripts rely on.
type answerJSON struct {
	Reckoning string            `json:"reckoning"`
	Inputs    map[string]any    `json:"inputs"`
	Outputs   map[string]any    `json:"outputs"`
	Units     map[string]string `json:"units"`
	Sources   []sourceJSON      `json:"sources"`
	Notes     []string          `json:"notes"`
}

type sourceJSON struct {
	ID    source.ID    `json:"id"`
	Cite  string       `json:"cite"`
	Grade source.Grade `json:"grade"`
}

// JSON writes the answer as one object on one line: inputs with the defaults that were used, numbers
// not rounded, keys sorted, so that the same question gives the same bytes. Where one key goes in and
// comes out in different units, milk in kg a day and its energy, units holds that of the output under
// the key and that of the input under inputs.key.
func (a *Answer) JSON() ([]byte, error) {
	j := answerJSON{
		Reckoning: a.Method.Name,
		Inputs:    map[string]any{}, Outputs: map[string]any{}, Units: map[string]string{},
		Sources: citations(a.Sources), Notes: append([]string{}, a.Notes...),
	}
	for _, g := range a.Given {
		j.Inputs[g.Input.Key] = jsonValue(g.Value, "none")
		if g.Unit.Symbol != "" {
			j.Units[g.Input.Key] = g.Unit.Symbol
		}
	}
	for _, o := range a.Outputs {
		key := o.Output.Key
		j.Outputs[key] = jsonValue(o.Value, o.Output.Never)
		if named, ok := o.Value.([]method.Pair); ok {
			j.Outputs[key] = byName(named, o.Output.Never)
		}
		if asked, ok := j.Units[key]; ok && asked != o.Unit.Symbol {
			j.Units["inputs."+key] = asked
		}
		if o.Unit.Symbol != "" {
			j.Units[key] = o.Unit.Symbol
		}
	}
	return marshal(j)
}

// byName says answered named numbers as an object: {"map":115.4}.
func byName(pairs []method.Pair, never string) map[string]any {
	object := map[string]any{}
	for _, p := range pairs {
		object[p.Name] = jsonValue(p.Value, never)
	}
	return object
}

func citations(sources []source.Source) []sourceJSON {
	list := make([]sourceJSON, len(sources))
	for i, s := range sources {
		list[i] = sourceJSON(s)
	}
	return list
}

// jsonValue says a value in JSON; +Inf, which JSON cannot hold, becomes the word for never.
func jsonValue(v any, never string) any {
	number := func(v float64) any {
		if math.IsInf(v, 1) {
			return never
		}
		return v
	}
	switch v := v.(type) {
	case float64:
		return number(v)
	case []float64:
		list := make([]any, len(v))
		for i := range v {
			list[i] = number(v[i])
		}
		return list
	case []method.Reading:
		list := make([]string, len(v))
		for i := range v {
			list[i] = sayReading(v[i])
		}
		return list
	case *method.Table:
		return append([][]string{v.Header}, v.Rows...)
	case method.Grid:
		return gridJSON(v)
	case []method.Pair:
		list := make([]string, len(v))
		for i, p := range v {
			list[i] = p.Name + ":" + strconv.FormatFloat(p.Value, 'g', -1, 64) // as any other number: not rounded
		}
		return list
	}
	return v
}

// marshal writes JSON on one line with < and & as they are.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
