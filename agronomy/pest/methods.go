package pest

import (
	_ "embed"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method {
	return []*method.Method{weevilClock(), weevilRule(), weevilThreshold(), hopperHeat(), hopperThreshold(), sprayOrCut(), stubbleDays(), minorPest(), injuryLevel()}
}

// written is a name as users type it: `new-york`.
func written(name string) string { return strings.ReplaceAll(strings.ToLower(name), " ", "-") }

// key is a name as a constant's key: `new_york`.
func key(name string) string { return strings.ReplaceAll(strings.ToLower(name), " ", "_") }

func weevilClock() *method.Method {
	var states []string
	var constants []method.Constant
	for _, s := range WeevilStarts() {
		states = append(states, written(s.State))
		constants = append(constants, method.Constant{Key: key(s.State), Value: s.DD48, Unit: "F-days", Source: source.WeevilScouting})
	}
	events := WeevilEvents()
	for _, e := range events[1:] {
		constants = append(constants, method.Constant{Key: key(e.Name), Value: e.From, Unit: "F-days", Source: source.WeevilEvents})
	}
	heat := unit.Must("F-days")
	return &method.Method{
		Name:  "weevil-clock",
		Title: "Alfalfa weevil by heat",
		About: "How far the alfalfa weevil has come by heat above 48 F since 1 January, and from when a state has it looked for. " +
			"A total without its base is unusable: some states print the same numbers for 50 F. Larvae from eggs laid in fall come earlier than this.",
		Inputs: []method.Input{
			{Key: "dd48", About: "heat above 48 F since 1 January, single sine", Unit: heat, Accepted: method.Range{Low: 0, High: 5000}},
			{Key: "state", About: "state whose guide says from when to walk", Kind: method.Word, Choices: states, Default: "wisconsin"},
		},
		Outputs: []method.Output{
			{Key: "event", About: "what has been reached"},
			{Key: "next", About: "what comes next; none after the last"},
			{Key: "scout_from", About: "heat from which the state has larvae looked for", Unit: heat},
		},
		Constants: constants,
		Sources:   []source.ID{source.WeevilEvents, source.WeevilScouting, source.WeevilHeat},
		Example:   "dd48=439 state=wisconsin",
		Run: func(c *method.Call) error {
			moved := []Event{events[0]}
			for _, e := range events[1:] {
				moved = append(moved, Event{e.Name, c.K(key(e.Name))})
			}
			now, next := At(moved, c.Num("dd48"))
			if next == "" {
				next = "none"
			}
			c.Answer("event", now)
			c.Answer("next", next)
			c.Answer("scout_from", c.K(strings.ReplaceAll(c.Word("state"), "-", "_")))
			if c.Word("state") == "iowa" {
				c.Note("north of Interstate 80; south of it from 200 F-days")
			}
			return nil
		},
	}
}
