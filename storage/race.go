package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"musette/planner"
)

// RaceID is a race's number in the database; it is never used twice.
type RaceID int64

// Race is a stored race.
type Race struct {
	ID RaceID
	planner.Race
}

// ClubRace is a race with the rider who registered it.
type ClubRace struct {
	Athlete string
	Race
}

// AddRace registers a race for the rider. Without a day of registration it is
// today in the rider's zone. The same name on the same date, in capitals or
// not, gives ErrExists. A race that was removed before keeps its first day of
// registration unless it matters more now.
func (db *DB) AddRace(ctx context.Context, athlete AthleteID, race planner.Race) (Race, error) {
	added := Race{Race: race}
	err := race.Validate()
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error { return db.insertRace(ctx, tx, athlete, &added) })
	}
	if err != nil {
		return Race{}, fmt.Errorf("add race of rider %d on %s: %w", athlete, race.Date, err)
	}
	return added, nil
}

func (db *DB) insertRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, r *Race) error {
	if r.Registered.IsZero() {
		rider, err := athleteByID(ctx, tx, athlete)
		if err != nil {
			return err
		}
		zone, err := time.LoadLocation(rider.Zone)
		if err != nil {
			return err
		}
		r.Registered = planner.DateOf(db.Now().In(zone))
	}
	var removed planner.Race
	err := tx.QueryRowContext(ctx, `DELETE FROM race WHERE athlete_id = ? AND date = ? AND name = ? COLLATE NOCASE AND removed_ms IS NOT NULL
		RETURNING registered, priority`, athlete, r.Date.String(), r.Name).
		Scan(date(&removed.Registered), oneOf(&removed.Priority, planner.PriorityA, planner.PriorityB, planner.PriorityC))
	switch {
	case err == nil && r.Priority >= removed.Priority: // raised, it counts as registered now
		r.Registered = min(r.Registered, removed.Registered)
	case err != nil && !errors.Is(err, sql.ErrNoRows):
		return err
	}
	return tx.QueryRowContext(ctx, `INSERT INTO race
		(name, date, priority, hours, kind, days, start, emphasis, place, registered, athlete_id)
		VALUES (?, ?, ?, nullif(?, 0.0), ?, ?, ?, ?, ?, ?, ?) RETURNING id`,
		append(raceValues(&r.Race), athlete)...).Scan(&r.ID)
}

// WasRemoved reports whether the rider has removed a race of that name, in
// capitals or not, on that date.
func (db *DB) WasRemoved(ctx context.Context, athlete AthleteID, name string, on planner.Date) (removed bool, err error) {
	err = db.reader.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM race
		WHERE athlete_id = ? AND date = ? AND name = ? COLLATE NOCASE AND removed_ms IS NOT NULL)`, athlete, on.String(), name).Scan(&removed)
	if err != nil {
		return false, fmt.Errorf("removed races of rider %d: %w", athlete, explain(err))
	}
	return removed, nil
}

// ChangeRace replaces the rider's race that has race.ID. Another rider's race
// is ErrNotFound; a name that the rider has on that date already, ErrExists.
func (db *DB) ChangeRace(ctx context.Context, athlete AthleteID, race Race) error {
	err := race.Validate()
	if err == nil {
		err = db.write(ctx, func(tx *sql.Tx) error {
			return hit(tx.ExecContext(ctx, `UPDATE race SET
				name = ?, date = ?, priority = ?, hours = nullif(?, 0.0), kind = ?, days = ?, start = ?, emphasis = ?, place = ?, registered = ?
				WHERE athlete_id = ? AND id = ? AND removed_ms IS NULL`, append(raceValues(&race.Race), athlete, race.ID)...))
		})
	}
	if err != nil {
		return fmt.Errorf("change race %d: %w", race.ID, err)
	}
	return nil
}

// RemoveRace takes the rider's race out of the calendar; another rider's race is
// ErrNotFound. Adding it again brings back the day on which it was registered.
func (db *DB) RemoveRace(ctx context.Context, athlete AthleteID, id RaceID) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `UPDATE race SET removed_ms = ? WHERE athlete_id = ? AND id = ? AND removed_ms IS NULL`,
			db.Now().UnixMilli(), athlete, id))
	})
	if err != nil {
		return fmt.Errorf("remove race %d: %w", id, err)
	}
	return nil
}

// Races lists the rider's races by date, past ones too.
func (db *DB) Races(ctx context.Context, athlete AthleteID) ([]Race, error) {
	races, err := races(ctx, db.reader, athlete)
	if err != nil {
		return nil, fmt.Errorf("races of rider %d: %w", athlete, explain(err))
	}
	return races, nil
}

func races(ctx context.Context, q queryer, athlete AthleteID) ([]Race, error) {
	return list(ctx, q, func(r *Race, scan func(...any) error) error {
		return scan(append([]any{&r.ID}, raceColumns(&r.Race)...)...)
	}, `SELECT id, name, date, priority, coalesce(hours, 0.0), kind, days, start, emphasis, place, registered
		FROM race WHERE athlete_id = ? AND removed_ms IS NULL ORDER BY date, name COLLATE NOCASE`, athlete)
}

// ClubRaces lists the races of all riders of the club by date, past ones too.
func (db *DB) ClubRaces(ctx context.Context, club ClubID) ([]ClubRace, error) {
	races, err := list(ctx, db.reader, func(r *ClubRace, scan func(...any) error) error {
		return scan(append([]any{&r.Athlete, &r.ID}, raceColumns(&r.Race.Race)...)...)
	}, `SELECT a.name, r.id, r.name, date, priority, coalesce(hours, 0.0), kind, days, start, emphasis, place, registered
		FROM race r JOIN athlete a ON a.id = r.athlete_id WHERE a.club_id = ? AND removed_ms IS NULL ORDER BY date, r.name COLLATE NOCASE, a.name`, club)
	if err != nil {
		return nil, fmt.Errorf("races of club %d: %w", club, explain(err))
	}
	return races, nil
}

// raceValues and raceColumns hold to one order: name, date, priority, hours,
// kind, days, start, emphasis, place, registered.
func raceValues(r *planner.Race) []any {
	return []any{r.Name, r.Date.String(), r.Priority.String(), r.Hours,
		r.Kind, r.Days, r.Start, r.Emphasis.String(), r.Place, r.Registered.String()}
}

func raceColumns(r *planner.Race) []any {
	return []any{&r.Name, date(&r.Date), oneOf(&r.Priority, planner.PriorityA, planner.PriorityB, planner.PriorityC), &r.Hours,
		&r.Kind, &r.Days, &r.Start, oneOf(&r.Emphasis, planner.TrainThrough, planner.Important), &r.Place, date(&r.Registered)}
}
