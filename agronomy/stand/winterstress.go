package stand

import (
	"math"

	"haywarden/agronomy/unit"
)

// WinterDay is one day of a winter at a station. NaN is not known; unknown snow is taken as none, which is
// the harder case.
type WinterDay struct {
	Day        unit.Day
	MaxF, MinF float64
	SnowIn     float64 // on the ground
	RainIn     float64 // water that fell, rain or melted snow
}

// CrownColds are the temperatures at the crown from which harm is said to begin, F, mildest claim last.
// Sources differ by 15 F and so all three are shown. Source: [source.CrownCold].
type CrownColds struct{ Hurt, Kill, Mildest float64 }

// WinterScale holds what a winter is judged by. Sources: [source.CrownCold], [source.SnowShelter],
// [source.CrownAir], [source.WinterThaw], [source.IceCover].
type WinterScale struct {
	Colds      CrownColds
	ShelterF   float64 // that 4 in of snow keep off
	ShelterIn  float64
	Ground     float64 // F at the crown under snow, at most
	ThawF      float64 // highest of the day from which a day thaws
	MildThawF  float64 // the same as others have it
	ThawDays   int     // in a row that can break dormancy
	IceHurts   int     // days of unbroken ice from which injury shows
	IceKills   int     // from which plants die
	RefreezeF  float64 // night after a wet thaw that makes ice (choice)
	WetIn      float64 // rain or melt that makes it (choice)
	SnowLostIn float64
	OpenIn     float64 // deepest snow through which it makes ice on the ground (choice)
}

// PublishedWinter returns the printed limits, with our choices where none is printed.
func PublishedWinter() WinterScale {
	return WinterScale{
		Colds: CrownColds{Hurt: 15, Kill: 5, Mildest: 0}, ShelterF: 12.5, ShelterIn: 4, Ground: 32,
		ThawF: 50, MildThawF: 40, ThawDays: 3, IceHurts: 7, IceKills: 21, RefreezeF: 20, WetIn: 0.25, SnowLostIn: 2, OpenIn: 2,
	}
}

// Stress is how hard a winter was on crowns.
type Stress string

// The classes, mildest first. Source: [source.StressClass].
const (
	StressMild     Stress = "mild"
	StressModerate Stress = "moderate"
	StressHard     Stress = "hard"
	StressSevere   Stress = "severe"
)

// Stresses lists the classes, mildest first.
func Stresses() []Stress { return []Stress{StressMild, StressModerate, StressHard, StressSevere} }

// Spell is a run of days.
type Spell struct {
	From unit.Day
	Days int
}

// WinterStress is what a station's winter says of crowns. It sees neither ice nor drift: what it suspects
// is looked for on the ground.
type WinterStress struct {
	Class     Stress
	Coldest   float64 // at the crown by the middle estimate, F; +Inf where no night is known
	ColdestOn unit.Day
	BareSnow  float64 // snow on that day, in
	Hurt      int     // nights at the crown under 15 F
	Kill      int     // under 5 F
	Mildest   int     // under 0 F
	HurtLow   int     // under 15 F if the crown were as cold as the air less the snow's shelter
	Thaw      Spell   // longest run of days over 50 F, December to February
	MildThaw  Spell   // the same over 40 F
	AfterThaw float64 // coldest at the crown in the three weeks after such a thaw of three days, F; +Inf where none
	Ice       Spell   // longest run for which ice may have lain, which no station sees
	Sheltered int     // nights under 0 F in the air that snow kept over 15 F
	Known     int     // days with temperatures
	Days      int
	SnowKnown int      // days with a depth of snow
	Because   []string // what decided the class, worst first
}

const (
	mostSheltered = 16 // F that snow is ever said to keep off
	longSpell     = 3  // nights that make a spell of cold (choice)
	manyNights    = 10 // nights that make a cold winter (choice); three weeks of stress kill
	afterThaw     = 21 // days of cold that still count as after a thaw (choice)
)

// CrownF estimates a night's temperature at the crown: low is the air's own, as bare ground half an inch down
// has it, and middle the mean of two days, which an inch or two of ground lags by. Snow adds to both, in step with its depth to 4 in and
// a little beyond. Source: [source.CrownAir].
func (k WinterScale) CrownF(yesterday, today WinterDay) (low, middle float64) {
	snow := today.SnowIn
	if math.IsNaN(snow) {
		snow = 0
	}
	shelter := min(snow/k.ShelterIn*k.ShelterF, mostSheltered)
	mean := (today.MaxF + today.MinF) / 2
	if two := (yesterday.MaxF + yesterday.MinF) / 2; !math.IsNaN(two) {
		mean = (mean + two) / 2
	}
	low, middle = today.MinF+shelter, mean+shelter
	if snow > 0 {
		low, middle = min(low, k.Ground), min(middle, k.Ground)
	}
	return low, middle
}

// Says is what the sources have to say of a temperature at the crown.
func (k WinterScale) Says(crownF float64) string {
	switch shown := math.Round(crownF); {
	case shown < k.Colds.Mildest:
		return "harmful by every source"
	case shown < k.Colds.Kill:
		return "harmful by most sources, safe for hardened crowns by one"
	case shown < k.Colds.Hurt:
		return "harm may begin: sources put its start from 5 to 15 F"
	}
	return "safe by every source"
}

// Stress reads a winter, its days in order from November on.
func (k WinterScale) Stress(days []WinterDay) WinterStress {
	s := WinterStress{Coldest: math.Inf(1), AfterThaw: math.Inf(1), Days: len(days)}
	crown := make([]float64, len(days))
	before := WinterDay{MaxF: math.NaN(), MinF: math.NaN()}
	for i, d := range days {
		yesterday := before
		before, crown[i] = d, math.NaN()
		if !math.IsNaN(d.SnowIn) {
			s.SnowKnown++
		}
		if math.IsNaN(d.MaxF) || math.IsNaN(d.MinF) {
			continue
		}
		s.Known++
		low, middle := k.CrownF(yesterday, d)
		middle = math.Round(middle) // judged as shown
		crown[i] = middle
		s.count(k, d, low, middle)
	}
	s.Thaw = k.thaw(days, k.ThawF)
	s.MildThaw = k.thaw(days, k.MildThawF)
	s.Ice = k.ice(days)
	if s.Thaw.Days >= k.ThawDays {
		end := s.Thaw.From + unit.Day(s.Thaw.Days)
		for i, d := range days {
			if d.Day >= end && d.Day < end+afterThaw && !math.IsNaN(crown[i]) {
				s.AfterThaw = min(s.AfterThaw, crown[i])
			}
		}
	}
	s.judge(k)
	return s
}

func (s *WinterStress) count(k WinterScale, d WinterDay, low, middle float64) {
	if middle < s.Coldest {
		s.Coldest, s.ColdestOn, s.BareSnow = middle, d.Day, d.SnowIn
	}
	if middle < k.Colds.Hurt {
		s.Hurt++
	}
	if middle < k.Colds.Kill {
		s.Kill++
	}
	if middle < k.Colds.Mildest {
		s.Mildest++
	}
	if math.Round(low) < k.Colds.Hurt {
		s.HurtLow++
	}
	if d.MinF < 0 && d.SnowIn > 0 && middle >= k.Colds.Hurt {
		s.Sheltered++
	}
}

// thaw is the longest run of days as warm, from December to February.
func (k WinterScale) thaw(days []WinterDay, warm float64) Spell {
	var best, run Spell
	for _, d := range days {
		m := d.Day.Month()
		if (m == 12 || m <= 2) && d.MaxF >= warm {
			if run.Days == 0 {
				run.From = d.Day
			}
			run.Days++
		} else {
			run = Spell{}
		}
		if run.Days > best.Days {
			best = run
		}
	}
	return best
}

// ice is the longest run of days for which ice may have lain: from a freeze right after rain, or after two
// inches of snow were lost, on a day above freezing, until a day of over 40 F. A choice: no station sees ice.
func (k WinterScale) ice(days []WinterDay) Spell {
	var best, run Spell
	for i, d := range days {
		switch {
		case d.MaxF >= k.MildThawF:
			run = Spell{}
		case run.Days > 0:
			run.Days++
		case i > 0 && k.makesIce(days[i-1], d) && (i < 2 || k.wet(days[i-2], days[i-1])):
			run = Spell{From: d.Day, Days: 1}
		}
		if run.Days > best.Days {
			best = run
		}
	}
	return best
}

// makesIce reports whether a freeze follows a day above freezing.
func (k WinterScale) makesIce(yesterday, today WinterDay) bool {
	return yesterday.MaxF > k.Ground && today.MinF <= k.RefreezeF && !(today.SnowIn > k.OpenIn)
}

// wet reports whether a day brought rain or lost snow to melting.
func (k WinterScale) wet(before, day WinterDay) bool {
	return day.RainIn >= k.WetIn && day.MaxF > k.Ground+3 || before.SnowIn-day.SnowIn >= k.SnowLostIn
}

// judge names the class and what decided it.
func (s *WinterStress) judge(k WinterScale) {
	worst := 0
	say := func(class int, why string) {
		if class > 0 {
			s.Because = append(s.Because, why)
		}
		worst = max(worst, class)
	}
	switch {
	case s.Mildest >= longSpell:
		say(3, "three nights or more under 0 °F at the crown, which no source calls safe")
	case s.Kill >= longSpell:
		say(2, "three nights or more under 5 °F at the crown, harmful by most sources")
	case s.Hurt >= manyNights:
		say(2, "ten nights or more under 15 °F at the crown, where harm begins by the careful sources")
	case s.Kill > 0 || s.Hurt >= longSpell:
		say(1, "nights under 15 °F at the crown, where harm begins by the careful sources")
	}
	switch {
	case s.Ice.Days >= k.IceKills:
		say(2, "ice may have lain for three weeks or more: only a look tells")
	case s.Ice.Days >= k.IceHurts:
		say(1, "ice may have lain for a week or more: only a look tells")
	}
	if s.Thaw.Days >= k.ThawDays {
		switch {
		case s.AfterThaw < k.Colds.Kill:
			say(3, "a thaw of 50 °F for three days or more, then under 5 °F at the crown")
		case s.AfterThaw < k.Colds.Hurt:
			say(2, "a thaw of 50 °F for three days or more, then under 15 °F at the crown")
		}
	}
	s.Class = Stresses()[worst]
}

// WinterLoss is the share of the year's yield that a stand of a class of points is expected to lose by a
// winter's stress. It is a table of ours: it orders visits, and a count in spring takes its place. Source:
// [source.WinterLoss].
func WinterLoss(s Stress, c WinterClass) float64 {
	table := map[Stress][4]float64{
		StressMild:     {0.00, 0.02, 0.05, 0.10},
		StressModerate: {0.03, 0.08, 0.15, 0.25},
		StressHard:     {0.08, 0.20, 0.35, 0.50},
		StressSevere:   {0.20, 0.40, 0.60, 0.75},
	}
	for i, class := range WinterClasses() {
		if class == c {
			return table[s][i]
		}
	}
	return math.NaN()
}
