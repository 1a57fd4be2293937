package herd

import (
	_ "embed"

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
	return []*method.Method{
		cowIntake(), groupIntake(), intakeByFibre(), intakeCrossCheck(), correctedMilk(), digestibilityResponse(),
		heiferIntake(), heiferByFibre(), dryIntake(), closeUpIntake(),
		energyNeed(), tdnEnergy(),
		forageMilk(), forageLimit(), dietFibre(), herdNeed(), foragePlan(), qualityTarget(),
	}
}

// What several methods take.
var (
	kgDay    = unit.Must("kg/day")
	mcalDay  = unit.Must("Mcal/day")
	percent  = unit.Must("%")
	shareOf1 = method.Range{Low: 0, High: 1}
)

func edition() method.Input {
	return method.Input{Key: "edition", About: "edition of the feeding standard", Kind: method.Word, Choices: []string{string(Edition2001), string(Edition2021)}, Default: string(Edition2021)}
}

func weight(about string, low, tested float64) method.Input {
	return method.Input{Key: "weight", About: about, Unit: unit.Must("kg"), Accepted: method.Range{Low: low, High: 1200}, Tested: method.Range{Low: tested, High: 900}}
}

func milk(least float64) method.Input {
	return method.Input{Key: "milk", About: "milk a day", Unit: kgDay, Accepted: method.Range{Low: least, High: 90}, Tested: method.Range{Low: least, High: 60}}
}

func fat(optional bool) method.Input {
	return method.Input{Key: "fat", About: "fat in the milk", Unit: percent, Accepted: method.Range{Low: 1, High: 9}, Tested: method.Range{Low: 2.5, High: 6}, Optional: optional}
}

func daysPregnant(least float64) method.Input {
	return method.Input{Key: "days_pregnant", About: "days pregnant", Unit: unit.Must("days"), Accepted: method.Range{Low: least, High: 290}, Optional: true}
}

func constant(key string, v float64, id source.ID) method.Constant {
	return method.Constant{Key: key, Value: v, Source: id}
}

func fcmConstants() []method.Constant {
	k := PublishedFCM()
	return []method.Constant{constant("fcm_milk", k.Milk, source.FatCorrectedMilk), constant("fcm_fat", k.Fat, source.FatCorrectedMilk)}
}

func fcmOf(c *method.Call) FCM { return FCM{c.K("fcm_milk"), c.K("fcm_fat")} }

func milkConstants(e Edition) []method.Constant {
	k, id, in := PublishedMilk(e), source.NASEM2021Energy, "2021"
	if e == Edition2001 {
		id, in = source.NRC2001Energy, "2001"
	}
	return []method.Constant{
		{Key: "milk_fat_" + in, Value: k.Fat, Unit: "Mcal/kg a %", Source: id},
		{Key: "milk_protein_" + in, Value: k.Protein, Unit: "Mcal/kg a %", Source: id},
		{Key: "milk_lactose_" + in, Value: k.Lactose, Unit: "Mcal/kg a %", Source: id},
	}
}

func milkOf(c *method.Call, e Edition) Milk {
	in := string(e)
	return Milk{c.K("milk_fat_" + in), c.K("milk_protein_" + in), c.K("milk_lactose_" + in)}
}
