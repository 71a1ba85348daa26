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

var rideVersions = versions{table: "ride", key: []string{"date"}, content: []string{"minutes", "rpe"}, notes: []string{"note"}}

// SetRide keeps what was ridden on a day; what was told of that day before is replaced.
func (db *DB) SetRide(ctx context.Context, athlete AthleteID, today planner.Date, ride Ride) error {
	err := checkMinutes(ride.Minutes)
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			_, err := rideVersions.keep(ctx, tx, athlete, today,
				fact{key: []any{ride.Date.String()}, content: []any{ride.Minutes, nullable(ride.RPE)}, notes: []any{ride.Note}})
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("ride on %s: %w", ride.Date, err)
	}
	return nil
}

// RemoveRide forgets what was told of a day; ErrNotFound when nothing was.
func (db *DB) RemoveRide(ctx context.Context, athlete AthleteID, today, day planner.Date) error {
	err := db.write(ctx, func(tx *sql.Tx) error { return rideVersions.withdraw(ctx, tx, athlete, today, day.String()) })
	if err != nil {
		return fmt.Errorf("forget ride on %s: %w", day, err)
	}
	return nil
}

// Rides lists what was told of the rider's days from one on, the earliest first.
func (db *DB) Rides(ctx context.Context, athlete AthleteID, from planner.Date) ([]Ride, error) {
	rides, err := rides(ctx, db.source(), athlete, from, standing)
	if err != nil {
		return nil, fmt.Errorf("rides of rider %d: %w", athlete, explain(err))
	}
	return rides, nil
}

func rides(ctx context.Context, q queryer, athlete AthleteID, from planner.Date, which string) ([]Ride, error) {
	return list(ctx, q, func(r *Ride, scan func(...any) error) error {
		on, withdrawn := told(&r.Told)
		return scan(date(&r.Date), &r.Minutes, &r.RPE, &r.Note, on, withdrawn)
	}, `SELECT date, minutes, coalesce(rpe, 0.0), note, told, withdrawn FROM ride WHERE athlete_id = ? AND date >= ?`+which+` ORDER BY date, told, id`, athlete, from.String())
}
