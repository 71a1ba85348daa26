package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// Ride is what was ridden on a day, all of its rides together; 0 minutes is a missed day.
type Ride struct {
	planner.Ride
	Note string
}

// SetRide keeps what was ridden on a day; what was told of that day before is replaced.
func (db *DB) SetRide(ctx context.Context, athlete AthleteID, ride Ride) error {
	err := checkMinutes(ride.Minutes)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			_, err := tx.ExecContext(ctx, `INSERT INTO ride (athlete_id, date, minutes, rpe, note) VALUES (?, ?, ?, nullif(?, 0.0), ?)
				ON CONFLICT (athlete_id, date) DO UPDATE SET minutes = excluded.minutes, rpe = excluded.rpe, note = excluded.note`,
				athlete, ride.Date.String(), ride.Minutes, ride.RPE, ride.Note)
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("ride on %s: %w", ride.Date, err)
	}
	return nil
}

// RemoveRide forgets what was told of a day; ErrNotFound when nothing was.
func (db *DB) RemoveRide(ctx context.Context, athlete AthleteID, day planner.Date) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `DELETE FROM ride WHERE athlete_id = ? AND date = ?`, athlete, day.String()))
	})
	if err != nil {
		return fmt.Errorf("forget ride on %s: %w", day, err)
	}
	return nil
}

// Rides lists what was told of the rider's days from one on, the earliest first.
func (db *DB) Rides(ctx context.Context, athlete AthleteID, from planner.Date) ([]Ride, error) {
	rides, err := rides(ctx, db.reader, athlete, from)
	if err != nil {
		return nil, fmt.Errorf("rides of rider %d: %w", athlete, explain(err))
	}
	return rides, nil
}

func rides(ctx context.Context, q queryer, athlete AthleteID, from planner.Date) ([]Ride, error) {
	return list(ctx, q, func(r *Ride, scan func(...any) error) error {
		return scan(date(&r.Date), &r.Minutes, &r.RPE, &r.Note)
	}, `SELECT date, minutes, coalesce(rpe, 0.0), note FROM ride WHERE athlete_id = ? AND date >= ? ORDER BY date`, athlete, from.String())
}
