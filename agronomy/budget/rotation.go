package budget

import "fmt"

// Stand is a stand's money by age.
type Stand struct {
	Yields         []float64 // tons DM/ac by age, the seeding year first
	Price, Harvest float64   // $/ton DM
	Fixed          float64   // $/ac a year
	Establishment  float64   // $/ac, instead of Fixed in the seeding year
}

// Margins are $ an acre by age: Y (price - harvest) - fixed.
func (s Stand) Margins() []float64 {
	list := make([]float64, len(s.Yields))
	for i, y := range s.Yields {
		fixed := s.Fixed
		if i == 0 {
			fixed = s.Establishment
		}
		list[i] = y*(s.Price-s.Harvest) - fixed
	}
	return list
}

// Ending is what ending a stand leaves for the corn after it.
type Ending struct {
	Nitrogen    float64 // $/lb N
	Benefit     float64 // of the rotation beyond nitrogen, $/ac
	Termination float64 // $/ac
	Second      float64 // nitrogen credit of the second year as a share of the first
}

// HalfAgain is the second year's credit as a share of the first. Source: [source.SecondCredit].
const HalfAgain = 0.5

// Salvage is $ an acre by the credit, lb N/ac, of each age; the second year's is discounted.
func (e Ending) Salvage(credits []float64, rate float64) []float64 {
	list := make([]float64, len(credits))
	for i, lb := range credits {
		list[i] = lb*e.Nitrogen*(1+e.Second/(1+rate)) + e.Benefit - e.Termination
	}
	return list
}

// Corn is the corn after a stand, $ an acre, with all its nitrogen bought.
type Corn struct {
	Yield, Price, Cost float64   // bu/ac, $/bu, $/ac
	Bump               []float64 // yield after alfalfa over continuous corn, by year of corn
}

// Margins are the two years' margins with a nitrogen credit taken off.
func (c Corn) Margins(credit float64, e Ending) []float64 {
	list := make([]float64, len(c.Bump))
	share := 1.
	for i, b := range c.Bump {
		list[i] = c.Yield*b*c.Price - c.Cost + share*credit*e.Nitrogen
		share *= e.Second
	}
	return list
}

// Rotation is the EAE of alfalfa kept 1, 2 ... years and then corn, over all years of both. Seeding is
// spread over the corn years too, so the best age is higher than of alfalfa after alfalfa: always say
// which chain is meant. The corn carries the nitrogen, so no salvage is added; termination is paid at
// the end of the last alfalfa year. Source: [source.EqualAnnual].
func Rotation(margins, credits []float64, corn Corn, e Ending, rate float64) (eae []float64, best int, err error) {
	if err := checkYears(margins, rate); err != nil {
		return nil, 0, err
	}
	if len(credits) != len(margins) {
		return nil, 0, fmt.Errorf("%d nitrogen credits for %d years: want one for each age", len(credits), len(margins))
	}
	for n := range margins {
		cash := append([]float64{}, margins[:n+1]...)
		cash[n] -= e.Termination
		cash = append(cash, corn.Margins(credits[n], e)...)
		l, err := EqualAnnual(cash, make([]float64, len(cash)), 0, rate)
		if err != nil {
			return nil, 0, err
		}
		eae = append(eae, l.EAE[len(cash)-1])
		if eae[n] > eae[best] {
			best = n
		}
	}
	return eae, best, nil
}
