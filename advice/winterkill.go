package advice

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/seeding"
	"haywarden/agronomy/stand"
	"haywarden/agronomy/unit"
	"haywarden/outlook"
)

// Triage orders all stands after a winter: who to visit first, until when a lost stand can be sown anew,
// and what to tell many producers at once.
type Triage struct {
	Date     unit.Day
	Stands   []WinterStand
	Skipped  int // stands that no such estimate is made of: clover, and seedings of this year
	Stations []WinterStation
	Message  string // for many producers
}

// WinterStand is one stand of a triage.
type WinterStand struct {
	Stand *outlook.Stand
	*outlook.Wintered
	Tons   float64 // dry matter a year at stake on the field
	Rank   float64 // tons at stake x doubt: what a visit would settle
	Change string  // what would change the estimate
}

// WinterStation is a station's winter, with the days by which fields near it are sown anew.
type WinterStation struct {
	Name    string
	Winter  *outlook.Winter
	Replant []Deadline
}

// Deadline is a last day for something.
type Deadline struct {
	Day unit.Day
	Say string
}

// leastDoubt is that of an estimate which nobody has checked: the points are recalled and the table of loss
// is ours (choice).
const leastDoubt = 0.25

// Winterkill makes the triage of a date.
func Winterkill(o *outlook.Outlook) Triage {
	t := Triage{Date: o.Date}
	seen := map[string]bool{}
	for _, s := range o.Stands {
		if s.Sky != nil && !seen[s.InField.WeatherKey()] {
			seen[s.InField.WeatherKey()] = true
			if !slices.ContainsFunc(t.Stations, func(w WinterStation) bool { return w.Name == s.Sky.Station.Name }) {
				t.Stations = append(t.Stations, WinterStation{Name: s.Sky.Station.Name, Winter: s.Sky.Winter, Replant: replant(s.Sky, o.Guide)})
			}
		}
		w := s.Wintered
		if w == nil {
			t.Skipped++
			continue
		}
		tons := w.AtStake(s.InField.Acres)
		doubt := 0.0
		if !w.Counted {
			doubt = max(leastDoubt, w.Doubt())
		}
		t.Stands = append(t.Stands, WinterStand{Stand: s, Wintered: w, Tons: tons, Rank: tons * doubt, Change: wouldChange(w)})
	}
	slices.SortStableFunc(t.Stands, func(a, b WinterStand) int {
		return cmp.Or(-cmp.Compare(math.Round(a.Rank*100), math.Round(b.Rank*100)), -cmp.Compare(math.Round(a.Tons), math.Round(b.Tons)), cmp.Compare(a.Stand.Named(), b.Stand.Named()))
	})
	slices.SortFunc(t.Stations, func(a, b WinterStation) int { return cmp.Compare(a.Name, b.Name) })
	t.Message = t.message()
	return t
}

// replant lists the last days to sow: spring by the state's calendar, which no climate rule is published
// for, late summer by the station's freezes.
func replant(sky *outlook.Sky, guide string) []Deadline {
	year := sky.Date.Year()
	c := seeding.CalendarOf(guide)
	out := []Deadline{{c.SpringTo.In(year), "alfalfa in spring, by the calendar of " + c.Place + ", on ground without old alfalfa"}}
	half, ok1 := sky.Fall24.On(0.5, year)
	tenth, ok2 := sky.Fall24.On(0.1, year)
	if ok1 && ok2 {
		if w, ok := seeding.PublishedGrowing().LateSummer(half, tenth, emergeDays); ok {
			out = append(out, Deadline{w.Late, "alfalfa in late summer, six weeks of growth before 24 °F in nine years of ten"})
		}
	}
	for _, e := range stand.Emergencies() {
		out = append(out, Deadline{e.Until(year), e.Name})
	}
	slices.SortStableFunc(out, func(a, b Deadline) int { return int(a.Day - b.Day) })
	return slices.DeleteFunc(out, func(d Deadline) bool { return d.Day < sky.Date })
}

const emergeDays = 7 // from seeding to emergence in warm soil (choice)

// wouldChange says what would narrow an estimate most.
func wouldChange(w *outlook.Wintered) string {
	words := map[string]string{
		stand.AskHardiness: "the variety's winter hardiness", stand.AskResistance: "its disease resistance", stand.AskPotassium: "a soil test of potassium",
		stand.AskDrainage: "how the soil drains", stand.AskMoisture: "how wet it was in fall", stand.AskCutting: "last year's cuts", stand.AskStubble: "the stubble left in fall",
	}
	switch ask := w.Risk.Widest(); {
	case w.Counted:
		return "counted: the stems decide"
	case w.Winter == nil:
		return "a station that reported through the winter; else a count"
	case ask != "":
		return words[ask] + ", or a count of stems and roots"
	}
	return "a count of stems and roots"
}

// message is what is told to many at once.
func (t Triage) message() string {
	hard := []string{}
	for _, s := range t.Stations {
		if s.Winter != nil && (s.Winter.Mildest == stand.StressHard || s.Winter.Mildest == stand.StressSevere) {
			hard = append(hard, s.Name)
		}
	}
	var b strings.Builder
	judged := slices.ContainsFunc(t.Stations, func(s WinterStation) bool { return s.Winter != nil })
	switch {
	case !judged:
		b.WriteString("No station reported enough of the winter to judge it, so look at every stand.\n")
	case len(hard) == 0:
		b.WriteString("By the stations, the winter was not hard on alfalfa crowns hereabouts. Ice and standing water no station sees, so look all the same.\n")
	default:
		fmt.Fprintf(&b, "By the stations at %s, the winter was hard on alfalfa crowns. That is no verdict on any field: look before you decide.\n", strings.Join(hard, ", "))
	}
	b.WriteString("1. When plants stand 4 to 6 inches, count the stems the mower would take in 5 frames of 2 square feet: over 55 a square foot is full yield, 40 to 54 some loss, under 40 is time to think of replacing.\n" +
		"2. Dig 20 to 30 roots and split them: white and firm is sound; brown, soft or ropy is not. Look again after two weeks, injured plants can start and die.\n" +
		"3. Let an injured stand reach bloom once before it is cut, and cut it higher and later.\n" +
		"4. Never sow alfalfa into old alfalfa. Red clover or grass can fill it; where it is lost, sow something else.\n" +
		"5. Ask your crop insurance agent before you cut or end a stand.\n")
	if len(t.Stations) > 0 && len(t.Stations[0].Replant) > 0 {
		b.WriteString("Last days to sow:")
		for i, d := range t.Stations[0].Replant {
			if i > 5 {
				break
			}
			fmt.Fprintf(&b, " %s by %s;", d.Say, Short(d.Day))
		}
		b.WriteString(" your state's guide goes before these.\n")
	}
	return b.String()
}
