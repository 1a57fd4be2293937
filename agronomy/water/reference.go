package water

import "math"

// Penman holds the coefficients of FAO Paper 56 reference evapotranspiration. Source:
// [source.ReferenceET].
type Penman struct {
	Orbit
	Air
	Radiation
	Evaporates float64 // water that a MJ/m2 evaporates, mm
	Aero       float64 // K mm s3/t/d
	AeroKelvin float64 // K of 0 C as the aerodynamic term rounds it
	Resistance float64 // of the crop over that of the air, s/m
	Wind       float64 // where it is not known, m/s at 2 m
}

// FAO56 returns the coefficients of equation 6 and of all it rests on.
func FAO56() Penman {
	return Penman{
		Orbit: FAOOrbit(), Air: FAOAir(), Radiation: FAORadiation(),
		Evaporates: 0.408, Aero: 900, AeroKelvin: 273, Resistance: 0.34, Wind: 2,
	}
}

// Site is FAO-56 at one height above the sea, for loops over days.
type Site struct {
	Penman
	psychroKPa float64
	clear      float64
}

// At fixes what depends on height only.
func (p Penman) At(elevationM float64) Site {
	return Site{Penman: p, psychroKPa: p.PsychroKPa(elevationM), clear: p.ClearMJ(elevationM, 1)}
}

// NetMJ is the net radiation of a day, Rn = Rns - Rnl: equations 38 to 40. Source:
// [source.ReferenceET].
func (s *Site) NetMJ(tmaxC, tminC, eaKPa, rsMJ, raMJ float64, clip Clip) float64 {
	return s.ShortMJ(rsMJ) - s.LongMJ(tmaxC, tminC, eaKPa, rsMJ, s.clear*raMJ, clip)
}

// EToMM is the evapotranspiration of the reference grass in a day, mm:
//
//	ETo = (0.408 D (Rn - G) + g 900/(T + 273) u2 (es - ea)) / (D + g (1 + 0.34 u2))   equation 6
//
// with the slope D of vapour pressure at the mean temperature T and the psychrometric constant g. G is
// the heat the soil takes in, 0 for a day ([SoilHeatMJ] for a month). A cold, humid day without sun
// may come out a little below 0: dew. Source: [source.ReferenceET].
func (s *Site) EToMM(tmaxC, tminC, eaKPa, u2MS, rnMJ, soilMJ float64) float64 {
	mean := (tmaxC + tminC) / 2
	slope := s.SlopeKPa(mean)
	heat := s.Evaporates * slope * (rnMJ - soilMJ)
	air := s.psychroKPa * s.Aero / (mean + s.AeroKelvin) * u2MS * (s.MeanVapourKPa(tmaxC, tminC) - eaKPa)
	return (heat + air) / (slope + s.psychroKPa*(1+s.Resistance*u2MS))
}

// SoilHeatMJ is the heat that the soil takes in on a day of a month with this and the last month's
// mean temperature: 0.14 (T - Tlast), equation 44. Source: [source.ReferenceET].
func SoilHeatMJ(meanC, lastMeanC float64) float64 {
	const perDegree = 0.14
	return perDegree * (meanC - lastMeanC)
}

// Hargreaves holds the coefficients of reference evapotranspiration from temperature alone. Source:
// [source.HargreavesET].
type Hargreaves struct {
	Factor     float64
	Offset     float64 // C
	Evaporates float64 // water that a MJ/m2 evaporates, mm
}

// HargreavesSamani returns the coefficients of equation 52.
func HargreavesSamani() Hargreaves {
	return Hargreaves{Factor: 0.0023, Offset: 17.8, Evaporates: 0.408}
}

// EToMM is reference evapotranspiration from a day's extremes alone:
//
//	ETo = 0.0023 (Tmean + 17.8) sqrt(Tmax - Tmin) 0.408 Ra   equation 52
//
// and 0 where the mean is below -17.8 C. It knows neither wind nor humidity: on a typical year of
// Greensboro NC it meets the full equation within 4 mm of 1125, but is off by 14 % on the middle day
// and by 46 % on one day in ten. NaN where the highest temperature is below the lowest. Source:
// [source.HargreavesET].
func (h *Hargreaves) EToMM(tmaxC, tminC, raMJ float64) float64 {
	warm := (tmaxC+tminC)/2 + h.Offset
	if warm < 0 {
		return 0
	}
	return h.Factor * warm * math.Sqrt(tmaxC-tminC) * (h.Evaporates * raMJ)
}
