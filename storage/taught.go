package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"musette/planner"
)

var taughtVersions = versions{table: "taught", content: []string{"races", "low", "middle", "high"}}

// SetTaught keeps what the rider's races have taught, nil where that is nothing any more.
func (db *DB) SetTaught(ctx context.Context, athlete AthleteID, today planner.Date, t *planner.Taught) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		if t == nil {
			if err := taughtVersions.withdraw(ctx, tx, athlete, today); !errors.Is(err, ErrNotFound) {
				return err
			}
			return nil
		}
		if err := t.Validate(); err != nil {
			return err
		}
		_, err := taughtVersions.keep(ctx, tx, athlete, today, fact{content: []any{t.Races, t.Low, t.Mid, t.High}})
		return err
	})
	if err != nil {
		return fmt.Errorf("what races have taught rider %d: %w", athlete, err)
	}
	return nil
}

var taughtTable = factTable[planner.Taught]{"taught", "races, low, middle, high, told, withdrawn", "told, id", scanTaught}

func scanTaught(t *planner.Taught, scan func(...any) error) error {
	on, withdrawn := told(&t.Told)
	return scan(&t.Races, &t.Low, &t.Mid, &t.High, on, withdrawn)
}
