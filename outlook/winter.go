package outlook

import (
	"math"
	"slices"
	"time"

	"haywarden/agronomy/stand"
	"haywarden/agronomy/unit"
	"haywarden/book"
)

// Winter is what a station's record says of the last winter, or of the one that is on.
type Winter struct {
	From, To unit.Day // To is the last day read
	Stress   stand.WinterStress
	// Mildest is the class had snow lain where none was reported: another than the winter's own only where
	// the station says nothing of snow.
	Mildest stand.Stress
}

// SnowUnknown reports whether the station said too little of snow to know what sheltered the crowns.
func (w *Winter) SnowUnknown() bool { return 2*w.Stress.SnowKnown < w.Stress.Days }

// winterSpan is the winter that matters on a date: the one that is on from November to April, else the
// one before this spring. Nobody asks in September and October.
func winterSpan(date unit.Day) (from, to unit.Day, ok bool) {
	y := date.Year()
	switch m := date.Month(); {
	case m >= time.November:
		return unit.DateOf(y, time.November, 1), date - 1, date > unit.DateOf(y, time.November, 1)
	case m <= time.August:
		return unit.DateOf(y-1, time.November, 1), min(date-1, unit.DateOf(y, time.April, 15)), true
	}
	return 0, 0, false
}

const (
	mmInch       = 25.4
	leastWinter  = 0.8 // of the days of a winter that must have temperatures for it to be judged (choice)
	kLasts       = 4   // years for which a soil test of potassium says how a stand winters
	winterAnswer = 123 // days before 1 November from which an answer about that fall holds: from 1 July
)

// findWinter reads the winter from the station's record.
func (s *Sky) findWinter() {
	from, to, ok := winterSpan(s.Date)
	if !ok {
		return
	}
	var days []stand.WinterDay
	for d := from; d <= to; d++ {
		w := stand.WinterDay{Day: d, MaxF: math.NaN(), MinF: math.NaN(), SnowIn: math.NaN(), RainIn: math.NaN()}
		if i, held := s.series.Index(d); held {
			w.MaxF, w.MinF, w.RainIn = s.series.TMaxF[i], s.series.TMinF[i], s.series.RainMM[i]/mmInch
		}
		if i, held := s.own.Index(d); held {
			w.SnowIn = s.own.DepthMM[i] / mmInch
		}
		days = append(days, w)
	}
	stress := stand.PublishedWinter().Stress(days)
	if float64(stress.Known) >= leastWinter*float64(stress.Days) {
		s.Winter = &Winter{From: from, To: to, Stress: stress, Mildest: stress.Class}
		if s.Winter.SnowUnknown() {
			s.Winter.Mildest = underSnow(days).Class
		}
	}
}

// underSnow reads a winter as if enough snow had lain on every frozen day of which nobody reported it.
func underSnow(days []stand.WinterDay) stand.WinterStress {
	k := stand.PublishedWinter()
	covered := slices.Clone(days)
	for i := range covered {
		if math.IsNaN(covered[i].SnowIn) && covered[i].MaxF <= k.Ground {
			covered[i].SnowIn = k.ShelterIn
		}
	}
	return k.Stress(covered)
}

// Wintered is how a stand is thought to have come through the winter, before anybody counted.
type Wintered struct {
	Asked    stand.Winter     // what is known of it
	Risk     stand.WinterRisk // by points that are recalled
	Winter   *Winter          // nil where the station cannot say
	Loss     float64          // share of the year's yield, the middle of Low and High
	Low      float64          // share lost, by the least points and, where no winter is known, the mildest
	High     float64
	FullTons float64 // tons DM an acre a year that the stand would give unhurt, by its age
	Counted  bool    // a count of this spring has taken the place of the estimate
}

// AtStake is tons of dry matter a year on the whole field that the stand is expected to have lost.
func (w *Wintered) AtStake(acres float64) float64 { return acres * w.FullTons * w.Loss }

// Doubt is how far apart the ends of the estimate lie, 0 to 1; a count leaves none.
func (w *Wintered) Doubt() float64 { return w.High - w.Low }

// findWintered works out how the stand came through. Only established alfalfa and its mixtures: the
// points are of alfalfa.
func (s *Stand) findWintered() error {
	from, _, ok := winterSpan(s.Date)
	if !ok || s.Seeded >= from || s.Judged() == Clover {
		return nil
	}
	w := &Wintered{Asked: s.winterAnswers(from)}
	var err error
	if w.Risk, err = stand.RecalledWinterPoints().Assess(w.Asked); err != nil {
		return err
	}
	stresses := stand.Stresses()
	mildest, hardest := stresses[0], stresses[len(stresses)-1]
	if s.Sky != nil && s.Sky.Winter != nil {
		w.Winter = s.Sky.Winter
		mildest, hardest = w.Winter.Mildest, w.Winter.Stress.Class
	}
	w.Low, w.High = stand.WinterLoss(mildest, w.Risk.LowClass), stand.WinterLoss(hardest, w.Risk.HighClass)
	w.Loss = (w.Low + w.High) / 2
	full := stand.PublishedStems().Full
	w.FullTons = stand.YieldPotential(full) * stand.YieldByAge(max(1, s.Year))
	if s.Stems != nil {
		lost := 1 - s.Stems.Count.YieldPotential/stand.YieldPotential(full)
		w.Loss, w.Low, w.High, w.Counted = lost, lost, lost, true
	}
	s.Wintered = w
	return nil
}

// winterAnswers gathers what is known of how the stand went into the winter that began on a day.
func (s *Stand) winterAnswers(from unit.Day) stand.Winter {
	w := stand.Winter{Age: float64(from-s.Seeded) / 365.25, SoilK: s.potassium(), Interval: math.NaN()}
	for _, v := range slices.Backward(s.Visits) {
		a := v.Body.Winter
		if a == nil {
			continue
		}
		take := func(to *string, said string) {
			if *to == "" {
				*to = said
			}
		}
		take(&w.Hardiness, a.Hardiness)
		take(&w.Resistance, a.Resistance)
		take(&w.Drainage, a.Drainage)
		if v.Day >= from-winterAnswer { // what is asked anew each fall
			take(&w.Moisture, a.Moisture)
			if w.Stubble == nil {
				w.Stubble = a.Stubble
			}
		}
	}
	var days []unit.Day
	for _, c := range s.Cuts {
		if c.Day.Year() == from.Year() {
			days = append(days, c.Day)
		}
	}
	if n := len(days); n > 0 {
		w.LastCut = days[n-1]
		if n > 1 {
			w.Interval = float64(days[n-1]-days[0]) / float64(n-1)
		}
	}
	return w
}

// potassium is the newest exchangeable potassium of the field, ppm; NaN where no test of the last years has
// it. What Mehlich 3 draws is taken for it, as the laboratories do.
func (s *Stand) potassium() float64 {
	for _, t := range slices.Backward(s.InField.SoilTests) {
		if s.Date-t.Day > 366*kLasts {
			break
		}
		if k := t.Body.K; k != nil && (k.By == book.AmmoniumAcetate || k.By == book.Mehlich3) {
			return k.PPM()
		}
	}
	return math.NaN()
}
