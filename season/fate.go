package season

import (
	"math"
	"math/rand/v2"

	"haywarden/agronomy/curing"
	"haywarden/agronomy/losses"
	"haywarden/agronomy/regrowth"
	"haywarden/agronomy/storage"
)

// Fate is what becomes of a crop mown on a day, from the swath to the bunk.
type Fate struct {
	Kept     float64 // of the standing dry matter
	NDF, ADF float64 // points more at the bunk than standing
	Clean    bool    // made in time without harmful rain
}

// Sky is the outlook for haymaking as it is told on the morning of a day.
type Sky uint8

// The two.
const (
	Poor Sky = iota
	Good
	skies
)

// Member is one way a year may go, from 1 January.
type Member struct {
	Weight float64 // all add up to 1
	Days   []regrowth.Day
	Fates  []Fate // of a crop mown on each day
	Told   []Sky  // of each day
}

// Plain is the fate where no weather is followed: the model's usual loss and 15 points of RFV, which is
// 3 points of NDF and 2 of ADF about.
func Plain(m *regrowth.Model) Fate { return Fate{Kept: 1 - m.UsualLoss, NDF: 3, ADF: 2, Clean: true} }

// Tell fills what is told of each day: the truth with the chance skill, else a word drawn from how often
// days are good. A skill of 0 tells nothing, of 1 all.
func Tell(members []Member, skill float64, rng *rand.Rand) {
	var good, all float64
	for _, m := range members {
		for _, f := range m.Fates {
			all++
			if f.Clean {
				good++
			}
		}
	}
	for i := range members {
		m := &members[i]
		m.Told = make([]Sky, len(m.Fates))
		for d, f := range m.Fates {
			truth := f.Clean
			if rng.Float64() >= skill {
				truth = rng.Float64() < good/all
			}
			if truth {
				m.Told[d] = Good
			}
		}
	}
}

// followed is how many days a swath is followed, the day of mowing being the first (choice).
const followed = 12

// Harvest is how a crop is put up: the product, the moisture and hours it is taken up at, and the way
// to the bunk at a usual composition.
type Harvest struct {
	swath  *curing.Curing
	mowH   int
	target curing.Target
	within int
	dry    losses.Chain
	usual  losses.Feed
}

// NewHarvest prepares a product: round bales of hay under a roof, wrapped bales, or haylage in a bunker.
func NewHarvest(p losses.Product) (*Harvest, error) {
	const yieldTHa = 4
	swath := curing.UsualSwath()
	c, err := curing.NewCuring(swath)
	if err != nil {
		return nil, err
	}
	h := &Harvest{swath: c, mowH: swath.MowHour, usual: losses.Feed{DM: 1, Composition: losses.Composition{NDF: 38, ADF: 29, CP: 20}}}
	as, keep := curing.BunkerHaylage, storage.Keeping{Wrap: storage.Net, Feeder: storage.FeedBunk, Store: string(storage.Bunker)}
	h.within = 2
	way := losses.Harvest{As: p, YieldTHa: yieldTHa, Crop: losses.Alfalfa}
	switch p {
	case losses.Haylage:
	case losses.Hay:
		as, h.within, keep.Store, way.By = curing.RoundBale, 4, string(storage.Inside), losses.Round
	case losses.Baleage:
		as, h.within, keep.Store, way.By = curing.Baleage, 3, string(storage.WrappedBale), losses.Round
	}
	h.target, way.Moisture = as.Target(), float64(as.Moisture())
	chain, err := losses.Published().Bring(h.usual, way)
	if err != nil {
		return nil, err
	}
	h.dry, err = storage.Published().ToBunk(chain, p, way.Moisture, keep)
	return h, err
}

// Fates follows a swath mown on each of the days through that weather. The last days, of which too
// little is known, and days with gaps have the fate of [Plain] without being clean.
func (h *Harvest) Fates(place curing.Place, days []curing.Day, usual Fate) ([]Fate, error) {
	maker, err := curing.NewMaker(place)
	if err != nil {
		return nil, err
	}
	curing.SiltLoam().Along(maker, days)
	hours := make([]curing.Hour, 24*len(days))
	maker.Fill(hours, days)
	out := make([]Fate, len(days))
	got := make([]curing.Harvest, 1)
	moisture := make([]float64, 24*followed)
	breath := losses.PublishedRespiration()
	for d := range days {
		out[d] = usual
		out[d].Clean = false
		if d+followed > len(days) {
			continue
		}
		over := hours[24*d : 24*(d+followed)]
		if !whole(over) {
			continue
		}
		h.swath.Run(over, []curing.Target{h.target}, moisture, got)
		lying, clean := h.lying(got[0], over, moisture, breath)
		f, err := h.dry.Carry(h.usual, lying)
		if err != nil {
			return nil, err
		}
		out[d] = Fate{Kept: f.DM, NDF: f.NDF - h.usual.NDF, ADF: f.ADF - h.usual.ADF, Clean: clean}
	}
	return out, nil
}

func (h *Harvest) lying(got curing.Harvest, over []curing.Hour, moisture []float64, breath losses.Respiration) (losses.Lying, bool) {
	end := float64(len(over))
	made := got.Made
	if !(made < end) {
		made = end
	}
	left := 1.0
	for i := h.mowH; i < int(made); i++ {
		db := moisture[max(0, i-1)]
		left *= breath.Left(losses.Hour{TempC: over[i].TempC, Moisture: db / (1 + db)})
	}
	l := losses.Lying{Breathed: 1 - left}
	if got.RainMM > 0 {
		if rain, err := losses.Published().Rain.Loss(got.RainMM, 100*got.RainDB/(1+got.RainDB), losses.Alfalfa); err == nil {
			l.Rain = rain
		}
	}
	return l, got.Made < float64(24*h.within) && !(got.RainMM > curing.UsualHarmMM)
}

func whole(hours []curing.Hour) bool {
	for i := range hours {
		if math.IsNaN(hours[i].TempC) || math.IsNaN(hours[i].RainMM) || math.IsNaN(hours[i].SoilPct) {
			return false
		}
	}
	return true
}
