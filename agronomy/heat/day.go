package heat

import "math"

// Day is the heat of one day with lowest tmin and highest tmax, in degree-days:
//
//	average   max(0, M - base)                        M = (tmin + tmax)/2
//	modified  (lo + hi)/2 - base                      lo, hi brought between base and upper
//	sine, triangle, with A(T) the area of the day's curve above T:
//	          A(base) - A(upper)                      horizontal cutoff
//	          max(0, A(base) - 2 A(upper))            intermediate cutoff
//	          A(base) - A(upper) - (upper - base) f   vertical cutoff, f = share of the day above upper
//
// The double methods need tomorrow's lowest temperature: see [Spec.DoubleDay]. Without it Day takes
// tomorrow's to equal today's, which makes them the single methods.
//
// A temperature that is NaN, a highest below the lowest, and a spec that [Spec.Check] refuses give NaN
// rather than a number. Source: [source.HeatMethods], [source.HeatCutoffs].
func (s Spec) Day(tmin, tmax float64) float64 {
	if !(tmin <= tmax) {
		return math.NaN()
	}
	switch s.Method {
	case Average:
		return notBelowZero((tmin+tmax)/2 - s.Base)
	case Modified:
		return s.modified(tmin, tmax)
	case Sine, DoubleSine:
		dd := aboveSine(tmin, tmax, s.Base)
		if !(s.Upper < tmax) { // none, or not reached
			return dd
		}
		return s.cut(tmin, tmax, dd, aboveSine(tmin, tmax, s.Upper))
	case Triangle, DoubleTriangle:
		dd := aboveTriangle(tmin, tmax, s.Base)
		if !(s.Upper < tmax) {
			return dd
		}
		return s.cut(tmin, tmax, dd, aboveTriangle(tmin, tmax, s.Upper))
	}
	return math.NaN()
}

// DoubleDay is the heat of one day by half days: the first rises from tmin to tmax, the second falls
// from tmax to tomorrow's lowest, nextMin. Where a warm front keeps tomorrow's lowest above today's
// highest, the second half runs up instead of down. Source: [source.HeatMethods], Allen 1976.
func (s Spec) DoubleDay(tmin, tmax, nextMin float64) float64 {
	// The plain min and max of two numbers, so that NaN is handed on.
	return 0.5*s.Day(tmin, tmax) + 0.5*s.Day(min(nextMin, tmax), max(nextMin, tmax))
}

func (s Spec) modified(tmin, tmax float64) float64 {
	lo, hi := max(tmin, s.Base), max(tmax, s.Base)
	if s.HasUpper() {
		if s.Upper <= s.Base {
			return math.NaN()
		}
		lo, hi = min(lo, s.Upper), min(hi, s.Upper)
	}
	return (lo+hi)/2 - s.Base
}

// cut takes from the day's heat what the upper threshold, here below tmax, leaves unused. over is the
// area above the threshold.
func (s Spec) cut(tmin, tmax, dd, over float64) float64 {
	if s.Upper <= s.Base {
		return math.NaN()
	}
	switch s.Cutoff {
	case Intermediate:
		return notBelowZero(dd - 2*over)
	case Vertical:
		return notBelowZero(dd - over - (s.Upper-s.Base)*s.shareAboveUpper(tmin, tmax))
	default: // horizontal
		return notBelowZero(dd - over)
	}
}

// shareAboveUpper is the part of the day above an upper threshold that lies below tmax.
func (s Spec) shareAboveUpper(tmin, tmax float64) float64 {
	switch {
	case tmin >= s.Upper:
		return 1
	case s.Method == Triangle || s.Method == DoubleTriangle:
		return (tmax - s.Upper) / (tmax - tmin)
	}
	sin, cos := crossing(tmin, tmax, s.Upper)
	return 0.5 - math.Atan(sin/cos)/math.Pi
}

// aboveSine is the area of a sine day above a temperature t, in degree-days:
//
//	S(t) = ((M - t)(pi/2 - theta) + a cos theta)/pi,   theta = asin((t - M)/a)
//
// with M the day's mean and a half its range, where t lies between lowest and highest.
// Source: [source.SineHeat].
func aboveSine(tmin, tmax, t float64) float64 {
	if tmax <= t {
		return 0
	}
	if tmin >= t {
		return (tmin+tmax)/2 - t
	}
	// M - t = -a sin theta; the arc tangent reuses the cosine, where the arc sine would take a second root.
	sin, cos := crossing(tmin, tmax, t)
	return notBelowZero((tmax - tmin) * (0.5 / math.Pi) * (cos - sin*(math.Pi/2-math.Atan(sin/cos))))
}

// crossing gives sine and cosine of the angle at which the day's curve passes t. Rounding may carry the
// sine past 1, where the root has no value and the cosine is 0.
func crossing(tmin, tmax, t float64) (sin, cos float64) {
	sin = (t + t - (tmin + tmax)) / (tmax - tmin)
	return sin, math.Sqrt(notBelowZero(1 - sin*sin))
}

// aboveTriangle is the area of a day of straight lines above a temperature t, in degree-days:
// R(t) = (tmax - t)^2 / (2 (tmax - tmin)) where t lies between. Source: [source.HeatMethods].
func aboveTriangle(tmin, tmax, t float64) float64 {
	if tmax <= t {
		return 0
	}
	if tmin >= t {
		return (tmin+tmax)/2 - t
	}
	return (tmax - t) * (tmax - t) / (2 * (tmax - tmin))
}

// notBelowZero drops the sign that rounding may leave on a sum of nothing; NaN stays.
func notBelowZero(x float64) float64 {
	if x < 0 {
		return 0
	}
	return x
}
