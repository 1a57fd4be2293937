package forage_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haywarden/agronomy/forage"
)

// TestTheNumbersTellTheirBasis proves the three signs, each on both bases: parts that add up to 100 or
// to the dry matter, an RFV that belongs to the fibre or to it over the dry matter, fibre no forage has.
func TestTheNumbersTellTheirBasis(t *testing.T) {
	for _, c := range []struct {
		r    forage.Report
		seen forage.Basis
		why  string
	}{
		{forage.Report{"dm": 50, "ndf": 40, "cp": 20, "ee": 2.5, "ash": 9, "nfc": 31.3}, forage.DryBasis, "add up to 102.8 and not"},
		{forage.Report{"dm": 50, "ndf": 20, "cp": 10, "ee": 1.25, "ash": 4.5, "nfc": 15.65}, forage.FedBasis, "add up to 51.4, its dry matter 50"},
		{forage.Report{"moisture": 50, "ndf": 40, "cp": 20, "ee": 2.5, "ash": 9, "nfc": 28.5}, forage.DryBasis, "add up to 100.0"},
		{forage.Report{"dm": 50, "ndf": 40, "adf": 30, "rfv": 152}, forage.DryBasis, "as it stands"},
		{forage.Report{"dm": 50, "ndf": 20, "adf": 15, "rfv": 152}, forage.FedBasis, "over its dry matter"},
		{forage.Report{"dm": 40, "ndf": 16}, forage.FedBasis, "NDF 16 is less than any forage has, and 40.0"},
		{forage.Report{"dm": 40, "ndf": 40}, forage.DryBasis, "NDF 40 would be 100"},
		{forage.Report{"dm": 88, "ndf": 40, "adf": 30}, "", ""},
		{forage.Report{"ndf": 16}, "", ""},                       // nothing tells how wet it is
		{forage.Report{"dm": 94, "ndf": 16, "adf": 8}, "", ""},   // too dry to tell
		{forage.Report{"dm": 50, "ndf": 5, "adf": 4}, "", ""},    // no forage on any basis
		{forage.Report{"dm": 50, "ndf": 30, "rfv": 300}, "", ""}, // one value, and the other is not there
	} {
		seen, why := forage.BasisSeen(c.r)
		if seen != c.seen || !strings.Contains(why, c.why) || (seen == "") != (why == "") {
			t.Errorf("%v: %q, %q; want %q by %q", c.r, seen, why, c.seen, c.why)
		}
	}
}

// TestNoReportReadsAsTheBasisItIsNotOn proves that a whole report is never taken for the other basis,
// whatever the forage and however wet.
func TestNoReportReadsAsTheBasisItIsNotOn(t *testing.T) {
	k := forage.PublishedFeedValue()
	rapid.Check(t, func(t *rapid.T) {
		ndf := rapid.Float64Range(25, 60).Draw(t, "ndf")
		r := forage.Report{
			"ndf": ndf, "adf": ndf * rapid.Float64Range(0.55, 0.85).Draw(t, "adf"), "cp": rapid.Float64Range(8, 25).Draw(t, "cp"),
			"ee": rapid.Float64Range(1, 4).Draw(t, "ee"), "ash": rapid.Float64Range(6, 12).Draw(t, "ash"),
		}
		r["nfc"] = 100 - r["ndf"]*(1-forage.BoundShare) - r["cp"] - r["ee"] - r["ash"]
		dm := rapid.Float64Range(18, 99).Draw(t, "dm")
		fed := forage.Report{}
		for code, v := range r {
			fed[code] = v * dm / 100
		}
		rfv := k.Of(r["adf"], r["ndf"])
		r["dm"], fed["dm"], r["rfv"], fed["rfv"] = dm, dm, rfv, rfv
		if seen, why := forage.BasisSeen(r); seen == forage.FedBasis {
			t.Fatalf("dry, %v: seen as fed: %s", r, why)
		}
		if seen, why := forage.BasisSeen(fed); seen == forage.DryBasis {
			t.Fatalf("as fed, %v: seen dry: %s", fed, why)
		}
		back, err := fed.FromFeed()
		if err != nil {
			t.Fatal(err)
		}
		for code, v := range r {
			if !closeTo(back[code], v, 1e-9) {
				t.Fatalf("%s: %g there and back %g", code, v, back[code])
			}
		}
	})
}
