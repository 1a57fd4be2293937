package advice

import (
	"fmt"

	"haywarden/agronomy/forage"
	"haywarden/agronomy/storage"
)

// WhatATestTells says what sampling and one laboratory leave open of a lot's feed value, at a forage of RFV
// 152: what a test can decide, and what it cannot.
func WhatATestTells() string {
	const adf, ndf = 30, 40
	sd := forage.PublishedLabSpread().OfLot(storage.UsualCores).RFV(adf, ndf)
	return fmt.Sprintf("What a test can tell: %s From one lot to another, %s or more are a difference; less is chance.",
		forage.ToldValue(forage.RFVPoints, forage.PublishedFeedValue().Of(adf, ndf), sd, storage.UsualCores), forage.LeastApart(forage.RFVPoints, sd, sd))
}
