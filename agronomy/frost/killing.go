package frost

import "math"

// Killing is one author's killing freeze of alfalfa top growth.
type Killing struct {
	Who   string
	F     float64 // at or below
	Hours float64 // for at least so long; 0 where the author names no time
	Where string  // season or field it was said of
}

// KillingFreezes lists the killing freezes in print, the coldest last. They disagree: at Ithaca, New
// York the latest first occurrence in 30 years is 5 November at 28 F and 10 December at 25 F.
// Source: [source.KillingFreeze].
func KillingFreezes() []Killing {
	return []Killing{
		{"Sheaffer, Minnesota", 28, 0, "fall"},
		{"MSU bulletin E2310", 28, 0, "fall, herbage injured below"},
		{"Tesar, Michigan", 26.6, 0, "fall"},
		{"other studies as listed by Cornell", 25, 0, "fall"},
		{"Ohio State Univ. Extension", 25, 0, "fall, several hours"},
		{"Univ. of Nevada Extension", 25, 2, "spring, growth that is not dormant"},
		{"Ontario OMAFRA 2024", 24.8, 4, "fall, -4 C"},
		{"Undersander, Wisconsin", 24, 4, "fall"},
		{"Univ. of Nebraska Extension", 24, 0, "fall; press versions say 25 F"},
		{"Lang, Iowa State 2017", 24, 0, "fall, a few hours; 26-28 F injures some only"},
		{"Iowa State Extension, Washington Co. 2013", 23, 4, "fall, 4-6 hours"},
	}
}

// TopsKilled is the killing freeze used unless another is asked for: 24 F for 4 hours. Show 28 F
// beside it. Source: [source.KillingFreeze].
func TopsKilled() Killing { return Killing{"Undersander, Wisconsin", 24, 4, "fall"} }

// Harm is what a spring night does to alfalfa tops.
type Harm string

// The harms, from none to worst.
const (
	NoHarm       Harm = "none"
	LeavesHarmed Harm = "leaves" // young leaves deformed, growing tips sound
	TopsHarmed   Harm = "tops"   // tops may be killed: look after two to four days
)

// SpringHarm judges a day by its lowest and highest temperature, F: tops from 24 F for 4 hours, young
// leaves from 30 F. It says where to go and look, not what will be found. Empty where a temperature is
// missing. Source: [source.SpringFrost].
func SpringHarm(tmin, tmax float64) Harm {
	const leavesF = 30
	k := TopsKilled()
	hours := HoursBelow(tmin, tmax, k.F)
	switch {
	case math.IsNaN(hours):
		return ""
	case hours >= k.Hours:
		return TopsHarmed
	case tmin <= leavesF:
		return LeavesHarmed
	}
	return NoHarm
}
