package weather

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
)

// Quantity is what a column of a table of weather holds.
type Quantity string

// The quantities that are told apart. Those of elements are named as people write them.
const (
	NoQuantity   Quantity = ""
	HighQ        Quantity = "tmax"
	LowQ         Quantity = "tmin"
	RainQ        Quantity = "rain"
	SnowQ        Quantity = "snow"
	DepthQ       Quantity = "depth"
	TemperatureQ Quantity = "temperature" // of an hour
	DateQ        Quantity = "date"
	HourQ        Quantity = "hour"
	YearQ        Quantity = "year"
	MonthQ       Quantity = "month"
	DayQ         Quantity = "day"
	YearDayQ     Quantity = "yday"
	StationQ     Quantity = "station"
	NameQ        Quantity = "name"
	LatitudeQ    Quantity = "latitude"
	LongitudeQ   Quantity = "longitude"
	ElevationQ   Quantity = "elevation"
)

// Element is the element a quantity is kept as; false for those that are none.
func (q Quantity) Element() (Element, bool) {
	i := slices.Index([]Quantity{HighQ, LowQ, RainQ, SnowQ, DepthQ}, q)
	return Element(max(i, 0)), i >= 0
}

// Measured reports whether a quantity has a unit that must be known.
func (q Quantity) Measured() bool {
	_, element := q.Element()
	return element || q == TemperatureQ || q == ElevationQ
}

// spelled lists how columns are named, letters and digits only. A name must be met in full: a record or
// an average highest temperature is another thing than the day's.
var spelled = map[Quantity][]string{
	HighQ: {"tmax", "maxt", "maxtemp", "tempmax", "temperaturemax", "maxtemperature", "maximumtemperature", "high", "hightemp", "highest",
		"hightemperature", "highesttemperature", "tmx", "actualmaxtemp", "airtempmax", "maxairtemp", "tmmx", "dailymaximumtemperature"},
	LowQ: {"tmin", "mint", "mintemp", "tempmin", "temperaturemin", "mintemperature", "minimumtemperature", "low", "lowtemp", "lowest",
		"lowtemperature", "lowesttemperature", "tmn", "actualmintemp", "airtempmin", "minairtemp", "tmmn", "dailyminimumtemperature"},
	RainQ: {"rain", "prcp", "precip", "precipitation", "rainfall", "ppt", "pcp", "pr", "actualprecipitation", "precipitationamount",
		"totalprecip", "totalprecipitation", "dailyrain"},
	SnowQ:        {"snow", "snowfall", "newsnow"},
	DepthQ:       {"snwd", "snowdepth", "depth", "depthofsnow"},
	TemperatureQ: {"temperature", "temp", "airtemp", "airtemperature", "t", "tair", "drybulb", "drybulbtemperature"},
	DayQ:         {"dayofmonth"},
	DateQ:        {"date", "day", "datetime", "time", "timestamp", "valid", "localtime", "dateandtime"},
	HourQ:        {"hour", "hr", "hourofday"},
	YearQ:        {"year", "yr"},
	MonthQ:       {"month", "mo"},
	YearDayQ:     {"yday", "doy", "dayofyear", "julianday"},
	StationQ:     {"station", "stationid", "id", "site", "siteid", "location"},
	NameQ:        {"name", "stationname", "sitename"},
	LatitudeQ:    {"latitude", "lat"},
	LongitudeQ:   {"longitude", "lon", "long", "lng"},
	ElevationQ:   {"elevation", "elev", "altitude"},
}

// ParseQuantity reads the name of a quantity, as [Heading] would.
func ParseQuantity(s string) Quantity {
	plain := lettersAndDigits(s)
	for q, names := range spelled {
		if slices.Contains(names, plain) {
			return q
		}
	}
	return NoQuantity
}

// Measure is a unit in which a column may be written.
type Measure string

// The measures read.
const (
	NoMeasure  Measure = "" // not declared
	Celsius    Measure = "C"
	Fahrenheit Measure = "F"
	Kelvin     Measure = "K"
	TenthC     Measure = "0.1 C"
	Millimetre Measure = "mm"
	Centimetre Measure = "cm"
	Inch       Measure = "in"
	TenthMM    Measure = "0.1 mm"
	Metre      Measure = "m"
	Foot       Measure = "ft"
)

var measured = map[Measure][]string{
	Celsius:    {"c", "°c", "degc", "degreesc", "degreec", "celsius", "degreescelsius", "degcelsius", "℃"},
	Fahrenheit: {"f", "°f", "degf", "degreesf", "degreef", "fahrenheit", "degreesfahrenheit", "degfahrenheit", "℉"},
	Kelvin:     {"k", "degk", "kelvin"},
	TenthC:     {"01c", "tenthsc", "tenthc"},
	Millimetre: {"mm", "mmday", "mmd", "millimetre", "millimeter", "millimetres", "millimeters", "kgm2"},
	Centimetre: {"cm", "centimetre", "centimeter"},
	Inch:       {"in", "inch", "inches", "inday"},
	TenthMM:    {"01mm", "tenthsmm", "tenthmm"},
	Metre:      {"m", "metre", "meter", "metres", "meters"},
	Foot:       {"ft", "foot", "feet"},
}

// ParseMeasure reads a unit as people write it: C, °C, deg c, F, K, in, mm/day.
func ParseMeasure(s string) (Measure, error) {
	plain := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '°' || r == '℃' || r == '℉' {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
	plain = strings.TrimPrefix(plain, "º") // the ordinal sign that stands in for the degree
	for m, names := range measured {
		if slices.Contains(names, plain) {
			return m, nil
		}
	}
	return NoMeasure, fmt.Errorf("unit %.40q is not known: accepted C, F, K or 0.1 C for temperatures, mm, cm, in or 0.1 mm for rain and snow, m or ft for elevation", s)
}

// Fits reports whether a quantity can be measured so.
func (m Measure) Fits(q Quantity) bool {
	switch q {
	case HighQ, LowQ, TemperatureQ:
		return slices.Contains([]Measure{Celsius, Fahrenheit, Kelvin, TenthC}, m)
	case RainQ, SnowQ, DepthQ:
		return slices.Contains([]Measure{Millimetre, Centimetre, Inch, TenthMM}, m)
	case ElevationQ:
		return m == Metre || m == Foot
	default:
		return false
	}
}

// Base converts a number to degrees C, to mm or to m.
func (m Measure) Base(v float64) float64 {
	switch m {
	case Fahrenheit:
		return (v - 32) / 1.8
	case Kelvin:
		return v - 273.15
	case TenthC, TenthMM:
		return v / 10
	case Centimetre:
		return v * 10
	case Inch:
		return v * 25.4
	case Foot:
		return v * 0.3048
	default:
		return v
	}
}

// Stored converts degrees C or mm to what is kept of the element: tenths of them, snow in whole mm.
func (e Element) Stored(base float64) int32 {
	if e == Snow || e == Depth {
		return int32(math.Round(base))
	}
	return int32(math.Round(base * 10))
}

// Heading is what the name of a column tells.
type Heading struct {
	Quantity Quantity
	Measure  Measure // NoMeasure where the name does not declare it
}

// ParseHeading reads the name of a column with or without a unit: tmax_f, "Tmax (°C)", "rain, in",
// "prcp (mm/day)". The unit stands in brackets, after a comma, or as the last word.
func ParseHeading(name string) Heading {
	for _, cut := range headingCuts(name) {
		q := ParseQuantity(cut[0])
		if q == NoQuantity || !q.Measured() {
			continue
		}
		if m, err := ParseMeasure(cut[1]); err == nil && m.Fits(q) {
			return Heading{q, m}
		}
	}
	return Heading{Quantity: ParseQuantity(name)}
}

// headingCuts lists the ways to part a name from a unit.
func headingCuts(name string) (cuts [][2]string) {
	name = strings.TrimSpace(name)
	for _, pair := range []string{"()", "[]"} {
		if i := strings.IndexByte(name, pair[0]); i > 0 && name[len(name)-1] == pair[1] {
			cuts = append(cuts, [2]string{name[:i], name[i+1 : len(name)-1]})
		}
	}
	for i, r := range name {
		if i > 0 && strings.ContainsRune(" _,.-/", r) {
			cuts = append(cuts, [2]string{name[:i], name[i+1:]})
		}
	}
	return cuts
}

func lettersAndDigits(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// Declared are columns as whoever brings a file describes them, where the file does not.
type Declared struct {
	Units   map[string]string // of columns, by their quantity or by their own name: "tmax": "F"
	Columns map[string]string // which column holds a quantity: "tmax": "Max Temp"
}

// Given reports whether anything was declared.
func (d Declared) Given() bool { return len(d.Units)+len(d.Columns) > 0 }

// Headings finds what each column of a file holds, and the units of those that have one. A column that
// holds nothing known has NoQuantity. It is an error where a unit is not declared, is declared in two
// ways or cannot be one, and where two columns hold the same thing.
func (d Declared) Headings(names []string) ([]Heading, error) {
	heads := make([]Heading, len(names))
	for i, n := range names {
		heads[i] = ParseHeading(n)
	}
	if err := d.place(names, heads); err != nil {
		return nil, err
	}
	return heads, d.measure(names, heads)
}

// measure applies the units that were declared, and finds columns that have none.
func (d Declared) measure(names []string, heads []Heading) error {
	used := map[string]bool{}
	var errs []error
	for i, n := range names {
		h := &heads[i]
		if h.Quantity == NoQuantity || !h.Quantity.Measured() {
			continue
		}
		for key, said := range d.Units {
			if ParseHeading(key).Quantity != h.Quantity && !strings.EqualFold(key, n) {
				continue
			}
			used[key] = true
			m, err := ParseMeasure(said)
			switch {
			case err != nil:
				errs = append(errs, fmt.Errorf("column %s: %w", n, err))
				continue
			case !m.Fits(h.Quantity):
				errs = append(errs, fmt.Errorf("column %s: it cannot be measured in %s", n, m))
				continue
			case h.Measure != NoMeasure && h.Measure != m:
				errs = append(errs, fmt.Errorf("column %s says it is in %s, but %s was declared; which is right?", n, h.Measure, m))
				continue
			}
			h.Measure = m
		}
	}
	for key := range d.Units {
		if !used[key] {
			errs = append(errs, fmt.Errorf("a unit was declared for %q, but no column holds it; the columns are %.200q", key, names))
		}
	}
	for i, h := range heads {
		if len(errs) == 0 && h.Quantity.Measured() && h.Measure == NoMeasure {
			errs = append(errs, fmt.Errorf("column %s has no unit declared: name the column with it, as in %s or %q, or declare it as %s=%s",
				names[i], string(h.Quantity)+"_"+strings.ToLower(string(example(h.Quantity))), string(h.Quantity)+" ("+string(example(h.Quantity))+")", h.Quantity, example(h.Quantity)))
		}
	}
	slices.SortFunc(errs, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) }) // maps have no order
	return errors.Join(errs...)
}

// tellApart gives columns called day and time the sense that those beside them leave: a day of a month
// where year and month stand by themselves, an hour where the date does.
func tellApart(names []string, heads []Heading) {
	has := func(q Quantity) bool {
		return slices.ContainsFunc(heads, func(h Heading) bool { return h.Quantity == q })
	}
	dates := 0
	for _, h := range heads {
		if h.Quantity == DateQ {
			dates++
		}
	}
	for i, n := range names {
		switch plain := lettersAndDigits(n); {
		case heads[i].Quantity != DateQ:
		case plain == "day" && has(YearQ) && has(MonthQ):
			heads[i].Quantity = DayQ
		case plain == "time" && dates > 1:
			heads[i].Quantity = HourQ
		}
	}
}

func example(q Quantity) Measure {
	switch q {
	case RainQ, SnowQ, DepthQ:
		return Inch
	case ElevationQ:
		return Foot
	default:
		return Fahrenheit
	}
}

// place applies the columns that were declared and finds quantities that stand twice.
func (d Declared) place(names []string, heads []Heading) error {
	taken := map[Quantity]int{}
	for key, column := range d.Columns {
		q := ParseQuantity(key)
		if q == NoQuantity {
			return fmt.Errorf("%q is nothing that is read; accepted are tmax, tmin, rain, snow, depth, temperature, date, hour, year, month, day, yday, station, name, latitude, longitude, elevation", key)
		}
		at := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(strings.TrimSpace(n), strings.TrimSpace(column)) })
		if at < 0 {
			return fmt.Errorf("no column is called %q; the columns are %.200q", column, names)
		}
		for i := range heads {
			if heads[i].Quantity == q {
				heads[i] = Heading{}
			}
		}
		measure := heads[at].Measure
		if !measure.Fits(q) {
			measure = NoMeasure
			for _, cut := range headingCuts(names[at]) {
				if m, err := ParseMeasure(cut[1]); err == nil && m.Fits(q) {
					measure = m
				}
			}
		}
		heads[at] = Heading{q, measure}
	}
	tellApart(names, heads)
	for i, h := range heads {
		if h.Quantity == NoQuantity {
			continue
		}
		if first, twice := taken[h.Quantity]; twice {
			return fmt.Errorf("columns %s and %s both hold %s; take one out, or say which with %s=NAME", names[first], names[i], h.Quantity, h.Quantity)
		}
		taken[h.Quantity] = i
	}
	return nil
}
