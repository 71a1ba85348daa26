package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
)

// FaultsTold are the words for what a person was told to be amiss with a club, and has not
// been well since.
func (db *DB) FaultsTold(ctx context.Context, club ClubID, key Key) ([]string, error) {
	told, err := list(ctx, db.source(), func(s *string, scan func(...any) error) error { return scan(s) },
		`SELECT fault FROM fault_told WHERE person_key = ? AND club_id = ?`, key.text, club)
	if err != nil {
		return nil, fmt.Errorf("what a person was told of club %d: %w", club, explain(err))
	}
	return told, nil
}

// NoteFaultsTold keeps that a person was told of faults of a club.
func (db *DB) NoteFaultsTold(ctx context.Context, club ClubID, key Key, faults []string) error {
	err := db.note(ctx, func(tx *sql.Tx) error {
		for _, fault := range faults {
			if _, err := tx.ExecContext(ctx, `INSERT INTO fault_told (club_id, person_key, fault) VALUES (?, ?, ?) ON CONFLICT DO NOTHING`, club, key.text, fault); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("note what a person was told of club %d: %w", club, err)
	}
	return nil
}

// EndFaults forgets who was told of faults that a club has no more, so that they are news
// when they come back. It writes only where there is something to forget.
func (db *DB) EndFaults(ctx context.Context, club ClubID, still []string) error {
	const over = `FROM fault_told WHERE club_id = ? AND fault NOT IN (SELECT value FROM json_each(?))`
	kept, err := json.Marshal(append([]string{}, still...))
	if err != nil {
		return err
	}
	var there bool
	err = db.source().QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 `+over+`)`, club, string(kept)).Scan(&there)
	if err == nil && there {
		err = db.note(ctx, func(tx *sql.Tx) error {
			_, err := tx.ExecContext(ctx, `DELETE `+over, club, string(kept))
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("faults of club %d that are mended: %w", club, explain(err))
	}
	return nil
}
