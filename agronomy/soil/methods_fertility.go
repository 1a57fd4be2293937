package soil

import (
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// numbers are the guides' coefficients by the key under which they are declared.
func (t *FertilityTables) numbers() []struct {
	key string
	at  *float64
	id  source.ID
} {
	i, n, o := &t.Illinois, &t.New, &t.Old
	type row = struct {
		key string
		at  *float64
		id  source.ID
	}
	const (
		ill, now, rest, old, most = source.SoilIllinois, source.SoilTriState2020, source.SoilTriStateRest, source.SoilTriState1995, source.SoilTriStateOld
	)
	return []row{
		{"ill_k_low", &i.TargetKLow, ill}, {"ill_k_high", &i.TargetKHigh, ill}, {"ill_per_p", &i.PerP, ill}, {"ill_per_k", &i.PerK, ill},
		{"ill_removal_p", &i.RemovalP, ill}, {"ill_removal_k", &i.RemovalK, ill},
		{"new_p", &n.P, now}, {"new_k_low", &n.KLow, now}, {"new_k_high", &n.KHigh, now}, {"new_per_p", &n.PerP, rest}, {"new_per_k", &n.PerK, rest},
		{"new_removal_p", &n.RemovalP, rest}, {"new_removal_k", &n.RemovalK, now}, {"new_plus", &n.Plus, rest}, {"potash_cap", &n.Most, rest},
		{"old_p", &o.P, old}, {"old_k", &o.KBase, most}, {"old_k_slope", &o.KSlope, most}, {"old_plateau_p", &o.PlateauP, most}, {"old_draw_p", &o.DrawP, most},
		{"old_plateau_k", &o.PlateauK, most}, {"old_draw_k", &o.DrawK, most}, {"old_per_p", &o.PerP, most}, {"old_per_k", &o.PerK, most},
		{"old_removal_p", &o.RemovalP, most}, {"old_removal_k", &o.RemovalK, most}, {"old_plus", &o.Plus, most},
	}
}

func fertilityConstants() []method.Constant {
	t := PublishedFertilityTables()
	var list []method.Constant
	for _, r := range t.numbers() {
		list = append(list, method.Constant{Key: r.key, Value: *r.at, Source: r.id})
	}
	for _, region := range []Region{HighSupply, MediumSupply, LowSupply} {
		list = append(list, method.Constant{Key: "ill_p_" + string(region), Value: t.Illinois.TargetP[region], Source: source.SoilIllinois})
	}
	clover, alfalfa := t.Minnesota[RedClover], t.Minnesota[Alfalfa]
	return append(
		list,
		method.Constant{Key: "mn_clover_bray_a", Value: clover.PerTonBray, Source: source.SoilMinnesota}, method.Constant{Key: "mn_clover_bray", Value: clover.Bray, Source: source.SoilMinnesota},
		method.Constant{Key: "mn_clover_olsen", Value: clover.Olsen, Source: source.SoilMinnesota},
		method.Constant{Key: "mn_clover_k_a", Value: clover.PerTonK, Source: source.SoilMinnesotaRest}, method.Constant{Key: "mn_clover_k", Value: clover.K, Source: source.SoilMinnesotaRest},
		method.Constant{Key: "mn_alfalfa_bray_a", Value: alfalfa.PerTonBray, Source: source.SoilMinnesotaRest}, method.Constant{Key: "mn_alfalfa_bray", Value: alfalfa.Bray, Source: source.SoilMinnesotaRest},
		method.Constant{Key: "mn_alfalfa_k_a", Value: alfalfa.PerTonK, Source: source.SoilMinnesotaRest}, method.Constant{Key: "mn_alfalfa_k", Value: alfalfa.K, Source: source.SoilMinnesotaRest},
		method.Constant{Key: "m3_per_bray", Value: PublishedExtraction().M3PerBray, Source: source.SoilExtractants},
		method.Constant{Key: "m3_per_acetate", Value: PublishedExtraction().M3PerAcetate, Source: source.SoilExtractants},
	)
}

func fertilityTablesOf(c *method.Call) (FertilityTables, Extraction) {
	t := PublishedFertilityTables()
	for _, r := range t.numbers() {
		*r.at = c.K(r.key)
	}
	for _, region := range []Region{HighSupply, MediumSupply, LowSupply} {
		t.Illinois.TargetP[region] = c.K("ill_p_" + string(region))
	}
	clover, alfalfa := t.Minnesota[RedClover], t.Minnesota[Alfalfa]
	clover.PerTonBray, clover.PerTonOlsen, clover.Bray, clover.Olsen, clover.PerTonK, clover.K = c.K("mn_clover_bray_a"), c.K("mn_clover_bray_a"), c.K("mn_clover_bray"), c.K("mn_clover_olsen"), c.K("mn_clover_k_a"), c.K("mn_clover_k")
	alfalfa.PerTonBray, alfalfa.Bray, alfalfa.PerTonK, alfalfa.K = c.K("mn_alfalfa_bray_a"), c.K("mn_alfalfa_bray"), c.K("mn_alfalfa_k_a"), c.K("mn_alfalfa_k")
	t.Minnesota[RedClover], t.Minnesota[Alfalfa] = clover, alfalfa
	x := PublishedExtraction()
	x.M3PerBray, x.M3PerAcetate = c.K("m3_per_bray"), c.K("m3_per_acetate")
	return t, x
}

func fertility() *method.Method {
	return &method.Method{
		Name: "phosphorus-potassium", Title: "Phosphate and potash in a year",
		About: "What one guide gives a legume by its soil test and yield goal: build-up and removal. A test by another extractant is turned into the guide's and said so; an Olsen test is never turned. A guide whose table is not in the program refuses.",
		Inputs: []method.Input{
			{Key: "guide", About: "whose table", Kind: method.Word, Choices: names(FertilityGuides())},
			{Key: "crop", About: "what grows", Kind: method.Word, Choices: []string{string(Alfalfa), string(RedClover)}, Default: string(Alfalfa)},
			{Key: "p", About: "phosphorus test, in the unit said", Accepted: method.Range{Low: 0, High: 800}, Tested: method.Range{Low: 0, High: 200}},
			{Key: "k", About: "potassium test, in the unit said", Accepted: method.Range{Low: 0, High: 2400}, Tested: method.Range{Low: 0, High: 800}},
			{Key: "extractant", About: "of both; olsen of phosphorus beside acetate of potassium", Kind: method.Word, Choices: []string{"bray", "mehlich3", "olsen", "acetate"}},
			{Key: "unit", About: "of both", Kind: method.Word, Choices: []string{"ppm", "lb/ac"}, Default: "ppm"},
			{Key: "cec", About: "exchange capacity", Unit: unit.Must("meq/100g"), Accepted: method.Range{Low: 1, High: 60}, Optional: true},
			{Key: "yield", About: "yield goal, dry matter", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.1, High: 15}, Tested: method.Range{Low: 1, High: 8}},
			{Key: "region", About: "phosphorus supply of the subsoil, for illinois", Kind: method.Word, Choices: []string{string(HighSupply), string(MediumSupply), string(LowSupply)}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "p2o5", About: "phosphate to spread in a year", Unit: unit.Must("lb/ac"), Decimals: 1},
			{Key: "k2o", About: "potash to spread in a year", Unit: unit.Must("lb/ac"), Decimals: 1},
			{Key: "parts", About: "how the potash is put on"},
		},
		Constants: fertilityConstants(),
		Sources:   []source.ID{source.SoilIllinois, source.SoilTriState2020, source.SoilTriStateRest, source.SoilTriState1995, source.SoilTriStateOld, source.SoilMinnesota, source.SoilMinnesotaRest, source.SoilExtractants, source.SoilExtractLab, source.SoilSlice, source.PotashSplit, source.PotashTiming},
		Example:   "guide=tri-state-2020 p=18 k=85 extractant=mehlich3 cec=12 yield=5",
		Run: func(c *method.Call) error {
			f := Fertility{Crop: Crop(c.Word("crop")), CEC: unit.MeqSoil(c.Num("cec")), Yield: unit.TonAcre(c.Num("yield")), Region: Region(c.Word("region"))}
			p, k := c.Num("p"), c.Num("k")
			if c.Word("unit") == "lb/ac" {
				p, k = p/PerPPM, k/PerPPM
			}
			bray, olsen, m3p, m3k, acetate := unit.PPMBray(p), unit.PPMOlsen(p), unit.PPMM3P(p), unit.PPMM3K(k), unit.PPMAcetate(k)
			f.K.Acetate = &acetate
			switch c.Word("extractant") {
			case "mehlich3":
				f.P.Mehlich3, f.K = &m3p, Potassium{Mehlich3: &m3k}
			case "olsen":
				f.P.Olsen = &olsen
			default: // Bray of phosphorus and acetate of potassium go together
				f.P.Bray = &bray
			}
			t, x := fertilityTablesOf(c)
			a, err := t.Give(FertilityGuide(c.Word("guide")), f, x)
			if err != nil {
				return err
			}
			for _, n := range a.Notes {
				c.Note("%s", n)
			}
			if a.BuildP+a.BuildK > 0 {
				c.Note("of it %.0f lb of P2O5 and %.0f of K2O build the test up", a.BuildP, a.BuildK)
			}
			if a.RawK2O > a.K2O {
				c.Note("without the cap the guide gives %.0f lb of K2O", a.RawK2O)
			}
			c.Answer("p2o5", float64(a.P2O5))
			c.Answer("k2o", float64(a.K2O))
			c.Answer("parts", a.Parts)
			return nil
		},
	}
}

func removal() *method.Method {
	lb := unit.Must("lb/ac")
	var books []string
	for _, c := range []Crop{Alfalfa, RedClover} {
		books = append(books, BookNames(c)...)
	}
	books = unique(books)
	var constants []method.Constant
	for _, b := range PublishedBooks() {
		at := fmt.Sprintf("%s_%s", b.Crop, b.Name)
		constants = append(constants, method.Constant{Key: at + "_p", Value: b.PerTon.P2O5, Unit: "lb/ton", Source: b.Source, Exempt: exemptRemoval}, method.Constant{Key: at + "_k", Value: b.PerTon.K2O, Unit: "lb/ton", Source: b.Source, Exempt: exemptRemoval})
	}
	return &method.Method{
		Name: "removal", Title: "What a yield takes away",
		About: "Pounds of nutrients that leave an acre with so many tons of dry matter: by a printed table, or better by the farm's own forage test, a table filling what was not tested. Tables differ by half in potash.",
		Inputs: []method.Input{
			{Key: "crop", About: "what was cut", Kind: method.Word, Choices: []string{string(Alfalfa), string(RedClover)}, Default: string(Alfalfa)},
			{Key: "yield", About: "dry matter taken", Unit: unit.Must("tons/ac"), Accepted: method.Range{Low: 0.05, High: 15}, Tested: method.Range{Low: 0.3, High: 9}},
			{Key: "source", About: "whose table", Kind: method.Word, Choices: books, Default: "ipni"},
			{Key: "p", About: "phosphorus of the forage test", Unit: unit.Must("%"), Accepted: method.Range{Low: 0.05, High: 0.8}, Optional: true},
			{Key: "k", About: "potassium of the forage test", Unit: unit.Must("%"), Accepted: method.Range{Low: 0.3, High: 6}, Optional: true},
			{Key: "s", About: "sulfur of the forage test", Unit: unit.Must("%"), Accepted: method.Range{Low: 0.05, High: 0.8}, Optional: true},
			{Key: "b", About: "boron of the forage test", Unit: unit.Must("ppm"), Accepted: method.Range{Low: 2, High: 200}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "p2o5", About: "phosphate", Unit: lb, Decimals: 1}, {Key: "k2o", About: "potash", Unit: lb, Decimals: 1}, {Key: "s", About: "sulfur", Unit: lb, Decimals: 1},
			{Key: "mg", About: "magnesium", Unit: lb, Decimals: 1}, {Key: "ca", About: "calcium", Unit: lb, Decimals: 1}, {Key: "b", About: "boron", Unit: lb, Decimals: 2},
		},
		Constants: constants,
		Sources:   []source.ID{source.RemovalTriState, source.RemovalTriState95, source.RemovalWisconsin, source.RemovalRecalled, source.RemovalPPI, source.RemovalKentucky, source.RemovalMinor, source.RemovalAnalysis},
		Example:   "yield=5 source=tri-state-2020",
		Run: func(c *method.Call) error {
			crop, name, yield := Crop(c.Word("crop")), c.Word("source"), unit.TonAcre(c.Num("yield"))
			r, err := ByAnalysis(Analysis{P: c.Num("p"), K: c.Num("k"), S: c.Num("s"), B: c.Num("b")}, name, crop, yield)
			if err != nil {
				return err
			}
			_, b, err := ByBook(name, crop, yield)
			if err != nil {
				return err
			}
			if b.AsHay {
				c.Note("the table is by the ton of hay, taken at 12 %% moisture")
			}
			if crop == RedClover {
				c.Note("red clover's sulfur, magnesium, calcium and boron are recalled and not read")
			}
			for key, v := range map[string]float64{"p2o5": r.P2O5, "k2o": r.K2O, "s": r.S, "mg": r.Mg, "ca": r.Ca, "b": r.B} {
				c.Answer(key, v)
			}
			return nil
		},
	}
}

// exemptRemoval is why a table's entries are not moved by the mutation test.
const exemptRemoval = "an entry of a printed table, proven entry by entry"

func unique(all []string) (out []string) {
	seen := map[string]bool{}
	for _, v := range all {
		if !seen[v] {
			seen[v], out = true, append(out, v)
		}
	}
	return out
}

func manureCredit() *method.Method {
	var kinds []string
	var constants []method.Constant
	for _, m := range PublishedManures() {
		kinds = append(kinds, m.Kind)
		constants = append(constants, method.Constant{Key: m.Kind + "_p", Value: m.P2O5, Source: m.Source, Exempt: exemptRemoval}, method.Constant{Key: m.Kind + "_k", Value: m.K2O, Source: m.Source, Exempt: exemptRemoval})
	}
	return &method.Method{
		Name: "manure-credit", Title: "What manure brings",
		About: "Phosphate and potash that a rate of manure brings an acre in the first year, by a printed book or by a laboratory's analysis, which goes before.",
		Inputs: []method.Input{
			{Key: "kind", About: "kind of manure and whose book", Kind: method.Word, Choices: kinds, Default: kinds[0]},
			{Key: "rate", About: "spread: tons an acre of solid, 1,000 gal an acre of liquid", Accepted: method.Range{Low: 0, High: 60}, Tested: method.Range{Low: 0, High: 20}},
			{Key: "availability", About: "share of P and K to be had in the first year", Accepted: method.Range{Low: 0.01, High: 1}, Default: "0.8"},
			{Key: "p2o5", About: "phosphate by analysis, a ton or 1,000 gal", Unit: unit.Must("lb/unit"), Accepted: method.Range{Low: 0.1, High: 200}, Optional: true},
			{Key: "k2o", About: "potash by analysis, a ton or 1,000 gal", Unit: unit.Must("lb/unit"), Accepted: method.Range{Low: 0.1, High: 200}, Optional: true},
		},
		Outputs: []method.Output{
			{Key: "p2o5", About: "phosphate brought", Unit: unit.Must("lb/ac"), Decimals: 1},
			{Key: "k2o", About: "potash brought", Unit: unit.Must("lb/ac"), Decimals: 1},
		},
		Constants: constants,
		Sources:   []source.ID{source.ManureMidwest, source.ManurePennsylv, source.ManureWisconsin, source.ManureTopdress, source.ManureLab},
		Example:   "kind=dairy-liquid rate=3",
		Run: func(c *method.Call) error {
			m, err := ManureKind(c.Word("kind"))
			if err != nil {
				return err
			}
			p, k, err := m.Credited(c.Num("rate"), c.Num("availability"), c.Num("p2o5"), c.Num("k2o"))
			if err != nil {
				return err
			}
			if m.Credit {
				c.Note("the book prints first-year credits: its values are not reduced again")
			}
			if most := map[bool]float64{true: MostLiquid, false: MostSolid}[m.Liquid]; c.Num("rate") > most {
				c.Note("on a growing stand at most %g at once, right after a cut, on dry ground", most)
			}
			c.Answer("p2o5", float64(p))
			c.Answer("k2o", float64(k))
			return nil
		},
	}
}

func tissue() *method.Method {
	m := &method.Method{
		Name: "tissue", Title: "What a tissue test says",
		About: "Each element of alfalfa's top growth by three printed tables, told apart: their lower edges do not agree. With the remedy where all find it low. Sample 35 to 50 stems, the top 4 to 6 in, before or at first bloom.",
		Outputs: []method.Output{
			{Key: "value", About: "what was found, % of dry matter; from boron on ppm", Decimals: 2},
			{Key: "range", About: "what each table says is enough"},
			{Key: "class", About: "low, enough or high"},
			{Key: "remedy", About: "what is done"},
		},
		Sources: []source.ID{source.TissueGeorgia, source.TissueAlberta, source.TissueTriState, source.TissueSulfur, source.TissueSulfurRatio, source.BoronTopdress, source.BoronPlacing, source.Molybdenum},
		Example: "s=0.22 k=1.6 p=0.31 b=26 n=3.3",
		Run:     runTissue,
	}
	about := map[Element]string{"n": "nitrogen", "p": "phosphorus", "k": "potassium", "ca": "calcium", "mg": "magnesium", "s": "sulfur", "b": "boron", "mn": "manganese", "fe": "iron", "cu": "copper", "zn": "zinc", "mo": "molybdenum"}
	for _, e := range Elements() {
		in := method.Input{Key: string(e), About: about[e], Unit: unit.Must("%"), Accepted: method.Range{Low: 0, High: 10}, Optional: true}
		if e.PPM() {
			in.Unit, in.Accepted = unit.Must("ppm"), method.Range{Low: 0, High: 2000}
		}
		m.Inputs = append(m.Inputs, in)
	}
	return m
}

func runTissue(c *method.Call) error {
	values := map[Element]float64{}
	for _, e := range Elements() {
		if c.Given(string(e)) {
			values[e] = c.Num(string(e))
		}
	}
	if len(values) == 0 {
		return fmt.Errorf("give at least one element: n, p, k, ca, mg, s in %%, b, mn, fe, cu, zn, mo in ppm")
	}
	all, err := Interpret(values)
	if err != nil {
		return err
	}
	var found []method.Pair
	var ranges, classes, remedies []string
	for _, j := range all {
		found = append(found, method.Pair{Name: string(j.Element), Value: j.Value})
		for _, t := range j.Tables {
			ranges = append(ranges, string(j.Element)+" "+t)
		}
		classes = append(classes, string(j.Element)+": "+j.Class)
		remedies = append(remedies, string(j.Element)+": "+j.Remedy)
	}
	if n, s := values["n"], values["s"]; n > 0 && s > 0 {
		switch ratio := n / s; {
		case ratio > SulfurRatio+1e-9:
			c.Note("nitrogen to sulfur is %.1f to 1: over %d tells want of sulfur", ratio, SulfurRatio)
		default:
			c.Note("nitrogen to sulfur is %.1f to 1: %d or less is enough", ratio, SulfurRatio)
		}
	}
	if cu, mo := values["cu"], values["mo"]; cu > 0 && mo > 0 && cu/mo < 6 {
		c.Note("copper to molybdenum is %.1f to 1: under 6 cattle may lack copper, under 2 they are in danger; ask a veterinarian", cu/mo)
	}
	c.Answer("value", found)
	c.Answer("range", ranges)
	c.Answer("class", classes)
	c.Answer("remedy", remedies)
	return nil
}
