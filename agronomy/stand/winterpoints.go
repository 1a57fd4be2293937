package stand

import (
	"fmt"
	"math"
	"slices"
	"time"

	"haywarden/agronomy/unit"
)

// The questions about a winter, in the order in which they are asked. Source: [source.WinterQuestions].
const (
	AskAge        = "age"
	AskHardiness  = "hardiness"
	AskResistance = "resistance"
	AskPotassium  = "soil_k"
	AskDrainage   = "drainage"
	AskMoisture   = "moisture"
	AskCutting    = "cutting"
	AskStubble    = "stubble"
)

// WinterPoints holds the points of every answer, by a key `question-answer`. They are recalled and not
// read, so that whoever uses them may put others in. Source: [source.WinterPoints].
type WinterPoints map[string]float64

// RecalledWinterPoints returns the points as recalled.
func RecalledWinterPoints() WinterPoints {
	return WinterPoints{
		"age-over-3": 4, "age-2-3": 2, "age-1": 1,
		"hardiness-moderate": 3, "hardiness-hardy": 2, "hardiness-very": 1,
		"resistance-none": 4, "resistance-moderate": 3, "resistance-high": 1,
		"k-80": 4, "k-120": 3, "k-160": 1, "k-more": 0,
		"drainage-poor": 3, "drainage-medium": 2, "drainage-good": 1,
		"moisture-wet": 5, "moisture-medium": 1, "moisture-dry": 0,
		"short-early": 3, "short-fall": 5, "short-late": 4,
		"middle-early": 0, "middle-fall": 4, "middle-late": 2,
		"long-early": 0, "long-fall": 2, "long-late": 0,
		"stubble-no": 1, "stubble-yes": 0,
	}
}

// The words that answer a question.
var (
	hardinesses = []string{"moderate", "hardy", "very"}
	resistances = []string{"none", "moderate", "high"}
	drainages   = []string{"poor", "medium", "good"}
	moistures   = []string{"wet", "medium", "dry"}
)

// Hardinesses lists how winter-hardy a variety is: very is a winter-survival score of 2 or less.
func Hardinesses() []string { return slices.Clone(hardinesses) }

// Resistances lists how far a variety resists root and crown diseases.
func Resistances() []string { return slices.Clone(resistances) }

// Drainages lists how a soil drains.
func Drainages() []string { return slices.Clone(drainages) }

// Moistures lists how wet the soil went into winter.
func Moistures() []string { return slices.Clone(moistures) }

// Winter is what is known of a stand before a winter. An empty word, a NaN and a nil are not known.
type Winter struct {
	Age        float64 // years since seeding
	Hardiness  string
	Resistance string
	SoilK      float64 // exchangeable, ppm
	Drainage   string
	Moisture   string   // of the soil in fall and winter
	Interval   float64  // days between cuts
	LastCut    unit.Day // of the year before the winter; 0 not known
	Stubble    *bool    // more than 6 in left at the last cut
}

// WinterClass is a stand's risk of winter injury by its points.
type WinterClass string

// The classes. Source: [source.WinterPoints].
const (
	WinterLow      WinterClass = "low"
	WinterModerate WinterClass = "moderate"
	WinterHigh     WinterClass = "high"
	WinterVeryHigh WinterClass = "very high"
)

// WinterClasses lists the classes, lowest risk first.
func WinterClasses() []WinterClass {
	return []WinterClass{WinterLow, WinterModerate, WinterHigh, WinterVeryHigh}
}

const (
	lowTo      = 7
	moderateTo = 12
	highTo     = 17
)

func winterClass(points float64) WinterClass {
	switch {
	case points <= lowTo:
		return WinterLow
	case points <= moderateTo:
		return WinterModerate
	case points <= highTo:
		return WinterHigh
	}
	return WinterVeryHigh
}

// Asked is one question with the answer that was given and its points.
type Asked struct {
	Question string
	Known    bool
	Low      float64 // points; Low and High differ where the answer is not known
	High     float64
}

// WinterRisk is a stand's points, with their range over what is not known.
type WinterRisk struct {
	Low, High           float64
	LowClass, HighClass WinterClass
	Asked               []Asked
}

// Known reports whether every question was answered.
func (r WinterRisk) Known() bool {
	return !slices.ContainsFunc(r.Asked, func(a Asked) bool { return !a.Known })
}

// Widest is the unanswered question that leaves most points open, empty where none does.
func (r WinterRisk) Widest() string {
	best, say := 0., ""
	for _, a := range r.Asked {
		if open := a.High - a.Low; !a.Known && open > best {
			best, say = open, a.Question
		}
	}
	return say
}

// Assess adds up the points of what is known; a question without an answer counts from its least to its
// most points.
func (p WinterPoints) Assess(w Winter) (WinterRisk, error) {
	if err := w.check(); err != nil {
		return WinterRisk{}, err
	}
	var r WinterRisk
	for _, q := range []struct {
		name, key string
		all       []string
	}{
		{AskAge, w.ageKey(), []string{"age-over-3", "age-2-3", "age-1"}},
		{AskHardiness, keyOf("hardiness-", w.Hardiness), keysOf("hardiness-", hardinesses)},
		{AskResistance, keyOf("resistance-", w.Resistance), keysOf("resistance-", resistances)},
		{AskPotassium, w.potassiumKey(), []string{"k-80", "k-120", "k-160", "k-more"}},
		{AskDrainage, keyOf("drainage-", w.Drainage), keysOf("drainage-", drainages)},
		{AskMoisture, keyOf("moisture-", w.Moisture), keysOf("moisture-", moistures)},
		{AskCutting, w.cuttingKey(), w.cuttingKeys()},
		{AskStubble, w.stubbleKey(), []string{"stubble-no", "stubble-yes"}},
	} {
		a := Asked{Question: q.name, Known: q.key != ""}
		all := q.all
		if a.Known {
			all = []string{q.key}
		}
		a.Low, a.High = math.Inf(1), math.Inf(-1)
		for _, key := range all {
			v, ok := p[key]
			if !ok || math.IsNaN(v) {
				return WinterRisk{}, fmt.Errorf("points: none are set for %s", key)
			}
			a.Low, a.High = min(a.Low, v), max(a.High, v)
		}
		r.Asked = append(r.Asked, a)
		r.Low, r.High = r.Low+a.Low, r.High+a.High
	}
	r.LowClass, r.HighClass = winterClass(r.Low), winterClass(r.High)
	return r, nil
}

func (w Winter) check() error {
	for _, c := range []struct {
		what, given string
		choices     []string
	}{{"hardiness", w.Hardiness, hardinesses}, {"resistance", w.Resistance, resistances}, {"drainage", w.Drainage, drainages}, {"moisture", w.Moisture, moistures}} {
		if c.given != "" && !slices.Contains(c.choices, c.given) {
			return fmt.Errorf("%s %q: accepted %v", c.what, c.given, c.choices)
		}
	}
	for _, c := range []struct {
		what       string
		given, top float64
	}{{"age", w.Age, 30}, {"soil_k", w.SoilK, 1000}, {"interval", w.Interval, 200}} {
		if c.given < 0 || c.given > c.top {
			return fmt.Errorf("%s %g: accepted 0 to %g", c.what, c.given, c.top)
		}
	}
	return nil
}

func keyOf(start, word string) string {
	if word == "" {
		return ""
	}
	return start + word
}

func keysOf(start string, words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = start + w
	}
	return out
}

func (w Winter) ageKey() string {
	switch {
	case math.IsNaN(w.Age):
		return ""
	case w.Age > 3:
		return "age-over-3"
	case w.Age > 1:
		return "age-2-3"
	}
	return "age-1"
}

// potassiumKey takes the test in whole ppm, as it is reported.
func (w Winter) potassiumKey() string {
	switch k := math.Round(w.SoilK); {
	case math.IsNaN(k):
		return ""
	case k <= 80:
		return "k-80"
	case k <= 120:
		return "k-120"
	case k <= 160:
		return "k-160"
	}
	return "k-more"
}

func (w Winter) intervalKey() string {
	switch {
	case math.IsNaN(w.Interval):
		return ""
	case w.Interval < 30:
		return "short"
	case w.Interval <= 35:
		return "middle"
	}
	return "long"
}

func (w Winter) lastCutKey() string {
	switch d, y := w.LastCut, w.LastCut.Year(); {
	case d == 0:
		return ""
	case d < unit.DateOf(y, time.September, 1):
		return "early"
	case d <= unit.DateOf(y, time.October, 15):
		return "fall"
	}
	return "late"
}

func (w Winter) cuttingKey() string {
	if a, b := w.intervalKey(), w.lastCutKey(); a != "" && b != "" {
		return a + "-" + b
	}
	return ""
}

// cuttingKeys are the squares of the grid that are still open.
func (w Winter) cuttingKeys() []string {
	rows, columns := []string{"short", "middle", "long"}, []string{"early", "fall", "late"}
	if k := w.intervalKey(); k != "" {
		rows = []string{k}
	}
	if k := w.lastCutKey(); k != "" {
		columns = []string{k}
	}
	var out []string
	for _, r := range rows {
		for _, c := range columns {
			out = append(out, r+"-"+c)
		}
	}
	return out
}

func (w Winter) stubbleKey() string {
	switch {
	case w.Stubble == nil:
		return ""
	case *w.Stubble:
		return "stubble-yes"
	}
	return "stubble-no"
}
