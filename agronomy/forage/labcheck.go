package forage

import (
	"errors"
	"fmt"
	"math"
)

var errNoDM = errors.New("values as fed want the dry matter (dm, 10 to 98 %) to be turned into dry matter")

// Level is how bad a flag is.
type Level string

// The levels: an error cannot be true; a warning is unlikely, or worth knowing before the number is used.
const (
	Wrong   Level = "error"
	Warning Level = "warning"
)

// Flag is something about a report that its reader should know.
type Flag struct {
	Level Level
	Field string // code of the field to look at first
	Text  string
}

// String says the level and what is the matter.
func (f Flag) String() string { return string(f.Level) + ": " + f.Text }

// CropKind is what the sample is said to be of: it has its own usual proportions.
type CropKind string

// The kinds.
const (
	AlfalfaKind CropKind = "alfalfa"
	CloverKind  CropKind = "red clover"
	MixtureKind CropKind = "mixture"
	GrassKind   CropKind = "grass"
)

// said is the kind in a sentence.
func (k CropKind) said() string {
	if k == MixtureKind {
		return "a mixture"
	}
	return string(k)
}

// CropKinds lists them.
func CropKinds() []CropKind { return []CropKind{AlfalfaKind, CloverKind, MixtureKind, GrassKind} }

// usualRatio gives the usual ADF/NDF and lignin/NDF by kind; no lignin is known of mixtures.
// Source: [source.LabRatios].
var usualRatio = map[CropKind]struct{ adf, lignin [2]float64 }{
	AlfalfaKind: {[2]float64{0.70, 0.85}, [2]float64{0.13, 0.20}},
	CloverKind:  {[2]float64{0.68, 0.82}, [2]float64{0.09, 0.15}},
	MixtureKind: {[2]float64{0.60, 0.78}, [2]float64{}},
	GrassKind:   {[2]float64{0.52, 0.66}, [2]float64{0.05, 0.10}},
}

// Limits of the checks, [source.LabChecks].
const (
	nfcApart      = 1.0  // NFC reported and reckoned, % of DM
	undfApart     = 1.0  // undigested NDF reported and reckoned, % of DM
	sugarOver     = 2.0  // starch and sugar over NFC, % of DM
	rfvApart      = 2.0  // RFV reported and reckoned, points
	ivtdApart     = 1.5  // true digestibility reported and reckoned, % of DM
	soilInNDF     = 3.0  // ash in NDF that soil alone explains, % of DM
	ashSoil       = 12.0 // % of DM
	ashMuchSoil   = 15.0
	heated        = 0.12 // ADICP of CP
	heatedBadly   = 0.15
	calciumGrass  = 0.8 // % of DM, less of which is no pure alfalfa
	undfLigninLow = 1.6
	undfLigninHi  = 3.2
	slack         = 1e-9
)

// checker gathers flags over one report.
type checker struct {
	r     Report
	flags []Flag
}

func (c *checker) has(codes ...string) bool {
	for _, code := range codes {
		if _, ok := c.r[code]; !ok {
			return false
		}
	}
	return true
}

func (c *checker) wrong(field, format string, args ...any) {
	c.flags = append(c.flags, Flag{Wrong, field, fmt.Sprintf(format, args...)})
}

func (c *checker) warn(field, format string, args ...any) {
	c.flags = append(c.flags, Flag{Warning, field, fmt.Sprintf(format, args...)})
}

// CheckReport says what is wrong with a report on a dry-matter basis, and what is unlikely in it; kind
// may be empty. Every check is made for which the numbers are there.
func CheckReport(r Report, kind CropKind) []Flag {
	c := &checker{r: r}
	c.ranges()
	c.parts()
	c.proportions(kind)
	c.carbohydrate()
	c.digestibility()
	c.soilAndHeat(kind)
	c.derived()
	return c.flags
}

// ranges holds each number to what a forage can have.
func (c *checker) ranges() {
	for _, f := range LabFields() {
		v, ok := c.r[f.Code]
		switch {
		case !ok:
		case math.IsNaN(v) || v < f.Low-slack || v > f.High+slack:
			c.wrong(f.Code, "%s %.4g: accepted %s", f.Code, v, f.Accepted())
		}
	}
}

// parts holds what is a part of another to less than the whole.
func (c *checker) parts() {
	for _, p := range []struct {
		part, whole, say string
		equal            bool
	}{
		{"adf", "ndf", "ADF is a part of NDF, check which is which", false},
		{"adf", "andfom", "ADF is a part of NDF, check which is which", false},
		{"lignin", "adf", "lignin is a part of ADF", false},
		{"adicp", "ndicp", "protein bound in ADF is bound in NDF too", true},
		{"ndicp", "cp", "protein bound in NDF is a part of protein", true},
		{"adicp", "cp", "protein bound in ADF is a part of protein", true},
		{"acp", "cp", "available protein is a part of protein", true},
		{"undf240", "ndf", "what is left of NDF is a part of it", true},
		{"esc", "wsc", "simple sugars are a part of those soluble in water", true},
	} {
		if !c.has(p.part, p.whole) {
			continue
		}
		a, b := c.r[p.part], c.r[p.whole]
		if a > b+slack || !p.equal && a >= b {
			c.wrong(p.part, "%s %.4g is not under %s %.4g: %s", p.part, a, p.whole, b, p.say)
		}
	}
	if c.has("ndf", "cp", "ee", "ash") {
		sum := c.r["ndf"] + c.r["cp"] + c.r["ee"] + c.r["ash"]
		if sum > 100+c.bound()+slack {
			c.wrong("ndf", "NDF, protein, fat and ash add up to %.1f %%, over 100 and the %.1f %% of protein that is in NDF", sum, c.bound())
		}
	}
	if c.has("andfom", "ndf") && c.r["andfom"] > c.r["ndf"]+slack {
		c.wrong("andfom", "NDF free of ash %.4g is over NDF with ash %.4g", c.r["andfom"], c.r["ndf"])
	}
}

// bound is protein bound in NDF, estimated where it was not reported.
func (c *checker) bound() float64 {
	if v, ok := c.r["ndicp"]; ok {
		return v
	}
	return BoundShare * c.r["ndf"]
}

// proportions holds ADF and lignin to what is usual of the kind.
func (c *checker) proportions(kind CropKind) {
	u, known := usualRatio[kind]
	if !known || c.r["ndf"] == 0 {
		return
	}
	check := func(code string, usual [2]float64) {
		if v := c.r[code] / c.r["ndf"]; c.has(code) && usual[1] > 0 && (v < usual[0]-slack || v > usual[1]+slack) {
			c.warn(code, "%s is %.2f of NDF; %.2f to %.2f is usual of %s: is it that?", code, v, usual[0], usual[1], kind.said())
		}
	}
	check("adf", u.adf)
	check("lignin", u.lignin)
}

// carbohydrate holds what is not fibre against what is left for it.
func (c *checker) carbohydrate() {
	if c.has("nfc", "ndf", "cp", "ee", "ash") {
		whole := 100 - c.r["ndf"] - c.r["cp"] - c.r["ee"] - c.r["ash"]
		free := whole + c.bound()
		switch v := c.r["nfc"]; {
		case math.Abs(v-free) <= nfcApart+slack:
		case math.Abs(v-whole) <= nfcApart+slack:
			c.warn("nfc", "NFC %.1f was reckoned with the whole NDF; with NDF free of protein it is %.1f", v, free)
		default:
			c.warn("nfc", "NFC %.1f: the other values leave %.1f, or %.1f with the whole NDF", v, free, whole)
		}
	}
	if c.has("nfc", "starch", "wsc") && c.r["starch"]+c.r["wsc"] > c.r["nfc"]+sugarOver+slack {
		c.warn("nfc", "starch and sugar %.1f are over the NFC %.1f they are part of", c.r["starch"]+c.r["wsc"], c.r["nfc"])
	}
	if c.has("fa", "ee") && c.r["fa"] > c.r["ee"]+slack {
		c.warn("fa", "fatty acids %.4g are over the crude fat %.4g they are part of", c.r["fa"], c.r["ee"])
	}
}
