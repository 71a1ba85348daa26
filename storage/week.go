package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
	"musette/planner/typed"
)

var weekVersions = versions{table: "week", key: []string{"from_date"}, content: []string{"text"}}

// SetWeek keeps a typical week from its date on; a week from the same date is replaced.
func (db *DB) SetWeek(ctx context.Context, athlete AthleteID, today planner.Date, week planner.DatedWeek) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		_, err := weekVersions.keep(ctx, tx, athlete, today, fact{key: []any{week.From.String()}, content: []any{week.Week.String()}})
		return err
	})
	if err != nil {
		return fmt.Errorf("week from %s of rider %d: %w", week.From, athlete, err)
	}
	return nil
}

// Weeks lists the rider's typical weeks, the earliest first.
func (db *DB) Weeks(ctx context.Context, athlete AthleteID) ([]planner.DatedWeek, error) {
	weeks, err := weeks(ctx, db.source(), athlete, standing)
	if err != nil {
		return nil, fmt.Errorf("weeks of rider %d: %w", athlete, explain(err))
	}
	return weeks, nil
}

func weeks(ctx context.Context, q queryer, athlete AthleteID, which string) ([]planner.DatedWeek, error) {
	return list(ctx, q, func(w *planner.DatedWeek, scan func(...any) error) error {
		var text string
		on, withdrawn := told(&w.Told)
		err := scan(date(&w.From), &text, on, withdrawn)
		if err != nil {
			return err
		}
		if w.Week, err = typed.Week(text); err != nil {
			return fmt.Errorf("stored week from %s: %w", w.From, err)
		}
		return nil
	}, `SELECT from_date, text, told, withdrawn FROM week WHERE athlete_id = ?`+which+` ORDER BY from_date, told, id`, athlete)
}
