package weather

import (
	"cmp"
	"hash/fnv"
	"math"
	"slices"
	"time"

	"haywarden/agronomy/climate"
	"haywarden/agronomy/unit"
)

// Ensemble is how the rest of a year may go: one member for each past year of the station, weighed by
// how like this season that year was to date, and drawn to the forecast over the days it speaks of.
// The same record, date and forecast give the same ensemble: nothing in it is drawn by chance.
type Ensemble struct {
	Date     unit.Day
	Members  []Member
	Forecast *Forecast // nil where none was used
	// Made says that the record is too short to be followed and that its members were made by a
	// [Generator] fitted to it, not lived through.
	Made bool
}

// Member is one way the rest of the year may go; index 0 is the ensemble's date.
type Member struct {
	Year   int
	Weight float64 // all weights add up to 1
	TMaxC  []float64
	TMinC  []float64
	RainMM []float64 // NaN where the past year did not report
}

// EnsembleOptions say how an ensemble is made.
type EnsembleOptions struct {
	Forecast *Forecast
	Lead     climate.Lead // zero: [climate.PublishedLead]
	Equal    bool         // weigh all past years alike
	Days     int          // how far ahead, 0: to the end of the year
}

// mostMissing is the share of days that a past year may lack and still be a member; what it lacks is
// taken at the usual value of the date (choice).
const mostMissing = 0.1

// The widths within which seasons count as alike: heat to date, F-days above 41 F, and rain of the
// last 30 days, mm. [source.LikenessWeights]
var likenessWidths = []float64{40, 30}

// NewEnsemble makes the ensemble of a date from a record that ends before it.
func NewEnsemble(s *Series, date unit.Day, opt EnsembleOptions) *Ensemble {
	if opt.Lead == (climate.Lead{}) {
		opt.Lead = climate.PublishedLead()
	}
	past := s.Until(date - 1)
	usual := usualOf(past)
	e := &Ensemble{Date: date}
	first, _ := past.Years()
	for y := first; y < date.Year() && past.Len() > 0; y++ {
		if m, ok := memberOf(past, usual, date, y, opt.Days); ok {
			e.Members = append(e.Members, m)
		}
	}
	e.weigh(past, usual, opt.Equal)
	if len(e.Members) < ShortRecord && enoughToMake(past) {
		e.Made = true
		e.Members = NewGenerator(past).Members(date, madeMembers, seedOf(s.Station.ID, date))
		for i := range e.Members {
			e.Members[i].cut(opt.Days)
		}
	}
	if opt.Forecast != nil && len(e.Members) > 0 {
		e.Forecast = opt.Forecast
		e.blend(opt)
	}
	return e
}

const (
	madeMembers  = 50   // members that a generator makes (choice)
	leastToMake  = 1000 // days with both temperatures that it is fitted to, at the least (choice)
	leastRainful = 1000 // and days with a rain report
)

// enoughToMake reports whether a record is long enough to fit a generator to.
func enoughToMake(s *Series) bool {
	var days, rain int
	for i := range s.Len() {
		if !math.IsNaN(s.TMaxC[i]) && !math.IsNaN(s.TMinC[i]) {
			days++
		}
		if !math.IsNaN(s.RainMM[i]) {
			rain++
		}
	}
	return days >= leastToMake && rain >= leastRainful
}

// seedOf gives each station and day a seed of its own, the same on every machine.
func seedOf(station string, date unit.Day) uint64 {
	h := fnv.New64a()
	_, _ = h.Write([]byte(station)) // a hash never fails to write
	return h.Sum64() ^ uint64(date)
}

func (m *Member) cut(days int) {
	if days > 0 && days < len(m.TMaxC) {
		m.TMaxC, m.TMinC, m.RainMM = m.TMaxC[:days], m.TMinC[:days], m.RainMM[:days]
	}
}

// Effective is how many equal members the weights amount to: 1 over the sum of their squares.
func (e *Ensemble) Effective() float64 {
	var sq float64
	for _, m := range e.Members {
		sq += m.Weight * m.Weight
	}
	return 1 / sq
}

func memberOf(s *Series, usual *Usual, date unit.Day, year, days int) (Member, bool) {
	from, to := date.InYear(year), unit.DateOf(year, time.December, 31)
	if days > 0 {
		to = min(to, from+unit.Day(days)-1)
	}
	if from < s.First || from > to {
		return Member{}, false
	}
	n := int(to-from) + 1
	m := Member{Year: year, TMaxC: make([]float64, n), TMinC: make([]float64, n), RainMM: make([]float64, n)}
	missing := 0
	for i := range n {
		d := from + unit.Day(i)
		m.RainMM[i] = math.NaN()
		j, ok := s.Index(d)
		if ok {
			m.RainMM[i] = s.RainMM[j]
		}
		if ok && s.HasTemperature(d) {
			m.TMaxC[i], m.TMinC[i] = s.TMaxC[j], s.TMinC[j]
			continue
		}
		missing++
		m.TMaxC[i], m.TMinC[i] = usual.On(d)
	}
	return m, float64(missing) <= mostMissing*float64(n) && !math.IsNaN(m.TMaxC[0])
}

// weigh sets the members' weights by the likeness of their year to date.
func (e *Ensemble) weigh(s *Series, usual *Usual, equal bool) {
	n := len(e.Members)
	rows := make([][]float64, n)
	for i, m := range e.Members {
		rows[i] = featuresOf(s, usual, e.Date.InYear(m.Year))
	}
	now := featuresOf(s, usual, e.Date)
	weights := make([]float64, n)
	for i := range weights {
		weights[i] = 1 / float64(n)
	}
	if !equal && n > 0 {
		weights = climate.LikenessWide(rows, now, likenessWidths)
	}
	for i := range e.Members {
		e.Members[i].Weight = weights[i]
	}
}

// featuresOf is a season to date: heat above 41 F since 1 March and rain of the last 30 days; NaN for
// what is not known or has not begun.
func featuresOf(s *Series, usual *Usual, date unit.Day) []float64 {
	heat, rain := math.NaN(), 0.0
	if march := unit.DateOf(date.Year(), time.March, 1); date > march+14 {
		heat = 0
		for d := march; d < date; d++ {
			hi, lo := usual.On(d)
			if i, ok := s.Index(d); ok && s.HasTemperature(d) {
				hi, lo = s.TMaxC[i], s.TMinC[i]
			}
			heat += max(0, (hi+lo)*0.9+32-41)
		}
	}
	for d := date - 30; d < date; d++ {
		i, ok := s.Index(d)
		if !ok || math.IsNaN(s.RainMM[i]) {
			rain = math.NaN()
			break
		}
		rain += s.RainMM[i]
	}
	return []float64{heat, rain}
}

// blend draws the members to the forecast, day by day.
func (e *Ensemble) blend(opt EnsembleOptions) {
	issued := unit.DayOf(opt.Forecast.Issued)
	var lastHigh, lastLow float64 // weighed anomaly of the last day forecast
	lastLead := 0
	for i := range e.Members[0].TMaxC {
		d := e.Date + unit.Day(i)
		lead := max(1, int(d-issued))
		fd, ok := opt.Forecast.On(d)
		switch {
		case ok && !math.IsInf(opt.Lead.TemperatureSD(lead), 1):
			if fd.TMaxC != nil && fd.TMinC != nil {
				lastHigh = e.drawTo(i, *fd.TMaxC, opt.Lead.TemperatureSD(lead), func(m *Member) []float64 { return m.TMaxC })
				lastLow = e.drawTo(i, *fd.TMinC, opt.Lead.TemperatureSD(lead), func(m *Member) []float64 { return m.TMinC })
				lastLead = lead
			}
			e.rain(i, fd, lead, opt.Lead)
		case lastLead > 0 && lead > lastLead && lead-lastLead <= opt.Lead.Fade:
			fade := 1 - float64(lead-lastLead)/float64(opt.Lead.Fade)
			for j := range e.Members {
				e.Members[j].TMaxC[i] += lastHigh * fade
				e.Members[j].TMinC[i] += lastLow * fade
			}
		}
	}
	for j := range e.Members {
		keepOrder(&e.Members[j])
	}
}

// drawTo draws one day's temperature of all members to a forecast and returns the forecast's weighed
// anomaly.
func (e *Ensemble) drawTo(i int, forecast, s float64, of func(*Member) []float64) float64 {
	var mean, sq, weight float64
	for j := range e.Members {
		v := of(&e.Members[j])[i]
		mean += v
		sq += v * v
		weight++
	}
	mean /= weight
	sigma := math.Sqrt(max(0, sq/weight-mean*mean))
	b := climate.Blend(forecast, s, mean, sigma)
	if sigma == 0 {
		b = climate.Blended{Mean: forecast, SD: s, Weight: 1}
	}
	for j := range e.Members {
		v := of(&e.Members[j])
		v[i] = climate.MemberTemperature(b.Mean, v[i], mean, b.SD, sigma)
	}
	return b.Mean - mean
}

// rain makes as many members wet as the blended chance says, the wettest of their own kind first, so
// that wet and dry spells of the past years hold together.
func (e *Ensemble) rain(i int, fd ForecastDay, lead int, l climate.Lead) {
	pop := known(fd.PoP)
	if math.IsNaN(pop) {
		return
	}
	order := make([]int, 0, len(e.Members))
	var wet, amount, wetWeight float64
	for j, m := range e.Members {
		if math.IsNaN(m.RainMM[i]) {
			continue
		}
		order = append(order, j)
		if m.RainMM[i] >= DryBelowMM {
			wet += m.Weight
			amount += m.Weight * m.RainMM[i]
			wetWeight += m.Weight
		}
	}
	chance := l.BlendRain(pop, wet, lead)
	usualAmount := DryBelowMM
	if wetWeight > 0 {
		usualAmount = max(DryBelowMM, amount/wetWeight)
	}
	if q := known(fd.RainMM); !math.IsNaN(q) && pop > 0 {
		usualAmount = max(DryBelowMM, q/pop)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		ra, rb := e.Members[a].RainMM, e.Members[b].RainMM
		return cmp.Or(-cmp.Compare(ra[i], rb[i]), -cmp.Compare(nearRain(ra, i), nearRain(rb, i)), cmp.Compare(e.Members[a].Year, e.Members[b].Year))
	})
	var before float64
	for _, j := range order {
		m := &e.Members[j]
		middle := before + m.Weight/2
		before += m.Weight
		switch {
		case middle >= chance:
			m.RainMM[i] = 0
		case m.RainMM[i] < DryBelowMM:
			m.RainMM[i] = usualAmount
		}
	}
}

// nearRain is the rain of the days beside a day, by which dry members are ordered.
func nearRain(rain []float64, i int) float64 {
	var sum float64
	for j := max(0, i-2); j <= min(len(rain)-1, i+2); j++ {
		if !math.IsNaN(rain[j]) {
			sum += rain[j]
		}
	}
	return sum
}

// keepOrder puts right a day whose highest fell below its lowest.
func keepOrder(m *Member) {
	for i := range m.TMaxC {
		if m.TMaxC[i] < m.TMinC[i] {
			mid := (m.TMaxC[i] + m.TMinC[i]) / 2
			m.TMaxC[i], m.TMinC[i] = mid, mid
		}
	}
}
