package forage

import (
	"fmt"
	"math"
)

// digestibility holds digestibilities against each other and against what is left.
func (c *checker) digestibility() {
	for _, p := range [][2]string{{"ndfd30", "ndfd48"}, {"ndfd48", "ndfd240"}, {"ndfd30", "ndfd240"}} {
		if c.has(p[0], p[1]) && c.r[p[0]] > c.r[p[1]]+slack {
			c.wrong(p[0], "%s %.4g is over %s %.4g: more is digested in more time", p[0], c.r[p[0]], p[1], c.r[p[1]])
		}
	}
	fibre := "andfom"
	if !c.has(fibre) {
		fibre = "ndf"
	}
	if c.has("undf240", "ndfd240", fibre) {
		if want := c.r[fibre] * (100 - c.r["ndfd240"]) / 100; math.Abs(c.r["undf240"]-want) > undfApart+slack {
			c.warn("undf240", "undf240 %.1f: %s and ndfd240 leave %.1f", c.r["undf240"], fibre, want)
		}
	}
	if c.has("undf240", "lignin") && c.r["lignin"] > 0 {
		if v := c.r["undf240"] / c.r["lignin"]; v < undfLigninLow-slack || v > undfLigninHi+slack {
			c.warn("undf240", "undf240 is %.1f times lignin; %g to %g is usual", v, undfLigninLow, undfLigninHi)
		}
	}
	if c.has("ivtd", "ndf", "ndfd48") {
		if want := IVTD(c.r["ndf"], c.r["ndfd48"]); math.Abs(c.r["ivtd"]-want) > ivtdApart+slack {
			c.warn("ivtd", "ivtd %.1f: NDF and ndfd48 give %.1f", c.r["ivtd"], want)
		}
	}
}

// soilAndHeat looks for soil, heating and grass.
func (c *checker) soilAndHeat(kind CropKind) {
	if c.has("ndf", "andfom") && c.r["ndf"]-c.r["andfom"] > soilInNDF+slack {
		c.warn("andfom", "NDF holds %.1f %% of ash, over %g: soil in the sample", c.r["ndf"]-c.r["andfom"], soilInNDF)
	}
	if c.has("ash") {
		switch v := c.r["ash"]; {
		case v > ashMuchSoil+slack:
			c.warn("ash", "ash %.4g is over %g: much soil in the feed", v, ashMuchSoil)
		case v > ashSoil+slack:
			c.warn("ash", "ash %.4g is over %g: soil in the feed", v, ashSoil)
		}
	}
	if c.has("adicp", "cp") && c.r["cp"] > 0 {
		switch v := c.r["adicp"] / c.r["cp"]; {
		case v > heatedBadly+slack:
			c.warn("adicp", "%.1f %% of the protein is bound in ADF, over %.0f: badly heated", 100*v, 100*heatedBadly)
		case v > heated+slack:
			c.warn("adicp", "%.1f %% of the protein is bound in ADF, over %.0f: heated", 100*v, 100*heated)
		}
	}
	if kind == AlfalfaKind && c.has("ca") && c.r["ca"] < calciumGrass-slack {
		c.warn("ca", "calcium %.4g is under %g: there is grass in this alfalfa", c.r["ca"], calciumGrass)
	}
}

// derived reckons the indexes anew.
func (c *checker) derived() {
	if c.has("rfv", "adf", "ndf") && c.r["ndf"] > 0 {
		if want := PublishedFeedValue().Of(c.r["adf"], c.r["ndf"]); math.Abs(c.r["rfv"]-want) > rfvApart+slack {
			c.warn("rfv", "RFV %.0f: ADF and NDF give %.0f", c.r["rfv"], want)
		}
	}
	for _, code := range []string{"tdn", "nel", "nem", "neg"} {
		if c.has(code) {
			c.warn(code, "%s depends on the laboratory's equation, which is not known: compare within one laboratory only", code)
		}
	}
}

// CleanAsh is a share of dry matter as it would be at another ash: X (100 - to)/(100 - ash). It takes
// the soil out of a sample. Source: [source.AshInForage].
func CleanAsh(v, ash, to float64) float64 { return v * (100 - to) / (100 - ash) }

// Basis is what the shares of a report are of.
type Basis string

// The bases.
const (
	DryBasis Basis = "dm"
	FedBasis Basis = "as-fed"
)

// sumApart is how far the parts of a report may add up from a whole, %, and driest how dry a feed may be
// for the two bases to be told apart (choices).
const sumApart, driest = 3.0, 93.0

// BasisSeen tells from the numbers themselves whether a report is of dry matter or as fed, and by what.
// It is empty where they do not tell: the dry matter has to be known and well under 100.
func BasisSeen(r Report) (seen Basis, why string) {
	dm, ok := r.DM()
	if !ok || dm > driest {
		return "", ""
	}
	has := func(codes ...string) bool {
		for _, code := range codes {
			if _, ok := r[code]; !ok {
				return false
			}
		}
		return true
	}
	if has("ndf", "cp", "ee", "ash", "nfc") {
		sum := r["ndf"] + r["cp"] + r["ee"] + r["ash"] + r["nfc"]
		free := sum - r["ndicp"]
		if !has("ndicp") {
			free = sum - BoundShare*r["ndf"]
		}
		near := func(to float64) bool { return math.Abs(sum-to) <= sumApart || math.Abs(free-to) <= sumApart }
		dry, fed := near(100), near(dm)
		say := fmt.Sprintf("NDF, protein, fat, ash and NFC add up to %.1f", sum)
		switch {
		case dry && !fed:
			return DryBasis, say + " and not to its dry matter"
		case fed && !dry:
			return FedBasis, say + fmt.Sprintf(", its dry matter %.4g", dm)
		}
	}
	if has("rfv", "adf", "ndf") && r["ndf"] > 0 {
		k := PublishedFeedValue()
		asIs, turned := k.Of(r["adf"], r["ndf"]), k.Of(r["adf"]*100/dm, r["ndf"]*100/dm)
		dry, fed := math.Abs(r["rfv"]-asIs) <= rfvApart, math.Abs(r["rfv"]-turned) <= rfvApart
		switch {
		case dry && !fed:
			return DryBasis, fmt.Sprintf("its RFV %.0f is that of its fibre as it stands", r["rfv"])
		case fed && !dry:
			return FedBasis, fmt.Sprintf("its RFV %.0f is that of its fibre over its dry matter", r["rfv"])
		}
	}
	ndf, known := r["ndf"]
	f, _ := FieldOf("ndf")
	switch {
	case known && ndf < f.Low && ndf*100/dm >= f.Low && ndf*100/dm <= f.High:
		return FedBasis, fmt.Sprintf("NDF %.4g is less than any forage has, and %.1f of its dry matter", ndf, ndf*100/dm)
	case known && ndf*100/dm > f.High && ndf <= f.High:
		return DryBasis, fmt.Sprintf("NDF %.4g would be %.0f of its dry matter, more than any forage has", ndf, ndf*100/dm)
	}
	return "", ""
}
