package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"haywarden/advice"
	"haywarden/book"
	"haywarden/chart"
	"haywarden/office"
	"haywarden/outlook"
	"haywarden/paper"
)

type standView struct {
	Farm, FarmHref, Field, Lede string
	Weigh, Samples              string // the pages on cutting now or waiting, and on stacks and samples
	Call                        phoneView
	Strips                      []drawn
	StripRows                   [][]string
	Pieces                      []pieceView
	Judged                      judgedView
	Bunk                        bunkView
	Choices                     [][]string // ways to go on with the stand, headings first
	Winter                      []factView // how it wintered
	Readings                    []readingView
	Quality                     bool // the readings say a feed value
	Stems                       []drawn
	StemsSay                    string
	Clock                       []drawn
	ClockSay                    string
	Coming, History, Earlier    []dayView
	HistoryLeft                 bool // the history fills the left column
	Facts                       []factView
	Station                     linkTo // whose weather it takes
	StationSay                  string
	Soil                        soilView
	Life                        []drawn
	LifeRows                    [][]string
}

// judgedView says by what the standing crop is judged and how it stands.
type judgedView struct {
	Heading, Say, RowsOf string
	Fans                 []drawn
	Rows                 [][]string
}

// bunkView is the coming cut on its way to the bunk; without rows there is none.
type bunkView struct {
	Say       string
	Stairs    []drawn
	StairRows [][]string
	Rows      [][]string
}

type readingView struct {
	Day, Spots, Height, Stage, NDF, RFV, SD, Doubt string
	Used                                           bool
}

// The widths of drawings, px: across a phone, a tablet and the whole page, and in each column.
const (
	phoneWide = 350
	midWide   = 660
	fullWide  = 1184
	leftWide  = 632
	rightWide = 480
)

func (s *Server) stand(ctx context.Context, r *http.Request, p frame) (templ.Component, error) {
	a, err := s.office.Stand(ctx, s.actor, r.PathValue("id"), p.ask)
	if err != nil {
		return nil, err
	}
	p.Title, p.Region = a.Stand.Named(), a.Outlook.View.Place.Region
	return standPage(p, p.standView(a)), nil
}

func (p frame) standView(a *office.StandAdvice) standView {
	s := a.Stand
	v := standView{
		Farm: s.Farm.Name, FarmHref: string(p.link("/farms/" + s.Farm.ID)), Field: s.InField.Name,
		Lede: standLede(s), Call: callOf(s.Farm), Facts: known(s), Judged: judged(s),
	}
	if s.Seeded <= s.Date {
		v.Samples = string(p.link("/stands/" + s.ID + "/samples"))
	}
	if s.Growing(s.Date) {
		v.Weigh = string(p.link("/stands/" + s.ID + "/weigh"))
	}
	v.History, v.Earlier = history(s)
	if s.Sky != nil {
		v.Station = linkTo{s.Sky.Station.Name, p.stationHref(s.Sky.Station.ID)}
		if s.Sky.Station.ID == s.InField.ID {
			v.Station.Href = string(p.link("/weather")) // made for the field: no station's own
		}
		v.StationSay = "; ahead by " + s.Sky.Follows()
	}
	strip := paper.Strip(s, a.Pieces)
	strip.Labels, v.StripRows = true, strip.Rows()
	for _, size := range []struct {
		class         string
		width, height float64
	}{{"full-only", fullWide, 140}, {"mid-only", midWide, 140}, {"narrow-only", phoneWide, 140}} {
		strip.Width, strip.Height = size.width, size.height
		v.Strips = append(v.Strips, drawn{SVG: chart.SVG(strip), Class: size.class})
	}
	for _, piece := range a.Pieces {
		v.Pieces = append(v.Pieces, p.view(piece, true))
	}
	for _, d := range paper.Coming(s, a.Pieces) {
		v.Coming = append(v.Coming, dayView{d.Day.String(), advice.Short(d.Day), d.Say})
	}
	v.Readings, v.Quality = readings(s), s.Judged() == outlook.PureAlfalfa
	if iv, ok := paper.Stems(s); ok {
		v.StemsSay = stemsSay(s)
		for _, d := range []drawn{{Class: "wide-only"}, {Class: "narrow-only"}} {
			if d.Class == "narrow-only" {
				iv.Width = phoneWide
			} else {
				iv.Width = rightWide
			}
			d.SVG = chart.SVG(iv)
			v.Stems = append(v.Stems, d)
		}
	}
	// Heat leads the first growth of an established stand; after it, it says nothing.
	if c, ok := paper.Clock(s); ok && s.Growing(s.Date) && s.Growth.Number == 1 && !s.SeedingYear() {
		c.Width, c.Height = rightWide, 250
		v.Clock = append(v.Clock, drawn{SVG: chart.SVG(c), Class: "wide-only"})
		c.Width, c.Height = phoneWide, 230
		v.Clock = append(v.Clock, drawn{SVG: chart.SVG(c), Class: "narrow-only"})
		v.ClockSay = fmt.Sprintf("Station %s, weather through %s.", s.Sky.Station.Name, advice.Short(s.Sky.Through))
	}
	v.Bunk = bunk(s, a.Pieces)
	v.Choices, v.Winter = choices(a.Pieces), wintered(s)
	v.HistoryLeft = v.leftIsShorter()
	v.Soil = soilOf(office.FieldSoilOf(a.Outlook, s.InField))
	if life, ok := paper.Life(s); ok {
		v.LifeRows = life.Rows()
		life.Width = rightWide
		v.Life = append(v.Life, drawn{SVG: chart.SVG(life), Class: "wide-only"})
		life.Width = phoneWide
		v.Life = append(v.Life, drawn{SVG: chart.SVG(life), Class: "narrow-only"})
	}
	return v
}

// columns is how many columns the table of readings has.
func (v standView) columns() string {
	if v.Quality {
		return "7"
	}
	return "4"
}

// leftIsShorter guesses, from what stands in each column, whether the history belongs in the left one.
func (v standView) leftIsShorter() bool {
	left := 190*len(v.Pieces) + 130 + 42*len(v.Readings)
	if len(v.Judged.Fans) > 0 {
		left += 340
	}
	if len(v.Bunk.Rows) > 0 {
		left += 480
	}
	right := 300 + 50*len(v.Coming)
	if len(v.Stems) > 0 {
		right += 260
	}
	if len(v.Clock) > 0 {
		right += 360
	}
	return left < right
}

// bunk follows the coming cut from the field to the bunk.
func bunk(s *outlook.Stand, pieces []*advice.Piece) bunkView {
	b, ok := paper.FieldToBunk(s, pieces)
	if !ok {
		return bunkView{}
	}
	v := bunkView{Say: b.Say, StairRows: b.Stairs.Rows(), Rows: b.Rows}
	b.Stairs.Width, b.Stairs.Height = leftWide, 240
	b.Short.Width, b.Short.Height = phoneWide, 220
	v.Stairs = []drawn{{SVG: chart.SVG(b.Stairs), Class: "wide-only"}, {SVG: chart.SVG(b.Short), Class: "narrow-only"}}
	return v
}

func standLede(s *outlook.Stand) string {
	seeded := advice.Short(s.Seeded) + fmt.Sprintf(" %d", s.Seeded.Year())
	parts := []string{acres(s) + " acres", advice.Describe(s)}
	switch {
	case s.Seeded > s.Date: // only planned
	case s.SeedingYear():
		parts[1] += ", on " + seeded
	default:
		parts = append(parts, "seeded "+seeded)
	}
	if s.Sentinel {
		parts = append(parts, "sentinel field")
	}
	return strings.Join(parts, " · ")
}

// judged says by what the growth that stands is judged, and draws it where it can be drawn.
func judged(s *outlook.Stand) judgedView {
	v := judgedView{Heading: "How it is judged", Say: judgedSay(s)}
	if f, ok := paper.Fan(s); ok {
		v.Heading, v.RowsOf = "Standing feed value", "Feed value"
		v.draw(f)
	} else if f, ok := paper.HeightFan(s); ok {
		v.Heading, v.RowsOf = "How tall it stands", "Height"
		v.draw(f)
	}
	return v
}

func (v *judgedView) draw(f chart.Fan) {
	f.Width, f.Height = leftWide, 300
	v.Rows = f.Rows()
	v.Fans = append(v.Fans, drawn{SVG: chart.SVG(f), Class: "wide-only"})
	f.Width, f.Height = phoneWide, 260
	v.Fans = append(v.Fans, drawn{SVG: chart.SVG(f), Class: "narrow-only"})
}

func judgedSay(s *outlook.Stand) string {
	if !s.Growing(s.Date) {
		say := "Nothing stands here yet."
		if s.TurnedUnder != nil && *s.TurnedUnder <= s.Date {
			say = fmt.Sprintf("Nothing stands here: it was turned under on %s.", advice.Short(*s.TurnedUnder))
		}
		if s.Stack() != nil {
			say += " Its hay is still under watch."
		}
		if len(s.Plans) > 0 {
			say += " A seeding is planned."
		}
		return say
	}
	if s.Standing != nil {
		return standingSay(s)
	}
	if bands, cutAt, ok := advice.HeightAhead(s, 1); ok {
		b := bands[0]
		return fmt.Sprintf("By height, since the stick's feed value holds for pure alfalfa only. The tallest alfalfa stands about %.0f inches this morning (%.0f to %.0f, 8 chances in 10); with %.0f %% grass it is cut at %.0f.", b[2], b[0], b[4], 100*s.Grass(), cutAt)
	}
	why := s.NotStanding
	if why == "" {
		why = s.NoSky
	}
	growth := ""
	if s.Growth.After {
		growth = fmt.Sprintf(" This is day %d of its %s growth.", s.Growth.Days(s.Date), advice.Ordinal(s.Growth.Number))
	}
	switch {
	case s.SeedingYear():
		return fmt.Sprintf("By age in its seeding year, not by feed value. It was seeded %d days ago.", s.Date-s.Seeded)
	case s.Judged() == outlook.Clover:
		return "By stage and days: red clover is cut from bud to 20 % bloom, and no feed value by height or heat is published for it." + growth
	case s.Judged() == outlook.Mixture && s.Growth.Number > 1:
		return "By days and stage, since the stick's feed value holds for pure alfalfa only." + growth
	case why == "":
		return "Nothing is said of its feed value." + growth
	}
	return "No feed value is said: " + why + "." + growth
}

func standingSay(s *outlook.Stand) string {
	st := s.Standing
	say := fmt.Sprintf("RFV %s this morning, give or take %.0f.", advice.Points(st.RFV), st.SD)
	if a := s.Ahead(); a != nil {
		if low, mid, high, ok := a.Loss(0, 7); ok {
			say += fmt.Sprintf(" It loses %.1f points a day (%.1f to %.1f) over the next week.", mid/7, low/7, high/7)
		}
	}
	if st.Borrowed {
		say += " No reading was taken here: it is judged from the heat and from fields nearby."
	}
	return say
}

func stemsSay(s *outlook.Stand) string {
	c := s.Stems.Count
	say := fmt.Sprintf("Counted in %d frames on %s. Chances: %s that it is under 40, %s under 55.", s.Stems.Frames, advice.Short(s.Stems.Day), advice.Odds(c.ChanceBelow40), advice.Odds(c.ChanceBelow55))
	if even, ok := c.Evenness(); ok {
		say += fmt.Sprintf(" The frames are %s: they differ by %.0f %% of their mean.", even, 100*c.CV)
	}
	if r := s.Stems.Roots; r != nil {
		say += fmt.Sprintf(" Roots: %d of %d rotted or streaked.", r.Bad, r.Dug)
	}
	return say
}

func known(s *outlook.Stand) []factView {
	t := s.Target
	var out []factView
	if s.Judged() == outlook.PureAlfalfa {
		feed := advice.Points(t.FeedRFV) + " RFV, as " + string(t.Product)
		if t.Assumed {
			feed += " (assumed)"
		}
		out = append(out, factView{"Wanted when fed", feed})
	} else {
		out = append(out, factView{"Fed as", string(t.Product)})
	}
	if s.Variety != "" {
		out = append(out, factView{"Variety", s.Variety})
	}
	if s.Sky != nil {
		if like := s.Sky.Likest(likeYears); like != nil {
			out = append(out, factView{"Seasons most like this", yearsInWords(like)})
		}
	} else {
		out = append(out, factView{"Weather", s.NoSky})
	}
	if price, ok := s.HayPrice(); ok {
		out = append(out, factView{"Prices", fmt.Sprintf("%s, of %s %d", price.Deck, advice.Short(price.Day), price.Day.Year())})
	} else {
		out = append(out, factView{"Prices", "none entered: worth is said in tons and points"})
	}
	yield := "by age"
	if s.Yield.StemsKnown {
		yield = "by age and stems"
	}
	return append(out, factView{"Yield expected", fmt.Sprintf("%.1f tons of dry matter an acre a year, %s", s.Yield.Year, yield)})
}

func readings(s *outlook.Stand) []readingView {
	var out []readingView
	last, has := s.LastReading()
	for _, r := range slices.Backward(s.Readings) {
		height := r.Highest
		if s.Judged() == outlook.Mixture {
			for _, sp := range r.Spots {
				height = max(height, sp.HeightIn) // a mixture goes by its tallest alfalfa
			}
		}
		out = append(out, readingView{
			Day: advice.Short(r.Day), Spots: fmt.Sprint(r.Field.N), Height: fmt.Sprintf("%.1f", height), Stage: stages(r.Spots),
			NDF: fmt.Sprintf("%.1f", r.Field.NDF), RFV: advice.Points(r.Field.RFV), SD: fmt.Sprintf("%.0f", r.Field.SD), Doubt: r.Doubt,
			Used: has && r.Day == last.Day && s.Standing != nil,
		})
	}
	return out
}

// stages names the stages seen, most mature first.
func stages(spots []book.Spot) string {
	count := map[book.Stage]int{}
	for _, sp := range spots {
		count[sp.Stage]++
	}
	var parts []string
	for _, st := range []book.Stage{book.Flower, book.Bud, book.Vegetative} {
		if count[st] == len(spots) {
			return string(st)
		}
		if count[st] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count[st], st))
		}
	}
	return strings.Join(parts, ", ")
}

// likeYears is how many of the seasons most like this one are named.
const likeYears = 3

func yearsInWords(years []int) string {
	words := make([]string, len(years))
	for i, y := range years {
		words[i] = strconv.Itoa(y)
	}
	return strings.Join(words, ", ")
}
