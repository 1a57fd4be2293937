package reckon

import (
	"errors"
	"strings"
	"testing"
)

// TestHerdAndMoneyRefuseWhatCannotBe proves that an empty herd, a price below nothing and a line left
// out are each told in a line with the accepted range.
func TestHerdAndMoneyRefuseWhatCannotBe(t *testing.T) {
	const herd = "group=cows dmi_lb=50 forage_share=0.5 legume_share=0.5 storage_loss=0.1 feeding_loss=0.05 field_loss=0.1 yield=5"
	for _, tc := range []struct{ name, method, args, want string }{
		{"an empty herd", "herd-need", "head=0 " + herd, "herd-need: no animal in any group: head accepted over 0 in one group at least"},
		{"a herd below nothing", "herd-need", "head=-5 " + herd, "herd-need: head=-5: item 1: -5 is outside the accepted range; accepted: comma-separated numbers 0 to 100000"},
		{"groups without head", "herd-need", herd, "herd-need: head is missing; accepted: comma-separated numbers 0 to 100000"},
		{"a cow of no stage", "cow-intake", "weight=650 milk=35 fat=3.7", "cow-intake: want one of dim, days in milk, and wol, week of lactation; accepted: dim 0 to 700 days, or wol 0 to 100 weeks"},
		{"a price below nothing", "hay-price", "rfv=150 base=-176 base_rfv=137.5 per_point=1.3", "hay-price: base=-176: -176 $/ton is outside the accepted range; accepted: a number 0.01 to 2000 $/ton"},
		{"no price", "standing-hay", "yield=1.6 loss=0.1 harvest=70", "standing-hay: price is missing; accepted: a number 0.01 to 2000 $/ton"},
		{"a part of a budget left out", "partial-budget", "added_returns=122.5 added_costs=80 reduced_returns=17", "partial-budget: reduced_costs is missing; accepted: a number 0 to 20000 $/ac"},
		{"a cost below nothing", "cost-per-ton", "lines=land:-200 cut_cost=55 cuts=4 establishment=480 years=4 rate=0.06 yield=4.5", "cost-per-ton: lines=land:-200: item 1: land: -200 $/ac is outside the accepted range; accepted: comma-separated name:number, number 0 to 20000 $/ac"},
		{"chances short of 1", "risk-measures", "outcomes=260,181 chances=0.5,0.4 tail=0.2", "risk-measures: the chances add to 0.9: want a list that adds to 1"},
		{"a chance in percent", "cut-or-wait", "dry_now=262 wet_now=187 dry_later=260 wet_later=181 p_now=30 p_later=0.2", "cut-or-wait: p_now=30: 30 is outside the accepted range; accepted: a number 0 to 1"},
		{"days and chances that do not meet", "when-to-cut", "values=260,259 losses=70 chances=0.1", "when-to-cut: 1 chances for 2 days: want one for each day"},
	} {
		m, err := Find(tc.method)
		if err != nil {
			t.Fatal(err)
		}
		_, err = Ask(m, strings.Fields(tc.args), nil)
		if _, ok := errors.AsType[*BadInput](err); !ok || err.Error() != tc.want {
			t.Errorf("%s: %v\nwant %s", tc.name, err, tc.want)
		}
	}
}

// TestGroupsComeFromATable proves that a herd is read from a file with a row for each group.
func TestGroupsComeFromATable(t *testing.T) {
	files := opener(map[string]string{
		"groups.csv": "group,head,dmi_lb,forage_share,legume_share,note\nhigh cows,50,61.9,0.5,0.45,a\nlow cows,35,51.97,0.58,0.45,b\ndry,15,31.17,0.85,0.25,c\n",
	})
	m, err := Find("herd-need")
	if err != nil {
		t.Fatal(err)
	}
	a, err := Ask(m, strings.Fields("@groups.csv storage_loss=0.12 feeding_loss=0.05 field_loss=0.15 yield=5"), files)
	if err != nil {
		t.Fatal(err)
	}
	// 127.1, 86.6 and 18.1 tons of legume by group.
	if got, _ := a.Outputs[1].Value.(float64); got < 231.7 || got > 231.9 {
		t.Errorf("%g tons of legume, want 231.8", got)
	}
	if len(a.Notes) != 1 || !strings.Contains(a.Notes[0], "columns not used: note") {
		t.Errorf("notes %q", a.Notes)
	}
}
