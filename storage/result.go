package storage

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"musette/planner"
)

// Result is how a race went, in parts that may be told one by one: Feeling is how
// the legs were, 1 to 10, 0 where that was not told; Place is a placing or a time,
// as it was written. Outcome is the race's status, Ended the day of giving up.
type Result struct {
	Race        RaceID
	Feeling     int
	Place, Note string
	Compared    planner.Compared
	Outcome     planner.RaceStatus
	Ended       planner.Date
	Added       time.Time
}

// UpdateResult lets change work on what was entered about how the rider's race went and
// keeps the result, with nothing in between; it returns it before and after. What
// change leaves alone stays. Another outcome is a change of the race, told today.
// A race of another rider is ErrNotFound. change must not use the database.
func (db *DB) UpdateResult(ctx context.Context, athlete AthleteID, today planner.Date, race RaceID, change func(*Result) error) (before, after Result, err error) {
	err = db.write(ctx, func(tx *sql.Tx) error {
		var was Race
		if err := scanRace(&was, tx.QueryRowContext(ctx, selectRace+`WHERE athlete_id = ? AND id = ?`+standing, athlete, race).Scan); err != nil {
			return err
		}
		told, err := list(ctx, tx, scanResult, selectResult+`r.id = ?`, race)
		if err != nil {
			return err
		}
		before = Result{Race: race, Outcome: was.Status, Ended: was.Ended, Added: db.Now()}
		if len(told) > 0 {
			before = told[0]
		}
		after = before
		if err := change(&after); err != nil {
			return err
		}
		after.Race, after.Added = before.Race, before.Added
		if err := keepOutcome(ctx, tx, athlete, today, was, &after); err != nil {
			return err
		}
		return putResult(ctx, tx, &after)
	})
	if err != nil {
		return Result{}, Result{}, fmt.Errorf("result of race %d: %w", race, err)
	}
	return before, after, nil
}

// keepOutcome makes a result's outcome that of its race.
func keepOutcome(ctx context.Context, tx *sql.Tx, athlete AthleteID, today planner.Date, was Race, r *Result) error {
	if r.Outcome == was.Status && r.Ended == was.Ended {
		return nil
	}
	is := was
	if is.Status, is.Ended = r.Outcome, r.Ended; r.Ended.IsZero() || r.Outcome != planner.GaveUp {
		is.Became(r.Outcome, today)
	}
	if err := is.Validate(); err != nil {
		return err
	}
	r.Ended = is.Ended
	return keepRace(ctx, tx, athlete, today, was, &is)
}

// putResult writes what was entered about a race; of which nothing was entered has no row.
func putResult(ctx context.Context, tx *sql.Tx, r *Result) error {
	if (*r == Result{Race: r.Race, Added: r.Added}) {
		_, err := tx.ExecContext(ctx, `DELETE FROM result WHERE race_id = ?`, r.Race)
		return err
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO result (race_id, feeling, result, note, compared, added_ms) VALUES (?, ?, ?, ?, ?, ?)
		ON CONFLICT (race_id) DO UPDATE SET feeling = excluded.feeling, result = excluded.result, note = excluded.note, compared = excluded.compared`,
		r.Race, nullable(r.Feeling), r.Place, r.Note, r.Compared.String(), r.Added.UnixMilli())
	return err
}

const selectResult = `SELECT race_id, coalesce(feeling, 0), result, x.note, compared, r.status, r.ended, added_ms FROM result x JOIN race r ON r.id = x.race_id WHERE `

func scanResult(r *Result, scan func(...any) error) error {
	return scan(&r.Race, &r.Feeling, &r.Place, &r.Note, comparedColumn(&r.Compared),
		oneOf(&r.Outcome, planner.Planned, planner.Finished, planner.GaveUp, planner.NotStarted, planner.Cancelled), (*optionalDate)(&r.Ended), instant{&r.Added})
}

// SetResult keeps how the rider's race went, all but its outcome; what was entered
// before is replaced.
// A race of another rider is ErrNotFound.
func (db *DB) SetResult(ctx context.Context, athlete AthleteID, r Result) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `INSERT INTO result (race_id, feeling, result, note, added_ms)
			SELECT id, ?, ?, ?, ? FROM race WHERE id = ? AND athlete_id = ? AND withdrawn IS NULL
			ON CONFLICT (race_id) DO UPDATE SET feeling = excluded.feeling, result = excluded.result, note = excluded.note, compared = ''`,
			r.Feeling, r.Place, r.Note, db.Now().UnixMilli(), r.Race, athlete))
	})
	if err != nil {
		return fmt.Errorf("result of race %d: %w", r.Race, err)
	}
	return nil
}

// RemoveResult forgets how the rider's race went; ErrNotFound when nothing was entered.
func (db *DB) RemoveResult(ctx context.Context, athlete AthleteID, race RaceID) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `DELETE FROM result WHERE race_id = (SELECT id FROM race WHERE id = ? AND athlete_id = ?)`, race, athlete))
	})
	if err != nil {
		return fmt.Errorf("forget result of race %d: %w", race, err)
	}
	return nil
}

// Results are the results of the rider's races, by race.
func (db *DB) Results(ctx context.Context, athlete AthleteID) (map[RaceID]Result, error) {
	found, err := list(ctx, db.source(), scanResult, selectResult+`r.athlete_id = ? AND r.withdrawn IS NULL`, athlete)
	if err != nil {
		return nil, fmt.Errorf("results of rider %d: %w", athlete, explain(err))
	}
	all := make(map[RaceID]Result, len(found))
	for _, r := range found {
		all[r.Race] = r
	}
	return all, nil
}

// resultFacts are what the planner's facts hold of how races went.
const resultFacts = `SELECT athlete_id, r.id, r.name, coalesce(x.feeling, 0), x.compared FROM race r JOIN result x ON x.race_id = r.id
	WHERE ` + ofRiders + ` AND r.withdrawn IS NULL AND (x.feeling IS NOT NULL OR x.compared <> '') ORDER BY r.date, r.id`

func scanResultFact(r *planner.Result, scan func(...any) error) error {
	return scan(&r.RaceID, &r.Race, &r.Feeling, comparedColumn(&r.Compared))
}

func comparedColumn(into *planner.Compared) any {
	return oneOf(into, planner.ComparedNot, planner.ComparedWorse, planner.ComparedSame, planner.ComparedBetter)
}
