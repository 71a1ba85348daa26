package storage

import (
	"context"
	"database/sql"
	"fmt"
)

// GivenEntry is a calendar entry as it was last given out: a sum of what it held
// and its sequence.
type GivenEntry struct {
	UID, State string
	Sequence   int
}

// GiveEntries keeps that entries of a calendar are given out and returns the sequence of
// each: the one that it has, but never one that was given with another state, nor
// less than one that was given. Entries that are not among them are forgotten.
func (db *DB) GiveEntries(ctx context.Context, athlete AthleteID, entries []GivenEntry) (map[string]int, error) {
	out := make(map[string]int, len(entries))
	err := db.write(ctx, func(tx *sql.Tx) error {
		before, err := list(ctx, tx, func(e *GivenEntry, scan func(...any) error) error { return scan(&e.UID, &e.Sequence, &e.State) },
			`SELECT uid, sequence, state FROM calendar_given WHERE athlete_id = ?`, athlete)
		if err != nil {
			return err
		}
		given := make(map[string]GivenEntry, len(before))
		for _, e := range before {
			given[e.UID] = e
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM calendar_given WHERE athlete_id = ?`, athlete); err != nil {
			return err
		}
		for _, e := range entries {
			if was, ok := given[e.UID]; ok && was.State == e.State {
				e.Sequence = max(e.Sequence, was.Sequence)
			} else if ok {
				e.Sequence = max(e.Sequence, was.Sequence+1)
			}
			out[e.UID] = e.Sequence
			if _, err := tx.ExecContext(ctx, `INSERT INTO calendar_given (athlete_id, uid, sequence, state) VALUES (?, ?, ?, ?)`, athlete, e.UID, e.Sequence, e.State); err != nil {
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
