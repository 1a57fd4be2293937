package office

import (
	"haywarden/agronomy/caution"
	"haywarden/agronomy/diagnosis"
	"haywarden/agronomy/hazard"
	"haywarden/agronomy/pest"
	"haywarden/agronomy/storage"
)

// Diagnosis is what may have done what was seen, with the questions and the answers given.
type Diagnosis struct {
	Questions []diagnosis.Question
	Fits      []diagnosis.Fit
	Weeds     []diagnosis.WeedGroup
	WeedSays  []string
}

// Diagnose leads from what was seen to its causes. It asks nothing of the book and records nothing, so
// that anybody may ask.
func Diagnose(seen diagnosis.Seen) (Diagnosis, error) {
	d := Diagnosis{Questions: diagnosis.Questions(), Weeds: diagnosis.WeedGroups(), WeedSays: diagnosis.WeedSays()}
	var err error
	d.Fits, err = diagnosis.Rank(seen)
	return d, err
}

// Seen makes what was seen out of answers by their questions.
func Seen(answer func(question string) string) diagnosis.Seen {
	return diagnosis.Seen{Crop: answer("crop"), Pattern: answer("pattern"), Part: answer("part"), Color: answer("color"), Season: answer("season")}
}

// SafetyText is what goes with one kind of work that can hurt someone.
type SafetyText struct {
	Title string
	Lines []string // what to know, then each caution
}

// Safety lists the cautions that the program shows wherever it speaks of such work.
func Safety() []SafetyText {
	machines := caution.Tell("Most people hurt in hay are hurt by a machine.",
		"Shut the engine off and wait until everything stands still before you clear or reach into a mower, rake or baler.",
		"Guards and shields stay on; nobody rides on a drawbar or stands between tractor and implement; a round bale on a slope can roll: set it across the slope.")
	return []SafetyText{
		{"Spraying", pest.TellSpray("Before anything is sprayed: a count over its threshold, no bloom, a cut far enough off, and the label read this year.").Lines()},
		{"Walking fields", pest.TellWalk("Before you walk in.").Lines()},
		{"Grazing alfalfa and clover", hazard.TellGraze("Before animals are turned in.").Lines()},
		{"Hay for horses", hazard.TellHorse("Blister beetles.").Lines()},
		{"Nitrate", hazard.TellNitrate("In drought, frost, hail, weeds and after long cloud.").Lines()},
		{"Heating hay", caution.Tell("Hay that was baled damp can heat for weeks.", storage.SmellIsFire, storage.CallFirst, storage.NeverAlone, storage.ProbeRight, storage.KeepLooking, storage.NotInside, storage.ToxicSmoke).Lines()},
		{"Silo gas", caution.Tell("From the first load on, and for weeks after filling.", storage.GasKills, storage.GasSpreads, storage.NoRescue, storage.GasThenDoctor, storage.GasMeterFirst).Lines()},
		{"Machines", machines.Lines()},
	}
}
