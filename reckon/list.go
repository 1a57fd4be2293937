// Package reckon offers the calculations that the disciplines declare: it lists and describes them,
// reads what a user writes as key=value, runs a method, sets its answer for people or as JSON, and
// proves every method against the printed answers that stand beside it.
package reckon

import (
	"fmt"

	"haywarden/agronomy/allot"
	"haywarden/agronomy/blend"
	"haywarden/agronomy/budget"
	"haywarden/agronomy/climate"
	"haywarden/agronomy/count"
	"haywarden/agronomy/curing"
	"haywarden/agronomy/forage"
	"haywarden/agronomy/frost"
	"haywarden/agronomy/hazard"
	"haywarden/agronomy/heat"
	"haywarden/agronomy/herd"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/method"
	"haywarden/agronomy/pest"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/risk"
	"haywarden/agronomy/seeding"
	"haywarden/agronomy/soil"
	"haywarden/agronomy/stand"
	"haywarden/agronomy/stick"
	"haywarden/agronomy/storage"
	"haywarden/agronomy/trial"
	"haywarden/agronomy/water"
)

// Discipline is a branch of the science with its declared methods and their proofs.
type Discipline struct {
	Name    string // as headings say it: `forage quality`
	Methods []*method.Method
	Proofs  string // text of its proofs.csv
}

// Disciplines is the one list of what Haywarden can reckon. A new discipline is a line here.
func Disciplines() []Discipline {
	return []Discipline{
		{"forage quality", forage.Methods(), forage.Proofs()},
		{"height and stage", stick.Methods(), stick.Proofs()},
		{"heat", heat.Methods(), heat.Proofs()},
		{"frost and fall rest", frost.Methods(), frost.Proofs()},
		{"sun and water", water.Methods(), water.Proofs()},
		{"weather records and weather ahead", climate.Methods(), climate.Proofs()},
		{"curing", curing.Methods(), curing.Proofs()},
		{"growth", regrowth.Methods(), regrowth.Proofs()},
		{"losses in the field", losses.Methods(), losses.Proofs()},
		{"storage, heating hay and sampling", storage.Methods(), storage.Proofs()},
		{"stands", stand.Methods(), stand.Proofs()},
		{"seeding", seeding.Methods(), seeding.Proofs()},
		{"trials", trial.Methods(), trial.Proofs()},
		{"soil", soil.Methods(), soil.Proofs()},
		{"fertilizer", blend.Methods(), blend.Proofs()},
		{"counting", count.Methods(), count.Proofs()},
		{"pests", pest.Methods(), pest.Proofs()},
		{"what a forage may hold", hazard.Methods(), hazard.Proofs()},
		{"herd and feed", herd.Methods(), herd.Proofs()},
		{"who eats what", allot.Methods(), allot.Proofs()},
		{"money", budget.Methods(), budget.Proofs()},
		{"risk", risk.Methods(), risk.Proofs()},
	}
}

// Find returns the method with the given name.
func Find(name string) (*method.Method, error) { return find(Disciplines(), name) }

func find(list []Discipline, name string) (*method.Method, error) {
	var names []string
	for _, d := range list {
		for _, m := range d.Methods {
			if m.Name == name {
				return m, nil
			}
			names = append(names, m.Name)
		}
	}
	return nil, &BadInput{Text: fmt.Sprintf("no reckoning is called %q%s; `haywarden reckon` lists them all", name, didYouMean(name, names))}
}
