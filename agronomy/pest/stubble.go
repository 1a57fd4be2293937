package pest

// Stubble is how many tons an acre each day without leaves takes from the growth after the first cut:
// less where the next cut waits for its bloom than where it is made by the calendar. Source:
// [source.StubbleDays].
type Stubble struct{ Bloom, Calendar float64 }

// PublishedStubble returns it, tons/ac a day.
func PublishedStubble() Stubble { return Stubble{Bloom: 0.0198, Calendar: 0.0345} }

// Days is how many days of bare stubble a treatment's cost buys off: cost/(hay loss).
func (k Stubble) Days(m Money, calendar bool) float64 {
	loss := k.Bloom
	if calendar {
		loss = k.Calendar
	}
	return m.Cost / (m.Hay * loss)
}

const (
	// StubbleLarvae is larvae a square foot of stubble from which regrowth is held back; over twenty
	// looks of a square foot. The lower of 6 to 8 (Michigan) and 8 (Minnesota). Source:
	// [source.StubbleLarvae].
	StubbleLarvae = 6.0
	// StubbleFrom and StubbleTo bound the days after the first cut in which stubble is looked at.
	// Source: [source.StubbleLarvae].
	StubbleFrom, StubbleTo = 4, 10
)
