package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"
)

// Button is what a button does whose own id has no room for it.
type Button struct {
	Owner   Key // whose words it holds; zero: not known, or every coach's
	Command string
	Options map[string]string
}

// SaveButton keeps a button under an id of the caller's making.
func (db *DB) SaveButton(ctx context.Context, id string, b Button) error {
	options, err := json.Marshal(b.Options)
	if err == nil {
		err = db.note(ctx, func(tx *sql.Tx) error {
			_, err := tx.ExecContext(ctx, `INSERT INTO button (id, owner, command, options, made_ms) VALUES (?, ?, ?, ?, ?)`,
				id, nullable(b.Owner.text), b.Command, string(options), db.Now().UnixMilli())
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("save button: %w", err)
	}
	return nil
}

// FindButton is the button with that id; ErrNotFound when it is none or an old one.
func (db *DB) FindButton(ctx context.Context, id string) (b Button, err error) {
	var options string
	err = db.source().QueryRowContext(ctx, `SELECT coalesce(owner, ''), command, options FROM button WHERE id = ?`, id).Scan(&b.Owner.text, &b.Command, &options)
	if err == nil {
		err = json.Unmarshal([]byte(options), &b.Options)
	}
	if err != nil {
		return Button{}, fmt.Errorf("button by id: %w", explain(err))
	}
	return b, nil
}

// EraseButtons deletes the buttons made before an instant.
func (db *DB) EraseButtons(ctx context.Context, before time.Time) error {
	err := db.note(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM button WHERE made_ms < ?`, before.UnixMilli())
		return err
	})
	if err != nil {
		return fmt.Errorf("erase old buttons: %w", err)
	}
	return nil
}
