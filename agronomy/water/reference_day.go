package water

import (
	"fmt"
	"math"

	"haywarden/agronomy/unit"
)

// Weather is a day at a place, as far as it is known: what is not is NaN. Start from [NewWeather].
type Weather struct {
	Lat        unit.Degree
	Elevation  unit.Metre
	YearDay    int
	Tmax, Tmin unit.Celsius

	RHMax, RHMin unit.Percent  // relative humidity
	Tdew         unit.Celsius  // mean dew point
	Wind         unit.MetreSec // mean at 2 m; [WindAt2] brings it there
	Sunshine     unit.Hour     // bright sunshine
	Solar        unit.MJm2Day  // solar radiation

	Coast bool // where radiation is told from temperature: within reach of a coast or a great lake
}

// NewWeather is a day of which no more than the two temperatures is known.
func NewWeather(lat unit.Degree, elevation unit.Metre, yearDay int, tmax, tmin unit.Celsius) Weather {
	none := math.NaN()
	return Weather{
		Lat: lat, Elevation: elevation, YearDay: yearDay, Tmax: tmax, Tmin: tmin,
		RHMax: unit.Percent(none), RHMin: unit.Percent(none), Tdew: unit.Celsius(none),
		Wind: unit.MetreSec(none), Sunshine: unit.Hour(none), Solar: unit.MJm2Day(none),
	}
}

// From says what a quantity was told from.
type From string

// What vapour pressure, radiation and wind are told from, the better first.
const (
	FromDewPoint   From = "mean dew point"
	FromHumidities From = "highest and lowest relative humidity"
	FromHighestRH  From = "highest relative humidity"
	FromLowestTemp From = "lowest temperature"
	FromMeasured   From = "measured"
	FromSunshine   From = "hours of sunshine"
	FromTempRange  From = "range of temperature"
	FromUsual      From = "usual value"
)

// Estimate is a day's reference evapotranspiration and what it was made of.
type Estimate struct {
	Ra, Rs, Rso, Rn unit.MJm2Day // above the atmosphere, at the ground, at the ground if clear, net
	DayLength       unit.Hour
	Es, Ea          unit.Kilopascal
	Wind            unit.MetreSec // at 2 m
	ETo             unit.Millimetre

	Vapour, Solar, WindFrom From
	Clipped                 bool // Rs/Rso lay below the clip's low limit
}

// Estimate is the FAO Paper 56 reference evapotranspiration of a day, with the stand-ins that the
// paper gives for what is not known: vapour pressure from the mean dew point, else from both relative
// humidities, else from the highest, else as if the dew point were the lowest temperature (in dry
// spells it lies 2 to 3 C lower, from memory); radiation as measured, else from sunshine, else from
// the range of temperature; wind as measured, else 2 m/s. Source: [source.ReferenceET].
func (p Penman) Estimate(w Weather, clip Clip) (Estimate, error) {
	if err := w.check(); err != nil {
		return Estimate{}, err
	}
	if !(clip.Low >= 0 && clip.Low < clip.High) {
		return Estimate{}, fmt.Errorf("clip %g to %g: accepted limits of Rs/Rso from 0 up", clip.Low, clip.High)
	}
	tmax, tmin := float64(w.Tmax), float64(w.Tmin)
	if w.Coast {
		p.RangeK = CoastRangeK
	}
	s := p.At(float64(w.Elevation))
	ra, dayLength := p.Sky(float64(w.Lat), float64(w.YearDay))
	ea, vapour := p.vapourOf(w)
	rs, solar, err := p.solarOf(w, ra, dayLength)
	if err != nil {
		return Estimate{}, err
	}
	wind, windFrom := float64(w.Wind), FromMeasured
	if !known(wind) {
		wind, windFrom = p.Wind, FromUsual
	}
	rn := s.NetMJ(tmax, tmin, ea, rs, ra, clip)
	rso := s.clear * ra
	return Estimate{
		Ra: unit.MJm2Day(ra), Rs: unit.MJm2Day(rs), Rso: unit.MJm2Day(rso), Rn: unit.MJm2Day(rn), DayLength: unit.Hour(dayLength),
		Es: unit.Kilopascal(p.MeanVapourKPa(tmax, tmin)), Ea: unit.Kilopascal(ea), Wind: unit.MetreSec(wind),
		ETo:    unit.Millimetre(s.EToMM(tmax, tmin, ea, wind, rn, 0)),
		Vapour: vapour, Solar: solar, WindFrom: windFrom, Clipped: rs < clip.Low*rso,
	}, nil
}

func (p *Penman) vapourOf(w Weather) (eaKPa float64, from From) {
	tmax, tmin := float64(w.Tmax), float64(w.Tmin)
	high, low := float64(w.RHMax)/100, float64(w.RHMin)/100
	switch {
	case known(float64(w.Tdew)):
		return p.VapourKPa(float64(w.Tdew)), FromDewPoint // equation 14
	case known(high) && known(low):
		return (p.VapourKPa(tmin)*high + p.VapourKPa(tmax)*low) / 2, FromHumidities // 17
	case known(high):
		return p.VapourKPa(tmin) * high, FromHighestRH // 18
	}
	return p.VapourKPa(tmin), FromLowestTemp // 48
}

// solarOf also holds measurements against the sky they were made under.
func (p *Penman) solarOf(w Weather, raMJ, dayLengthH float64) (rsMJ float64, from From, err error) {
	const late = 0.5 // the sunshine recorder's day is longer than the geometric one, h
	rsMJ, sunshine := float64(w.Solar), float64(w.Sunshine)
	switch {
	case known(rsMJ):
		if rsMJ > raMJ {
			return 0, "", fmt.Errorf("solar radiation %g MJ/m2: accepted at most %.4g, what comes in above the atmosphere on day %d at %g degrees; check its unit", rsMJ, raMJ, w.YearDay, w.Lat)
		}
		return rsMJ, FromMeasured, nil
	case known(sunshine):
		if sunshine > dayLengthH+late {
			return 0, "", fmt.Errorf("sunshine %g h: accepted at most %.4g, the length of day %d at %g degrees", sunshine, dayLengthH, w.YearDay, w.Lat)
		}
		return p.BySunshineMJ(min(sunshine, dayLengthH), dayLengthH, raMJ), FromSunshine, nil
	}
	return p.ByRangeMJ(float64(w.Tmax), float64(w.Tmin), raMJ), FromTempRange, nil
}

func known(v float64) bool { return !math.IsNaN(v) }

func (w Weather) check() error {
	if err := checkSky(w.Lat, w.YearDay); err != nil {
		return err
	}
	if err := checkExtremes(w.Tmax, w.Tmin); err != nil {
		return err
	}
	for _, v := range []struct {
		name      string
		value     float64
		low, high float64
		unit      string
	}{
		{"elevation", float64(w.Elevation), -430, 9000, "m"},
		{"rhmax", float64(w.RHMax), 0, 100, "%"},
		{"rhmin", float64(w.RHMin), 0, 100, "%"},
		{"dew point", float64(w.Tdew), -90, float64(w.Tmax), "C"},
		{"wind", float64(w.Wind), 0, 60, "m/s"},
		{"sunshine", float64(w.Sunshine), 0, 24, "h"},
		{"solar radiation", float64(w.Solar), 0, 60, "MJ/m2"},
	} {
		if known(v.value) && !(v.value >= v.low && v.value <= v.high) {
			return fmt.Errorf("%s %g %s: accepted %g to %g", v.name, v.value, v.unit, v.low, v.high)
		}
	}
	switch {
	case !known(float64(w.Elevation)):
		return fmt.Errorf("elevation is not given: accepted -430 to 9000 m")
	case known(float64(w.RHMin)) && !known(float64(w.RHMax)) && !known(float64(w.Tdew)):
		return fmt.Errorf("rhmin alone gives no vapour pressure: give rhmax too, or the dew point")
	case w.RHMin > w.RHMax:
		return fmt.Errorf("rhmin %g %% is above rhmax %g %%: check which is which", w.RHMin, w.RHMax)
	}
	return nil
}

func checkExtremes(tmax, tmin unit.Celsius) error {
	const coldest, hottest = -90, 60
	switch {
	case !(tmin >= coldest && tmax <= hottest):
		return fmt.Errorf("tmin %g C, tmax %g C: accepted %d to %d C", tmin, tmax, coldest, hottest)
	case !(tmin <= tmax):
		return fmt.Errorf("tmax %g C is below tmin %g C: check which is which", tmax, tmin)
	}
	return nil
}

// ByTemperature is reference evapotranspiration from a day's extremes alone. Source:
// [source.HargreavesET].
func ByTemperature(lat unit.Degree, yearDay int, tmax, tmin unit.Celsius) (unit.Millimetre, error) {
	if err := checkSky(lat, yearDay); err != nil {
		return 0, err
	}
	if err := checkExtremes(tmax, tmin); err != nil {
		return 0, err
	}
	h := HargreavesSamani()
	ra, _ := FAOOrbit().Sky(float64(lat), float64(yearDay))
	return unit.Millimetre(h.EToMM(float64(tmax), float64(tmin), ra)), nil
}
