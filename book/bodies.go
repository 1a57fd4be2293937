package book

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"haywarden/agronomy/unit"
)

// Body is what a fact says. Check refuses what cannot be true, and says what is accepted.
type Body interface {
	Kind() Kind
	Check() error
}

// Farm is a farm that the adviser serves.
type Farm struct {
	Name      string  `json:"name"`
	County    string  `json:"county,omitempty"`
	Latitude  float64 `json:"latitude,omitempty"`
	Longitude float64 `json:"longitude,omitempty"`
}

// Contact is a person on a farm.
type Contact struct {
	Name  string `json:"name"`
	Phone string `json:"phone,omitempty"`
	Email string `json:"email,omitempty"`
	Role  string `json:"role,omitempty"`
}

// Consent is what a farm allows its records to be used for, and until when.
type Consent struct {
	Use   string    `json:"use"` // service, aggregate, bulletin, research, contact
	Given bool      `json:"given"`
	Until *unit.Day `json:"until,omitempty"`
}

// Field is a piece of ground.
type Field struct {
	Name      string  `json:"name"`
	Acres     float64 `json:"acres"`
	Latitude  float64 `json:"latitude,omitempty"`
	Longitude float64 `json:"longitude,omitempty"`
	Station   string  `json:"station,omitempty"` // weather station it takes its weather from
}

// Crop is what grows in a stand.
type Crop string

// The crops.
const (
	Alfalfa       Crop = "alfalfa"
	ReducedLignin Crop = "reduced-lignin alfalfa"
	RedClover     Crop = "red clover"
	AlfalfaGrass  Crop = "alfalfa-grass"
)

// Crops lists the crops known.
func Crops() []Crop { return []Crop{Alfalfa, ReducedLignin, RedClover, AlfalfaGrass} }

// Product is what a cut becomes.
type Product string

// The products.
const (
	Hay     Product = "hay"
	Haylage Product = "haylage"
	Baleage Product = "baleage"
)

// Products lists the products known.
func Products() []Product { return []Product{Hay, Haylage, Baleage} }

// Stand is one seeding of a field, until it is turned under.
type Stand struct {
	Field       string    `json:"field"` // subject of the field
	Crop        Crop      `json:"crop"`
	Seeded      unit.Day  `json:"seeded"`
	GrassShare  float64   `json:"grass_share,omitempty"` // share of grass in the dry matter, 0-1
	Variety     string    `json:"variety,omitempty"`
	Product     Product   `json:"product,omitempty"`          // usual product of the first cut
	FeedRFV     float64   `json:"feed_rfv,omitempty"`         // RFV wanted when fed
	Sentinel    bool      `json:"sentinel,omitempty"`         // read on a schedule for others' sake
	Hairy       bool      `json:"hopper_resistant,omitempty"` // bred with glandular hairs against leafhopper
	TurnedUnder *unit.Day `json:"turned_under,omitempty"`
}

// Stage is the stage of the most mature stem, as the stick's table divides it.
type Stage string

// The stages.
const (
	Vegetative Stage = "vegetative" // over 12 in tall, no bud or flower
	Bud        Stage = "bud"        // one visible bud or more
	Flower     Stage = "flower"     // one open flower or more
)

// Stages lists the stages known.
func Stages() []Stage { return []Stage{Vegetative, Bud, Flower} }

// Spot is one stick reading: the tallest stem and the stage of the most mature one.
type Spot struct {
	HeightIn float64 `json:"height_in"`
	Stage    Stage   `json:"stage"`
}

// Frame is one counted frame.
type Frame struct {
	Stems  *int    `json:"stems,omitempty"`
	Plants *int    `json:"plants,omitempty"`
	Ft2    float64 `json:"ft2"` // size of the frame
}

// Roots is a dig: how many roots were split, and how many were rotted or streaked (rated 3 or worse
// of 5).
type Roots struct {
	Dug int `json:"dug"`
	Bad int `json:"bad"`
}

// Tips is what became of the growing tips after a spring frost.
type Tips string

// The answers of a look at the growing tips.
const (
	TipsSound  Tips = "sound"
	TipsKilled Tips = "killed"
)

// Visit is what was seen in one stand at one time, raw.
type Visit struct {
	Spots      []Spot      `json:"spots,omitempty"`
	Frames     []Frame     `json:"frames,omitempty"`
	Roots      *Roots      `json:"roots,omitempty"`
	Crowns     *Crowns     `json:"crowns,omitempty"`
	Winter     *WinterSeen `json:"winter,omitempty"`
	Harm       *Harm       `json:"harm,omitempty"`
	GrowthIn   *float64    `json:"growth_in,omitempty"` // height of growth, inches, where no stick was read
	Bloom      *float64    `json:"bloom_pct,omitempty"` // stems in bloom, %
	Grass      *float64    `json:"grass_share,omitempty"`
	Tips       Tips        `json:"tips,omitempty"`
	WeevilTips *float64    `json:"weevil_tips_pct,omitempty"` // stems whose tips weevil larvae fed on, %
	Pests      []Pests     `json:"pests,omitempty"`
	WeedsBloom bool        `json:"weeds_in_bloom,omitempty"`
	Note       string      `json:"note,omitempty"`
}

// Cut is a harvest.
type Cut struct {
	Number  int      `json:"number"` // 1 is the year's first
	Product Product  `json:"product,omitempty"`
	TonsDM  *float64 `json:"tons_dm_acre,omitempty"` // weighed, tons of dry matter an acre
}

// Station is a weather station the book watches.
type Station struct {
	ID        string  `json:"id"`
	Name      string  `json:"name"`
	Latitude  float64 `json:"latitude"`
	Longitude float64 `json:"longitude"`
	Elevation float64 `json:"elevation_m"`
	WholeF    bool    `json:"whole_f"`
}

// FieldWeather says how a field's weather is made where the report of one station is not enough. Its
// subject is the field. Given anew it takes the place of what was said before.
type FieldWeather struct {
	Stations []string `json:"stations,omitempty"` // blended by distance and height; none: the field's own
	MaxF     float64  `json:"max_f,omitempty"`    // added to each day's highest temperature, F
	MinF     float64  `json:"min_f,omitempty"`    // added to its lowest, F
	MaxSE    float64  `json:"max_se,omitempty"`   // standard error of each, F, where readings gave them
	MinSE    float64  `json:"min_se,omitempty"`
	Days     int      `json:"days,omitempty"`        // days of readings behind them; 0: somebody's word
	Height   *float64 `json:"elevation_m,omitempty"` // of the field, metres
}

// Nothing reports whether the field takes just its station's weather.
func (b FieldWeather) Nothing() bool {
	return len(b.Stations) == 0 && b.MaxF == 0 && b.MinF == 0 && b.Days == 0 && b.Height == nil
}

// PriceLine is one price of a deck.
type PriceLine struct {
	Name  string  `json:"name"` // hay-base, hay-base-rfv, hay-per-point ...
	Unit  string  `json:"unit"`
	Value float64 `json:"value"`
}

// Prices is a dated price deck; a farm's own deck overrides the book's.
type Prices struct {
	Name  string      `json:"name"`
	Lines []PriceLine `json:"lines"`
}

// Line returns a price of the deck.
func (b Prices) Line(name string) (PriceLine, bool) {
	i := slices.IndexFunc(b.Lines, func(l PriceLine) bool { return l.Name == name })
	if i < 0 {
		return PriceLine{}, false
	}
	return b.Lines[i], true
}

// Call is a talk with a producer.
type Call struct {
	Contact string `json:"contact,omitempty"`
	About   string `json:"about,omitempty"` // advice or stand it was about
	Said    string `json:"said"`
	Came    string `json:"came_of_it,omitempty"`
}

// Event is a meeting, clinic or field day that was held.
type Event struct {
	Title  string `json:"title"`
	Place  string `json:"place,omitempty"`
	People int    `json:"people"`
}

// Advice is advice that was given, kept as it was said.
type Advice struct {
	Decision string `json:"decision"`
	Sentence string `json:"sentence"`
	MadeFrom string `json:"made_from"` // hash of what it was made from
}

// Outcome is what became of advice.
type Outcome struct {
	Advice string `json:"advice"` // id of the advice-given fact
	Taken  string `json:"taken"`  // yes, no, partly
	Came   string `json:"came_of_it,omitempty"`
}

// Place is where the book is kept: its region and published state guide.
type Place struct {
	Region string `json:"region"`
	Guide  string `json:"guide"` // state whose published tables are used
}

// Withdrawn takes back the fact it supersedes.
type Withdrawn struct {
	Why string `json:"why"`
}

func (Farm) Kind() Kind         { return KindFarm }      // Kind says what the body is
func (Contact) Kind() Kind      { return KindContact }   // see Farm
func (Consent) Kind() Kind      { return KindConsent }   // see Farm
func (Field) Kind() Kind        { return KindField }     // see Farm
func (Stand) Kind() Kind        { return KindStand }     // see Farm
func (Visit) Kind() Kind        { return KindVisit }     // see Farm
func (Cut) Kind() Kind          { return KindCut }       // see Farm
func (Lab) Kind() Kind          { return KindLab }       // see Farm
func (Station) Kind() Kind      { return KindStation }   // see Farm
func (FieldWeather) Kind() Kind { return KindLocal }     // see Farm
func (Prices) Kind() Kind       { return KindPrices }    // see Farm
func (Call) Kind() Kind         { return KindCall }      // see Farm
func (Event) Kind() Kind        { return KindEvent }     // see Farm
func (Advice) Kind() Kind       { return KindAdvice }    // see Farm
func (Outcome) Kind() Kind      { return KindOutcome }   // see Farm
func (Place) Kind() Kind        { return KindPlace }     // see Farm
func (Withdrawn) Kind() Kind    { return KindWithdrawn } // see Farm

// blank returns an empty body of a kind, nil for an unknown one.
func blank(k Kind) Body {
	for _, b := range []Body{&Farm{}, &Contact{}, &Consent{}, &Field{}, &Stand{}, &Visit{}, &Cut{}, &Lab{}, &TableForm{}, &Station{}, &FieldWeather{}, &Prices{}, &Call{}, &Event{}, &Advice{}, &Outcome{}, &Place{}, &Herd{}, &Machines{}, &Quality{}, &Caution{}, &Stack{}, &StackReading{}, &FeedLot{}, &LotLeft{}, &LotFed{}, &SprayProduct{}, &Sprayed{}, &SoilTest{}, &TissueTest{}, &Application{}, &Seeding{}, &SeedingPlan{}, &SoilGuides{}, &GuideTable{}, &Withdrawn{}} {
		if b.Kind() == k {
			return b
		}
	}
	return nil
}

func named(what, s string) error {
	if strings.TrimSpace(s) == "" {
		return fmt.Errorf("%s is empty", what)
	}
	return nil
}

func within(what string, v, low, high float64, unitName string) error {
	if math.IsNaN(v) || v < low || v > high {
		return fmt.Errorf("%s %g: accepted %g to %g %s", what, v, low, high, unitName)
	}
	return nil
}

func oneOf[T ~string](what string, v T, choices []T) error {
	if slices.Contains(choices, v) {
		return nil
	}
	words := make([]string, len(choices))
	for i, c := range choices {
		words[i] = string(c)
	}
	return fmt.Errorf("%s %q: accepted %s", what, v, strings.Join(words, ", "))
}

func position(lat, lon float64) error {
	if lat == 0 && lon == 0 {
		return nil
	}
	if err := within("latitude", lat, -90, 90, "degrees"); err != nil {
		return err
	}
	return within("longitude", lon, -180, 180, "degrees")
}

// EarliestSeeding is older than any stand in production.
var EarliestSeeding = unit.DateOf(1950, time.January, 1)
