package reckon

import (
	"fmt"
	"strings"
	"testing"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

// TestNoConstantMovesUnseen moves every published constant by 1 % up and down and wants a printed
// answer to fail each time: a slip in a coefficient cannot pass. A proof of another method counts
// where that method declares the same constant of the same source.
func TestNoConstantMovesUnseen(t *testing.T) {
	type constant struct {
		key    string
		source source.ID
	}
	users := map[constant][]*method.Method{}
	var order []constant
	for _, m := range methods() {
		for _, k := range m.Constants {
			c := constant{k.Key, k.Source}
			if users[c] == nil {
				order = append(order, c)
			}
			users[c] = append(users[c], m)
		}
	}
	proofs := map[string][]method.Proof{}
	for _, p := range shippedProofs(t) {
		proofs[p.Method] = append(proofs[p.Method], p)
		m, err := Find(p.Method)
		if err != nil {
			t.Fatal(err)
		}
		if r := proveWith(m, p, nil); r.Failure != "" {
			t.Fatalf("%s %s: red before anything moved: %s", p.Method, p.Inputs, r.Failure)
		}
	}
	var unseen []string
	for _, c := range order {
		first, _ := users[c][0].Constant(c.key)
		for _, m := range users[c][1:] {
			if k, _ := m.Constant(c.key); k.Value != first.Value || k.Exempt != first.Exempt {
				t.Errorf("constant %s of %s is %v in %s and %v in %s", c.key, c.source, first.Value, users[c][0].Name, k.Value, m.Name)
			}
		}
		if first.Exempt != "" {
			continue
		}
		for _, move := range []float64{1.01, 0.99} {
			if !seen(users[c], proofs, c.key, first.Value*move) {
				unseen = append(unseen, fmt.Sprintf("%s: %s = %v moved to %v (%s)", users[c][0].Name, c.key, first.Value, first.Value*move, c.source))
			}
		}
	}
	if len(unseen) > 0 {
		t.Errorf("%d moves that no proof sees; add a printed answer, or a reason to be exempt:\n  %s", len(unseen), strings.Join(unseen, "\n  "))
	}
}

// seen reports whether a proof of one of the users turns red with the constant moved.
func seen(users []*method.Method, proofs map[string][]method.Proof, key string, to float64) bool {
	for _, m := range users {
		for _, p := range proofs[m.Name] {
			if proveWith(m, p, map[string]float64{key: to}).Failure != "" {
				return true
			}
		}
	}
	return false
}
