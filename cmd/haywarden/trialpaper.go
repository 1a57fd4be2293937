package main

import (
	"fmt"
	"os"
	"time"

	"haywarden/agronomy/unit"
	"haywarden/office"
	"haywarden/paper"
)

// writeShortlist prints a shortlist.
func writeShortlist(m *Main, s *office.TrialSheet, path string) error {
	data, err := paper.Tables(s.Printed(), unit.DayOf(time.Now()), false)
	if err != nil {
		return err
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return fmt.Errorf("write shortlist: %w", err)
	}
	fmt.Fprintf(m.Stdout, "%s\nWritten: %s\n", s.Says, path)
	return nil
}
