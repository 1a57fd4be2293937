package regrowth

import "haywarden/agronomy/forage"

// Sort is a kind of stand that the model is run for. All but alfalfa are estimates: see
// [source.GrowthClover].
type Sort string

// The kinds.
const (
	Alfalfa      Sort = "alfalfa"
	RedClover    Sort = "red-clover"
	AlfalfaGrass Sort = "alfalfa-grass"
)

// Sorts lists them.
func Sorts() []string { return []string{string(Alfalfa), string(RedClover), string(AlfalfaGrass)} }

// settleFor sets the model to a kind of stand: red clover's field mass is 0.85 of alfalfa's.
func (m *Model) settleFor(s Sort) {
	const redClover = 0.85
	if s == RedClover {
		m.Field *= redClover
		m.Shed *= redClover
	}
}

// Quality is the composition of the standing crop: fibre by the stick's function of height and stage,
// protein by stage. Red clover is taken as alfalfa of its stage less 2 points of each; the fibre of an
// alfalfa-grass stand is that of its alfalfa.
func (m *Model) Quality(c *Crop, s Sort) forage.Quality {
	stage := m.StageOf(c)
	fibre := m.Stick.At(c.Height, stage)
	q := forage.Quality{NDF: fibre.NDF, ADF: fibre.ADF, CP: m.CP(stage)}
	if s == RedClover {
		return forage.RedClover(q)
	}
	return q
}
