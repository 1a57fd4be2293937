package reckon

import (
	"fmt"
	"strings"

	"haywarden/agronomy/method"
)

// ListText names every reckoning in a line, by discipline.
func ListText() string {
	var b strings.Builder
	name := 0
	for _, d := range Disciplines() {
		for _, m := range d.Methods {
			name = max(name, len(m.Name))
		}
	}
	for i, d := range Disciplines() {
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(strings.ToUpper(d.Name[:1]) + d.Name[1:] + "\n")
		for _, m := range d.Methods {
			fmt.Fprintf(&b, "  %-*s  %s\n", name, m.Name, m.Title)
		}
	}
	return b.String()
}

type listedJSON struct {
	Reckoning  string `json:"reckoning"`
	Discipline string `json:"discipline"`
	Title      string `json:"title"`
}

// ListJSON is ListText for scripts.
func ListJSON() ([]byte, error) {
	list := []listedJSON{}
	for _, d := range Disciplines() {
		for _, m := range d.Methods {
			list = append(list, listedJSON{m.Name, d.Name, m.Title})
		}
	}
	return marshal(list)
}

// DescribeText tells what a method is for, what it takes and answers, and what it rests on.
func DescribeText(m *method.Method) (string, error) {
	sources, err := restsOn(m)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n", m.Title, m.Name)
	wrap(&b, "", "", m.About)
	b.WriteString("\nInputs\n")
	var inputs, outputs, constants []line
	for _, in := range m.Inputs {
		inputs = append(inputs, line{in.Key, need(in), in.Unit.Symbol, in.About + "; " + takes(in)})
	}
	align(&b, inputs)
	b.WriteString("\nOutputs\n")
	for _, out := range m.Outputs {
		about := out.About
		if out.When != "" {
			about += " (" + out.When + ")"
		}
		outputs = append(outputs, line{out.Key, "", out.Unit.Symbol, about})
	}
	align(&b, outputs)
	if len(m.Constants) > 0 {
		b.WriteString("\nConstants\n")
		for _, k := range m.Constants {
			about := string(k.Source)
			if k.Exempt != "" {
				about += "; no proof holds it: " + k.Exempt
			}
			constants = append(constants, line{k.Key, plain(k.Value), k.Unit, about})
		}
		align(&b, constants)
	}
	b.WriteString("\nSources\n")
	for _, s := range sources {
		wrap(&b, "  - ", "    ", fmt.Sprintf("%s: %s", s.ID, cite(s)))
	}
	fmt.Fprintf(&b, "\nExample\n  haywarden reckon %s %s\n", m.Name, m.Example)
	return b.String(), nil
}

// need says in a word or two whether an input must be given.
func need(in method.Input) string {
	switch {
	case in.Default != "":
		return "default " + shorten(in.Default)
	case in.Optional:
		return "optional"
	}
	return "required"
}

// takes says what an input accepts and where the method was tested.
func takes(in method.Input) string {
	text := accepted(in, declared(in.Unit))
	if in.Tested != (method.Range{}) {
		text += ", tested " + sayRange(in.Tested, in.Unit)
	}
	if in.UnitFrom != "" {
		text += ", in the unit that " + in.UnitFrom + " names"
	}
	return text
}

type describedJSON struct {
	Reckoning string         `json:"reckoning"`
	Title     string         `json:"title"`
	About     string         `json:"about"`
	Inputs    []inputJSON    `json:"inputs"`
	Outputs   []outputJSON   `json:"outputs"`
	Constants []constantJSON `json:"constants"`
	Sources   []sourceJSON   `json:"sources"`
	Example   string         `json:"example"`
}

type inputJSON struct {
	Key      string      `json:"key"`
	About    string      `json:"about"`
	Unit     string      `json:"unit,omitempty"`
	UnitFrom string      `json:"unit_from,omitempty"`
	Accepts  string      `json:"accepts"`
	Accepted *[2]float64 `json:"accepted,omitempty"`
	Tested   *[2]float64 `json:"tested,omitempty"`
	Choices  []string    `json:"choices,omitempty"`
	Default  string      `json:"default,omitempty"`
	Required bool        `json:"required"`
}

type outputJSON struct {
	Key      string `json:"key"`
	About    string `json:"about"`
	Unit     string `json:"unit,omitempty"`
	Decimals int    `json:"decimals"`
	When     string `json:"when,omitempty"`
}

type constantJSON struct {
	Key    string  `json:"key"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit,omitempty"`
	Source string  `json:"source"`
	Exempt string  `json:"exempt,omitempty"`
}

// DescribeJSON is DescribeText for scripts, and for forms drawn from a declaration.
func DescribeJSON(m *method.Method) ([]byte, error) {
	sources, err := restsOn(m)
	if err != nil {
		return nil, err
	}
	d := describedJSON{
		Reckoning: m.Name, Title: m.Title, About: m.About, Inputs: []inputJSON{}, Outputs: []outputJSON{},
		Constants: []constantJSON{}, Sources: citations(sources), Example: m.Example,
	}
	for _, in := range m.Inputs {
		d.Inputs = append(d.Inputs, inputJSON{
			Key: in.Key, About: in.About, Unit: in.Unit.Symbol, UnitFrom: in.UnitFrom, Accepts: accepted(in, declared(in.Unit)),
			Accepted: bounds(in.Accepted), Tested: bounds(in.Tested), Choices: in.Choices, Default: in.Default,
			Required: in.Default == "" && !in.Optional,
		})
	}
	for _, out := range m.Outputs {
		d.Outputs = append(d.Outputs, outputJSON{out.Key, out.About, out.Unit.Symbol, out.Decimals, out.When})
	}
	for _, k := range m.Constants {
		d.Constants = append(d.Constants, constantJSON{k.Key, k.Value, k.Unit, string(k.Source), k.Exempt})
	}
	return marshal(d)
}

func bounds(r method.Range) *[2]float64 {
	if r == (method.Range{}) {
		return nil
	}
	return &[2]float64{r.Low, r.High}
}
