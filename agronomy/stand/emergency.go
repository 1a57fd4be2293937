package stand

import (
	"slices"
	"time"

	"haywarden/agronomy/source"
	"haywarden/agronomy/unit"
)

// Feed is what an emergency forage can be taken as.
type Feed string

// The feeds.
const (
	AsHay     Feed = "hay"
	AsSilage  Feed = "silage"
	AsGrazing Feed = "grazing"
)

// Feeds lists them.
func Feeds() []Feed { return []Feed{AsHay, AsSilage, AsGrazing} }

// monthDay is a day of any year.
type monthDay struct {
	month time.Month
	day   int
}

// Emergency is a forage that can be sown where a stand was lost.
type Emergency struct {
	Name     string
	From, To monthDay // sown from and until, middle latitudes
	Days     int      // to the first cut or grazing; 0: not printed
	Feeds    []Feed
	Say      string
	Danger   string // a caution that goes with it, empty where none is printed
	Source   source.ID
}

// Until is the last day to sow it in a year.
func (e Emergency) Until(year int) unit.Day { return unit.DateOf(year, e.To.month, e.To.day) }

// Opens is the first day to sow it in a year.
func (e Emergency) Opens(year int) unit.Day { return unit.DateOf(year, e.From.month, e.From.day) }

// Emergencies lists the published forages for fields whose stand was lost, soonest sown first. Days are of
// the Upper Midwest: a state's own guide goes before them.
func Emergencies() []Emergency {
	const (
		acid = "Prussic acid: never graze or feed it green short (sudangrass under 12 in, sorghum-sudangrass under 24 in), drought-stressed, or soon after a frost. Not for horses."
		salt = "Drought and cloud can fill annual grasses with nitrate: have it tested before it is fed."
	)
	md := func(m time.Month, d int) monthDay { return monthDay{m, d} }
	return []Emergency{
		{"small grain with field peas", md(time.April, 1), md(time.May, 25), 60, []Feed{AsSilage}, "Oats, barley or triticale 45-60 lb with up to 100 lb of peas; cut at boot. On another field alfalfa can be sown with it. Days to boot are common practice, about 60.", salt, source.EmergencyWinter},
		{"Italian ryegrass into the thin stand", md(time.April, 1), md(time.May, 15), 0, []Feed{AsSilage}, "Drilled at once for more first crop; then kill the stand and plant corn for silage. The last day is a choice.", "", source.EmergencyWinter},
		{"corn for silage", md(time.April, 20), md(time.June, 5), 0, []Feed{AsSilage}, "Uses the nitrogen the stand leaves. 5 June was the last day of full crop insurance in Wisconsin in 2013: ask the agent, and before a cut is taken first.", salt, source.EmergencyWinter},
		{"foxtail millet", md(time.May, 15), md(time.July, 7), 50, []Feed{AsHay, AsSilage, AsGrazing}, "15-25 lb; Siberian boots in about 45 days, Golden German in 55 and yields more. The best of these for dry hay; cut before it heads.", "Bristles of ripe heads injure mouths. Not for horses. " + salt, source.EmergencyMillet},
		{"Japanese or pearl millet", md(time.May, 15), md(time.July, 15), 55, []Feed{AsSilage, AsGrazing}, "Days are of the group, 50-60.", salt, source.EmergencyForages},
		{"sudangrass", md(time.May, 15), md(time.July, 7), 50, []Feed{AsSilage, AsGrazing}, "Cut at 2-3 ft; hard to dry for hay.", acid + " " + salt, source.EmergencyForages},
		{"sorghum-sudangrass", md(time.May, 15), md(time.July, 15), 55, []Feed{AsSilage, AsGrazing}, "Cut at 2-3 ft; wants heat: north of southern Wisconsin only where a warm summer is expected.", acid + " " + salt, source.EmergencyForages},
		{"oats in August", md(time.August, 1), md(time.August, 15), 60, []Feed{AsSilage}, "After an early crop. Days and dates are common practice, no source beyond August.", salt, source.EmergencyWinter},
	}
}

// EmergencyFrom lists what can still be sown on a day and fed so, or in any way where feed is empty, those
// that close first at the head.
func EmergencyFrom(day unit.Day, feed Feed) []Emergency {
	var out []Emergency
	for _, e := range Emergencies() {
		if e.Until(day.Year()) >= day && (feed == "" || slices.Contains(e.Feeds, feed)) {
			out = append(out, e)
		}
	}
	slices.SortStableFunc(out, func(a, b Emergency) int { return int(a.Until(day.Year()) - b.Until(day.Year())) })
	return out
}
