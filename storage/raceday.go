package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// RaceDay is what was entered about the morning of a race, besides the race itself.
// Travel is the way to the start in minutes where Way is true; Zone is the IANA
// zone of the start, empty for the rider's own.
type RaceDay struct {
	Travel int
	Way    bool
	Zone   string
}

// RaceDay reads what was entered about the morning of the rider's race; a way that was not
// told is that of the last race at the same place.
func (db *DB) RaceDay(ctx context.Context, athlete AthleteID, race RaceID) (RaceDay, error) {
	var travel sql.NullInt64
	var d RaceDay
	err := db.read(ctx, func(tx *sql.Tx) error {
		return tx.QueryRowContext(ctx, `SELECT travel, zone FROM race_day WHERE race_id = (SELECT id FROM race WHERE id = ? AND athlete_id = ?)`, race, athlete).Scan(&travel, &d.Zone)
	})
	if err == nil && !travel.Valid || errors.Is(err, ErrNotFound) {
		err = db.read(ctx, func(tx *sql.Tx) error { return travelThere(ctx, tx, athlete, race, &travel) })
	}
	if err != nil && !errors.Is(err, ErrNotFound) {
		return RaceDay{}, fmt.Errorf("morning of race %d: %w", race, err)
	}
	d.Travel, d.Way = int(travel.Int64), travel.Valid
	return d, nil
}

// travelThere is the way that the rider told last for a race at the same place.
func travelThere(ctx context.Context, tx *sql.Tx, athlete AthleteID, race RaceID, travel *sql.NullInt64) error {
	return tx.QueryRowContext(ctx, `SELECT d.travel FROM race_day d JOIN race r ON r.id = d.race_id JOIN race this ON this.id = ?1
		WHERE r.athlete_id = ?2 AND this.athlete_id = ?2 AND r.id <> ?1 AND this.place <> '' AND lower(r.place) = lower(this.place) AND d.travel IS NOT NULL
		ORDER BY r.date DESC, r.id DESC LIMIT 1`, race, athlete).Scan(travel)
}

// SetRaceDay keeps what was entered about the morning of the rider's race in place of
// what was entered before. Another rider's race or one that was removed is ErrNotFound.
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
