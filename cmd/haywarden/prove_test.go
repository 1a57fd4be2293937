package main

import (
	"bytes"
	"encoding/json"
	"testing"

	"haywarden/agronomy/method"
	"haywarden/reckon"
)

// TestAFailedProofIsAFailure proves that a printed value that is not reproduced, or cannot be run,
// is shown and ends in an error.
func TestAFailedProofIsAFailure(t *testing.T) {
	green := reckon.Proven{Proof: method.Proof{Method: "rfv", Output: "rfv", Want: "100", Tag: method.PublishedAnswer}, Numeric: true, Printed: 100, Number: 100}
	red := green
	red.Failure = "cannot run: no such source"
	for _, asJSON := range []bool{false, true} {
		var out bytes.Buffer
		m := &Main{Stdout: &out}
		if err := m.tellProofs([]reckon.Proven{green}, asJSON, false); err != nil {
			t.Errorf("json %t: %v for a green proof", asJSON, err)
		}
		out.Reset()
		err := m.tellProofs([]reckon.Proven{green, red}, asJSON, false)
		if err == nil || err.Error() != "1 of 2 printed values are not reproduced" {
			t.Errorf("json %t: error %v, want one failure told", asJSON, err)
		}
		if !bytes.Contains(out.Bytes(), []byte(red.Failure)) {
			t.Errorf("json %t: the failure is not shown:\n%s", asJSON, out.String())
		}
	}
}

// TestProveCountsWhatItShows proves that the counts of the JSON add up to its proofs.
func TestProveCountsWhatItShows(t *testing.T) {
	stdout, _, code := say(t, "prove", "--json")
	var got struct {
		Proofs []struct{ OK bool }
		Counts []struct{ Values, Tables int }
		Failed int
	}
	if err := json.Unmarshal([]byte(stdout), &got); err != nil {
		t.Fatal(err)
	}
	values := 0
	for _, c := range got.Counts {
		values += c.Values
		if c.Tables > c.Values {
			t.Errorf("%d tables of %d values", c.Tables, c.Values)
		}
	}
	if code != exitOK || got.Failed != 0 || values != len(got.Proofs) || values == 0 {
		t.Errorf("exit %d, %d failed, %d values counted, %d shown", code, got.Failed, values, len(got.Proofs))
	}
}
