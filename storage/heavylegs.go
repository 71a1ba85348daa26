package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// keepHeavy is for how many days heavy legs are kept: older ones say nothing any more.
const keepHeavy = 28

// AddHeavyLegs keeps a day on which the rider told of heavy legs. isNew reports that
// it was not told before.
func (db *DB) AddHeavyLegs(ctx context.Context, athlete AthleteID, today, day planner.Date) (isNew bool, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM heavy_legs WHERE athlete_id = ? AND date < ?`, athlete, today.AddDays(-keepHeavy).String()); err != nil {
			return err
		}
		result, err := tx.ExecContext(ctx, `INSERT INTO heavy_legs (athlete_id, date) VALUES (?, ?) ON CONFLICT DO NOTHING`, athlete, day.String())
		if err != nil {
			return err
		}
		n, err := result.RowsAffected()
		isNew = n > 0
		return err
	})
	if err != nil {
		return false, fmt.Errorf("heavy legs on %s: %w", day, err)
	}
	return isNew, nil
}

// RemoveHeavyLegs takes a day back; ErrNotFound where nothing was told of it.
func (db *DB) RemoveHeavyLegs(ctx context.Context, athlete AthleteID, day planner.Date) error {
	return db.changeRow(ctx, "take back heavy legs of rider", athlete, `DELETE FROM heavy_legs WHERE date = ? AND athlete_id = ?`, day.String(), athlete)
}

// HeavyLegs lists the days from one on of which the rider told heavy legs, in order.
func (db *DB) HeavyLegs(ctx context.Context, athlete AthleteID, from planner.Date) ([]planner.Date, error) {
	days, err := list(ctx, db.source(), func(d *planner.Date, scan func(...any) error) error { return scan(date(d)) },
		`SELECT date FROM heavy_legs WHERE athlete_id = ? AND date >= ? ORDER BY date`, athlete, from.String())
	if err != nil {
		return nil, fmt.Errorf("heavy legs of rider %d: %w", athlete, explain(err))
	}
	return days, nil
}
