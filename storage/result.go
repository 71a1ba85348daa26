package storage

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"musette/planner"
)

// Result is how a race went: Feeling is how the legs were, 1 to 10; Place is a
// placing or a time, as it was written.
type Result struct {
	Race        RaceID
	Feeling     int
	Place, Note string
	Added       time.Time
}

// SetResult keeps how the rider's race went; what was told before is replaced.
// A race of another rider is ErrNotFound.
func (db *DB) SetResult(ctx context.Context, athlete AthleteID, r Result) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		return hit(tx.ExecContext(ctx, `INSERT INTO result (race_id, feeling, result, note, added_ms)
			SELECT id, ?, ?, ?, ? FROM race WHERE id = ? AND athlete_id = ? AND withdrawn IS NULL
			ON CONFLICT (race_id) DO UPDATE SET feeling = excluded.feeling, result = excluded.result, note = excluded.note`,
			r.Feeling, r.Place, r.Note, db.Now().UnixMilli(), r.Race, athlete))
	})
	if err != nil {
		return fmt.Errorf("result of race %d: %w", r.Race, err)
	}
	return nil
}

// RemoveResult forgets how the rider's race went; ErrNotFound when nothing was told.
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
	found, err := list(ctx, db.source(), func(r *Result, scan func(...any) error) error {
		return scan(&r.Race, &r.Feeling, &r.Place, &r.Note, instant{&r.Added})
	}, `SELECT race_id, feeling, result, x.note, added_ms FROM result x JOIN race r ON r.id = x.race_id WHERE r.athlete_id = ? AND r.withdrawn IS NULL`, athlete)
	if err != nil {
		return nil, fmt.Errorf("results of rider %d: %w", athlete, explain(err))
	}
	all := make(map[RaceID]Result, len(found))
	for _, r := range found {
		all[r.Race] = r
	}
	return all, nil
}

// results are the feelings that the planner's facts hold.
func results(ctx context.Context, q queryer, athlete AthleteID) ([]planner.Result, error) {
	return list(ctx, q, func(r *planner.Result, scan func(...any) error) error { return scan(&r.Race, &r.Feeling) },
		`SELECT r.name, x.feeling FROM result x JOIN race r ON r.id = x.race_id WHERE r.athlete_id = ? AND r.withdrawn IS NULL ORDER BY r.date, r.id`, athlete)
}
