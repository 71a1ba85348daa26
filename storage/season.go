package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// ChangeSeason lets change work on all of the rider's races and the taper
// setting at once and keeps the result, with nothing in between: all of it or
// nothing. races are those of Races, to be changed in place; their numbers and
// the days on which they were registered stay.
// An error of change or a value out of range keeps what there was; a name that the
// rider has twice on a date then is ErrExists. change must not use the database.
func (db *DB) ChangeSeason(ctx context.Context, athlete AthleteID, today planner.Date, change func(races []Race, taper *planner.Taper) error) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		rider, err := athleteByID(ctx, tx, athlete)
		if err != nil {
			return err
		}
		was, err := races(ctx, tx, athlete)
		if err != nil {
			return err
		}
		wanted, settings := append([]Race(nil), was...), rider.Settings
		if err := change(wanted, &settings.Taper); err != nil {
			return err
		}
		for i := range wanted {
			if wanted[i] == was[i] {
				continue
			}
			if err := wanted[i].Validate(); err != nil {
				return err
			}
			if err := keepRace(ctx, tx, athlete, today, was[i], &wanted[i]); err != nil {
				return err
			}
		}
		if err := settings.validate(); err != nil {
			return err
		}
		return putSettings(ctx, tx, &rider, settings, today)
	})
	if err != nil {
		return fmt.Errorf("change season of rider %d: %w", athlete, err)
	}
	return nil
}
