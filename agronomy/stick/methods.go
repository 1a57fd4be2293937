package stick

import (
	_ "embed"
	"fmt"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

//go:embed proofs.csv
var proofs string

// Proofs returns the printed answers that this discipline's methods must reproduce.
func Proofs() string { return proofs }

// Methods declares the calculations of this discipline.
func Methods() []*method.Method { return []*method.Method{spot(), field()} }

var (
	percentDM = unit.Must("%")
	points    = unit.Must("RFV")
)

// lineConstants declares the coefficients of the lines and of the error of the method.
func lineConstants() []method.Constant {
	m := Published()
	var all []method.Constant
	for _, k := range []struct {
		key   string
		value float64
		unit  string
	}{
		{"ndf_per_cm", m.NDFPerCM, "% of DM a cm"}, {"adf_per_cm", m.ADFPerCM, "% of DM a cm"},
		{"ndf_vegetative", m.NDFVegetative, "% of DM"}, {"ndf_bud", m.NDFBud, "% of DM"}, {"ndf_flower", m.NDFFlower, "% of DM"},
		{"adf_vegetative", m.ADFVegetative, "% of DM"}, {"adf_bud", m.ADFBud, "% of DM"}, {"adf_flower", m.ADFFlower, "% of DM"},
	} {
		all = append(all, method.Constant{Key: k.key, Value: k.value, Unit: k.unit, Source: source.StickFit})
	}
	return append(all,
		method.Constant{Key: "sd_ndf", Value: m.SDNDF, Unit: "% of DM", Source: source.StickSpread},
		method.Constant{Key: "sd_adf", Value: m.SDADF, Unit: "% of DM", Source: source.StickSpread},
		method.Constant{Key: "corr", Value: m.Corr, Source: source.StickSpread},
		method.Constant{Key: "late_factor", Value: m.LateFactor, Source: source.StickSpread},
	)
}

// modelOf is the published model with the constants of the call.
func modelOf(c *method.Call) Model {
	m := Published()
	m.NDFPerCM, m.ADFPerCM = c.K("ndf_per_cm"), c.K("adf_per_cm")
	m.NDFVegetative, m.NDFBud, m.NDFFlower = c.K("ndf_vegetative"), c.K("ndf_bud"), c.K("ndf_flower")
	m.ADFVegetative, m.ADFBud, m.ADFFlower = c.K("adf_vegetative"), c.K("adf_bud"), c.K("adf_flower")
	m.SDNDF, m.SDADF, m.Corr, m.LateFactor = c.K("sd_ndf"), c.K("sd_adf"), c.K("corr"), c.K("late_factor")
	return m
}

var stages = []string{string(Vegetative), string(Bud), string(Flower)}

var (
	acceptedHeights = method.Range{Low: float64(acceptedLow), High: float64(acceptedHigh)}
	testedHeights   = method.Range{Low: float64(testedLow), High: float64(testedHigh)}
)

func cutInput() method.Input {
	return method.Input{
		Key: "cut", About: "which cut of the year, 1 being the first", Default: "1",
		Accepted: method.Range{Low: 1, High: 10},
	}
}

// cutOf reads the cut, which is counted in whole numbers.
func cutOf(c *method.Call) (int, error) {
	v := c.Num("cut")
	if v != float64(int(v)) {
		return 0, fmt.Errorf("cut %g: cuts are counted in whole numbers, 1 being the first", v)
	}
	return int(v), nil
}

// caution is said with every answer.
func caution(c *method.Call, cut int) {
	c.Note("pure, healthy alfalfa only: not for mixtures or red clover, nor after frost, lodging or drought; a guide to cutting, not for rations or sale")
	if cut >= firstLateCut {
		c.Note("cut %d: error taken %g times as wide; Michigan found the method wanting in third cuts, Ohio acceptable all season", cut, c.K("late_factor"))
	}
}

func spot() *method.Method {
	return &method.Method{
		Name:  "stick",
		Title: "Height and stage to feed value",
		About: "Fibre and relative feed value of standing alfalfa at one spot, from its tallest stem and its most mature stem. " +
			"For pure stands, to time a cut; what is stored tests lower.",
		Inputs: []method.Input{
			{Key: "height", About: "tallest stem, soil to stem tip, straightened", Unit: unit.Must("in"), Accepted: acceptedHeights, Tested: testedHeights},
			{Key: "stage", About: "stage of the most mature stem, which may be another one", Kind: method.Word, Choices: stages},
			cutInput(),
		},
		Outputs: []method.Output{
			{Key: "ndf", About: "neutral detergent fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "adf", About: "acid detergent fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "rfv", About: "relative feed value of the standing crop", Unit: points},
			{Key: "sd_rfv", About: "error of the method, one standard deviation", Unit: points},
		},
		Constants: lineConstants(),
		Sources:   []source.ID{source.StickTable, source.StickNDF, source.StickFit, source.StickSpread, source.RFVFormula},
		Example:   "height=27 stage=bud",
		Run: func(c *method.Call) error {
			cut, err := cutOf(c)
			if err != nil {
				return err
			}
			m := modelOf(c)
			x, err := m.Spot(unit.Inch(c.Num("height")), Stage(c.Word("stage")))
			if err != nil {
				return err
			}
			c.Answer("ndf", x.NDF)
			c.Answer("adf", x.ADF)
			c.Answer("rfv", m.RFV(x))
			c.Answer("sd_rfv", m.MethodSD(x, cut))
			caution(c, cut)
			return nil
		},
	}
}

func field() *method.Method {
	return &method.Method{
		Name:  "stick-field",
		Title: "Feed value of a field from several spots",
		About: "Mean fibre and relative feed value of a field of standing alfalfa read at several spots, with the error from the spots and that of the method. " +
			"Five spots are usual, more over 30 acres.",
		Inputs: []method.Input{
			{Key: "readings", About: "tallest stem and stage of the most mature stem at each spot", Kind: method.Readings, Unit: unit.Must("in"), Choices: stages, Accepted: acceptedHeights, Tested: testedHeights},
			cutInput(),
		},
		Outputs: []method.Output{
			{Key: "rfv", About: "relative feed value, mean of the spots", Unit: points},
			{Key: "ndf", About: "neutral detergent fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "adf", About: "acid detergent fibre, % of DM", Unit: percentDM, Decimals: 1},
			{Key: "spot_se", About: "error from the difference between spots", Unit: points, Decimals: 1},
			{Key: "method_sd", About: "error of the method, the same at every spot", Unit: points, Decimals: 1},
			{Key: "sd_rfv", About: "both errors together, one standard deviation", Unit: points, Decimals: 1},
			{Key: "n", About: "spots read"},
		},
		Constants: append(lineConstants(), method.Constant{Key: "spot_sd", Value: Published().SpotSD, Unit: "RFV", Source: source.SpotSpread}),
		Sources:   []source.ID{source.StickTable, source.StickNDF, source.StickFit, source.StickSpread, source.SpotSpread, source.RFVFormula},
		Example:   "readings=27:bud,25:vegetative,30:bud,28:vegetative,26:bud",
		Run: func(c *method.Call) error {
			cut, err := cutOf(c)
			if err != nil {
				return err
			}
			var readings []Reading
			for _, r := range c.Readings("readings") {
				readings = append(readings, Reading{unit.Inch(r.Height), Stage(r.Stage)})
			}
			m := modelOf(c)
			m.SpotSD = c.K("spot_sd")
			f, err := m.Field(readings, cut)
			if err != nil {
				return err
			}
			c.Answer("rfv", f.RFV)
			c.Answer("ndf", f.NDF)
			c.Answer("adf", f.ADF)
			c.Answer("spot_se", f.SpotSE)
			c.Answer("method_sd", f.MethodSD)
			c.Answer("sd_rfv", f.SD)
			c.Answer("n", f.N)
			if f.N == 1 {
				c.Note("one spot does not show how uneven the field is: %g RFV between spots is taken, a choice; read five", m.SpotSD)
			}
			caution(c, cut)
			return nil
		},
	}
}
