package demo

import "haywarden/book"

// steading is a farm as the story has it.
type steading struct {
	name, county string
	east, north  float64 // miles from the middle of the district
	station      string
	habit        habit
	lab          string
	people       []book.Contact
	plots        []plot
}

// plot is a field with its stand.
type plot struct {
	name    string
	acres   float64
	crop    book.Crop
	seeded  string // YYYY-MM-DD
	grass   float64
	product book.Product
	feed    float64 // RFV wanted when fed
	stems   float64 // true stems a square foot in spring 2026; 0 leaves it to age and luck
	tells   tells
	station string // where it is not the farm's
	turned  string // YYYY-MM-DD, where it was turned under
}

// tells marks what the story does with a stand.
type tells uint16

const (
	sentinel  tells = 1 << iota // read with the stick on Mondays and Thursdays
	readOnce                    // read once in mid-May
	uncounted                   // stems not counted in spring 2026
	dug                         // roots dug with the spring count
	watched                     // red clover looked at for bloom each week
	lookedAt                    // growing tips looked at after the freeze
	tested                      // stored first cut sent to the laboratory
	weighed                     // yields weighed
	away                        // sentinel not read in the week of 4 May
)

// The laboratories. The second reads two points too high in NDF, as only a comparison would show.
const (
	fairLab = "Harebell Forage Laboratory"
	highLab = "Millrace Feed Laboratory"
)

const highLabNDF = 2.0

// The people of the office.
const (
	adviser = "Wren Halloway"
	helper  = "Jory Tamsin"
)

func person(name, role, phone, mail string) book.Contact {
	c := book.Contact{Name: name, Role: role, Phone: "555-01" + phone}
	if mail != "" {
		c.Email = mail + ".example" // a name reserved for examples, RFC 2606
	}
	return c
}

const (
	alf = book.Alfalfa
	rla = book.ReducedLignin
	red = book.RedClover
	mix = book.AlfalfaGrass
	hay = book.Hay
	hlg = book.Haylage
	bal = book.Baleage
)

// steadings is the whole district. People, places and numbers are invented.
func steadings() []steading {
	return []steading{
		{"Ottermoss", "Larkmoor", -6, -1, crossing, keen, fairLab,
			[]book.Contact{person("Isolde Fennick", "owner", "11", "isolde@ottermoss"), person("Bram Fennick", "herd", "12", "")},
			[]plot{
				{name: "Long Meadow", acres: 22, crop: alf, seeded: "2023-04-24", product: hlg, feed: 155, stems: 58, tells: sentinel | tested | weighed},
				{name: "Sluice Piece", acres: 18, crop: rla, seeded: "2024-04-29", product: hlg, feed: 160, tells: readOnce | tested},
				{name: "Heron Bank", acres: 14, crop: mix, seeded: "2022-05-02", grass: .35, product: hlg, feed: 140},
				{name: "Withy Corner", acres: 31, crop: alf, seeded: "2021-04-22", product: hlg, feed: 140, stems: 43, tells: dug},
			}},
		{"Thrushgate", "Larkmoor", 6, 5, ridge, keen, fairLab,
			[]book.Contact{person("Corwin Ashlock", "owner", "13", "corwin@thrushgate")},
			[]plot{
				{name: "Kiln Forty", acres: 38, crop: alf, seeded: "2021-04-27", product: hlg, feed: 140, stems: 34, tells: dug | readOnce, turned: "2026-06-08"},
				{name: "Anvil Lot", acres: 24, crop: rla, seeded: "2025-04-21", product: hlg, feed: 160, stems: 74, tells: tested},
				{name: "Bell Field", acres: 19, crop: alf, seeded: "2023-08-09", product: hlg, feed: 155, tells: sentinel | weighed},
				{name: "Ridge End", acres: 16, crop: mix, seeded: "2022-05-03", grass: .25, product: bal, feed: 130},
			}},
		{"Pennywhistle", "Larkmoor", -3.5, -5, crossing, steady, highLab,
			[]book.Contact{person("Marigold Tewson", "owner", "14", "marigold@pennywhistle"), person("Alder Tewson", "crops", "15", "")},
			[]plot{
				{name: "Below the Elms", acres: 16, crop: alf, seeded: "2024-04-26", product: hlg, feed: 155, stems: 66, tells: sentinel | tested | away},
				{name: "Piper's Acre", acres: 21, crop: alf, seeded: "2022-04-30", product: hlg, feed: 150, stems: 52, tells: readOnce},
				{name: "Toll Gate", acres: 28, crop: mix, seeded: "2023-05-06", grass: .4, product: hlg, feed: 130, tells: tested},
				{name: "Larder Field", acres: 11, crop: red, seeded: "2025-03-20", product: bal, feed: 130},
			}},
		{"Lanternfield", "Larkmoor", 3, 2, ridge, steady, fairLab,
			[]book.Contact{person("Silvan Okehurst", "owner", "16", "silvan@lanternfield")},
			[]plot{
				{name: "Mill Lot", acres: 27, crop: mix, seeded: "2023-05-01", grass: .3, product: hlg, feed: 140, tells: sentinel | tested},
				{name: "Lamp Meadow", acres: 33, crop: rla, seeded: "2023-04-28", product: hlg, feed: 160, tells: readOnce | weighed},
				{name: "Stile Piece", acres: 17, crop: alf, seeded: "2021-08-12", product: hay, feed: 140, stems: 41, tells: dug},
				{name: "Candle Strip", acres: 8, crop: red, seeded: "2024-03-18", product: bal, feed: 125},
			}},
		{"Quillfeather", "Wend", -1, -6.5, crossing, keen, fairLab,
			[]book.Contact{person("Octavia Pellworth", "owner", "17", "octavia@quillfeather"), person("Hobb Grayling", "crops", "18", "hobb@quillfeather")},
			[]plot{
				{name: "The Hundred", acres: 62, crop: alf, seeded: "2023-05-02", product: hlg, feed: 155, stems: 60, tells: sentinel | tested | weighed},
				{name: "Inkwell", acres: 26, crop: alf, seeded: "2022-04-27", product: hlg, feed: 150, stems: 37, tells: dug},
				{name: "Paper Mill", acres: 20, crop: rla, seeded: "2024-08-07", product: hlg, feed: 160, tells: readOnce | tested},
				{name: "Goose Green", acres: 15, crop: mix, seeded: "2021-05-05", grass: .5, product: bal, feed: 120},
			}},
		{"Marrowby", "Wend", 7.5, 0.5, ridge, steady, highLab,
			[]book.Contact{person("Piers Lovick", "owner", "19", "piers@marrowby")},
			[]plot{
				{name: "Upper Ley", acres: 31, crop: alf, seeded: "2020-04-25", product: hlg, feed: 140, stems: 24, turned: "2025-10-08"},
				{name: "Upper Ley", acres: 31, crop: alf, seeded: "2026-08-11", product: hlg, feed: 155},
				{name: "Lower Ley", acres: 29, crop: alf, seeded: "2022-05-01", product: hlg, feed: 145, tells: uncounted},
				{name: "Badger Slope", acres: 13, crop: alf, seeded: "2025-08-11", product: hlg, feed: 155, stems: 70},
				{name: "Sundial", acres: 18, crop: mix, seeded: "2024-04-30", grass: .3, product: hlg, feed: 140},
				{name: "Hollow Close", acres: 10, crop: alf, seeded: "2023-05-04", product: hlg, feed: 150, tells: lookedAt, station: hollow},
			}},
		{"Tansy Hollow", "Larkmoor", 0.5, 9.5, hollow, steady, fairLab,
			[]book.Contact{person("Linnet Harrowgate", "owner", "20", "linnet@tansyhollow")},
			[]plot{
				{name: "Orchard Piece", acres: 12, crop: red, seeded: "2025-04-17", product: bal, feed: 130, tells: watched},
				{name: "Long Bottom", acres: 25, crop: alf, seeded: "2024-05-01", product: hlg, feed: 155, stems: 64, tells: sentinel | lookedAt},
				{name: "Spring Run", acres: 18, crop: alf, seeded: "2022-05-03", product: hlg, feed: 145, stems: 47},
				{name: "Cress Bed", acres: 14, crop: mix, seeded: "2023-05-08", grass: .35, product: hlg, feed: 135},
				{name: "Fox Steps", acres: 9, crop: rla, seeded: "2023-05-03", product: hlg, feed: 160, tells: uncounted},
			}},
		{"Foxglove", "Larkmoor", -7.5, -4, crossing, steady, fairLab,
			[]book.Contact{person("Gideon Marsk", "owner", "21", "gideon@foxglove"), person("Tamsel Marsk", "books", "22", "")},
			[]plot{
				{name: "Saltlick", acres: 23, crop: alf, seeded: "2022-04-28", product: hlg, feed: 150, stems: 54, tells: sentinel | tested},
				{name: "Bee Field", acres: 15, crop: alf, seeded: "2020-05-04", product: hay, feed: 130, stems: 31, tells: dug, turned: "2026-10-06"},
				{name: "Thimble Piece", acres: 12, crop: red, seeded: "2024-03-22", product: bal, feed: 125},
				{name: "Hay Barn Forty", acres: 40, crop: alf, seeded: "2024-08-10", product: hlg, feed: 150, tells: uncounted},
			}},
		{"Candlewick", "Wend", 4, -1.5, ridge, seller, fairLab,
			[]book.Contact{person("Jessamy Thorold", "owner", "23", "jessamy@candlewick")},
			[]plot{
				{name: "Tallow Field", acres: 35, crop: alf, seeded: "2023-04-29", product: hay, feed: 170, tells: uncounted | tested},
				{name: "Wick Lane", acres: 22, crop: alf, seeded: "2021-05-03", product: hay, feed: 150, stems: 44, tells: dug},
				{name: "New Ground", acres: 27, crop: alf, seeded: "2026-04-23", product: hay, feed: 160},
			}},
		{"Moonpenny", "Wend", -5, -8, crossing, herder, highLab,
			[]book.Contact{person("Barnaby Quellen", "owner", "24", "")},
			[]plot{
				{name: "Daisy Flat", acres: 30, crop: mix, seeded: "2020-05-11", grass: .55, product: hay, feed: 110},
				{name: "Silver Lot", acres: 20, crop: mix, seeded: "2022-05-12", grass: .45, product: hay, feed: 115},
				{name: "Moon Piece", acres: 16, crop: red, seeded: "2023-03-16", product: hay, feed: 120, tells: watched},
			}},
		{"Fiddlewood", "Larkmoor", 8, 3.5, ridge, steady, fairLab,
			[]book.Contact{person("Rosamund Veale", "owner", "25", "rosamund@fiddlewood"), person("Tod Veale", "crops", "26", "")},
			[]plot{
				{name: "Bow Meadow", acres: 24, crop: alf, seeded: "2024-04-27", product: hlg, feed: 155, tells: sentinel | uncounted},
				{name: "Rosin Lot", acres: 19, crop: alf, seeded: "2022-05-06", product: hlg, feed: 145, stems: 39.5, tells: dug},
				{name: "String Field", acres: 12, crop: mix, seeded: "2024-05-09", grass: .2, product: hlg, feed: 145},
				{name: "Bridge Piece", acres: 21, crop: red, seeded: "2022-03-24", product: bal, feed: 125, turned: "2025-09-24"},
				{name: "Bridge Piece", acres: 21, crop: alf, seeded: "2026-04-28", product: hlg, feed: 155},
			}},
		{"Wimberry", "Wend", -9, 0.5, crossing, seller, highLab,
			[]book.Contact{person("Ephraim Dallow", "owner", "27", "ephraim@wimberry")},
			[]plot{
				{name: "Jam Pot", acres: 14, crop: alf, seeded: "2023-05-05", product: hay, feed: 160, tells: uncounted},
				{name: "Bilberry Bank", acres: 26, crop: alf, seeded: "2021-04-29", product: hay, feed: 140, stems: 46},
				{name: "Copper Kettle", acres: 17, crop: alf, seeded: "2025-08-14", product: hay, feed: 165, stems: 72},
			}},
	}
}
