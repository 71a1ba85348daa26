package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"musette/planner"
)

// JoinRace registers another rider's race of the same club for the rider too: its
// name, date, start with its zone, place, kind and days. How much it matters is the rider's own,
// and so are the hours. A race that is not there or was cancelled is ErrNotFound,
// one that the rider has already ErrExists.
func (db *DB) JoinRace(ctx context.Context, athlete AthleteID, today planner.Date, race RaceID, priority planner.Priority) (added Race, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		var other Race
		err := scanRace(&other, tx.QueryRowContext(ctx, selectRace+`WHERE r.id = ?1 AND r.withdrawn IS NULL AND r.status <> 'cancelled' AND EXISTS (
			SELECT 1 FROM athlete a JOIN athlete o ON o.club_id = a.club_id WHERE a.id = ?2 AND o.id = r.athlete_id)`, race, athlete).Scan)
		if err != nil {
			return err
		}
		added.Race = planner.Race{Name: other.Name, Date: other.Date, Start: other.Start, Place: other.Place, Kind: other.Kind, Days: other.Days, Priority: priority}
		if _, err = addRace(ctx, tx, athlete, today, &added); err != nil {
			return err
		}
		if other.Zone == "" {
			other.Zone, err = zoneBetween(ctx, tx, race, athlete)
		}
		if err != nil || other.Zone == "" || other.Start == "" {
			return err
		}
		added.Zone = other.Zone
		_, err = tx.ExecContext(ctx, `INSERT INTO race_day (race_id, zone) VALUES (?, ?) ON CONFLICT (race_id) DO UPDATE SET zone = excluded.zone`, added.ID, other.Zone)
		return err
	})
	if err != nil {
		return Race{}, fmt.Errorf("join race %d: %w", race, err)
	}
	return added, nil
}

// zoneBetween is the zone of the rider of a race, in which its start was entered, empty
// where the other rider has the same.
func zoneBetween(ctx context.Context, tx *sql.Tx, race RaceID, athlete AthleteID) (string, error) {
	var owner AthleteID
	if err := tx.QueryRowContext(ctx, `SELECT athlete_id FROM race WHERE id = ?`, race).Scan(&owner); err != nil {
		return "", err
	}
	theirs, err := athleteByID(ctx, tx, owner)
	if err != nil {
		return "", err
	}
	mine, err := athleteByID(ctx, tx, athlete)
	if err != nil || theirs.Zone == mine.Zone {
		return "", err
	}
	return theirs.Zone, nil
}

// mostRepeats is how many races a series has at most: a year of weeks.
const mostRepeats = 53

// AddSeries registers a race on each of its weekdays up to a date, as races of
// their own, all or none. Those that the rider has already stay as they are;
// where that is all of them, it is ErrExists.
func (db *DB) AddSeries(ctx context.Context, athlete AthleteID, today planner.Date, race planner.Race, until planner.Date) (added []Race, err error) {
	n := race.Date.DaysUntil(until)/7 + 1
	switch {
	case until < race.Date:
		err = planner.BadInput("until", "%s is before %s. For example %s", until, race.Date, race.Date.AddDays(28))
	case n > mostRepeats:
		err = planner.BadInput("until", "%s would make %d races, and a series has at most %d. For example %s", until, n, mostRepeats, race.Date.AddDays(28))
	default:
		err = race.Validate()
	}
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			for i := range n {
				one := Race{Race: race}
				one.Date = race.Date.AddDays(7 * i)
				had, err := hasRace(ctx, tx, athlete, &one)
				if err == nil && !had {
					_, err = addRace(ctx, tx, athlete, today, &one)
					added = append(added, one)
				}
				if err != nil {
					return err
				}
			}
			if len(added) == 0 {
				return ErrExists
			}
			return nil
		})
	}
	if err != nil {
		return nil, fmt.Errorf("series of rider %d from %s: %w", athlete, race.Date, err)
	}
	return added, nil
}

// hasRace reports a race of that name and date in the rider's calendar.
func hasRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, r *Race) (bool, error) {
	err := tx.QueryRowContext(ctx, `SELECT 1 FROM race WHERE athlete_id = ? AND date = ? AND folded = ?`+standing, athlete, r.Date.String(), Fold(r.Name)).Scan(new(int))
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	return err == nil, err
}
