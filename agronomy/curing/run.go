package curing

import "math"

// Target is a moisture that is waited for, and the hours of the day in which the crop can be taken up.
type Target struct {
	DB       float64 // water over dry matter
	From, To int     // working hours by the sun, 0 and 24 for any
	// NotBefore is the hour of the run from which on the crop may be taken up: a swath that has lain for
	// days is asked when it is fit from today on.
	NotBefore int
}

// Harvest is how a run came to a target. Times are hours from midnight of the day of mowing, NaN where
// they did not come.
type Harvest struct {
	Ready  float64 // the swath first came down to the target
	Made   float64 // it was first at or under the target in a working hour without rain
	DB     float64 // moisture when made, or at the end of the run
	RainMM float64 // on the swath until made, or until the end of the run
	RainDB float64 // mean moisture of the swath as that rain began to fall on it, by mm; NaN without rain
}

// course is a swath on its way.
type course struct {
	c       *Curing
	at      int // which lie
	db      float64
	quick   float64 // above it rain water is still drying off the surface
	rainMM  float64
	rainSum float64 // mm times the moisture it fell on
}

func (c *Curing) start() course { return course{c: c, db: c.fromDB, quick: math.Inf(1)} }

// dries carries the swath over an hour and gives the drying rate it had, 0 in rain and at night.
func (s *course) dries(h *Hour, hour int) float64 {
	c := s.c
	for s.at+1 < len(c.lies) && hour >= c.lies[s.at+1].hour {
		s.at++
	}
	l := &c.lies[s.at]
	if h.RainMM > 0 {
		s.wets(h.RainMM, l.gm2)
	}
	switch {
	case h.SolarW == 0:
		s.atNight(h)
		return 0
	case h.RainMM > 0:
		return 0
	}
	floor := 0.0
	if c.damp != NoDamp {
		floor = isothermTable.at(h.RH)
	}
	if s.db <= floor {
		return 0
	}
	rate := c.rate(l, h, hour)
	left := 1.0 // of the hour
	if s.db > s.quick {
		fast := c.wetting.Faster * rate
		takes := math.Log(s.db/s.quick) / fast
		if takes >= 1 {
			s.db = max(floor, s.db*math.Exp(-fast))
			return rate
		}
		s.db, left = s.quick, 1-takes
	}
	s.db = max(floor, s.db*math.Exp(-rate*left))
	return rate
}

// atNight lets the swath take up moisture. It does not dry: the equation was fitted to days, and would
// go on at a tenth of the day's rate by temperature alone, in air that is near its dew point.
func (s *course) atNight(h *Hour) {
	c := s.c
	if c.damp == NoDamp {
		return
	}
	limit := isothermTable.at(min(h.RH, c.night.MostRH))
	most := limit
	if c.damp != DampAir {
		most = max(limit, c.dew.DB(h.RH, c.windMS))
	}
	if c.damp == DampDew {
		limit = most
	}
	s.quick = max(s.quick, limit) // what the night can give counts as soaked in
	if s.db < limit {
		s.db += (limit - s.db) * c.regained
	}
	if c.damp == DampFall {
		const gramsOfMM = 1000 // a m2
		gives := c.dewfall.MM(h.RH) * gramsOfMM / c.lies[s.at].gm2
		s.quick += gives
		s.db = max(s.db, min(s.db+gives, most))
	}
}

// wets lets rain fall on the swath.
func (s *course) wets(mm, gm2 float64) {
	s.rainMM += mm
	s.rainSum += mm * s.db
	wet := s.c.wetting.DB(s.db, mm, gm2)
	s.quick = (s.db + wet) / 2
	s.db = wet
}

// reached is the part of an hour after which drying from one moisture came to another.
func (s *course) reached(from, to, quick, rate float64) float64 {
	if rate <= 0 {
		return 0
	}
	var t float64
	if from > quick {
		stop := max(quick, to)
		t, from = math.Log(from/stop)/(s.c.wetting.Faster*rate), stop
	}
	return min(1, t+math.Log(from/to)/rate)
}

// done fills a harvest.
func (s *course) done(h *Harvest, made, db float64) {
	h.Made, h.DB, h.RainMM, h.RainDB = made, db, s.rainMM, s.rainSum/s.rainMM
}

// Run carries the swath over hours of weather, the first of which begins at midnight of the day of
// mowing. It writes the moisture at the end of each hour, water over dry matter, and how it came to
// each target, the wettest first or in any order. Moisture before mowing is that of the standing crop.
// moisture may be nil; else it is as long as hours, and harvests as long as targets. Nothing is
// allocated.
func (c *Curing) Run(hours []Hour, targets []Target, moisture []float64, harvests []Harvest) {
	nan := math.NaN()
	for i := range targets {
		harvests[i] = Harvest{Ready: nan, Made: nan, RainDB: nan}
	}
	for i := range min(c.mowHour, len(moisture)) {
		moisture[i] = c.fromDB
	}
	s := c.start()
	for i := c.mowHour; i < len(hours); i++ {
		h := &hours[i]
		before, quick := s.db, s.quick
		rate := s.dries(h, i)
		if moisture != nil {
			moisture[i] = s.db
		}
		for k := range targets {
			if t := &targets[k]; (before <= t.DB || s.db <= t.DB) && math.IsNaN(harvests[k].Made) {
				s.tell(&targets[k], &harvests[k], h, i, before, quick, rate)
			}
		}
	}
	for i := range harvests[:len(targets)] {
		if math.IsNaN(harvests[i].Made) {
			s.done(&harvests[i], nan, s.db)
		}
	}
}

// tell notes what an hour did for a target that it began or ended at or under.
func (s *course) tell(t *Target, v *Harvest, h *Hour, hour int, before, quick, rate float64) {
	when := float64(hour)
	db := before
	if before > t.DB {
		when += s.reached(before, t.DB, quick, rate)
		db = t.DB
	}
	if math.IsNaN(v.Ready) {
		v.Ready = when
	}
	if of := hour % 24; h.RainMM > 0 || hour < t.NotBefore || of < t.From || of >= t.To {
		return
	}
	s.done(v, when, db)
}

// first runs until one target is made, the rain is more than the harm, or the hours end, which is all
// that a chance wants to know.
func (c *Curing) first(hours []Hour, t *Target, harmMM float64) (v Harvest, harmed bool) {
	v = Harvest{Ready: math.NaN(), Made: math.NaN(), RainDB: math.NaN()}
	s := c.start()
	for i := c.mowHour; i < len(hours); i++ {
		h := &hours[i]
		before, quick := s.db, s.quick
		rate := s.dries(h, i)
		if s.rainMM > harmMM {
			s.done(&v, math.NaN(), s.db)
			return v, true
		}
		if before > t.DB && s.db > t.DB {
			continue
		}
		if s.tell(t, &v, h, i, before, quick, rate); !math.IsNaN(v.Made) {
			return v, false
		}
	}
	s.done(&v, math.NaN(), s.db)
	return v, false
}
