package reckon

import (
	"fmt"
	"slices"
	"strings"

	"haywarden/agronomy/method"
	"haywarden/agronomy/unit"
)

// readListedWord reads one word of a list. A word of the user's own may not hold the marks that part a
// list, or the same words could not be written back.
func readListedWord(text string, choices []string) (string, error) {
	if len(choices) == 0 && strings.ContainsAny(text, ":;=@") {
		return "", fmt.Errorf("%q holds one of : ; = @, which part inputs", text)
	}
	word, err := readWord(text, choices)
	if err != nil {
		return "", fmt.Errorf("%q: %w", text, err)
	}
	return word, nil
}

// readPairs reads name:number pairs, each name once.
func readPairs(text string, in method.Input, u unit.Unit) ([]method.Pair, error) {
	seen := map[string]bool{}
	return eachItem(text, func(s string) (method.Pair, error) {
		name, number, ok := strings.Cut(s, ":")
		name = strings.TrimSpace(name)
		if !ok || name == "" {
			return method.Pair{}, fmt.Errorf("%q is not written name:number", s)
		}
		word, err := readListedWord(name, in.Choices)
		if err != nil {
			return method.Pair{}, err
		}
		if seen[word] {
			return method.Pair{}, fmt.Errorf("%s is given twice", word)
		}
		seen[word] = true
		v, err := readNumber(strings.TrimSpace(number), in, u)
		if err != nil {
			return method.Pair{}, fmt.Errorf("%s: %w", word, err)
		}
		return method.Pair{Name: word, Value: v}, nil
	})
}

// readMatrix reads rows of numbers, all of one length.
func readMatrix(text string, in method.Input, u unit.Unit) ([][]float64, error) {
	var rows [][]float64
	for i, line := range strings.Split(text, ";") {
		row, err := eachItem(line, func(s string) (float64, error) { return readNumber(s, in, u) })
		if err != nil {
			return nil, fmt.Errorf("row %d: %w", i+1, err)
		}
		if i > 0 && len(row) != len(rows[0]) {
			return nil, fmt.Errorf("row %d has %d numbers and row 1 has %d", i+1, len(row), len(rows[0]))
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// fromFile takes from a file what an input could have been given in writing: one column for a list,
// two for pairs, all for a matrix or a sheet.
func fromFile(m *method.Method, in method.Input, name string, open Opener) (string, error) {
	if in.Kind == method.Sheet {
		return sheetFromFile(m, in, name, open)
	}
	if in.Kind != method.Pairs && in.Kind != method.Matrix {
		return readColumn(m, in, name, open)
	}
	header, rows, err := readTable(m, name, open)
	if err != nil {
		return "", err
	}
	bad := func(format string, args ...any) (string, error) {
		return "", &BadInput{Method: m.Name, Key: in.Key, Text: fmt.Sprintf("%s=@%s: ", in.Key, name) + fmt.Sprintf(format, args...)}
	}
	between, after := ",", ";"
	if in.Kind == method.Pairs {
		if between, after = ":", ","; len(header) != 2 {
			return bad("%d columns, found %s; accepted: two, the name and its number", len(header), strings.Join(header, ", "))
		}
	}
	lines := make([]string, len(rows))
	for i, row := range rows {
		for j := range row {
			row[j] = strings.TrimSpace(row[j])
		}
		if j := slices.IndexFunc(row, func(cell string) bool { return cell == "" || strings.ContainsAny(cell, ",;:") }); j >= 0 {
			return bad("row %d, column %s: %q; accepted: one value in every row", i+1, header[j], row[j])
		}
		lines[i] = strings.Join(row, between)
	}
	return strings.Join(lines, after), nil
}
