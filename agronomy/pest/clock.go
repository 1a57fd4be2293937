package pest

// Event is a stretch of the weevil's year.
type Event struct {
	Name string
	From float64 // F-days above 48 F since 1 January
}

// WeevilEvents is the weevil's year by heat. Hatching from eggs laid in fall or winter runs ahead of it
// and no weather tells how many there are: it is a guide to when to walk. Source:
// [source.WeevilEvents].
func WeevilEvents() []Event {
	return []Event{
		{"little activity", 0}, {"adults active", 200}, {"instar 1", 300}, {"instar 2", 372}, {"instar 3", 439},
		{"instar 4", 505}, {"cocoon", 596}, {"new adults", 815},
	}
}

// At is the event that a heat sum has come to and the one after it, empty after the last.
func At(events []Event, dd48 float64) (now, next string) {
	for _, e := range events {
		if dd48 < e.From {
			return now, e.Name
		}
		now = e.Name
	}
	return now, ""
}
