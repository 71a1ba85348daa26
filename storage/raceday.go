package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// RaceDay is what was told of the morning of a race, besides the race itself.
// Travel is the way to the start in minutes where Way is true; Zone is the IANA
// zone of the start, empty for the rider's own.
type RaceDay struct {
	Travel int
	Way    bool
	Zone   string
}

// RaceDay reads what was told of the morning of the rider's race.
func (db *DB) RaceDay(ctx context.Context, athlete AthleteID, race RaceID) (RaceDay, error) {
	var travel sql.NullInt64
	var d RaceDay
	err := db.read(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `SELECT travel, zone FROM race_day WHERE race_id = (SELECT id FROM race WHERE id = ? AND athlete_id = ?)`, race, athlete).Scan(&travel, &d.Zone)
	})
	if errors.Is(err, ErrNotFound) {
		return RaceDay{}, nil
	}
	if err != nil {
		return RaceDay{}, fmt.Errorf("morning of race %d: %w", race, err)
	}
	d.Travel, d.Way = int(travel.Int64), travel.Valid
	return d, nil
}

// SetRaceDay keeps what was told of the morning of the rider's race in place of
// what was told before. Another rider's race or one that was removed is ErrNotFound.
func (db *DB) SetRaceDay(ctx context.Context, athlete AthleteID, race RaceID, d RaceDay) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `INSERT INTO race_day (race_id, travel, zone)
			SELECT id, ?, ? FROM race WHERE id = ? AND athlete_id = ? AND withdrawn IS NULL
			ON CONFLICT (race_id) DO UPDATE SET travel = excluded.travel, zone = excluded.zone`,
			sql.NullInt64{Int64: int64(d.Travel), Valid: d.Way}, d.Zone, race, athlete))
	})
	if err != nil {
		return fmt.Errorf("morning of race %d: %w", race, err)
	}
	return nil
}
