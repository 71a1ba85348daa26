package storage

import (
	"context"
	"database/sql"
	"fmt"
)

// KitItem is a thing that a rider packs besides the usual list, or, with Leave, one
// of that list that stays at home.
type KitItem struct {
	Item  string
	Leave bool
}

// Kit is what the rider packs otherwise, by name.
func (db *DB) Kit(ctx context.Context, athlete AthleteID) ([]KitItem, error) {
	items, err := list(ctx, db.source(), func(k *KitItem, scan func(...any) error) error { return scan(&k.Item, &k.Leave) },
		`SELECT item, leave FROM kit WHERE athlete_id = ? ORDER BY item`, athlete)
	if err != nil {
		return nil, fmt.Errorf("kit of rider %d: %w", athlete, explain(err))
	}
	return items, nil
}

// SetKit keeps what the rider packs otherwise in place of what was kept.
func (db *DB) SetKit(ctx context.Context, athlete AthleteID, items []KitItem) error {
	err := db.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM kit WHERE athlete_id = ?`, athlete); err != nil {
			return err
		}
		for _, k := range items {
			if _, err := tx.ExecContext(ctx, `INSERT INTO kit (athlete_id, item, leave) VALUES (?, ?, ?)`, athlete, k.Item, k.Leave); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("kit of rider %d: %w", athlete, err)
	}
	return nil
}
