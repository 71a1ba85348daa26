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

// Key is what names the race to people and to buttons: its name and date.
func (r Race) Key() string { return r.Name + " " + r.Date.String() }

// ClubRace is a race with the rider who registered it.
type ClubRace struct {
	Athlete   string
	AthleteID AthleteID
	Race
}

// AddRace registers a race for the rider on the rider's today. The same name on
// the same date, in capitals or not, gives ErrExists. A race that was removed
// comes back with its number, the new details and the day on which it was
// registered first. Only such a race may lie before today; any other gives ErrPast.
func (db *DB) AddRace(ctx context.Context, athlete AthleteID, today planner.Date, race planner.Race) (added Race, revived bool, err error) {
	added.Race = race
	if err = race.Validate(); err == nil {
		err = db.write(ctx, func(tx *sql.Tx) (err error) {
			revived, err = addRace(ctx, tx, athlete, today, &added)
			return err
		})
	}
	if err != nil {
		return Race{}, false, fmt.Errorf("add race of rider %d on %s: %w", athlete, race.Date, err)
	}
	return added, revived, nil
}

// addRace registers a race, or brings one back.
func addRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, r *Race) (revived bool, err error) {
	r.Registered, r.Told = today, planner.Told{On: today}
	if revived, err = reviveRace(ctx, tx, athlete, today, r); err != nil || revived {
		return revived, err
	}
	return false, insertRace(ctx, tx, athlete, today, r)
}

// reviveRace brings back the race that was removed last under that name and date.
func reviveRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, r *Race) (bool, error) {
	old := Race{}
	err := scanRace(&old, tx.QueryRowContext(ctx, selectRace+`WHERE athlete_id = ? AND date = ? AND folded = ? AND withdrawn IS NOT NULL
		ORDER BY withdrawn DESC, id DESC LIMIT 1`, athlete, r.Date.String(), Fold(r.Name)).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	return true, keepRace(ctx, tx, athlete, today, old, r)
}

func insertRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, r *Race) error {
	err := tx.QueryRowContext(ctx, `INSERT INTO race
		(name, folded, date, priority, hours, kind, days, start, emphasis, taper_days, status, ended, place, registered, told, athlete_id)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id`,
		append(raceValues(&r.Race), today.String(), stored(r.On), athlete)...).Scan(&r.ID)
	if err == nil && r.Date < today {
		return ErrPast // and what was written is undone
	}
	r.Race.ID = int64(r.ID)
	return err
}

// keepRace makes a race what it is from today on, in the calendar. What it was
// until today, or until it was taken out, becomes a past version; a race that is
// again what it was before today is as if nothing had been. Its number and the
// day of registering stay.
func keepRace(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, was Race, is *Race) error {
	is.ID, is.Race.ID, is.Registered, is.Zone, is.Told = was.ID, was.Race.ID, was.Registered, was.Zone, planner.Told{On: was.On}
	if wholeMinutes(is.Hours) == wholeMinutes(was.Hours) {
		is.Hours = was.Hours // what people read and type is in whole minutes
	}
	if !was.Withdrawn.IsZero() || !sameVersion(was.Race, is.Race) {
		if err := retireRace(ctx, tx, today, &was); err != nil {
			return err
		}
		if err := recallRace(ctx, tx, today, is); err != nil {
			return err
		}
	}
	return hit(tx.ExecContext(ctx, `UPDATE race SET
		name = ?, folded = ?, date = ?, priority = ?, hours = ?, kind = ?, days = ?, start = ?, emphasis = ?, taper_days = ?, status = ?, ended = ?, place = ?,
		told = ?, withdrawn = NULL WHERE athlete_id = ? AND id = ?`, append(raceValues(&is.Race), stored(is.On), athlete, is.ID)...))
}

func wholeMinutes(hours float64) float64 { return math.Round(hours * 60) }

// sameVersion reports two races that plans cannot tell apart.
func sameVersion(a, b planner.Race) bool {
	a.Place, a.Zone, a.Told = b.Place, b.Zone, b.Told
	return a == b
}

// retireRace keeps what a race was until today, unless that was told today only.
func retireRace(ctx context.Context, tx *sql.Tx, today planner.Date, was *Race) error {
	until := today
	if !was.Withdrawn.IsZero() {
		until = was.Withdrawn
	}
	if was.On >= until {
		return nil
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO past_race (race_id, name, date, priority, hours, kind, days, start, emphasis, taper_days, status, ended, told, withdrawn)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`, concat([]any{was.ID}, versionValues(&was.Race), []any{stored(was.On), until.String()})...)
	return err
}

// recallRace finds the version that a race was until today and is again; else it is told today.
func recallRace(ctx context.Context, tx *sql.Tx, today planner.Date, is *Race) error {
	values := versionValues(&is.Race)
	values[3] = wholeMinutes(is.Hours)
	err := tx.QueryRowContext(ctx, `DELETE FROM past_race WHERE id = (SELECT max(id) FROM past_race WHERE race_id = ?
		AND name = ? AND date = ? AND priority = ? AND round(coalesce(hours, 0.0) * 60) = ? AND kind = ? AND days = ? AND start = ? AND emphasis = ? AND taper_days = ? AND status = ? AND ended IS ?
		AND withdrawn >= ?) RETURNING coalesce(hours, 0.0), told`, concat([]any{is.ID}, values, []any{today.String()})...).Scan(&is.Hours, (*optionalDate)(&is.On))
	if errors.Is(err, sql.ErrNoRows) {
		is.On = today
		return nil
	}
	return err
}

// ChangeRace lets change work on the rider's race and keeps the result, with
// nothing in between; it returns the race before and after. An error of change
// or a value out of range keeps the old one. A race that is another rider's or
// removed is ErrNotFound; a name that the rider has on that date already,
// ErrExists. change must not use the database.
func (db *DB) ChangeRace(ctx context.Context, athlete AthleteID, today planner.Date, id RaceID, change func(*planner.Race) error) (before, after Race, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		if err := scanRace(&before, tx.QueryRowContext(ctx, selectRace+`WHERE athlete_id = ? AND id = ?`+standing, athlete, id).Scan); err != nil {
			return err
		}
		after = before
		if err := change(&after.Race); err != nil {
			return err
		}
		if err := after.Validate(); err != nil || after == before {
			return err
		}
		return keepRace(ctx, tx, athlete, today, before, &after)
	})
	if err != nil {
		return Race{}, Race{}, fmt.Errorf("change race %d: %w", id, err)
	}
	return before, after, nil
}

// RemoveRace takes the rider's race out of the calendar; AddRace brings it back.
// The words that were written about it go: its place, placing and note.
// Another rider's race is ErrNotFound.
func (db *DB) RemoveRace(ctx context.Context, athlete AthleteID, today planner.Date, id RaceID) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		err := hit(tx.ExecContext(ctx, `UPDATE race SET withdrawn = max(?, coalesce(told, '')), place = '' WHERE athlete_id = ? AND id = ?`+standing,
			today.String(), athlete, id))
		if err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `UPDATE result SET result = '', note = '' WHERE race_id = ?`, id)
		return err
	})
	if err != nil {
		return fmt.Errorf("remove race %d: %w", id, err)
	}
	return nil
}

// Races lists the rider's races by date, past ones too.
func (db *DB) Races(ctx context.Context, athlete AthleteID) ([]Race, error) {
	races, err := races(ctx, db.source(), athlete)
	if err != nil {
		return nil, fmt.Errorf("races of rider %d: %w", athlete, explain(err))
	}
	return races, nil
}

const (
	raceColumns = `r.id, r.name, r.date, r.priority, coalesce(r.hours, 0.0) AS hours, r.kind, r.days, r.start, r.emphasis, r.taper_days, r.status, r.ended, r.place, r.registered, r.told, r.withdrawn, coalesce((SELECT zone FROM race_day d WHERE d.race_id = r.id), '') AS zone`
	selectRace  = `SELECT ` + raceColumns + ` FROM race r `
)

func races(ctx context.Context, q queryer, athlete AthleteID) ([]Race, error) {
	return list(ctx, q, scanRace, selectRace+`WHERE athlete_id = ?`+standing+` ORDER BY date, folded`, athlete)
}

// raceVersions has all versions of riders' races, those that were withdrawn too.
const raceVersions = `SELECT athlete_id, id, name, date, priority, hours, kind, days, start, emphasis, taper_days, status, ended, place, registered, told, withdrawn, zone FROM (
	SELECT athlete_id, ` + raceColumns + `, r.folded
	FROM race r WHERE ` + ofRiders + ` AND (withdrawn IS NULL OR withdrawn > coalesce(told, ''))
	UNION ALL SELECT athlete_id, r.id, p.name, p.date, p.priority, coalesce(p.hours, 0.0), p.kind, p.days, p.start, p.emphasis, p.taper_days, p.status, p.ended, '', r.registered, p.told, p.withdrawn, '', folded
	FROM past_race p JOIN race r ON r.id = p.race_id WHERE ` + ofRiders + `) ORDER BY date, folded, told, id`

// ClubRaces lists the races of all riders of the club by date, past ones too,
// without those of riders who left.
func (db *DB) ClubRaces(ctx context.Context, club ClubID) ([]ClubRace, error) {
	races, err := list(ctx, db.source(), func(r *ClubRace, scan func(...any) error) error {
		return scanRace(&r.Race, func(columns ...any) error { return scan(append([]any{&r.Athlete, &r.AthleteID}, columns...)...) })
	}, `SELECT a.name, a.id, `+raceColumns+`
		FROM race r JOIN athlete a ON a.id = r.athlete_id WHERE a.club_id = ? AND a.left_date IS NULL`+standing+` ORDER BY date, r.folded, a.name COLLATE NOCASE, a.id`, club)
	if err != nil {
		return nil, fmt.Errorf("races of club %d: %w", club, explain(err))
	}
	return races, nil
}

// versionValues are what a version keeps: name, date, priority, hours, kind,
// days, start, emphasis, taper_days, status, ended.
func versionValues(r *planner.Race) []any {
	return []any{r.Name, r.Date.String(), r.Priority.String(), nullable(r.Hours), r.Kind, r.Days, r.Start, r.Emphasis.String(), r.TaperDays, r.Status.String(), stored(r.Ended)}
}

// raceValues are the same with the folded name behind the name, and the place.
func raceValues(r *planner.Race) []any {
	return concat([]any{r.Name, Fold(r.Name)}, versionValues(r)[1:], []any{r.Place})
}

// scanRace reads raceColumns.
func scanRace(r *Race, scan func(...any) error) error {
	on, withdrawn := told(&r.Told)
	err := scan(&r.ID, &r.Name, date(&r.Date), oneOf(&r.Priority, planner.PriorityA, planner.PriorityB, planner.PriorityC), &r.Hours,
		&r.Kind, &r.Days, &r.Start, oneOf(&r.Emphasis, planner.NoEmphasis, planner.TrainThrough, planner.Important), &r.TaperDays,
		oneOf(&r.Status, planner.Planned, planner.Finished, planner.GaveUp, planner.NotStarted, planner.Cancelled), (*optionalDate)(&r.Ended), &r.Place, date(&r.Registered), on, withdrawn, &r.Zone)
	r.Race.ID = int64(r.ID)
	return err
}
