package exchange

import (
	"io"
	"math"
	"slices"

	"haywarden/agronomy/unit"
)

// FieldReadings is a table of a thermometer's days in one field.
type FieldReadings struct {
	File
	Days []FieldReading
}

// FieldReading is one day's highest and lowest temperature, F; NaN where not read.
type FieldReading struct {
	Day        unit.Day
	MaxF, MinF float64
}

var fieldReadingColumns = []Column{
	{Name: "date", Also: []string{"day"}, Needed: true},
	{Name: "tmax_f", Also: []string{"tmax", "max", "high", "highest"}, in: []spelling{{"C", []string{"tmax c", "max c", "high c"}}}},
	{Name: "tmin_f", Also: []string{"tmin", "min", "low", "lowest"}, in: []spelling{{"C", []string{"tmin c", "min c", "low c"}}}},
}

// FieldReadingColumns lists the columns of a table of a thermometer's days.
func FieldReadingColumns() []Column { return slices.Clone(fieldReadingColumns) }

// The temperatures that a thermometer in a field may have read, F.
const (
	coldestF = -60
	hottestF = 125
)

// ReadFieldReadings reads the highest and lowest temperature of days in one field, a row a day: date and
// one of the two are needed.
func ReadFieldReadings(r io.Reader, name string) (FieldReadings, error) {
	s, err := open(r, name, fieldReadingColumns)
	if err != nil {
		return FieldReadings{}, err
	}
	out := FieldReadings{}
	seen := map[string]int{}
	for {
		more, err := s.next()
		if err != nil {
			return FieldReadings{}, err
		}
		if !more {
			break
		}
		found := len(s.list)
		day, _ := s.date("date", true)
		read := FieldReading{Day: day, MaxF: s.temperature("tmax_f"), MinF: s.temperature("tmin_f")}
		switch first := seen[day.String()]; {
		case len(s.list) > found:
			continue
		case first != 0:
			s.fault("date", "is that of row %d too; take one out", first)
		case math.IsNaN(read.MaxF) && math.IsNaN(read.MinF):
			s.fault("tmin_f", "is empty, and so is tmax_f; one of them wanted")
		case read.MaxF < read.MinF:
			s.fault("tmax_f", "%.1f is under the lowest, %.1f", read.MaxF, read.MinF)
		}
		seen[day.String()] = s.row.Place
		out.Days = append(out.Days, read)
	}
	out.File = s.file
	return out, s.Err()
}

// temperature is a cell in F, NaN where it says none.
func (s *sheet) temperature(col string) float64 {
	v := s.quantity(col, "F")
	if v == nil {
		return math.NaN()
	}
	if *v < coldestF || *v > hottestF {
		s.fault(col, "%g: accepted %d to %d F", *v, coldestF, hottestF)
		return math.NaN()
	}
	return *v
}
