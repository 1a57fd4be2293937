package reckon

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/source"
)

// longTable is the number of values from which a table is told in one line.
const longTable = 9

// tagWords say what a tag means to a reader.
func tagWords(t method.Tag) string {
	switch t {
	case method.PublishedAnswer:
		return "published answer"
	case method.ReferenceLibrary:
		return "reference library"
	case method.FittedTable:
		return "fitted to this same table"
	case method.OwnArithmetic:
		return "own arithmetic"
	}
	return string(t)
}

// ProofText sets proofs for people, by method and table. A long table is one line with its worst
// difference unless all is true; what failed is always shown.
func ProofText(proven []Proven, all bool) string {
	var b strings.Builder
	var last string
	for _, group := range tables(proven) {
		p := group[0].Proof
		if p.Method != last {
			fmt.Fprintf(&b, "%s\n", p.Method)
			last = p.Method
		}
		head := p.Table
		if head == "" {
			head = "single answer"
		}
		wrap(&b, "  ", "    ", fmt.Sprintf("%s (%s): %s", head, tagWords(p.Tag), cite(group[0].Source)))
		writeGroup(&b, group, all)
	}
	b.WriteString("\n")
	writeTallies(&b, Count(proven))
	return b.String()
}

// tables gathers the proofs of each method by table, tag and source, in the order in which they first
// appear.
func tables(proven []Proven) [][]Proven {
	type table struct {
		method, name string
		tag          method.Tag
		source       source.ID
	}
	var groups [][]Proven
	at := map[table]int{}
	for _, p := range proven {
		t := table{p.Proof.Method, p.Proof.Table, p.Proof.Tag, p.Proof.Source}
		i, ok := at[t]
		if !ok || t.name == "" {
			i = len(groups)
			at[t] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], p)
	}
	slices.SortStableFunc(groups, func(a, b []Proven) int {
		return cmp.Compare(rank(proven, a[0].Proof.Method), rank(proven, b[0].Proof.Method))
	})
	return groups
}

// rank is the place where a method first appears.
func rank(proven []Proven, name string) int {
	return slices.IndexFunc(proven, func(p Proven) bool { return p.Proof.Method == name })
}

func writeGroup(b *strings.Builder, group []Proven, all bool) {
	if all || len(group) < longTable {
		writeRows(b, group)
		return
	}
	var failed []Proven
	var worst *Proven
	for i := range group {
		p := &group[i]
		if p.Failure != "" {
			failed = append(failed, *p)
		}
		if p.Numeric && (worst == nil || math.Abs(p.Difference) > math.Abs(worst.Difference)) {
			worst = p
		}
	}
	text := fmt.Sprintf("%d values, ", len(group))
	if len(failed) > 0 {
		text += fmt.Sprintf("%d FAILED", len(failed))
	} else {
		text += "all reproduced"
	}
	if worst != nil {
		text += fmt.Sprintf("; worst %s of %s printed %s, ours %s, off %s of %s allowed",
			worst.Proof.Output, worst.Proof.Inputs, worst.Proof.Want, sayOurs(*worst), signed(worst.Difference), plain(worst.Proof.Tolerance))
	}
	wrap(b, "    ", "      ", text)
	writeRows(b, failed)
}

// writeRows sets proofs in columns: inputs, output, printed, ours, difference. Inputs too long for
// a column stand on the line above, the reason of a failure on the line below.
func writeRows(b *strings.Builder, group []Proven) {
	const longest = 34
	var in, out, want, ours int
	for _, p := range group {
		if len(p.Proof.Inputs) <= longest {
			in = max(in, len(p.Proof.Inputs))
		}
		out, want, ours = max(out, len(p.Proof.Output)), max(want, len(p.Proof.Want)), max(ours, len(sayOurs(p)))
	}
	for _, p := range group {
		inputs := p.Proof.Inputs
		if len(inputs) > longest {
			wrap(b, "    ", "      ", strings.ReplaceAll(inputs, ",", ", "))
			inputs = ""
		}
		verdict := "the same"
		if p.Numeric {
			verdict = fmt.Sprintf("off %s of %s", signed(p.Difference), plain(p.Proof.Tolerance))
		}
		if p.Failure != "" {
			verdict = "FAILED"
		}
		fmt.Fprintf(b, "    %-*s  %-*s  printed %*s  ours %*s  %s\n", in, inputs, out, p.Proof.Output, want, p.Proof.Want, ours, sayOurs(p), verdict)
		if p.Failure != "" {
			wrap(b, "      ", "      ", p.Failure)
		}
	}
}

func sayOurs(p Proven) string {
	if p.Numeric {
		return plain(p.Number)
	}
	return p.Word
}

func signed(v float64) string { return fmt.Sprintf("%+.2g", v) }

func writeTallies(b *strings.Builder, tallies []Tally) {
	for _, t := range tallies {
		fmt.Fprintf(b, "%-26s tables %3d, values %4d", tagWords(t.Tag), t.Tables, t.Values)
		if t.Failed > 0 {
			fmt.Fprintf(b, ", %d FAILED", t.Failed)
		}
		b.WriteString("\n")
	}
	fmt.Fprintf(b, "off X of Y: our answer less the printed one, and how much is allowed. A table counts once.\nOwn arithmetic guards against slips and proves no science.\n")
}

type proofsJSON struct {
	Proofs []provenJSON `json:"proofs"`
	Counts []tallyJSON  `json:"counts"`
	Failed int          `json:"failed"`
}

type provenJSON struct {
	Method     string     `json:"method"`
	Table      string     `json:"table,omitempty"`
	Tag        method.Tag `json:"tag"`
	Source     source.ID  `json:"source"`
	Cite       string     `json:"cite"`
	Inputs     string     `json:"inputs"`
	Output     string     `json:"output"`
	Published  any        `json:"published"`
	Ours       any        `json:"ours"`
	Difference *float64   `json:"difference,omitempty"`
	Tolerance  *float64   `json:"tolerance,omitempty"`
	OK         bool       `json:"ok"`
	Failure    string     `json:"failure,omitempty"`
}

type tallyJSON struct {
	Tag    method.Tag `json:"tag"`
	Tables int        `json:"tables"`
	Values int        `json:"values"`
	Failed int        `json:"failed"`
}

// ProofJSON is ProofText for scripts.
func ProofJSON(proven []Proven) ([]byte, error) {
	j := proofsJSON{Proofs: []provenJSON{}, Counts: []tallyJSON{}, Failed: Failed(proven)}
	for _, p := range proven {
		row := provenJSON{
			Method: p.Proof.Method, Table: p.Proof.Table, Tag: p.Proof.Tag, Source: p.Proof.Source, Cite: p.Source.Cite,
			Inputs: p.Proof.Inputs, Output: p.Proof.Output, Published: p.Proof.Want, Ours: p.Word,
			OK: p.Failure == "", Failure: p.Failure,
		}
		if p.Numeric {
			row.Published, row.Ours = p.Printed, p.Number
			row.Difference, row.Tolerance = &p.Difference, &p.Proof.Tolerance
		}
		j.Proofs = append(j.Proofs, row)
	}
	for _, t := range Count(proven) {
		j.Counts = append(j.Counts, tallyJSON(t))
	}
	return marshal(j)
}
