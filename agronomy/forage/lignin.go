package forage

// LowLignin is what a reduced-lignin alfalfa changes: factors on lignin and on NDF digestibility;
// protein, NDF and ADF stay, so that RFV cannot see the trait. Source: [source.ReducedLigninFactors].
type LowLignin struct{ Lignin, NDFD float64 }

// PublishedLowLignin returns the factors of the Minnesota trials: lignin 8 % lower, digestibility 10 %
// higher.
func PublishedLowLignin() LowLignin { return LowLignin{Lignin: 0.92, NDFD: 1.10} }

// Of is the same forage of a reduced-lignin variety.
func (k LowLignin) Of(s Sample) Sample {
	s.Lignin *= k.Lignin
	s.NDFD48 = min(s.NDFD48*k.NDFD, 100)
	return s
}

// UsualLegume is the protein, fat and ash that a legume is taken to have where only its fibre is known:
// those of alfalfa in early bloom (a choice, [source.UsualLegume]).
func UsualLegume() Sample { return Sample{CP: 20, EE: 2.5, Ash: 9} }

// DaysAtEqualQuality is how many days later a crop of better digestible fibre comes down to the forage
// quality of the plain one: what it gains in RFQ over what the plain one loses in its next day.
func DaysAtEqualQuality(q ForageQuality, plain, better Sample, day Rates) float64 {
	older := plain
	older.NDF += day.NDF
	older.NDICP *= older.NDF / plain.NDF
	older.CP += day.CP
	older.NDFD48 += day.NDFD
	today := q.OfLegume(plain).RFQ
	return (q.OfLegume(better).RFQ - today) / (today - q.OfLegume(older).RFQ)
}
