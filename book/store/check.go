package store

import (
	"context"
	"errors"
	"fmt"

	"haywarden/weather"
)

// Check reads the whole book: the database's own checks where it offers them (SQLite), every fact,
// every block and every forecast, replaced ones included. What it finds is an [ErrDamaged] that lists
// the findings.
func (db *DB) Check(ctx context.Context) error {
	const doing = "check"
	if db.info.Engine == SQLite {
		if err := sound(ctx, db.read); err != nil {
			return db.fail(ctx, doing, err)
		}
	}
	facts, err := db.Facts(ctx, Filter{})
	if err != nil {
		return err
	}
	var findings []error
	for _, f := range facts {
		if _, err := f.Read(); err != nil {
			findings = append(findings, err)
		}
	}
	damaged, err := db.damagedBlocks(ctx)
	if err != nil {
		return db.fail(ctx, doing, err)
	}
	findings = append(findings, damaged...)
	if damaged, err = db.damagedForecasts(ctx); err != nil {
		return db.fail(ctx, doing, err)
	}
	if findings = append(findings, damaged...); len(findings) > 0 {
		return db.fail(ctx, doing, fmt.Errorf("%w: %w", ErrDamaged, errors.Join(findings...)))
	}
	return nil
}

func (db *DB) damagedBlocks(ctx context.Context) (findings []error, err error) {
	stations, err := db.reads.NewestStations(ctx, lastInstant)
	if err != nil {
		return nil, err
	}
	for _, st := range stations {
		rows, err := db.reads.AllBlocks(ctx, st.ID)
		if err != nil {
			return nil, err
		}
		for _, row := range rows {
			if _, err := weather.DecodeBlock(st.ID, int(row.Year), row.Days); err != nil {
				findings = append(findings, err)
			}
		}
	}
	return findings, nil
}
