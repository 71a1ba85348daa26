package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"

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
	Athlete   string
	AthleteID AthleteID
	Race
}

// AddRace registers a race for the rider; race.Registered is the rider's today.
// The same name on the same date, in capitals or not, gives ErrExists. A race
// that was removed comes back with its number, the new details and the day on
// which it was registered first, unless it matters more than before. Only such
// a race may lie before race.Registered; any other gives ErrPast.
func (db *DB) AddRace(ctx context.Context, athlete AthleteID, race planner.Race) (added Race, revived bool, err error) {
	added.Race = race
	if err = race.Validate(); err == nil {
		err = db.write(ctx, func(tx *sql.Tx) (err error) {
			revived, err = db.reviveRace(ctx, tx, athlete, &added)
			if err != nil || revived {
				return err
			}
			return insertRace(ctx, tx, athlete, &added)
		})
	}
	if err != nil {
		return Race{}, false, fmt.Errorf("add race of rider %d on %s: %w", athlete, race.Date, err)
	}
	return added, revived, nil
}

// reviveRace brings back the race that was removed last under that name and date.
func (db *DB) reviveRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, r *Race) (bool, error) {
	old := Race{}
	err := tx.QueryRowContext(ctx, selectRace+`WHERE athlete_id = ? AND date = ? AND folded = ? AND removed_ms IS NOT NULL
		ORDER BY removed_ms DESC, id DESC LIMIT 1`, athlete, r.Date.String(), Fold(r.Name)).Scan(raceRow(&old)...)
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	r.ID = old.ID
	if r.Priority >= old.Priority {
		r.Registered = old.Registered
	}
	if math.Round(r.Hours*60) == math.Round(old.Hours*60) {
		r.Hours = old.Hours // what people read and type is in whole minutes
	}
	return true, updateRace(ctx, tx, athlete, r)
}

func insertRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, r *Race) error {
	err := tx.QueryRowContext(ctx, `INSERT INTO race
		(name, folded, date, priority, hours, kind, days, start, emphasis, place, registered, athlete_id)
		VALUES (?, ?, ?, ?, nullif(?, 0.0), ?, ?, ?, ?, ?, ?, ?) RETURNING id`,
		append(raceValues(&r.Race), athlete)...).Scan(&r.ID)
	if err == nil && r.Date < r.Registered {
		return ErrPast // and what was written is undone
	}
	return err
}

// updateRace writes the race's row, which is in the calendar from then on.
func updateRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, r *Race) error {
	return hit(tx.ExecContext(ctx, `UPDATE race SET
		name = ?, folded = ?, date = ?, priority = ?, hours = nullif(?, 0.0), kind = ?, days = ?, start = ?, emphasis = ?, place = ?, registered = ?,
		removed_ms = NULL WHERE athlete_id = ? AND id = ?`, append(raceValues(&r.Race), athlete, r.ID)...))
}

// ChangeRace lets change work on the rider's race and keeps the result, with
// nothing in between; it returns the race before and after. An error of change
// or a value out of range keeps the old one. A race that is another rider's or
// removed is ErrNotFound; a name that the rider has on that date already,
// ErrExists. change must not use the database.
func (db *DB) ChangeRace(ctx context.Context, athlete AthleteID, id RaceID, change func(*planner.Race) error) (before, after Race, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, selectRace+`WHERE athlete_id = ? AND id = ? AND removed_ms IS NULL`, athlete, id).Scan(raceRow(&before)...)
		if err != nil {
			return err
		}
		after = before
		if err := change(&after.Race); err != nil {
			return err
		}
		if err := after.Validate(); err != nil || after == before {
			return err
		}
		return updateRace(ctx, tx, athlete, &after)
	})
	if err != nil {
		return Race{}, Race{}, fmt.Errorf("change race %d: %w", id, err)
	}
	return before, after, nil
}

// RemoveRace takes the rider's race out of the calendar; AddRace brings it back.
// Another rider's race is ErrNotFound.
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

const selectRace = `SELECT id, name, date, priority, coalesce(hours, 0.0), kind, days, start, emphasis, place, registered FROM race `

func races(ctx context.Context, q queryer, athlete AthleteID) ([]Race, error) {
	return list(ctx, q, func(r *Race, scan func(...any) error) error { return scan(raceRow(r)...) },
		selectRace+`WHERE athlete_id = ? AND removed_ms IS NULL ORDER BY date, folded`, athlete)
}

// ClubRaces lists the races of all riders of the club by date, past ones too.
func (db *DB) ClubRaces(ctx context.Context, club ClubID) ([]ClubRace, error) {
	races, err := list(ctx, db.reader, func(r *ClubRace, scan func(...any) error) error {
		return scan(append([]any{&r.Athlete, &r.AthleteID}, raceRow(&r.Race)...)...)
	}, `SELECT a.name, a.id, r.id, r.name, date, priority, coalesce(hours, 0.0), kind, days, start, emphasis, place, registered
		FROM race r JOIN athlete a ON a.id = r.athlete_id WHERE a.club_id = ? AND removed_ms IS NULL ORDER BY date, r.folded, a.name COLLATE NOCASE, a.id`, club)
	if err != nil {
		return nil, fmt.Errorf("races of club %d: %w", club, explain(err))
	}
	return races, nil
}

// raceValues are a race's columns for writing: name, folded name, date,
// priority, hours, kind, days, start, emphasis, place, registered.
func raceValues(r *planner.Race) []any {
	return []any{r.Name, Fold(r.Name), r.Date.String(), r.Priority.String(), r.Hours,
		r.Kind, r.Days, r.Start, r.Emphasis.String(), r.Place, r.Registered.String()}
}

// raceRow reads the columns of selectRace.
func raceRow(r *Race) []any {
	return []any{&r.ID, &r.Name, date(&r.Date), oneOf(&r.Priority, planner.PriorityA, planner.PriorityB, planner.PriorityC), &r.Hours,
		&r.Kind, &r.Days, &r.Start, oneOf(&r.Emphasis, planner.TrainThrough, planner.Important), &r.Place, date(&r.Registered)}
}
