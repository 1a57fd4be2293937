package storage

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Heating is how far a stack of hay has heated.
type Heating struct {
	Level string          // a word for scripts: `normal` to `fire`
	From  unit.Fahrenheit // core temperature from which it holds
	Told  Told
}

// heatings is the table of core temperatures. Where sources differ, by 10 to 20 F, on when to take a
// stack apart and when to call, the lower temperature stands. Source: [source.HayHeat].
func heatings() []Heating {
	at := func(level string, from unit.Fahrenheit, action string, cautions ...Caution) Heating {
		return Heating{level, from, tell(action, append(cautions, SmellIsFire, ProbeRight, NeverAlone, KeepLooking)...)}
	}
	hot := []Caution{CallFirst, ToxicSmoke}
	return []Heating{
		at("normal", math.MinInt16, "Nothing unusual: fresh hay warms to 100 to 120 F. Go on reading."),
		at("warm", 120, "Read the core every day."),
		at("heating", 130, "Read the core twice a day: something is growing in the hay. If it stays here the hay loses feeding value and does not burn."),
		at("take-apart", 140, "Tell the fire service, then take the stack apart so that it cools, in the open and away from buildings. Read twice a day.", hot...),
		at("danger", 150, "Call the fire service and move nothing until they stand by; then wet the bales and take the stack apart. Read twice a day until they come.", hot...),
		at("flare-up", 160, "Call the fire service now: the hay is likely to flare up when air reaches it. Move nothing. Read every 2 hours, from outside the stack only.", hot...),
		at("hot-spots", 175, "Call the fire service now: there may be fire inside. Shut off fans and keep air from the hay; keep people and animals out.", hot...),
		at("flames", 185, "Call the fire service now and get everyone out: the hay is likely to flame when air reaches it. Only the fire service moves it.", hot...),
		at("fire", 200, "Fire: it is there or about to be. Everyone out, call the fire service, touch nothing.", hot...),
	}
}

// Hay is how far hay of a core temperature has heated, and what to do. The temperature is rounded to
// whole degrees as it is shown, halves up, so that a line is never missed by a hair.
func Hay(core unit.Fahrenheit) (Heating, error) {
	if !(core >= -60 && core <= 2000) {
		return Heating{}, fmt.Errorf("core temperature %g F; accepted -60 to 2000", float64(core))
	}
	shown := unit.Fahrenheit(math.Floor(float64(core) + 0.5))
	table := heatings()
	i := len(table) - 1
	for table[i].From > shown {
		i--
	}
	return table[i], nil
}
