package forage

import (
	"fmt"
	"strings"
)

// Quality is what a forage is judged by. CP and NDFD of 0 mean not known and stay so.
type Quality struct {
	NDF, ADF, CP float64 // % of DM
	NDFD         float64 // digestible share of NDF in 48 h, % of NDF
}

// Season is the part of the year a growth stands in; the first growth is spring.
type Season string

// The three seasons.
const (
	Spring Season = "spring"
	Summer Season = "summer"
	Fall   Season = "fall"
)

// ParseSeason reads a season, in any case.
func ParseSeason(s string) (Season, error) {
	switch v := Season(strings.ToLower(strings.TrimSpace(s))); v {
	case Spring, Summer, Fall:
		return v, nil
	}
	return "", fmt.Errorf("season %q; accepted: spring, summer or fall", s)
}

// Rates are the changes of a standing crop in a day, % of DM, and of NDFD % of NDF.
type Rates struct{ NDF, ADF, CP, NDFD float64 }

// Times is the rates with all of them made faster by a factor.
func (r Rates) Times(f float64) Rates { return Rates{r.NDF * f, r.ADF * f, r.CP * f, r.NDFD * f} }

// Change is how fast a standing crop changes: by the day in each season, faster when it is warm.
// Sources: [source.DailyRates], [source.RateScale].
type Change struct {
	Spring, Summer, Fall Rates
	BaseC, SpanC         float64 // the rates hold at BaseC + SpanC, C, and in proportion to what is over BaseC
	Slowest, Fastest     float64 // limits of that proportion
}

// PublishedChange returns the rates in use, chosen within what is published; NDFD of summer and fall
// is not published by the day: summer is taken like spring, since it falls fastest then, fall as slow.
func PublishedChange() Change {
	return Change{
		Spring: Rates{NDF: 0.65, ADF: 0.50, CP: -0.30, NDFD: -0.5},
		Summer: Rates{NDF: 0.45, ADF: 0.35, CP: -0.20, NDFD: -0.5},
		Fall:   Rates{NDF: 0.15, ADF: 0.10, CP: -0.10, NDFD: -0.1},
		BaseC:  5, SpanC: 13, Slowest: 0.4, Fastest: 1.5,
	}
}

// In is the change by the day in a season. A word that is no season is a slip in the program and
// panics: what users write goes through [ParseSeason].
func (k Change) In(s Season) Rates {
	switch s {
	case Spring:
		return k.Spring
	case Summer:
		return k.Summer
	case Fall:
		return k.Fall
	}
	panic(fmt.Sprintf("forage: no season is called %q", string(s)))
}

// Scale is the factor on the rates at a mean temperature.
func (k Change) Scale(tmeanC float64) float64 {
	return min(max((tmeanC-k.BaseC)/k.SpanC, k.Slowest), k.Fastest)
}

// Ahead is a standing crop's quality some days on. A mean temperature, where one is known, speeds or
// slows it. The change runs in a straight line, which a week or two bear, not a month.
func (k Change) Ahead(q Quality, days float64, s Season, tmeanC *float64) Quality {
	r := k.In(s)
	if tmeanC != nil {
		days *= k.Scale(*tmeanC)
	}
	q.NDF += r.NDF * days
	q.ADF += r.ADF * days
	if q.CP > 0 {
		q.CP = max(0, q.CP+r.CP*days)
	}
	if q.NDFD > 0 {
		q.NDFD = max(0, q.NDFD+r.NDFD*days)
	}
	return q
}

// DailyRates is [Change.In] with the rates in use.
func DailyRates(s Season) Rates { return PublishedChange().In(s) }

// RateScale is [Change.Scale] with the rates in use.
func RateScale(tmeanC float64) float64 { return PublishedChange().Scale(tmeanC) }

// Ahead is [Change.Ahead] with the rates in use.
func Ahead(q Quality, days float64, s Season, tmeanC *float64) Quality {
	return PublishedChange().Ahead(q, days, s, tmeanC)
}

// redClover is how much lower each value of red clover is taken than alfalfa's, % of DM.
const redClover = 2

// RedClover is the quality of red clover of the stage at which alfalfa would have the given quality:
// NDF, ADF and protein 2 points lower. No equation by height and stage is published for red clover,
// so this is a choice of low confidence, [source.RedClover], and should be said to be one.
func RedClover(alfalfa Quality) Quality {
	q := alfalfa
	q.NDF -= redClover
	q.ADF -= redClover
	if q.CP > 0 {
		q.CP = max(0, q.CP-redClover)
	}
	return q
}
