package diagnosis

import "haywarden/agronomy/source"

// WeedGroup is what weeds of a kind cost a new fall seeding by their number. Source: [source.NewStandWeeds].
type WeedGroup struct {
	Name  string
	Rows  []WeedRow
	Cited source.ID
}

// WeedRow is a stretch of weeds a square foot with the yield that it takes, %.
type WeedRow struct {
	From, To  float64 // weeds a square foot; To 0: no end
	Low, High float64 // % of yield
}

// WeedGroups lists the printed groups.
func WeedGroups() []WeedGroup {
	id := source.NewStandWeeds
	return []WeedGroup{
		{"least competitive (henbit and its like)", []WeedRow{{10, 20, 0, 0}, {20, 0, 0, 5}}, id},
		{"middling", []WeedRow{{1, 4, 5, 10}, {4, 0, 10, 50}}, id},
		{"mustards", []WeedRow{{1, 2, 10, 30}, {3, 6, 30, 90}, {6, 0, 50, 100}}, id},
		{"cheat and volunteer wheat", []WeedRow{{1, 2, 5, 20}, {3, 6, 10, 60}, {6, 0, 20, 100}}, id},
	}
}

// WeedSays is what is known of weeds in new and in old stands. Sources: [source.NewStandWeeds],
// [source.OldStandWeeds].
func WeedSays() []string {
	return []string{
		"New stands: weeds that come up with the crop cost most. Keep it clean for the first 60 days; later ones seldom cost yield, and lower the feed value.",
		"Small weeds are the ones that can be dealt with: most labels want them under 4 in and name how many leaves the seedlings must have. The label decides, for every species in a mixture.",
		"Or clip: where weeds top the crop at 60 to 70 days, mowing them with the first cut does it (from memory).",
		"Old stands: weeds fill gaps, they seldom make them. Killing them adds little tonnage; it pays where hay is sold as pure alfalfa. Winter annuals that smother a stand are the exception, and are dealt with while alfalfa is dormant.",
		"By stems a square foot: 55 and over, leave them, unless it is cash hay; 40 to 54, only where weeds are over a fifth of the forage and two more years are wanted; under 40, rotate.",
		"Some harm animals: hoary alyssum horses; pigweed, lambsquarters and kochia may hold nitrate; nightshades are poisonous. Have such hay looked at before it is fed.",
	}
}
