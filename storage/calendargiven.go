package storage

import (
	"context"
	"database/sql"
	"fmt"

	"musette/planner"
)

// keepGiven is for how many days after its last day a calendar entry that was given out is kept.
const keepGiven = 28

// GivenEntry is a calendar entry as it was last given out: a sum of what it held,
// its sequence, its first and its last day.
type GivenEntry struct {
	UID, State string
	Sequence   int
	Day, Until planner.Date
}

// GivenEntries lists the entries that were given out, but those that are long over.
func (db *DB) GivenEntries(ctx context.Context, athlete AthleteID, today planner.Date) ([]GivenEntry, error) {
	given, err := givenEntries(ctx, db.source(), athlete, ` AND until >= ?`, today.AddDays(-keepGiven).String())
	if err != nil {
		return nil, fmt.Errorf("calendar of rider %d: %w", athlete, err)
	}
	return given, nil
}

func givenEntries(ctx context.Context, q queryer, athlete AthleteID, which string, args ...any) ([]GivenEntry, error) {
	return list(ctx, q, func(e *GivenEntry, scan func(...any) error) error {
		return scan(&e.UID, &e.Sequence, &e.State, (*optionalDate)(&e.Day), (*optionalDate)(&e.Until))
	}, `SELECT uid, sequence, state, day, until FROM calendar_given WHERE athlete_id = ?`+which+` ORDER BY uid`, concat([]any{athlete}, args)...)
}

// GiveEntries keeps that entries of a calendar are given out and returns the sequence of
// each: the one that it has, but never one that was given with another state, nor
// less than one that was given. Others are forgotten when they are long over.
func (db *DB) GiveEntries(ctx context.Context, athlete AthleteID, today planner.Date, entries []GivenEntry) (map[string]int, error) {
	out := make(map[string]int, len(entries))
	err := db.write(ctx, func(tx *sql.Tx) error {
		before, err := givenEntries(ctx, tx, athlete, "")
		if err != nil {
			return err
		}
		given := make(map[string]GivenEntry, len(before))
		for _, e := range before {
			given[e.UID] = e
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM calendar_given WHERE athlete_id = ? AND (until IS NULL OR until < ?)`, athlete, today.AddDays(-keepGiven).String()); err != nil {
			return err
		}
		for _, e := range entries {
			if was, ok := given[e.UID]; ok && was.State == e.State {
				e.Sequence = max(e.Sequence, was.Sequence)
			} else if ok {
				e.Sequence = max(e.Sequence, was.Sequence+1)
			}
			out[e.UID] = e.Sequence
			if _, err := tx.ExecContext(ctx, `INSERT OR REPLACE INTO calendar_given (athlete_id, uid, sequence, state, day, until) VALUES (?, ?, ?, ?, ?, ?)`,
				athlete, e.UID, e.Sequence, e.State, e.Day.String(), e.Until.String()); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("calendar of rider %d: %w", athlete, err)
	}
	return out, nil
}
