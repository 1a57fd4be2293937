package water

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/unit"
)

// Span is a range with its middle.
type Span struct{ Low, High float64 }

// Mid is the middle of the range, taken where nothing nearer is known.
func (s Span) Mid() float64 { return (s.Low + s.High) / 2 }

// Texture is a kind of soil and the water it holds.
type Texture struct {
	Name     string
	Field    Span // at field capacity, m3/m3
	Wilting  Span // at wilting point, m3/m3
	Holds    Span // available between the two, mm in a metre of depth
	ReadyMM  Span // evaporates freely from the surface once wetted, mm
	SurfaceE Span // evaporates in all from the top 0.10 m, mm
}

// Textures lists the kinds of soil, the lightest first. What a soil holds is not its highest field
// capacity less its highest wilting point: the ranges do not move together; and the silty clay of the
// paper's own example 36 holds 120 mm, less than its range. Source: [source.SoilTexture], evaporation
// [source.CropWater].
func Textures() []Texture {
	return []Texture{
		{"sand", Span{0.07, 0.17}, Span{0.02, 0.07}, Span{50, 110}, Span{2, 7}, Span{6, 12}},
		{"loamy sand", Span{0.11, 0.19}, Span{0.03, 0.10}, Span{60, 120}, Span{4, 8}, Span{9, 14}},
		{"sandy loam", Span{0.18, 0.28}, Span{0.06, 0.16}, Span{110, 150}, Span{6, 10}, Span{15, 20}},
		{"loam", Span{0.20, 0.30}, Span{0.07, 0.17}, Span{130, 180}, Span{8, 10}, Span{16, 22}},
		{"silt loam", Span{0.22, 0.36}, Span{0.09, 0.21}, Span{130, 190}, Span{8, 11}, Span{18, 25}},
		{"silt", Span{0.28, 0.36}, Span{0.12, 0.22}, Span{160, 200}, Span{8, 11}, Span{22, 26}},
		{"silty clay loam", Span{0.30, 0.37}, Span{0.17, 0.24}, Span{130, 180}, Span{8, 11}, Span{22, 27}},
		{"silty clay", Span{0.30, 0.42}, Span{0.17, 0.29}, Span{130, 190}, Span{8, 12}, Span{22, 28}},
		{"clay", Span{0.32, 0.40}, Span{0.20, 0.24}, Span{120, 200}, Span{8, 12}, Span{22, 29}},
	}
}

// FindTexture returns the kind of soil with the given name.
func FindTexture(name string) (Texture, error) {
	all := Textures()
	i := slices.IndexFunc(all, func(t Texture) bool { return t.Name == strings.ToLower(strings.TrimSpace(name)) })
	if i >= 0 {
		return all[i], nil
	}
	names := make([]string, len(all))
	for i, t := range all {
		names[i] = t.Name
	}
	return Texture{}, fmt.Errorf("texture %q: accepted %s", name, strings.Join(names, ", "))
}

// Available is the water a root zone holds between field capacity and wilting point, in mm, as the
// range of its texture. Source: [source.SoilTexture].
func (t Texture) Available(roots unit.Metre) Span {
	return Span{t.Holds.Low * float64(roots), t.Holds.High * float64(roots)}
}

// Available is the water a root zone holds where its soil was measured: TAW = 1000 (field capacity -
// wilting point) depth, equation 82. Source: [source.SoilWater].
func Available(field, wilting float64, roots unit.Metre) (unit.Millimetre, error) {
	if !(wilting >= 0 && wilting < field && field <= 1) {
		return 0, fmt.Errorf("field capacity %g and wilting point %g: accepted shares of the soil's volume, the second below the first", field, wilting)
	}
	if !(roots > 0) {
		return 0, fmt.Errorf("roots %g m: accepted more than 0", roots)
	}
	const mmOfMetre = 1000
	return unit.Millimetre(mmOfMetre * (field - wilting) * float64(roots)), nil
}
