package advice

import (
	"fmt"
	"haywarden/agronomy/source"
	"haywarden/outlook"
	"strings"
)

func filledNote(c outlook.Clock) string {
	var note string
	if c.Lent > 0 {
		note = fmt.Sprintf("; %d missing %s taken from stations near it, or between the days beside", c.Lent, Plural(c.Lent, "day"))
	}
	if c.Filled > 0 {
		note += fmt.Sprintf("; %d missing %s taken at the usual value of the date", c.Filled, Plural(c.Filled, "day"))
	}
	return note
}

func assumed(yes bool) string {
	if yes {
		return " (assumed: none entered)"
	}
	return ""
}

func neighbourGround(s *outlook.Stand, o *outlook.Outlook, b outlook.Basis) Ground {
	g := Ground{
		What: "No reading here", Value: fmt.Sprintf("NDF %.1f %% ± %.1f from %s %s read nearby", b.NDF, b.SD, Count(b.N), Plural(b.N, "field")),
		How: "inverse-variance mean of pure alfalfa fields read in the last 8 days, nearer ones weighing more, shifted by the heat between stations, with the spread between fields added", Sources: []source.ID{source.InverseVar, source.BetweenFields, source.StickSpread},
	}
	for _, l := range o.Lent(s) {
		g.Others = append(g.Others, l.Named())
	}
	return g
}

func yieldGround(s *outlook.Stand) Ground {
	how := "55 stems a square foot assumed: none counted this year"
	if s.Yield.StemsKnown {
		how = fmt.Sprintf("%.0f stems a square foot", s.Stems.Count.Interval.Mean)
	}
	return Ground{
		What: "Yield", Value: fmt.Sprintf("%.1f tons of dry matter an acre a year, %.1f in the first cut", s.Yield.Year, s.Yield.FirstCut),
		How: how + fmt.Sprintf(", production year %d", s.Year), Sources: []source.ID{source.StemYield, source.YieldByAge, source.CutShares, source.GrowthPerDay},
	}
}

// stickArguments writes a reading as the reckoning takes it.
func stickArguments(r outlook.Reading, cut int) string {
	parts := make([]string, len(r.Spots))
	for i, sp := range r.Spots {
		parts[i] = fmt.Sprintf("%g:%s", sp.HeightIn, sp.Stage)
	}
	return fmt.Sprintf("stick-field readings=%s cut=%d", strings.Join(parts, ","), cut)
}

func heat41Ground(s *outlook.Stand) Ground {
	return Ground{
		What: "Heat since 1 March", Value: fmt.Sprintf("%.0f F-days above 41 °F through %s", s.Sky.Heat41.Now(), Short(s.Sky.Through)),
		How:     fmt.Sprintf("daily mean less 41 °F, station %s%s", s.Sky.Station.Name, filledNote(s.Sky.Heat41)),
		Sources: []source.ID{source.MSUHeat},
	}
}

// aheadSources adds to the sources of a calculation those of how the year goes on.
func aheadSources(sky *outlook.Sky, ids ...source.ID) []source.ID {
	switch {
	case sky.Made:
		ids = append(ids, source.Generator)
	default:
		ids = append(ids, source.LikenessWeights)
	}
	if sky.Forecast != nil {
		ids = append(ids, source.ForecastBlend)
	}
	return ids
}
