package regrowth

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

var (
	celsius = unit.Must("C")
	days    = unit.Must("days")
	massHa  = unit.Must("kg/ha")
	percent = unit.Must("%")
	sunDay  = unit.Must("MJ/m2/d")
)

func cutInterval() *method.Method {
	return &method.Method{
		Name: "cut-interval", Title: "What a steady interval between cuts gives",
		About: "Alfalfa cut every so many days under weather that stays the same, until one growth is like the last: what it could have grown, what a good field gives, how ripe it is and what is left in the roots. " +
			"Compare intervals at one temperature: 28 days at 14 C are half the growth that they are at 20 C.",
		Inputs: []method.Input{
			{Key: "temp", About: "mean temperature", Unit: celsius, Accepted: method.Range{Low: 0, High: 40}, Tested: method.Range{Low: 10, High: 28}},
			{Key: "days", About: "days from one cut to the next", Unit: days, Accepted: method.Range{Low: 5, High: 120}, Tested: method.Range{Low: 20, High: 60}},
			{Key: "solar", About: "sun of a day", Unit: sunDay, Accepted: method.Range{Low: 1, High: 40}, Tested: method.Range{Low: 10, High: 28}, Default: "20"},
			{Key: "ks", About: "what dry soil leaves of growth, 1 being all", Accepted: method.Range{Low: 0, High: 1}, Default: "1"},
		},
		Outputs: []method.Output{
			{Key: "potential", About: "growth of one interval that light and warmth allow, no field's yield", Unit: massHa, Decimals: 0},
			{Key: "field", About: "dry matter of one cut weighed off a good field, 10 % lost from standing", Unit: massHa, Decimals: 0},
			{Key: "stage", About: "stage at cutting, 0-9: 3.5 bud, 5 one-tenth bloom, 6 full bloom", Decimals: 1},
			{Key: "ndf", About: "fibre at cutting", Unit: percent, Decimals: 1},
			{Key: "reserve", About: "reserve in the roots at cutting, 1 being full; under 0.45 twice running costs the stand", Decimals: 2},
		},
		Constants: declared(),
		Sources:   restsOn(),
		Example:   "temp=20 days=33",
		Run: func(c *method.Call) error {
			n := c.Num("days")
			if n != float64(int(n)) {
				return fmt.Errorf("days %g: accepted whole days", n)
			}
			m := modelOf(c)
			s := m.Interval(int(n), c.Num("temp"), c.Num("solar"), c.Num("ks"))
			c.Answer("potential", s.KgHa)
			c.Answer("field", s.FieldKg)
			c.Answer("stage", s.Stage)
			c.Answer("ndf", m.Stick.At(s.Height, s.Stage).NDF)
			c.Answer("reserve", s.Reserve)
			return nil
		},
	}
}
