package method

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"haywarden/agronomy/source"
)

// Tag says what a proof leans on. The four are counted apart, and a table counts once.
type Tag string

// What a proof can lean on.
const (
	PublishedAnswer  Tag = "published"  // an answer printed by a source outside this project
	ReferenceLibrary Tag = "library"    // an answer of an independent general-purpose library
	FittedTable      Tag = "fitted"     // the very table that the method was fitted to
	OwnArithmetic    Tag = "arithmetic" // our own arithmetic: guards against slips, proves no science
)

// Proof is one printed answer that a method must reproduce.
type Proof struct {
	Method    string
	Table     string // proofs of one table share this name and count once
	Tag       Tag
	Source    source.ID
	Inputs    string // as typed on the command line: `adf=30 ndf=40`
	Output    string // an output key, with an index for a list: `days[0]`
	Want      string // a number, or a word
	Tolerance float64
	Line      int // in proofs.csv, for messages
}

// columns is the header of a proofs.csv.
var columns = []string{"method", "table", "tag", "source", "inputs", "output", "want", "tolerance"}

// ParseProofs reads a proofs.csv with the header
// method,table,tag,source,inputs,output,want,tolerance. Lines that start with # are remarks.
func ParseProofs(text string) ([]Proof, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	r.FieldsPerRecord = len(columns)
	header, err := r.Read()
	if err != nil || !slices.Equal(header, columns) {
		return nil, fmt.Errorf("read proofs: the first line is %q; want the header %s", header, strings.Join(columns, ","))
	}
	var proofs []Proof
	for {
		rec, err := r.Read()
		if errors.Is(err, io.EOF) {
			return proofs, nil
		}
		if err != nil {
			return nil, fmt.Errorf("read proofs: %w", err)
		}
		line, _ := r.FieldPos(0)
		p := Proof{Method: rec[0], Table: rec[1], Tag: Tag(rec[2]), Source: source.ID(rec[3]), Inputs: rec[4], Output: rec[5], Want: rec[6], Line: line}
		if rec[7] != "" {
			p.Tolerance, err = strconv.ParseFloat(rec[7], 64)
			if err != nil || !(p.Tolerance >= 0) || math.IsInf(p.Tolerance, 1) {
				return nil, fmt.Errorf("proofs line %d: tolerance %q; want a number from 0 on", line, rec[7])
			}
		}
		switch p.Tag {
		case PublishedAnswer, ReferenceLibrary, FittedTable, OwnArithmetic:
		default:
			return nil, fmt.Errorf("proofs line %d: tag %q; want published, library, fitted or arithmetic", line, rec[2])
		}
		proofs = append(proofs, p)
	}
}
