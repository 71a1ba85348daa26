package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// SetWeek keeps a typical week from its date on; a week from the same date is replaced.
func (db *DB) SetWeek(ctx context.Context, athlete AthleteID, week planner.DatedWeek) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO week (athlete_id, from_date, text) VALUES (?, ?, ?)
			ON CONFLICT (athlete_id, from_date) DO UPDATE SET text = excluded.text`,
			athlete, week.From.String(), week.Week.String())
		return err
	})
	if err != nil {
		return fmt.Errorf("week from %s of rider %d: %w", week.From, athlete, err)
	}
	return nil
}

// Weeks lists the rider's typical weeks, the earliest first.
func (db *DB) Weeks(ctx context.Context, athlete AthleteID) ([]planner.DatedWeek, error) {
	weeks, err := weeks(ctx, db.reader, athlete)
	if err != nil {
		return nil, fmt.Errorf("weeks of rider %d: %w", athlete, explain(err))
	}
	return weeks, nil
}

func weeks(ctx context.Context, q queryer, athlete AthleteID) ([]planner.DatedWeek, error) {
	return list(ctx, q, func(w *planner.DatedWeek, scan func(...any) error) error {
		var text string
		err := scan(date(&w.From), &text)
		if err != nil {
			return err
		}
		if w.Week, err = planner.ParseWeek(text); err != nil {
			return fmt.Errorf("stored week from %s: %w", w.From, err)
		}
		return nil
	}, `SELECT from_date, text FROM week WHERE athlete_id = ? ORDER BY from_date`, athlete)
}
